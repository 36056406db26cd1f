"""Captures, promotions and checks, found by looking only where they can be: less work than to go through all moves.

What is found here is pseudo-legal: it may leave the own king attacked, and a possible check may be none. Who asks tries
the move and looks (`Board.was_into_check`, `Board.is_check`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

import chess


@lru_cache(maxsize=1 << 16)
def squares_of(mask: chess.Bitboard) -> tuple[chess.Square, ...]:
    return tuple(chess.scan_forward(mask))


@lru_cache(maxsize=1 << 12)
def plain_move(origin: chess.Square, target: chess.Square) -> chess.Move:
    return chess.Move(origin, target)


def promoters(board: chess.Board) -> chess.Bitboard:
    """The mover's pawns that are one step before their last rank."""
    return board.pawns & board.occupied_co[board.turn] & (chess.BB_RANK_7 if board.turn else chess.BB_RANK_2)


def special_pawn_moves(board: chess.Board) -> list[chess.Move]:
    """Promotions and en passant."""
    moves: list[chess.Move] = []
    if pawns := promoters(board):
        moves += board.generate_pseudo_legal_moves(pawns)
    if board.ep_square is not None:
        moves += board.generate_pseudo_legal_ep()
    return moves


def seen_from(square: chess.Square, occupied: chess.Bitboard) -> tuple[chess.Bitboard, chess.Bitboard]:
    """What a bishop and what a rook on the square would attack."""
    diagonal = chess.BB_DIAG_ATTACKS[square][chess.BB_DIAG_MASKS[square] & occupied]
    rank = chess.BB_RANK_ATTACKS[square][chess.BB_RANK_MASKS[square] & occupied]
    return diagonal, rank | chess.BB_FILE_ATTACKS[square][chess.BB_FILE_MASKS[square] & occupied]


def discoverers(board: chess.Board) -> chess.Bitboard:
    """The mover's men that alone stand between one of its sliders and the other king."""
    king = board.king(not board.turn)
    own = board.occupied_co[board.turn]
    diagonal, straight = seen_from(king, board.occupied)
    nearest = (diagonal | straight) & own
    found = chess.BB_EMPTY
    if nearest:
        further_diagonal, further_straight = seen_from(king, board.occupied & ~nearest)
        behind = further_diagonal & ~diagonal & (board.bishops | board.queens)
        behind |= further_straight & ~straight & (board.rooks | board.queens)
        for slider in squares_of(behind & own):
            found |= chess.between(king, slider) & nearest
    return found


def possible_checks(board: chess.Board, targets: chess.Bitboard) -> Iterator[chess.Move]:
    """The moves to `targets` that may give check, promotions and en passant apart, castling where `targets` has empty
    squares.

    A man arrives where its kind attacks the king, or leaves a line to it, or castles.
    """
    king = board.king(not board.turn)
    diagonal, straight = seen_from(king, board.occupied)
    leaving = discoverers(board)
    others = board.occupied_co[board.turn] & ~leaving & ~promoters(board)
    for men, aims in (
        (board.queens, diagonal | straight),
        (board.rooks, straight),
        (board.bishops, diagonal),
        (board.knights, chess.BB_KNIGHT_ATTACKS[king]),
    ):
        if (wanted := aims & targets) and (men := men & others):
            for man in squares_of(men):
                for target in squares_of(board.attacks_mask(man) & wanted):
                    yield plain_move(man, target)
    if wanted := chess.BB_PAWN_ATTACKS[not board.turn][king] & targets:
        # No pawn steps further than over two ranks, so most are not worth a look.
        near = wanted >> 7 | wanted >> 8 | wanted >> 9 | wanted >> 16
        if not board.turn:
            near = wanted << 7 | wanted << 8 | wanted << 9 | wanted << 16
        if pawns := board.pawns & others & near:
            for move in board.generate_pseudo_legal_moves(pawns, wanted):
                if not board.is_en_passant(move):
                    yield move
    if leaving := leaving & ~promoters(board):
        for move in board.generate_pseudo_legal_moves(leaving, targets):
            if not board.is_en_passant(move):
                yield move
    if board.castling_rights and targets & ~board.occupied:
        yield from board.generate_castling_moves()


def checks(board: chess.Board, targets: chess.Bitboard = chess.BB_ALL) -> list[chess.Move]:
    """The legal moves to `targets` that give check, promotions and en passant apart."""
    return legal_checks(board, possible_checks(board, targets & ~board.occupied_co[board.turn]))


def all_checks(board: chess.Board) -> list[chess.Move]:
    """The legal moves that give check."""
    return checks(board) + legal_checks(board, special_pawn_moves(board))


def legal_checks(board: chess.Board, moves: Iterable[chess.Move]) -> list[chess.Move]:
    """Those of the pseudo-legal moves that are legal and give check."""
    found = []
    for move in moves:
        board.push(move)
        if board.is_check() and not board.was_into_check():
            found.append(move)
        board.pop()
    return found


def mates_at_once(board: chess.Board) -> list[chess.Move]:
    """The legal moves that mate."""
    mates = []
    for move in all_checks(board):
        board.push(move)
        if not any(board.generate_legal_moves()):
            mates.append(move)
        board.pop()
    return mates
