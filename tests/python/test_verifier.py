"""The verifier can fail: claims that are true, and everything that makes them false."""

from collections import Counter

import chess
import pytest

from truth.calculations import MATE, Bound, Referee, captured_kind, gain_of_move, quiet_checks
from truth.claim import BLACK, WHITE, Claim
from truth.falsified import claim, falsified
from truth.forcing import mates_at_once, possible_checks, special_pawn_moves
from truth.positions import from_random_play, from_random_setup
from truth.verifier import Verifier, verify

BACK_RANK = "3r2k1/p4ppp/8/8/8/8/5PPP/R5K1 w - - 0 1"
PINNED_GUARD = "r2q1rk1/pp1nbpp1/2pp1nbp/8/3P1N2/1BN4P/PPP2PP1/R1BQ1RK1 w - - 0 1"
OVERLOADED = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1"
KNIGHTS = "3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1"
SHIELD = "r3r1k1/1q1nppbp/p5p1/1pp5/5Q2/1PN3P1/PBP1PP1P/R2R2K1 w - - 0 1"
DENIED = "2qrr1k1/p3bpp1/1p3n1p/2p1p3/7P/2NP2P1/PP2PPBK/R2Q1R2 b - - 0 1"
STUFFED = "r1b2rk1/pp3pbp/3q2p1/4p3/1P1pP3/P1nN1P2/2P2QPP/R1B1RBK1 w - - 0 1"
ROOKS = "6k1/1R3ppp/8/8/8/1R6/5PPP/6K1 w - - 0 1"
GUARDIAN = "2r1r1k1/1b2npbp/pq2p1p1/1p1pP3/2pP1B2/2P1QN2/PP1N1PPP/R3R1K1 w - - 0 1"
EXCHANGE_UP = "2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1"


