"""What is shown of a position, a finding, a plan, a game: the entry of each kind of item, before the coach adds to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import singledispatch

from keysquare._core import Finding, Game, GameStep, Position, Threat
from keysquare._results import (
    Candidate,
    Candidates,
    Difficulties,
    Difficulty,
    Drawn,
    Mobility,
    Outlook,
    Parries,
    PlanCheck,
    Routes,
    SideOutlook,
)
from keysquare._study_entry import Entry, Panel, mover_text
from keysquare._study_markup import markdown_of
from keysquare._study_moves import Fragment, fragment_of, line_text, players


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
    return Entry(f"Where the {piece} on {square} can go", (replace(_drawn(item), sentences=(str(item),)),))


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
    if item.numbered:
        title = f"After {item.numbered}"
    played = (Fragment(item.next, 1, heading="In the game"),) if item.next and item.is_main_line else ()
    return Entry(title, (Panel(position), *played), text=markdown_of(item.plain_comment))
