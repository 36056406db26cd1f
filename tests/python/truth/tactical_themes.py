"""Checks of the themes that are about what one move does: forks, double attacks, guards that can be removed, trapped
pieces, promotions and intermediate moves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

import chess

from .calculations import MATE, VALUES, balance, captured_kind, captures_on, exchange_at_least, gain_of_move
from .claim import Claim
from .counted_themes import NAMES
from .every_reply import turned
from .forcing import mates_at_once
from .foundation import LEAST_GAIN, MOST_PIECES, SIDES, require
from .geometry import WORTH, attacks_anew, threatened_by
from .line_themes import LineThemes
from .mate_themes import MateThemes

Fork = tuple[chess.Move, list[chess.Square]]


class TacticalThemes(MateThemes, LineThemes):
    # --- forks and double attacks ------------------------------------------------------------------------------------

    @cached_property
    def threats(self) -> dict[chess.Color, list[Fork]]:
        """The moves of each side, promotions to rook and bishop apart, with what the man that moved threatens."""
        return {
            side: [
                (move, threatened_by(after, move.to_square))
                for move, after in self.plays[side]
                if move.promotion not in (chess.ROOK, chess.BISHOP)
            ]
            for side in chess.COLORS
        }

    def forks(self, side: chess.Color) -> list[Fork]:
        return [(move, targets) for move, targets in self.threats[side] if len(targets) > 1]

    def _check_targets(self, claim: Claim, move: chess.Move, targets: list[chess.Square]) -> None:
        """The men and squares of a fork: what moves, what it threatens, the most valuable first, and where it goes."""
        in_order = sorted(targets, key=lambda target: (-WORTH[self.board.piece_type_at(target)], target))
        require(self.men_of(claim) == [move.from_square, *in_order][:MOST_PIECES], "not the man and what it threatens")
        self.check_squares(claim, [move.to_square, *targets])
        self.check_numbers(claim, targets=len(targets))

    def _worth(self, targets: Iterable[chess.Square]) -> int:
        """The men's values together, in which the king counts nothing."""
        return sum(VALUES[self.board.piece_type_at(target)] for target in targets)

    def _check_fork(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        require(bool(claim.line) != bool(claim.point), "a point beside the line")
        move, _ = self.first_move(claim)
        forks = dict(self.forks(side))
        require(move in forks, "the man that moves does not threaten two men")
        self._check_targets(claim, move, forks[move])
        if start.gives_check(move):
            detail = "with_check"
        else:
            detail = "quiet" if captured_kind(start, move) is None else "with_capture"
        require(claim.detail == detail, f"it comes {detail}")
        if claim.line:
            require(not claim.mate and not self.takes_only(claim), "the move wins no more than it takes")
            return
        self.check_idle(claim)
        require(self.is_idle(side, move), "the move is not safe, takes something or mates")
        for other, targets in forks.items():
            if self._worth(targets) > self._worth(forks[move]):
                require(not self.is_idle(side, other), f"{start.san(other)} forks more")

    def _omitted_forks(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        if len(claims) > 1:
            yield "more than one fork"
        moves = [move for move, _ in self.forks(side)]
        best = claims[0] if claims else None
        yield from self.better_moves(side, moves, best, more_than_taken=True, mates_count=False)
        if not claims and any(self.is_idle(side, move) for move in moves):
            yield "a safe fork"

    def double_attacks(self, side: chess.Color) -> list[Fork]:
        start = self.turns[side]
        after = dict(self.plays[side])
        return [
            (move, targets)
            for move, targets in self.threats[side]
            if len(targets) == 1
            and not move.promotion
            and captured_kind(start, move) is None
            and not after[move].is_check()
            and mates_at_once(turned(after[move]))
        ]

    def _check_double_attack(self, claim: Claim, start: chess.Board) -> None:
        move, _ = self.first_move(claim)
        attacks = dict(self.double_attacks(SIDES[claim.side]))
        require(move in attacks, "not a quiet move that threatens mate and one man")
        require(claim.line and not claim.mate and not claim.point, "it has to win something less than mate")
        require(claim.detail == "none", "a detail")
        self._check_targets(claim, move, attacks[move])

    def _omitted_double_attacks(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        if len(claims) > 1:
            yield "more than one double attack"
        moves = [move for move, _ in self.double_attacks(side)]
        yield from self.better_moves(side, moves, claims[0] if claims else None, mates_count=False)

    # --- guards that can be removed ----------------------------------------------------------------------------------

    def guarded_by(self, guard: chess.Square) -> list[chess.Square]:
        """The squares of the men, the king apart, that the man guards."""
        guarded = self.board.attacks(guard) & self.board.occupied_co[self.board.color_at(guard)]
        return [square for square in guarded if self.board.piece_type_at(square) != chess.KING]

    def _check_removable_guard(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        guard = self.men_of(claim)[0]
        require(self.board.color_at(guard) == (not side), "the guard is not the other side's")
        require(self.board.piece_type_at(guard) != chess.KING, "a king")
        require(claim.line or claim.point, "no move is shown")
        if not claim.line:
            self._check_idle_guard(claim, guard)
            return
        move, after = self.first_move(claim)
        if claim.detail == "by_capture":
            targets = self._check_capture_of_guard(claim, start, guard, move, after)
        else:
            targets = self._check_removal(claim, start, guard, move, after)
        self.check_squares(claim, [*targets, move.to_square])
        self.check_numbers(claim, targets=len(targets))
        men = [target for target in sorted(targets) if self.board.color_at(target) == (not side)]
        require(self.men_of(claim)[1:] == men[: MOST_PIECES - 1], "not the men among the targets")

    def _check_capture_of_guard(
        self, claim: Claim, start: chess.Board, guard: chess.Square, move: chess.Move, after: chess.Board
    ) -> list[chess.Square]:
        require(move in captures_on(start, guard), "the guard is not taken")
        require(not exchange_at_least(start, guard, LEAST_GAIN), "the guard hangs")
        require(not claim.point, "a point beside the line")
        again = turned(after)
        targets = [man for man in self.guarded_by(guard) if exchange_at_least(again, man, LEAST_GAIN)]
        require(targets, "nothing that it guarded falls")
        return targets

    def _check_removal(
        self, claim: Claim, start: chess.Board, guard: chess.Square, move: chess.Move, after: chess.Board
    ) -> list[chess.Square]:
        require(move.to_square != guard, "the guard is taken")
        lured = claim.detail == "by_luring"
        require(lured or not self.takes_only(claim), "the move wins no more than it takes")
        # The square of arrival is always named, and is a target only where the number says so.
        targets = sorted(map(chess.parse_square, claim.squares))
        if len(targets) != claim.numbers.get("targets"):
            targets = [target for target in targets if target != move.to_square]
        require(targets, "no target")
        for target in targets:
            require(self.duty_kinds(guard, target), f"no duty towards {chess.square_name(target)}")
        blocked = self._blocks(guard, move, after, targets)
        require(blocked == (claim.detail == "by_blocking"), "cut off or not: the other way round")
        require(bool(claim.point) == lured, "a point shows a lure, and only that")
        if lured:
            require(captured_kind(start, move) is not None or after.is_check(), "a lure takes something or gives check")
            self._check_lured(claim, guard, targets)
        elif not blocked:
            require(claim.detail == "by_driving_off", "removed by nothing")
            require(not exchange_at_least(start, guard, LEAST_GAIN), "the guard hangs")
            require(guard in threatened_by(after, move.to_square), "the guard is not threatened")
        return targets

    def _check_lured(self, claim: Claim, guard: chess.Square, targets: list[chess.Square]) -> None:
        start = self.turns[SIDES[claim.side]]
        boards = self.play(start, claim.point)
        require(claim.point[0] == claim.line[0] and len(boards) >= 3, "the point does not show the failed duty")
        arrived = chess.parse_square(claim.line[0][2:4])
        take = boards[0].parse_uci(claim.point[1])
        require(take.from_square == guard and take in captures_on(boards[0], arrived), "the man does not take")
        arrivals = {chess.parse_square(text[2:4]) for text in claim.point[2::2]}
        require(arrivals & set(targets) - {arrived}, "no other target is reached in the point")
        won = balance(boards[1], start.turn) - balance(start, start.turn)
        wins = self.referee.wins_at_least(boards[1], LEAST_GAIN - won, self.bound)
        require(wins, "when the man takes, nothing is won")

    def _blocks(self, guard: chess.Square, move: chess.Move, after: chess.Board, targets: list[chess.Square]) -> bool:
        seen = self.board.attacks(guard)
        return any(
            move.to_square in chess.SquareSet.between(guard, target)
            and target in seen
            and exchange_at_least(turned(after), target, LEAST_GAIN)
            for target in targets
        )

    def idle_guards(self, side: chess.Color) -> Iterator[tuple[chess.Square, chess.Square]]:
        """The men that the side attacks, with their only guards, which may be taken and do not hang."""
        start = self.turns[side]
        for target in chess.SquareSet(self.board.occupied_co[not side]):
            guards = self.board.attackers(not side, target)
            if self.board.piece_type_at(target) == chess.KING or len(guards) != 1:
                continue
            (guard,) = guards
            if self.board.piece_type_at(guard) == chess.KING or not self.board.attackers(side, target):
                continue
            if captures_on(start, guard) and not exchange_at_least(start, guard, LEAST_GAIN):
                yield target, guard

    def _check_idle_guard(self, claim: Claim, guard: chess.Square) -> None:
        side = SIDES[claim.side]
        start = self.turns[side]
        require(claim.detail == "by_capture", "a guard is removed in vain only by a capture")
        self.check_idle(claim)
        _, target = self.men_of(claim, 2)
        idle = list(self.idle_guards(side))
        require((target, guard) in idle, "no only guard that may be taken and does not hang")
        best, _ = max(idle, key=lambda pair: (VALUES[self.board.piece_type_at(pair[0])], -pair[0]))
        require(best == target, f"the man on {chess.square_name(best)} comes first")
        self.check_squares(claim, [target, guard])
        self.check_numbers(claim, targets=1)
        captures = captures_on(start, guard)
        move = start.parse_uci(claim.point[0])
        require(move in captures, "the point does not take the guard")
        worth = [WORTH[start.piece_type_at(capture.from_square)] for capture in captures]
        require(WORTH[start.piece_type_at(move.from_square)] == min(worth), "not the cheapest capture")

    def _omitted_removable_guards(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        guards = [claim.pieces[0] for claim in claims]
        if len(set(guards)) < len(guards):
            yield "a guard named twice"
        if len(claims) > 1 and any(not claim.line for claim in claims):
            yield "an idle one beside another"
        if not claims and self.turns[side] and any(self.idle_guards(side)):
            yield "an only guard"

    # --- trapped pieces ----------------------------------------------------------------------------------------------

    @staticmethod
    def escapes(board: chess.Board, piece: chess.Square) -> tuple[bool, set[chess.Square]]:
        """Whether the piece, whose side is to move, is lost wherever it goes, and where that is."""
        moves = list(board.generate_legal_moves(chess.BB_SQUARES[piece]))
        moves = [move for move in moves if not board.is_castling(move)]
        lost = True
        for move in moves:
            least = gain_of_move(board, move) + LEAST_GAIN
            board.push(move)
            lost = lost and exchange_at_least(board, move.to_square, least)
            board.pop()
        return lost, {move.to_square for move in moves}

    def traps(self, side: chess.Color, piece: chess.Square) -> list[chess.Move]:
        """The moves of the side that attack the piece, which does not fall now, so that it is trapped."""
        if exchange_at_least(self.turns[side], piece, LEAST_GAIN):
            return []
        return [
            move
            for move, after in self.plays[side]
            if move.to_square != piece
            and attacks_anew(self.turns[side], move, after, piece)
            and not after.is_check()
            and exchange_at_least(turned(after), piece, LEAST_GAIN)
            and self.escapes(after, piece)[0]
        ]

    def _check_trapped_piece(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        piece, attacker = self.men_of(claim, 2)
        require(claim.line and not claim.mate and not claim.point, "it has to win something less than mate")
        require(self.board.color_at(piece) == (not side), "the piece is not the other side's")
        require(self.board.piece_type_at(piece) not in (chess.PAWN, chess.KING), "a pawn or a king")
        move, after = self.first_move(claim)
        require(move.from_square == attacker, "another man moves")
        if claim.detail == "attackable":
            require(move in self.traps(side, piece), "the move does not trap it")
            _, escapes = self.escapes(after, piece)
        else:
            require(claim.detail == "attacked_already", "attacked now, or with a move")
            lost, escapes = self.escapes(self.board.copy(stack=False), piece)
            require(claim.after_pass, "the piece can be taken already")
            require(lost, "the piece has a safe move")
            require(self.best(not side) <= -LEAST_GAIN, "the other side has a move that loses nothing")
            self._check_best_capture(claim, start, piece, move)
        self.check_squares(claim, escapes)
        self.check_numbers(claim, moves=len(escapes))

    def _check_best_capture(self, claim: Claim, start: chess.Board, piece: chess.Square, move: chess.Move) -> None:
        """The piece hangs, and the line shows the best capture of it."""
        captures = captures_on(start, piece)
        require(move in captures, "the line does not take it")
        require(exchange_at_least(start, piece, LEAST_GAIN), "the exchange on its square wins nothing")
        require(not self.is_quietly_refuted(start, move, LEAST_GAIN), f"a quiet answer refutes {start.san(move)}")
        for capture in captures:
            require(not self._is_better(claim, start, capture), f"{start.san(capture)} is the better capture")

    def _omitted_trapped_pieces(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        kinds = (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN)
        pieces = [square for kind in kinds for square in self.board.pieces(kind, not side)] if self.turns[side] else []
        for piece in pieces:
            said = [claim for claim in claims if self.men_of(claim)[0] == piece]
            best = said[0] if said else None
            if len(said) > 1:
                yield f"the piece on {chess.square_name(piece)} is named twice"
            if best is None or best.detail == "attackable":
                yield from self.better_moves(side, self.traps(side, piece), best, mates_count=False)

    # --- promotions --------------------------------------------------------------------------------------------------

    def _check_promotion_threat(self, claim: Claim, start: chess.Board) -> None:
        (pawn,) = self.men_of(claim, 1)
        require(start.piece_at(pawn) == chess.Piece(chess.PAWN, start.turn), "no pawn of the side")
        require(chess.square_rank(pawn) in ((5, 6) if start.turn else (1, 2)), "not on its sixth or seventh rank")
        require(claim.line and not claim.point and claim.detail == "none", "it has to win")
        require(self.first_move(claim)[0].from_square == pawn, "another man moves")
        at, steps, promoted = pawn, 0, False
        for number, text in enumerate(claim.line):
            from_square, to_square = chess.parse_square(text[:2]), chess.parse_square(text[2:4])
            if number % 2 == 0 and from_square == at:
                at, steps, promoted = to_square, steps + 1, len(text) > 4
                if promoted:
                    break
            require(number % 2 == 0 or to_square != at, "the pawn is taken")
        require(promoted, "the pawn does not promote in the line")
        self.check_squares(claim, [chess.parse_square(claim.line[0][2:4]), at])
        self.check_numbers(claim, moves_to_go=steps)

    # --- intermediate moves ------------------------------------------------------------------------------------------

    def capture_worth(self, start: chess.Board, square: chess.Square) -> int:
        """What the best capture of a hanging man wins by what follows, quiet answers to it included.

        0 where the man does not hang, `MATE` where the capture mates by force.
        """
        if not exchange_at_least(start, square, LEAST_GAIN):
            return 0
        worth = 0
        for capture in captures_on(start, square):
            if self.keeps(start, capture, MATE):
                return MATE
            if self.keeps(start, capture, worth + 1) and not self.is_quietly_refuted(start, capture, LEAST_GAIN):
                while self.keeps(start, capture, worth + 1):
                    worth += 1
        return worth

    def _check_intermediate_move(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        man, taken = self.men_of(claim, 2)
        require(claim.line and not claim.mate and not claim.point and claim.detail == "none", "it has to win, not mate")
        move, _ = self.first_move(claim)
        require(move.from_square == man, "another man moves")
        require(start.color_at(taken) == (not side), "the man is not the other side's")
        at_once = self.capture_worth(start, taken)
        require(0 < at_once < MATE, "the man that is taken later does not hang now")
        require(move.to_square != taken, "the first move is the capture itself")
        forcing = start.gives_check(move) or captured_kind(start, move) is not None or move.promotion
        require(forcing, "neither check nor capture nor promotion")
        self.check_numbers(claim, at_once=at_once)
        require(claim.gain >= at_once + LEAST_GAIN, "it wins no more than the capture at once")
        self.check_squares(claim, [man, move.to_square, taken])
        boards = self.play(start, claim.line)
        for number, text in enumerate(claim.line):
            if number % 2 == 1:
                require(chess.parse_square(text[:2]) != taken, "the man has moved when it is taken")
            elif number > 0 and boards[number - 1].parse_uci(text) in captures_on(boards[number - 1], taken):
                return
        require(False, "the man is not taken later")

    # --- completeness ------------------------------------------------------------------------------------------------

    def omissions(self, claims: Iterable[Claim]) -> list[str]:
        claims = list(claims)
        omitted = super().omissions(claims)
        searches = {
            "fork": self._omitted_forks,
            "double_attack": self._omitted_double_attacks,
            "removable_guard": self._omitted_removable_guards,
            "trapped_piece": self._omitted_trapped_pieces,
        }
        for side in chess.COLORS:
            for theme, search in searches.items():
                said = [claim for claim in claims if claim.theme == theme and SIDES[claim.side] == side]
                omitted += [f"{theme} for {NAMES[side]} left out: {text}" for text in search(side, said)]
        return omitted
