"""Positions to test on: from games of the open collections, and from random legal play."""

from __future__ import annotations

import io
import os
import random
import re
from collections.abc import Iterator
from pathlib import Path

import chess
import chess.pgn

COLLECTIONS = ("masters.pgn", "rated-with-evals.pgn", "rated-one-player.pgn")


def open_data() -> Path | None:
    """The folder of the open collections, None where it is missing."""
    root = Path(__file__).resolve().parents[3]
    folder = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or root / "../shared/data").resolve()
    return folder if (folder / "pgn").is_dir() else None


def game_texts(file: Path, at_most: int) -> Iterator[str]:
    """The texts of at most that many games of a PGN file, evenly spread over it."""
    data = file.read_bytes()
    starts = [match.start() for match in re.finditer(rb"^\[Event ", data, re.MULTILINE)]
    wanted = sorted({at * len(starts) // at_most for at in range(at_most)})
    for game in wanted:
        end = starts[game + 1] if game + 1 < len(starts) else len(data)
        yield data[starts[game] : end].decode("utf-8", errors="replace")


def from_game(text: str, count: int, seed: int) -> list[str]:
    """`count` different positions of the game's main line, as FEN; none where the reader finds errors."""
    game = chess.pgn.read_game(io.StringIO(text))
    if game is None or game.errors or game.headers.get("Variant", "Standard") != "Standard":
        return []
    fens = [node.board().fen(en_passant="fen") for node in game.mainline()] if count else []
    return random.Random(seed).sample(fens, min(count, len(fens)))


def from_random_play(count: int, seed: int, *, chess960: bool = False, longest: int = 120) -> Iterator[str]:
    """Positions with a legal move, each at a random ply of a game of random moves of its own."""
    dice = random.Random(seed)
    made = 0
    while made < count:
        board = chess.Board.from_chess960_pos(dice.randrange(960)) if chess960 else chess.Board()
        for _ in range(dice.randrange(longest)):
            moves = list(board.legal_moves)
            if not moves:
                break
            board.push(dice.choice(moves))
        if any(board.legal_moves):
            made += 1
            yield board.fen(en_passant="fen")
