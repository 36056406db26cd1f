"""Game reports, held against their definitions in `thinking/move_effects.hpp` and `lesson/game_report.hpp`."""

from __future__ import annotations

from collections.abc import Iterator

import chess
import keysquare as ks

from .calculations import MATE, balance, gain_of_move
from .foundation import LEAST_GAIN, Lie, require
from .thinking_threats import ThreatVerifier, played

LEAST_LEAD = 2


def fen_of(position: ks.Position) -> str:
    return position.fen


class PlyVerifier(ThreatVerifier):
    """Checks what a report says about the move that was played in one position."""

    def wins_of(self, board: chess.Board, move: chess.Move) -> int:
        """What a move wins; 0 for nothing, `MATE` for a mate."""
        return self.gain(board, move) or 0

    def strongest(self, board: chess.Board) -> int:
        """What the best move of the mover wins."""
        return max((self.wins_of(board, move) for move in list(board.legal_moves)), default=0)

    def conceded(self, move: chess.Move) -> int:
        """What the reply wins more than the move took; `MATE` for a mate."""
        reply = self.strongest(played(self.board, move))
        return reply if reply == MATE else max(0, reply - gain_of_move(self.board, move))

    def concedes_at_least(self, move: chess.Move, least: int) -> bool:
        """The same as a question, which is quicker."""
        return self.any_wins(played(self.board, move), least + gain_of_move(self.board, move))

    # --- the effects of a move -----------------------------------------------------------------------------------------

    def check_effects(self, last: ks.PlyReport, ply: ks.PlyReport, next_ply: ks.PlyReport | None) -> None:
        """What is said of the move of `ply`, played in the position of `last`."""
        board = self.board
        move = board.parse_uci(str(ply.move))
        after = played(board, move)
        best = self.strongest(board)
        won = self.wins_of(board, move)
        as_much = won == MATE or (best != MATE and won > best - LEAST_GAIN)
        missed = ply.effect("missed")
        require((missed is not None) == (best > 0 and not as_much), f"wins {won} of {best}: missed is {missed}")
        if missed is not None:
            self.check_win(board, missed, best)
            require(missed.better == missed.win.line[0], "the better move is that of the chance")
            if MATE not in (best, won):
                require(missed.cost == best - won, f"a cost of {best - won}")
        exploited = ply.effect("exploited")
        was_given = last.ply > 0 and (last.effect("allowed") or last.effect("overlooked"))
        require(not exploited or (best > 0 and as_much), "exploited without a chance taken")
        if was_given and best > 0 and as_much:
            require(exploited, "what was given is taken")
        if exploited is not None:
            self.check_win(board, exploited, best)
            require(exploited.better is None, "nothing is better than to take the chance")
        self.check_gift(ply, next_ply, board, move, after)

    def check_win(self, start: chess.Board, effect: ks.MoveEffect, best: int) -> None:
        """The win is the strongest one, and its line shows it."""
        require((MATE if effect.win.mate else effect.win.gain) == best, f"{effect.kind}: the best chance wins {best}")
        self.check_line(start, effect.win)

    def check_gift(
        self, ply: ks.PlyReport, next_ply: ks.PlyReport | None, board: chess.Board, move: chess.Move, after: chess.Board
    ) -> None:
        """Allowed or overlooked: what the other side can win, since when, and whether it could be helped."""
        told = ply.effect("allowed") or ply.effect("overlooked")
        require(not (ply.effect("allowed") and ply.effect("overlooked")), "allowed and overlooked at once")
        reply = self.strongest(after)
        cost = self.conceded(move)
        if cost < LEAST_GAIN:
            require(told is None, "nothing was given")
            return
        others = [other for other in board.legal_moves if other != move]
        if told is None:
            # Then nothing helped, or the threat was there before and was not carried out.
            if not any(self.stood(board, reply_threat, cost) for reply_threat in ply.chances[:1]):
                for other in others:
                    helped = not self.concedes_at_least(other, max(1, cost - LEAST_GAIN + 1) if cost < MATE else MATE)
                    require(not helped, f"{board.san(other)} would have conceded less than {cost}")
            return
        require(reply == MATE or told.cost == cost, f"a cost of {cost}")
        better = board.parse_uci(str(told.better))
        conceded = self.conceded(better)
        require(conceded == told.left and conceded < MATE, f"{board.san(better)} concedes {conceded}")
        require(cost == MATE or cost - told.left >= LEAST_GAIN, "the better move is no better")
        if told.left:
            for other in others:
                require(self.concedes_at_least(other, told.left), f"{board.san(other)} concedes less than {told.left}")
        if told.kind == "allowed":
            self.check_win(after, told, reply)
            require(not self.stood(board, told.win, cost), "it was a threat before")
        else:
            require(told.win.after_pass and told.win.side != ("white" if board.turn else "black"), "no threat of the other side")
            require(next_ply is not None, "nothing was carried out")
            assert next_ply is not None
            done = self.wins_of(after, after.parse_uci(str(next_ply.move)))
            require(done == MATE or (reply != MATE and done > reply - LEAST_GAIN), f"only {done} of {reply} was carried out")

    @staticmethod
    def stood(board: chess.Board, reply: ks.Threat, cost: int) -> bool:
        """Whether the reply was a threat before the move: same mate or gain, same target or same moves."""
        own = sorted(map(str, reply.line[::2]))
        return any(
            threat.mate == reply.mate
            and (threat.target == reply.target or sorted(map(str, threat.line[::2])) == own)
            and (threat.mate or threat.gain >= cost)
            for threat in ks.threats(ks.Position(board.fen(en_passant="fen")))
        )


