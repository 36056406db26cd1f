"""Every finding about kings that a position demands, from the documentation of the king themes."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from . import pawns as count
from .claim import Claim
from .counted_themes import CountedThemes

Squares = set[chess.Square]

DIAGONALS = ((1, 1), (1, -1))
"""Directions of the lines that rise and fall towards the h-file."""


def seen_along(board: chess.Board, man: chess.Square, files: int, ranks: int) -> Squares:
    """The squares that a man sees in that direction and in the opposite one, up to the first man in each."""
    seen = set()
    for sign in (1, -1):
        file, rank = chess.square_file(man) + sign * files, chess.square_rank(man) + sign * ranks
        while 0 <= file <= 7 and 0 <= rank <= 7:
            square = chess.square(file, rank)
            seen.add(square)
            if board.piece_at(square) is not None:
                break
            file, rank = file + sign * files, rank + sign * ranks
    return seen


class KingThemes(CountedThemes):
    def _men(self, side: chess.Color, *kinds: int) -> Squares:
        return {man for kind in kinds for man in self.board.pieces(kind, side)}

    def _zone(self, side: chess.Color) -> Squares:
        king = self.board.king(side)
        return {square for square in chess.SQUARES if chess.square_distance(square, king) <= 1}

    def _files_on(self, side: chess.Color) -> set[int]:
        return {chess.square_file(square) for square in self._zone(side)}

    def _is_open(self, file: int) -> bool:
        return not any(file in count.files_with_pawns(self.board, owner) for owner in chess.COLORS)

    def _is_half_open_for(self, side: chess.Color, file: int) -> bool:
        """No pawn of the side on the file, but one of the other side."""
        own, others = count.files_with_pawns(self.board, side), count.files_with_pawns(self.board, not side)
        return file not in own and file in others

    def _file_counts(self, attacker: chess.Color, files: set[int]) -> dict[str, int]:
        return {
            "open_files": len([file for file in files if self._is_open(file)]),
            "half_open_files": len([file for file in files if self._is_half_open_for(attacker, file)]),
        }

    def _attackable(self) -> Iterator[tuple[chess.Color, chess.Square]]:
        """The sides whose opponent has a queen or two rooks, with their kings."""
        for side in chess.COLORS:
            if self._men(not side, chess.QUEEN) or len(self._men(not side, chess.ROOK)) >= 2:
                yield side, self.board.king(side)

    def _is_in_centre(self, side: chess.Color) -> bool:
        king = self.board.king(side)
        return chess.square_file(king) in (3, 4) and count.relative_rank(side, king) in (0, 1)

    def _every_king_shelter(self) -> Iterator[Claim]:
        for side, king in self._attackable():
            shield = count.king_shield(self.board, side)
            bare = self._files_on(side) - {chess.square_file(pawn) for pawn in shield}
            if self._is_in_centre(side) or not bare:
                continue
            ranks = [count.relative_rank(side, king) + steps for steps in (1, 2)]
            gaps = {square for square in count.on_files(bare) if count.relative_rank(side, square) in ranks}
            yield self.told(
                *("king_shelter", not side),
                on=gaps,
                men=[{king}, shield],
                shield_pawns=len(shield),
                **self._file_counts(not side, self._files_on(side)),
            )

    def _every_king_lines(self) -> Iterator[Claim]:
        for side, king in self._attackable():
            for file in self._files_on(side):
                whole = count.on_files({file})
                heavy = self._men(not side, chess.ROOK, chess.QUEEN) & whole
                if self._is_open(file):
                    yield self.told("king_lines", not side, "on_open_file", on=whole, men=[{king}, heavy])
                elif self._is_half_open_for(not side, file) and heavy:
                    yield self.told("king_lines", not side, "on_half_open_file", on=whole, men=[{king}, heavy])
            for man in self._men(not side, chess.BISHOP, chess.QUEEN):
                for direction in DIAGONALS:
                    seen = seen_along(self.board, man, *direction)
                    if seen & self._zone(side):
                        yield self.told("king_lines", not side, "on_diagonal", on=seen, men=[{king}, {man}])

    def _every_near_king(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            king, zone = self.board.king(side), self._zone(side)
            near = {
                owner: {
                    man
                    for man in chess.SquareSet(self.board.occupied_co[owner])
                    if self.board.piece_type_at(man) != chess.KING and zone & set(self.board.attacks(man))
                }
                for owner in chess.COLORS
            }
            attackers, defenders = near[not side], near[side]
            if len(attackers) >= 2:
                yield self.told(
                    *("near_king", not side),
                    on={square for man in attackers for square in self.board.attacks(man)} & zone,
                    men=[{king}, attackers],
                    attackers=len(attackers),
                    defenders=len(defenders),
                )

    def _escape_squares(self, side: chess.Color) -> Squares:
        away = self.board.copy(stack=False)
        king = self.board.king(side)
        away.remove_piece_at(king)
        return {
            square
            for square in self._zone(side) - {king}
            if self.board.color_at(square) != side and not away.is_attacked_by(not side, square)
        }

    def _every_king_escape(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            if self.board.has_castling_rights(side):
                continue
            king, escape = self.board.king(side), self._escape_squares(side)
            detail = "none"
            if escape:
                on_first = count.relative_rank(side, king) == 0
                luft = any(count.relative_rank(side, square) == 1 for square in escape)
                heavy = self._men(not side, chess.ROOK, chess.QUEEN)
                way = any(self._is_open(file) or self._is_half_open_for(not side, file) for file in range(8))
                if not (on_first and not luft and heavy and way):
                    continue
                detail = "no_luft"
            yield self.told(
                "king_escape", not side, detail, on=escape, men=[{king}], escape_squares=len(escape)
            )

    def _every_king_in_centre(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            if not self._is_in_centre(side) or not self._men(not side, chess.QUEEN):
                continue
            files = {file for file in (3, 4) if self._is_open(file) or self._is_half_open_for(not side, file)}
            may_castle = self.board.has_castling_rights(side)
            if may_castle and not files:
                continue
            yield self.told(
                *("king_in_centre", not side, "may_castle" if may_castle else "may_not_castle"),
                on=count.on_files(files),
                men=[{self.board.king(side)}],
                **self._file_counts(not side, files),
            )
