"""Do locked pairs lose more often?

usage: locked_pairs.py [FILES...] [--out FOLDER]

A locked pair are two men of one side that only guard each other, and either move of them loses something
(`white_locked_pairs`, `black_locked_pairs`). One position of each game is looked at: the first in which one side has
such a pair and the other side has none, and again the first in which that has been so for two plies in a row, so that
both sides have had their say. What came of the game for the owner is compared with what came of other positions,
without a locked pair on the board, for a side in the same situation: the same colour and phase, as many pawns of
material ahead or behind (up to 6), and to move or not alike. For a side that is behind loses more often anyway, and
so does one that has just blundered. Of those others every 15th ply is taken, seen from both sides; they are weighted
so that they are spread over the situations as the owners are, and the interval comes from drawing whole games, as
positions of one game are not independent.

The score is held against what the ratings let expect by the logistic curve; games without two ratings or a result are
left out and counted.

Costs about a tenth of a millisecond a position: some minutes on two cores for sixteen thousand games.
"""

import sys
from pathlib import Path
from typing import Any, NamedTuple

from evidence import Control, Seen, against_control, draw_against_control, games, main, number, span, table, verdict

EVERY = 15  # plies, of the positions to compare with: an odd number, so that both sides come to move
MOST = 6  # pawns
STOOD = (1, 2)  # plies
COLUMNS = ("mover", "phase", "white_score", "white_expected_score")
FEATURES = ("white_locked_pairs", "black_locked_pairs", "material_difference")
OUTCOMES = ("lost", "score - expected")


def owner_of(row: Any) -> int:
    """1 when only White has a locked pair, -1 when only Black has one, else 0."""
    return (row.white_locked_pairs > 0) - (row.black_locked_pairs > 0)


def first_locked(game: list[Any], plies: int) -> Any:
    """The first row in which one side has been the only owner for so many plies in a row; None without one."""
    for at in range(plies - 1, len(game)):
        owners = {owner_of(row) for row in game[at - plies + 1 : at + 1]}
        if owners in ({1}, {-1}):
            return game[at]
    return None


def seen_by(row: Any, side: int, has: bool, outcome: str) -> Seen:
    """The position, seen by White (1) or Black (-1)."""
    material = max(-MOST, min(MOST, side * row.material_difference))
    gain = side * (row.white_score - row.white_expected_score)
    lost = row.white_score == (0 if side == 1 else 1)
    return Seen(row[:2], (row.phase, material, side, row.mover), has, lost if outcome == "lost" else gain)


class Games(NamedTuple):
    """What is needed of all games that have ratings and a result."""

    seen: int
    used: int
    locked: dict[int, list[Any]]  # by how many plies it has stood
    free: list[Any]


def read(files: list[Path]) -> Games:
    seen = used = 0
    locked: dict[int, list[Any]] = {plies: [] for plies in STOOD}
    free = []
    for game in games(files, COLUMNS, FEATURES):
        seen += 1
        if None in (game[0].white_score, game[0].white_expected_score):
            continue
        used += 1
        for plies in STOOD:
            locked[plies] += [row] if (row := first_locked(game, plies)) else []
        free += [row for row in game[::EVERY] if not (row.white_locked_pairs or row.black_locked_pairs)]
    return Games(seen, used, locked, free)


def compared(them: Games, plies: int, outcome: str, behind: int | None = None) -> Control:
    """Owners against the others; only those behind (-1), level (0) or ahead (1) in material, if that is said."""
    seen = [seen_by(row, owner_of(row), True, outcome) for row in them.locked[plies]]
    seen += [seen_by(row, side, False, outcome) for row in them.free for side in (1, -1)]
    return against_control(one for one in seen if behind in (None, (one.kind[1] > 0) - (one.kind[1] < 0)))


def row_of(name: str, lost: Control, gain: Control) -> tuple[str, ...]:
    """Of the table."""
    own, other, apart = lost.means
    shares = (number(own, ".0%"), number(other, ".0%"), number(100 * apart, "+.1f"), span(lost.intervals[2], 100, 1))
    return (name, str(lost.games), *shares, number(gain.means[2], "+.3f"), span(gain.intervals[2]))


def answer(files: list[Path], out: Path) -> None:
    them = read(files)
    print(f"{them.seen} games; {them.seen - them.used} are left out, being without two ratings or a result.")
    print(f"In {len(them.locked[1])} of the others one side alone has a locked pair at some time. One position a game,")
    print(f"held against {len(them.free)} positions without one.\n")
    if not them.locked[1]:
        print("No game qualifies: nothing can be said, and no figure is drawn.")
        return
    parts = {
        "when it first stands": (1, None),
        "- behind in material": (1, -1),
        "- level": (1, 0),
        "- ahead": (1, 1),
        "when it has stood for two plies": (2, None),
    }
    lost, gain = (
        {name: compared(them, plies, outcome, by) for name, (plies, by) in parts.items()} for outcome in OUTCOMES
    )
    head = ("a locked pair", "games", "lost", "others lost", "difference", "95 %", "difference of gains", "95 %")
    print(table(head, [row_of(name, lost[name], gain[name]) for name in parts]), end="\n\n")
    print("others: of the same colour, in the same phase, with the same balance of material, to move or not alike.")
    print("gain: the score minus what the ratings let expect, in points a game.\n")
    more, less = (f"owners of a locked pair lose {how} often than others like them." for how in ("more", "less"))
    for name, found in lost.items():
        print(f"{name}: {verdict(found.intervals[2], more, less)}")
    title = "Games lost by the owner of a locked pair, and by others in the same situation (95 % intervals)"
    draw_against_control(lost, title, ("owners", "lost, % of games"), files, out, "locked_pairs")


if __name__ == "__main__":
    sys.exit(main(answer, __doc__))
