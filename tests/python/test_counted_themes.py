"""The verifier's themes that count: true claims and what makes them false, what a condition less takes away, omissions."""

import pytest

from truth.adapter import claims_about
from truth.claim import BLACK, WHITE, Claim
from truth.falsified import claim, falsified
from truth.verifier import Verifier, verify

ADVANCE_FRENCH = "rnbqkbnr/pp3ppp/4p3/2ppP3/3P4/2P5/PP3PPP/RNBQKBNR b KQkq - 0 4"
FRENCH = "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1"
WEAK = "4k3/p4p2/3p1p2/4p3/4P3/1P6/P7/4K3 w - - 0 1"
PASSED = "4k3/5p2/8/1PP5/P7/8/5P2/4K3 w - - 0 1"
WINGS = "4k3/5ppp/8/p7/P1P5/8/PP3P1P/4K3 w - - 0 1"
DEVELOPED = "rnbqkbnr/ppp2ppp/3p4/4p3/2B1P3/2N2N2/PPPP1PPP/R1BQK2R b KQkq - 0 4"
SPACE = "rnbqkbnr/ppp2ppp/3pp3/8/2PPP3/8/PP3PPP/RNBQKBNR b KQkq - 0 3"
CENTRE = "d1 e1 d2 e2 d3 e3 d4 e4 d5 e5 d6 e6 d7 e7 d8 e8"

