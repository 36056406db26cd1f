"""The records of a game report: what every move changed, where the game turned, where to stop."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from keysquare import _core
from keysquare._displays import Spoken, html_text, threat_html
from keysquare._values import Side
from keysquare._words import ENGLISH, InLanguages, moves_in, words_in

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from keysquare._study_entry import Entry
    from keysquare._core import FeatureTable, Finding, Game, GameStep, Move, Position, Threat


@dataclass(frozen=True)
class MoveEvent:
    """What a move did about something that could be won, as statistics need it."""

    ply: int
    """The number of the move, from 1."""
    side: Side
    """Who made the move."""
    kind: str
    """ "exploited", "missed", "allowed" or "overlooked", see `MoveEffect`."""
    theme: str
    """What a teacher calls the win: the name of a theme, or "other"."""
    gain: int
    """What is won, in pawns."""
    mate: bool
    """It is a mate."""
    cost: int
    """What would not have been lost with the better move, in pawns; for "exploited" the gain."""


@dataclass(frozen=True, repr=False)
class MoveEffect(InLanguages):
    """One thing that a move did, or failed to do. `str(effect)` is one sentence.

    The *reply* is the strongest chance of the other side after the move. A move *concedes* what the reply to it wins more
    than the move took, at least 0, or a mate. It *gives* the reply when another legal move concedes at least `least_gain`
    less, or no mate where this one does.
    """

    kind: str
    """
    - "exploited": the other side's last move gave the strongest chance, and the move wins as much;
    - "missed": the move wins at least `least_gain` less than the strongest chance, or does not mate where that does;
    - "allowed": the move gives the reply, and it was no threat before the move;
    - "overlooked": the move gives the reply, it was a threat before the move, and the next move carries it out.
    """
    theme: str
    """What a teacher calls the win: the theme of the strongest finding with the same first move; "other" without one."""
    win: Threat
    """What is won: by the mover (exploited, missed), by the other side after the move (allowed) or, with the move handed
    over, before it (overlooked). `win.position` is the position that it belongs to."""
    cost: int
    """In pawns. Exploited: the gain; missed: the gain less that of the move; otherwise what the move concedes."""
    left: int
    """Allowed, overlooked: what `better` concedes, the least that any legal move does; otherwise 0."""
    better: Move | None
    """Missed: the first move of `win`; allowed, overlooked: a move that concedes only `left`."""
    better_san: str | None
    """The same as SAN."""
    sentence: str
    """What is said about it, in one or two sentences."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The sentence in every language, by its code."""

    def __str__(self) -> str:
        return self.sentence

    def __repr__(self) -> str:
        return f"<keysquare.MoveEffect {self.kind} {self.theme}: {self.sentence}>"

    def _repr_html_(self) -> str:
        return threat_html(self.win, self.sentence)


@dataclass(frozen=True)
class Standing(Spoken):
    """What the material comes to when the mover takes its strongest chance."""

    pawns: int
    """White's material less Black's, in pawns."""
    mating: Side | None
    """The side that mates with the chance."""
    lead: str
    """ "white_mates", "white_ahead", "level", "black_ahead" or "black_mates"; ahead is by two pawns and more."""

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        if self.mating:
            return words.mates.format(side=words.side(self.mating))
        count = abs(self.pawns)
        pattern = words.level if not count else words.one_pawn_more if count == 1 else words.pawns_more
        return pattern.format(side=words.side("white" if self.pawns > 0 else "black"), count=count)

    def __str__(self) -> str:
        return self.text()


