"""Entries of a study: what is shown of a position, a finding, a plan, a game."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import singledispatch
from typing import NamedTuple

from keysquare._core import (
    Finding,
    Game,
    GameStep,
    Move,
    Position,
    Threat,
    candidates,
    check_plan,
    exchange_context,
    findings,
    threats,
)
from keysquare._diagrams import Arrow, Mark, SvgText, diagram
from keysquare._results import (
    Answer,
    Candidate,
    Candidates,
    Difficulties,
    Difficulty,
    Drawn,
    ExchangeLedger,
    Mobility,
    Outlook,
    Parries,
    PlanCheck,
    Routes,
    SideOutlook,
)
from keysquare._study_markup import markdown_of
from keysquare._study_moves import Fragment, fragment_of, line_arrows, line_text, numbered, players
from keysquare._values import WHITE, Side

AT_MOST = 3  # findings beside a diagram: more can't be told apart in the picture
WORTH_TELLING = 40  # about the weight of a named imbalance; below it stand plain counts


class Told(NamedTuple):
    """A sentence of the library, with what proves it."""

    text: str
    number: int = 0
    """What it has in the diagram; 0 for none."""
    line: str = ""
    """The line as people write it, where the sentence does not hold it."""


@dataclass(frozen=True)
class Panel:
    """One diagram, and the sentences that belong to it. Raises ValueError for what belongs to another position."""

    position: Position
    heading: str = ""
    findings: tuple[Finding | Threat, ...] = ()
    """Drawn and told, in this order; the i-th of several has the number i."""
    sentences: tuple[str, ...] = ()
    """Further sentences of the library."""
    numbered: bool = False
    """Whether the sentences have the numbers 1, 2, ... of the arrows."""
    marks: tuple[str | Mark, ...] = ()
    arrows: tuple[tuple[str, str] | Arrow, ...] = ()
    line: tuple[Move, ...] = ()
    """Legal moves from the position. The first two are drawn when nothing else is."""
    bottom: Side = WHITE

    def __post_init__(self) -> None:
        if self.numbered and self.findings:
            raise ValueError("findings have numbers of their own: put numbered sentences into another panel")
        self.picture()
        self.line_text()

    def picture(self, title: str = "", serial: int = 0) -> SvgText:
        """The diagram."""
        drawn = self.findings or self.marks or self.arrows
        return diagram(
            self.position,
            self.findings,
            bottom=self.bottom,
            title=title,
            marks=self.marks,
            arrows=self.arrows if drawn else line_arrows(self.line),
            serial=serial,
        )

    def told(self) -> list[Told]:
        """The sentences, each with its number in the diagram and its line."""
        several = len(self.findings) > 1
        told = [Told(str(f), i if several else 0, _untold_line(f)) for i, f in enumerate(self.findings, start=1)]
        return told + [Told(text, i if self.numbered else 0) for i, text in enumerate(self.sentences, start=1)]

    def line_text(self) -> str:
        """The line as people write it, where no sentence holds it already."""
        line = line_text(self.position, self.line)
        return "" if any(line in text for text in (*map(str, self.findings), *self.sentences)) else line


def _untold_line(finding: Finding | Threat) -> str:
    """The line of a finding where its sentence does not hold it already, with what must be thought of first."""
    if len(finding.line) < 2 or finding.line_san.split()[-1] in str(finding):
        return ""
    thought = []
    if isinstance(finding, Finding) and finding.removed:
        thought.append(f"without the man on {finding.removed}")
    if finding.after_pass:
        thought.append(f"if {str(finding.side.other).capitalize()} passes")
    if not thought:
        return finding.line_san
    condition = ", ".join(thought)
    return f"{condition[0].upper()}{condition[1:]}: {finding.line_san}"


def playable_lines(finding: Finding | Threat) -> list[list[Move]]:
    """The lines of a finding that are legal in its position as it stands."""
    if finding.after_pass:
        return []
    if isinstance(finding, Threat):
        return [finding.line]
    return [line for line in (finding.line, finding.point) if line and not finding.removed]


@dataclass(frozen=True)
class Entry:
    """What a study shows of one thing. Objects with a method `study_entry()` that returns one can be added to a study."""

    title: str
    shown: tuple[Panel | Fragment, ...]
    """At least one; the entry's position is that of the first."""
    text: str = ""
    """Of the coach, Markdown."""
    question: str = ""
    """To the student, Markdown."""
    answer: str = ""
    """Of the coach, Markdown."""
    solved: tuple[Panel | Fragment, ...] = ()
    """What the answer shows."""

    def __post_init__(self) -> None:
        if not self.shown:
            raise ValueError("an entry shows at least one panel")

    @property
    def position(self) -> Position:
        """The position that the entry is about."""
        return self.shown[0].position

    @property
    def has_answer(self) -> bool:
        """Whether there is anything to fold away."""
        return bool(self.answer or self.solved)


