"""Runs the verifier over many positions, in processes of its own."""

from __future__ import annotations

import multiprocessing
import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from typing import TypeVar

from .adapter import claims_about
from .positions import from_game, from_random_play, from_random_setup
from .verifier import Verifier

T = TypeVar("T")


@dataclass
class Survey:
    """What was claimed, by theme and by theme and detail, and what was wrong."""

    positions: int = 0
    themes: Counter[str] = field(default_factory=Counter)
    details: Counter[str] = field(default_factory=Counter)
    lies: list[str] = field(default_factory=list)

    def add(self, fen: str, *, only_counted: bool = False) -> None:
        self.positions += 1
        verifier = Verifier(fen)
        claims = [claim for claim in claims_about(fen) if not only_counted or claim.theme in verifier.counted_themes()]
        omissions = verifier.counted_omissions(claims) if only_counted else verifier.omissions(claims)
        self.lies += [f"{fen}\n    {omission}" for omission in omissions]
        for claim in claims:
            self.themes[claim.theme] += 1
            self.details[f"{claim.theme} {claim.detail}"] += 1
            self.lies += [f"{fen}\n    {claim}\n    {lie}" for lie in verifier.violations(claim)]

    def merge(self, other: Survey) -> None:
        self.positions += other.positions
        self.themes += other.themes
        self.details += other.details
        self.lies += other.lies

    def __str__(self) -> str:
        counts = ", ".join(f"{name} {count}" for name, count in sorted(self.details.items()))
        return f"{self.positions} positions, {sum(self.themes.values())} claims: {counts}"


def survey_of(fens: Iterable[str]) -> Survey:
    survey = Survey()
    for fen in fens:
        survey.add(fen)
    return survey


def survey_of_games(games: Sequence[tuple[int, str]]) -> Survey:
    """Two positions of each game; the number is the seed that picks them."""
    return survey_of(fen for seed, text in games for fen in from_game(text, 2, seed))


def survey_of_random_play(seed: int) -> Survey:
    """Twenty-five positions."""
    return survey_of(from_random_play(25, seed))


def survey_of_random_setups(seed: int) -> Survey:
    """Fifty positions, and what the themes that count say about them."""
    survey = Survey()
    for fen in from_random_setup(50, seed):
        survey.add(fen, only_counted=True)
    return survey


def in_parallel(work: Callable[[T], Survey], parts: Iterable[T]) -> Survey:
    total = Survey()
    # Fresh processes, since a forked one may inherit a lock that a thread of the test runner holds.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(os.cpu_count(), mp_context=context) as pool:
        for part in pool.map(work, parts):
            total.merge(part)
    return total


def batches(items: Sequence[T], size: int) -> Iterator[Sequence[T]]:
    for start in range(0, len(items), size):
        yield items[start : start + size]
