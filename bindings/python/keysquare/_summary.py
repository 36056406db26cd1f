"""summarise: statistics of the positions of game files, by groups. Parts made anywhere can be added."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from math import ceil, sqrt
from operator import add
from typing import Union

from keysquare import _core
from keysquare._intervals import CONFIDENCE, Interval, wilson, wilson_of_mean
from keysquare._results import ScanCounts
from keysquare._row_filter import RowFilter, Where, names_in, thread_count
from keysquare._scan import ScanBar
from keysquare._shards import Source, shard_parts
from keysquare._words import ENGLISH, words_in

Key = tuple[Union[str, None], ...]


@dataclass(frozen=True)
class Share:
    """How many of a number of positions, or of games."""

    count: int
    """How many have it."""
    of: int
    """How many there are."""

    @property
    def rate(self) -> float:
        """Between 0 and 1; NaN of none."""
        return self.count / self.of if self.of else float("nan")

    def interval(self, confidence: float = CONFIDENCE) -> Interval:
        """Wilson's interval. Positions of one game are not independent of each other: where they are counted it is too
        narrow, by a factor of up to the root of the number of positions a game."""
        return wilson(self.count, self.of, confidence)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        return _share_text(self.rate, self.of, self.interval(), language)

    def __str__(self) -> str:
        return self.text()


@dataclass(frozen=True)
class Score:
    """What White scored in some games, 1 for a win and 0.5 for a draw."""

    wins: int
    """Games that White won."""
    draws: int
    """Drawn games."""
    losses: int
    """Games that Black won."""

    @property
    def games(self) -> int:
        """Games with a result."""
        return self.wins + self.draws + self.losses

    @property
    def mean(self) -> float:
        """Points a game; NaN of none."""
        return (self.wins + self.draws / 2) / self.games if self.games else float("nan")

    def interval(self, confidence: float = CONFIDENCE) -> Interval:
        """Wilson's interval about the mean: wider than need be where there are draws, never narrower. Games are taken
        to be independent of each other."""
        return wilson_of_mean(self.mean, self.games, confidence) if self.games else Interval(0.0, 1.0)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        return _share_text(self.mean, self.games, self.interval(), language)

    def __str__(self) -> str:
        return self.text()


def _share_text(share: float, of: int, interval: Interval, language: str) -> str:
    words = words_in(language)
    percents, low, high = (words.tenths(100 * number) for number in (share, *interval))
    return words.share.format(share=percents, of=of, confidence=words.percent(CONFIDENCE), low=low, high=high)


class Histogram(Mapping[float, int]):
    """How often the numbers of a column fell into bins of one width: from where a bin begins to its count.

    The outermost bins, 32,768 to either side of 0, hold everything beyond them, too.
    """

    def __init__(self, begin: int, width: int, scale: int, counts: list[int]) -> None:
        self.width = width / scale
        """How wide a bin is."""
        self._bins = {(begin + at * width) / scale: count for at, count in enumerate(counts)}

    def __getitem__(self, begin: float) -> int:
        return self._bins[begin]

    def __iter__(self) -> Iterator[float]:
        return iter(self._bins)

    def __len__(self) -> int:
        return len(self._bins)

    def __repr__(self) -> str:
        return f"<keysquare.Histogram: {len(self)} bins of width {self.width:g}>"


class ColumnStatistics:
    """Statistics of one column in one group. Counts, sums and bins are exact for whole numbers; clocks, evaluations and
    scores are rounded to hundredths first, expected scores to ten-thousandths."""

    def __init__(self, numbers: tuple[int, int, int, int, int, int, int, float, float, int, int, list[int]]) -> None:
        scale, self.count, self.missing, total, squares, least, greatest, mean, variance, begin, width, bins = numbers
        self._scale = scale
        self._total = total
        self._squares = squares
        self.mean: float = mean / scale
        """NaN without numbers."""
        self.variance: float = variance / scale**2
        """Of a sample (divided by count - 1); NaN with fewer than two numbers."""
        self.min: float | None = least / scale if self.count else None
        """The least number; None without numbers."""
        self.max: float | None = greatest / scale if self.count else None
        """The greatest number; None without numbers."""
        self.histogram = Histogram(begin, width, scale, bins)
        """How often the numbers fell into bins."""

    count: int
    """Rows with a number."""
    missing: int
    """Rows without one."""

    @property
    def sum(self) -> float:
        """Of all numbers."""
        return self._total / self._scale

    @property
    def deviation(self) -> float:
        """The standard deviation, the root of the variance."""
        return sqrt(self.variance)

    def share(self, at_least: float = 1) -> Share:
        """In how many rows the number is at least so large.

        Raises ValueError when a bin of the histogram holds numbers on both sides, and for NaN.
        """
        if at_least != at_least:
            raise ValueError("NaN is no bound")
        if self.min is None or self.max is None or at_least > self.max:
            return Share(0, self.count)
        if at_least <= self.min:
            return Share(self.count, self.count)
        bins = self.histogram
        bound = ceil(at_least) if self._scale == bins.width == 1 else at_least
        if bound not in bins:
            raise ValueError(f"bins of width {bins.width:g} do not part at {at_least:g}")
        return Share(sum(count for begin, count in bins.items() if begin >= bound), self.count)

    def quantile(self, q: float) -> float:
        """Where the bin begins in which the fraction `q` of the numbers is reached; exact where bins hold one number.

        Raises ValueError without numbers, and for a fraction outside 0 to 1.
        """
        if not 0 <= q <= 1 or not self.count:
            raise ValueError("a quantile needs numbers, and a fraction from 0 to 1")
        wanted = Fraction(str(q)) * self.count  # as it was written: 0.07 of 100 are 7
        reached = 0
        for begin, count in self.histogram.items():
            reached += count
            if reached >= wanted and reached > 0:
                return begin
        raise AssertionError("the bins hold all numbers")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, ColumnStatistics):
            return NotImplemented
        mine, theirs = (
            (it._scale, it.count, it.missing, it._total, it._squares, it.min, it.max, dict(it.histogram))
            for it in (self, other)
        )
        return mine == theirs

    def __repr__(self) -> str:
        return f"<keysquare.ColumnStatistics: {self.count} numbers, mean {self.mean:.4g}>"


class Group(Mapping[str, ColumnStatistics]):
    """The positions of one group: a mapping from the name of a column to its statistics."""

    def __init__(self, summary: _core._Summary, key: Key) -> None:
        self._summary = summary
        self.key = key
        """The values of the columns that tell groups apart; None where there is none."""
        self.positions, self.games, (wins, losses, draws, _) = summary.group(key)
        self.score = Score(wins, draws, losses)
        """What White scored in these games, each counted once."""

    positions: int
    """Rows of the group."""
    games: int
    """Games that have a position in the group. A game may be in several groups."""

    def __getitem__(self, column: str) -> ColumnStatistics:
        return ColumnStatistics(self._summary.statistics(self.key, column))

    def __iter__(self) -> Iterator[str]:
        return iter(self._summary.columns)

    def __len__(self) -> int:
        return len(self._summary.columns)

    def __repr__(self) -> str:
        return f"<keysquare.Group {self.key}: {self.positions} positions of {self.games} games>"


class Summary(Mapping[Key, Group]):
    """Statistics by groups: a mapping from the values that tell a group apart to the `Group`.

    `summary + other` is that of both collections of games, to the bit what one call over both would have given. Pickles.
    """

    def __init__(self, numbers: _core._Summary) -> None:
        self._numbers = numbers
        self._keys = dict.fromkeys(sorted(numbers.keys(), key=_natural_order))

    @property
    def by(self) -> tuple[str, ...]:
        """The columns that tell groups apart."""
        return self._numbers.by

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns that there are statistics of."""
        return self._numbers.columns

    @property
    def counts(self) -> ScanCounts:
        """What became of the games."""
        return self._numbers.counts

    def __getitem__(self, key: str | None | Key) -> Group:
        """The group of that key; of a single column its value will do. Raises KeyError."""
        whole = key if isinstance(key, tuple) else (key,)
        if whole not in self._keys:
            raise KeyError(key)
        return Group(self._numbers, whole)

    def __iter__(self) -> Iterator[Key]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)

    def table(self) -> list[dict[str, str | float | None]]:
        """A row for each group and column, for a data frame: the group's values, its positions, games and score, then the
        column with count, missing, mean, deviation, min and max. Without columns a row for each group."""
        rows: list[dict[str, str | float | None]] = []
        for key, group in self.items():
            head: dict[str, str | float | None] = {
                **dict(zip(self.by, key)),
                "positions": group.positions,
                "games": group.games,
                "white_score": group.score.mean,
            }
            rows += [{**head, "column": name, **_numbers(it)} for name, it in group.items()] or [head]
        return rows

    def __add__(self, other: Summary) -> Summary:
        """Raises ValueError when the other has other groups or columns."""
        if not isinstance(other, Summary):
            return NotImplemented
        return Summary(self._numbers + other._numbers)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Summary):
            return NotImplemented
        return bool(self._numbers == other._numbers)

    __hash__ = None  # type: ignore[assignment]  # it is a large mapping

    def __reduce__(self) -> tuple[type[Summary], tuple[_core._Summary]]:
        return Summary, (self._numbers,)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        lines = [self.counts.text(language)]
        for key, group in self.items():
            values = (f"{name} {words.unknown if value is None else value}" for name, value in zip(self.by, key))
            lines.append(
                words.group.format(
                    group=", ".join(values) or words.all_,
                    positions=words.count(group.positions, words.positions),
                    games=words.count(group.games, words.games),
                    score=group.score.text(language),
                )
            )
        return "\n".join(lines)

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Summary: {len(self)} groups, {len(self.columns)} columns>"