def mover_text(position: Position) -> str:
    """ "White to move", or how the game has ended."""
    mover = str(position.mover).capitalize()
    if position.is_mated:
        return f"{mover} is checkmated"
    return f"{mover} is stalemated" if position.is_stalemated else f"{mover} to move"


def strongest(position: Position, at_most: int = AT_MOST) -> tuple[Finding, ...]:
    """The first few findings that are worth telling and about different pieces."""
    told: dict[object, Finding] = {}
    for finding in findings(position):
        about = finding.pieces[0].square if finding.pieces else finding.theme
        if finding.weight >= WORTH_TELLING and len(told) < at_most:
            told.setdefault(about, finding)
    return tuple(told.values())


# What an item shows ---------------------------------------------------------------------------------------------------


@singledispatch
def shown_of(item: object) -> Entry:
    """The entry of an item as it is, before the coach adds to it. Raises TypeError for what can't be shown."""
    if callable(made := getattr(item, "study_entry", None)):
        entry = made()
        if not isinstance(entry, Entry):
            raise TypeError(f"{type(item).__name__}.study_entry() gave {type(entry).__name__}, not a keysquare.Entry")
        return entry
    raise TypeError(
        f"a study can't show {type(item).__name__}: give a Position or FEN, a Finding, a Threat or a list of them, "
        "Candidates, Parries, a PlanCheck, an Outlook, Routes, a Mobility, a Difficulty, a Game or a GameStep"
    )


@shown_of.register
def _(item: Entry) -> Entry:
    return item


@shown_of.register
def _(item: Panel) -> Entry:
    return Entry(item.heading or mover_text(item.position), (replace(item, heading=""),))


@shown_of.register
def _(item: str) -> Entry:
    try:
        position = Position(item)
    except ValueError as error:
        raise ValueError(f"not a FEN ({error}); text goes into note()") from error
    return shown_of(position)


@shown_of.register
def _(item: Position) -> Entry:
    return Entry(mover_text(item), (Panel(item),))


@shown_of.register
def _(item: Finding) -> Entry:
    return Entry(_theme(item), (Panel(item.position, findings=(item,)),))


@shown_of.register
def _(item: Threat) -> Entry:
    return Entry(_theme(item), (Panel(item.position, findings=(item,)),))


@shown_of.register(list)
@shown_of.register(tuple)
def _(item: Sequence[object]) -> Entry:
    found = tuple(one for one in item if isinstance(one, (Finding, Threat)))
    if not found or len(found) < len(item):
        raise TypeError("a list that is added holds findings and threats, at least one")
    return Entry(_theme(found[0]), (Panel(found[0].position, findings=found),))


def _theme(finding: Finding | Threat) -> str:
    if isinstance(finding, Threat):
        return f"What {str(finding.side).capitalize()} {'threatens' if finding.after_pass else 'can win'}"
    return finding.theme.replace("_", " ").capitalize()


@shown_of.register
def _(item: Parries) -> Entry:
    threat = item.threat
    title = f"What to do about {line_text(threat.position.passed() or threat.position, threat.line[:1])}"
    return Entry(title, (Panel(threat.position, findings=(threat,), sentences=(str(item),)),))


@shown_of.register
def _(item: Candidates) -> Entry:
    title = "Moves that deserve a look"
    if not item.moves:
        return Entry(title, (Panel(item.position, sentences=("There is no candidate here.",)),))
    return Entry(title, (replace(_drawn(item), sentences=tuple(map(str, item)), numbered=len(item) > 1),))


@shown_of.register
def _(item: Candidate) -> Entry:
    return replace(shown_of(Candidates(item.position, [item])), title=f"Why {item.san} deserves a look")


