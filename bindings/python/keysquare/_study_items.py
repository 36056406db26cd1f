"""What is shown of a position, a finding, a plan, a game: the entry of each kind of item, before the coach adds to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import singledispatch
from inspect import signature

from keysquare._core import Finding, Game, GameStep, Position, Threat, theme_heading
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
from keysquare._words import ENGLISH, moves_in, words_in


@singledispatch
def shown_of(item: object, language: str = ENGLISH) -> Entry:
    """The entry of an item as it is, before the coach adds to it. Raises TypeError for what can't be shown."""
    if callable(made := getattr(item, "study_entry", None)):
        entry = made(language=language) if "language" in signature(made).parameters else made()
        if not isinstance(entry, Entry):
            raise TypeError(f"{type(item).__name__}.study_entry() gave {type(entry).__name__}, not a keysquare.Entry")
        return entry
    raise TypeError(
        f"a study can't show {type(item).__name__}: give a Position or FEN, a Finding, a Threat or a list of them, "
        "Candidates, Parries, a PlanCheck, an Outlook, Routes, a Mobility, a Difficulty, a Game or a GameStep"
    )


@shown_of.register
def _(item: Entry, language: str = ENGLISH) -> Entry:
    return item


@shown_of.register
def _(item: Panel, language: str = ENGLISH) -> Entry:
    return Entry(item.heading or mover_text(item.position, language), (replace(item, heading=""),))


@shown_of.register
def _(item: str, language: str = ENGLISH) -> Entry:
    try:
        position = Position(item)
    except ValueError as error:
        raise ValueError(f"not a FEN ({error}); text goes into note()") from error
    return shown_of(position, language)


@shown_of.register
def _(item: Position, language: str = ENGLISH) -> Entry:
    return Entry(mover_text(item, language), (Panel(item),))


@shown_of.register
def _(item: Finding, language: str = ENGLISH) -> Entry:
    return Entry(_theme(item, language), (Panel(item.position, findings=(item,)),))


@shown_of.register
def _(item: Threat, language: str = ENGLISH) -> Entry:
    return Entry(_theme(item, language), (Panel(item.position, findings=(item,)),))


@shown_of.register(list)
@shown_of.register(tuple)
def _(item: Sequence[object], language: str = ENGLISH) -> Entry:
    found = tuple(one for one in item if isinstance(one, (Finding, Threat)))
    if not found or len(found) < len(item):
        raise TypeError("a list that is added holds findings and threats, at least one")
    return Entry(_theme(found[0], language), (Panel(found[0].position, findings=found),))


def _theme(finding: Finding | Threat, language: str) -> str:
    if isinstance(finding, Threat):
        words = words_in(language)
        return (words.threatens if finding.after_pass else words.can_win).format(side=words.side(finding.side))
    return theme_heading(finding.theme, language)


@shown_of.register
def _(item: Parries, language: str = ENGLISH) -> Entry:
    threat = item.threat
    move = line_text(threat.position.passed() or threat.position, threat.line[:1], language)
    title = words_in(language).what_to_do.format(move=move)
    return Entry(title, (Panel(threat.position, findings=(threat,), sentences=(item.text(language),)),))


@shown_of.register
def _(item: Candidates, language: str = ENGLISH) -> Entry:
    words = words_in(language)
    title = words.candidates
    if not item.moves:
        return Entry(title, (Panel(item.position, sentences=(words.no_candidate,)),))
    return Entry(title, (replace(_drawn(item), sentences=tuple(one.text(language) for one in item), numbered=len(item) > 1),))


@shown_of.register
def _(item: Candidate, language: str = ENGLISH) -> Entry:
    title = words_in(language).why.format(move=moves_in(language, item.san))
    return replace(shown_of(Candidates(item.position, [item]), language), title=title)


@shown_of.register
def _(item: PlanCheck, language: str = ENGLISH) -> Entry:
    words = words_in(language)
    moves = words.listed([moves_in(language, step.san) for step in item.steps])
    return Entry(words.plan.format(side=words.side(item.side), moves=moves), (replace(_drawn(item), sentences=(item.text(language),)),))


@shown_of.register
def _(item: SideOutlook, language: str = ENGLISH) -> Entry:
    words = words_in(language)
    return Entry(words.can_do.format(side=words.side(item.side)), (replace(_drawn(item), sentences=(item.text(language),)),))


@shown_of.register
def _(item: Outlook, language: str = ENGLISH) -> Entry:
    sides = [shown_of(side, language) for side in (item[item.position.mover], item[item.position.waiter]) if str(side)]
    panels = [replace(part, heading=side.title) for side in sides for part in side.shown if isinstance(part, Panel)]
    return Entry(words_in(language).both_can_do, tuple(panels) or (Panel(item.position, sentences=(item.text(language),)),))


@shown_of.register
def _(item: Routes, language: str = ENGLISH) -> Entry:
    words = words_in(language)
    title = words.way_of.format(piece=words.kind(item.piece.piece.kind), square=item.piece.square)
    return Entry(title, (replace(_drawn(item), sentences=(item.text(language),)),))


@shown_of.register
def _(item: Mobility, language: str = ENGLISH) -> Entry:
    words = words_in(language)
    title = words.where_can_go.format(piece=words.kind(item.piece.piece.kind), square=item.piece.square)
    return Entry(title, (replace(_drawn(item), sentences=(item.text(language),)),))


@shown_of.register
def _(item: Difficulty, language: str = ENGLISH) -> Entry:
    panel = Panel(item.position, sentences=(item.text(language),), line=() if item.after_pass else tuple(item.line))
    words = words_in(language)
    return Entry(words.has_to_see.format(side=words.side(item.side)), (panel,))


@shown_of.register
def _(item: Difficulties, language: str = ENGLISH) -> Entry:
    return Entry(words_in(language).there_is_to_see, (Panel(item.position, sentences=(item.text(language),)),))


def _drawn(item: Drawn) -> Panel:
    marks, arrows = item._drawing()
    return Panel(item.position, marks=tuple(marks), arrows=tuple(arrows))


@shown_of.register
def _(item: Game, language: str = ENGLISH) -> Entry:
    return entry_of_game(item, None, None)


def entry_of_game(game: Game, plies: tuple[int, int] | None, diagrams: Iterable[int] | None) -> Entry:
    """A game or a part of it as moves with diagrams."""
    tags = game.tags
    about = [tags.get(tag, "?") for tag in ("Event", "Site", "Date")]
    known = markdown_of(", ".join(told for told in about if told.strip("?.")))
    return Entry(players(tags), (fragment_of(game, plies, diagrams),), text=f"*{known}*" if known else "")


@shown_of.register
def _(item: GameStep, language: str = ENGLISH) -> Entry:
    """The position of a step, and the move that was played there."""
    words = words_in(language)
    position = item.position
    title = mover_text(position, language)
    if item.numbered:
        title = words.after.format(move=moves_in(language, item.numbered))
    played = (Fragment(item.next, 1, heading=words.in_the_game),) if item.next and item.is_main_line else ()
    return Entry(title, (Panel(position), *played), text=markdown_of(item.plain_comment))
