"""What a look at the board tells: who stands on whose line, and whom a man threatens."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import chess

from .calculations import VALUES
from .forcing import seen_from, squares_of

SLIDERS = (chess.BISHOP, chess.ROOK, chess.QUEEN)

WORTH = {**VALUES, chess.KING: 1000}
"""The king counts above all."""


class Alignment(NamedTuple):
    """A slider, the first man on one of its lines, and the first man behind that."""

    slider: chess.Square
    front: chess.Square
    back: chess.Square


def line_of(a: chess.Square, b: chess.Square) -> chess.SquareSet:
    """The whole rank, file or diagonal through both squares."""
    return chess.SquareSet.ray(a, b)


def without(board: chess.Board, *squares: chess.Square) -> chess.Board:
    """The position with these men, which may be kings, lifted off the board."""
    board = board.copy(stack=False)
    for square in squares:
        board.remove_piece_at(square)
    return board


def alignments_of(board: chess.Board, slider: chess.Square) -> Iterator[Alignment]:
    """The alignments of the slider, men of either side."""
    kind = board.piece_type_at(slider)
    if kind not in SLIDERS:
        return
    seen = attacked_by(kind, slider, board.occupied)
    for front in squares_of(seen & board.occupied):
        beyond = attacked_by(kind, slider, board.occupied & ~chess.BB_SQUARES[front])
        for back in squares_of(beyond & board.occupied & ~seen):
            yield Alignment(slider, front, back)


def attacked_by(slider: chess.PieceType, square: chess.Square, occupied: chess.Bitboard) -> chess.Bitboard:
    """What a slider of the kind attacks from the square, when men stand on `occupied`."""
    diagonal, straight = seen_from(square, occupied)
    return (diagonal if slider != chess.ROOK else 0) | (straight if slider != chess.BISHOP else 0)


def threatened_by(board: chess.Board, man: chess.Square) -> list[chess.Square]:
    """The men of the other side that the man threatens: the king, a man worth more than it, or one that none of its own
    side guards."""
    enemy = not board.color_at(man)
    worth = WORTH[board.piece_type_at(man)]
    return [
        target
        for target in squares_of(board.attacks_mask(man) & board.occupied_co[enemy])
        if board.piece_type_at(target) == chess.KING
        or WORTH[board.piece_type_at(target)] > worth
        or not board.attackers_mask(enemy, target)
    ]


def attacks_anew(before: chess.Board, move: chess.Move, after: chess.Board, target: chess.Square) -> bool:
    """Whether the man that moved attacks the target, or another one of its side that did not attack it before."""
    now = after.attackers_mask(before.turn, target)
    arrived = chess.BB_SQUARES[move.to_square]
    return bool(now) and bool(now & (arrived | ~before.attackers_mask(before.turn, target)))