@shown_of.register
def _(item: PlanCheck) -> Entry:
    moves = " and ".join([", ".join(step.san for step in item.steps[:-1]), item.steps[-1].san][len(item.steps) < 2 :])
    return Entry(f"{str(item.side).capitalize()}'s plan: {moves}", (replace(_drawn(item), sentences=(str(item),)),))


@shown_of.register
def _(item: SideOutlook) -> Entry:
    return Entry(f"What {str(item.side).capitalize()} can do", (replace(_drawn(item), sentences=(str(item),)),))


@shown_of.register
def _(item: Outlook) -> Entry:
    sides = [shown_of(side) for side in (item[item.position.mover], item[item.position.waiter]) if str(side)]
    panels = [replace(part, heading=side.title) for side in sides for part in side.shown if isinstance(part, Panel)]
    return Entry("What both sides can do", tuple(panels) or (Panel(item.position, sentences=(str(item),)),))


@shown_of.register
def _(item: Routes) -> Entry:
    piece, square = item.piece.piece.kind, item.piece.square
    return Entry(f"The way of the {piece} on {square}", (replace(_drawn(item), sentences=(str(item),)),))


@shown_of.register
def _(item: Mobility) -> Entry:
    piece, square = item.piece.piece.kind, item.piece.square
    counted = len([place for place in item.destinations if place.verdict != "own_man"])
    where = f": {', '.join(item.scope)}" if item.scope else ""
    sentence = (
        f"Of {counted} squares that it could reach, {len(item.scope)} are safe for the {piece} on {square}{where}."
    )
    return Entry(f"Where the {piece} on {square} can go", (replace(_drawn(item), sentences=(sentence,) * item.known),))


@shown_of.register
def _(item: Difficulty) -> Entry:
    panel = Panel(item.position, sentences=(str(item),), line=() if item.after_pass else tuple(item.line))
    return Entry(f"What {str(item.side).capitalize()} has to see", (panel,))


@shown_of.register
def _(item: Difficulties) -> Entry:
    return Entry("What there is to see", (Panel(item.position, sentences=(str(item),)),))


def _drawn(item: Drawn) -> Panel:
    marks, arrows = item._drawing()
    return Panel(item.position, marks=tuple(marks), arrows=tuple(arrows))


@shown_of.register
def _(item: Game) -> Entry:
    return entry_of_game(item, None, None)


def entry_of_game(game: Game, plies: tuple[int, int] | None, diagrams: Iterable[int] | None) -> Entry:
    """A game or a part of it as moves with diagrams."""
    tags = game.tags
    about = [tags.get(tag, "?") for tag in ("Event", "Site", "Date")]
    known = markdown_of(", ".join(told for told in about if told.strip("?.")))
    return Entry(players(tags), (fragment_of(game, plies, diagrams),), text=f"*{known}*" if known else "")


@shown_of.register
def _(item: GameStep) -> Entry:
    """The position of a step, and the move that was played there."""
    position = item.position
    title = mover_text(position)
    if item.parent is not None and item.san is not None:
        title = f"After {numbered(item.parent.position, item.san)}"
    played = (Fragment(item.next, 1, heading="In the game"),) if item.next and item.is_main_line else ()
    return Entry(title, (Panel(position), *played), text=markdown_of(item.plain_comment))


# What the coach adds --------------------------------------------------------------------------------------------------


def says_something(part: Panel | Fragment) -> bool:
    """Whether a part shows more than a bare position."""
    return isinstance(part, Fragment) or bool(part.findings or part.sentences or part.marks or part.arrows or part.line)


def asked_about(entry: Entry, question: str, item: object, wishes: Wishes) -> Entry:
    """The entry with a question: what the item has to say is the answer, and beside the question stands the position."""
    bare = Panel(entry.position)
    if entry.question:  # it comes with a question of its own, and shows beside it what it wants
        told = filter(says_something, more_of(replace(entry, shown=(bare,)), wishes, may_choose=False))
        return replace(entry, question=question or entry.question, solved=(*entry.solved, *told))
    told = filter(says_something, more_of(entry, wishes, may_choose=False))
    if isinstance(item, GameStep):  # what was said of the position may well be the answer
        entry = replace(entry, text="", answer=entry.text)
    title = entry.title if isinstance(item, (Entry, Game, GameStep)) else mover_text(entry.position)
    return replace(entry, title=title, shown=(bare,), question=question, solved=(*told, *entry.solved))


