"""Every finding about pawns that a position demands, from the documentation of the pawn themes."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from . import pawns as count
from .claim import Claim
from .counted_themes import CountedThemes

Squares = set[chess.Square]


class PawnThemes(CountedThemes):
    def _weak(self, theme: str, weak_of) -> Iterator[Claim]:
        for side in chess.COLORS:
            weak = weak_of(self.board, side)
            if weak:
                yield self.told(theme, not side, on=weak, men=[weak], pieces=len(weak))

    def _every_isolated_pawn(self) -> Iterator[Claim]:
        return self._weak("isolated_pawn", count.isolated)

    def _every_doubled_pawns(self) -> Iterator[Claim]:
        return self._weak("doubled_pawns", count.doubled)

    def _every_backward_pawn(self) -> Iterator[Claim]:
        return self._weak("backward_pawn", count.backward)

    def _every_passed_pawn(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            all_passed = count.passed(self.board, side)
            for pawn in all_passed:
                guards = {p for p in count.pawns_of(self.board, side) if pawn in count.PAWN_ATTACKS[side][p]}
                beside = {p for p in all_passed if count.file_distance(p, pawn) == 1}
                enemies = count.pawns_of(self.board, not side)
                far = all(count.file_distance(enemy, pawn) >= 3 for enemy in enemies)
                if guards:
                    detail, company = "guarded_by_pawn", guards
                elif beside:
                    detail, company = "connected", beside
                elif enemies and far and chess.square_file(pawn) not in (3, 4):
                    detail, company = "outside", set()
                else:
                    detail, company = "none", set()
                steps = 7 - count.relative_rank(side, pawn)
                path = [count.ahead(side, pawn, step) for step in range(1, steps + 1)]
                yield self.told("passed_pawn", side, detail, on=path, men=[{pawn}, company], steps=steps)

    def _every_candidate_to_pass(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            for pawn in count.candidates(self.board, side):
                helpers, sentries = count.helpers(self.board, side, pawn), count.sentries(self.board, side, pawn)
                yield self.told(
                    *("candidate_to_pass", side),
                    on=helpers | sentries,
                    men=[{pawn}, helpers, sentries],
                    squares=len(helpers),
                    squares_of_other=len(sentries),
                )

    def _every_pawn_lever(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            for pawn, arrival, targets in count.levers(self.board, side):
                then = self.board.copy(stack=False)
                then.remove_piece_at(pawn)
                then.set_piece_at(arrival, chess.Piece(chess.PAWN, side))
                guards, attackers = then.attackers(side, arrival), then.attackers(not side, arrival)
                if len(attackers) > len(guards):
                    continue
                # What is left on the file of the pawn when it takes.
                then.remove_piece_at(arrival)
                file = chess.square_file(pawn)
                if file in count.files_with_pawns(then, side):
                    detail = "none"
                else:
                    other = file in count.files_with_pawns(then, not side)
                    detail = "on_half_open_file" if other else "on_open_file"
                yield self.told(
                    *("pawn_lever", side, detail),
                    on=[arrival],
                    men=[{pawn}, targets],
                    guards=len(guards),
                    attackers=len(attackers),
                )

    def _every_pawn_chain(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            attacked = count.attacked_by_pawns(self.board, not side)
            levers = count.levers(self.board, not side)
            attackable = {target for _, _, targets in levers for target in targets}
            for chain in count.chains(self.board, side):
                guards = {pawn: {p for p in chain if pawn in count.PAWN_ATTACKS[side][p]} for pawn in chain}
                bases = {pawn for pawn in chain if not guards[pawn]}
                if bases & attacked:
                    detail, good_for, first = "attacked_already", not side, bases & attacked
                elif bases & attackable:
                    detail, good_for, first = "attackable", not side, bases & attackable
                elif any(guards[guard] for pawn in chain for guard in guards[pawn]):
                    detail, good_for, first = "none", side, bases
                else:
                    continue
                yield self.told(
                    "pawn_chain", good_for, detail, on=chain, men=[first, chain - first], pieces=len(chain)
                )

    def _every_pawn_islands(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            own, others = count.islands(self.board, side), count.islands(self.board, not side)
            if 0 < own < others:
                all_pawns = count.pawns_of(self.board, chess.WHITE) | count.pawns_of(self.board, chess.BLACK)
                yield self.told("pawn_islands", side, on=all_pawns, islands=own, islands_of_other=others)

    def _every_pawn_majority(self) -> Iterator[Claim]:
        for detail, files in (("queenside", {0, 1, 2, 3}), ("kingside", {4, 5, 6, 7})):
            for side in chess.COLORS:
                own = count.pawns_of(self.board, side) & count.on_files(files)
                others = count.pawns_of(self.board, not side) & count.on_files(files)
                if len(own) > len(others) > 0:
                    yield self.told(
                        *("pawn_majority", side, detail),
                        on=own | others,
                        men=[own],
                        squares=len(own),
                        squares_of_other=len(others),
                        majority=len(own) - len(others),
                    )

    def _every_blocked_pawns(self) -> Iterator[Claim]:
        pairs = []
        for side in chess.COLORS:
            blockaded = set()
            for pawn in count.pawns_of(self.board, side):
                before = self.board.piece_at(count.ahead(side, pawn))
                if before is None or before.color == side:
                    continue
                if before.piece_type != chess.PAWN:
                    blockaded.add(pawn)
                elif side == chess.WHITE:
                    pairs.append({pawn, count.ahead(side, pawn)})
            if blockaded:
                blockers = {count.ahead(side, pawn) for pawn in blockaded}
                yield self.told(
                    *("blocked_pawns", not side, "blocked_by_piece"),
                    on=blockers,
                    men=[blockaded, blockers],
                    pieces=len(blockaded),
                )
        if len(pairs) >= 2:
            fixed = set.union(*pairs)
            yield self.told(
                "blocked_pawns", self.board.turn, "fixed_by_pawn", on=fixed, men=[fixed], pieces=len(fixed)
            )