TRUE_CLAIMS = [
    (
        PINNED_GUARD,
        claim(
            *("hanging", WHITE, "g6", "bg6 Nf4", "f4g6"),
            detail="guard_pinned",
            gain=3,
            numbers={"attackers": 1, "guards": 1},
        ),
    ),
    (
        BACK_RANK,
        claim(
            *("poisoned", WHITE, "a7", "pa7 Ra1", "a1a7 d8d1"),
            gain=1,
            mated=True,
            numbers={"attackers": 1, "guards": 0},
        ),
    ),
    (GUARDIAN, claim("loose", WHITE, "b6", "qb6", detail="in_play")),
    (
        OVERLOADED,
        claim(
            *("guard_duty", WHITE, "d5", "rd8 bd5", "d1d5"),
            detail="guards_man",
            gain=3,
            removed="d8",
        ),
    ),
    (
        OVERLOADED,
        claim("guard_duty", WHITE, "e8", "rd8", "e1e8", detail="stops_mate", mate=True, removed="d8"),
    ),
    (
        OVERLOADED,
        claim(
            *("overloaded", WHITE, "d5 e8", "rd8 bd5", "d1d5"),
            gain=3,
            point=("d1d5", "d8d5", "e1e8"),
            numbers={"duties": 2},
        ),
    ),
    (
        KNIGHTS,
        claim(
            *("tied", WHITE, "d4", "Ne2", "e2c1 d8d4"),
            gain=-3,
            numbers={"least_loss": 3, "duties": 1, "moves": 4},
        ),
    ),
    (
        KNIGHTS,
        claim(
            *("mutual_guards", WHITE, "", "Ne2 Nd4", "e2c1 d8d4"),
            detail="locked",
            gain=-3,
            numbers={"attackers": 2, "least_loss": 3, "moves": 11, "safe_moves": 0},
        ),
    ),
    (
        SHIELD,
        claim(
            *("shield_pair", WHITE, "", "Bb2 Nc3", "c3a4 b5a4 b2g7 g8g7 b3a4"),
            detail="locked",
            gain=-2,
            numbers={"attackers": 1, "least_loss": 2, "moves": 7, "safe_moves": 0},
        ),
    ),
    (
        DENIED,
        claim(
            *("denied_square", BLACK, "d7", "rd8", "d8d7 g2h3 b6b5 h3d7 c8d7"),
            gain=-2,
            numbers={"least_loss": 2},
        ),
    ),
    (DENIED, claim("rook_scope", BLACK, "d4 d6", "rd8", numbers={"moves": 5, "safe_moves": 2})),
    (
        STUFFED,
        claim(
            *("stuffed_rooks", WHITE, "b1 d1 a2 e2 e3", "Ra1 Re1", "e1e2 c3e2 f1e2"),
            gain=-2,
            numbers={"least_loss": 2, "rooks": 2, "moves": 5},
        ),
    ),
    (DENIED, claim("open_file", WHITE, "c1", "Ra1", detail="can_take_half_open_file")),
    (ROOKS, claim("seventh_rank", WHITE, "a7 b7 c7 d7 e7 f7 g7 h7", "Rb7")),
    (ROOKS, claim("doubled_rooks", WHITE, "b3 b4 b5 b6 b7", "Rb3 Rb7")),
    (KNIGHTS, claim("connected_rooks", BLACK, "d8 e8", "rd8 re8")),
    (OVERLOADED, claim("entry_square", WHITE, "e7", "Re1")),
    (
        KNIGHTS,
        claim(
            *("square_control", BLACK),
            "e4 d5 e5 a6 b6 c6 d6 e6 f6 g6 h6 d7 e7 f7 g7 h7 a8 b8 c8 d8 e8 f8 g8 h8",
            numbers={"held": 24, "held_by_other": 19},
        ),
    ),
    (
        GUARDIAN,
        claim(
            *("colour_complex", BLACK, "c2 d3 a4 c4 e4", "bb7 Pc3 Pd4 Pe5"),
            detail="light",
            numbers={
                **{"held": 19, "held_by_other": 9, "attacked": 20, "attacked_by_other": 13, "holes": 5},
                **{"fixed_pawns": 3, "pawns_on_colour": 2, "bishops": 1, "bishops_of_other": 0},
            },
        ),
    ),
    (
        GUARDIAN,
        claim(
            *("guardian", BLACK, "e5 f6 h6", "bg7"),
            detail="dark",
            removed="g7",
            numbers={"held": 9, "held_without": 9, "attacked": 14, "attacked_without": 11, "change": 3},
        ),
    ),
    (
        EXCHANGE_UP,
        claim(
            *("material", WHITE, "d1 h1 f6 b7 e7", "Rd1 Rh1 nf6 bb7 be7"),
            detail="the_exchange",
            numbers={"material": 2, "queens": 0, "rooks": 1, "minors": -1, "pawns": 0, "exchanges": 1},
        ),
    ),
    (
        EXCHANGE_UP,
        claim(
            *("exchange_imbalance", BLACK, "b1 d1 h1 a2 c2 c3 f6 b7 e7", "Rd1 Rh1 nf6 bb7 be7"),
            detail="enough_compensation",
            numbers={
                **{"material": -2, "pawns": 0, "exchanges": 1, "compensation": 9, "rook_files": 2},
                **{"bishop_pairs": 1, "missing_shield": 1, "weak_pawns": 4},
            },
        ),
    ),
]

@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=lambda value: getattr(value, "theme", ""))
def test_true_claims_pass(fen: str, claim: Claim) -> None:
    assert verify(claim, fen) == []


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=lambda value: getattr(value, "theme", ""))
def test_any_change_makes_them_false(fen: str, claim: Claim) -> None:
    verifier = Verifier(fen)
    passed = [what for what, lie in falsified(claim) if not verifier.violations(lie)]
    assert not passed


GUARDED_TWICE = "r4rk1/ppq2ppp/4pn2/3n1b2/3N4/5B2/PPP1NPPP/R1Q1R1K1 w - - 0 1"
HANGING = "6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1"
OUTNUMBERED = "r2r2k1/pp2qppp/1bn2n2/8/3N4/4B3/PPQ1BPPP/R3R1K1 b - - 0 1"

