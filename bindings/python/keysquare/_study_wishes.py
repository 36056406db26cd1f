"""What the coach asks for beyond an item: findings, threats, a line, a question."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

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
from keysquare._results import Answer, ExchangeLedger
from keysquare._study_entry import Entry, Panel, mover_text
from keysquare._study_items import shown_of
from keysquare._study_moves import Fragment
from keysquare._values import Side
from keysquare._words import words_in

AT_MOST = 3  # findings beside a diagram: more can't be told apart in the picture
WORTH_TELLING = 40  # about the weight of a named imbalance; below it stand plain counts


def strongest(position: Position, at_most: int = AT_MOST) -> tuple[Finding, ...]:
    """The first few findings that are worth telling and about different pieces."""
    told: dict[object, Finding] = {}
    for finding in findings(position):
        about = finding.pieces[0].square if finding.pieces else finding.theme
        if finding.weight >= WORTH_TELLING and len(told) < at_most:
            told.setdefault(about, finding)
    return tuple(told.values())


def says_something(part: Panel | Fragment) -> bool:
    """Whether a part shows more than a bare position."""
    return isinstance(part, Fragment) or bool(part.findings or part.sentences or part.marks or part.arrows or part.line)


def asked_about(entry: Entry, question: str, item: object, wishes: Wishes, language: str) -> Entry:
    """The entry with a question: what the item has to say is the answer, and beside the question stands the position."""
    bare = Panel(entry.position)
    if entry.question:  # it comes with a question of its own, and shows beside it what it wants
        told = filter(says_something, more_of(replace(entry, shown=(bare,)), wishes, False, language))
        return replace(entry, question=question or entry.question, solved=(*entry.solved, *told))
    told = filter(says_something, more_of(entry, wishes, False, language))
    if isinstance(item, GameStep):  # what was said of the position may well be the answer
        entry = replace(entry, text="", answer=entry.text)
    title = entry.title if isinstance(item, (Entry, Game, GameStep)) else mover_text(entry.position, language)
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


def sentence_about(
    position: Position, result: Answer | ExchangeLedger, told: Iterable[Finding | Threat], language: str
) -> str:
    """The sentence of a result that does not hold its position, without a beginning that a finding tells already.

    Raises ValueError when it belongs to another position.
    """
    if not isinstance(result, (Answer, ExchangeLedger)):
        raise TypeError(f"only an Answer or an ExchangeLedger can be said of a position, not {type(result).__name__}")
    belongs = _answers_in(position, result) if isinstance(result, Answer) else _counts_in(position, result)
    if not belongs:
        raise ValueError(f"the {type(result).__name__} belongs to another position")
    sentence = result.text(language)
    for finding in told:
        sentence = sentence.removeprefix(finding.text(language)).strip()
    return sentence


def _answers_in(position: Position, answer: Answer) -> bool:
    if answer.move not in position.moves():
        return False
    return answer.reply is None or answer.reply.position == position.after(answer.move)


def _counts_in(position: Position, ledger: ExchangeLedger) -> bool:
    here = exchange_context(position)
    if here is None or here.side != ledger.side:
        return False
    return all(
        (here.pages[side].pawns, here.pages[side].rooks) == (page.pawns, page.rooks)
        for side, page in ledger.pages.items()
    )


def more_of(entry: Entry, wishes: Wishes, may_choose: bool, language: str) -> tuple[Panel | Fragment, ...]:
    """The parts of an entry, with what was asked for beyond them."""
    first, *rest = entry.shown
    added: list[Panel] = []
    wanted = wishes.findings
    if wanted is None:
        bare = isinstance(first, Panel) and not (first.findings or first.sentences)
        wanted = strongest(entry.position) if bare and may_choose else ()
    said = tuple(filter(None, (sentence_about(entry.position, result, wanted, language) for result in wishes.said)))
    if isinstance(first, Panel) and not first.numbered and not first.arrows and not first.marks:
        told, line = (*first.findings, *wanted), wishes.line or first.line
        first = replace(first, findings=told, sentences=(*first.sentences, *said), line=line)
    elif wanted or said or wishes.line:
        added.append(Panel(entry.position, findings=wanted, sentences=said, line=wishes.line))
    parts: list[Panel | Fragment] = [first, *added, *rest]
    if wishes.threats:
        found = threats(entry.position)
        words = words_in(language)
        waiter = words.side(entry.position.waiter)
        nothing = words.nobody_passes if entry.position.in_check else words.threatens_nothing.format(side=waiter)
        sentences = () if found else (nothing,)
        parts.append(Panel(entry.position, words.threatens.format(side=waiter), tuple(found[:AT_MOST]), sentences))
    asked: list[object] = [candidates(entry.position)] if wishes.candidates else []
    if wishes.plan:
        asked.append(check_plan(entry.position, wishes.plan))
    for shown in (shown_of(one, language) for one in asked):
        parts += [replace(part, heading=part.heading or shown.title) for part in shown.shown]
    return tuple(parts)


def seen_from(entry: Entry, bottom: str) -> Entry:
    """The entry with that side at the bottom of its diagrams; "mover": the side that moves in the first."""
    side = entry.position.mover if bottom == "mover" else Side(bottom)

    def turned(part: Panel | Fragment) -> Panel | Fragment:
        return replace(part, bottom=side)

    return replace(entry, shown=tuple(map(turned, entry.shown)), solved=tuple(map(turned, entry.solved)))


def in_language(entry: Entry, language: str) -> Entry:
    """The entry with its findings and moves in that language."""

    def said(part: Panel | Fragment) -> Panel | Fragment:
        return replace(part, language=language)

    return replace(entry, shown=tuple(map(said, entry.shown)), solved=tuple(map(said, entry.solved)))
