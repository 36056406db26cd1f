"""Counts of pawns and what follows from them, square by square, by the documented definitions."""

from __future__ import annotations

from functools import lru_cache

import chess

from .calculations import exchange_at_least, gain_of_move
from .forcing import squares_of

Squares = set[chess.Square]


def relative_rank(side: chess.Color, square: chess.Square) -> int:
    """The rank as the side counts, from 0."""
    return chess.square_rank(square) if side else 7 - chess.square_rank(square)


def pawns_of(board: chess.Board, side: chess.Color) -> Squares:
    return set(squares_of(board.pieces_mask(chess.PAWN, side)))


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
    return square in ever_guarded(board.pieces_mask(chess.PAWN, side), side)


@lru_cache(maxsize=1 << 12)
def ever_guarded(pawns: chess.Bitboard, side: chess.Color) -> frozenset[chess.Square]:
    """The squares that these pawns of the side guard or could by advancing."""
    return frozenset(
        square
        for square in chess.SQUARES
        if any(
            abs(chess.square_file(pawn) - chess.square_file(square)) == 1
            and relative_rank(side, pawn) < relative_rank(side, square)
            for pawn in squares_of(pawns)
        )
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


# --- kinds of pawns --------------------------------------------------------------------------------------------------


def file_distance(a: chess.Square, b: chess.Square) -> int:
    return abs(chess.square_file(a) - chess.square_file(b))


def pawn_attacks(side: chess.Color, square: chess.Square) -> Squares:
    """The squares that a pawn of the side would attack from there."""
    return {
        target
        for target in chess.SQUARES
        if file_distance(target, square) == 1 and relative_rank(side, target) == relative_rank(side, square) + 1
    }


PAWN_ATTACKS = {side: [pawn_attacks(side, square) for square in chess.SQUARES] for side in chess.COLORS}


def attacked_by_pawns(board: chess.Board, side: chess.Color) -> Squares:
    return {target for pawn in pawns_of(board, side) for target in PAWN_ATTACKS[side][pawn]}


def ahead(side: chess.Color, square: chess.Square, steps: int = 1) -> chess.Square | None:
    """The square so many steps ahead on the file, None beyond the edge."""
    rank = relative_rank(side, square) + steps
    return square + (8 if side else -8) * steps if 0 <= rank <= 7 else None


def backward(board: chess.Board, side: chess.Color) -> Squares:
    """Pawns with neighbours, all of them ahead, whose next square a pawn of the other side attacks."""
    pawns, denied = pawns_of(board, side), attacked_by_pawns(board, not side)

    def is_backward(pawn: chess.Square) -> bool:
        neighbours = [other for other in pawns if file_distance(other, pawn) == 1]
        left_behind = all(relative_rank(side, other) > relative_rank(side, pawn) for other in neighbours)
        return bool(neighbours) and left_behind and ahead(side, pawn) in denied

    return {pawn for pawn in pawns if is_backward(pawn)}


def helpers(board: chess.Board, side: chess.Color, pawn: chess.Square) -> Squares:
    """Pawns of the side on the neighbouring files, level with the pawn or behind it."""
    rank = relative_rank(side, pawn)
    return {p for p in pawns_of(board, side) if file_distance(p, pawn) == 1 and relative_rank(side, p) <= rank}


def sentries(board: chess.Board, side: chess.Color, pawn: chess.Square) -> Squares:
    """Pawns of the other side on the neighbouring files, ahead of the pawn."""
    rank = relative_rank(side, pawn)
    return {p for p in pawns_of(board, not side) if file_distance(p, pawn) == 1 and relative_rank(side, p) > rank}


def candidates(board: chess.Board, side: chess.Color) -> Squares:
    """Pawns that are not passed, with no pawn ahead on their file, and no fewer helpers than sentries."""
    all_pawns = pawns_of(board, chess.WHITE) | pawns_of(board, chess.BLACK)
    return {
        pawn
        for pawn in pawns_of(board, side) - passed(board, side)
        if not any(
            file_distance(other, pawn) == 0 and relative_rank(side, other) > relative_rank(side, pawn)
            for other in all_pawns
        )
        and len(helpers(board, side, pawn)) >= len(sentries(board, side, pawn))
    }


def islands(board: chess.Board, side: chess.Color) -> int:
    """Groups of neighbouring files with pawns: as many as there are files with pawns and none on the file to the left."""
    files = files_with_pawns(board, side)
    return len([file for file in files if file - 1 not in files])


def chains(board: chess.Board, side: chess.Color) -> list[Squares]:
    """Pawns that hang together by guarding one another, at least two each."""
    pawns = pawns_of(board, side)
    groups = [{pawn} for pawn in pawns]
    for guard in pawns:
        for guarded in PAWN_ATTACKS[side][guard] & pawns:
            joined = [group for group in groups if guard in group or guarded in group]
            groups = [group for group in groups if group not in joined] + [set.union(*joined)]
    return [group for group in groups if len(group) >= 2]


def levers(board: chess.Board, side: chess.Color) -> list[tuple[chess.Square, chess.Square, Squares]]:
    """(pawn, arrival square, enemy pawns that it attacks there) of every advance that makes contact."""
    found = []
    for pawn in pawns_of(board, side):
        for steps in (1, 2) if relative_rank(side, pawn) == 1 else (1,):
            arrival = ahead(side, pawn, steps)
            if arrival is None or board.piece_at(arrival) is not None:
                break
            targets = PAWN_ATTACKS[side][arrival] & pawns_of(board, not side)
            if targets:
                found.append((pawn, arrival, targets))
    return found