TRUE_CLAIMS = [
    ("3r2k1/8/8/8/8/8/3Q4/3R2K1 w - - 0 1", claim("battery", WHITE, "d3 d4 d5 d6 d7 d8", "Qd2 Rd1 rd8")),
    (
        "4k3/pp3ppp/3p4/8/4P3/2N1N3/5PPP/N3K3 w - - 0 1",
        claim("hole", WHITE, "d5", "Nc3 Ne3", numbers={"squares": 1}),
    ),
    (
        "4k3/pp3ppp/3p4/8/4P3/2N1N3/5PPP/N3K3 w - - 0 1",
        claim("outpost", WHITE, "d5", "Nc3 Ne3", detail="within_reach", numbers={"moves_to_go": 1}),
    ),
    (
        ADVANCE_FRENCH,
        claim("outpost", WHITE, "d6", "Nb1 Bc1", detail="within_reach", numbers={"moves_to_go": 3}),
    ),
    ("4k3/pp3ppp/3p4/3Np3/4P3/5B2/PP3PPP/4K3 w - - 0 1", claim("outpost", WHITE, "d5", "Nd5", detail="held_by_piece")),
    (
        SPACE,
        claim("space", WHITE, "c1 d1 e1 f1 c2 d2 e2 c3 d3 e3 f3", numbers={"squares": 11, "squares_of_other": 6}),
    ),
    (
        FRENCH,
        claim(
            *("good_bishop", WHITE, "d4 e5", "Bd3 Pd4 Pe5"),
            numbers={"fixed_pawns": 2, "pawns_on_colour": 2, "scope": 5},
        ),
    ),
    (
        FRENCH,
        claim(
            *("bad_bishop", WHITE, "d5 e6 f7", "bc8 pd5 pe6 pf7"),
            numbers={"fixed_pawns": 3, "pawns_on_colour": 6, "scope": 1},
        ),
    ),
    (
        "4k3/p7/8/Np1p4/8/1P6/2P5/4K3 w - - 0 1",
        claim("rim_knight", BLACK, "c6 b7", "Na5", numbers={"scope": 2, "usual_scope": 4}),
    ),
    (DEVELOPED, claim("undeveloped", WHITE, "b8 c8 f8 g8", "nb8 bc8 bf8 ng8", numbers={"pieces": 4})),
    (
        "4k3/8/8/8/4P3/3P4/P1P5/1B2K2R w - - 0 1",
        claim("passive_piece", BLACK, "", "Bb1", numbers={"scope": 0, "usual_scope": 4}),
    ),
    ("r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1", claim("guarding_only", BLACK, "a2", "Ra1 Pa2", numbers={"duties": 1})),
    (ADVANCE_FRENCH, claim("guarding_only", WHITE, "c5", "bf8 pc5", numbers={"duties": 1})),
    (WEAK, claim("isolated_pawn", BLACK, "e4", "Pe4", numbers={"pieces": 1})),
    (WEAK, claim("doubled_pawns", WHITE, "f6 f7", "pf6 pf7", numbers={"pieces": 2})),
    (WEAK, claim("backward_pawn", WHITE, "d6 f6", "pd6 pf6", numbers={"pieces": 2})),
    (PASSED, claim("passed_pawn", WHITE, "a5 a6 a7 a8", "Pa4 Pb5", detail="connected", numbers={"steps": 4})),
    (PASSED, claim("passed_pawn", WHITE, "b6 b7 b8", "Pb5 Pa4", detail="guarded_by_pawn", numbers={"steps": 3})),
    (
        "4k3/P4pp1/8/8/8/8/5PP1/4K3 w - - 0 1",
        claim("passed_pawn", WHITE, "a8", "Pa7", detail="outside", numbers={"steps": 1}),
    ),
    (
        "4k3/6p1/8/8/8/8/5PP1/4K3 w - - 0 1",
        claim("candidate_to_pass", WHITE, "g2 g7", "Pf2 Pg2 pg7", numbers={"squares": 1, "squares_of_other": 1}),
    ),
    (ADVANCE_FRENCH, claim("pawn_chain", WHITE, "b2 c3 d4 e5", "Pb2 Pc3 Pd4 Pe5", numbers={"pieces": 4})),
    (
        "4k3/2p5/4p3/3pP3/3P4/8/8/4K3 b - - 0 1",
        claim("pawn_chain", BLACK, "d4 e5", "Pd4 Pe5", detail="attackable", numbers={"pieces": 2}),
    ),
    (
        "4k3/8/4p3/2ppP3/3P4/8/8/4K3 b - - 0 1",
        claim("pawn_chain", BLACK, "d4 e5", "Pd4 Pe5", detail="attacked_already", numbers={"pieces": 2}),
    ),
    (
        WINGS,
        claim(
            "pawn_islands", BLACK, "a2 b2 f2 h2 a4 c4 a5 f7 g7 h7", numbers={"islands": 2, "islands_of_other": 3}
        ),
    ),
    (
        WINGS,
        claim(
            *("pawn_majority", WHITE, "a2 b2 a4 c4 a5", "Pa2 Pb2 Pa4 Pc4"),
            detail="queenside",
            numbers={"squares": 4, "squares_of_other": 1, "majority": 3},
        ),
    ),
    (
        WINGS,
        claim(
            *("pawn_majority", BLACK, "f2 h2 f7 g7 h7", "pf7 pg7 ph7"),
            detail="kingside",
            numbers={"squares": 3, "squares_of_other": 2, "majority": 1},
        ),
    ),
    (
        "4k3/8/8/3p4/8/3KP3/8/8 w - - 0 1",
        claim("pawn_lever", WHITE, "e4", "Pe3 pd5", detail="on_open_file", numbers={"guards": 1, "attackers": 1}),
    ),
    (
        ADVANCE_FRENCH,
        claim("pawn_lever", BLACK, "f6", "pf7 Pe5", detail="on_half_open_file", numbers={"guards": 3, "attackers": 1}),
    ),
    (
        "4k3/8/3n4/3P4/8/4P3/4P3/4K3 w - - 0 1",
        claim("blocked_pawns", BLACK, "d6", "Pd5 nd6", detail="blocked_by_piece", numbers={"pieces": 1}),
    ),
    (
        ADVANCE_FRENCH,
        claim("blocked_pawns", BLACK, "d4 d5 e5 e6", "Pd4 pd5 Pe5 pe6", detail="fixed_by_pawn", numbers={"pieces": 4}),
    ),
    (
        "3q2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1",
        claim(
            *("king_shelter", BLACK, "h2 h3", "Kg1 Pf2 Pg3"),
            numbers={"shield_pawns": 2, "open_files": 0, "half_open_files": 0},
        ),
    ),
    (
        "6k1/5p1p/8/8/3Q4/8/5P2/6K1 w - - 0 1",
        claim("king_lines", WHITE, "g1 g2 g3 g4 g5 g6 g7 g8", "kg8", detail="on_open_file"),
    ),
    (
        "6k1/5p1p/8/8/3Q4/8/5P2/6K1 w - - 0 1",
        claim("king_lines", WHITE, "a1 b2 c3 e5 f6 g7 h8", "kg8 Qd4", detail="on_diagonal"),
    ),
    (
        "3q1rk1/5pp1/8/8/7r/6P1/5P1P/6K1 w - - 0 1",
        claim("king_lines", BLACK, "h1 h2 h3 h4 h5 h6 h7 h8", "Kg1 rh4", detail="on_half_open_file"),
    ),
    (
        "6k1/5ppp/8/4N2Q/8/8/5PPP/6K1 w - - 0 1",
        claim("near_king", WHITE, "f7 h7", "kg8 Ne5 Qh5", numbers={"attackers": 2, "defenders": 0}),
    ),
    (
        "6k1/5ppp/8/8/8/8/8/4R1K1 w - - 0 1",
        claim("king_escape", WHITE, "f8 h8", "kg8", detail="no_luft", numbers={"escape_squares": 2}),
    ),
    # The rook looks through the king: h8 is no escape.
    ("4R1k1/5ppp/8/8/8/8/8/6K1 b - - 0 1", claim("king_escape", WHITE, "", "kg8", numbers={"escape_squares": 0})),
    (
        "4k2r/5ppp/8/8/8/8/5PPP/3Q2K1 w k - 0 1",
        claim(
            *("king_in_centre", WHITE, CENTRE, "ke8"),
            detail="may_castle",
            numbers={"open_files": 2, "half_open_files": 0},
        ),
    ),
    (
        "4k2r/3p1ppp/8/8/8/3P4/4PPPP/3Q2K1 w - - 0 1",
        claim(
            *("king_in_centre", WHITE, "", "ke8"),
            detail="may_not_castle",
            numbers={"open_files": 0, "half_open_files": 0},
        ),
    ),
]


