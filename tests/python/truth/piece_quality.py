"""Every finding about holes, outposts, space and the quality of pieces that a position demands, from the documentation of
the square and piece themes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cached_property

import chess

from . import pawns as count
from .claim import Claim
from .counted_themes import CountedThemes
from .piece_themes import PieceThemes

Squares = set[chess.Square]

MINORS = (chess.KNIGHT, chess.BISHOP)
PIECES = (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN)
USUAL_SCOPE = {chess.KNIGHT: 4, chess.BISHOP: 4, chess.ROOK: 5, chess.QUEEN: 9}
MIDDLE_FILES = (2, 3, 4, 5)
LEAST_SPACE_LEAD = 3
MOST_ENDGAME_PIECES = 4
LONGEST_ROUTE = 3
ACTIVE_SQUARES = 2

FIRST_SQUARES = {
    chess.WHITE: {chess.KNIGHT: (chess.B1, chess.G1), chess.BISHOP: (chess.C1, chess.F1)},
    chess.BLACK: {chess.KNIGHT: (chess.B8, chess.G8), chess.BISHOP: (chess.C8, chess.F8)},
}
MUST_HAVE_MOVED = {
    **{king: (chess.F1, chess.G1) for king in (chess.G1, chess.H1)},
    **{king: (chess.B1, chess.C1) for king in (chess.A1, chess.B1)},
    **{king: (chess.F8, chess.G8) for king in (chess.G8, chess.H8)},
    **{king: (chess.B8, chess.C8) for king in (chess.A8, chess.B8)},
}
"""With the king there, pieces on these squares have moved."""


def light(square: chess.Square) -> bool:
    return (chess.square_file(square) + chess.square_rank(square)) % 2 == 1


class PieceQuality(PieceThemes, CountedThemes):
    def __init__(self, *args, **options) -> None:
        super().__init__(*args, **options)
        self._fixed: dict[chess.Color, Squares] = {}

    def _pieces(self, side: chess.Color, *kinds: int) -> Squares:
        return {man for kind in kinds for man in self.board.pieces(kind, side)}

    @cached_property
    def _denied_by_pawns(self) -> dict[chess.Color, Squares]:
        return {side: count.attacked_by_pawns(self.board, side) for side in chess.COLORS}

    @cached_property
    def _is_endgame(self) -> bool:
        pieces = self._pieces(chess.WHITE, *PIECES) | self._pieces(chess.BLACK, *PIECES)
        return len(pieces) <= MOST_ENDGAME_PIECES

    def _fixed_pawns(self, side: chess.Color) -> Squares:
        if side not in self._fixed:
            self._fixed[side] = count.fixed_pawns(self.board, side)
        return self._fixed[side]

    # --- squares -----------------------------------------------------------------------------------------------------

    def _every_hole(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            if not count.pawns_of(self.board, not side):
                continue
            minors = self._pieces(side, *MINORS)
            usable, users = set(), set()
            for hole in count.holes(self.board, not side):
                attackers = set(self.board.attackers(side, hole))
                if count.relative_rank(not side, hole) not in (2, 3):
                    continue
                if hole in minors and attackers:
                    usable.add(hole)
                if self.board.color_at(hole) != side and attackers & minors and len(attackers) >= 2:
                    usable.add(hole)
                    users |= attackers & minors
            if usable:
                settled = minors & usable
                yield self.told(
                    "hole", side, on=usable, men=[settled, users - settled], squares=len(usable)
                )

    def _outposts(self, side: chess.Color) -> Squares:
        return {
            square
            for square in self._denied_by_pawns[side]
            if count.relative_rank(side, square) in (4, 5, 6)
            and not count.pawn_ever_guards(self.board, not side, square)
        }

    def _reached_by(self, man: chess.Square, side: chess.Color) -> list[Squares]:
        """The squares that the man reaches in one move, in two and in three, and not earlier."""
        if self.board.is_pinned(side, man):
            return []
        closed = self._denied_by_pawns[not side] | {self.board.king(owner) for owner in chess.COLORS}
        board = self.board.copy(stack=False)
        piece = board.remove_piece_at(man)
        found: list[Squares] = []
        known, stops = {man}, {man}
        for _ in range(LONGEST_ROUTE):
            reached = set()
            for stop in stops:
                board.set_piece_at(stop, piece)
                reached |= set(board.attacks(stop))
                board.remove_piece_at(stop)
            reached = {s for s in reached - closed - known if board.color_at(s) != side}
            found.append(reached)
            known |= reached
            stops = {square for square in reached if board.piece_at(square) is None}
        return found

    def _every_outpost(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            outposts, minors = self._outposts(side), self._pieces(side, *MINORS)
            for taken in outposts & minors:
                yield self.told("outpost", side, "held_by_piece", on=[taken], men=[{taken}])
            if not outposts or self.board.is_attacked_by(not side, self.board.king(side)):
                continue
            routes = {man: self._reached_by(man, side) for man in minors - outposts}
            for moves in range(1, LONGEST_ROUTE + 1):
                reached = {man: route[moves - 1] & outposts for man, route in routes.items() if route}
                men = {man for man, squares in reached.items() if squares}
                if men:
                    squares = {square for man in men for square in reached[man]}
                    yield self.told("outpost", side, "within_reach", on=squares, men=[men], moves_to_go=moves)
                    break

    def _room(self, side: chess.Color) -> Squares:
        pawns = [count.pawns_of(self.board, owner) for owner in chess.COLORS]
        return {
            square
            for square in chess.SQUARES
            if chess.square_file(square) in MIDDLE_FILES
            and count.relative_rank(side, square) <= 3
            and square not in set.union(*pawns) | self._denied_by_pawns[not side]
            and any(
                count.file_distance(pawn, square) <= 1
                and count.relative_rank(side, pawn) > count.relative_rank(side, square)
                for pawn in count.pawns_of(self.board, side)
            )
        }

    def _every_space(self) -> Iterator[Claim]:
        rooms = {side: self._room(side) for side in chess.COLORS}
        for side in chess.COLORS:
            own, others = len(rooms[side]), len(rooms[not side])
            if own - others >= LEAST_SPACE_LEAD and not self._is_endgame:
                yield self.told("space", side, on=rooms[side], squares=own, squares_of_other=others)

    # --- pieces ------------------------------------------------------------------------------------------------------

    def piece_scope(self, man: chess.Square) -> Squares:
        """What the man attacks and could go to, guards other than pawns aside."""
        side = self.board.color_at(man)
        return {
            square
            for square in self.board.attacks(man)
            if self.board.color_at(square) != side and square not in self._denied_by_pawns[not side]
        }

    def _bishops(self, theme: str) -> Iterator[Claim]:
        for side in chess.COLORS:
            bishops = self.board.pieces(chess.BISHOP, side)
            fixed = self._fixed_pawns(side) if bishops else set()
            pawns = count.pawns_of(self.board, side)
            for bishop in bishops:
                on = {pawn for pawn in fixed if light(pawn) == light(bishop)}
                off = fixed - on
                pawns_on = {pawn for pawn in pawns if light(pawn) == light(bishop)}
                scope = self.piece_scope(bishop)
                outside = [square for square in scope if count.relative_rank(side, square) >= 4]
                is_bad = (
                    *(len(on) >= 2, any(chess.square_file(pawn) in MIDDLE_FILES for pawn in on), len(on) > len(off)),
                    *(len(pawns_on) >= len(pawns - pawns_on), len(outside) < ACTIVE_SQUARES),
                )
                is_good = len(off) >= 2, len(off) >= 3 * len(on), len(scope) >= USUAL_SCOPE[chess.BISHOP]
                if theme == "bad_bishop" and all(is_bad):
                    good_for, named = not side, on
                elif theme == "good_bishop" and all(is_good):
                    good_for, named = side, off
                else:
                    continue
                yield self.told(
                    *(theme, good_for),
                    on=named,
                    men=[{bishop}, named],
                    fixed_pawns=len(named),
                    pawns_on_colour=len(pawns_on),
                    scope=len(scope),
                )

    def _every_good_bishop(self) -> Iterator[Claim]:
        return self._bishops("good_bishop")

    def _every_bad_bishop(self) -> Iterator[Claim]:
        return self._bishops("bad_bishop")

    def _narrow(self, theme: str, man: chess.Square) -> Claim:
        scope, usual = self.piece_scope(man), USUAL_SCOPE[self.board.piece_type_at(man)]
        good_for = not self.board.color_at(man)
        return self.told(theme, good_for, on=scope, men=[{man}], scope=len(scope), usual_scope=usual)

    def _every_rim_knight(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            for knight in self.board.pieces(chess.KNIGHT, side):
                if chess.square_file(knight) in (0, 7) and len(self.piece_scope(knight)) * 2 <= 4:
                    yield self._narrow("rim_knight", knight)

    def _undeveloped(self, side: chess.Color) -> Squares:
        if self._is_endgame:
            return set()
        first = FIRST_SQUARES[side]
        at_home = {square for kind in MINORS for square in first[kind] if square in self.board.pieces(kind, side)}
        king = self.board.king(side)
        on_first_rank = count.relative_rank(side, king) == 0
        return at_home - set(MUST_HAVE_MOVED.get(king, ()) if on_first_rank else ())

    def _every_undeveloped(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            at_home = self._undeveloped(side)
            if len(at_home) > len(self._undeveloped(not side)):
                yield self.told("undeveloped", not side, on=at_home, men=[at_home], pieces=len(at_home))

    def _every_passive_piece(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            pieces = self._pieces(side, *PIECES)
            if not pieces or len(self._undeveloped(side)) >= 2:
                continue
            usual = {man: USUAL_SCOPE[self.board.piece_type_at(man)] for man in pieces}
            share = {man: Fraction(len(self.piece_scope(man)), usual[man]) for man in pieces}
            least = [man for man in pieces if share[man] == min(share.values())]
            dearest = [man for man in least if usual[man] == max(usual[m] for m in least)]
            if share[least[0]] < Fraction(1, 2) and len(dearest) == 1:
                yield self._narrow("passive_piece", dearest[0])

    def duty_targets(self, guard: chess.Square) -> Squares:
        """The targets of all duties of the man."""
        bare = self.turn_of(not self.board.color_at(guard), guard)
        if bare is None:
            return set()
        targets = {man for man in chess.SquareSet(bare.occupied_co[not bare.turn]) if bare.is_attacked_by(bare.turn, man)}
        if bare.ep_square is not None:
            targets.add(bare.ep_square ^ 8)
        targets |= set(self.mating_squares(guard))
        targets |= {move.to_square for move in bare.generate_legal_moves(bare.pawns) if move.promotion}
        return {target for target in targets if self.duty_kinds(guard, target)}

    def _every_guarding_only(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            for man in self._pieces(side, *PIECES):
                aims = [
                    square
                    for square in self.board.attacks(man)
                    if count.relative_rank(side, square) >= 4 or self.board.color_at(square) == (not side)
                ]
                targets = set() if aims else self.duty_targets(man)
                if targets:
                    guarded = {target for target in targets - {man} if self.board.color_at(target) == side}
                    yield self.told(
                        "guarding_only", not side, on=targets, men=[{man}, guarded], duties=len(targets)
                    )
