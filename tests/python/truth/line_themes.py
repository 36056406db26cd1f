"""Checks of the themes about men on one line: pins, skewers, discovered attacks and batteries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

import chess

from .calculations import VALUES, captured_kind, exchange_at_least, gain_of_move
from .claim import Claim
from .counted_themes import NAMES, CountedThemes
from .every_reply import EveryReply, turned
from .foundation import LEAST_GAIN, SIDES, require
from .geometry import SLIDERS, WORTH, Alignment, alignments_of, attacks_anew, line_of, threatened_by, without
from .piece_themes import PieceThemes

Made = tuple[chess.Move, chess.Board, Alignment]
"""A move, the position after it, and an alignment in that position."""


class LineThemes(EveryReply, PieceThemes, CountedThemes):
    # --- pins --------------------------------------------------------------------------------------------------------

    def alignments(self, side: chess.Color) -> Iterator[Alignment]:
        for kind in SLIDERS:
            for slider in self.board.pieces(kind, side):
                yield from alignments_of(self.board, slider)

    def pin_kind(self, side: chess.Color, line: Alignment) -> str | None:
        """Whether the alignment on the board is a pin, and of which kind."""
        front, back = self.board.piece_at(line.front), self.board.piece_at(line.back)
        if front.color == side or back.color == side or front.piece_type == chess.KING:
            return None
        if back.piece_type == chess.KING:
            return "absolute"
        if front.piece_type == chess.PAWN or VALUES[back.piece_type] < VALUES[front.piece_type]:
            return None
        return "relative" if self._holds_relatively(side, line) else None

    def _holds_relatively(self, side: chess.Color, line: Alignment) -> bool:
        """Whether the man behind falls by exchange when the front man goes, and does not as long as it stays."""
        attacker, owner = self.turns[side], self.turns[not side]
        if attacker is None or owner is None or exchange_at_least(attacker, line.back, LEAST_GAIN):
            return False
        if not exchange_at_least(without(attacker, line.front), line.back, LEAST_GAIN):
            return False
        leaving = (
            (move, after)
            for move, after in self.plays[not side]
            if move.from_square == line.front and move.to_square not in line_of(line.slider, line.back)
        )
        return all(
            exchange_at_least(after, line.back, gain_of_move(owner, move) + LEAST_GAIN) for move, after in leaving
        )

    def exploits_of(self, side: chess.Color, line: Alignment, kind: str) -> list[chess.Move]:
        """The moves that a pin on the board gives the side.

        They take the pinned man, which does not hang, attack it, or, where it may not take, arrive on a square that it
        attacks.
        """
        hangs = bool(self.plays[side]) and exchange_at_least(self.turns[side], line.front, LEAST_GAIN)
        covered = self.board.attacks(line.front) - line_of(line.slider, line.back)
        return [
            move
            for move, after in self.plays[side]
            if not (hangs and move.to_square == line.front)
            and (
                move.to_square == line.front
                or (kind == "absolute" and move.to_square in covered)
                or (move.from_square != line.slider and attacks_anew(self.turns[side], move, after, line.front))
            )
        ]

    @cached_property
    def made(self) -> dict[chess.Color, list[Made]]:
        return {side: list(self.made_alignments(side)) for side in chess.COLORS}

    def made_alignments(self, side: chess.Color) -> Iterator[Made]:
        """The moves with the alignments of two men of the other side that they make.

        The slider is the man that moves, or one from whose line that man went away.
        """
        for move, after in self.plays[side]:
            behind = self.board.attackers(side, move.from_square)
            for slider in [move.to_square, *behind]:
                for line in alignments_of(after, slider):
                    opened = move.from_square in chess.SquareSet.between(slider, line.front)
                    if after.color_at(line.front) == after.color_at(line.back) == (not side):
                        if slider == move.to_square or opened:
                            yield move, after, line

    @staticmethod
    def made_by(move: chess.Move, slider: chess.Square, front: chess.Square, back: chess.Square) -> Alignment:
        """The alignment after the move, when `slider` is where the slider stands before it."""
        return Alignment(move.to_square if slider == move.from_square else slider, front, back)

    def made_pins(self, side: chess.Color) -> Iterator[Made]:
        for move, after, line in self.made[side]:
            front, back = after.piece_type_at(line.front), after.piece_type_at(line.back)
            if front not in (chess.PAWN, chess.KING) and WORTH[back] > WORTH[front]:
                yield move, after, line

    @staticmethod
    def _on_line(line: Alignment) -> chess.SquareSet:
        slider, front, back = line
        between = chess.SquareSet.between(slider, front) | chess.SquareSet.between(front, back)
        return between | chess.SquareSet([front, back])

    def _check_pin(self, claim: Claim, start: chess.Board) -> None:
        if claim.detail in ("absolute_next", "relative_next"):
            self._check_made_pin(claim)
        else:
            self._check_standing_pin(claim)

    def _check_standing_pin(self, claim: Claim) -> None:
        side = SIDES[claim.side]
        require(not claim.point, "a point beside the line")
        front, slider, back = self.men_of(claim, 3)
        line = Alignment(slider, front, back)
        require(self.board.color_at(slider) == side, "the slider is not the side's")
        require(line in alignments_of(self.board, slider), "not on one line")
        kind = self.pin_kind(side, line)
        require(kind, "no pin")
        require(claim.detail == kind, f"the pin is {kind}")
        self.check_squares(claim, self._on_line(line))
        if claim.line:
            move, _ = self.first_move(claim)
            require(move in self.exploits_of(side, line, kind), "the move has nothing to do with the pin")
        else:
            self.check_idle(claim)

    def _check_made_pin(self, claim: Claim) -> None:
        side = SIDES[claim.side]
        require(not claim.point, "a point beside the line")
        front, slider, back = self.men_of(claim, 3)
        move, after = self.first_move(claim)
        line = self.made_by(move, slider, front, back)
        require((move, after, line) in list(self.made_pins(side)), "the move makes no pin")
        kind = "absolute_next" if after.piece_type_at(back) == chess.KING else "relative_next"
        require(claim.detail == kind, f"the pin is {kind}")
        self.check_squares(claim, self._on_line(line))
        require(not claim.mate and not self.takes_only(claim), "the move wins no more than it takes")

    def _omitted_pins(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        """Every pin on the board is named once, with the move that wins most, and so is the best one to make."""
        made = [claim for claim in claims if claim.detail.endswith("_next")]
        for line in self.alignments(side):
            kind = self.pin_kind(side, line)
            if kind is None:
                continue
            men = [line.front, line.slider, line.back]
            said = [claim for claim in claims if self.men_of(claim) == men and claim not in made]
            if len(said) != 1:
                yield f"{kind} pin on {chess.square_name(line.front)} said {len(said)} times"
                continue
            yield from self.better_moves(side, self.exploits_of(side, line, kind), said[0])
        if len(made) > 1:
            yield "more than one pin that can be made"
        moves = dict.fromkeys(move for move, _, _ in self.made_pins(side))
        yield from self.better_moves(side, moves, made[0] if made else None, more_than_taken=True, mates_count=False)

    # --- skewers -----------------------------------------------------------------------------------------------------

    @staticmethod
    def is_skewer(after: chess.Board, line: Alignment) -> bool:
        """Whether the slider threatens the front man, and the man behind, worth no more, once that is gone."""
        front, back = after.piece_type_at(line.front), after.piece_type_at(line.back)
        if back == chess.KING or WORTH[back] > WORTH[front] or line.front not in threatened_by(after, line.slider):
            return False
        return line.back in threatened_by(without(after, line.front), line.slider)

    def skewers(self, side: chess.Color) -> list[Made]:
        return [made for made in self.made[side] if self.is_skewer(made[1], made[2])]

    def _check_skewer(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        slider, front, back = self.men_of(claim, 3)
        move, after = self.first_move(claim)
        line = self.made_by(move, slider, front, back)
        require((move, after, line) in self.skewers(side), "no skewer")
        require(claim.detail == "none", "a detail")
        require(bool(claim.line) != bool(claim.point), "a point beside the line")
        self.check_squares(claim, line)
        if claim.line:
            require(not claim.mate and not self.takes_only(claim), "the move wins no more than it takes")
            return
        self.check_idle(claim)
        require(self.is_idle(side, move), "the move is not safe, takes something or mates")
        for other, at, line in self.skewers(side):
            if VALUES[at.piece_type_at(line.back)] > VALUES[after.piece_type_at(back)]:
                require(not self.is_idle(side, other), f"{start.san(other)} skewers more")

    def _omitted_skewers(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        skewers = self.skewers(side)
        if len(claims) > 1:
            yield "more than one skewer"
        moves = dict.fromkeys(move for move, _, _ in skewers)
        yield from self.better_moves(
            side, moves, claims[0] if claims else None, more_than_taken=True, mates_count=False
        )
        if not claims and any(self.is_idle(side, move) for move in moves):
            yield "a safe skewer"

    # --- discovered attacks ------------------------------------------------------------------------------------------

    def _discovery_lines(self, side: chess.Color) -> Iterator[Alignment]:
        for line in self.alignments(side):
            if self.board.color_at(line.front) == side and self.board.color_at(line.back) == (not side):
                yield line

    def _discoveries(self, side: chess.Color, line: Alignment) -> list[tuple[chess.Move, chess.Board]]:
        """The moves of the front man off the line after which the man behind is in check or would fall."""
        return [
            (move, after)
            for move, after in self.plays[side]
            if move.from_square == line.front
            and move.to_square not in line_of(line.slider, line.back)
            and self._attacks_behind(after, line.back)
        ]

    @staticmethod
    def _attacks_behind(after: chess.Board, back: chess.Square) -> bool:
        return after.piece_type_at(back) == chess.KING or exchange_at_least(turned(after), back, LEAST_GAIN)

    def _check_discovered_attack(self, claim: Claim, start: chess.Board) -> None:
        side = SIDES[claim.side]
        front, slider, back = self.men_of(claim, 3)
        line = Alignment(slider, front, back)
        require(line in list(self._discovery_lines(side)), "no man of the side stands between slider and target")
        self.check_squares(claim, chess.SquareSet.between(slider, back) | chess.SquareSet([back]))
        require(not claim.point, "a point beside the line")
        king = self.board.piece_type_at(back) == chess.KING
        if not claim.line:
            self.check_idle(claim)
            require(self._counts_idle(line), "the man behind is worth no more than the slider")
            require(claim.detail == ("with_check" if king else "quiet"), "check or not: the other way round")
            return
        move, after = self.first_move(claim)
        require((move, after) in self._discoveries(side, line), "the move discovers nothing")
        if king and len(after.checkers()) > 1:
            detail = "with_double_check"
        elif after.is_check():
            detail = "with_check"
        else:
            detail = "quiet" if captured_kind(start, move) is None else "with_capture"
        require(claim.detail == detail, f"it comes {detail}")

    def _counts_idle(self, line: Alignment) -> bool:
        return WORTH[self.board.piece_type_at(line.back)] > WORTH[self.board.piece_type_at(line.slider)]

    def _omitted_discovered_attacks(self, side: chess.Color, claims: list[Claim]) -> Iterator[str]:
        for line in self._discovery_lines(side):
            men = [line.front, line.slider, line.back]
            said = [claim for claim in claims if self.men_of(claim) == men]
            if len(said) > 1 or (not said and self._counts_idle(line)):
                yield f"by {chess.square_name(line.front)}, said {len(said)} times"
            moves = [move for move, _ in self._discoveries(side, line)]
            yield from self.better_moves(side, moves, said[0] if said else None)

    # --- batteries ---------------------------------------------------------------------------------------------------

    def _every_battery(self) -> Iterator[Claim]:
        for side in chess.COLORS:
            king = self.board.king(not side)
            near_king = chess.SquareSet(chess.BB_KING_ATTACKS[king]) | chess.SquareSet([king])
            own = chess.SquareSet(self.board.occupied_co[side])
            for kind in SLIDERS:
                for rear in self.board.pieces(kind, side):
                    seen = self.board.attacks(rear)
                    for front in seen & own:
                        if not self._moves_along(front, rear):
                            continue
                        beyond = without(self.board, front).attacks(rear) - seen
                        last = [at for at in beyond if self.board.color_at(at) == (not side)]
                        aims = any(self.board.piece_type_at(at) != chess.PAWN for at in last)
                        if aims or beyond & near_king - own:
                            yield self.told("battery", side, on=beyond, men=([front], [rear], last))

    def _moves_along(self, slider: chess.Square, other: chess.Square) -> bool:
        """Whether the man is a slider that moves on the line to the other square."""
        man = self.board.piece_at(slider)
        alone = chess.Board(None)
        alone.set_piece_at(slider, man)
        return man.piece_type in SLIDERS and other in alone.attacks(slider)

    # --- completeness ------------------------------------------------------------------------------------------------

    def omissions(self, claims: Iterable[Claim]) -> list[str]:
        claims = list(claims)
        omitted = super().omissions(claims)
        searches = {
            "pin": self._omitted_pins,
            "skewer": self._omitted_skewers,
            "discovered_attack": self._omitted_discovered_attacks,
        }
        for side in chess.COLORS:
            for theme, search in searches.items():
                said = [claim for claim in claims if claim.theme == theme and SIDES[claim.side] == side]
                omitted += [f"{theme} for {NAMES[side]} left out: {text}" for text in search(side, said)]
        return omitted
