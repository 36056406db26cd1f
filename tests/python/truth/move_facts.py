"""The counted facts about a move, from their definitions (`fact_definitions`), on top of the numbers of `vector`."""

from __future__ import annotations

import chess

from .forcing import all_checks
from .thinking_threats import turned
from .vector import PIECES, Board, SideOf, file_of, rank_for

Amounts = dict[str, int]
Seen = dict[str, set[chess.Square]]


def count(thing: object) -> int:
    return len(thing) if isinstance(thing, (set, list)) else int(thing)  # type: ignore[call-overload]


class Side:
    """What one side has on one board, as counts."""

    def __init__(self, on: Board, side: chess.Color) -> None:
        self.on = on
        self.of = SideOf(on, side)
        parts = self.of.squares() | self.of.pieces() | self.of.safety() | self.of.pawn_counts() | self.of.kings()
        self.counts = {name: count(found) for name, found in parts.items()}
        self.sets = {name: found for name, found in parts.items() if isinstance(found, set)}

    def __getitem__(self, name: str) -> int:
        return self.counts[name]


def steps_from_edge(square: chess.Square) -> int:
    return min(file_of(square), 7 - file_of(square), chess.square_rank(square), 7 - chess.square_rank(square))


def checks_in(board: chess.Board) -> int:
    """Legal moves that give check; a promotion counts four times."""
    return len(all_checks(board))


MORE = {
    "chained_pawns": "chained_pawns",
    "piece_scope": "piece_scope",
    "rook_scope": "rook_scope",
    "rook_on_open_file": "rooks_on_open_files",
    "rook_on_half_open_file": "rooks_on_half_open_files",
    "own_king_squares": "king_escapes",
    "levers_at_hand": "pawn_levers",
    "men_in_other_half": "men_in_other_half",
    "rook_on_seventh": "rooks_on_seventh",
    "outpost": "taken_outposts",
    "battery": "batteries",
    "squares_held_twice": "attacked_twice",
    "centre_pawns": "centre_pawns",
}
"""Facts that are more of the side's own than before, with the quantity of the numeric vector."""
FEWER = {
    "develops": "undeveloped_pieces",
    "outnumbered_men": "outnumbered_men",
    "loose_men": "loose_men",
    "stuck_pieces": "stuck_pieces",
    "attacked_men": "attacked_men",
    "frees_pawns": "pawns_blocked_by_own_men",
    "rim_knights": "rim_knights",
    "holes": "holes",
    "doubled_pawns": "doubled_pawns",
}
OTHERS_MORE = {"pins": "pinned_men", "uses_hole": "usable_holes", "blocks_passer": "blockaded_passed_pawns"}
OTHERS_FEWER = {"their_king_squares": "king_escapes"}


class MoveFactsOf:
    """The counted facts about the moves of the side to move."""

    def __init__(self, board: chess.Board) -> None:
        self.board = board
        self.side = board.turn
        self.before = Board(board)
        self.own = Side(self.before, self.side)
        self.others = Side(self.before, not self.side)
        self.checks_before = 0 if board.is_check() else checks_in(turned(board))

    def amounts(self, move: chess.Move, moved: chess.Board | None = None) -> Amounts:
        """Those that are not 0. `moved`: the board after it, where the move is none of the rules."""
        return self.counted(move, moved)[0]

    def counted(self, move: chess.Move, moved: chess.Board | None = None) -> tuple[Amounts, Seen]:
        """The amounts, and the squares of the facts whose squares people are told about: those that were added, or, when
        there are fewer than before, those that were lost."""
        board = self.board
        castles = moved is None and board.is_castling(move)
        if moved is None:
            moved = board.copy(stack=False)
            moved.push(move)
        after = Board(moved)
        own, others = Side(after, self.side), Side(after, not self.side)
        arrived = after.king[self.side] if castles else move.to_square
        kind = board.piece_type_at(move.from_square)
        pawn = kind == chess.PAWN
        still_pawn = moved.piece_type_at(arrived) == chess.PAWN
        was_attacked = move.from_square in self.before.attacked[not self.side]
        hit = after.reaches(arrived)
        pawns_hit = hit & after.of(not self.side, chess.PAWN)
        nearer = 0 if castles else steps_from_edge(arrived) - steps_from_edge(move.from_square)
        found = {
            "checks": moved.is_check(),
            "castles": castles,
            "moves_attacked_queen": kind == chess.QUEEN and was_attacked,
            "moves_attacked_piece": kind in PIECES and was_attacked,
            "attacks_pieces": len(hit & after.of(not self.side, *PIECES)),
            "attacks_pawns": len(pawns_hit),
            "advances_pawn": rank_for(self.side, arrived) if pawn else 0,
            "pawn_under_attack": pawn and arrived in after.attacked[not self.side],
            "pawn_lever": pawn and still_pawn and bool(pawns_hit),
            "pushes_passer": pawn and arrived in own.of.passed,
            "loosens_own_king": pawn and abs(file_of(move.from_square) - file_of(self.before.king[self.side])) <= 1,
            "nearer_centre": nearer,
            "king_to_centre": nearer if kind == chess.KING and self.before.is_endgame else 0,
            "uses_king": kind == chess.KING and not castles and not board.queens,
            "fewer_checks": 0 if board.is_check() else self.checks_before - checks_in(moved),
            "takes_bishop": len(self.before.of(not self.side, chess.BISHOP)) - len(after.of(not self.side, chess.BISHOP)),
            **{fact: own[name] - self.own[name] for fact, name in MORE.items()},
            **{fact: self.own[name] - own[name] for fact, name in FEWER.items()},
            **{fact: others[name] - self.others[name] for fact, name in OTHERS_MORE.items()},
            **{fact: self.others[name] - others[name] for fact, name in OTHERS_FEWER.items()},
        }
        pieces_hit = hit & after.of(not self.side, *PIECES)
        seen: Seen = {"attacks_pieces": pieces_hit, "attacks_pawns": pawns_hit, "pawn_lever": pawns_hit}
        for names, now, then in [(MORE | FEWER, own, self.own), (OTHERS_MORE | OTHERS_FEWER, others, self.others)]:
            for fact, name in names.items():
                if name in now.sets:
                    added, lost = now.sets[name] - then.sets[name], then.sets[name] - now.sets[name]
                    seen[fact] = added if now[name] >= then[name] else lost
        return {fact: int(amount) for fact, amount in found.items() if amount}, seen
