"""Checks of the themes about squares and about material, which are counts."""

from __future__ import annotations

from functools import cached_property

import chess

from . import pawns as count
from .calculations import balance, exchange_at_least
from .claim import Claim
from .foundation import MOST_PIECES, SIDES, Foundation, require

Squares = set[chess.Square]


def denies(board: chess.Board, side: chess.Color, square: chess.Square) -> bool:
    """Whether a knight of the other side, put on the square with `side` to move, would be lost by exchange."""
    if not board.attackers_mask(side, square):
        return False
    trial = board.copy(stack=False)
    trial.set_piece_at(square, chess.Piece(chess.KNIGHT, not side))
    trial.turn, trial.castling_rights, trial.ep_square = side, chess.BB_EMPTY, None
    return exchange_at_least(trial, square, 1)


def held_squares(board: chess.Board) -> dict[chess.Color, Squares]:
    """The squares that each side denies to the other one and is not denied; a king's square is its own."""
    held: dict[chess.Color, Squares] = {chess.WHITE: set(), chess.BLACK: set()}
    for square in chess.SQUARES:
        if board.piece_type_at(square) == chess.KING:
            held[board.color_at(square)].add(square)
            continue
        white, black = denies(board, chess.WHITE, square), denies(board, chess.BLACK, square)
        if white != black:
            held[white].add(square)
    return held


def attacked_squares(board: chess.Board, side: chess.Color) -> Squares:
    return {square for square in chess.SQUARES if board.is_attacked_by(side, square)}


def on_colour(light: bool) -> Squares:
    return set(chess.SquareSet(chess.BB_LIGHT_SQUARES if light else chess.BB_DARK_SQUARES))


def half_of(side: chess.Color) -> Squares:
    return {square for square in chess.SQUARES if count.relative_rank(side, square) < 4}


