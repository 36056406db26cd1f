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
from collections.abc import Callable, Iterator
from pathlib import Path

import chess
import chess.pgn

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "tests/python"))
from truth.calculations import Bound, Referee, exchange_at_least  # noqa: E402  (the same questions, answered in Python)
from truth.vector import vector  # noqa: E402

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


def exchanges(board: chess.Board) -> int:
    men = board.occupied_co[not board.turn] & ~board.kings
    for square in chess.SquareSet(men):
        exchange_at_least(board, square, 1)
    return chess.popcount(men)


def judged(board: chess.Board) -> int:
    moves = list(board.legal_moves)
    for move in moves:
        Referee().keeps_at_least(board, move, 0, Bound())
    return len(moves)


def first_games(name: str, count: int) -> Iterator[chess.pgn.Game]:
    """Of a file of the open data."""
    path = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data") / "pgn" / name
    with path.open(encoding="latin-1") as file:
        for _ in range(count):
            game = chess.pgn.read_game(file)
            if game is None:
                return
            yield game


def replayed(name: str) -> int:
    """The moves of games."""
    return sum(1 for game in first_games(name, 40) for _ in game.mainline_moves())


def scanned(name: str) -> int:
    """The positions of games, read, replayed and turned into all columns of the vector."""
    positions = 0
    for game in first_games(name, 3):
        board = game.board()
        vector(board)
        for move in game.mainline_moves():
            board.push(move)
            vector(board)
        positions += len(board.move_stack) + 1
    return positions


def works() -> dict[str, Work]:
    fens = game_fens()
    boards = [chess.Board(fen) for fen in fens]
    found = dict(perft_work(line) for line in (HERE / "positions.epd").read_text().splitlines())
    if boards:
        found["legal_moves"] = lambda: sum(len(list(board.legal_moves)) for board in boards)
        found["is_mated"] = lambda: len([board.is_checkmate() for board in boards])
        few = boards[:32]  # as many as Python answers in about a second
        found["exchange_wins"] = lambda: sum(exchanges(board) for board in boards)
        found["resolve_wins"] = lambda: len([Referee().wins_at_least(board, 1, Bound()) for board in few])
        found["move_keeps"] = lambda: sum(judged(board) for board in few)
        found["scan/all_static_columns/1/real_time"] = lambda: scanned("masters.pgn")
        for name in ("feature_vector", "feature_columns"):
            found[name] = lambda: len([vector(board) for board in boards[:256]])
        found["write_san"] = lambda: sum(len([board.san(move) for move in board.legal_moves]) for board in boards)
        written = [(board, [board.san(move) for move in board.legal_moves]) for board in boards]
        found["read_san"] = lambda: sum(len([board.parse_san(text) for text in texts]) for board, texts in written)
        for name in ("masters.pgn", "rated-with-evals.pgn"):
            found[f"read_pgn/{name}"] = lambda name=name: replayed(name)
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
    print(f"{'benchmark':<40}{'items/s':>12}{'chess items/s':>16}{'ratio':>10}")
    for path in paths:
        for result in json.loads(Path(path).read_text())["benchmarks"]:
            name = result["name"]
            if result.get("error_occurred"):
                print(f"{name:<40}{result['error_message']}")
                continue
            ours = result.get("items_per_second", 1e9 / result["real_time"])
            theirs = rate(reference[name]) if name in reference else None
            print(
                f"{name:<40}{readable(ours):>12}"
                + (f"{readable(theirs):>16}{ours / theirs:>10,.0f}" if theirs else f"{'-':>16}{'-':>10}")
                + (f"{result['bytes_per_second'] / 1e6:>7.0f} MB/s" if "bytes_per_second" in result else "")
            )


main(sys.argv[1:])
