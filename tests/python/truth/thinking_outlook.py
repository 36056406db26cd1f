"""The outlook, held against its definitions in `thinking/outlook.hpp`."""

from __future__ import annotations

from collections.abc import Iterator

import chess
import keysquare as ks

from .calculations import MATE, exchange_at_least, gain_of_move
from .foundation import SIDES, Foundation, Lie, require
from .move_facts import Amounts, MoveFactsOf
from .thinking_candidates import CandidateVerifier
from .thinking_threats import played, takes, turned
from .vector import PIECES

REASONS_BY_THEMSELVES = ("mates", "wins", "meets_threat", "threatens_mate", "threatens")
YARDSTICKS = ks.yardsticks()


def that_matters(facts: Amounts) -> Amounts:
    """By yardstick, in their order, what is not too little to count."""
    return {fact: facts[fact] for fact, least in YARDSTICKS.items() if abs(facts.get(fact, 0)) >= least}


def improvement(facts: Amounts) -> int:
    return next(iter(that_matters(facts).values()), 0)


def improvements(facts: Amounts) -> Amounts:
    return {fact: amount for fact, amount in that_matters(facts).items() if amount > 0}


def amounts_of(reasons: list[ks.Reason]) -> Amounts:
    return {reason.fact: reason.amount for reason in reasons}


class Turn(CandidateVerifier):
    """One side's turn: its moves judged again."""

    def __init__(self, board: chess.Board) -> None:
        super().__init__(ks.Position(board.fen(en_passant="fen")))
        self.facts = MoveFactsOf(self.board)

    @property
    def baseline(self) -> int:
        return min(self.best, self.standing)

    # These two are dear, and no reasons of the outlook.

    def allows(self, move: chess.Move) -> bool:
        return False

    def parries(self, move: chess.Move) -> bool:
        return False

    def is_safe(self, move: chess.Move) -> bool:
        return self.best <= -MATE or self.kept[move] >= self.best

    def expected(self, move: chess.Move) -> Amounts | None:
        """The reasons of a useful move; empty for a merely safe one, None for one that is neither."""
        wins = self.won[move] is not None
        if not wins and not self.is_safe(move):
            return None
        searched = {fact: n for fact, n in self.searched(move).items() if fact in REASONS_BY_THEMSELVES}
        if not wins and takes(self.board, move):
            return {fact: n for fact, n in searched.items() if fact == "meets_threat"}
        counted = self.facts.amounts(move)
        better = improvement(counted)
        threatens = "threatens" in searched or "threatens_mate" in searched
        if wins or "meets_threat" in searched or better > 0 or (threatens and better == 0):
            return searched | improvements(counted)
        return {}


def is_safe_stop(turn: Foundation, board: chess.Board, move: chess.Move, baseline: int) -> bool:
    """By the definition of `stop_safety`."""
    if exchange_at_least(played(board, move), move.to_square, gain_of_move(board, move) + 1):
        return False
    return baseline <= -MATE or turn.keeps(board, move, baseline)


class OutlookVerifier:
    """Checks what the library says about the outlook in one position."""

    def __init__(self, fen: str) -> None:
        self.board = chess.Board(fen)
        self.found = ks.outlook(ks.Position(fen))

    def turn(self, side: chess.Color) -> chess.Board | None:
        if self.board.turn == side:
            return self.board
        return None if self.board.is_check() else turned(self.board)

    def check_moves(self, side: ks.SideOutlook, turn: Turn) -> None:
        useful = {str(useful.move): useful for useful in side.useful}
        merely = set(map(str, side.merely_safe))
        require(side.legal == len(turn.moves), "another number of legal moves")
        for move in turn.moves:
            expected = turn.expected(move)
            said = useful.pop(turn.board.uci(move), None)
            san = turn.board.san(move)
            require((turn.board.uci(move) in merely) == (expected == {}), f"{san} merely safe: {expected}")
            require((said is not None) == bool(expected), f"{san} useful: {expected}")
            if said is not None:
                require(amounts_of(said.reasons) == expected, f"{san}: {amounts_of(said.reasons)}, not {expected}")
                require((said.won is None) == (turn.won[move] is None), f"{san} wins")
                if said.won is not None:
                    turn.check_outcome(turn.board, said.won, turn.won[move] or 0)
        require(not useful, f"no legal moves: {useful.keys()}")
        keeping = [move for move in turn.moves if turn.kept[move] >= 0]
        only = keeping[0].uci() if len(keeping) == 1 and len(turn.moves) > 1 else None
        require((side.only_move and str(side.only_move)) == only, f"the only move is {only}")
        require(bool(side.threats) == any(won is not None for won in turn.won.values()), "threats")

    def check_best_square(self, best: ks.BestSquare, turn: Turn) -> None:
        """Every stop is safe, and what is gained is so when the piece is put there."""
        board, baseline = turn.board, turn.baseline
        for at, step in enumerate(best.route.moves):
            move = board.parse_uci(str(step))
            require(not board.is_capture(move) and not board.is_castling(move), "a stop is a capture")
            require(is_safe_stop(turn, board, move, baseline), f"the stop on {step.target} is not safe")
            if at + 1 < len(best.route):
                moved = played(board, move)
                require(not moved.is_check(), "a check on the way")
                board = turned(moved)
                _, baseline = Foundation(board.fen(en_passant="fen")).judged(board.turn)
        origin, target = chess.parse_square(best.piece.square), chess.parse_square(best.square)
        there = turn.board.copy(stack=False)
        there.set_piece_at(target, there.remove_piece_at(origin))
        there.castling_rights = there.clean_castling_rights()
        facts = turn.facts.amounts(chess.Move(origin, target), turned(there))
        require(improvement(facts) > 0, f"nothing improves on {best.square}")
        require(amounts_of(best.gains) == improvements(facts), f"{best}: {amounts_of(best.gains)}")

    def check_side(self, side: ks.SideOutlook, board: chess.Board | None) -> None:
        require(side.known == (board is not None), "whether it has a turn")
        if board is None:
            require(not side.legal and not side.useful and not side.best_squares and not side.no_plan, "no turn")
            return
        require(side.after_pass == (board.turn != self.board.turn), "after a pass")
        require(side.in_check == board.is_check(), "in check")
        turn = Turn(board)
        self.check_moves(side, turn)
        for best in side.best_squares:
            piece = turn.board.piece_at(chess.parse_square(best.piece.square))
            require(piece is not None and piece.color == board.turn, "a man of the other side")
            king = piece is not None and piece.piece_type == chess.KING and turn.facts.before.is_endgame
            require(king or (piece is not None and piece.piece_type in PIECES), "no piece")
            self.check_best_square(best, turn)
        may_plan = bool(turn.moves) and not board.is_check()
        require(side.no_plan == (may_plan and not side.useful and not side.best_squares), "no plan")

    def violations(self) -> Iterator[str]:
        for name, side in self.found.items():
            try:
                self.check_side(side, self.turn(SIDES[name]))
            except Lie as lie:
                yield f"{name}: {lie}: {self.board.fen()}"
        if self.found.equilibrium != all(side.no_plan for side in self.found.values()):
            yield f"equilibrium: {self.board.fen()}"
