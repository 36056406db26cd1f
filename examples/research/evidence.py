"""What the programs of this folder share: rows game by game, intervals over games, a table, and a figure for print.

Positions of one game depend on each other. So an interval is either one of a rate among games, or it comes from a
bootstrap that draws whole games, with all their positions, with replacement (B. Efron, 1979; from memory), 1,000
times, with a fixed seed: the same games give the same numbers.
"""

import argparse
import itertools
import sys
from collections import namedtuple
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import matplotlib
import numpy as np

import keysquare as ks

matplotlib.use("agg")
from matplotlib import pyplot as plt  # noqa: E402  # after the choice of how to draw

SEASON = Path(__file__).parents[1] / "data/season.pgn"
FEWEST_GAMES = 30  # with fewer a bootstrap is too sure of itself, and nothing is said (common practice, no source)
DRAWS, SEED = 1000, 1
GAME = ("file", "game_offset", "ply")
UNKNOWN = ks.Interval(-np.inf, np.inf)


def main(answer: Callable[[list[Path], Path], None], about: str) -> int:
    """Reads the command line and answers the question."""
    parser = argparse.ArgumentParser(description=about.splitlines()[0])
    parser.add_argument("files", nargs="*", type=Path, default=[SEASON], help="PGN files (default: the club's season)")
    parser.add_argument("--out", type=Path, default=Path(), help="folder for the figure (default: this one)")
    options = parser.parse_args()
    options.out.mkdir(parents=True, exist_ok=True)
    try:
        answer(options.files, options.out)
    except ks.InputError as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def games(
    files: list[Path], columns: Sequence[str], features: Sequence[str] = (), every: int = 1
) -> Iterator[list[Any]]:
    """The rows of each game, with the columns as attributes. Says at the end what it could not read."""
    rows = ks.scan(files, columns=[*GAME, *columns], features=features, every=every, progress=sys.stderr.isatty())
    Row = namedtuple("Row", rows.columns)  # type: ignore[misc]  # the columns are known only now
    each = (Row(*values) for batch in rows for values in zip(*(batch[name] for name in rows.columns), strict=True))
    for _, game in itertools.groupby(each, key=lambda row: row[:2]):
        yield list(game)
    if rows.counts.refused:
        print(f"{rows.counts.refused} games could not be read: {rows.counts.refused_by_reason}", file=sys.stderr)


def bootstrap(statistics: Callable[[Any], Any], games: int) -> list[ks.Interval]:
    """The 95 % intervals of some statistics, which are told how often each of so many games was drawn."""
    random = np.random.default_rng(SEED)
    drawn = (np.bincount(random.integers(0, games, games), minlength=games) for _ in range(DRAWS))
    bounds = np.quantile([statistics(times) for times in drawn], [0.025, 0.975], axis=0)
    return [ks.Interval(float(low), float(high)) for low, high in bounds.T]


def rate_of(count: int, of: int) -> tuple[float, ks.Interval]:
    """A share of games with Wilson's interval."""
    share = ks.Share(count, of)
    return share.rate, share.interval()


def mean(values: Iterable[float]) -> tuple[float, ks.Interval]:
    """Of one number a game, with its interval."""
    array = np.array(list(values), dtype=float)
    found = float(array.mean()) if len(array) else np.nan
    if len(array) < FEWEST_GAMES:
        return found, UNKNOWN
    return found, bootstrap(lambda times: [times @ array / len(array)], len(array))[0]


class Seen(NamedTuple):
    """A position: its game, what those it is compared with must have in common with it, whether it has what the
    question is about, and what came of it."""

    game: tuple[str, int]
    kind: tuple[Any, ...]
    has: bool
    value: float


class Control(NamedTuple):
    """Positions that have it against others that have not: both means and their difference, with their intervals."""

    positions: int
    games: int
    others: int
    other_games: int
    means: Sequence[float] = (np.nan, np.nan, np.nan)
    intervals: Sequence[ks.Interval] = (UNKNOWN, UNKNOWN, UNKNOWN)


def against_control(all_seen: Iterable[Seen]) -> Control:
    """The others are weighted so that they are of the kinds that the positions that have it are of. A kind of which
    there are only the ones or the others is left out."""
    seen = list(all_seen)
    common = {one.kind for one in seen if one.has} & {one.kind for one in seen if not one.has}
    seen = [one for one in seen if one.kind in common]
    counts = []
    for has in (True, False):
        part = [one.game for one in seen if one.has == has]
        counts += [len(part), len(set(part))]
    if not seen:
        return Control(*counts)
    game, kind = _numbers(one.game for one in seen), _numbers(one.kind for one in seen)
    has, value = np.array([one.has for one in seen]), np.array([one.value for one in seen], dtype=float)

    def statistics(times: Any) -> Any:
        weights = times[game]
        number_and_sum = (weights, weights * value)
        mine, my_sum, theirs, their_sum = (
            np.bincount(kind[part], by[part], len(common)) for part in (has, ~has) for by in number_and_sum
        )
        known = theirs > 0  # a draw may be without others of a kind
        of = mine[known].sum()
        rate, other = my_sum[known].sum() / of, mine[known] @ (their_sum[known] / theirs[known]) / of
        return [rate, other, rate - other]

    drawn_from = int(game.max()) + 1
    found = [float(number) for number in statistics(np.ones(drawn_from))]
    if min(counts[1], counts[3]) < FEWEST_GAMES:
        return Control(*counts, found)
    return Control(*counts, found, bootstrap(statistics, drawn_from))


