"""Counts of pawns and what follows from them, square by square, by the documented definitions."""

from __future__ import annotations

import chess

from .calculations import exchange_at_least, gain_of_move

Squares = set[chess.Square]


def relative_rank(side: chess.Color, square: chess.Square) -> int:
    """The rank as the side counts, from 0."""
    return chess.square_rank(square) if side else 7 - chess.square_rank(square)


def pawns_of(board: chess.Board, side: chess.Color) -> Squares:
    return set(board.pieces(chess.PAWN, side))


def files_with_pawns(board: chess.Board, side: chess.Color) -> set[int]:
    return {chess.square_file(pawn) for pawn in pawns_of(board, side)}


def on_files(files: set[int]) -> Squares:
    return {square for square in chess.SQUARES if chess.square_file(square) in files}


def open_files(board: chess.Board) -> Squares:
    return on_files(set(range(8)) - files_with_pawns(board, chess.WHITE) - files_with_pawns(board, chess.BLACK))


def half_open_files(board: chess.Board, side: chess.Color) -> Squares:
    return on_files(files_with_pawns(board, not side) - files_with_pawns(board, side))


def count_files(squares: Squares) -> int:
    return len({chess.square_file(square) for square in squares})


def isolated(board: chess.Board, side: chess.Color) -> Squares:
    files = files_with_pawns(board, side)
    return {pawn for pawn in pawns_of(board, side) if not files & {chess.square_file(pawn) + d for d in (-1, 1)}}


def doubled(board: chess.Board, side: chess.Color) -> Squares:
    pawns = pawns_of(board, side)
    return {a for a in pawns if any(a != b and chess.square_file(a) == chess.square_file(b) for b in pawns)}


def passed(board: chess.Board, side: chess.Color) -> Squares:
    def is_stopped(pawn: chess.Square) -> bool:
        return any(
            abs(chess.square_file(enemy) - chess.square_file(pawn)) <= 1
            and relative_rank(side, enemy) > relative_rank(side, pawn)
            for enemy in pawns_of(board, not side)
        )

    return {pawn for pawn in pawns_of(board, side) if not is_stopped(pawn)}


def pawn_ever_guards(board: chess.Board, side: chess.Color, square: chess.Square) -> bool:
    """Whether a pawn of the side guards the square or could by advancing, whatever stands in its way."""
    return any(
        abs(chess.square_file(pawn) - chess.square_file(square)) == 1
        and relative_rank(side, pawn) < relative_rank(side, square)
        for pawn in pawns_of(board, side)
    )


def holes(board: chess.Board, side: chess.Color) -> Squares:
    """Squares of the second to fourth rank that no pawn of the side can ever guard."""
    ranks = (1, 2, 3)
    return {s for s in chess.SQUARES if relative_rank(side, s) in ranks and not pawn_ever_guards(board, side, s)}


def outposts_taken(board: chess.Board, side: chess.Color) -> Squares:
    """The minor pieces of the side on the fifth to seventh rank, guarded by a pawn, that no enemy pawn can ever attack."""
    minors = board.pieces(chess.KNIGHT, side) | board.pieces(chess.BISHOP, side)
    return {
        square
        for square in minors
        if relative_rank(side, square) in (4, 5, 6)
        and board.attackers(side, square) & board.pieces(chess.PAWN, side)
        and not pawn_ever_guards(board, not side, square)
    }


def fixed_pawns(board: chess.Board, side: chess.Color) -> Squares:
    """Pawns before which a pawn or an enemy man stands, or whose step loses them by exchange (a pin is ignored)."""
    fixed = set()
    for pawn in pawns_of(board, side):
        stop = pawn + (8 if side else -8)
        ahead = board.piece_at(stop)
        if ahead is not None:
            if ahead.piece_type == chess.PAWN or ahead.color != side:
                fixed.add(pawn)
            continue
        turn = board.copy(stack=False)
        if turn.turn != side:
            turn.turn, turn.ep_square = side, None
        step = chess.Move(pawn, stop, chess.QUEEN if relative_rank(side, stop) == 7 else None)
        won = gain_of_move(turn, step)
        turn.push(step)
        if exchange_at_least(turn, stop, won + 1):
            fixed.add(pawn)
    return fixed


def king_shield(board: chess.Board, side: chess.Color) -> Squares:
    """On each file on the king, the nearest own pawn one or two ranks ahead of it."""
    king = board.king(side)
    shield = set()
    for file in range(chess.square_file(king) - 1, chess.square_file(king) + 2):
        ahead = [
            pawn
            for pawn in pawns_of(board, side)
            if chess.square_file(pawn) == file and relative_rank(side, pawn) - relative_rank(side, king) in (1, 2)
        ]
        shield.update(sorted(ahead, key=lambda pawn: relative_rank(side, pawn))[:1])
    return shield


def bearing_men(board: chess.Board, side: chess.Color) -> Squares:
    """The men of the other side, its king excepted, that attack the square of the side's king or one next to it."""
    king = board.king(side)
    zone = board.attacks(king) | chess.SquareSet([king])
    men = chess.SquareSet(board.occupied_co[not side]) - board.pieces(chess.KING, not side)
    return {man for man in men if board.attacks(man) & zone}
