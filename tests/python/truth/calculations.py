"""Our own exchange and resolve, written from their definitions on top of a general-purpose rules library.

Nothing here is taken from the C++ code but the definitions in the documentation of `exchange` and `resolve`. All
questions are yes-or-no ("does the mover win at least this much?"): that is all a claim needs, and it is cheap enough
for Python.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import chess

VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}

MATE = 10_000
"""A threshold that only mate reaches."""


@dataclass(frozen=True)
class Bound:
    """How far `resolve` looks, as the library documents it."""

    plies: int = 12
    check_plies: int = 3

    def after(self, plies: int) -> Bound:
        """What is left of the bound when `plies` of it have been played."""
        return Bound(max(0, self.plies - plies), max(0, self.check_plies - plies))


def captured_kind(board: chess.Board, move: chess.Move) -> int | None:
    """The kind of the man that the move takes. (In Chess960 castling is "king takes own rook", which takes nothing.)"""
    if board.is_en_passant(move):
        return chess.PAWN
    if board.occupied_co[not board.turn] & chess.BB_SQUARES[move.to_square]:
        return board.piece_type_at(move.to_square)
    return None


def gain_of_move(board: chess.Board, move: chess.Move) -> int:
    """What the move wins by itself: the man taken, and a promotion."""
    captured = captured_kind(board, move)
    gain = VALUES[captured] if captured else 0
    return gain + (VALUES[move.promotion] - VALUES[chess.PAWN] if move.promotion else 0)


def balance(board: chess.Board, side: chess.Color) -> int:
    """Material of `side` minus that of the other side."""
    return sum(
        value * (len(board.pieces(kind, side)) - len(board.pieces(kind, not side))) for kind, value in VALUES.items()
    )


def captures_on(board: chess.Board, square: chess.Square) -> list[chess.Move]:
    """The legal moves that take the enemy man on `square`, en passant included."""
    target = chess.BB_SQUARES[square]
    moves = []
    if target & board.occupied_co[not board.turn]:
        moves = list(board.generate_legal_moves(chess.BB_ALL, target))
        if board.ep_square is not None and board.ep_square ^ 8 == square:
            moves += board.generate_legal_ep()
    return moves


def exchange_at_least(board: chess.Board, square: chess.Square, threshold: int) -> bool:
    """Whether captures on `square`, either side free to stop, win at least `threshold` for the mover."""
    if threshold <= 0:
        return True
    for move in sorted(captures_on(board, square), key=lambda move: board.piece_type_at(move.from_square) or 0):
        won = gain_of_move(board, move)
        if won < threshold:
            continue  # the other side would stop
        board.push(move)
        refuted = exchange_at_least(board, move.to_square, won - threshold + 1)
        board.pop()
        if not refuted:
            return True
    return False


def exchange(board: chess.Board, square: chess.Square) -> int:
    """The gain of the exchange on `square` for the mover, 0 when nothing is won."""
    gain = 0
    while exchange_at_least(board, square, gain + 1):
        gain += 1
    return gain


class Referee:
    """Answers questions about the game that `resolve` defines, and remembers the answers.

    The game: a mover in check has all legal moves, and is mated without one. Otherwise it may stop, so that the balance
    counts as it is, or capture, promote, or, on the first `check_plies` plies, give check with a quiet move. After
    `plies` plies the balance counts. Mate is more than any material. (An earlier mate counts more than a later one,
    which changes no answer to the questions asked here.)
    """

    def __init__(self) -> None:
        # Position and bound -> (largest threshold known to be reached, smallest known not to be).
        self._known: dict[tuple, tuple[int, int]] = {}
        self._winners: dict[chess.Color, chess.Move] = {}

    def wins_at_least(self, board: chess.Board, threshold: int, bound: Bound) -> bool:
        """Whether the mover wins at least `threshold` by force inside `bound`. `MATE` asks for mate."""
        if bound.plies == 0:
            return threshold <= 0
        checked = board.is_check()
        if not checked and threshold <= 0:
            return True
        key = (
            *(board.pawns, board.knights, board.bishops, board.rooks, board.queens, board.kings),
            *(board.occupied_co[chess.WHITE], board.turn, board.castling_rights, board.ep_square),
            *(bound.plies, bound.check_plies),
        )
        reached, missed = self._known.get(key, (-2 * MATE, 2 * MATE))
        if threshold <= reached:
            return True
        if threshold >= missed:
            return False
        answer = self._search(board, checked, threshold, bound)
        self._known[key] = (threshold, missed) if answer else (reached, threshold)
        return answer

    def keeps_at_least(self, board: chess.Board, move: chess.Move, threshold: int, bound: Bound) -> bool:
        """Whether `move` leaves the mover at least `threshold` better off; the bound counts from after the move."""
        won = gain_of_move(board, move)
        board.push(move)
        refuted = self.wins_at_least(board, won - threshold + 1, bound)
        board.pop()
        return not refuted

    def _search(self, board: chess.Board, checked: bool, threshold: int, bound: Bound) -> bool:
        rest = bound.after(1)
        guess = CheckGuess(board)
        for won, move in self._moves(board, checked, bound):
            # A move that wins too little helps only with check, since otherwise the other side would stop.
            if won < threshold and not guess.allows(move):
                continue
            board.push(move)
            holds = (won >= threshold or board.is_check()) and not self.wins_at_least(board, won - threshold + 1, rest)
            board.pop()
            if holds:
                self._winners[board.turn] = move
                return True
        return False

    def _moves(self, board: chess.Board, checked: bool, bound: Bound) -> Iterator[tuple[int, chess.Move]]:
        """The moves of the game and what they take. Those that take most come first, before them the one that has won
        last: the order changes the work, not the answer."""
        if checked:
            yield from self._in_order(board, board.generate_legal_moves())
            return
        last_rank = chess.BB_RANK_8 if board.turn else chess.BB_RANK_1
        promotions = board.generate_legal_moves(board.pawns, last_rank & ~board.occupied)
        yield from self._in_order(board, [*board.generate_legal_captures(), *promotions])
        if bound.check_plies > 0:
            yield from self._in_order(board, quiet_checks(board))

    def _in_order(self, board: chess.Board, moves: Iterable[chess.Move]) -> list[tuple[int, chess.Move]]:
        winner = self._winners.get(board.turn)
        pairs = [(gain_of_move(board, move), move) for move in moves]
        return sorted(pairs, key=lambda pair: (pair[1] != winner, -pair[0]))


class CheckGuess:
    """Which moves may give check, by a look at the board that lets no check through: a man arrives where its kind attacks
    the king, or leaves a line to it; or something happens on more than two squares (castling, en passant)."""

    def __init__(self, board: chess.Board) -> None:
        self._board = board
        king = board.king(not board.turn)
        diagonal = chess.BB_DIAG_ATTACKS[king][chess.BB_DIAG_MASKS[king] & board.occupied]
        straight = chess.BB_RANK_ATTACKS[king][chess.BB_RANK_MASKS[king] & board.occupied]
        straight |= chess.BB_FILE_ATTACKS[king][chess.BB_FILE_MASKS[king] & board.occupied]
        self._lines = diagonal | straight
        self._attacks_from = {
            chess.PAWN: chess.BB_PAWN_ATTACKS[not board.turn][king],
            chess.KNIGHT: chess.BB_KNIGHT_ATTACKS[king],
            chess.BISHOP: diagonal,
            chess.ROOK: straight,
            chess.QUEEN: diagonal | straight,
            chess.KING: chess.BB_EMPTY,
        }

    def allows(self, move: chess.Move) -> bool:
        kind = self._board.piece_type_at(move.from_square)
        return bool(
            self._attacks_from[move.promotion or kind] & chess.BB_SQUARES[move.to_square]
            or self._lines & chess.BB_SQUARES[move.from_square]
            or (kind == chess.KING and self._board.is_castling(move))
            or (kind == chess.PAWN and self._board.is_en_passant(move))
        )


def quiet_checks(board: chess.Board) -> Iterator[chess.Move]:
    """The legal moves that give check and neither capture nor promote."""
    guess = CheckGuess(board)
    empty_or_rook = ~board.occupied_co[not board.turn]  # in Chess960 castling goes to the own rook's square
    for move in board.generate_legal_moves(chess.BB_ALL, empty_or_rook):
        if guess.allows(move) and not move.promotion and not board.is_en_passant(move) and board.gives_check(move):
            yield move
