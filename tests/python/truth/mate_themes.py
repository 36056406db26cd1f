"""Checks of mates in one and two, by trying everything, and of the back rank."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from .claim import Claim
from .counted_themes import NAMES, CountedThemes
from .every_reply import EveryReply, turned
from .forcing import mates_at_once
from .foundation import MOST_PIECES, SIDES, require
from .geometry import without


def mates_in_two(board: chess.Board) -> list[chess.Move]:
    """The moves after which there is a reply and every reply is mated at once. As documented, a move that neither gives
    check nor threatens mate is not looked at."""
    moves = []
    for move in list(board.legal_moves):
        board.push(move)
        if (board.is_check() or mates_at_once(turned(board))) and every_reply_is_mated(board):
            moves.append(move)
        board.pop()
    return moves


def every_reply_is_mated(board: chess.Board) -> bool:
    replies = list(board.legal_moves)
    for reply in replies:
        board.push(reply)
        mated = bool(mates_at_once(board))
        board.pop()
        if not mated:
            return False
    return bool(replies)


class MateThemes(EveryReply, CountedThemes):
    def __init__(self, *args, **options) -> None:
        super().__init__(*args, **options)
        self._quickest: dict[chess.Color, tuple[str, list[chess.Move]]] = {}

    def quickest(self, side: chess.Color) -> tuple[str, list[chess.Move]]:
        """The theme of the side's quickest mate and all moves that begin it; "" where there is none."""
        if side not in self._quickest:
            self._quickest[side] = "", []
            for theme, search in (("mate_in_one", mates_at_once), ("mate_in_two", mates_in_two)):
                moves = search(self.turns[side].copy(stack=False)) if self.turns[side] else []
                if moves:
                    self._quickest[side] = theme, moves
                    break
        return self._quickest[side]

    def _check_promise(self, claim: Claim, boards: list[chess.Board], gained: list[int]) -> None:
        theme, moves = self.quickest(SIDES[claim.side])
        is_quickest = len(boards) == {"mate_in_one": 1, "mate_in_two": 3}.get(theme)
        if claim.theme in ("mate_in_one", "mate_in_two") or (claim.theme == "back_rank" and is_quickest):
            # Every reply is mated, so the line, whose end has been looked at, shows what happens anyway.
            require(is_quickest and self.first_move(claim)[0] in moves, "not the quickest mate")
        else:
            super()._check_promise(claim, boards, gained)

    def _check_mate_in_one(self, claim: Claim, start: chess.Board) -> None:
        theme, moves = self.quickest(SIDES[claim.side])
        require(claim.theme == theme, "not the quickest mate")
        require(claim.mate and claim.detail == "none" and not claim.pieces and not claim.point, "no plain mate")
        self.check_squares(claim, (move.to_square for move in moves))
        self.check_numbers(claim, moves=len(moves))

    _check_mate_in_two = _check_mate_in_one

    def shut_in(self, side: chess.Color) -> list[chess.Square]:
        """The squares before the other king on its first rank, when it can step on none of them.

        None otherwise, and where `side` has neither rook nor queen.
        """
        king = self.board.king(not side)
        first, second = (0, 1) if side == chess.BLACK else (7, 6)
        lifted = without(self.board, king)
        before = [square for square in next_to(king) if chess.square_rank(square) == second]
        blocked = all(self.board.color_at(at) == (not side) or lifted.is_attacked_by(side, at) for at in before)
        return before if chess.square_rank(king) == first and blocked and self.rooks_and_queens(side) else []

    def rooks_and_queens(self, side: chess.Color) -> list[chess.Square]:
        return list(self.board.pieces(chess.ROOK, side) | self.board.pieces(chess.QUEEN, side))

    def _check_back_rank(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        before = self.shut_in(side)
        require(before, "the king is not shut in by rooks or queens")
        self.check_squares(claim, before)
        men = [self.board.king(not side), *self.rooks_and_queens(side)]
        require(self.men_of(claim) == men[:MOST_PIECES], "not the king and the rooks and queens")
        require(claim.detail == "none", "a detail")
        theme, moves = self.quickest(side)
        if not claim.line:
            for move in moves if theme == "mate_in_one" else ():
                (end,) = self.play(self.turns[side], [move.uci()])
                require(not self._is_along_rank(end, move.to_square, side), "a mate in one along the rank is left out")
            self.check_idle(claim)
            require(not claim.point, "a point without a move")
            return
        require(claim.mate and not claim.point and claim.removed is None, "no plain mate")
        end = self.play(start, claim.line)[-1]
        arrived = chess.parse_square(claim.line[-1][2:4])
        require(self._is_along_rank(end, arrived, side), "no rook or queen mates along the rank")

    def _is_along_rank(self, end: chess.Board, arrived: chess.Square, side: chess.Color) -> bool:
        king, rank = end.king(not side), chess.square_rank(self.board.king(not side))
        return (
            end.piece_type_at(arrived) in (chess.ROOK, chess.QUEEN)
            and chess.square_rank(arrived) == chess.square_rank(king) == rank
            and not chess.SquareSet.between(arrived, king) & end.occupied
        )

    def omissions(self, claims: Iterable[Claim]) -> list[str]:
        claims = list(claims)
        omitted = super().omissions(claims)
        for side in chess.COLORS:
            said = [claim.theme for claim in claims if SIDES[claim.side] == side]
            theme, _ = self.quickest(side)
            for name in ("mate_in_one", "mate_in_two"):
                if said.count(name) != (name == theme):
                    omitted.append(f"{name} for {NAMES[side]} said {said.count(name)} times")
            if said.count("back_rank") != bool(self.shut_in(side)):
                omitted.append(f"back_rank for {NAMES[side]} said {said.count('back_rank')} times")
        return omitted


def next_to(king: chess.Square) -> chess.SquareSet:
    """The squares next to the king."""
    return chess.SquareSet(chess.BB_KING_ATTACKS[king])
