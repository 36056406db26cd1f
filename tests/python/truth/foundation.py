"""What every check stands on: positions, lines, and the judgement of moves, by the documented definitions."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from .calculations import MATE, Bound, Referee, balance, captured_kind, captures_on, exchange_at_least, gain_of_move
from .claim import BLACK, WHITE, Claim

SIDES = {WHITE: chess.WHITE, BLACK: chess.BLACK}
WARNINGS = {"poisoned", "denied_square", "tied", "stuffed_rooks"}
"""Themes that are always warnings; locked pairs are too."""

DETAILS = {
    **{"mutual_guards": {"only_each_other", "pressured", "locked"}, "shield_pair": {"pressured", "locked"}},
    **{"colour_complex": {"light", "dark"}, "guardian": {"light", "dark"}},
}
"""The details that a theme can have where its check does not work the detail out."""
WITHOUT_DETAIL = {
    *("poisoned", "overloaded", "tied", "denied_square", "rook_scope", "stuffed_rooks", "seventh_rank"),
    *("doubled_rooks", "connected_rooks", "entry_square", "square_control"),
}

LEAST_GAIN = 1
MOST_LOST = -60
"""Nothing short of mate loses so much at once."""
MOST_PIECES = 8
"""A finding holds no more men than this; where a theme has more, the first ones are named."""


MOST_WAYS_OUT = 5
"""A man that has more is not shut in by one move."""


class Lie(Exception):
    """Raised by a check: the text says what is not so."""


def require(condition: object, text: str) -> None:
    if not condition:
        raise Lie(text)


class Foundation:
    """One position, and the searches that several claims about it share."""

    def __init__(self, fen: str, *, chess960: bool = False, bound: Bound | None = None) -> None:
        self.board = chess.Board(fen, chess960=chess960)
        self.bound = bound or Bound()
        self.referee = Referee()
        self._hangs: dict[tuple[chess.Square | None, chess.Square], bool] = {}
        self._best: dict[chess.Color, int] = {}
        self._judged: dict[chess.Color, tuple[int, int]] = {}

    # --- positions ---------------------------------------------------------------------------------------------------

    def turn_of(self, side: chess.Color, removed: chess.Square | None = None) -> chess.Board | None:
        """The position with `side` to move, without the removed man; None where there is no such position."""
        board = self.board.copy(stack=False)
        if removed is not None:
            board.remove_piece_at(removed)
            board.castling_rights = board.clean_castling_rights()
            if board.ep_square is not None and board.ep_square ^ 8 == removed:
                board.ep_square = None
        if board.turn != side:
            if board.is_check():
                return None  # a pass would be illegal
            hand_over(board)
        return None if board.was_into_check() else board

    def start_of(self, claim: Claim) -> chess.Board:
        """The position that the claim's line starts from; its men and its `removed` are checked on the way."""
        side = SIDES[claim.side]
        removed = chess.parse_square(claim.removed) if claim.removed else None
        if removed is not None:
            man = self.board.piece_at(removed)
            require(man is not None and man.piece_type != chess.KING, f"no man to remove on {claim.removed}")
        for square, letter in claim.pieces:
            man = self.board.piece_at(chess.parse_square(square))
            require(man is not None and man.symbol() == letter, f"no {letter} on {square}")
        require(len(claim.pieces) <= MOST_PIECES, "too many men")
        require(claim.detail == "none" or claim.theme not in WITHOUT_DETAIL, "a detail of a theme without details")
        require(claim.detail in DETAILS.get(claim.theme, {claim.detail}), "no detail of the theme")
        if claim.line or claim.point:
            require(claim.after_pass == (self.board.turn != side), "after_pass does not fit the side and the mover")
            board = self.turn_of(side, removed)
            require(board, "the position that the line starts from is illegal")
            return board
        require(removed is None or claim.theme == "guardian", "a counterfactual without a line")
        return self.board.copy(stack=False)

    # --- lines -------------------------------------------------------------------------------------------------------

    @staticmethod
    def play(board: chess.Board, line: Iterable[str]) -> list[chess.Board]:
        """The positions after each move of the line."""
        boards = []
        for text in line:
            try:
                move = board.parse_uci(text)
            except ValueError:
                raise Lie(f"illegal move {text} in {' '.join(line)}") from None
            board = board.copy(stack=False)
            board.push(move)
            boards.append(board)
        return boards

    def check_line(self, claim: Claim, start: chess.Board) -> None:
        """Holds for every claim with a line: legal, its gain is that of the line, and no reply makes it another one."""
        side = SIDES[claim.side]
        self.play(start, claim.point)
        boards = self.play(start, claim.line)
        if not boards:
            require(not (claim.gain or claim.mate or claim.mated), "a claim of gain without a line")
            return
        at_start = balance(start, side)
        gained = [balance(board, side) - at_start for board in boards]
        require(gained[-1] == claim.gain, f"the line wins {gained[-1]}, not {claim.gain}")
        ends_in_mate = boards[-1].is_checkmate()
        require(claim.mate == (ends_in_mate and boards[-1].turn != side), "mate is not what the line ends with")
        require(claim.mated == (ends_in_mate and boards[-1].turn == side), "mated is not what the line ends with")
        if claim.theme in WARNINGS or claim.detail == "locked":
            require(claim.mated or claim.gain <= 0, "a warning that loses nothing")
            self._check_warning(claim, boards, gained)
        else:
            require(claim.mate or claim.gain >= LEAST_GAIN, "a promise that wins nothing")
            self._check_promise(claim, boards, gained)

    def _check_promise(self, claim: Claim, boards: list[chess.Board], gained: list[int]) -> None:
        """After each move of `side` no reply inside the bound leaves it with less."""
        enough = MATE if claim.mate else claim.gain
        for at in range(0, len(boards), 2):
            refuted = self.referee.wins_at_least(boards[at], gained[at] - enough + 1, self.bound.after(at))
            require(not refuted, f"after {' '.join(claim.line[: at + 1])} the other side has a better reply")

    def _check_warning(self, claim: Claim, boards: list[chess.Board], gained: list[int]) -> None:
        """After each move of `side` the other side gets what the line shows; after each of its moves `side` can do no
        better. A quiet second move does not belong to the game that `resolve` plays (unless it answers a check). Then
        every legal reply to it is tried, and the bound counts from after that reply. When it shuts the man in that has
        moved, the other side may make a second one, and attack that man."""
        first, man = 0, chess.parse_square(claim.line[0][2:4])
        while first + 1 < len(boards) and is_quiet(boards[first], boards[first].parse_uci(claim.line[first + 1])):
            least = MATE if claim.mated else gained[first] - claim.gain
            if boards[first].is_check() and self.referee.wins_at_least(boards[first], least, self.bound):
                break
            answered = boards[first + 1]
            at_most = 1 - MATE if claim.mated else claim.gain - gained[first + 1] + 1
            shuts_in = first == 0 and answered.peek() in self.closing_answers(boards[0], man)
            replies = list(answered.legal_moves)
            require(replies, "stalemate")
            for reply in replies:
                better = self.comes_to(answered, reply, man, at_most) if shuts_in else self.keeps(answered, reply, at_most)
                require(not better, f"{' '.join(claim.line[: first + 2])} is answered by {answered.san(reply)}")
            first += 2
            if not shuts_in:
                break
        for at in range(first, len(boards)):
            shown, bound = " ".join(claim.line[: at + 1]), self.bound.after(at - first)
            if at % 2 == 0:
                least = MATE if claim.mated else gained[at] - claim.gain
                punished = self.referee.wins_at_least(boards[at], least, bound)
                require(punished, f"after {shown} the other side does not get what the warning says")
            else:
                more = 1 - MATE if claim.mated else claim.gain - gained[at] + 1
                better = self.referee.wins_at_least(boards[at], more, bound)
                require(not better, f"after {shown} the warned side can do better")

    # --- what several themes need ------------------------------------------------------------------------------------

    def keeps(self, board: chess.Board, move: chess.Move, threshold: int) -> bool:
        return self.referee.keeps_at_least(board, move, threshold, self.bound)

    def hangs(self, owner: chess.Color, square: chess.Square, removed: chess.Square | None = None) -> bool:
        """Whether the man on `square` hangs to the other side's move, as documented."""
        if (removed, square) not in self._hangs:
            board = self.turn_of(not owner, removed)
            self._hangs[removed, square] = (
                board is not None
                and exchange_at_least(board, square, LEAST_GAIN)
                and any(self.keeps(board, move, LEAST_GAIN) for move in captures_on(board, square))
            )
        return self._hangs[removed, square]

    def best(self, side: chess.Color) -> int:
        """The most that any move of `side` keeps, at most 0; `-MATE` for being mated."""
        if side not in self._best:
            board = self.turn_of(side)
            require(board, "a judgement of moves where there is no turn")
            moves = list(board.legal_moves)
            kept = (t for t in range(0, MOST_LOST, -1) if not moves or any(self.keeps(board, m, t) for m in moves))
            self._best[side] = next(kept, -MATE)
        return self._best[side]

    def judged(self, side: chess.Color) -> tuple[int, int]:
        """`best`, the most that any move of `side` keeps, at most 0, and `baseline`, which is what a move that loses
        falls short of: `best` or what `side` keeps when it does nothing, whichever is less. `-MATE` for being mated."""
        if side not in self._judged:
            best, standing = self.best(side), 0
            board = self.turn_of(side)
            if not board.is_check():
                hand_over(board)
                wins = self.referee.wins_at_least
                standing = next((t for t in range(0, MOST_LOST, -1) if not wins(board, 1 - t, self.bound)), -MATE)
            self._judged[side] = best, min(best, standing)
        return self._judged[side]

    def is_safe(self, board: chess.Board, move: chess.Move) -> bool:
        """Whether the mover of `board` keeps as much as it can."""
        best = self.best(board.turn)
        return best == -MATE or self.keeps(board, move, best)

    def loses(self, board: chess.Board, move: chess.Move) -> bool:
        """Whether the mover of `board` loses something by the move that it would not lose anyway."""
        _, baseline = self.judged(board.turn)
        return baseline != -MATE and not self.keeps(board, move, baseline)

    def attacks_in_vain(self, board: chess.Board, answer: chess.Move, square: chess.Square) -> bool:
        """Whether the answer is no quiet one that attacks `square`, or would win nothing there if its side could move
        again; a pawn that comes one step before its last rank is never in vain."""
        if not is_quiet(board, answer) or board.is_castling(answer):
            return True
        seventh = 6 if board.turn else 1
        if board.piece_type_at(answer.from_square) == chess.PAWN and chess.square_rank(answer.to_square) == seventh:
            return False
        before = board.attackers(board.turn, square)
        again = board.copy(stack=False)
        again.push(answer)
        hand_over(again)
        newly = again.attackers(again.turn, square) - before
        return not newly or not exchange_at_least(again, square, LEAST_GAIN)

    def is_met_by_attack(self, board: chess.Board, square: chess.Square, wanted: int) -> bool:
        """Whether a quiet attack on the man on `square` leaves the side that waits less than `wanted` after every reply."""
        for answer in list(board.legal_moves):
            if self.attacks_in_vain(board, answer, square):
                continue
            board.push(answer)
            replies = sorted(board.legal_moves, key=lambda reply: reply.from_square != square)
            met = bool(replies) and not any(self.keeps(board, reply, wanted) for reply in replies)
            board.pop()
            if met:
                return True
        return False

    @staticmethod
    def ways_out(board: chess.Board, square: chess.Square) -> int:
        """How many moves the man on `square` has that lose nothing by captures where it arrives."""
        return sum(
            not exchange_at_least(played(board, move), move.to_square, gain_of_move(board, move) + 1)
            for move in board.generate_legal_moves(chess.BB_SQUARES[square])
        )

    def closing_answers(self, board: chess.Board, square: chess.Square) -> list[chess.Move]:
        """The quiet answers that take the last way out from the man on `square`, which had one to five."""
        if board.is_check() or board.piece_type_at(square) in (chess.PAWN, chess.KING):
            return []
        if not 1 <= self.ways_out(turned(board), square) <= MOST_WAYS_OUT:
            return []
        answers = (move for move in list(board.legal_moves) if is_quiet(board, move) and not board.is_castling(move))
        return [move for move in answers if not self.ways_out(played(board, move), square)]

    def comes_to(self, board: chess.Board, reply: chess.Move, square: chess.Square, wanted: int) -> bool:
        """Whether the reply of the side whose man on `square` is shut in comes to `wanted`: it keeps that, and where another
        man moves, an attack on the one that is shut in does not leave less."""
        if not self.keeps(board, reply, wanted):
            return False
        left = wanted if wanted == 1 - MATE else wanted - gain_of_move(board, reply)
        return reply.from_square == square or not self.is_met_by_attack(played(board, reply), square, left)

    def is_shut_in(self, board: chess.Board, square: chess.Square, wanted: int) -> bool:
        """Whether an answer shuts the man in, and every reply comes to less than `wanted`."""
        for answer in self.closing_answers(board, square):
            shut = played(board, answer)
            replies = list(shut.legal_moves)
            if replies and not any(self.comes_to(shut, reply, square, wanted) for reply in replies):
                return True
        return False

    def is_quietly_refuted(self, board: chess.Board, move: chess.Move, least: int) -> bool:
        """Whether a quiet answer, an attack on the man that has moved or one that shuts it in, leaves its side less than
        `least` after every reply."""
        wanted = least - gain_of_move(board, move)
        arrived = played(board, move)
        return self.is_met_by_attack(arrived, move.to_square, wanted) or self.is_shut_in(arrived, move.to_square, wanted)

    def check_least_bad(self, claim: Claim, men: list[chess.Square]) -> None:
        """The line shows the least bad of the men's moves, all of which lose, and the counts are right."""
        side = SIDES[claim.side]
        require(claim.line, "no line shows the least bad move")
        board = self.turn_of(side)
        moves = [move for move in board.legal_moves if move.from_square in men]
        require(moves, "no legal move at all")
        require(board.parse_uci(claim.line[0]) in moves, "the line starts with another man's move")
        for move in moves:
            require(self.loses(board, move), f"{board.san(move)} loses nothing")
            better = self.keeps(board, move, 1 - MATE if claim.mated else claim.gain + 1)
            require(not better, f"{board.san(move)} is less bad than the line")
        self.check_numbers(claim, moves=len(moves))
        self.check_least_loss(claim)

    def check_least_loss(self, claim: Claim) -> None:
        if not claim.mated:
            loss = self.judged(SIDES[claim.side])[1] - claim.gain
            require(claim.numbers["least_loss"] == loss >= LEAST_GAIN, f"the least loss is {loss}")

    @staticmethod
    def check_numbers(claim: Claim, **numbers: int) -> None:
        for name, value in numbers.items():
            require(claim.numbers.get(name) == value, f"{name} is {value}")

    @staticmethod
    def check_squares(claim: Claim, squares: Iterable[chess.Square]) -> None:
        right = sorted(set(squares))
        named = sorted(chess.parse_square(square) for square in claim.squares)
        require(named == right, f"the squares are {' '.join(map(chess.square_name, right)) or 'none'}")

    @staticmethod
    def men_of(claim: Claim, count: int | None = None) -> list[chess.Square]:
        require(count is None or len(claim.pieces) == count, f"{count} men expected")
        return [chess.parse_square(square) for square, _ in claim.pieces]


def played(board: chess.Board, move: chess.Move) -> chess.Board:
    board = board.copy(stack=False)
    board.push(move)
    return board


def turned(board: chess.Board) -> chess.Board:
    board = board.copy(stack=False)
    hand_over(board)
    return board


def hand_over(board: chess.Board) -> None:
    """Gives the move to the other side; en passant lapses."""
    board.turn = not board.turn
    board.ep_square = None


def is_quiet(board: chess.Board, move: chess.Move) -> bool:
    """Neither check, capture nor promotion."""
    return not (move.promotion or captured_kind(board, move) or board.gives_check(move))
