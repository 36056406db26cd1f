"""Candidates and the searched facts about moves, held against their definitions in `thinking/move_studies.hpp`."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

import chess
import keysquare as ks

from .calculations import MATE, balance, captured_kind, gain_of_move
from .foundation import LEAST_GAIN, require
from .thinking_threats import ThreatVerifier, played, taken_on, takes, turned

MOST = 9
MOST_LOST = -60
SEARCHED = ("mates", "wins", "meets_threat", "costs", "threatens_mate", "threatens", "trades", "parries", "allows")


class CandidateVerifier(ThreatVerifier):
    """One position: what all of its moves win, keep and threaten, worked out again."""

    def __init__(self, position: ks.Position) -> None:
        super().__init__(position.fen)
        self.position = position
        self.moves = list(self.board.legal_moves)
        self._searched: dict[chess.Move, dict[str, int]] = {}
        self._allows: dict[chess.Move, bool] = {}

    @cached_property
    def now(self) -> int:
        return self.at_once(self.board)

    @cached_property
    def kept(self) -> dict[chess.Move, int]:
        return {move: self.kept_by(move) for move in self.moves}

    @cached_property
    def best(self) -> int:  # type: ignore[override]
        return min(0, max(self.kept.values(), default=0))

    @cached_property
    def standing(self) -> int:
        return 0 if self.board.is_check() else -self.at_once(turned(self.board))

    @cached_property
    def won(self) -> dict[chess.Move, int | None]:
        return {move: self.gain(self.board, move) for move in self.moves}

    @cached_property
    def threat(self) -> ks.Threat | None:
        threats = ks.threats(self.position)  # a verifier of their own looks at these
        return threats[0] if threats else None

    def kept_by(self, move: chess.Move) -> int:
        """`value_of_move`; `MATE` for a mate, `-MATE` for being mated."""
        if self.keeps(self.board, move, MATE):
            return MATE
        if not self.keeps(self.board, move, MOST_LOST):
            return -MATE
        kept = 0
        while self.keeps(self.board, move, kept + 1):
            kept += 1
        while not self.keeps(self.board, move, kept):
            kept -= 1
        return kept

    def threatened(self, move: chess.Move) -> int:
        """What would follow if the other side passed: 0, or a mate, or more than falls at once."""
        moved = played(self.board, move)
        if moved.is_check() or self.now >= MATE:
            return 0
        threat = self.at_once(turned(moved))
        return threat if threat >= MATE or threat > self.now else 0

    def parries(self, move: chess.Move) -> bool:
        """Whether the strongest threat of the other side does not work any more."""
        if self.threat is None:
            return False
        handed_over = turned(self.board)
        first = handed_over.parse_uci(str(self.threat.line[0]))
        man = taken_on(handed_over, first) if captured_kind(handed_over, first) else None
        return not self.is_on(played(self.board, move), move, first, man, self.threat.mate)

    def enough(self, move: chess.Move) -> int:
        """What a reply has to win so that the move allows something."""
        return LEAST_GAIN + gain_of_move(self.board, move)

    def allowed(self, move: chess.Move) -> int:
        """What the best reply wins."""
        moved = played(self.board, move)
        return max(self.gain(moved, reply) or 0 for reply in list(moved.legal_moves))

    def allows(self, move: chess.Move) -> bool:
        if move not in self._allows:
            reply_wins = self.won[move] is None and self.any_wins(played(self.board, move), self.enough(move))
            self._allows[move] = reply_wins
        return self._allows[move]

    def loses(self, board: chess.Board, move: chess.Move) -> bool:
        return self.won[move] is None and self.kept[move] < min(self.best, self.standing)

    def searched(self, move: chess.Move) -> dict[str, int]:
        """The searched facts about a move, those that are not 0."""
        if move not in self._searched:
            self._searched[move] = self._search_facts(move)
        return self._searched[move]

    def _search_facts(self, move: chess.Move) -> dict[str, int]:
        won, kept, threat = self.won[move], min(0, self.kept[move]), self.threatened(move)
        facts = {
            "mates": int(won == MATE),
            "wins": won if won is not None and won < MATE else 0,
            "meets_threat": min(MOST, max(0, kept - self.standing)),
            "costs": 0 if won is not None else min(MOST, max(0, self.best - kept)),
            "threatens_mate": int(threat >= MATE),
            "threatens": threat - self.now if 0 < threat < MATE and won is None else 0,
            "trades": int(won is None and self.kept[move] == 0 and takes(self.board, move)),
            "parries": int(self.parries(move)),
            "allows": int(self.allows(move)),
        }
        return {fact: amount for fact, amount in facts.items() if amount}

    def all_lose(self) -> bool:
        return all(self.loses(self.board, move) for move in self.moves)

    # --- what is said ------------------------------------------------------------------------------------------------

    def check_facts(self) -> None:
        found = ks.move_facts(self.position)
        require([str(one.move) for one in found] == [str(move) for move in self.position.moves()], "not all moves")
        for one in found:
            move = self.board.parse_uci(str(one.move))
            said = {reason.fact: reason.amount for reason in one.facts if reason.fact in SEARCHED}
            require(said == self.searched(move), f"{move}: {said}, and not {self.searched(move)}")
            require(one.loses == self.loses(self.board, move), f"{move} loses: {one.loses}")

    def check_outcome(self, start: chess.Board, outcome: ks.Outcome, worth: int) -> None:
        boards = self.play(start, [str(move) for move in outcome.line])
        gained = balance(boards[-1], start.turn) - balance(start, start.turn)
        require(gained == outcome.gain, f"the line wins {gained}, not {outcome.gain}")
        mated = boards[-1].is_checkmate()
        require(outcome.mate == (mated and boards[-1].turn != start.turn), "mate is not what the line ends with")
        said = MATE if outcome.mate else -MATE if outcome.mated else outcome.gain
        require(said == worth, f"{said} is said, and it is {worth}")

    def check_candidates(self, candidates: ks.Candidates) -> None:
        facts = {str(one.move): one for one in ks.move_facts(self.position)}
        for candidate in candidates:
            move = self.board.parse_uci(str(candidate.move))
            won = self.won[move]
            require((candidate.won is None) == (won is None), f"{move} wins {won}")
            if candidate.won is not None and won is not None:
                self.check_outcome(self.board, candidate.won, won)
            self.check_outcome(self.board, candidate.kept, self.kept[move])
            threat = self.threatened(move)
            require((candidate.threat is None) == (threat == 0), f"{move} threatens {threat}")
            if candidate.threat is not None:
                self.check_outcome(turned(played(self.board, move)), candidate.threat, threat)
            require(not self.loses(self.board, move) or self.all_lose(), f"{move} loses material")
            require(candidate.parried == (self.threat if self.parries(move) else None), f"{move} parries")
            require((candidate.allowed is not None) == self.allows(move), f"{move} allows {candidate.allowed}")
            if candidate.allowed is not None:
                self.check_outcome(played(self.board, move), candidate.allowed, self.allowed(move))
            require(candidate.reasons, f"nothing speaks for {move}")
            all_facts = facts[str(move)].facts
            require(all(reason in all_facts for reason in candidate.reasons + candidate.drawbacks), "an unknown reason")

    def lies(self) -> Iterator[str]:
        for check in (self.check_facts, lambda: self.check_candidates(ks.candidates(self.position))):
            try:
                check()
            except Exception as lie:  # noqa: BLE001  (a program error is a violation, too)
                yield f"{self.position.fen}: {type(lie).__name__}: {lie}"