def test_every_counted_theme_has_a_true_claim() -> None:
    assert {claim.theme for _, claim in TRUE_CLAIMS} == Verifier.counted_themes()


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=lambda value: getattr(value, "theme", ""))
def test_true_claims_pass(fen: str, claim: Claim) -> None:
    assert verify(claim, fen) == []


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=lambda value: getattr(value, "theme", ""))
def test_any_change_makes_them_false(fen: str, claim: Claim) -> None:
    verifier = Verifier(fen)
    changes = [*falsified(claim), ("after a pass", claim.with_changes(after_pass=True))]
    passed = [what for what, lie in changes if not verifier.violations(lie)]
    assert not passed


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=lambda value: getattr(value, "theme", ""))
def test_what_is_left_out_or_said_twice_is_found(fen: str, claim: Claim) -> None:
    verifier = Verifier(fen)
    others = [said for theme in verifier.counted_themes() for said in verifier.every(theme) if said != claim]
    assert verifier.counted_omissions(others) == [f"left out: {claim}"]
    assert verifier.counted_omissions([claim, *others]) == []
    assert verifier.counted_omissions([claim, *others, claim]) == [f"said twice: {claim}"]


@pytest.mark.parametrize("fen", sorted({fen for fen, _ in TRUE_CLAIMS}))
def test_the_library_says_all_of_it(fen: str) -> None:
    assert Verifier(fen).omissions(claims_about(fen)) == []


