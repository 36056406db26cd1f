"""Our own exchange and resolve, written from their definitions on top of a general-purpose rules library.

Nothing here is taken from the C++ code but the definitions in the documentation of `exchange` and `resolve`. All
questions are yes-or-no ("does the mover win at least this much?"): that is all a claim needs, and it is cheap enough
for Python.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

import chess

from .forcing import checks, plain_move, possible_checks, promoters, special_pawn_moves, squares_of

VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}

MATE = 10_000
"""A threshold that only mate reaches."""


class Bound(NamedTuple):
    """How far `resolve` looks, as the library documents it."""

    plies: int = 12
    check_plies: int = 3

    @cache
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
        if takers := board.attackers_mask(board.turn, square):
            moves += board.generate_legal_moves(takers, target)
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


def victims_of(board: chess.Board, least: int) -> Iterator[tuple[int, chess.Square]]:
    """The values and squares of the other side's men that are worth at least `least`, which is positive: first the man
    that moved last, then the dearest."""
    theirs = board.occupied_co[not board.turn]
    ranked = (
        (VALUES[chess.QUEEN], board.queens & theirs),
        (VALUES[chess.ROOK], board.rooks & theirs),
        (VALUES[chess.BISHOP], (board.bishops | board.knights) & theirs),
        (VALUES[chess.PAWN], board.pawns & theirs),
    )
    arrived = chess.BB_SQUARES[board.move_stack[-1].to_square] if board.move_stack else chess.BB_EMPTY
    for part in (arrived, ~arrived):
        for value, men in ranked:
            if value < least:
                break
            for man in squares_of(men & part):
                yield value, man


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

    def wins_at_least(self, board: chess.Board, threshold: int, bound: Bound) -> bool:
        """Whether the mover wins at least `threshold` by force inside `bound`. `MATE` asks for mate."""
        return self._wins(board, board.is_check(), threshold, bound)

    def keeps_at_least(self, board: chess.Board, move: chess.Move, threshold: int, bound: Bound) -> bool:
        """Whether `move` leaves the mover at least `threshold` better off; the bound counts from after the move."""
        won = gain_of_move(board, move)
        board.push(move)
        refuted = self.wins_at_least(board, won - threshold + 1, bound)
        board.pop()
        return not refuted

    def _wins(self, board: chess.Board, checked: bool, threshold: int, bound: Bound) -> bool:
        if bound.plies == 0:
            return threshold <= 0
        if not checked and threshold <= 0:
            return True
        key = (
            *(board.pawns, board.knights, board.bishops, board.rooks, board.queens, board.kings),
            *(board.occupied_co[chess.WHITE], board.turn, board.castling_rights, board.ep_square),
            *bound,
        )
        reached, missed = self._known.get(key, (-2 * MATE, 2 * MATE))
        if threshold <= reached:
            return True
        if threshold >= missed:
            return False
        answer = self._search(board, checked, threshold, bound)
        self._known[key] = (threshold, missed) if answer else (reached, threshold)
        return answer

    def _search(self, board: chess.Board, checked: bool, threshold: int, bound: Bound) -> bool:
        rest = bound.after(1)
        mover, other_king = board.turn, board.king(not board.turn)
        for won, move in self._moves(board, checked, threshold, bound):
            board.push(move)
            checks = bool(board.attackers_mask(mover, other_king))
            # A move that wins too little helps only with check, since otherwise the other side would stop.
            holds = (
                (won >= threshold or checks)
                and not board.was_into_check()
                and not self._wins(board, checks, won - threshold + 1, rest)
            )
            board.pop()
            if holds:
                return True
        return False

    @staticmethod
    def _moves(
        board: chess.Board, checked: bool, threshold: int, bound: Bound
    ) -> Iterator[tuple[int, chess.Move]]:
        """What may help among the moves of the game, pseudo-legal, and what each takes: first those that win enough by
        themselves, then those that win too little and may give check. The order changes the work, not the answer."""
        if threshold <= 0:  # asked only in check
            checkers = board.checkers_mask()
            for squares in (checkers, ~checkers):
                for move in board.generate_legal_moves(chess.BB_ALL, squares):
                    yield gain_of_move(board, move), move
            return
        special = [(gain_of_move(board, move), move) for move in special_pawn_moves(board)]
        if special:
            yield from (pair for pair in special if pair[0] >= threshold)
        targets = board.occupied_co[not board.turn]
        takers = ~promoters(board)
        for value, victim in victims_of(board, threshold):
            targets ^= chess.BB_SQUARES[victim]
            for man in squares_of(board.attackers_mask(board.turn, victim) & takers):
                yield value, plain_move(man, victim)
        if special:
            yield from (pair for pair in special if pair[0] < threshold)
        if checked or bound.check_plies > 0:
            targets |= ~board.occupied
        for move in possible_checks(board, targets):
            yield gain_of_move(board, move), move


def quiet_checks(board: chess.Board) -> list[chess.Move]:
    """The legal moves that give check and neither capture nor promote."""
    return checks(board, ~board.occupied)
