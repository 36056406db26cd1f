"""What a move wins against every legal reply, quiet ones included, as `tactics/every_reply.hpp` defines it, and when a
move "wins" for the tactical themes, as `features/winning_moves.hpp` defines it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

import chess

from .calculations import MATE, captured_kind, gain_of_move
from .claim import Claim
from .foundation import LEAST_GAIN, SIDES, Foundation, hand_over, require

THEMES = {
    *("pin", "skewer", "fork", "double_attack", "discovered_attack", "removable_guard", "trapped_piece"),
    *("promotion_threat", "intermediate_move"),
}
"""The themes whose gain is what a move wins against every reply."""
GAINED_ANYWAY = {"promotion_threat"}
"""Those of them that count what is gained even if it is gained anyway."""


def turned(board: chess.Board) -> chess.Board:
    """The position with the move handed back."""
    board = board.copy(stack=False)
    hand_over(board)
    return board


class EveryReply(Foundation):
    def __init__(self, *args, **options) -> None:
        super().__init__(*args, **options)
        # Side, move and what it has to win -> (largest threshold known to be won, smallest known not to be).
        self._won: dict[tuple[chess.Color, chess.Move, int], tuple[int, int]] = {}
        self._refuters: dict[tuple[chess.Color, chess.Move], chess.Move] = {}
        self._least: dict[chess.Color, int] = {}

    @cached_property
    def turns(self) -> dict[chess.Color, chess.Board | None]:
        return {side: self.turn_of(side) for side in chess.COLORS}

    @cached_property
    def plays(self) -> dict[chess.Color, list[tuple[chess.Move, chess.Board]]]:
        """The legal moves of each side, castling apart, with the positions after them; none where it has no turn."""
        plays: dict[chess.Color, list[tuple[chess.Move, chess.Board]]] = {}
        for side, board in self.turns.items():
            plays[side] = []
            for move in board.legal_moves if board else ():
                if not board.is_castling(move):
                    plays[side].append((move, board.copy(stack=False)))
                    plays[side][-1][1].push(move)
        return plays

    # --- the value of a move -----------------------------------------------------------------------------------------

    def holds_down(self, board: chess.Board, reply: chess.Move, least: int, wanted: int, checks: int) -> bool:
        """Whether the mover's `reply` keeps at most `wanted`.

        One that keeps more than `least` and gives check is looked at again when `checks` is not 0: any legal answer to
        it may be followed by a reply to that.
        """
        if not self.keeps(board, reply, wanted + 1):
            return True
        if not checks or not board.gives_check(reply) or not self.keeps(board, reply, least + 1):
            return False
        won = gain_of_move(board, reply)
        checked = board.copy(stack=False)
        checked.push(reply)
        for answer in list(checked.legal_moves):
            taken = gain_of_move(checked, answer)
            answered = checked.copy(stack=False)
            answered.push(answer)
            if self.all_held_down(answered, wanted - won + taken, checks - 1):
                return True
        return False

    def all_held_down(self, board: chess.Board, wanted: int, checks: int = 0) -> bool:
        """Whether there is a legal reply, and every one keeps at most `wanted`."""
        replies = list(board.legal_moves)
        return bool(replies) and all(self.holds_down(board, reply, wanted, wanted, checks) for reply in replies)

    def least(self, side: chess.Color) -> int:
        """What a move has to win at least: more than the side gains anyway, because the other side loses something with
        each of its moves."""
        if side not in self._least:
            anyway = -self.best(not side) if self.turns[not side] else 0
            self._least[side] = anyway + LEAST_GAIN
        return self._least[side]

    def carries_a_threat(self, side: chess.Color, move: chess.Move, least: int) -> bool:
        """Whether the move takes enough by itself, gives check, or threatens to win enough."""
        start = self.turns[side]
        won = gain_of_move(start, move)
        if won >= least or start.gives_check(move):
            return True
        after = start.copy(stack=False)
        after.push(move)
        hand_over(after)
        return self.referee.wins_at_least(after, least - won, self.bound)

    def wins(self, side: chess.Color, move: chess.Move, threshold: int, shown: str | None = None) -> bool:
        """Whether the move wins at least `threshold`, which is not less than `least(side)`; `MATE` asks for mate.

        `shown` is a reply that is tried first, which changes the work, not the answer.
        """
        least = self.least(side)
        return self.carries_a_threat(side, move, least) and self.gains(side, move, threshold, least, shown)

    def gains(
        self, side: chess.Color, move: chess.Move, threshold: int, least: int, shown: str | None = None
    ) -> bool:
        """The same for a move that has to win `least`, which `threshold` is not less than, with or without a threat."""
        reached, missed = self._won.get((side, move, least), (-2 * MATE, 2 * MATE))
        if reached < threshold < missed:
            if self._search_replies(side, move, threshold, least, shown):
                reached = threshold
            else:
                missed = threshold
            self._won[side, move, least] = reached, missed
        return threshold <= reached

    def _search_replies(
        self, side: chess.Color, move: chess.Move, threshold: int, least: int, shown: str | None
    ) -> bool:
        start = self.turns[side]
        won = gain_of_move(start, move)
        after = start.copy(stack=False)
        after.push(move)
        if after.is_checkmate():
            return True
        replies = list(after.legal_moves)
        first = self._refuters.get((side, move))
        threatened = after.attacks(move.to_square)

        def turn_of(reply: chess.Move) -> int:
            if reply == first or reply.uci() == shown:
                return 0
            if reply.to_square == move.to_square or after.is_capture(reply):
                return 1
            return 2 if reply.from_square in threatened or after.gives_check(reply) else 3

        replies.sort(key=turn_of)
        most = -MATE if threshold >= MATE else won - threshold
        for reply in replies:
            if not self.holds_down(after, reply, won - least, most, 1):
                self._refuters[side, move] = reply
                return False
        return bool(replies)

    # --- claims ------------------------------------------------------------------------------------------------------

    def _check_promise(self, claim: Claim, boards: list[chess.Board], gained: list[int]) -> None:
        if claim.theme in THEMES and claim.detail != "attacked_already":
            self._check_win(claim, boards, gained)
        else:
            super()._check_promise(claim, boards, gained)

    def _check_win(self, claim: Claim, boards: list[chess.Board], gained: list[int]) -> None:
        """The first move wins what is claimed, not less and not more, and its side throws nothing away later."""
        side = SIDES[claim.side]
        start = self.turns[side]
        move = start.parse_uci(claim.line[0])
        shown = claim.line[1] if len(claim.line) > 1 else None
        enough = MATE if claim.mate else claim.gain
        least = LEAST_GAIN if claim.theme in GAINED_ANYWAY else self.least(side)
        require(claim.mate or enough >= least, f"{claim.gain} is no more than the side gains anyway")
        threat = claim.theme in GAINED_ANYWAY or self.carries_a_threat(side, move, least)
        require(threat, f"{start.san(move)} carries no threat")
        require(self.gains(side, move, enough, least, shown), "a legal reply leaves less than the claim says")
        more = not claim.mate and self.gains(side, move, enough + 1, least, shown)
        require(not more, "the move wins more than the claim says")
        if shown is None:
            require(boards[0].is_checkmate(), "no reply is shown")
            return
        # The bound counts from the position after the reply, which is the second one where a check is answered first.
        reply = boards[0].parse_uci(shown)
        answered = self.keeps(boards[0], reply, 1 - MATE if claim.mate else gained[0] - enough + 1)
        counts_from = 3 if answered else 1
        if answered:
            require(len(boards) > 2, "the check is not answered")
            most = -MATE if claim.mate else gained[2] - enough
            require(self.all_held_down(boards[2], most), "the answer to the check leaves less than the claim says")
        for at in range(counts_from + 1, len(boards), 2):
            bound = self.bound.after(at - counts_from)
            refuted = self.referee.wins_at_least(boards[at], gained[at] - enough + 1, bound)
            require(not refuted, f"after {' '.join(claim.line[: at + 1])} the other side has a better reply")

    def first_move(self, claim: Claim) -> tuple[chess.Move, chess.Board]:
        """The move that the claim is about, the first of its line or its point, and the position after it."""
        start = self.turns[SIDES[claim.side]]
        texts = claim.line or claim.point
        require(start is not None and texts, "no move is shown")
        require(claim.removed is None, "a counterfactual")
        move = start.parse_uci(texts[0])
        require(not start.is_castling(move), "castling")
        after = start.copy(stack=False)
        after.push(move)
        return move, after

    def takes_only(self, claim: Claim) -> bool:
        """Whether the claim gains no more than its first move takes."""
        start = self.turns[SIDES[claim.side]]
        return not claim.mate and claim.gain <= gain_of_move(start, start.parse_uci(claim.line[0]))

    def check_idle(self, claim: Claim) -> None:
        """A claim that wins nothing shows its move, if any, as a point of one move, and needs no pass without it."""
        require(not claim.line and not claim.gain and not claim.mate, "not idle")
        require(claim.removed is None, "a counterfactual")
        if not claim.point:
            require(not claim.after_pass, "a pass without a move")
        require(len(claim.point) <= 1, "the point shows more than the move")

    def is_idle(self, side: chess.Color, move: chess.Move) -> bool:
        """Whether the move is safe, takes and promotes nothing and forces no mate: it may be shown for its idea."""
        start = self.turns[side]
        if captured_kind(start, move) is not None or move.promotion:
            return False
        return self.is_safe(start, move) and not self.wins(side, move, MATE)

    def better_moves(
        self,
        side: chess.Color,
        moves: Iterable[chess.Move],
        claim: Claim | None,
        *,
        more_than_taken: bool = False,
        mates_count: bool = True,
    ) -> list[str]:
        """Those of the moves that win more than the claim, or, where there is no claim of a gain, that win."""
        start = self.turns[side]
        better: list[str] = []
        if claim is not None and claim.mate:
            return better
        for move in moves:
            if not self.carries_a_threat(side, move, LEAST_GAIN):
                continue  # nor one of what it has to win, which takes longer to find out
            least = self.least(side)
            if claim is not None and claim.line:
                least = max(least, claim.gain + 1)
            if more_than_taken:
                least = max(least, gain_of_move(start, move) + 1)
            if self.wins(side, move, least) and (mates_count or not self.wins(side, move, MATE)):
                better.append(start.san(move))
        return better