# (theme, side, detail): a position that shows it, and positions that do not, each for the reason that is said.
CONDITIONS = {
    ("battery", WHITE, "none"): (
        "3r2k1/8/8/8/8/8/3Q4/3R2K1 w - - 0 1",
        {
            "something stands between": "3r2k1/8/8/8/8/3Q4/3N4/3R2K1 w - - 0 1",
            "the front man moves on other lines": "3r2k1/8/8/8/8/8/3B4/3R2K1 w - - 0 1",
            "a pawn far from the king": "6k1/8/8/3p4/8/8/3Q4/3R2K1 w - - 0 1",
            "an own man beside the king": "4k3/3N4/8/8/8/8/3Q4/3R2K1 w - - 0 1",
            "nothing there": "6k1/8/8/8/8/8/3Q4/3R2K1 w - - 0 1",
        },
    ),
    ("hole", WHITE, "none"): (
        "4k3/pp3ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1",
        {
            "the c-pawn can guard d5": "4k3/ppp2ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1",
            "one man aims at it": "4k3/pp3ppp/3p4/4p3/8/2N5/PP3PPP/4K3 w - - 0 1",
            "no minor piece aims at it": "4k3/pp3ppp/3p4/4p3/4P3/8/PP1R1PPP/3RK3 w - - 0 1",
            "no pawn is left": "4k3/8/8/8/4P3/2N5/8/4K3 w - - 0 1",
            "on the second rank": "6k1/pp1N1ppp/8/8/8/8/PP3PPP/3R2K1 w - - 0 1",
        },
    ),
    ("outpost", WHITE, "held_by_piece"): (
        "4k3/pp3ppp/3p4/3N4/4P3/8/5PPP/4K3 w - - 0 1",
        {
            "the c-pawn can attack it": "4k3/ppp2ppp/3p4/3N4/4P3/8/5PPP/4K3 w - - 0 1",
            "no pawn guards it": "4k3/pp3ppp/3p4/3N4/8/4P3/5PPP/4K3 w - - 0 1",
            "a rook": "4k3/pp3ppp/3p4/3R4/4P3/8/5PPP/4K3 w - - 0 1",
            "on the eighth rank": "3N3k/4P3/8/8/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("outpost", WHITE, "within_reach"): (
        "4k3/pp3ppp/3p4/8/4P3/2N5/5PPP/4K3 w - - 0 1",
        {
            "pinned": "4k3/pp3ppp/3p4/8/1b2P3/2N5/3K1PPP/8 w - - 0 1",
            "the king is in check": "4k3/pp3ppp/3p4/8/4P3/2N5/5PPP/r3K3 w - - 0 1",
            "an own pawn stands there": "4k3/pp3ppp/3p4/3P4/4P3/2N5/5PPP/4K3 w - - 0 1",
            "the bishop has the other colour": "4k3/pp3p1p/3p2p1/8/4P3/2B5/6PP/4K3 w - - 0 1",
        },
    ),
    ("space", WHITE, "none"): (SPACE, {"an endgame": "4k3/ppp2ppp/3pp3/8/2PPP3/8/PP3PPP/4K3 w - - 0 1"}),
    ("good_bishop", WHITE, "none"): (
        FRENCH,
        {
            "shut in": "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/8/PP2PPPP/R3KB2 w - - 0 1",
            "the other colour": "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/2B5/PP3PPP/R3K3 w - - 0 1",
        },
    ),
    ("bad_bishop", WHITE, "none"): (
        "4k3/7b/2p3p1/2P3Pp/7P/8/8/4K3 w - - 0 1",
        {
            "no fixed pawn on the middle files": "4k3/7b/6p1/1p4Pp/1P5P/8/8/4K3 w - - 0 1",
            "outside its pawns": "4k3/8/2p3p1/2P2bPp/7P/8/8/4K3 w - - 0 1",
            "the other colour": "4k3/6b1/2p3p1/2P3Pp/7P/8/8/4K3 w - - 0 1",
            "nothing is fixed": "4k3/7b/2p3p1/7p/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("rim_knight", BLACK, "none"): (
        "4k3/p7/8/Np1p4/8/1P6/2P5/4K3 w - - 0 1",
        {
            "room enough": "4k3/8/8/N1p5/3p4/P7/1PP5/4K3 w - - 0 1",
            "not on the rim": "4k3/p7/8/1pNp4/8/1P6/2P5/4K3 w - - 0 1",
        },
    ),
    ("undeveloped", BLACK, "none"): (
        "r1bqk2r/8/8/8/8/8/8/R1BQKB1R w - - 0 1",
        {
            "the bishop beside the king on g1 has moved": "r1bqk2r/8/8/8/8/8/8/R1BQ1BK1 w - - 0 1",
            "an endgame": "4k2r/8/8/8/8/8/8/RNB1K3 w - - 0 1",
            "as many on both sides": "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        },
    ),
    ("passive_piece", BLACK, "none"): (
        "4k3/8/8/8/8/8/2P5/N3K3 w - - 0 1",
        {
            "half of the usual": "4k3/8/8/8/8/8/8/N3K3 w - - 0 1",
            "two alike": "4k3/8/8/8/8/8/PP4PP/RN2K1NR w - - 0 1",
            "two undeveloped pieces": "r2qk2r/pppbbppp/2np1n2/4p3/4P3/2N2N2/PPPP1PPP/R1BQKB1R w - - 0 1",
        },
    ),
    ("guarding_only", BLACK, "none"): (
        "r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1",
        {
            "looks into the other half": "r5k1/P7/8/8/8/8/6PP/R5K1 w - - 0 1",
            "nothing would fall": "1r4k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1",
        },
    ),
    ("isolated_pawn", BLACK, "none"): (
        "4k3/8/8/8/4P3/8/8/4K3 w - - 0 1",
        {"a neighbour": "4k3/8/8/8/4P3/8/3P4/4K3 w - - 0 1"},
    ),
    ("doubled_pawns", BLACK, "none"): (
        "4k3/8/8/8/4P3/4P3/8/4K3 w - - 0 1",
        {
            "on two files": "4k3/8/8/8/4P3/3P4/8/4K3 w - - 0 1",
            "of two sides": "4k3/8/4p3/8/4P3/8/8/4K3 w - - 0 1",
        },
    ),
    ("backward_pawn", WHITE, "none"): (
        "4k3/8/3p4/4p3/4P3/8/8/4K3 w - - 0 1",
        {
            "a neighbour is level with it": "4k3/8/3pp3/8/4P3/8/8/4K3 w - - 0 1",
            "no pawn attacks the square before it": "4k3/8/3p4/4p3/8/8/8/4K3 w - - 0 1",
            "isolated": "4k3/8/3p4/8/4P3/8/8/4K3 w - - 0 1",
        },
    ),
    ("passed_pawn", WHITE, "none"): (
        "4k3/8/8/4P3/8/8/8/4K3 w - - 0 1",
        {
            "an enemy pawn beside its way": "4k3/5p2/8/4P3/8/8/8/4K3 w - - 0 1",
            "an enemy pawn on its way": "4k3/4p3/8/4P3/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("passed_pawn", WHITE, "outside"): (
        "4k3/P4pp1/8/8/8/8/5PP1/4K3 w - - 0 1",
        {
            "two files away": "4k3/P1p3p1/8/8/8/8/8/4K3 w - - 0 1",
            "in the middle": "4k3/3P3p/8/8/8/8/8/4K3 w - - 0 1",
            "no other pawns": "4k3/P7/8/8/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("candidate_to_pass", WHITE, "none"): (
        "4k3/6p1/8/8/8/8/5PP1/4K3 w - - 0 1",
        {
            "more sentries": "4k3/4p1p1/8/8/8/8/5PP1/4K3 w - - 0 1",
            "the neighbour is ahead": "4k3/6p1/8/6P1/8/8/5P2/4K3 w - - 0 1",
            "a pawn before it": "4k3/5pp1/8/8/8/8/5PP1/4K3 w - - 0 1",
            "passed": "4k3/8/8/8/8/8/5PP1/4K3 w - - 0 1",
        },
    ),
    ("pawn_chain", WHITE, "none"): (
        "4k3/8/8/8/3P4/2P5/1P6/4K3 w - - 0 1",
        {"a roof": "4k3/8/8/8/3P4/2P1P3/8/4K3 w - - 0 1"},
    ),
    ("pawn_chain", BLACK, "attackable"): (
        "4k3/2p5/4p3/3pP3/3P4/8/8/4K3 b - - 0 1",
        {"the pawn is blocked": "4k3/2p5/2N1p3/3pP3/3P4/8/8/4K3 b - - 0 1"},
    ),
    ("pawn_chain", BLACK, "attacked_already"): (
        "4k3/8/4p3/2ppP3/3P4/8/8/4K3 b - - 0 1",
        {"not yet": "4k3/8/2p1p3/3pP3/3P4/8/8/4K3 b - - 0 1"},
    ),
    ("pawn_islands", BLACK, "none"): (
        WINGS,
        {
            "as many": "4k3/5ppp/8/p7/P7/8/PP3P2/4K3 w - - 0 1",
            "no pawns at all": "4k3/8/8/8/8/8/P1P5/4K3 w - - 0 1",
        },
    ),
    ("pawn_majority", WHITE, "queenside"): (
        "4k3/p7/8/8/8/8/PP6/4K3 w - - 0 1",
        {
            "as many": "4k3/p7/8/8/8/8/P4P2/4K3 w - - 0 1",
            "against nothing": "4k3/8/8/8/8/8/PP6/4K3 w - - 0 1",
        },
    ),
    ("pawn_lever", WHITE, "on_open_file"): (
        "4k3/8/8/3p4/8/3KP3/8/8 w - - 0 1",
        {
            "fewer guards than attackers": "4k3/8/8/3p4/8/4P3/4K3/8 w - - 0 1",
            "no contact": "4k3/8/3p4/8/8/3KP3/8/8 w - - 0 1",
            "a man stands there": "4k3/8/8/3p4/4n3/3KP3/8/8 w - - 0 1",
            "the file stays half-open": "4k3/4p3/8/3p4/8/3KP3/8/8 w - - 0 1",
        },
    ),
    ("pawn_lever", WHITE, "none"): (
        "4k3/8/8/3p4/8/3KP3/4P3/8 w - - 0 1",
        {"the file opens": "4k3/8/8/3p4/8/3K4/4P3/8 w - - 0 1"},
    ),
    ("pawn_lever", WHITE, "on_half_open_file"): (
        "4k3/4p3/8/3p4/8/3K4/4P3/8 w - - 0 1",
        {"a man on the way": "4k3/4p3/8/3p4/8/3Kn3/4P3/8 w - - 0 1"},
    ),
    ("blocked_pawns", BLACK, "blocked_by_piece"): (
        "4k3/8/3n4/3P4/8/8/8/4K3 w - - 0 1",
        {
            "by its own side": "4k3/8/3N4/3P4/8/8/8/4K3 w - - 0 1",
            "by a pawn": "4k3/8/3p4/3P4/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("blocked_pawns", BLACK, "fixed_by_pawn"): (
        "4k3/8/4p3/3pP3/3P4/8/8/4K3 b - - 0 1",
        {
            "one pair": "4k3/8/8/3p4/3P4/8/8/4K3 b - - 0 1",
            "the other side is to move": "4k3/8/4p3/3pP3/3P4/8/8/4K3 w - - 0 1",
        },
    ),
    ("king_shelter", BLACK, "none"): (
        "3q2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1",
        {
            "one rook": "3r2k1/5ppp/8/8/8/6P1/5P2/6K1 w - - 0 1",
            "complete": "3q2k1/5ppp/8/8/8/7P/5PP1/6K1 w - - 0 1",
            "the king is in the centre": "3q2k1/5ppp/8/8/8/8/8/4K3 w - - 0 1",
        },
    ),
    ("king_lines", BLACK, "on_half_open_file"): (
        "3q1rk1/5pp1/8/8/7r/6P1/5P1P/6K1 w - - 0 1",
        {
            "nobody on it": "3q1rk1/5pp1/8/8/8/6P1/5P1P/6K1 w - - 0 1",
            "another file": "3q1rk1/5pp1/8/8/r7/6P1/P4P1P/6K1 w - - 0 1",
        },
    ),
    ("king_lines", WHITE, "on_diagonal"): (
        "6k1/5p1p/8/8/3Q4/8/5P2/6K1 w - - 0 1",
        {
            "a man between": "6k1/5p1p/5n2/8/3Q4/8/5P2/6K1 w - - 0 1",
            "a bishop alone": "6k1/5p1p/8/8/3B4/8/5P2/6K1 w - - 0 1",
        },
    ),
    ("near_king", WHITE, "none"): (
        "6k1/5ppp/8/4N2Q/8/8/5PPP/6K1 w - - 0 1",
        {
            "one attacker": "6k1/5ppp/8/7Q/8/8/5PPP/6K1 w - - 0 1",
            "the king does not count": "7k/5K2/8/7Q/8/8/8/8 w - - 0 1",
        },
    ),
    ("king_escape", WHITE, "none"): (
        "5rkr/5ppp/8/8/8/8/8/4N1K1 w - - 0 1",
        {"a square": "5rk1/5ppp/8/8/8/8/8/4N1K1 w - - 0 1"},
    ),
    ("king_escape", WHITE, "no_luft"): (
        "6k1/5ppp/8/8/8/8/8/4R1K1 w - - 0 1",
        {
            "luft": "6k1/5pp1/7p/8/8/8/8/4R1K1 w - - 0 1",
            "no rook and no queen": "6k1/5ppp/8/8/8/8/8/4B1K1 w - - 0 1",
            "no file": "6k1/5ppp/8/8/8/PPPPPPPP/8/4R1K1 w - - 0 1",
            "a right to castle": "4k2r/3ppp2/8/8/8/8/8/R5K1 w k - 0 1",
            "not on the first rank": "8/3ppp2/4k3/3ppp2/8/8/8/R5K1 w - - 0 1",
        },
    ),
    ("king_in_centre", WHITE, "may_castle"): (
        "4k2r/5ppp/8/8/8/8/5PPP/3Q2K1 w k - 0 1",
        {
            "nothing is open": "4k2r/3PpPpp/8/8/8/4P3/5PPP/3Q2K1 b k - 0 1",
            "no queen": "4k2r/5ppp/8/8/8/8/5PPP/3R2K1 w k - 0 1",
        },
    ),
    ("king_in_centre", WHITE, "may_not_castle"): (
        "4k2r/3p1ppp/8/8/8/3P4/4PPPP/3Q2K1 w - - 0 1",
        {
            "on the third rank": "8/5ppp/4k3/8/8/8/5PPP/3Q2K1 w - - 0 1",
            "on the f-file": "5k2/5ppp/8/8/8/8/5PPP/3Q2K1 w - - 0 1",
            "may castle": "4k2r/5ppp/8/8/8/8/5PPP/3Q2K1 w k - 0 1",
        },
    ),
}


def test_every_counted_theme_has_its_conditions() -> None:
    assert {theme for theme, _, _ in CONDITIONS} == Verifier.counted_themes()


@pytest.mark.parametrize("subject", CONDITIONS, ids=" ".join)
def test_each_condition_is_needed(subject: tuple[str, str, str]) -> None:
    theme, side, detail = subject
    shown, others = CONDITIONS[subject]

    def shows(fen: str) -> bool:
        return any((said.side, said.detail) == (side, detail) for said in Verifier(fen).every(theme))

    assert shows(shown)
    assert not [why for why, fen in others.items() if shows(fen)]
