"""Which overlooked themes fall fastest with rating?

usage: overlooked_by_rating.py [FILES...] [--out FOLDER]

Looked at are the moves of players with a rating, made while the other side threatened to win something (`threats`).
Such a move overlooks the threat when it does not meet it and the other side's next move carries it out (`overlooks`);
the theme is what a teacher calls the threat, `other` one without a name. A game without a rating for the mover is
left out and counted.

For each theme a straight line is fitted to the logarithm of how often it is overlooked, over bands of 200 points
(Poisson regression, by maximum likelihood). Its slope is told as a factor: 0.80 says that in a band 200 points higher
it is overlooked 0.80 times as often. The intervals come from drawing whole games, as the moves of one game are not
independent. Of twenty themes that fall alike one would by chance seem to differ from all together.

Costs about a millisecond a position: some two minutes on two cores for three thousand games.
"""

import sys
from collections import Counter
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from matplotlib.ticker import LogLocator

from evidence import FEWEST_GAMES, UNKNOWN, Rate, bootstrap, canvas, draw_rates, games, main, percent, save, span, table

import keysquare as ks

BAND = 200  # points
ALL = "all themes"
LOOKS = ("o-", "s--", "^:", "D-.", "v-")  # of lines


class Counts:
    """Of each game, by band: moves made under a threat and, for each theme, those that overlooked it."""

    def __init__(self, files: list[Path]) -> None:
        moves, overlooked = [], []
        self.without_rating = 0
        for game in games(files, ("mover_rating",), ("threats", "overlooks")):
            self.without_rating += any(row.mover_rating is None for row in game)
            under = [row for row in game[:-1] if row.threats and row.mover_rating is not None]
            moves.append(Counter(row.mover_rating // BAND for row in under))
            overlooked.append(Counter((row.overlooks, row.mover_rating // BAND) for row in under if row.overlooks))
        self.games = len(moves)
        self.bands = sorted(set().union(*moves))
        self.moves = np.array([[of[band] for band in self.bands] for of in moves], dtype=float)
        frequent = Counter(theme for of in overlooked for theme, _ in of.elements()).most_common()
        self.themes = [theme for theme, _ in frequent]
        each = [[[of[theme, band] for band in self.bands] for theme in self.themes] for of in overlooked]
        by_theme = np.array(each, dtype=float).reshape(self.games, len(self.themes), len(self.bands))
        self.overlooked = np.concatenate([by_theme.sum(axis=1, keepdims=True), by_theme], axis=1)  # all of them first

    def statistics(self, times: Any) -> Any:
        """Each game taken so many times: the share of each band, the slope of each theme (of all of them first), and
        that minus the slope of all."""
        moves, overlooked = times @ self.moves, np.tensordot(times, self.overlooked, 1)
        with np.errstate(invalid="ignore", divide="ignore"):
            slopes = slopes_of(np.array(self.bands, dtype=float), moves, overlooked)
            return np.concatenate([overlooked[0] / moves, slopes, slopes - slopes[0]])


def slopes_of(bands: Any, moves: Any, overlooked: Any) -> Any:
    """For each row of `overlooked` the slope of the logarithm of its rate, by Newton's method: at the largest
    likelihood the mean band of what was overlooked is the one that the line leads to expect."""
    mean = overlooked @ bands / overlooked.sum(axis=1)
    slopes = np.zeros(len(overlooked))
    for _ in range(30):
        weights = moves * np.exp(np.outer(slopes, bands - bands.mean()))
        weights /= weights.sum(axis=1, keepdims=True)
        expected = weights @ bands
        step = (mean - expected) / (weights @ bands**2 - expected**2)
        slopes = np.clip(slopes + np.clip(step, -1, 1), -5, 5)
    return slopes


class Row(NamedTuple):
    """A band or a theme: what is overlooked, in how many games, and the share or the factor."""

    overlooked: int
    games: int
    rate: Rate
    against_all: ks.Interval = UNKNOWN


def results(counts: Counts) -> tuple[list[Row], list[Row]]:
    """Of the bands, and of the themes, all of them together first."""
    found = counts.statistics(np.ones(counts.games))
    intervals = bootstrap(counts.statistics, counts.games)
    bands, themes = [], []
    for at, band in enumerate(counts.bands):
        games = int((counts.moves[:, at] > 0).sum())
        label = f"{band * BAND}-{band * BAND + BAND - 1}"
        share = percent(label, found[at], intervals[at] if games >= FEWEST_GAMES else UNKNOWN)
        bands.append(Row(int(counts.overlooked[:, 0, at].sum()), games, share))
    for at, theme in enumerate([ALL, *counts.themes]):
        of_games = counts.overlooked[:, at].sum(axis=1)
        games, place = int((of_games > 0).sum()), len(bands) + at
        both = [ks.Interval(*np.exp(intervals[it])) for it in (place, place + len(counts.themes) + 1)]
        factor, against_all = both if games >= FEWEST_GAMES else (UNKNOWN, UNKNOWN)
        rate = Rate(theme.replace("_", " "), float(np.exp(found[place])), factor)
        themes.append(Row(int(of_games.sum()), games, rate, against_all))
    return bands, themes


def draw_lines(ax: Any, counts: Counts, bands: list[Row], themes: list[Row]) -> None:
    """How often the most frequent themes are overlooked, band by band."""
    enough = [at for at, row in enumerate(bands) if row.rate.interval != UNKNOWN]
    known = [at for at, row in enumerate(themes) if row.rate.interval != UNKNOWN]
    for place, look in zip(known, LOOKS, strict=False):
        share = 100 * counts.overlooked[:, place, enough].sum(axis=0) / counts.moves[:, enough].sum(axis=0)
        drawn = [((counts.bands[at] + 0.5) * BAND, each) for at, each in zip(enough, share, strict=True) if each]
        fill = "white" if place else "black"
        if drawn:
            ax.plot(*zip(*drawn), look, color="black", markerfacecolor=fill, linewidth=1, markersize=5)
            name, right = themes[place].rate.label, (7, 0)
            ax.annotate(name, drawn[-1], right, textcoords="offset points", va="center", fontsize=8)
    ax.set(yscale="log", xlabel=f"rating, bands of {BAND} points", ylabel="overlooked, % of the moves under threat")
    ax.yaxis.set_major_locator(LogLocator(subs=(1, 2, 5)))
    ax.yaxis.set_major_formatter("{x:g}")
    ax.minorticks_off()


def answer(files: list[Path], out: Path) -> None:
    counts = Counts(files)
    print(f"{counts.games} games, {counts.without_rating} of them without a rating for a player.\n")
    if len(counts.bands) < 2 or not counts.themes:
        print("Too few overlooked threats or rating bands: nothing can be said, and no figure is drawn.")
        return
    bands, themes = results(counts)
    moves = counts.moves.sum(axis=0)
    head = ("rating", "games", "moves under threat", "overlooked", "%", "95 %")
    print(table(head, [
        (row.rate.label, str(row.games), f"{of:.0f}", str(row.overlooked), f"{row.rate.value:.1f}",
         span(row.rate.interval, 1, 1, ""))
        for row, of in zip(bands, moves, strict=True)
    ]), end="\n\n")  # fmt: skip
    head = ("theme", "overlooked", "in games", f"factor a {BAND} points", "95 %", "against all, 95 %")
    print(table(head, [
        (row.rate.label, str(row.overlooked), str(row.games), "-" if row.rate.interval == UNKNOWN else
         f"{row.rate.value:.2f}", span(row.rate.interval, sign=""), span(row.against_all, sign=""))
        for row in themes
    ]), end="\n\n")  # fmt: skip
    known = [row for row in themes[1:] if row.rate.interval != UNKNOWN]
    faster = ", ".join(row.rate.label for row in known if row.against_all.high < 1) or "none"
    slower = ", ".join(row.rate.label for row in known if row.against_all.low > 1) or "none"
    print(f"Themes overlooked in {FEWEST_GAMES} games or more: {len(known)}. Falling faster with rating than all")
    print(f"together: {faster}. Slower: {slower}. Of the others nothing can be said.")
    of = f"{moves.sum():.0f} moves under threat, {counts.games} games"
    title = f"Overlooked threats: {themes[0].overlooked} in {of} (95 % intervals)"
    figure, (lines, forest) = canvas(2, max(9, len(known)), title, files)
    draw_lines(lines, counts, bands, themes)
    ordered = sorted([*known, themes[0]], key=lambda row: row.rate.value)
    draw_rates(forest, [row.rate._replace(label=f"{row.rate.label} (n = {row.overlooked})") for row in ordered])
    forest.axvline(1, color="black", linewidth=0.8, linestyle="--")
    forest.set_xlabel(f"times as often, {BAND} points higher")
    save(figure, out, "overlooked_by_rating")


if __name__ == "__main__":
    sys.exit(main(answer, __doc__))