@dataclass(frozen=True, repr=False)
class PlyReport:
    """The game after one ply; the first of a report stands for the start, without a move.

    Draws itself in notebooks: the position with what the move did.
    """

    ply: int
    """The number of the move, from 1; 0 for the start."""
    step: GameStep
    """The step of the game."""
    move: Move | None
    """The move that led here; None at the start."""
    numbered: str
    """ "23...Rc4"; empty for the start."""
    position: Position
    """After the move."""
    findings: list[Finding]
    """All findings of the position, strongest first."""
    chances: list[Threat]
    """What the mover can win at once."""
    threats: list[Threat]
    """What the waiter would win after a pass."""
    standing: Standing
    """The material, with what can be won at once."""
    created: list[Finding]
    """The findings that were none before the move. Two are the same when theme, side and pieces are; for those without
    pieces theme, side and detail."""
    removed: list[Finding]
    """The findings of the position before that are none any more."""
    effects: list[MoveEffect]
    """What the move exploited, missed, allowed and overlooked; at most one of each."""

    def effect(self, kind: str) -> MoveEffect | None:
        """The effect of that kind, if the move had it."""
        return next((effect for effect in self.effects if effect.kind == kind), None)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words_in(language)
        return " ".join(effect.text(language) for effect in self.effects) or moves_in(language, self.numbered)

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        kinds = ", ".join(effect.kind for effect in self.effects)
        return f"<keysquare.PlyReport {self.numbered or '(start)'}{': ' if kinds else ''}{kinds}>"

    def _repr_html_(self) -> str:
        from keysquare._diagrams import diagram

        return f"<figure>{diagram(self.position)}<figcaption>{html_text(str(self))}</figcaption></figure>"


