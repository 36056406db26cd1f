"""Does a position without a plan predict a blunder in the next five moves?

usage: no_plan.py [FILES...] [--out FOLDER]

Needs games with evaluation commands, such as [%eval 0.31]; others are left out and counted. Of every third ply those
positions are looked at that are quiet (no check, neither side can win anything: `chances`, `threats`) and whose
evaluation lies between -2 and +2 pawns. A blunder is an evaluation after one of the mover's next five own moves that
is at least two pawns worse for it than that of the position (common practice, no source); a mate counts as more than
any number of pawns. Evaluations that are missing on the way are passed over; a position with none of the five is left
out.

`no_plan` says that the mover has neither a useful move nor a piece with a better square. Such positions are compared
with the other quiet ones in the same phase and of players in the same rating band (200 points): their rate, weighted
as the positions without a plan are spread over phases and bands. Games without ratings make a band of their own.
Positions of one game are not independent, so the interval comes from drawing whole games.

Costs two to four milliseconds a position of every third ply: about a minute on two cores for a thousand games.
"""

import sys
from pathlib import Path
from typing import Any

from evidence import Control, Seen, against_control, draw_against_control, games, main, number, span, table, verdict

EVERY = 3  # plies: an odd number, so that both sides come
EVEN = 2.0  # pawns
FALL = 2.0  # pawns
MOVES = 5
MATE = 1000.0  # pawns
EVALUATION = ("evaluation", "evaluation_mate_in")
STUDY = ("no_plan", "chances", "threats", "in_check")


def pawns(row: Any) -> float | None:
    """The evaluation for White; None where there is none."""
    if row.evaluation_mate_in:
        return MATE if row.evaluation_mate_in > 0 else -MATE
    return row.evaluation


def blunders(values: list[float | None], ply: int, mover: str) -> bool | None:
    """Whether the mover blunders in its next moves from an even position; None where that is not known."""
    now = values[ply]
    if now is None or abs(now) > EVEN:
        return None
    side = 1 if mover == "white" else -1
    later = [side * (value - now) for value in values[ply + 1 : ply + 2 * MOVES : 2] if value is not None]
    return min(later) <= 1e-9 - FALL if later else None


def evaluations(files: list[Path]) -> tuple[int, dict[tuple[str, int], list[float | None]]]:
    """How many games there are, and the evaluations after each ply of those that have any."""
    count, found = 0, {}
    for game in games(files, EVALUATION):
        count += 1
        values = [pawns(row) for row in game]
        if any(value is not None for value in values):
            found[game[0][:2]] = values
    return count, found


def quiet_positions(files: list[Path], values: dict[tuple[str, int], list[float | None]]) -> list[Seen]:
    """With what came of them, game by game."""
    seen = []
    for game in games(files, ("mover", "phase", "mover_rating_band"), STUDY, EVERY):
        known = values.get(game[0][:2])
        for row in game if known else ():
            blundered = blunders(known, row.ply, row.mover)
            if blundered is not None and not (row.in_check or row.chances or row.threats):
                seen.append(Seen(row[:2], (row.phase, row.mover_rating_band), bool(row.no_plan), blundered))
    return seen


def row_of(name: str, found: Control) -> tuple[str, ...]:
    """Of the table."""
    (own, other, apart), per_cent = found.means, 100
    ones, others = (f"{count} in {of}" for count, of in (found[:2], found[2:4]))
    shares = number(own, ".1%"), number(other, ".1%"), number(per_cent * apart, "+.1f")
    return (name, ones, shares[0], others, *shares[1:], span(found.intervals[2], per_cent, 1))


def answer(files: list[Path], out: Path) -> None:
    count, values = evaluations(files)
    print(f"{count} games, {len(values)} of them with evaluation commands.")
    seen = quiet_positions(files, values) if values else []
    without = sum(one.has for one in seen)
    print(f"{len(seen)} quiet, even positions with a known outcome, {without} of them without a plan.\n")
    if not without:
        print("No position qualifies: nothing can be said, and no figure is drawn.")
        return
    parts = {"all": against_control(seen)}
    for phase in ("opening", "middlegame", "endgame"):
        parts[phase] = against_control(one for one in seen if one.kind[0] == phase)
    head = ("", "no plan in games", "fall", "others in games", "fall", "difference", "95 %")
    print(table(head, [row_of(name, found) for name, found in parts.items()]), end="\n\n")
    print("others: of the same phase and rating band, weighted as the positions without a plan are.\n")
    more, less = (f"without a plan the evaluation falls by {FALL:g} pawns {how} often." for how in ("more", "less"))
    for name, found in parts.items():
        print(f"{name}: {verdict(found.intervals[2], more, less)}")
    title = f"Quiet, even positions: a fall by {FALL:g} pawns within the mover's next {MOVES} moves (95 % intervals)"
    draw_against_control(parts, title, ("no plan", "followed by such a fall, % of positions"), files, out, "no_plan")


if __name__ == "__main__":
    sys.exit(main(answer, __doc__))
