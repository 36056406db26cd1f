"""Checks of the themes about the safety and the duties of men."""

from __future__ import annotations

import chess

from .calculations import MATE, VALUES, balance, captures_on, exchange_at_least
from .claim import Claim
from .forcing import mates_at_once
from .foundation import LEAST_GAIN, MOST_PIECES, SIDES, Foundation, require

SLIDERS = (chess.BISHOP, chess.ROOK, chess.QUEEN)


class PieceThemes(Foundation):
    def __init__(self, *args, **options) -> None:
        super().__init__(*args, **options)
        self._mating_squares: dict[tuple[chess.Color, chess.Square | None], frozenset[chess.Square]] = {}

    # --- piece safety ------------------------------------------------------------------------------------------------

    def _capture(self, claim: Claim, start: chess.Board) -> chess.Move:
        """What `hanging` and `poisoned` share: the exchange wins, and the line starts with the best capture."""
        man, taker = self.men_of(claim, 2)
        self.check_squares(claim, [man])
        require(start.color_at(man) == (not start.turn), "the man is not the other side's")
        first = start.parse_uci(claim.line[0])
        captures = captures_on(start, man)
        require(first in captures, "the line does not start with a capture of the man")
        require(first.from_square == taker, "the second man is not the taker")
        require(exchange_at_least(start, man, LEAST_GAIN), "the exchange on the square wins nothing")
        for capture in captures:
            require(claim.mate or not self._is_better(claim, start, capture), f"{start.san(capture)} is the better capture")
        attackers, guards = start.attackers(start.turn, man), start.attackers(not start.turn, man)
        self.check_numbers(claim, attackers=len(attackers), guards=len(guards))
        return first

    def _is_better(self, claim: Claim, start: chess.Board, capture: chess.Move) -> bool:
        """Whether the capture is worth more than the claim says. One that wins by force may have a quiet answer, and is
        then worth what that leaves."""
        more = 1 - MATE if claim.mated else claim.gain + 1
        if not self.keeps(start, capture, more):
            return False
        return not (
            self.keeps(start, capture, LEAST_GAIN) and self.is_quietly_refuted(start, capture, min(more, LEAST_GAIN))
        )

    def _check_hanging(self, claim: Claim, start: chess.Board) -> None:
        first = self._capture(claim, start)
        refuted = not claim.mate and self.is_quietly_refuted(start, first, LEAST_GAIN)
        require(not refuted, f"a quiet answer refutes {start.san(first)}")
        man, taker = self.men_of(claim)
        after = start.copy(stack=False)
        after.push(first)
        if start.is_en_passant(first):
            detail = "en_passant"
        elif not start.attackers(not start.turn, man):
            detail = "unguarded"
        elif not captures_on(after, man):
            detail = "guard_pinned"
        elif VALUES[start.piece_type_at(taker)] < VALUES[start.piece_type_at(man)]:
            detail = "cheaper_attacker"
        else:
            detail = "outnumbered"
        require(claim.detail == detail, f"the reason is {detail}")

    def _check_poisoned(self, claim: Claim, start: chess.Board) -> None:
        first = self._capture(claim, start)
        captures = captures_on(start, self.men_of(claim)[0])
        # Where something is lost anyway, a capture that loses less than everything else is no mistake.
        least = 1 - MATE if claim.mated else claim.gain + (1 if claim.gain < 0 else 0)
        others = (move for move in start.legal_moves if move not in captures)
        require(any(self.keeps(start, move, least) for move in others), f"nothing is better than {start.san(first)}")

    def _check_loose(self, claim: Claim, start: chess.Board) -> None:
        (man,) = self.men_of(claim, 1)
        self.check_squares(claim, [man])
        require(start.color_at(man) == (not SIDES[claim.side]), "the man is not the other side's")
        require(start.piece_type_at(man) not in (chess.PAWN, chess.KING), "a pawn or a king")
        for side in chess.COLORS:
            require(not start.attackers(side, man), "the man is guarded or attacked")
        home = chess.square_rank(man) == (0 if start.color_at(man) else 7)
        require(claim.detail == ("at_home" if home else "in_play"), "at home or in play: the other way round")

    # --- duties ------------------------------------------------------------------------------------------------------

    def mating_squares(self, guard: chess.Square, *, removed: bool = True) -> frozenset[chess.Square]:
        """Where the other side could mate at once, with the man on `guard` taken off the board or as it is."""
        without = guard if removed else None
        key = (self.board.color_at(guard), without)
        if key not in self._mating_squares:
            board = self.turn_of(not key[0], without)
            self._mating_squares[key] = frozenset(mate.to_square for mate in mates_at_once(board)) if board else frozenset()
        return self._mating_squares[key]

    def duty_kinds(self, guard: chess.Square, target: chess.Square) -> set[str]:
        """The kinds of duty that the man on `guard` has towards `target`, shown by really removing it."""
        owner = self.board.color_at(guard)
        now, bare = self.turn_of(not owner), self.turn_of(not owner, guard)
        if now is None or bare is None:
            return set()
        kinds = set()
        if bare.color_at(target) == owner and bare.piece_type_at(target) != chess.KING:
            if not self.hangs(owner, target) and self.hangs(owner, target, guard):
                kinds.add(self.relation(guard, target))
        if target in self.mating_squares(guard) and not self.mating_squares(guard, removed=False):
            kinds.add("stops_mate")
        for step in bare.generate_legal_moves(bare.pawns, chess.BB_SQUARES[target] & ~bare.occupied):
            if step.promotion == chess.QUEEN and self.keeps(bare, step, LEAST_GAIN):
                if not (now.is_legal(step) and self.keeps(now, step, LEAST_GAIN)):
                    kinds.add("stops_promotion")
        return kinds

    def relation(self, guard: chess.Square, target: chess.Square) -> str:
        """How the man on `guard` holds the man on `target`, by geometry alone."""
        owner = self.board.color_at(guard)
        seen_through = self.board.copy(stack=False)
        for square in chess.SquareSet(self.board.occupied_co[owner]) - chess.SquareSet([guard, target]):
            if self.board.piece_type_at(square) in SLIDERS:
                seen_through.remove_piece_at(square)
        if target in seen_through.attacks(guard):
            return "guards_man"
        opened = self.board.copy(stack=False)
        opened.remove_piece_at(guard)
        newly = opened.attackers(not owner, target) - self.board.attackers(not owner, target)
        return "blocks_line" if newly else "hinders_attacker"

    def _check_guard_duty(self, claim: Claim, start: chess.Board) -> None:
        men = self.men_of(claim)
        (target,) = map(chess.parse_square, claim.squares)
        require(claim.removed == claim.pieces[0][0], "the removed man is not the guard")
        require(start.turn != self.board.color_at(men[0]), "the guard belongs to the side that profits")
        require(claim.detail in self.duty_kinds(men[0], target), f"no such duty towards {chess.square_name(target)}")
        first = start.parse_uci(claim.line[0])
        if claim.detail in ("stops_mate", "stops_promotion"):
            require(first.to_square == target, "the line does not arrive on the target")
            require(claim.detail == "stops_promotion" or (claim.mate and len(claim.line) == 1), "no mate in one")
            require(claim.detail == "stops_mate" or first.promotion, "no promotion")
        else:
            require(men[1:] == [target], "the second man is not the one that falls")
            require(first in captures_on(start, target), "the line does not take the man that falls")

    def _check_tied(self, claim: Claim, start: chess.Board) -> None:
        (man,) = self.men_of(claim, 1)
        require(start.color_at(man) == start.turn, "the man belongs to the other side")
        require(start.piece_type_at(man) not in (chess.PAWN, chess.KING), "a pawn or a king")
        self._duties(claim, man, 1)
        self.check_least_bad(claim, [man])

    def _duties(self, claim: Claim, man: chess.Square, least: int) -> None:
        require(len(claim.squares) >= least, f"fewer than {least} duties")
        self.check_numbers(claim, duties=len(claim.squares))
        for target in claim.squares:
            require(self.duty_kinds(man, chess.parse_square(target)), f"no duty towards {target}")

    def _check_overloaded(self, claim: Claim, start: chess.Board) -> None:
        man, *men = self.men_of(claim)
        targets = list(map(chess.parse_square, claim.squares))
        require(self.board.color_at(man) == (not start.turn), "the man belongs to the side that profits")
        self._duties(claim, man, 2)
        owned = [target for target in sorted(targets) if self.board.color_at(target) == (not start.turn)]
        require(men == owned[: MOST_PIECES - 1], "the men are not those among the targets")
        first = start.parse_uci(claim.line[0])
        require(first.to_square in targets, "the first move is not to a target")
        # What happens when the man does take: it has left its other duties.
        boards = self.play(start, claim.point)
        require(claim.point[:1] == claim.line[:1] and len(boards) >= 3, "the point does not show the failed duty")
        take = boards[0].parse_uci(claim.point[1])
        require(take.from_square == man and take in captures_on(boards[0], first.to_square), "the man does not take")
        arrivals = {boards[at - 1].parse_uci(claim.point[at]).to_square for at in range(2, len(boards), 2)}
        require(arrivals & set(targets) - {first.to_square}, "no other target is reached in the point")
        won = balance(boards[1], start.turn) - balance(start, start.turn)
        require(self.referee.wins_at_least(boards[1], LEAST_GAIN - won, self.bound), "when the man takes, nothing is won")

    # --- pairs -------------------------------------------------------------------------------------------------------

    def _pair(self, claim: Claim, needed: bool) -> None:
        """What `mutual_guards` and `shield_pair` share: the counts, and what locked means."""
        a, b = self.men_of(claim, 2)
        side = SIDES[claim.side]
        require(self.board.color_at(a) == self.board.color_at(b) == side, "the men are not of the side")
        attackers = self.board.attackers(not side, a) | self.board.attackers(not side, b)
        self.check_numbers(claim, attackers=len(attackers))
        board = self.turn_of(side)
        if claim.detail == "locked":
            require(needed, "not both are needed")
            self.check_least_bad(claim, [a, b])
        if board is None:
            require("moves" not in claim.numbers, "moves are counted where there is no turn")
            return
        moves = [move for move in board.legal_moves if move.from_square in (a, b)]
        kept = [move for move in moves if not self.loses(board, move)]
        self.check_numbers(claim, moves=len(moves), safe_moves=len(kept))
        self.check_squares(claim, (move.to_square for move in kept))
        require(claim.detail == "locked" or not needed or kept or not moves, "the pair is locked")

    def _check_mutual_guards(self, claim: Claim, start: chess.Board) -> None:
        a, b = self.men_of(claim, 2)
        side = SIDES[claim.side]
        require(chess.KING not in (start.piece_type_at(a), start.piece_type_at(b)), "a king guards anyway")
        require(b in self.board.attacks(a) and a in self.board.attacks(b), "they do not guard each other")
        attacked = self.board.attackers(not side, a) | self.board.attackers(not side, b)
        only = all(
            self.board.attackers(side, man) == chess.SquareSet([other]) and self.board.piece_type_at(man) != chess.PAWN
            for man, other in ((a, b), (b, a))
        )
        needed = all(self.hangs(side, x, y) and not self.hangs(side, x) for x, y in ((a, b), (b, a)))
        require(claim.detail != "only_each_other" or (not attacked and only), "attacked, or guarded otherwise")
        require(claim.detail == "only_each_other" or attacked, "not attacked")
        self._pair(claim, needed)

    def _check_shield_pair(self, claim: Claim, start: chess.Board) -> None:
        guard, shield = self.men_of(claim, 2)
        require("guards_man" in self.duty_kinds(guard, shield), "the first does not have to guard the second")
        require("blocks_line" in self.duty_kinds(shield, guard), "the second does not have to shield the first")
        require(claim.detail in ("locked", "pressured"), "neither locked nor pressured")
        self._pair(claim, needed=True)