def standing(board: chess.Board, chances: list[ks.Threat]) -> int:
    """White's balance with the strongest chance."""
    gain = chances[0].gain if chances else 0
    return balance(board, chess.WHITE) + (gain if board.turn else -gain)


def lead(ply: ks.PlyReport, board: chess.Board) -> str:
    side = "white" if board.turn else "black"
    if ply.chances and ply.chances[0].mate:
        return f"{side}_mates"
    pawns = standing(board, ply.chances)
    return "level" if abs(pawns) < LEAST_LEAD else "white_ahead" if pawns > 0 else "black_ahead"


LEADS = ["black_mates", "black_ahead", "level", "white_ahead", "white_mates"]


def claims(findings: list[ks.Finding]) -> list[tuple[object, ...]]:
    return [
        (f.theme, str(f.side), *(sorted((str(p.square), str(p.piece)) for p in f.pieces) if f.pieces else [f.detail]))
        for f in findings
    ]


def report_violations(report: ks.GameReport) -> Iterator[str]:
    """What is wrong with a report, ply by ply, the effects apart: they are `PlyVerifier`'s."""
    boards = [chess.Board(ply.position.fen) for ply in report.plies]
    try:
        require(len(report.plies) == len(report.game.main_line) + 1, "another number of plies")
        for ply, board in zip(report.plies, boards, strict=True):
            require(ply.standing.pawns == standing(board, ply.chances), f"{ply.numbered}: the standing")
            require(ply.standing.lead == lead(ply, board), f"{ply.numbered}: the lead")
        for last, ply in zip(report.plies, report.plies[1:]):
            before, after = claims(last.findings), claims(ply.findings)
            require(claims(ply.created) == [c for c in after if c not in before], f"{ply.numbered}: created")
            require(claims(ply.removed) == [c for c in before if c not in after], f"{ply.numbered}: removed")
        told = {point.ply for point in report.turning_points}
        for at in range(1, len(boards)):
            effects = [e for e in report.plies[at].effects if e.kind != "exploited"]
            weighs = max((12 if e.win.mate else min(e.cost - e.left, 12) for e in effects), default=0)
            change = LEADS.index(lead(report.plies[at], boards[at])) - LEADS.index(lead(report.plies[at - 1], boards[at - 1]))
            worse = change < 0 if boards[at - 1].turn else change > 0
            require((at in told) == (worse and weighs >= LEAST_LEAD), f"{report.plies[at].numbered}: a turning point or not")
        plies = [moment.ply for moment in report.moments]
        require(all(b - a >= 4 for a, b in zip(plies, plies[1:])), "moments too near to each other")
        for moment in report.moments:
            require(moment.position == report.plies[moment.ply].position, "another position")
            require(moment.question and moment.answer, "a moment without question or answer")
    except Lie as lie:
        yield str(lie)


def effect_violations(report: ks.GameReport, at: int) -> Iterator[str]:
    """What is wrong with the effects of the move number `at`."""
    last, ply = report.plies[at - 1], report.plies[at]
    next_ply = report.plies[at + 1] if at + 1 < len(report.plies) else None
    try:
        PlyVerifier(fen_of(last.position)).check_effects(last, ply, next_ply)
    except Lie as lie:
        yield f"{last.position.fen} {ply.numbered}: {lie}"
