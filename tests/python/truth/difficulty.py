"""The counts of a difficulty from their definitions alone, on the rules library `chess`."""

from __future__ import annotations

import chess

from truth.calculations import MATE, Bound, Referee, captured_kind, exchange, exchange_at_least, gain_of_move
from truth.foundation import played

BOUND = Bound()
MOST = 60
"""No position wins or loses more pawns."""


def is_forcing(board: chess.Board, move: chess.Move) -> bool:
    return captured_kind(board, move) is not None or move.promotion is not None or board.gives_check(move)


def forcing_moves(board: chess.Board) -> int:
    return sum(is_forcing(board, move) for move in board.legal_moves)


def home_distance(side: chess.Color, square: chess.Square) -> int:
    """Ranks from the side's own first one."""
    rank = chess.square_rank(square)
    return rank if side == chess.WHITE else 7 - rank


def brings_at_least(board: chess.Board, move: chess.Move, least: int) -> bool:
    """At first sight."""
    after = played(board, move)
    if after.is_checkmate():
        return True
    return least < MATE and not exchange_at_least(after, move.to_square, gain_of_move(board, move) - least + 1)


def brings(board: chess.Board, move: chess.Move) -> int:
    """What the move brings at first sight."""
    after = played(board, move)
    return MATE if after.is_checkmate() else gain_of_move(board, move) - exchange(after, move.to_square)


def counts_of_line(board: chess.Board, line: list[chess.Move]) -> dict[str, int]:
    """What is counted on the line to be seen, without any search. `board` has the side to move."""
    side = board.turn
    names = (
        *("quiet", "captures", "checks", "recaptures", "backward", "long", "given_up", "king_moves", "pawn_moves"),
        *("forced", "choices", "forcing_choices", "tempting", "replies", "forcing_replies"),
    )
    counts = dict.fromkeys(names, 0)
    first = dict.fromkeys(
        ["quiet", "check", "backward", "distance", "tempting", "replies", "forcing_replies"], 0
    )
    identity = {square: square for square in chess.SQUARES}  # which man, by where it stood at the start
    movers = set()
    balance = worst = 0
    arrived = None
    for ply, move in enumerate(line):
        assert move in board.legal_moves
        gain = gain_of_move(board, move)
        after = played(board, move)
        if board.turn != side:
            balance -= gain
        else:
            balance += gain
            captures = captured_kind(board, move) is not None
            taken_on = move.to_square ^ 8 if board.is_en_passant(move) else move.to_square
            castles = board.is_castling(move)
            back = home_distance(side, move.to_square) < home_distance(side, move.from_square)
            distance = 0 if castles else chess.square_distance(move.from_square, move.to_square)
            value = brings(board, move)
            of_this = {
                "quiet": not is_forcing(board, move),
                "captures": captures,
                "checks": board.gives_check(move),
                "recaptures": captures and taken_on == arrived,
                "backward": back and not castles,
                "long": distance >= 4,
                "given_up": value < 0,
                "king_moves": board.piece_type_at(move.from_square) == chess.KING,
                "pawn_moves": board.piece_type_at(move.from_square) == chess.PAWN,
                "forced": board.legal_moves.count() == 1,
                "choices": board.legal_moves.count(),
                "forcing_choices": forcing_moves(board),
                "tempting": sum(brings_at_least(board, other, value) for other in board.legal_moves if other != move),
                "replies": after.legal_moves.count(),
                "forcing_replies": forcing_moves(after),
            }
            for name, count in of_this.items():
                counts[name] += int(count)
            if ply == 0:
                first = {name: int(of_this[name]) for name in first if name in of_this}
                first |= {"check": int(of_this["checks"]), "distance": distance}
            movers.add(identity[move.from_square])
        identity[move.to_square] = identity.pop(move.from_square)
        identity[move.from_square] = move.from_square + 64  # nobody any more
        worst = min(worst, balance)
        arrived = move.to_square
        board = after
    return {
        **counts,
        **{f"first_{name}": count for name, count in first.items()},
        "plies": len(line),
        "moves": (len(line) + 1) // 2,
        "gain": balance,
        "deficit": -worst,
        "movers": len(movers),
        "mate": int(board.is_checkmate() and board.turn != side),
    }


class Choice:
    """The counts that rest on `resolve`: what each legal move of the mover keeps."""

    def __init__(self, board: chess.Board) -> None:
        self.board = board
        self.referee = Referee()
        self.moves = list(board.legal_moves)

    def keeps(self, move: chess.Move, least: int) -> bool:
        return self.referee.keeps_at_least(self.board, move, least, BOUND)

    def value(self, move: chess.Move) -> int:
        """What the move comes to; `MATE` and `-MATE` for mates."""
        if self.keeps(move, MATE):
            return MATE
        if not self.keeps(move, 1 - MATE):
            return -MATE
        value = 0
        while not self.keeps(move, value):
            value -= 1
        while self.keeps(move, value + 1):
            value += 1
        return value

    def counts(self) -> dict[str, int]:
        """The side's choice, and what is at stake."""
        values = [self.value(move) for move in self.moves]
        best = min(0, max(values, default=0))
        standing = self.standing()
        return {
            "men": chess.popcount(self.board.occupied),
            "checked": int(self.board.is_check()),
            "legal": len(self.moves),
            "keeping": sum(value >= best for value in values),
            "loss": 0 if best == -MATE else -best,
            "mated": int(best == -MATE),
            "at_stake": 0 if standing == -MATE else -standing,
            "mate_at_stake": int(standing == -MATE),
            "forcing": forcing_moves(self.board),
        }

    def standing(self) -> int:
        """What the side keeps when it does nothing."""
        if self.board.is_check():
            return 0
        over = played(self.board, chess.Move.null())
        if self.referee.wins_at_least(over, MATE, BOUND):
            return -MATE
        gain = 0
        while gain < MOST and self.referee.wins_at_least(over, gain + 1, BOUND):
            gain += 1
        return -gain

    def compared(self, first: chess.Move) -> dict[str, int]:
        """The first move of the line beside the others."""
        shown = self.value(first)
        others = {move: self.value(move) for move in self.moves if move != first}
        return {
            "shown": shown if abs(shown) < MATE else 0,
            "shown_mate": int(shown == MATE),
            "shown_mated": int(shown == -MATE),
            "as_good": sum(value >= shown for value in others.values()),
            "better": sum(value > shown for value in others.values()),
            "failing": sum(value < shown and is_forcing(self.board, move) for move, value in others.items()),
        }
