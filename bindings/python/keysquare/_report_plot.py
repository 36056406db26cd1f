"""The picture of a game report: black on white, told apart by line styles, not by colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

from keysquare._displays import shown
from keysquare._study_moves import players
from keysquare._values import WHITE
from keysquare._words import Words, moves_in

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from keysquare._report import GameReport

_HIGHEST = 12  # pawns; a mate and what is more stand there
_LABEL_PLIES = 8  # labels of moves nearer than that would meet
_STYLES = ("solid", (0, (5, 2)), (0, (1, 1.5)), (0, (7, 2, 1, 2)), (0, (3, 1, 1, 1, 1, 1)))


def plot_report(report: GameReport, columns: tuple[str, ...], title: str, words: Words) -> Figure:
    """The standing with the turning points and moments, and under it the differences of some features."""
    try:
        from matplotlib.figure import Figure
        from matplotlib.ticker import FuncFormatter, MaxNLocator
    except ImportError as error:
        raise ImportError("a plot needs matplotlib: pip install matplotlib") from error
    curves = _curves(report, columns)
    figure = Figure(figsize=(9, 6 if curves else 3.6), layout="constrained")
    heights = [3, 2] if curves else [3]
    panels = figure.subplots(len(heights), 1, sharex=True, squeeze=False, gridspec_kw={"height_ratios": heights})[:, 0]
    _draw_standing(panels[0], report, words)
    panels[0].set_title(shown(title or f"{players(report.game.tags)}  {report.game.result}"), loc="left", fontsize=12, parse_math=False)
    if curves:
        _draw_curves(panels[1], curves, words)
    first = report.plies[0].position
    start = first.move_number + (0 if first.mover == WHITE else 0.5)
    panels[-1].set_xlabel(words.move)
    panels[-1].xaxis.set_major_locator(MaxNLocator(integer=True, nbins=12))
    panels[-1].xaxis.set_major_formatter(FuncFormatter(lambda ply, _: f"{start + ply / 2:.0f}"))
    panels[-1].set_xlim(0, max(1, len(report.plies) - 1))
    return figure


def _curves(report: GameReport, columns: tuple[str, ...]) -> dict[str, list[int]]:
    names = report.timeline.columns
    for column in columns:
        if f"{column}_difference" not in names:
            raise ValueError(f"no feature with a difference is called {column!r}")
    return {column: list(report.timeline[f"{column}_difference"]) for column in columns}


def _height(report: GameReport, ply: int) -> int:
    standing = report.plies[ply].standing
    if standing.mating:
        return _HIGHEST if standing.mating == WHITE else -_HIGHEST
    return max(-_HIGHEST, min(_HIGHEST, standing.pawns))


def _draw_standing(panel: Axes, report: GameReport, words: Words) -> None:
    plies = range(len(report.plies))
    heights = [_height(report, ply) for ply in plies]
    panel.step(plies, heights, where="post", color="black", linewidth=1.4)
    panel.fill_between(plies, heights, step="post", facecolor="none", hatch="////", edgecolor="0.55", linewidth=0)
    panel.axhline(0, color="black", linewidth=0.8)
    _mark_turning_points(panel, report, heights, words.language)
    bottom = min(-3, *heights) - 1.5
    top = max(3, *heights) + 1.5
    panel.set_ylim(bottom, top)
    _mark_moments(panel, report, bottom, words)
    panel.set_ylabel(words.standing_axis, fontsize=9)
    panel.spines[["top", "right"]].set_visible(False)


def _mark_turning_points(panel: Axes, report: GameReport, heights: list[int], language: str) -> None:
    """A white disc each, with the move; labels that would meet stand at different distances."""
    last, distance = -99, 0
    for point in report.turning_points:
        height = heights[point.ply]
        rises = height >= heights[point.ply - 1]
        distance = distance % 3 + 1 if point.ply - last < _LABEL_PLIES else 0
        last = point.ply
        panel.plot(point.ply, height, marker="o", markersize=7, markerfacecolor="white", markeredgecolor="black", zorder=3)
        panel.annotate(
            moves_in(language, point.numbered),
            (point.ply, height),
            xytext=(0, (9 + 13 * distance) * (1 if rises else -1)),
            textcoords="offset points",
            ha="center",
            va="bottom" if rises else "top",
            fontsize=9,
            bbox={"boxstyle": "square,pad=0.1", "facecolor": "white", "edgecolor": "none"},
        )


def _mark_moments(panel: Axes, report: GameReport, bottom: float, words: Words) -> None:
    """A black disc each with its number, in a row at the bottom."""
    for number, moment in enumerate(report.moments, 1):
        panel.annotate(
            str(number),
            (moment.ply, bottom),
            xytext=(0, 7),
            textcoords="offset points",
            ha="center",
            va="bottom",
            fontsize=8,
            color="white",
            bbox={"boxstyle": "circle,pad=0.25", "facecolor": "black", "edgecolor": "black"},
        )
    panel.annotate(
        words.discs,
        (1, 1),
        xytext=(0, 2),
        xycoords="axes fraction",
        textcoords="offset points",
        ha="right",
        va="bottom",
        fontsize=8,
    )


def _draw_curves(panel: Axes, curves: dict[str, list[int]], words: Words) -> None:
    for at, (column, numbers) in enumerate(curves.items()):
        style = _STYLES[at % len(_STYLES)]
        label = words.features.get(column) or column.replace("_", " ")
        panel.plot(numbers, color="black", linewidth=1.2, linestyle=style, label=label)
    panel.axhline(0, color="black", linewidth=0.8)
    panel.set_ylabel(words.differences_axis, fontsize=9)
    panel.legend(loc="upper left", frameon=False, ncols=len(curves), fontsize=9, handlelength=3.2)
    panel.margins(y=0.25)
    panel.spines[["top", "right"]].set_visible(False)
