"""How often does the side that is the exchange down score better than expected?

usage: exchange_down.py [FILES...] [--out FOLDER]

One position of each game is looked at: the first in which one side has been the exchange up (`exchanges_up`: rooks
more, as many minor pieces fewer, queens equal in number) for 6 plies in a row, so that it is not just the middle of a
trade. Nothing that comes later is used, except the result. Expected is what the ratings let expect by the logistic
curve (`white_expected_score`); games without two ratings or a result are left out and counted.

The games are split by what the side with the rooks can do with them:
- rook scope: the squares to which its rooks can safely go (`rook_scope_of_up`), for each rook, as one rook has fewer
  than two; low is up to the median, high is more;
- guardian lost: the squares that slipped from its hands with the minor piece it took the rook with or for
  (`guardian_loss_of_up`): at least 3, fewer, or not clear which piece that was.
Two groups are compared within games of the same phase and the same number of pawns more or fewer (up to 3), since
open lines, pawns and endgames go together.

Costs a microsecond or two a position: a second for some thousand games.
"""

import statistics
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from evidence import Rate, Seen, against_control, canvas, draw_rates, games, main, mean, number, percent, rate_of, save
from evidence import span, table, verdict

LASTS = 6  # plies: three moves of each side (a convention)
MUCH = 3  # squares of a colour complex (a convention)
PAWNS = 3  # of a side, more or fewer: beyond that games count as alike
COLUMNS = ("phase", "white_score", "white_expected_score")
FEATURES = (
    "exchanges_up", "rook_scope_of_up", "guardian_loss_of_up", "white_rooks", "black_rooks", "pawns_difference"
)  # fmt: skip


class Case(NamedTuple):
    """A game with the exchange down, seen by the side that is."""

    game: tuple[str, int]
    kind: tuple[str, int]  # the phase, and the pawns up to a bound
    white_down: bool
    gain: float  # its score minus what was expected
    scope: float  # of the other side, for each rook
    slipped: int | None
    pawns: int  # more than the other side


def first_lasting(game: list[Any]) -> Any:
    """The first row in which it has lasted and the scope is known (not so in some checks); None without one."""
    lasted = before = 0
    for row in game:
        now = (row.exchanges_up > 0) - (row.exchanges_up < 0)
        lasted = (lasted if now == before else 0) + abs(now)
        before = now
        if lasted >= LASTS and row.rook_scope_of_up is not None:
            return row
    return None


def case_of(row: Any) -> Case:
    white_down = row.exchanges_up < 0
    side = 1 if white_down else -1
    pawns = side * row.pawns_difference
    return Case(
        row[:2],
        (row.phase, max(-PAWNS, min(PAWNS, pawns))),
        white_down,
        side * (row.white_score - row.white_expected_score),
        row.rook_scope_of_up / (row.black_rooks if white_down else row.white_rooks),
        row.guardian_loss_of_up,
        pawns,
    )


def groups(cases: list[Case], median: float) -> dict[str, list[Case]]:
    """Of all cases. The median is that of the scope."""
    conditions: dict[str, Callable[[Case], bool]] = {
        "all": lambda case: True,
        "White is down": lambda case: case.white_down,
        "Black is down": lambda case: not case.white_down,
        f"rook scope low (up to {median:g} a rook)": lambda case: case.scope <= median,
        "rook scope high": lambda case: case.scope > median,
        f"guardian lost: {MUCH} squares or more": lambda case: case.slipped is not None and case.slipped >= MUCH,
        "guardian lost: fewer": lambda case: case.slipped is not None and case.slipped < MUCH,
        "guardian lost: not clear which": lambda case: case.slipped is None,
    }
    return {name: [case for case in cases if holds(case)] for name, holds in conditions.items()}


def compared(what: str, some: list[Case], others: list[Case]) -> str:
    """Whether the side that is down does better in the first games than in others of the same phase and pawns."""
    parts = ((some, True), (others, False))
    found = against_control(Seen(case.game, case.kind, has, case.gain) for part, has in parts for case in part)
    words = (f"The side that is down does {how} then." for how in ("better", "worse"))
    numbers = f"95 % {span(found.intervals[2])}; {found.games} and {found.other_games} games"
    points = number(found.means[2], "+.2f")
    return f"{what}: {points} points a game ({numbers}).\n  {verdict(found.intervals[2], *words)}"


def row_of(name: str, them: list[Case]) -> tuple[str, ...]:
    """Of the table."""
    better = sum(case.gain > 0 for case in them)
    rate, wilson = rate_of(better, len(them))
    gain, interval = mean(case.gain for case in them)
    pawns, _ = mean(case.pawns for case in them)
    shares = (str(better), number(rate, ".0%"), span(wilson, 100, 0, ""))
    return (name, str(len(them)), *shares, number(gain, "+.3f"), span(interval), number(pawns, "+.1f"))


def draw(parts: dict[str, list[Case]], files: list[Path], out: Path) -> None:
    """How often each side scored better than expected, and by how much the side that is down did."""
    named = {f"{name} (n = {len(them)})": [case.gain for case in them] for name, them in parts.items() if them}
    title = f"The exchange down for {LASTS} plies: the score against what ratings let expect (95 % intervals, n games)"
    figure, (shares, gains) = canvas(2, len(named), title, files)
    down = [percent(name, *rate_of(sum(gain > 0 for gain in them), len(them))) for name, them in named.items()]
    up = [percent(name, *rate_of(sum(gain < 0 for gain in them), len(them))) for name, them in named.items()]
    draw_rates(shares, up, "up", "s", "white", -0.16)
    draw_rates(shares, down, "down", shift=0.16)
    shares.set(xlabel="scored better than expected, % of games", xlim=(0, 100))
    draw_rates(gains, [Rate(name, *mean(them)) for name, them in named.items()])
    gains.axvline(0, color="black", linewidth=0.8, linestyle="--")
    gains.set(xlabel="down: score minus expected, points a game", yticklabels=[])
    save(figure, out, "exchange_down")


def answer(files: list[Path], out: Path) -> None:
    seen, found = 0, []
    for game in games(files, COLUMNS, FEATURES):
        seen += 1
        if row := first_lasting(game):
            found.append(row)
    cases = [case_of(row) for row in found if None not in (row.white_score, row.white_expected_score)]
    print(f"{seen} games. In {len(found)} of them one side was the exchange down for {LASTS} plies;")
    print(f"{len(found) - len(cases)} of these, without two ratings or a result, are left out. One position a game.\n")
    if not cases:
        print("No game qualifies: nothing can be said, and no figure is drawn.")
        return
    parts = groups(cases, statistics.median(case.scope for case in cases))
    head = ("", "games", "better", "share", "95 %", "score - expected", "95 %", "pawns")
    print(table(head, [row_of(name, them) for name, them in parts.items()]), end="\n\n")
    print("better: the side that is down scored more than expected. pawns: how many more it has, on average.\n")
    whole, _, _, low, high, much, fewer, _ = parts.values()
    gain, interval = mean(case.gain for case in whole)
    print(f"The side that is down: {gain:+.2f} points a game (95 % {span(interval)}; {len(whole)} games).")
    print("  " + verdict(interval, "It scores more than expected.", "It scores less than expected."))
    print(compared("Rook scope low rather than high", low, high))
    print(compared(f"Guardian lost {MUCH} squares or more rather than fewer", much, fewer))
    draw(parts, files, out)


if __name__ == "__main__":
    sys.exit(main(answer, __doc__))