def _numbers(values: Iterable[Any]) -> Any:
    """Equal values by equal numbers, from 0."""
    known: dict[Any, int] = {}
    return np.array([known.setdefault(value, len(known)) for value in values])


def verdict(interval: ks.Interval, more: str, less: str) -> str:
    """What may be said of a difference: nothing, where its interval is unknown or holds 0."""
    if interval == UNKNOWN:
        return f"Fewer than {FEWEST_GAMES} games are too few: nothing can be said."
    return more if interval.low > 0 else less if interval.high < 0 else "That may be chance: nothing can be said."


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Columns of one width each, words to the left and numbers to the right."""
    lines = [head, *rows]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(
        "  ".join(cell.rjust(wide) if at else cell.ljust(wide) for at, (cell, wide) in enumerate(zip(line, widths)))
        for line in lines
    )


def number(value: float, form: str) -> str:
    """Formatted, or - where there is none."""
    return format(value, form) if np.isfinite(value) else "-"


def span(interval: ks.Interval, factor: float = 1, digits: int = 2, sign: str = "+") -> str:
    """ "-0.12 to +0.03"."""
    if interval == UNKNOWN:
        return "too few"
    return " to ".join(f"{factor * bound:{sign}.{digits}f}" for bound in interval)


class Rate(NamedTuple):
    """A row of a figure: a number with its interval."""

    label: str
    value: float
    interval: ks.Interval


def percent(label: str, value: float, interval: ks.Interval) -> Rate:
    """A share in per cent."""
    return Rate(label, 100 * value, ks.Interval(*(100 * bound for bound in interval)))


def draw_rates(
    ax: Any, rates: Sequence[Rate], name: str = "", look: str = "o", fill: str = "black", shift: float = 0
) -> None:
    """A point with its interval for each row, from the top down; words where that is unknown. The name of the points
    stands beside the first of them."""
    for row, rate in enumerate(rates):
        at = row + shift
        if rate.interval == UNKNOWN:
            where, white = ax.get_yaxis_transform(), {"facecolor": "white", "edgecolor": "none", "pad": 2}
            ax.text(0.03, row, f"fewer than {FEWEST_GAMES} games", transform=where, va="center", fontsize=8, bbox=white)
            continue
        ax.plot(rate.interval, (at, at), color="black", linewidth=1)
        ax.plot(rate.value, at, look, color="black", markerfacecolor=fill, markersize=6)
    first = next(((row, rate) for row, rate in enumerate(rates) if rate.interval != UNKNOWN), None)
    if name and first:
        end = (first[1].interval.high, first[0] + shift)
        ax.annotate(name, end, (5, 0), textcoords="offset points", ha="left", va="center", fontsize=8)
    ax.set_yticks(range(len(rates)), [rate.label for rate in rates])
    ax.set_ylim(len(rates) - 0.5, -0.5)
    ax.tick_params(axis="y", length=0)
    ax.locator_params(axis="x", nbins=5)
    ax.grid(axis="x", color="0.88")
    ax.set_axisbelow(True)


def canvas(panels: int, rows: int, title: str, files: list[Path]) -> Any:
    """A figure with panels side by side under a title, the names of the files below; black on white."""
    plt.rcParams.update({"font.size": 9, "axes.spines.top": False, "axes.spines.right": False})
    plt.rcParams.update({"svg.hashsalt": "0", "svg.fonttype": "none"})
    figure, axes = plt.subplots(1, panels, figsize=(9, 1.6 + 0.34 * rows), layout="constrained", squeeze=False)
    figure.suptitle(title, x=0.01, ha="left", fontsize=11)
    figure.supxlabel("Games: " + ", ".join(file.name for file in files), x=0.01, ha="left", fontsize=8)
    return figure, axes[0]


def draw_against_control(
    found: dict[str, Control], title: str, words: tuple[str, str], files: list[Path], out: Path, name: str
) -> None:
    """The shares of the ones and of the others, and beside them their differences. The words say what the ones are, and
    what the shares are of."""
    named = {}
    for label, it in found.items():
        positions = "" if it.positions == it.games else f"{it.positions} in "
        named |= {f"{label}\n(n = {positions}{it.games} games)": it} if it.games else {}
    if not named:
        print("\nThere is nothing comparable, and no figure is drawn.")
        return
    figure, (shares, change) = canvas(2, 2 * len(named), title, files)
    mine, others, apart = (
        [percent(label, it.means[place], it.intervals[place]) for label, it in named.items()] for place in range(3)
    )
    draw_rates(shares, others, "others", "s", "white", -0.12)
    draw_rates(shares, mine, words[0], shift=0.12)
    shares.set(xlabel=words[1], xlim=(0, 100))
    draw_rates(change, apart)
    change.axvline(0, color="black", linewidth=0.8, linestyle="--")
    change.set(xlabel=f"{words[0]} minus others, percentage points", yticklabels=[])
    save(figure, out, name)


def save(figure: Any, out: Path, name: str) -> None:
    """As PNG and SVG."""
    figure.savefig(out / f"{name}.png", dpi=200)
    figure.savefig(out / f"{name}.svg", metadata={"Date": None})
    plt.close(figure)
    print(f"\nFigure: {out / name}.png and .svg")
