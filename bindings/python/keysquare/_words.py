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
    decimal: str
    """Between a whole number and its tenths."""
    games: tuple[str, str]
    """The word after 1 and after other numbers; so below."""
    moves: tuple[str, str]
    positions: tuple[str, str]
    pawns: tuple[str, str]
    """At stake."""

    # The board.
    control: str
    complex: str
    weak_complex: str
    """Follows `complex`."""
    guardian_of_one: str
    guardian_of_many: str

    # The Laws of Chess.
    drawn: str
    """{why} is one of the next ones."""
    dead: str
    repeated: str
    will_repeat: str
    quiet: tuple[str, str]
    will_be_quiet: str
    """Follows `quiet`."""
    may_claim: str
    or_: str
    and_also: str
    game_goes_on: str
    times: tuple[str, str]
    """The first time and the second."""

    # Profiles and selections. {own} and {theirs} are rates, {what} is a theme.
    event_kinds: Mapping[str, str]
    habits: Mapping[str, str]
    """By kind of event."""
    did: Mapping[str, str]
    themes: Mapping[str, str]
    """Where `theme_noun` does not fit."""
    others: Mapping[str, str]
    """With whom a player is compared."""
    the_others: str
    rate: str
    short_rate: str
    per_100: str
    any_theme: str
    about_profile: str
    nothing_compared: str
    compared: str
    mate: str
    at_stake: str
    example: str
    selection: str
    refused: str
    rest_not_needed: str

    # Scans and summaries.
    share: str
    scanned: str
    group: str
    all_: str
    unknown: str

    # Plots.
    profile_axis: str
    profile_title: str
    move: str
    standing_axis: str
    differences_axis: str
    discs: str
    features: Mapping[str, str]
    """Those that are drawn where nothing is said; others are called as their columns."""

    def tenths(self, value: float) -> str:
        """A number with one decimal."""
        return f"{value:.1f}".replace(".", self.decimal)

    def percent(self, share: float) -> str:
        """A share in whole percents: "95 %"."""
        return f"{100 * share:.0f} %"

    def count(self, number: int, words: tuple[str, str]) -> str:
        """ "1 game", "2 games"."""
        return f"{number} {words[number != 1]}"

    def theme(self, theme: str) -> str:
        """What a sentence calls a theme of an event: "forks"."""
        return self.themes.get(theme) or _core.theme_noun(theme, self.language)

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
    decimal=".",
    games=("game", "games"),
    moves=("move", "moves"),
    positions=("position", "positions"),
    pawns=("pawn", "pawns"),
    control="White holds {white} squares, Black {black}.",
    complex="Of the {colour} squares White holds {white}, Black {black}.",
    weak_complex=" They are a weakness of {side}.",
    guardian_of_one="Without the {piece} on {square} {side} loses one of the {colour} squares in its half.",
    guardian_of_many="Without the {piece} on {square} {side} loses {count} of the {colour} squares in its half.",
    drawn="The game is drawn: {why}.",
    dead="neither side has the men to give mate",
    repeated="the position has occurred {count} times",
    will_repeat="after {moves} a position will have occurred three times",
    quiet=(
        "{plies} ply has gone by without a pawn move or capture",
        "{plies} plies have gone by without a pawn move or capture",
    ),
    will_be_quiet=", and the next one can make them 100",
    may_claim="{side} may claim a draw: {why}.",
    or_=" or ",
    and_also=", and ",
    game_goes_on="{side} is to move; the position has occurred {times}, and {quiet}.",
    times=("for the first time", "for the second time"),
    event_kinds={kind: kind for kind in ("exploited", "missed", "allowed", "overlooked")},
    habits={
        "exploited": "{player} makes use of {what} in {own}; {others} in {theirs}.",
        "missed": "{player} misses {what} in {own}; {others} in {theirs}.",
        "allowed": "{player} allows {what} in {own}; {others} in {theirs}.",
        "overlooked": "{player} overlooks {what} in {own}; {others} in {theirs}.",
    },
    did={
        "exploited": "made use of {what}",
        "missed": "missed {what}",
        "allowed": "allowed {what}",
        "overlooked": "overlooked {what}",
    },
    themes={"any": "anything", "back_rank": "attacks on the back rank", "other": "other wins"},
    others={"the opponents": "the opponents", "the reference group": "the reference group"},
    the_others="the others",
    rate="{rate} of 100 moves ({confidence} {low} to {high})",
    short_rate="{rate} ({low} to {high})",
    per_100="per 100 moves",
    any_theme="{kind}, any theme",
    about_profile="{name}: {moves} in {games}; {others}: {their_moves} in {their_games}.",
    nothing_compared="Nothing happened {fewest} times, so nothing is compared.",
    compared=(
        "{rows} kinds of event were compared; at {confidence} {by_chance} of them would seem to differ by chance alone. "
        "A star marks what differs too much for that."
    ),
    mate="mate",
    at_stake="{move}: {stake} at stake.",
    example="{title}: {move} ({stake} at stake)",
    selection="{found} of {games}; {positions} of {searched} looked at ({read} read{more})",
    refused=", {count} refused",
    rest_not_needed=", the rest was not needed",
    share="{share} % of {of} ({confidence} {low} to {high})",
    scanned="{positions} of {games}, {left_out} left out{more}",
    group="{group}: {positions} of {games}, White scored {score}",
    all_="all",
    unknown="unknown",
    profile_axis="in 100 moves, with {confidence} intervals (* apart even with {rows} rows compared)",
    profile_title="{name}, {moves} in {games}",
    move="move",
    standing_axis="White's material,\nwith what is to be won (pawns)",
    differences_axis="White's number\nless Black's",
    discs="white disc: the game turns; black disc: a moment worth stopping at",
    features={"piece_scope": "piece scope", "space": "space"},
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
    decimal=",",
    games=("Partie", "Partien"),
    moves=("Zug", "Züge"),
    positions=("Stellung", "Stellungen"),
    pawns=("Bauern", "Bauern"),
    control="Weiß beherrscht {white} Felder, Schwarz {black}.",
    complex="Von den {colour} Feldern beherrscht Weiß {white}, Schwarz {black}.",
    weak_complex=" Sie sind eine Schwäche von {side}.",
    guardian_of_one="Ohne den {piece} auf {square} verliert {side} eines der {colour} Felder der eigenen Hälfte.",
    guardian_of_many="Ohne den {piece} auf {square} verliert {side} {count} der {colour} Felder der eigenen Hälfte.",
    drawn="Die Partie ist remis: {why}.",
    dead="Keine Seite hat das Material, um mattzusetzen",
    repeated="Die Stellung ist zum {count}. Mal entstanden",
    will_repeat="Nach {moves} entsteht eine Stellung zum dritten Mal",
    quiet=(
        "{plies} Halbzug ist ohne Bauernzug und Schlagfall vergangen",
        "{plies} Halbzüge sind ohne Bauernzug und Schlagfall vergangen",
    ),
    will_be_quiet=", und der nächste kann der 100. sein",
    may_claim="{side} darf Remis reklamieren: {why}.",
    or_=" oder ",
    and_also=", und ",
    game_goes_on="{side} ist am Zug; die Stellung ist {times} entstanden, und {quiet}.",
    times=("zum ersten Mal", "zum zweiten Mal"),
    event_kinds={"exploited": "genutzt", "missed": "verpasst", "allowed": "erlaubt", "overlooked": "übersehen"},
    habits={
        "exploited": "{player} nutzt in {own} {what}; {others} in {theirs}.",
        "missed": "{player} verpasst in {own} {what}; {others} in {theirs}.",
        "allowed": "{player} erlaubt in {own} {what}; {others} in {theirs}.",
        "overlooked": "{player} übersieht in {own} {what}; {others} in {theirs}.",
    },
    did={
        "exploited": "genutzt: {what}",
        "missed": "verpasst: {what}",
        "allowed": "erlaubt: {what}",
        "overlooked": "übersehen: {what}",
    },
    themes={"any": "irgendetwas", "back_rank": "Angriffe auf der Grundreihe", "other": "sonstige Gewinne"},
    others={"the opponents": "die Gegner", "the reference group": "die Vergleichsgruppe"},
    the_others="die anderen",
    rate="{rate} von 100 Zügen ({confidence}: {low} bis {high})",
    short_rate="{rate} ({low} bis {high})",
    per_100="je 100 Züge",
    any_theme="{kind}, alle Themen",
    about_profile="{name}: {moves} in {games}; {others}: {their_moves} in {their_games}.",
    nothing_compared="Nichts kam {fewest}-mal vor, daher wird nichts verglichen.",
    compared=(
        "Verglichen wurden {rows} Arten von Ereignissen; bei {confidence} wären {by_chance} davon schon durch Zufall "
        "auffällig. Ein Stern steht, wo der Unterschied dafür zu groß ist."
    ),
    mate="Matt",
    at_stake="{move}: Es geht um {stake}.",
    example="{title}: {move} (es geht um {stake})",
    selection="{found} aus {games}; {positions} aus {searched} durchgesehen ({read} gelesen{more})",
    refused=", {count} zurückgewiesen",
    rest_not_needed=", der Rest wurde nicht gebraucht",
    share="{share} % von {of} ({confidence}: {low} bis {high})",
    scanned="{positions} aus {games}, {left_out} ausgelassen{more}",
    group="{group}: {positions} aus {games}, Weiß holte {score}",
    all_="alle",
    unknown="unbekannt",
    profile_axis="in 100 Zügen, mit Intervallen zu {confidence} (* verschieden auch bei {rows} Vergleichen)",
    profile_title="{name}, {moves} in {games}",
    move="Zug",
    standing_axis="Material von Weiß\nmit dem, was zu gewinnen ist (Bauern)",
    differences_axis="Zahl von Weiß\nminus Zahl von Schwarz",
    discs="weißer Punkt: Wendepunkt; schwarzer Punkt: hier lohnt sich ein Halt",
    features={"piece_scope": "Wirkung der Figuren", "space": "Raum"},
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