@dataclass(frozen=True, repr=False)
class TurningPoint:
    """A move after which the lead is another one, to the disadvantage of the side that moved, though a better move was
    there. `str(point)` says why."""

    ply: int
    """The number of the move, from 1."""
    numbered: str
    """The move with its number: "28.a4"."""
    before: str
    """The lead before the move, as in `Standing.lead`."""
    after: str
    """Who led after the move, likewise."""
    effect: MoveEffect
    """The reason."""

    def text(self, language: str = ENGLISH) -> str:
        """The reason in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        return self.effect.text(language)

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.TurningPoint {self.numbered}: {self.before} to {self.after}>"

    def _repr_html_(self) -> str:
        return self.effect._repr_html_()


@dataclass(frozen=True)
class MomentTexts:
    """What is said at a moment, in one language."""

    question: str
    """What to ask."""
    answer: str
    """What is there to see."""
    verdict: str
    """The end of the answer that speaks of the move; empty when it is about the position."""


@dataclass(frozen=True, repr=False)
class Moment:
    """A position worth stopping at, with what to ask there. Draws itself in notebooks, the answer folded away."""

    ply: int
    """Plies played before the position."""
    position: Position
    """What to show with the question."""
    moved: str
    """The move that led to it, "23.h4"; empty for the start."""
    played: str | None
    """The move that followed in the game, "23...Rc4"; None at its end."""
    theme: str
    """A theme, or "other"."""
    effect: MoveEffect | None
    """What the move that followed did, where the moment is about it."""
    worth: int
    """How much it teaches, only to be compared with other moments of the same game."""
    findings: list[Finding]
    """What to look at there; of an allowed reply those of the position after the move."""
    question: str
    """What to ask a student."""
    answer: str
    """What answers it."""
    verdict: str
    """The end of the answer that speaks of the move; empty where the moment is about the position."""
    texts: Mapping[str, MomentTexts] = field(default_factory=dict, repr=False, compare=False)
    """The same three in every language, by its code."""

    def told(self, language: str = ENGLISH) -> MomentTexts:
        """Question, answer and verdict in a language of `keysquare.languages`. Raises ValueError for one that is not
        known."""
        words_in(language)
        return MomentTexts(self.question, self.answer, self.verdict) if language == ENGLISH else self.texts[language]

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in that language."""
        told = self.told(language)
        return f"{told.question} {told.answer}"

    @property
    def shown(self) -> list[Finding | Threat]:
        """What to draw with the answer: the findings, or without one what is won."""
        if self.findings or self.effect is None:
            return list(self.findings)
        return [self.effect.win]

    @property
    def title(self) -> str:
        """ "After 23.h4": where in the game it is, without the move that followed."""
        return self.title_in(ENGLISH)

    def title_in(self, language: str) -> str:
        """The title in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return words.after.format(move=moves_in(language, self.moved)) if self.moved else words.at_the_start

    def study_entry(self, language: str = ENGLISH) -> Entry:
        """The question with the bare position, and the answer with its diagram, for a `Study`."""
        from keysquare._study_entry import Entry, Panel

        words, told = words_in(language), self.told(language)
        where = self.shown[0].position if self.shown else self.position
        after = words.after.format(move=moves_in(language, self.played or ""))
        return Entry(
            self.title_in(language),
            (Panel(self.position),),
            question=told.question,
            solved=(
                Panel(
                    where,
                    after if where != self.position else "",
                    findings=tuple(self.shown),
                    sentences=(told.verdict,) if told.verdict else (),
                ),
            ),
        )

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Moment {self.title}, {self.theme}: {self.question}>"

    def _repr_html_(self) -> str:
        from keysquare._diagrams import diagram

        answer = "".join(f"<figure>{diagram(shown.position, [shown])}</figure>" for shown in self.shown[:1])
        return (
            f"<figure>{diagram(self.position)}<figcaption>{html_text(self.question)}</figcaption></figure>"
            f"<details><summary>{words_in(ENGLISH).answer}</summary><p>{html_text(self.answer)}</p>{answer}</details>"
        )


@dataclass(frozen=True, repr=False)
class GameReport:
    """A game as a teacher goes through it. `str(report)` is a summary in a few lines; draws itself in notebooks.

    >>> import keysquare as ks
    >>> game = ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0")
    >>> report = ks.game_report(game)
    >>> print(report.turning_points[0])
    3...Bc5 overlooks that White threatens to mate: 4.Qxf7#. After 3...Nf6 nothing is lost.
    >>> print(report.moments[0].question)
    Black to move. First of all: what does White threaten, and what can be done about it?
    """

    game: Game
    """The game that was reported on."""
    plies: list[PlyReport]
    """One more than the moves of the main line."""
    turning_points: list[TurningPoint]
    """In the order of the game."""
    moments: list[Moment]
    """In the order of the game; three and more where the game has them."""

    @cached_property
    def timeline(self) -> FeatureTable:
        """The numeric features (`ks.features`) of all positions, one row a ply, the start first."""
        return _core.features([ply.position for ply in self.plies])

    def effects(self, kind: str | None = None, side: str | None = None) -> list[tuple[PlyReport, MoveEffect]]:
        """The effects of one kind, of the moves of one side, with the plies that they belong to."""
        wanted = Side(side) if side is not None else None
        return [
            (ply, effect)
            for before, ply in zip(self.plies, self.plies[1:])
            for effect in ply.effects
            if (kind is None or effect.kind == kind) and (wanted is None or before.position.mover == wanted)
        ]

    def plot(
        self, columns: tuple[str, ...] = ("piece_scope", "space"), title: str = "", *, language: str = ENGLISH
    ) -> Figure:
        """The game as a picture that reads well in black and white; needs matplotlib.

        Above, the standing at every ply, with the turning points and the moments; below, how some features go.

        Args:
            columns: Features with a difference (White's number less Black's), one curve each under the standing.
            title: Stands above; the players when empty.
            language: Of the words, one of `keysquare.languages`; features but the usual two are called as their columns.

        Raises:
            ImportError: matplotlib is not installed.
            ValueError: A feature that has no difference, or a language that is not known.
        """
        from keysquare._report_plot import plot_report

        return plot_report(self, columns, title, words_in(language))

    def text(self, language: str = ENGLISH) -> str:
        """The summary in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        lines = [_players(self.game)]
        lines += [words.turning_point.format(point=point.text(language)) for point in self.turning_points]
        for moment in self.moments:
            after, at_the_start = words.where_in_report
            where = after.format(move=moves_in(language, moment.moved)) if moment.moved else at_the_start
            lines.append(words.worth_stopping.format(where=where, answer=moment.told(language).answer))
        return "\n".join(lines)

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return (
            f"<keysquare.GameReport {_players(self.game)}: {len(self.plies) - 1} plies, "
            f"{len(self.turning_points)} turning points, {len(self.moments)} moments>"
        )

    def _repr_html_(self) -> str:
        turns = "".join(f"<li>{html_text(str(point))}</li>" for point in self.turning_points)
        moments = "".join(f"<li>{moment._repr_html_()}</li>" for moment in self.moments)
        return (
            f"<h3>{html_text(_players(self.game))}</h3>"
            + (f"<h4>Turning points</h4><ul>{turns}</ul>" if turns else "")
            + (f"<h4>Worth stopping at</h4><ol>{moments}</ol>" if moments else "")
        )


def _players(game: Game) -> str:
    from keysquare._study_moves import players

    return f"{players(game.tags)}, {game.result}"


__all__ = [
    "GameReport",
    "Moment",
    "MomentTexts",
    "MoveEffect",
    "MoveEvent",
    "PlyReport",
    "Standing",
    "TurningPoint",
]
