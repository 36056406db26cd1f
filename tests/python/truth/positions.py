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
    moves = list(game.mainline_moves())
    plies = random.Random(seed).sample(range(1, len(moves) + 1), min(count, len(moves)))
    board = game.board()
    fens = {}
    for ply in range(1, max(plies, default=0) + 1):
        board.push(moves[ply - 1])
        if ply in plies:
            fens[ply] = board.fen(en_passant="fen")
    return [fens[ply] for ply in plies]


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


def from_random_setup(count: int, seed: int) -> Iterator[str]:
    """Positions with a legal move, each a board on which men of the usual numbers, or fewer, are put at random. They show
    what games hardly ever do: kings in the open, pawns and pieces where none ever get."""
    dice = random.Random(seed)
    most = {chess.PAWN: 8, chess.KNIGHT: 2, chess.BISHOP: 2, chess.ROOK: 2, chess.QUEEN: 1}
    made = 0
    while made < count:
        board = chess.Board(None)
        squares = dice.sample(range(64), 64)
        for side in chess.COLORS:
            board.set_piece_at(squares.pop(), chess.Piece(chess.KING, side))
            for kind, at_most in most.items():
                for square in [squares.pop() for _ in range(dice.randint(0, at_most))]:
                    if kind != chess.PAWN or 0 < chess.square_rank(square) < 7:
                        board.set_piece_at(square, chess.Piece(kind, side))
        board.turn = dice.choice(chess.COLORS)
        if board.is_valid() and any(board.legal_moves) and not has_bishops_of_one_colour(board):
            made += 1
            yield board.fen(en_passant="fen")


def has_bishops_of_one_colour(board: chess.Board) -> bool:
    """Whether a side has two bishops on one colour: one of them would have been a pawn."""
    bishops = [board.pieces(chess.BISHOP, side) for side in chess.COLORS]
    return any(len(own & colour) > 1 for own in bishops for colour in (chess.BB_LIGHT_SQUARES, chess.BB_DARK_SQUARES))


def mixed_positions(count: int, seed: int) -> list[str]:
    """Half of them from games, where these are to be had, the others from random set-ups and random play."""
    folder = open_data()
    fens: list[str] = []
    if folder is not None:
        for at, text in enumerate(game_texts(folder / "pgn" / "masters.pgn", count // 2)):
            fens += from_game(text, 1, seed + at)
    fens += from_random_setup(count // 6, seed)
    return [*fens, *from_random_play(count - len(fens), seed)]
