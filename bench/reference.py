"""Times the same work on the Python rules library `chess` and prints a table of both with their ratio.

What only goes over text has the memory as its limit, and is compared with a copy of memory, too.

usage: reference.py [--json FILE] RESULT.json...      results of the C++ benchmarks, as written by run.sh
    --json: writes the table to a file, too, as a list of rows

To give a benchmark its counterpart, add a function with the benchmark's name to WORKS: it does the work once on the same
input and returns the number of items, in the same unit. A benchmark without one is printed with no ratio.
Add it to LIMITED_BY_MEMORY when it does little else than looking at every byte once.
"""

import csv
import json
import os
import re
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import chess
import chess.pgn

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "tests/python"))
from truth.calculations import Bound, Referee, exchange_at_least  # noqa: E402  (the same questions, answered in Python)
from truth.vector import vector  # noqa: E402

SECONDS = 1.0  # each piece of work is repeated for at least as long

# Each copies the text once, from a file or a string into a window, and looks for line ends, tags and the like in it.
# All other work is limited by computing: a move that is replayed costs hundreds of instructions and has five bytes of
# text, and the numeric vector (500 bytes a position) is written at a small part of the rate of a copy.
LIMITED_BY_MEMORY = ("read_pgn/left_out", "game_borders", "scan/all_games_left_out/1/real_time")

Work = Callable[[], int]
Result = dict[str, Any]


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
        found["perft/game_positions"] = lambda: sum(perft(board, 2) for board in boards[:64])
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
        found["read_pgn/tournament_games"] = lambda: replayed("masters.pgn")
        found["read_pgn/commented_games"] = lambda: replayed("rated-with-evals.pgn")
        found["read_fen"] = lambda: len([chess.Board(fen) for fen in fens])
        found["write_fen"] = lambda: len([board.fen(en_passant="fen") for board in boards])
    return found


def rate(work: Work) -> float:
    """Items a second of the processor, which is what the benchmarks count: other work on the machine then matters little."""
    items, start = 0, time.process_time()
    while (elapsed := time.process_time() - start) < SECONDS or items == 0:
        items += work()
    return items / elapsed


def readable(value: float) -> str:
    for unit, size in (("G", 1e9), ("M", 1e6), ("k", 1e3)):
        if value >= size:
            return f"{value / size:.3g} {unit}"
    return f"{value:.3g}  "


def print_row(name: str, ours: str, theirs: str, ratio: str, bytes_rate: str, share: str) -> None:
    print(f"{name:<44}{ours:>12}{theirs:>16}{ratio:>10}{bytes_rate:>14}{share:>12}".rstrip())


def row_of(result: Result, work: Work | None, copy_rate: float | None) -> dict[str, Any]:
    """The rates of a benchmark, a second; nothing where there is no counterpart."""
    name = result["name"]
    if result.get("error_occurred"):
        return {"name": name, "error": result["error_message"]}
    ours = result["items_per_second"]
    theirs = rate(work) if work else None
    bytes_rate = result.get("bytes_per_second")
    limited = bytes_rate and copy_rate and name in LIMITED_BY_MEMORY
    return {
        "name": name,
        "items": ours,
        "reference": theirs,
        "ratio": ours / theirs if theirs else None,
        "bytes": bytes_rate,
        "of_copy": bytes_rate / copy_rate if limited else None,
    }


def print_result(row: dict[str, Any]) -> None:
    if "error" in row:
        print(f"{row['name']:<44}{row['error']}")
        return
    print_row(
        row["name"],
        readable(row["items"]),
        readable(row["reference"]) if row["reference"] else "-",
        f"{row['ratio']:,.0f}" if row["ratio"] else "-",
        f"{row['bytes'] / 1e6:,.0f} MB/s" if row["bytes"] else "",
        f"{row['of_copy']:.1%}" if row["of_copy"] else "",
    )


def main(paths: list[str]) -> None:
    written = None
    if paths[:1] == ["--json"]:
        written, paths = Path(paths[1]), paths[2:]
    results: list[Result] = [result for path in paths for result in json.loads(Path(path).read_text())["benchmarks"]]
    copy_rate = next((result["bytes_per_second"] for result in results if result["name"] == "memory/copy"), None)
    reference = works()
    print_row("benchmark", "items/s", "chess items/s", "ratio", "text", "of memcpy")
    rows = []
    for result in results:
        rows.append(row_of(result, reference.get(result["name"]), copy_rate))
        print_result(rows[-1])
    if written:
        written.write_text(json.dumps(rows, indent=1) + "\n")


main(sys.argv[1:])
