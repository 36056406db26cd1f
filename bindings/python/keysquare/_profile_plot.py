"""The picture of a profile: rates with their intervals, black on white."""

from __future__ import annotations

from typing import TYPE_CHECKING

from keysquare._displays import shown
from keysquare._intervals import CONFIDENCE

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from keysquare._profile import Profile, Rate
    from keysquare._words import Words

MOST_ROWS = 10
APART = 0.17  # of the player's point from the middle of its line


def draw(profile: Profile, ax: Axes | None, words: Words) -> Axes:
    """As `Profile.plot` says."""
    try:
        import matplotlib.pyplot as plt
        from matplotlib.ticker import FuncFormatter
    except ImportError as error:
        raise ImportError("Profile.plot needs matplotlib: pip install keysquare[plot]") from error

    rows = profile.compared[:MOST_ROWS]
    if ax is None:
        _, ax = plt.subplots(figsize=(8, 1.6 + 0.5 * max(len(rows), 1)), layout="constrained")
    _points(ax, [row.own for row in rows], -APART, "o", "black", shown(profile.name))
    _points(ax, [row.others for row in rows], APART, "s", "white", shown(words.others.get(profile.others, profile.others)))
    compared = len(profile.compared)
    ax.set_yticks(range(len(rows)), [row.words_in(words.language) + (" *" if row.is_apart(compared) else "") for row in rows])
    ax.set_ylim(max(len(rows), 1) - 0.5, -0.5)
    ax.set_xlim(left=0)
    ax.set_xlabel(words.profile_axis.format(confidence=words.percent(CONFIDENCE), rows=compared))
    if words.decimal != ".":
        ax.xaxis.set_major_formatter(FuncFormatter(lambda rate, _: f"{rate:g}".replace(".", words.decimal)))
    title = words.profile_title.format(
        name=shown(profile.name),
        moves=words.count(profile.moves, words.moves),
        games=words.count(profile.games, words.games),
    )
    ax.set_title(title, loc="left", parse_math=False)
    ax.grid(axis="x", color="0.85")
    ax.set_axisbelow(True)
    ax.tick_params(axis="y", length=0)
    for edge in ("top", "right", "left"):
        ax.spines[edge].set_visible(False)
    legend = ax.legend(loc="upper center", bbox_to_anchor=(0.5, 0), borderaxespad=3.5, ncols=2, frameon=False)
    for text in legend.get_texts():  # a name may hold "$"
        text.set_parse_math(False)
    return ax


def _points(ax: Axes, rates: list[Rate], offset: float, marker: str, fill: str, label: str) -> None:
    """A filled or an empty point for each rate, with a bar from end to end of its interval."""
    ax.errorbar(
        [rate.per_100 for rate in rates],
        [at + offset for at in range(len(rates))],
        xerr=[
            [rate.per_100 - rate.interval.low for rate in rates],
            [rate.interval.high - rate.per_100 for rate in rates],
        ],
        fmt=marker,
        color="black",
        markerfacecolor=fill,
        markersize=6,
        linewidth=1,
        capsize=2.5,
        label=label,
    )