LIES = {
    "the line lets the other side blunder": (
        OUTNUMBERED,
        claim(
            *("hanging", BLACK, "d4", "Nd4 nc6", "c6d4 a2a3 d4c2"),
            detail="outnumbered",
            gain=12,
            numbers={"attackers": 3, "guards": 1},
        ),
        "better reply",
    ),
    "the line stops before the recapture": (
        OUTNUMBERED,
        claim(
            *("hanging", BLACK, "d4", "Nd4 rd8", "d8d4"),
            detail="outnumbered",
            gain=3,
            numbers={"attackers": 3, "guards": 1},
        ),
        "better reply",
    ),
    "a mate that can be parried": (
        # The rook on d8 takes back, as long as it stands there.
        OVERLOADED,
        claim("overloaded", WHITE, "d5 e8", "rd8 bd5", "d1d5 g7g6 e1e8 d8e8", gain=-2, mate=True),
        "mate is not",
    ),
    "a mate after a blunder": (
        OVERLOADED,
        claim(
            *("overloaded", WHITE, "d5 e8", "rd8 bd5", "d1d5 d8d5 e1e8"),
            gain=-2,
            mate=True,
            point=("d1d5", "d8d5", "e1e8"),
            numbers={"duties": 2},
        ),
        "better reply",
    ),
    "not the best capture": (
        # Both rooks and the knight can take on e5; the rook wins less than the knight.
        "r4rk1/2q2ppp/p2b4/1p1pn3/8/2P2N1P/PP2RPP1/R2BQ1K1 w - - 0 1",
        claim(
            *("hanging", WHITE, "e5", "ne5 Re2", "e2e5 d6e5 f3e5"),
            detail="outnumbered",
            gain=1,
            numbers={"attackers": 2, "guards": 1},
        ),
        "better capture",
    ),
    "poisoned, though the capture wins": (
        HANGING,
        claim(
            *("poisoned", WHITE, "d6", "nd6 Rd1", "d1d6 g8f8 d6d8"),
            gain=3,
            numbers={"attackers": 1, "guards": 0},
        ),
        "loses nothing",
    ),
    "a guard that is not needed": (
        GUARDED_TWICE,
        claim("guard_duty", WHITE, "d5", "pe6 nd5", "f3d5", detail="guards_man", gain=3, removed="e6"),
        "no such duty",
    ),
    "a duty towards a man that hangs anyway": (
        HANGING,
        claim("guard_duty", WHITE, "d6", "ph7 nd6", "d1d6", detail="hinders_attacker", gain=3, removed="h7"),
        "no such duty",
    ),
    "a pinned man taken off the board": (
        PINNED_GUARD,
        claim("guard_duty", WHITE, "g6", "pf7 bg6", "f4g6", detail="guards_man", gain=3, removed="f7"),
        "illegal",
    ),
    "a pass out of check": (
        "4k3/8/8/8/8/8/3n4/4K2r w - - 0 1",
        claim("hanging", BLACK, "d2", "nd2", "d2b1", after_pass=True),
        "illegal",
    ),
    "tied, though a move keeps everything": (
        "2r1rbk1/5ppp/8/4p3/4P2Q/3R2P1/2q2PBP/3R2K1 w - - 0 1",
        claim("tied", WHITE, "d1", "Rd3", "d3a3 f8a3", gain=-5, numbers={"least_loss": 5, "duties": 1, "moves": 12}),
        "less bad",
    ),
    "locked, though a move keeps the guard": (
        "2r1rbk1/5ppp/8/4p3/4P2Q/3R2P1/2q2PBP/3R2K1 w - - 0 1",
        claim(
            *("mutual_guards", WHITE, "", "Rd1 Rd3", "d1c1 c2c1 g2f1 c1f1"),
            detail="locked",
            gain=-8,
            numbers={"attackers": 1, "least_loss": 8, "moves": 17, "safe_moves": 0},
        ),
        "does not get",
    ),
    "a quiet answer that has a reply": (
        DENIED,
        claim("denied_square", BLACK, "d6", "rd8", "d8d6 g2h3 g8h8 h3c8 e8c8", gain=-6, numbers={"least_loss": 6}),
        "answered by",
    ),
    "an attack that has a reply, though another man's": (
        # 22...Ra8 23.Nc7 f4 loses two, but 23...fxe4 keeps everything; what shuts a man in leaves it no way out.
        "1r2r1k1/6pp/BP1p4/3Nppb1/4P3/8/1P3PPP/5RK1 b - - 0 22",
        claim("denied_square", BLACK, "a8", "rb8", "b8a8 d5c7 f5f4 c7a8 e8a8", gain=-2, numbers={"least_loss": 2}),
        "answered by",
    ),
    "a man that is shut in, and loses less": (
        # 1.Bxa7 b6 2.a3 Kb7 3.Bxb6 cxb6 loses one.
        "2k5/ppp2ppp/8/8/8/4B3/PPP2PPP/2K5 w - - 0 1",
        claim(
            *("poisoned", WHITE, "a7", "pa7 Be3", "e3a7 b7b6 a2a3 c8b7 h2h3 b7a7"),
            gain=-2,
            numbers={"attackers": 1, "guards": 0},
        ),
        "answered by",
    ),
    "a square denied that is simply held": (
        DENIED,
        claim("denied_square", BLACK, "d5", "rd8", "d8d5 g2d5", gain=-5, numbers={"least_loss": 5}),
        "simply held",
    ),
    "a warning without a punishment": (
        DENIED,
        claim("denied_square", BLACK, "d6", "rd8", "d8d6 c3e4 g8h8 e4d6 e7d6", gain=-2, numbers={"least_loss": 2}),
        "answered by",
    ),
}