class SquareThemes(Foundation):
    @cached_property
    def held(self) -> dict[chess.Color, Squares]:
        return held_squares(self.board)

    def _check_square_control(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        require(not self.board.is_check(), "a count for the moment of a check")
        require(len(self.held[side]) > len(self.held[not side]), "the side does not hold more squares")
        self.check_squares(claim, self.held[side])
        self.check_numbers(claim, held=len(self.held[side]), held_by_other=len(self.held[not side]))

    def _check_colour_complex(self, claim: Claim, start: chess.Board) -> None:
        board, side = self.board, SIDES[claim.side]
        weak = not side
        require(not board.is_check(), "a count for the moment of a check")
        colour = on_colour(claim.detail == "light")
        pawns, fixed = count.pawns_of(board, weak), count.fixed_pawns(board, weak)
        bishops = {owner: set(board.pieces(chess.BISHOP, owner)) & colour for owner in chess.COLORS}
        require(not bishops[weak] and bishops[side], "the bishops are not as they have to be")
        require(10 * len(pawns - colour) >= 7 * len(pawns), "the pawns have not left the colour")
        require(len(fixed - colour) >= 3, "fewer than three pawns are fixed on the other colour")
        held = {owner: self.held[owner] & colour for owner in chess.COLORS}
        holes = count.holes(board, weak) & colour
        self.check_squares(claim, (held[side] & half_of(weak)) | (holes - held[weak]))
        men = sorted(bishops[side]) + sorted(fixed - colour)
        require(self.men_of(claim) == men[:MOST_PIECES], "not the bishops and the fixed pawns")
        self.check_numbers(
            claim,
            held=len(held[side]),
            held_by_other=len(held[weak]),
            attacked=len(attacked_squares(board, side) & colour),
            attacked_by_other=len(attacked_squares(board, weak) & colour),
            bishops=len(bishops[side]),
            bishops_of_other=0,
            holes=len(holes),
            fixed_pawns=len(fixed - colour),
            pawns_on_colour=len(pawns & colour),
        )


    def _check_guardian(self, claim: Claim, start: chess.Board) -> None:
        board, side = self.board, SIDES[claim.side]
        light = claim.detail == "light"
        complex_ = on_colour(light) & half_of(side)
        (man,) = self.men_of(claim, 1)
        require(claim.removed == claim.pieces[0][0], "the removed piece is not the guardian")
        require(not board.is_check(), "a count for the moment of a check")
        minors = board.pieces(chess.KNIGHT, side) | board.pieces(chess.BISHOP, side)
        require(man in minors, "no minor piece of the side")
        pawns, fixed = count.pawns_of(board, side), count.fixed_pawns(board, side)
        off = pawns - on_colour(light)
        require(10 * len(off) >= 7 * len(pawns) and len(fixed & off) >= 3, "the pawns have not left the colour")
        held, attacked = self.held[side] & complex_, attacked_squares(board, side) & complex_
        lost = {}
        for minor in minors:
            without = board.copy(stack=False)
            without.remove_piece_at(minor)
            if any(without.is_attacked_by(not owner, without.king(owner)) for owner in chess.COLORS):
                continue
            held_then = held_squares(without)[side] & complex_
            attacked_then = attacked_squares(without, side) & complex_
            lost[minor] = (held - held_then) | (attacked - attacked_then)
            if minor == man:
                self.check_numbers(
                    claim,
                    held=len(held),
                    held_without=len(held_then),
                    attacked=len(attacked),
                    attacked_without=len(attacked_then),
                    change=len(lost[minor]),
                )
        require(man in lost, "without the piece a king would stand in check")
        self.check_squares(claim, lost[man])
        require(len(lost[man]) >= 3, "fewer than three squares depend on it")
        lead = len(lost[man]) - max((len(squares) for minor, squares in lost.items() if minor != man), default=0)
        require(lead >= 2, "another minor piece matters nearly as much")


class MaterialThemes(Foundation):
    def more(self, side: chess.Color) -> tuple[int, int, int, int]:
        """How many queens, rooks, minor pieces and pawns the side has more than the other one."""

        def surplus(*kinds: int) -> int:
            return sum(len(self.board.pieces(kind, side)) - len(self.board.pieces(kind, not side)) for kind in kinds)

        return surplus(chess.QUEEN), surplus(chess.ROOK), surplus(chess.KNIGHT, chess.BISHOP), surplus(chess.PAWN)

    def main_name(self) -> tuple[str, chess.Color]:
        """The first row of the documented table that fits one of the sides, and that side."""
        rows = {
            "even": lambda q, r, m, p: not (q or r or m or p),
            "pawns_up": lambda q, r, m, p: not (q or r or m) and p > 0,
            "the_exchange": lambda q, r, m, p: (q, r, m) == (0, 1, -1) and p >= 0,
            "the_exchange_for_pawns": lambda q, r, m, p: (q, r, m) == (0, 1, -1) and p < 0,
            "two_exchanges": lambda q, r, m, p: q == 0 and r == -m >= 2,
            "two_minors_for_rook": lambda q, r, m, p: (q, r, m) == (0, -1, 2) and p >= 0,
            "two_minors_for_rook_and_pawns": lambda q, r, m, p: (q, r, m) == (0, -1, 2) and p < 0,
            "minor_for_pawns": lambda q, r, m, p: (q, r, m) == (0, 0, 1) and p < 0,
            "piece_up": lambda q, r, m, p: min(q, r, m) >= 0 and q + r + m > 0 and p >= 0,
            "piece_for_pawns": lambda q, r, m, p: min(q, r, m) >= 0 and q + r + m > 0 and p < 0,
            "queen_for_pieces": lambda q, r, m, p: q == 1 and r <= 0 and m <= 0 and r + m < 0,
        }
        mover = self.board.turn
        for name, fits in rows.items():
            for side in (mover, not mover):
                if fits(*self.more(side)):
                    return name, side
        dearest = next(more for more in self.more(mover) if more)
        return "mixed", mover if dearest > 0 else not mover

    def has_pair(self, side: chess.Color) -> bool:
        bishops = set(self.board.pieces(chess.BISHOP, side))
        return bool(bishops & on_colour(True)) and bool(bishops & on_colour(False))

    def _check_material(self, claim: Claim, start: chess.Board) -> None:
        board, side = self.board, SIDES[claim.side]
        name, asset = self.main_name()
        speaks_for = asset if name == "even" or balance(board, asset) >= 0 else not asset
        men: Squares = set()
        if claim.detail == "bishop_pair":
            require(self.has_pair(side) and not self.has_pair(not side), "not the only bishop pair")
            men = set(board.pieces(chess.BISHOP, side))
        elif claim.detail == "opposite_bishops":
            men = set(board.pieces(chess.BISHOP, chess.WHITE) | board.pieces(chess.BISHOP, chess.BLACK))
            require(len(men) == 2 and not self.has_pair(side) and not self.has_pair(not side), "not one bishop each")
            require(len({bool(man in on_colour(True)) for man in men}) == 2, "the bishops run on one colour")
            require(side == speaks_for, "not the side of the first name")
        else:
            require(claim.detail == name, f"the name is {name}")
            require(side == speaks_for, "good for the other side")
            classes = ([chess.QUEEN], [chess.ROOK], [chess.KNIGHT, chess.BISHOP], [chess.PAWN])
            for more, kinds in zip(self.more(asset), classes):
                if more:
                    men |= {m for kind in kinds for m in board.pieces(kind, asset if more > 0 else not asset)}
        self.check_squares(claim, men)
        pieces = [man for owner in (side, not side) for man in sorted(men) if board.color_at(man) == owner]
        pieces = [man for man in pieces if board.piece_type_at(man) != chess.PAWN]
        require(self.men_of(claim) == pieces[:MOST_PIECES], "not the pieces among the men")
        queens, rooks, minors, more_pawns = self.more(side)
        self.check_numbers(
            claim, material=balance(board, side), queens=queens, rooks=rooks, minors=minors, pawns=more_pawns
        )
        if claim.detail in ("the_exchange", "the_exchange_for_pawns", "two_exchanges"):
            self.check_numbers(claim, exchanges=abs(rooks))

    def _check_exchange_imbalance(self, claim: Claim, start: chess.Board) -> None:
        board = self.board
        rook_side = self.more(chess.WHITE)[1] > 0
        queens, times, minors, _ = self.more(rook_side)
        require(queens == 0 and times >= 1 and minors == -times, "nobody is the exchange up")
        giver = not rook_side
        # Each item of the documented formula: points, the number that is shown, and the men behind it.
        pawns = {side: count.pawns_of(board, side) for side in chess.COLORS}
        outposts = {side: count.outposts_taken(board, side) for side in chess.COLORS}
        passed = {side: count.passed(board, side) for side in chess.COLORS}
        shield = {side: count.king_shield(board, side) for side in chess.COLORS}
        weak = {side: (count.isolated(board, side), count.doubled(board, side)) for side in chess.COLORS}
        weaker = {side: len(alone) + count.count_files(twin) for side, (alone, twin) in weak.items()}
        bearing = count.bearing_men(board, rook_side)
        rook_files = count.count_files(count.open_files(board) | count.half_open_files(board, rook_side))

        def points(full: bool, part: bool) -> int:
            return 3 if full else 1 if part else 0

        fewer = len(shield[giver]) - len(shield[rook_side])
        damage = weaker[rook_side] - weaker[giver]
        queen = bool(board.pieces(chess.QUEEN, giver))
        king = {board.king(rook_side)}
        more_outposts = len(outposts[giver]) > len(outposts[rook_side])
        more_passed = len(passed[giver]) > len(passed[rook_side])
        items = [
            (2 * (len(pawns[giver]) - len(pawns[rook_side])), None, 0, pawns[giver]),
            (
                points(self.has_pair(giver) and not self.has_pair(rook_side), self.has_pair(giver)),
                *("bishop_pairs", 1, set(board.pieces(chess.BISHOP, giver))),
            ),
            (points(more_outposts, bool(outposts[giver])), "outposts", len(outposts[giver]), outposts[giver]),
            (points(more_passed, bool(passed[giver])), "passed_pawns", len(passed[giver]), passed[giver]),
            (points(fewer > 0 and queen, fewer > 0), "missing_shield", fewer, shield[rook_side] | king),
            (points(len(bearing) >= 3, len(bearing) == 2), "bearing_men", len(bearing), bearing),
            (points(rook_files == 0, False), None, 0, set()),
            (points(damage >= 2, damage == 1), "weak_pawns", damage, set.union(*weak[rook_side])),
        ]
        total = sum(item[0] for item in items)
        reached = [name for least, name in ((10, "more_than_enough"), (4, "enough"), (2, "some")) if total >= least * times]
        level = reached[0] if reached else "no"
        require(claim.detail == f"{level}_compensation", f"{level} compensation")
        side = giver if level in ("enough", "more_than_enough") else rook_side
        require(SIDES[claim.side] == side, "the count speaks for the other side")
        rooks = sorted(board.pieces(chess.ROOK, rook_side))
        minor_pieces = sorted(board.pieces(chess.KNIGHT, giver) | board.pieces(chess.BISHOP, giver))
        require(self.men_of(claim) == (rooks + minor_pieces)[:MOST_PIECES], "not the rooks and the minor pieces")
        counted = [item for item in items if item[0] > 0]
        self.check_squares(claim, {*rooks, *minor_pieces}.union(*(behind for *_, behind in counted)))
        numbers = {name: value for _, name, value, _ in counted if name}
        numbers |= {"material": balance(board, side), "pawns": len(pawns[side]) - len(pawns[not side])}
        numbers |= {"exchanges": times, "compensation": total, "rook_files": rook_files}
        require(claim.numbers == numbers, f"the numbers are {numbers}")