def summarise(
    files: Source,
    *,
    by: str | Iterable[str] = (),
    features: str | Iterable[str] | None = None,
    where: Where | None = None,
    every: int | range = 1,
    threads: int = 0,
    progress: bool = True,
) -> Summary:
    """Statistics of the positions of game files, by groups.

    Everything is counted in whole numbers, so the same games give the same numbers to the bit, on any number of threads,
    or in parts that are added.

    Args:
        files: A path, a pattern such as "games/*.pgn", a `Shard`, or an iterable of these.
        by: Names of columns whose values tell groups apart: what is known of the game ("white_rating_band", "phase"),
            tags ("ECO"), but also numbers ("exchanges_up"). None of them: one group, when there are positions.
        features: Names of columns to sum up: of the numeric vector, with search, or of the game, if they hold numbers.
            None: the whole numeric vector.
        where, every, threads, progress: As for `scan`.

    Raises:
        InputError: A file that can't be opened (`cannot_open`).
        ValueError, TypeError: As `scan`, and for a column without numbers.

    >>> summary = summarise("examples/data/club.pgn", by="phase", features=["piece_scope_difference"], progress=False)
    >>> for (phase,), group in summary.items():
    ...     print(phase, group.positions, round(group["piece_scope_difference"].mean, 2))
    endgame 81 0.56
    middlegame 129 2.65
    opening 80 5.61
    """
    wanted = RowFilter.of(where, every)
    columns = list(_core.feature_schema().names) if features is None else names_in(features)
    work = _core._Summarising(
        shard_parts(files), names_in(by), columns, wanted.tags, wanted.ratings, wanted.plies, thread_count(threads)
    )
    bar = ScanBar(progress)
    try:
        while not work.wait():
            bar.show(work.progress)
        bar.show(work.progress)
        return Summary(work.result())
    finally:
        work.stop()
        bar.close()


def sum_of(summaries: Iterable[Summary]) -> Summary:
    """All of them added, in order. Raises ValueError without any."""
    parts = list(summaries)
    if not parts:
        raise ValueError("there is nothing to add")
    return reduce(add, parts)


def _numbers(it: ColumnStatistics) -> dict[str, str | float | None]:
    return {
        "count": it.count,
        "missing": it.missing,
        "mean": it.mean,
        "deviation": it.deviation,
        "min": it.min,
        "max": it.max,
    }


def _natural_order(key: Key) -> list[tuple[bool, list[tuple[int, str, str]]]]:
    """Numbers in texts by their size ("800-999" before "1000-1199"), missing values last."""
    parts = [re.findall(r"(\d+)|(\D+)", value or "") for value in key]
    return [
        (value is None, [(len(digits.lstrip("0")), digits.lstrip("0"), other) for digits, other in found])
        for value, found in zip(key, parts)
    ]