@pytest.mark.parametrize("what", LIES)
def test_lies_are_found(what: str) -> None:
    fen, lie, because = LIES[what]
    violations = verify(lie, fen)
    assert violations and because in violations[0]


@pytest.mark.parametrize("chess960", [False, True])
def test_quiet_checks_are_those_that_trying_every_move_finds(chess960: bool) -> None:
    found = 0
    for fen in from_random_play(150, seed=77, chess960=chess960):
        board = chess.Board(fen, chess960=chess960)
        quiet = (move for move in board.legal_moves if not move.promotion and not captured_kind(board, move))
        checks = {move for move in quiet if board.gives_check(move)}
        assert set(quiet_checks(board)) == checks, fen
        found += len(checks)
    assert found > 50


@pytest.mark.parametrize("chess960", [False, True])
def test_no_check_and_no_mate_is_overlooked(chess960: bool) -> None:
    """What is found without looking at all moves is what trying every move finds."""
    found: Counter[str] = Counter()
    for fen in [*from_random_play(300, seed=5, chess960=chess960), *from_random_setup(300, seed=6)]:
        board = chess.Board(fen, chess960=chess960)
        tried = {move for move in board.legal_moves if board.gives_check(move)}
        seen = [*possible_checks(board, ~board.occupied_co[board.turn]), *special_pawn_moves(board)]
        assert tried <= set(seen) and len(set(seen)) == len(seen), fen
        assert all(board.is_pseudo_legal(move) for move in seen), fen
        special = {move for move in board.legal_moves if move.promotion or board.is_en_passant(move)}
        assert special <= set(special_pawn_moves(board)), fen
        mates = {move for move in tried if mates_with(board, move)}
        assert set(mates_at_once(board)) == mates, fen
        found.update(checks=len(tried), special=len(special), mates=len(mates))
    assert min(found.values()) > 5, found


def mates_with(board: chess.Board, move: chess.Move) -> bool:
    board.push(move)
    mates = board.is_checkmate()
    board.pop()
    return mates


def everything_tried(board: chess.Board, threshold: int, bound: Bound) -> bool:
    """The game of `Referee` by its definition, every move tried and nothing remembered."""
    if bound.plies == 0 or (not board.is_check() and threshold <= 0):
        return threshold <= 0
    for move in list(board.legal_moves):
        gain = gain_of_move(board, move)
        belongs = board.is_check() or gain or (bound.check_plies and board.gives_check(move))
        board.push(move)
        holds = belongs and not everything_tried(board, gain - threshold + 1, bound.after(1))
        board.pop()
        if holds:
            return True
    return False


def test_the_referee_answers_as_trying_everything_does() -> None:
    answers: Counter[bool] = Counter()
    for fen in [*from_random_play(60, seed=8), *from_random_setup(60, seed=9)]:
        board = chess.Board(fen)
        for bound in (Bound(3, 1), Bound(4, 0), Bound(2, 2)):
            for threshold in (1, 2, 3, 5, 9, MATE):
                answer = everything_tried(board, threshold, bound)
                assert Referee().wins_at_least(board, threshold, bound) == answer, (fen, bound, threshold)
                answers[answer] += 1
    assert min(answers[True], answers[False]) > 200, answers


def test_a_theme_without_a_check_is_an_error() -> None:
    assert verify(claim("zugzwang", WHITE), HANGING) == ["no check is written for the theme zugzwang"]
