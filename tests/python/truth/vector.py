"""Every column of the numeric vector, square by square, by the definitions in the schema. Also the bench's baseline: a
direct implementation of the same columns."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import chess

from .forcing import all_checks, squares_of
from .pawns import (
    bearing_men,
    doubled,
    half_open_files,
    holes,
    isolated,
    king_shield,
    open_files,
    passed,
    pawn_ever_guards,
)

Squares = set[chess.Square]
PIECES = (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN)
VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}
USUAL_SCOPE = {chess.KNIGHT: 4, chess.BISHOP: 4, chess.ROOK: 5, chess.QUEEN: 9}
NAMES = {chess.KNIGHT: "knight", chess.BISHOP: "bishop", chess.ROOK: "rook", chess.QUEEN: "queen"}
CENTRE = {chess.D4, chess.E4, chess.D5, chess.E5}
STEPS = {chess.WHITE: 8, chess.BLACK: -8}

file_of = chess.square_file


def is_light(square: chess.Square) -> bool:
    return (file_of(square) + chess.square_rank(square)) % 2 == 1


def rank_for(side: chess.Color, square: chess.Square) -> int:
    """The rank from 1, as the side counts."""
    return chess.square_rank(square) + 1 if side else 8 - chess.square_rank(square)


OTHER_HALF = {side: {s for s in chess.SQUARES if rank_for(side, s) >= 5} for side in chess.COLORS}


def are_neighbours(a: chess.Square, b: chess.Square) -> bool:
    """On neighbouring files."""
    return abs(file_of(a) - file_of(b)) == 1


class Board:
    """One position, with the attackers of every square."""

    def __init__(self, board: chess.Board) -> None:
        self.board = board
        self.man = board.piece_map()
        self._of: dict[tuple[chess.Color, tuple[chess.PieceType, ...]], Squares] = {}
        self.men = {side: {s for s, man in self.man.items() if man.color == side} for side in chess.COLORS}
        self.attackers = {
            side: [set(squares_of(board.attackers_mask(side, square))) for square in chess.SQUARES]
            for side in chess.COLORS
        }
        self.attacked = {side: {s for s in chess.SQUARES if self.attackers[side][s]} for side in chess.COLORS}
        self.king = {side: self.of(side, chess.KING).pop() for side in chess.COLORS}
        self.is_endgame = sum(len(self.of(side, *PIECES)) for side in chess.COLORS) <= 4

    def of(self, side: chess.Color, *kinds: chess.PieceType) -> Squares:
        if (side, kinds) not in self._of:
            self._of[side, kinds] = {s for s in self.men[side] if self.man[s].piece_type in kinds}
        return set(self._of[side, kinds])

    def attacked_times(self, side: chess.Color, times: int) -> Squares:
        return {s for s in chess.SQUARES if len(self.attackers[side][s]) >= times}

    def reaches(self, man: chess.Square) -> Squares:
        return set(squares_of(self.board.attacks_mask(man)))


class SideOf:
    """One side of a position: `numbers` gives its number for each quantity."""

    def __init__(self, on: Board, side: chess.Color) -> None:
        self.on = on
        self.side = side
        self.other = not side
        self.men = on.men[side]
        self.but_king = self.men - {on.king[side]}
        self.pawns = on.of(side, chess.PAWN)
        self.enemy_pawns = on.of(self.other, chess.PAWN)
        self.passed = passed(on.board, side)
        self.scopes = {piece: self.scope(piece) for piece in on.of(side, *PIECES)}

    def rank(self, square: chess.Square) -> int:
        return rank_for(self.side, square)

    def before(self, pawn: chess.Square) -> chess.Square:
        return pawn + STEPS[self.side]

    def in_other_half(self, squares: Squares) -> Squares:
        return squares & OTHER_HALF[self.side]

    def pawn_attacks(self, side: chess.Color, square: chess.Square) -> bool:
        return bool(self.on.attackers[side][square] & self.on.of(side, chess.PAWN))

    def numbers(self) -> dict[str, int]:
        found = self.material() | self.squares() | self.pieces() | self.safety() | self.pawn_counts() | self.kings()
        return {name: len(value) if isinstance(value, (set, list)) else int(value) for name, value in found.items()}

    def material(self) -> dict[str, Squares | int]:
        on, side = self.on, self.side
        bishops = on.of(side, chess.BISHOP)
        light_bishops = {s for s in bishops if is_light(s)}
        return {
            "pawns": self.pawns,
            "knights": on.of(side, chess.KNIGHT),
            "bishops": bishops,
            "rooks": on.of(side, chess.ROOK),
            "queens": on.of(side, chess.QUEEN),
            "material": sum(VALUES[on.man[s].piece_type] for s in self.men),
            "light_bishops": light_bishops,
            "dark_bishops": bishops - light_bishops,
            "light_pawns": {s for s in self.pawns if is_light(s)},
            "dark_pawns": {s for s in self.pawns if not is_light(s)},
            "light_men": {s for s in self.men if is_light(s)},
            "dark_men": {s for s in self.men if not is_light(s)},
            "bishop_pair": 0 < len(light_bishops) < len(bishops),
        }

    def squares(self) -> dict[str, Squares]:
        attacked = self.on.attacked[self.side]
        twice = self.on.attacked_times(self.side, 2)
        light = {s for s in attacked if is_light(s)}
        alone = attacked - self.on.attacked[self.other]
        outposts = {s for s in chess.SQUARES if self.is_outpost(s)}
        return {
            "attacked_squares": attacked,
            "attacked_twice": twice,
            "attacked_thrice": self.on.attacked_times(self.side, 3),
            "attacked_own_half": attacked - self.in_other_half(attacked),
            "attacked_other_half": self.in_other_half(attacked),
            "attacked_twice_other_half": self.in_other_half(twice),
            "attacked_centre": attacked & CENTRE,
            "attacked_twice_centre": twice & CENTRE,
            "attacked_wide_centre": {s for s in attacked if 2 <= file_of(s) <= 5 and 3 <= self.rank(s) <= 6},
            "attacked_light": light,
            "attacked_dark": attacked - light,
            "attacked_light_other_half": self.in_other_half(light),
            "attacked_dark_other_half": self.in_other_half(attacked - light),
            "attacked_by_pawns": {s for s in chess.SQUARES if self.pawn_attacks(self.side, s)},
            "uncontested_squares": alone,
            "uncontested_light": alone & light,
            "uncontested_dark": alone - light,
            "space": {s for s in chess.SQUARES if self.is_room(s)},
            "holes": holes(self.on.board, self.side),
            "usable_holes": {s for s in holes(self.on.board, self.side) if self.is_usable(s)},
            "outposts": outposts,
            "taken_outposts": outposts & self.on.of(self.side, chess.KNIGHT, chess.BISHOP),
            "men_in_other_half": self.in_other_half(self.men),
        }

    def is_room(self, square: chess.Square) -> bool:
        return (
            2 <= file_of(square) <= 5
            and self.rank(square) <= 4
            and square not in self.pawns | self.enemy_pawns
            and not self.pawn_attacks(self.other, square)
            and any(
                abs(file_of(pawn) - file_of(square)) <= 1 and self.rank(pawn) > self.rank(square) for pawn in self.pawns
            )
        )

    def is_usable(self, hole: chess.Square) -> bool:
        minors = self.on.of(self.other, chess.KNIGHT, chess.BISHOP)
        attackers = self.on.attackers[self.other][hole]
        if self.rank(hole) == 2:
            return False
        if hole in minors:
            return bool(attackers)
        return hole not in self.on.men[self.other] and len(attackers) >= 2 and bool(attackers & minors)

    def is_outpost(self, square: chess.Square) -> bool:
        return (
            5 <= self.rank(square) <= 7
            and self.pawn_attacks(self.side, square)
            and not pawn_ever_guards(self.on.board, self.other, square)
        )

    def scope(self, piece: chess.Square) -> Squares:
        return {s for s in self.on.reaches(piece) - self.men if not self.pawn_attacks(self.other, s)}

    def has_passive_piece(self) -> bool:
        if len(self.undeveloped()) >= 2:
            return False
        shares = []
        for piece, scope in self.scopes.items():
            usual = USUAL_SCOPE[self.on.man[piece].piece_type]
            shares.append((Fraction(len(scope), usual), -usual))
        shares.sort()
        return bool(shares) and shares[0][0] < Fraction(1, 2) and shares[:1] != shares[1:2]

    def undeveloped(self) -> Squares:
        if self.on.is_endgame:
            return set()
        king = self.on.king[self.side]
        found = set()
        for kind, files in ((chess.KNIGHT, "bg"), (chess.BISHOP, "cf")):
            for piece in self.on.of(self.side, kind):
                name = "abcdefgh"[file_of(piece)]
                towards = "gh" if name in "fg" else "ab"
                has_moved = self.rank(king) == 1 and "abcdefgh"[file_of(king)] in towards
                if self.rank(piece) == 1 and name in files and not has_moved:
                    found.add(piece)
        return found

    def pairs(self, straight: set[chess.PieceType], across: set[chess.PieceType]) -> list[Squares]:
        """Pairs of men that see each other: of the kinds `straight` on ranks and files, `across` on diagonals."""
        found = []
        for a in self.men:
            for b in self.on.reaches(a) & self.men:
                is_straight = file_of(a) == file_of(b) or self.rank(a) == self.rank(b)
                kinds = straight if is_straight else across
                if a < b and {self.on.man[a].piece_type, self.on.man[b].piece_type} <= kinds:
                    found.append({a, b})
        return found

    def pieces(self) -> dict[str, Squares | int | list[Squares]]:
        on, side = self.on, self.side
        rooks = on.of(side, chess.ROOK)
        seventh = {s for s in rooks if self.rank(s) == 7}
        has_aim = self.rank(on.king[self.other]) == 8 or any(self.rank(s) == 7 for s in self.enemy_pawns)
        rook_pairs = self.pairs({chess.ROOK}, set())
        found: dict[str, Squares | int | list[Squares]] = {
            f"{name}_scope": sum(len(self.scopes[s]) for s in on.of(side, kind)) for kind, name in NAMES.items()
        }
        return found | {
            "piece_scope": sum(len(scope) for scope in self.scopes.values()),
            "stuck_pieces": {s for s, scope in self.scopes.items() if not scope},
            "passive_piece": self.has_passive_piece(),
            "rim_knights": {s for s in on.of(side, chess.KNIGHT) if file_of(s) in (0, 7)},
            "undeveloped_pieces": self.undeveloped(),
            "pinned_men": {s for s in self.but_king if on.board.is_pinned(side, s)},
            "batteries": self.pairs({chess.ROOK, chess.QUEEN}, {chess.BISHOP, chess.QUEEN}),
            "rooks_on_open_files": rooks & open_files(on.board),
            "rooks_on_half_open_files": rooks & half_open_files(on.board, side),
            "rooks_on_seventh": seventh if has_aim else 0,
            "connected_rooks": [pair for pair in rook_pairs if len({file_of(s) for s in pair}) == 2],
            "doubled_rooks": [pair for pair in rook_pairs if len({file_of(s) for s in pair}) == 1],
        }

    def safety(self) -> dict[str, Squares]:
        on = self.on
        attackers = on.attackers[self.other]
        guards = on.attackers[self.side]
        return {
            "attacked_men": {s for s in self.but_king if attackers[s]},
            "attacked_unguarded_men": {s for s in self.but_king if attackers[s] and not guards[s]},
            "men_attacked_by_cheaper": {s for s in self.but_king if self.is_attacked_by_cheaper(s)},
            "outnumbered_men": {s for s in self.but_king if min(len(attackers[s]), 3) > min(len(guards[s]), 3)},
            "loose_men": {s for s in self.but_king if not attackers[s] and not guards[s]},
        }

    def is_attacked_by_cheaper(self, square: chess.Square) -> bool:
        value = VALUES[self.on.man[square].piece_type]
        attackers = self.on.attackers[self.other][square] - {self.on.king[self.other]}
        return any(VALUES[self.on.man[s].piece_type] < value for s in attackers)

    def is_backward(self, pawn: chess.Square) -> bool:
        neighbours = [s for s in self.pawns if are_neighbours(s, pawn)]
        return (
            bool(neighbours)
            and all(self.rank(s) > self.rank(pawn) for s in neighbours)
            and self.pawn_attacks(self.other, self.before(pawn))
        )

    def is_candidate(self, pawn: chess.Square) -> bool:
        everyone = self.pawns | self.enemy_pawns
        if pawn in self.passed or any(
            file_of(s) == file_of(pawn) and self.rank(s) > self.rank(pawn) for s in everyone
        ):
            return False
        helpers = [s for s in self.pawns if are_neighbours(s, pawn) and self.rank(s) <= self.rank(pawn)]
        sentries = [s for s in self.enemy_pawns if are_neighbours(s, pawn) and self.rank(s) > self.rank(pawn)]
        return len(helpers) >= len(sentries)

    def is_outside(self, pawn: chess.Square) -> bool:
        away = [abs(file_of(s) - file_of(pawn)) for s in self.enemy_pawns]
        return file_of(pawn) not in (3, 4) and bool(away) and min(away) >= 3

    def levers(self) -> Squares:
        arrivals = set()
        for pawn in self.pawns:
            square = self.before(pawn)
            for _ in range(2 if self.rank(pawn) == 2 else 1):
                if square in self.on.man:
                    break
                arrivals.add(square)
                square += STEPS[self.side]
        return {
            s
            for s in arrivals
            if any(are_neighbours(s, enemy) and self.rank(enemy) == self.rank(s) + 1 for enemy in self.enemy_pawns)
        }

    def pawn_counts(self) -> dict[str, Squares | int]:
        on, side = self.on, self.side
        files = sorted({file_of(s) for s in self.pawns})
        blockers = {pawn: on.man.get(self.before(pawn)) for pawn in self.pawns}
        by_piece = {
            pawn for pawn, man in blockers.items() if man and man.color != side and man.piece_type != chess.PAWN
        }
        guarded = {s for s in self.pawns if self.pawn_attacks(side, s)}
        guarding = {s for s in self.pawns if on.reaches(s) & self.pawns}
        return {
            "isolated_pawns": isolated(on.board, side),
            "doubled_pawns": doubled(on.board, side),
            "backward_pawns": {s for s in self.pawns if self.is_backward(s)},
            "passed_pawns": self.passed,
            "guarded_passed_pawns": self.passed & guarded,
            "connected_passed_pawns": {s for s in self.passed if any(are_neighbours(s, t) for t in self.passed)},
            "outside_passed_pawns": {s for s in self.passed if self.is_outside(s)},
            "blockaded_passed_pawns": self.passed & by_piece,
            "most_advanced_passed_pawn": max((self.rank(s) for s in self.passed), default=0),
            "candidate_passed_pawns": {s for s in self.pawns if self.is_candidate(s)},
            "pawn_islands": sum(file - 1 not in files for file in files),
            "pawns_blocked_by_pieces": by_piece,
            "pawns_blocked_by_own_men": {pawn for pawn, man in blockers.items() if man and man.color == side},
            "chained_pawns": guarded | guarding,
            "pawn_levers": self.levers(),
            "pawns_in_contact": {s for s in self.pawns if on.reaches(s) & self.enemy_pawns},
            "half_open_files": {file_of(s) for s in half_open_files(on.board, side)},
            "queenside_pawns": {s for s in self.pawns if file_of(s) <= 3},
            "kingside_pawns": {s for s in self.pawns if file_of(s) >= 4},
            "centre_pawns": self.pawns & CENTRE,
        }

    def kings(self) -> dict[str, Squares | int | list[tuple[chess.Square, int]]]:
        on, side = self.on, self.side
        king = on.king[side]
        zone = {s for s in chess.SQUARES if chess.square_distance(s, king) <= 1}
        attackers = bearing_men(on.board, side)
        on_king = {s for s in chess.SQUARES if abs(file_of(s) - file_of(king)) <= 1}
        escapes = self.escapes(zone - {king})
        rights = chess.SquareSet(on.board.clean_castling_rights())
        castling = [file_of(rook) for rook in rights if self.rank(rook) == 1]
        return {
            "shielded_files": king_shield(on.board, side),
            "king_open_files": {file_of(s) for s in on_king & open_files(on.board)},
            "king_half_open_files": {file_of(s) for s in on_king & half_open_files(on.board, self.other)},
            "king_diagonals": self.diagonals_on(zone),
            "king_attackers": attackers,
            "king_attacked_squares": {s for s in zone if on.attackers[self.other][s] & attackers},
            "king_attacked_twice": {s for s in zone if len(on.attackers[self.other][s]) >= 2},
            "king_defenders": {s for s in self.but_king if on.reaches(s) & zone},
            "king_escapes": escapes,
            "luft_squares": {s for s in escapes if self.rank(s) == 2} if self.rank(king) == 1 else 0,
            "king_in_centre": file_of(king) in (3, 4) and self.rank(king) <= 2,
            "king_rank": self.rank(king),
            "may_castle_short": any(file > file_of(king) for file in castling),
            "may_castle_long": any(file < file_of(king) for file in castling),
        }

    def escapes(self, around: Squares) -> Squares:
        without = self.on.board.copy(stack=False)
        without.remove_piece_at(self.on.king[self.side])
        return {s for s in around - self.men if not without.attackers(self.other, s)}

    def diagonals_on(self, zone: Squares) -> list[tuple[chess.Square, int]]:
        """Each man with the direction of the diagonal."""
        found = []
        for man in self.on.of(self.other, chess.BISHOP, chess.QUEEN):
            for direction in (1, -1):
                hit = {
                    s
                    for s in self.on.reaches(man) & zone
                    if (chess.square_rank(s) - chess.square_rank(man)) == direction * (file_of(s) - file_of(man))
                }
                if hit:
                    found.append((man, direction))
        return found


def position_numbers(on: Board) -> dict[str, int]:
    """The quantities of the position as a whole."""
    board = on.board
    white, black = on.king[chess.WHITE], on.king[chess.BLACK]
    bishops = [on.of(side, chess.BISHOP) for side in chess.COLORS]
    has_one_bishop_each = all(len(of) == 1 for of in bishops)
    kinds = [man.piece_type for man in on.man.values()]
    legal = list(board.legal_moves)
    return {
        "white_to_move": board.turn,
        "in_check": board.is_check(),
        "checkers": len(board.checkers()),
        "legal_moves": len(legal),
        "legal_captures": sum(board.is_capture(move) for move in legal),
        "legal_checks": len(all_checks(board)),
        "en_passant_captures": sum(board.is_en_passant(move) for move in legal),
        "men": len(kinds),
        "pieces": sum(kind not in (chess.PAWN, chess.KING) for kind in kinds),
        "endgame": on.is_endgame,
        "opposite_bishops": has_one_bishop_each and len({is_light(s) for of in bishops for s in of}) == 2,
        "open_files": len({file_of(s) for s in open_files(board)}),
        "locked_pawn_pairs": sum(s + 8 in on.of(chess.BLACK, chess.PAWN) for s in on.of(chess.WHITE, chess.PAWN)),
        "contested_squares": len(on.attacked[chess.WHITE] & on.attacked[chess.BLACK]),
        "kings_distance": chess.square_distance(white, black),
        "kings_on_opposite_wings": (file_of(white) <= 3) != (file_of(black) <= 3),
        "halfmove_clock": min(board.halfmove_clock, 32767),
        "move_number": min(board.fullmove_number, 32767),
    }


def vector(board: chess.Board) -> Callable[[str], int]:
    """What gives the number in the column of a name. Raises KeyError for other names."""
    on = Board(board)
    white = SideOf(on, chess.WHITE).numbers()
    black = SideOf(on, chess.BLACK).numbers()
    numbers = position_numbers(on)
    for name in white:
        numbers[f"white_{name}"] = white[name]
        numbers[f"black_{name}"] = black[name]
        numbers[f"{name}_difference"] = white[name] - black[name]
    return lambda name: int(numbers[name])
