"""Times what one call from Python costs: small functions in nanoseconds, whole tables in nanoseconds a position.

usage: time_calls.py [--json FILE]

Run it with the Python of build/venv after tests/run.sh. Each time is the least of several runs, with the loop of
`timeit` in it, on the position of bench/game_positions.fen that is in the middle by the number of its moves. The
yardsticks are a builtin and a method of a Python class.

A call of a compiled function costs 40 to 100 ns: finding the overload, taking the arguments apart, making the result.
What takes longer does so for the reason that stands beside it.
"""

import argparse
import json
import sys
import timeit
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pyarrow as pa

import keysquare as ks

HERE = Path(__file__).parent
SEASON = HERE.parent / "examples/data/season.pgn"


class Call(NamedTuple):
    code: str
    reason: str = ""
    """Why it takes longer than a call must."""


class Idle:
    def method(self) -> None:
        pass


YARDSTICKS = [Call("len(text)", "a builtin"), Call("idle.method()", "a Python method that does nothing")]

CALLS = [
    Call("position.mover"),
    Call("position.in_check"),
    Call("position.key"),
    Call("hash(position)"),
    Call("position == same"),
    Call("position.piece_at(square)"),
    Call("position.attackers_of(square, 'white')"),
    Call("position.is_mated"),
    Call("move.origin"),
    Call("str(move)"),
    Call("move.san(position)", "looks for other men that could go there, and for mate"),
    Call("position.fen", "writes 50 to 70 letters"),
    Call("position.move(san)", "reads a text and finds the legal move"),
    Call("position.passed()", "a new Position"),
    Call("position.after(move)", "a new Position, and whether the move is legal"),
    Call("position.after(san)", "the same, and reads a text"),
    Call("ks.perft(position, 1)", "counts the legal moves"),
    Call("ks.Position(fen)", "reads a FEN and holds it to every rule of legality that can be checked"),
    Call("position.pieces", "a dict of all men"),
    Call("position.moves()", "one Python object a move, 100 ns each; perft(position, 1) only counts them"),
    Call("ks.exchange(position, square)", "an Outcome: a Python object of five fields, with a list of moves"),
    Call("ks.resolve(position)", "the search itself"),
]

# Each of these makes one table of many positions, and no Python object for any of them but where it says so.
TABLES = [
    Call("ks.features(positions)", "the 249 numbers of positions that are Python objects already"),
    Call("ks.features(fens)", "the same from a list of text: reads a FEN each"),
    Call("ks.features(arrow_fens)", "the same from an Arrow array: no objects"),
    Call("ks.features(numpy_fens)", "the same from a numpy array of text: no objects"),
    Call("ks.features(game.positions())", "the same of a game: makes a Position each"),
    Call("for batch in ks.scan(season, threads=1, progress=False): pass", "from a file: no objects at all"),
]


def middle_position() -> ks.Position:
    positions = [ks.Position(fen) for fen in (HERE / "game_positions.fen").read_text().splitlines()]
    return sorted(positions, key=lambda position: len(position.moves()))[len(positions) // 2]


def names_in_calls() -> dict[str, object]:
    position = middle_position()
    move = position.moves()[len(position.moves()) // 2]
    games = list(ks.read_games(SEASON))
    positions = [position for game in games for position in game.positions()]
    fens = [position.fen for position in positions]
    return {
        "ks": ks,
        "idle": Idle(),
        "text": "text",
        "position": position,
        "same": ks.Position(position.fen),
        "fen": position.fen,
        "move": move,
        "san": move.san(position),
        "square": next(square for square, piece in position.pieces.items() if piece.side == position.waiter),
        "game": games[0],
        "positions": positions,
        "fens": fens,
        "arrow_fens": pa.array(fens),
        "numpy_fens": np.array(fens),
        "season": SEASON,
    }


def nanoseconds(code: str, names: dict[str, object]) -> float:
    timer = timeit.Timer(code, globals=names)
    number, _ = timer.autorange()
    number = max(1, number // 10)
    return min(timer.repeat(repeat=10, number=number)) / number * 1e9


def rows_of(code: str, names: dict[str, object]) -> int:
    """How many positions a table is made of."""
    if "season" in code:
        return len(names["positions"])  # type: ignore[arg-type]  # a list
    return len(eval(code, names))


def print_rows(title: str, calls: list[Call], times: dict[str, float]) -> None:
    print(f"{title:<64}{'ns':>8}")
    for call in calls:
        print(f"{call.code:<64}{times[call.code]:>8,.0f}  {call.reason}".rstrip())
    print()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", type=Path, help="write the numbers to a file")
    options = parser.parse_args()
    names = names_in_calls()
    times = {call.code: nanoseconds(call.code, names) for call in YARDSTICKS + CALLS}
    times |= {call.code: nanoseconds(call.code, names) / rows_of(call.code, names) for call in TABLES}
    print_rows("yardsticks, a call", YARDSTICKS, times)
    print_rows("a call", CALLS, times)
    print_rows("a position of a table", TABLES, times)
    of_list = times["ks.features(fens)"]
    for code in ("ks.features(arrow_fens)", "ks.features(numpy_fens)"):
        print(f"{code}: {1e9 / times[code]:,.0f} positions a second, {of_list / times[code]:.2f} times the list's")
    if options.json:
        options.json.write_text(json.dumps(times, indent=1) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