@dataclass(frozen=True)
class Wishes:
    """What is to be shown of a position beyond the item itself."""

    findings: tuple[Finding | Threat, ...] | None = None
    """None: the strongest, where a position is shown without a question."""
    threats: bool = False
    candidates: bool = False
    plan: tuple[str | Move, ...] = ()
    line: tuple[Move, ...] = ()
    said: tuple[Answer | ExchangeLedger, ...] = ()


def sentence_about(position: Position, result: Answer | ExchangeLedger) -> str:
    """The sentence of a result that does not hold its position. Raises ValueError when it belongs to another one."""
    if isinstance(result, Answer):
        belongs = result.move in position.moves()
        belongs = belongs and (result.reply is None or result.reply.position == position.after(result.move))
    elif isinstance(result, ExchangeLedger):
        here = exchange_context(position)
        belongs = here is not None and here.side == result.side
        belongs = (
            belongs
            and here is not None
            and all(
                (here.pages[side].pawns, here.pages[side].rooks) == (page.pawns, page.rooks)
                for side, page in result.pages.items()
            )
        )
    else:
        raise TypeError(f"only an Answer or an ExchangeLedger can be said of a position, not {type(result).__name__}")
    if not belongs:
        raise ValueError(f"the {type(result).__name__} belongs to another position")
    return str(result)


def _untold(text: str, findings: Iterable[Finding | Threat]) -> str:
    """The text without a beginning that a finding tells already."""
    for finding in findings:
        text = text.removeprefix(f"{finding} ")
    return text


def more_of(entry: Entry, wishes: Wishes, may_choose: bool) -> tuple[Panel | Fragment, ...]:
    """The parts of an entry, with what was asked for beyond them."""
    first, *rest = entry.shown
    added: list[Panel] = []
    wanted = wishes.findings
    if wanted is None:
        bare = isinstance(first, Panel) and not (first.findings or first.sentences)
        wanted = strongest(entry.position) if bare and may_choose else ()
    said = tuple(_untold(sentence_about(entry.position, result), wanted) for result in wishes.said)
    if isinstance(first, Panel) and not first.numbered and not first.arrows and not first.marks:
        told, line = (*first.findings, *wanted), wishes.line or first.line
        first = replace(first, findings=told, sentences=(*first.sentences, *said), line=line)
    elif wanted or said or wishes.line:
        added.append(Panel(entry.position, findings=wanted, sentences=said, line=wishes.line))
    parts: list[Panel | Fragment] = [first, *added, *rest]
    if wishes.threats:
        found = threats(entry.position)
        waiter = str(entry.position.waiter).capitalize()
        nothing = f"{waiter} threatens nothing inside the search bound."
        if entry.position.in_check:
            nothing = "In check nobody can pass, so it is not asked what is threatened."
        sentences = () if found else (nothing,)
        parts.append(Panel(entry.position, f"What {waiter} threatens", tuple(found[:AT_MOST]), sentences))
    asked: list[object] = [candidates(entry.position)] if wishes.candidates else []
    if wishes.plan:
        asked.append(check_plan(entry.position, wishes.plan))
    for shown in map(shown_of, asked):
        parts += [replace(part, heading=part.heading or shown.title) for part in shown.shown]
    return tuple(parts)


def seen_from(entry: Entry, bottom: str) -> Entry:
    """The entry with that side at the bottom of its diagrams; "mover": the side that moves in each."""

    def turned(part: Panel | Fragment) -> Panel | Fragment:
        return replace(part, bottom=part.position.mover if bottom == "mover" else Side(bottom))

    return replace(entry, shown=tuple(map(turned, entry.shown)), solved=tuple(map(turned, entry.solved)))


# A whole lesson -------------------------------------------------------------------------------------------------------


class Section(NamedTuple):
    """A heading under which the following entries stand."""

    heading: str


class Note(NamedTuple):
    """A text of the coach between entries."""

    text: str
    """Markdown."""


class Lesson(NamedTuple):
    """A whole study, as the writers of pages and files take it."""

    title: str
    author: str
    date: str
    about: str
    """Markdown."""
    blocks: tuple[Section | Note | Entry, ...]

    @property
    def entries(self) -> list[tuple[int, Entry]]:
        """The entries with their numbers."""
        return list(enumerate((block for block in self.blocks if isinstance(block, Entry)), start=1))

    @property
    def byline(self) -> str:
        """Author and date, as far as they are known."""
        return ", ".join(filter(None, (self.author, self.date)))
