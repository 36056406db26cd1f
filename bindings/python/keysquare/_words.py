"""The words of pages and reports by language; those of the sentences about positions stand in the C++ headers.

A further language is one more `Words` in `_ALL`, beside the tables that `lesson/language.hpp` asks for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from keysquare import _core

ENGLISH = "en"


@dataclass(frozen=True)
class Words:
    """The words of one language. What stands in braces is filled in; `side` and `other` are names of sides, `move` and
    `moves` moves, `piece` a kind of man and `square` its square."""

    language: str
    sides: Mapping[str, str]
    kinds: Mapping[str, str]
    colours: Mapping[str, str]
    last_comma: str
    """Before the last word of a list."""

    # Of positions.
    to_move: str
    checkmated: str
    stalemated: str
    after: str
    at_the_start: str
    start_position: str
    in_the_game: str
    pass_: str
    """Instead of a move."""
    without: str
    """What must be thought of before a line; the first of such words gets a capital."""
    if_passes: str

    # Titles of entries, and what is said where there is nothing.
    threatens: str
    can_win: str
    what_to_do: str
    candidates: str
    no_candidate: str
    why: str
    plan: str
    can_do: str
    both_can_do: str
    way_of: str
    where_can_go: str
    has_to_see: str
    there_is_to_see: str
    threatens_nothing: str
    nobody_passes: str

    # Pages and files.
    contents: str
    skip: str
    diagram: str
    exercise: str
    answer: str
    answers: str
    answer_to: str
    answer_to_is_at_the_end: str
    answer_is_at_the_end: str
    page_legend: str
    markdown_legend: str
    marked: str
    arrows: str
    glyphs: Mapping[int, str]
    """What the glyphs from 7 on mean (1994 PGN standard, section 10)."""

    # Reports.
    turning_point: str
    turning_points: str
    worth_stopping: str
    where_in_report: tuple[str, str]
    """As `after` and `at_the_start`, within a sentence."""
    worth_stopping_at: str
    mates: str
    level: str
    one_pawn_more: str
    pawns_more: str

    # Counts.
    mobility: str
    mobility_at: str
    """The squares behind it."""
    no_turn: str

    def side(self, side: str) -> str:
        """The name of a side: "White"."""
        return self.sides[str(side)]

    def kind(self, kind: str) -> str:
        """The name of a kind of man: "knight"."""
        return self.kinds[str(kind)]

    def listed(self, words: Sequence[str]) -> str:
        """ "a1, d1 and e1"."""
        return self.last_comma.join(filter(None, (", ".join(words[:-1]), *words[-1:])))


_ENGLISH = Words(
    language="en",
    sides={"white": "White", "black": "Black"},
    kinds={kind: kind for kind in ("pawn", "knight", "bishop", "rook", "queen", "king")},
    colours={"light": "light", "dark": "dark"},
    last_comma=" and ",
    to_move="{side} to move",
    checkmated="{side} is checkmated",
    stalemated="{side} is stalemated",
    after="After {move}",
    at_the_start="At the start",
    start_position="start position",
    in_the_game="In the game",
    pass_="(pass)",
    without="without the man on {square}",
    if_passes="if {side} passes",
    threatens="What {side} threatens",
    can_win="What {side} can win",
    what_to_do="What to do about {move}",
    candidates="Moves that deserve a look",
    no_candidate="There is no candidate here.",
    why="Why {move} deserves a look",
    plan="{side}'s plan: {moves}",
    can_do="What {side} can do",
    both_can_do="What both sides can do",
    way_of="The way of the {piece} on {square}",
    where_can_go="Where the {piece} on {square} can go",
    has_to_see="What {side} has to see",
    there_is_to_see="What there is to see",
    threatens_nothing="{side} threatens nothing inside the search bound.",
    nobody_passes="In check nobody can pass, so it is not asked what is threatened.",
    contents="Contents",
    skip="Skip the contents",
    diagram="Diagram {number}",
    exercise="Exercise {number}",
    answer="Answer",
    answers="Answers",
    answer_to="Answer to {number}",
    answer_to_is_at_the_end="The answer to {number} is at the end.",
    answer_is_at_the_end="The answer is at the end.",
    page_legend=(
        "In the diagrams a ring marks the man that a sentence is about, an outline the others that take part, a dot a "
        "square that counts, and a dotted outline a man on such a square; a cross strikes out what is thought away or "
        "can’t be had. A solid arrow is the move, a dashed one the reply. The triangle at the edge shows who is to move. "
        "What stands beside a thin line was computed, and anybody can check its moves; the other words are the coach’s."
    ),
    markdown_legend="What is indented like a quotation was computed; the other words are the coach’s.",
    marked="Marked: {squares}.",
    arrows="Arrows: {arrows}.",
    glyphs={
        7: "forced move",
        8: "singular move",
        9: "worst move",
        10: "drawish position",
        11: "equal chances, quiet position",
        12: "equal chances, active position",
        13: "unclear position",
        14: "White has a slight advantage",
        15: "Black has a slight advantage",
        16: "White has a moderate advantage",
        17: "Black has a moderate advantage",
        18: "White has a decisive advantage",
        19: "Black has a decisive advantage",
        22: "White is in zugzwang",
        23: "Black is in zugzwang",
    },
    turning_point="Turning point: {point}",
    turning_points="Turning points",
    worth_stopping="Worth stopping at, {where}: {answer}",
    where_in_report=("after {move}", "at the start"),
    worth_stopping_at="Worth stopping at",
    mates="{side} mates.",
    level="With what can be won at once, material is level.",
    one_pawn_more="With what can be won at once, {side} has a pawn more.",
    pawns_more="With what can be won at once, {side} has {count} pawns more.",
    mobility="Of {reachable} squares that it could reach, {safe} are safe for the {piece} on {square}.",
    mobility_at="Of {reachable} squares that it could reach, {safe} are safe for the {piece} on {square}: {squares}.",
    no_turn="It can't be {side}'s turn, so the {piece} on {square} has no moves.",
)

_GERMAN = Words(
    language="de",
    sides={"white": "Weiß", "black": "Schwarz"},
    kinds={
        "pawn": "Bauer",
        "knight": "Springer",
        "bishop": "Läufer",
        "rook": "Turm",
        "queen": "Dame",
        "king": "König",
    },
    colours={"light": "weißen", "dark": "schwarzen"},
    last_comma=" und ",
    to_move="{side} am Zug",
    checkmated="{side} ist matt",
    stalemated="{side} ist patt",
    after="Nach {move}",
    at_the_start="Zu Beginn",
    start_position="Ausgangsstellung",
    in_the_game="In der Partie",
    pass_="(passt)",
    without="ohne den Stein auf {square}",
    if_passes="wenn {side} passt",
    threatens="Was {side} droht",
    can_win="Was {side} gewinnen kann",
    what_to_do="Was gegen {move} zu tun ist",
    candidates="Kandidatenzüge",
    no_candidate="Hier gibt es keinen Kandidatenzug.",
    why="Warum {move} einen Blick wert ist",
    plan="Der Plan von {side}: {moves}",
    can_do="Was {side} tun kann",
    both_can_do="Was beide Seiten tun können",
    way_of="{piece} {square}: der Weg",
    where_can_go="{piece} {square}: die Felder",
    has_to_see="Was {side} sehen muss",
    there_is_to_see="Was es zu sehen gibt",
    threatens_nothing="{side} droht nichts innerhalb der Suchgrenze.",
    nobody_passes="Im Schach kann niemand passen, daher wird nicht nach Drohungen gefragt.",
    contents="Inhalt",
    skip="Inhalt überspringen",
    diagram="Diagramm {number}",
    exercise="Aufgabe {number}",
    answer="Lösung",
    answers="Lösungen",
    answer_to="Lösung zu {number}",
    answer_to_is_at_the_end="Die Lösung zu {number} steht am Ende.",
    answer_is_at_the_end="Die Lösung steht am Ende.",
    page_legend=(
        "In den Diagrammen steht im Ring der Stein, von dem ein Satz handelt, im Rahmen stehen die anderen beteiligten "
        "Steine; ein Punkt zeigt ein Feld, das zählt, ein gepunkteter Rahmen einen Stein auf einem solchen Feld; ein Kreuz "
        "streicht, was weggedacht wird oder nicht zu haben ist. Ein durchgezogener Pfeil ist der Zug, ein gestrichelter die "
        "Antwort. Das Dreieck am Rand zeigt, wer am Zug ist. Was neben einer dünnen Linie steht, wurde berechnet, und jeder "
        "kann die Züge nachprüfen; alle anderen Worte sind die des Trainers."
    ),
    markdown_legend="Was wie ein Zitat eingerückt ist, wurde berechnet; alle anderen Worte sind die des Trainers.",
    marked="Markiert: {squares}.",
    arrows="Pfeile: {arrows}.",
    glyphs={
        7: "erzwungener Zug",
        8: "einziger Zug",
        9: "schlechtester Zug",
        10: "remisliche Stellung",
        11: "gleiche Chancen, ruhige Stellung",
        12: "gleiche Chancen, lebhafte Stellung",
        13: "unklare Stellung",
        14: "Weiß hat leichten Vorteil",
        15: "Schwarz hat leichten Vorteil",
        16: "Weiß hat Vorteil",
        17: "Schwarz hat Vorteil",
        18: "Weiß hat entscheidenden Vorteil",
        19: "Schwarz hat entscheidenden Vorteil",
        22: "Weiß ist im Zugzwang",
        23: "Schwarz ist im Zugzwang",
    },
    turning_point="Wendepunkt: {point}",
    turning_points="Wendepunkte",
    worth_stopping="Innehalten lohnt sich {where}: {answer}",
    where_in_report=("nach {move}", "zu Beginn"),
    worth_stopping_at="Hier lohnt es sich innezuhalten",
    mates="{side} setzt matt.",
    level="Mit dem, was sofort zu gewinnen ist, steht das Material gleich.",
    one_pawn_more="Mit dem, was sofort zu gewinnen ist, hat {side} einen Bauern mehr.",
    pawns_more="Mit dem, was sofort zu gewinnen ist, hat {side} {count} Bauern mehr.",
    mobility="{piece} {square}: Von {reachable} erreichbaren Feldern sind {safe} sicher.",
    mobility_at="{piece} {square}: Von {reachable} erreichbaren Feldern sind {safe} sicher, und zwar {squares}.",
    no_turn="{side} kann nicht am Zug sein, daher hat die Figur keine Züge: {piece} {square}.",
)

_ALL = {words.language: words for words in (_ENGLISH, _GERMAN)}


def words_in(language: str) -> Words:
    """The words of a language. Raises ValueError for one that is not known."""
    words = _ALL.get(language) if isinstance(language, str) else None
    if words is None:
        known = ", ".join(f'"{code}"' for code in _ALL)
        raise ValueError(f'no language is called "{language}"; there are {known}')
    return words


def moves_in(language: str, text: str) -> str:
    """SAN, or a line of it, with the letters of the language: "12.Sf3 0-0"."""
    if language == ENGLISH:
        return text
    return text.translate(str.maketrans("NBRQKO", _core.move_letters(language)))


class InLanguages:
    """What can be said in any of the languages: `str` of it is English."""

    texts: Mapping[str, str]

    def text(self, language: str = ENGLISH) -> str:
        """The same as `str` gives, in a language of `keysquare.languages`.

        Moves in it have the letters of the pieces that readers of the language know. Raises ValueError for a language
        that is not known.
        """
        words_in(language)
        return str(self) if language == ENGLISH else self.texts[language]
