"""Checks of the themes about where pieces can go: denied squares and everything about rooks."""

from __future__ import annotations

import chess

from .calculations import MATE, Bound, exchange_at_least, gain_of_move
from .claim import Claim
from .foundation import LEAST_GAIN, MOST_PIECES, SIDES, is_quiet, require
from .pawns import half_open_files, open_files
from .piece_themes import PieceThemes


class MobilityThemes(PieceThemes):
    def __init__(self, fen: str, *, chess960: bool = False, bound: Bound | None = None) -> None:
        super().__init__(fen, chess960=chess960, bound=bound)
        self._scopes: dict[chess.Square, frozenset[chess.Square]] = {}

    # --- where a piece can go ----------------------------------------------------------------------------------------

    def moves_of(self, square: chess.Square) -> list[chess.Move]:
        """The legal moves of the piece, castling not counted; none where its side has no turn."""
        board = self.turn_of(self.board.color_at(square))
        if board is None:
            return []
        own = board.occupied_co[board.turn]
        return list(board.generate_legal_moves(chess.BB_SQUARES[square], ~own))

    @staticmethod
    def is_held(board: chess.Board, move: chess.Move) -> bool:
        """Whether the captures that follow on the arrival square win more than the move took."""
        won = gain_of_move(board, move)
        board.push(move)
        held = exchange_at_least(board, move.to_square, won + LEAST_GAIN)
        board.pop()
        return held

    def _is_denied_quietly(self, board: chess.Board, move: chess.Move) -> bool:
        """Whether a quiet answer denies the square; looked for only by a side that is really to move."""
        return board.turn == self.board.turn and self.is_quietly_refuted(board, move, self.judged(board.turn)[1])

    def scope(self, square: chess.Square) -> frozenset[chess.Square]:
        """The squares that the piece can go to without losing anything by it."""
        if square not in self._scopes:
            board = self.turn_of(self.board.color_at(square))
            self._scopes[square] = frozenset(
                move.to_square
                for move in self.moves_of(square)
                if not self.is_held(board, move)
                and not self.loses(board, move)
                and not (self.is_safe(board, move) and self._is_denied_quietly(board, move))
            )
        return self._scopes[square]

    def _gives_up(self, man: chess.Square, move: chess.Move, after: chess.Board, falls: chess.Square) -> bool:
        """Whether the man held the square where the answer arrives, and guards it no longer."""
        side = self.board.color_at(man)
        guarded = self.board.color_at(falls) == side and falls in self.board.attacks(man)
        if falls in after.attacks(move.to_square):
            return False
        return guarded or bool(self.turn_of(not side) and self.duty_kinds(man, falls))

    def _check_denied_square(self, claim: Claim, start: chess.Board) -> None:
        (man,) = self.men_of(claim, 1)
        require(self.board.color_at(man) == start.turn, "the piece belongs to the other side")
        require(self.board.piece_type_at(man) not in (chess.PAWN, chess.KING), "a pawn or a king")
        move = start.parse_uci(claim.line[0])
        require(move.from_square == man, "another man moves")
        self.check_squares(claim, [move.to_square])
        require(not self.is_held(start, move), "the square is simply held by the other side")
        after, *_ = self.play(start, claim.line)
        answer = after.parse_uci(claim.line[1])
        if self.loses(start, move):
            require(not self._gives_up(man, move, after, answer.to_square), "the move gives up a duty")
        else:
            require(is_quiet(after, answer), "the move loses nothing that would not be lost anyway")
            attacks = not self.attacks_in_vain(after, answer, move.to_square)
            shuts_in = answer in self.closing_answers(after, move.to_square)
            require(attacks or shuts_in, "the answer attacks nothing and leaves a way out")
        self.check_least_loss(claim)

    # --- rooks -------------------------------------------------------------------------------------------------------

    def _rooks(self, claim: Claim, count: int) -> list[chess.Square]:
        rooks = self.men_of(claim, count)
        for rook in rooks:
            require(self.board.piece_at(rook) == chess.Piece(chess.ROOK, SIDES[claim.side]), "no rook of the side")
        return rooks

    def _check_rook_scope(self, claim: Claim, start: chess.Board) -> None:
        (rook,) = self._rooks(claim, 1)
        require(self.turn_of(SIDES[claim.side]), "the side has no turn")
        scope = self.scope(rook)
        self.check_squares(claim, scope)
        self.check_numbers(claim, moves=len(self.moves_of(rook)), safe_moves=len(scope))

    def _check_stuffed_rooks(self, claim: Claim, start: chess.Board) -> None:
        rooks = [rook for rook in self.board.pieces(chess.ROOK, start.turn) if self.moves_of(rook)]
        require(self.men_of(claim) == rooks[:MOST_PIECES], "not the rooks that have a move")
        for rook in rooks:
            require(not self.scope(rook), f"the rook on {chess.square_name(rook)} can move")
        moves = [move for rook in rooks for move in self.moves_of(rook)]
        require(start.parse_uci(claim.line[0]) in moves, "the line starts with another man's move")
        self.check_squares(claim, (move.to_square for move in moves))
        for move in moves:
            better = self.keeps(start, move, 1 - MATE if claim.mated else claim.gain + 1)
            better = better and not self._is_denied_quietly(start, move)
            require(not better, f"{start.san(move)} is less bad than the line")
        self.check_numbers(claim, rooks=len(rooks), moves=len(moves))
        self.check_least_loss(claim)

    def _check_open_file(self, claim: Claim, start: chess.Board) -> None:
        (rook,) = self._rooks(claim, 1)
        own = set(chess.SquareSet(chess.BB_FILES[chess.square_file(rook)]))
        opened, half_opened = open_files(self.board), half_open_files(self.board, SIDES[claim.side])
        elsewhere = self.scope(rook) - own
        cases = {
            "on_open_file": opened & own,
            "on_half_open_file": half_opened & own,
            "can_take_open_file": opened & elsewhere,
            "can_take_half_open_file": half_opened & elsewhere,
        }
        detail = next((name for name, squares in cases.items() if squares), "none")
        require(claim.detail == detail, f"the first that holds is {detail}")
        self.check_squares(claim, cases[detail])

    def _check_seventh_rank(self, claim: Claim, start: chess.Board) -> None:
        (rook,) = self._rooks(claim, 1)
        side = SIDES[claim.side]
        seventh, eighth = (6, 7) if side else (1, 0)
        require(chess.square_rank(rook) == seventh, "not on the seventh rank")
        self.check_squares(claim, chess.SquareSet(chess.BB_RANKS[seventh]))
        targets = [square for square in self.board.pieces(chess.PAWN, not side) if chess.square_rank(square) == seventh]
        require(targets or chess.square_rank(self.board.king(not side)) == eighth, "nothing to attack there")

    def _pair_of_rooks(self, claim: Claim) -> tuple[chess.Square, chess.Square]:
        a, b = self._rooks(claim, 2)
        require(b in self.board.attacks(a), "something stands between the rooks")
        self.check_squares(claim, {a, b, *chess.SquareSet.between(a, b)})
        return a, b

    def _check_doubled_rooks(self, claim: Claim, start: chess.Board) -> None:
        a, b = self._pair_of_rooks(claim)
        require(chess.square_file(a) == chess.square_file(b), "not on one file")

    def _check_connected_rooks(self, claim: Claim, start: chess.Board) -> None:
        a, b = self._pair_of_rooks(claim)
        require(chess.square_rank(a) == chess.square_rank(b), "not on one rank")

    def _check_entry_square(self, claim: Claim, start: chess.Board) -> None:
        (rook,) = self._rooks(claim, 1)
        side = SIDES[claim.side]
        camp = {square for square in chess.SQUARES if chess.square_rank(square) in ((5, 6, 7) if side else (0, 1, 2))}
        files = open_files(self.board) | half_open_files(self.board, side)
        self.check_squares(claim, self.scope(rook) & camp & files)
