"""Threats, parries and answers, held against their definitions in `thinking/`: every line that is shown, every move that is
said to parry, and every move that is not."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence

import chess
import keysquare as ks

from .calculations import MATE, balance, captured_kind, captures_on, gain_of_move
from .foundation import LEAST_GAIN, SIDES, Foundation, Lie, hand_over, is_quiet, played, require, turned


def takes(board: chess.Board, move: chess.Move) -> bool:
    return bool(move.promotion or captured_kind(board, move))


def taken_on(board: chess.Board, move: chess.Move) -> chess.Square:
    """The square of the man that a capture takes."""
    return move.to_square ^ 8 if board.is_en_passant(move) else move.to_square


class Gains(Foundation):
    """What moves win, as `thinking/move_wins.hpp` and `tactics/every_reply.hpp` define it."""

    def at_once(self, board: chess.Board) -> int:
        """What `resolve` wins for the mover, at least 0."""
        wins = self.referee.wins_at_least
        if wins(board, MATE, self.bound):
            return MATE
        gain = 0
        while wins(board, gain + 1, self.bound):
            gain += 1
        return gain

    def again(self, board: chess.Board, move: chess.Move, threshold: int) -> bool:
        """Whether the mover, after a move without check, would win that much if it could move again."""
        return threshold <= 0 or self.referee.wins_at_least(turned(played(board, move)), threshold, self.bound)

    def presses(self, board: chess.Board, move: chess.Move, more: int) -> bool:
        if board.gives_check(move):
            return True
        if takes(board, move):
            return self.again(board, move, more - gain_of_move(board, move))
        if not self.again(board, move, more):
            return False
        at_once = self.at_once(board)
        return at_once < MATE and self.again(board, move, max(more, at_once + 1))

    def threatens(self, board: chess.Board, move: chess.Move, least: int) -> bool:
        if board.gives_check(move):
            return True
        at_once = self.at_once(board)
        return at_once < MATE and self.again(board, move, max(least, at_once + 1))

    # --- every reply -------------------------------------------------------------------------------------------------

    def holds_down(self, board: chess.Board, reply: chess.Move, ceiling: int, wanted: int) -> bool:
        """Whether the reply keeps at most `wanted`, which is not more than `ceiling`; `-MATE` asks that it is mated."""
        if not self.keeps(board, reply, wanted + 1):
            return True
        is_delay = board.gives_check(reply) or captured_kind(board, reply)
        if not is_delay or not self.keeps(board, reply, ceiling + 1):
            return False
        won = gain_of_move(board, reply)
        delayed = played(board, reply)
        answers = list(delayed.legal_moves) if delayed.is_check() else captures_on(delayed, reply.to_square)
        for answer in answers:
            most = -MATE if wanted <= -MATE else wanted - won + gain_of_move(delayed, answer)
            answered = played(delayed, answer)
            again = list(answered.legal_moves)
            if again and not any(self.keeps(answered, move, most + 1) for move in again):
                return True
        return False

    def wins_against_replies(self, board: chess.Board, move: chess.Move, least: int, threshold: int) -> bool:
        """Whether `gain_against_every_reply`, checks and captures being delays, asked with `least`, has at least `threshold`."""
        moved = played(board, move)
        if moved.is_checkmate():
            return True
        won = gain_of_move(board, move)
        wanted = -MATE if threshold >= MATE else won - threshold
        replies = sorted(moved.legal_moves, key=lambda reply: (reply.to_square != move.to_square, not takes(moved, reply)))
        return bool(replies) and all(self.holds_down(moved, reply, won - least, wanted) for reply in replies)

    # --- one move ----------------------------------------------------------------------------------------------------

    def forced_gain(self, board: chess.Board, move: chess.Move, least: int) -> int | None:
        """The gain of `value_of_move` of a move that takes or gives check, when it is enough."""
        if not (takes(board, move) or board.gives_check(move)) or not self.keeps(board, move, least):
            return None
        if self.keeps(board, move, MATE):
            return MATE
        gain = least
        while self.keeps(board, move, gain + 1):
            gain += 1
        return gain

    def refuted_gain(self, board: chess.Board, move: chess.Move, below: int) -> int | None:
        """What the strongest quiet answer to the man that has come leaves, when it leaves less than `below`."""
        wanted, square = below - gain_of_move(board, move), move.to_square
        moved = played(board, move)
        attacks = [answer for answer in moved.legal_moves if not self.attacks_in_vain(moved, answer, square)]
        attacked = self._least_left(moved, attacks, wanted, self.keeps)
        shut_in = self._least_left(
            moved,
            self.closing_answers(moved, square),
            wanted,
            lambda shut, reply, left: self.comes_to(shut, reply, square, left),
        )
        left = min((one for one in (attacked, shut_in) if one is not None), default=None)
        return left if left in (None, -MATE) else left + below - wanted

    @staticmethod
    def _least_left(
        board: chess.Board,
        answers: Sequence[chess.Move],
        below: int,
        keeps: Callable[[chess.Board, chess.Move, int], bool],
    ) -> int | None:
        """The least that an answer leaves with the best reply, when one leaves less than `below`."""
        worst: int | None = None
        for answer in answers:
            answered = played(board, answer)
            replies = list(answered.legal_moves)
            at_most = (below if worst is None else worst) - 1
            if not replies or any(keeps(answered, reply, at_most + 1) for reply in replies):
                continue
            worst = next((t for t in range(at_most, -60, -1) if any(keeps(answered, reply, t) for reply in replies)), -MATE)
        return worst

    def gain(self, board: chess.Board, move: chess.Move, least: int = LEAST_GAIN) -> int | None:
        """What the move wins, `MATE` for a mate, None when it wins nothing."""
        forced = self.forced_gain(board, move, least)
        if forced == MATE:
            return MATE
        if forced is not None and takes(board, move):
            refuted = self.refuted_gain(board, move, forced)
            if refuted is not None:
                return refuted if refuted >= least else None
        more = least if forced is None else forced + 1
        if not self.presses(board, move, more) or not self.wins_against_replies(board, move, more, more):
            return forced
        if self.wins_against_replies(board, move, more, MATE):
            return MATE
        gain = more
        while self.wins_against_replies(board, move, more, gain + 1):
            gain += 1
        return gain

    def wins(self, board: chess.Board, move: chess.Move, least: int) -> bool:
        """Whether the move wins anything, which is quicker to say than what."""
        if (takes(board, move) or board.gives_check(move)) and self.keeps(board, move, least):
            return not takes(board, move) or self.refuted_gain(board, move, least) is None
        return self.presses(board, move, least) and self.wins_against_replies(board, move, least, least)

    def any_wins(self, board: chess.Board, enough: int) -> bool:
        """Whether a threat of the mover comes to that much."""
        moves = sorted(board.legal_moves, key=lambda move: is_quiet(board, move))
        if enough == LEAST_GAIN:
            return any(self.wins(board, move, LEAST_GAIN) for move in moves)
        return any((self.gain(board, move) or 0) >= enough for move in moves)


class ThreatVerifier(Gains):
    """Checks what the library says about the threats in one position."""

    def violations(self, *, parries_of: int = 1, answers_to: int = 0) -> list[str]:
        """What is wrong with the threats of both sides, the parries of the strongest of the waiter, and some answers."""
        position = ks.Position(self.board.fen(en_passant="fen"))
        return list(self._violations(position, parries_of, answers_to))

    def _violations(self, position: ks.Position, parries_of: int, answers_to: int) -> Iterator[str]:
        waiting = ks.threats(position)
        asked = random.Random(self.board.fen()).sample(moves := position.moves(), min(answers_to, len(moves)))
        checks: list[tuple[Callable[..., None], ...]] = [
            *((self.check_threats, ks.threats(position, side), side) for side in SIDES),
            *((self.check_parries, threat, ks.parries(position, threat)) for threat in waiting[:parries_of]),
            *((self.check_answer, ks.answers(position, move)) for move in asked),
        ]
        for check, *arguments in checks:
            try:
                check(*arguments)
            except Lie as lie:
                yield f"{check.__name__}: {lie}: {', '.join(map(str, arguments))}"

    # --- threats -----------------------------------------------------------------------------------------------------

    def check_line(self, start: chess.Board, threat: ks.Threat) -> None:  # type: ignore[override]
        """The line is legal, wins what is said, and no move of it lets the other side do better."""
        side = start.turn
        board = start
        squares = set()
        target = None
        for text in map(str, threat.line):
            move = board.parse_uci(text)
            if board.turn == side and captured_kind(board, move):
                squares.add(chess.square_name(taken_on(board, move)))
                target = target or chess.square_name(taken_on(board, move))
            elif board.turn == side and move.promotion:
                target = target or chess.square_name(move.to_square)
            board = played(board, move)
        require(balance(board, side) - balance(start, side) == threat.gain, "the gain is not that of the line")
        require(threat.mate == (board.is_checkmate() and board.turn != side), "mate is not what the line ends with")
        if threat.mate:
            squares.add(chess.square_name(board.king(not side)))
            target = chess.square_name(start.parse_uci(str(threat.line[-1])).to_square) if len(threat.line) == 1 else None
        require(target in (None, str(threat.target)), f"the target is {target}")
        require(squares == set(map(str, threat.squares)), f"the squares are {sorted(squares)}")
        first = start.parse_uci(str(threat.line[0]))
        gain = self.gain(start, first)
        require(gain == (MATE if threat.mate else threat.gain), f"{start.san(first)} wins {gain}")

    def check_threats(self, threats: Sequence[ks.Threat], side: str) -> None:
        """Each of them is true, they come strongest first, and none is left out."""
        start = self.turn_of(SIDES[side])
        if start is None:
            require(not threats, "threats of a side that has no turn")
            return
        for threat in threats:
            require(threat.side == side and threat.after_pass == (start.turn != self.board.turn), "another side")
            self.check_line(start, threat)
        strengths = [(threat.mate, 0 if threat.mate else threat.gain, -len(threat.line)) for threat in threats]
        require(strengths == sorted(strengths, reverse=True), "not strongest first")
        shown = {str(threat.line[0]) for threat in threats}
        for move in list(start.legal_moves):
            if move.uci() not in shown:
                self._check_left_out(start, move, threats)

    def _check_left_out(self, start: chess.Board, move: chess.Move, threats: Sequence[ks.Threat]) -> None:
        """A move that is not shown wins nothing, or no more than a threat that is shown; what it takes at once is the
        target of one."""
        if not self.wins(start, move, LEAST_GAIN):
            return
        gain = self.gain(start, move)
        mate = gain == MATE
        rivals = [threat for threat in threats if threat.mate == mate and (mate or threat.gain >= gain)]
        if not mate and captured_kind(start, move):
            target = chess.square_name(taken_on(start, move))
            same = [threat for threat in rivals if str(threat.target) == target]
            own = {str(taken) for threat in rivals for taken in threat.line[::2]}
            rivals = same or [threat for threat in rivals if move.uci() in own]
        require(rivals, f"{start.san(move)} wins {gain} and is left out")

    # --- parries -----------------------------------------------------------------------------------------------------

    def is_on(self, moved: chess.Board, move: chess.Move, first: chess.Move, man: chess.Square | None, mate: bool) -> bool:
        """Whether the threat that starts with `first` and takes `man` works after `move`."""
        tries = [first] if first in moved.legal_moves else []
        if man is not None and move.from_square != man:
            tries += captures_on(moved, man)
        return any(self.gain(moved, a_try) == MATE if mate else self.wins(moved, a_try, LEAST_GAIN) for a_try in tries)

    def check_parries(self, threat: ks.Threat, parries: ks.Parries) -> None:
        """Every move listed does what is said of it; every other one neither stops the threat nor ends all."""
        board = self.board
        handed_over = turned(board)
        first = handed_over.parse_uci(str(threat.line[0]))
        man = taken_on(handed_over, first) if captured_kind(handed_over, first) else None
        listed = {str(parry.move): parry for parry in parries.moves}
        natural = stopping = 0
        moves = list(board.legal_moves)
        require(parries.legal == len(moves), "another number of legal moves")
        for move in moves:
            text, san = board.uci(move), board.san(move)
            moved = played(board, move)
            stops = not self.is_on(moved, move, first, man, threat.mate)
            ends_all = not self.any_wins(moved, LEAST_GAIN + gain_of_move(board, move))
            parry = listed.pop(text, None)
            require(stops == (parry is not None and parry.stops), f"{san} {'stops' if stops else 'does not stop'} it")
            require(ends_all == (parry is not None and parry.ends_all), f"{san}: ends all is {ends_all}")
            if not self.loses(board, move):
                natural += 1
                stopping += stops
            if parry is not None:
                self._check_uses(board, move, parry, MATE if threat.mate else threat.gain)
        require(not listed, f"moves that are not legal: {', '.join(listed)}")
        require((parries.natural, parries.natural_stopping) == (natural, stopping), f"natural: {stopping} of {natural}")

    def _check_uses(self, board: chess.Board, move: chess.Move, parry: ks.Parry, worth: int) -> None:
        san = board.san(move)
        require(parry.takes == takes(board, move) and parry.castles == board.is_castling(move), f"{san}: takes, castles")
        require(parry.wins == self.keeps(board, move, LEAST_GAIN), f"{san}: wins is {not parry.wins}")
        counters = parry.ends_all and self.threatens(board, move, worth)
        require(parry.counters == counters, f"{san}: counters is {counters}")
        require(parry.threatens == self.threatens(board, move, LEAST_GAIN), f"{san}: threatens is {not parry.threatens}")

    # --- answers -----------------------------------------------------------------------------------------------------

    def check_answer(self, answer: ks.Answer) -> None:
        """The reply is the strongest one, and the cost is what it wins on balance."""
        move = self.board.parse_uci(str(answer.move))
        moved = played(self.board, move)
        require(answer.taken == gain_of_move(self.board, move), "what the move takes")
        gains = [gain for gain in (self.gain(moved, reply) for reply in list(moved.legal_moves)) if gain is not None]
        if answer.reply is None:
            require(not gains and not (answer.loses or answer.walks_into or answer.leaves or answer.cost), "a reply wins")
            return
        self.check_line(moved, answer.reply)
        require((MATE if answer.reply.mate else answer.reply.gain) == max(gains, default=None), "a better reply")
        require(answer.cost == answer.gain - answer.taken, "the cost")
        require(answer.loses == (answer.reply.mate or answer.cost >= LEAST_GAIN), "loses")
        require(answer.loses == (answer.walks_into != answer.leaves), "it walks into something or leaves it")
        require(answer.loses or not answer.walks_into, "walks into nothing")

