"""Times the same work on the Python rules library `chess` and prints a table of both with their ratio.

usage: reference.py RESULT.json...      results of the C++ benchmarks, as written by run.sh

To give a benchmark its counterpart, add a function with the benchmark's name to WORKS: it does the work once on the same
input and returns the number of items, in the same unit. A benchmark without one is printed with no ratio.
"""

import csv
import json
import os
import re
import sys
import time
from collections.abc import Callable
from pathlib import Path

import chess

HERE = Path(__file__).parent
SECONDS = 1.0  # each piece of work is repeated for at least as long

Work = Callable[[], int]


def perft(board: chess.Board, depth: int) -> int:
    if depth == 1:
        return board.legal_moves.count()
    leaves = 0
    for move in board.legal_moves:
        board.push(move)
        leaves += perft(board, depth - 1)
        board.pop()
    return leaves


def perft_work(line: str) -> tuple[str, Work]:
    """The shallowest listed depth of a line of positions.epd; the rate hardly depends on the depth."""
    name = re.search(r'id "(\w+)"', line)
    count = re.search(r"D(\d+) (\d+);", line)
    assert name and count
    depth, leaves = int(count[1]), int(count[2])
    board = chess.Board(" ".join(line.split()[:4]) + " 0 1")

    def work() -> int:
        if perft(board, depth) != leaves:
            raise SystemExit(f"wrong leaf count for {name[1]}")
        return leaves

    return f"perft/{name[1]}", work


def game_fens() -> list[str]:
    folder = os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data"
    path = Path(folder) / "open-puzzles.csv"
    if not path.exists():
        return []
    with path.open(newline="") as file:
        return [row["fen"] for row in csv.DictReader(file)]


def works() -> dict[str, Work]:
    fens = game_fens()
    boards = [chess.Board(fen) for fen in fens]
    found = dict(perft_work(line) for line in (HERE / "positions.epd").read_text().splitlines())
    if boards:
        found["legal_moves"] = lambda: sum(len(list(board.legal_moves)) for board in boards)
        found["is_mated"] = lambda: len([board.is_checkmate() for board in boards])
        found["read_fen"] = lambda: len([chess.Board(fen) for fen in fens])
        found["write_fen"] = lambda: len([board.fen(en_passant="fen") for board in boards])
    return found


def rate(work: Work) -> float:
    """Items a second."""
    items, start = 0, time.perf_counter()
    while (elapsed := time.perf_counter() - start) < SECONDS or items == 0:
        items += work()
    return items / elapsed


def readable(value: float) -> str:
    for unit, size in (("G", 1e9), ("M", 1e6), ("k", 1e3)):
        if value >= size:
            return f"{value / size:.3g} {unit}"
    return f"{value:.3g}  "


def main(paths: list[str]) -> None:
    reference = works()
    print(f"{'benchmark':<32}{'items/s':>12}{'chess items/s':>16}{'ratio':>10}")
    for path in paths:
        for result in json.loads(Path(path).read_text())["benchmarks"]:
            name = result["name"]
            if result.get("error_occurred"):
                print(f"{name:<32}{result['error_message']}")
                continue
            ours = result.get("items_per_second", 1e9 / result["real_time"])
            theirs = rate(reference[name]) if name in reference else None
            print(
                f"{name:<32}{readable(ours):>12}"
                + (f"{readable(theirs):>16}{ours / theirs:>10,.0f}" if theirs else f"{'-':>16}{'-':>10}")
            )


main(sys.argv[1:])
