"""The verifier can fail at tactics too: true claims, everything that makes them false, and what is left out."""

from collections.abc import Iterator

import pytest

from truth.adapter import claims_about
from truth.claim import BLACK, WHITE, Claim
from truth.falsified import claim, falsified
from truth.verifier import Verifier, verify

TRUE_CLAIMS = [
    (
        "4b3/7k/2R5/1K6/PP6/8/8/1r6 w - - 1 44",
        claim(
            *("pin", BLACK, "b5 c6 d7", "Rc6 be8 Kb5", "b1c1 a4a5 e8c6 b5a6"),
            detail="absolute",
            after_pass=True,
            gain=5,
        ),
    ),
    (
        "2rq2k1/5ppp/8/3p4/8/2N5/2Q2PPP/6K1 b - - 0 1",
        claim(
            *("pin", BLACK, "c2 c3 c4 c5 c6 c7", "Nc3 rc8 Qc2", "d5d4 f2f3 d4c3"),
            detail="relative",
            gain=3,
        ),
    ),
    (
        "4r3/3b1k1p/1p4p1/p2N4/5P2/5KP1/1P1B3P/8 b - - 1 45",
        claim(
            *("pin", BLACK, "f3 e4 d5", "Nd5 bd7 Kf3", "d7c6 h2h3 c6d5 f3f2"),
            detail="absolute_next",
            gain=3,
        ),
    ),
    (
        "5Q2/R7/1pk1b3/2p3KN/5B1P/P5P1/8/4r3 w - - 1 54",
        claim(
            *("pin", WHITE, "e1 e2 e3 e4 e5 e6", "be6 Ra7 re1", "a7e7 e1a1 e7e6 c6b5"),
            detail="relative_next",
            gain=3,
        ),
    ),
    (
        "4k3/7p/1n4p1/2B1K3/6P1/5P2/6P1/8 b - - 3 55",
        claim(
            *("fork", BLACK, "c5 e5 d7", "nb6 Ke5 Bc5"),
            detail="with_check",
            point=("b6d7",),
            numbers={"targets": 2},
        ),
    ),
    (
        "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1",
        claim(
            *("removable_guard", WHITE, "d5 e8", "rd8 bd5", "d1d5 d8a8"),
            detail="by_luring",
            gain=3,
            point=("d1d5", "d8d5", "e1e8"),
            numbers={"targets": 2},
        ),
    ),
    (
        "3qk3/8/5n2/6B1/8/8/8/4K3 w - - 0 1",
        claim(
            *("pin", WHITE, "f6 e7 d8", "nf6 Bg5 qd8"),
            detail="relative",
        ),
    ),
    (
        "r7/p5bk/2n3pp/3B1n2/8/7Q/Pq3PPP/3RB1K1 b - - 1 26",
        claim(
            *("pin", WHITE, "h4 h5 h6 h7", "ph6 Qh3 kh7"),
            detail="absolute",
        ),
    ),
    (
        "7q/8/8/4k3/8/8/3B4/4K3 w - - 0 1",
        claim(
            *("skewer", WHITE, "c3 e5 h8", "Bd2 ke5 qh8", "d2c3 e5e4 c3h8"),
            gain=9,
        ),
    ),
    (
        "8/8/q7/k7/3Q4/4K3/8/8 w - - 20 59",
        claim(
            *("skewer", WHITE, "a1 a5 a6", "Qd4 ka5 qa6"),
            point=("d4a1",),
        ),
    ),
    (
        "4k3/8/8/8/3n4/8/PP6/R3K3 b Q - 0 1",
        claim(
            *("fork", BLACK, "a1 e1 c2", "nd4 Ke1 Ra1", "d4c2 e1d1 c2a1"),
            detail="with_check",
            gain=5,
            numbers={"targets": 2},
        ),
    ),
    (
        "r4rk1/p5pp/1nq1p3/4PpNQ/3P2P1/B7/P4P1P/5RK1 b - - 8 21",
        claim(
            *("double_attack", WHITE, "d5 c6", "Pd4 qc6", "d4d5 h7h6 d5c6"),
            after_pass=True,
            gain=9,
            numbers={"targets": 1},
        ),
    ),
    (
        "4k3/8/8/8/4N3/1q6/8/4R1K1 w - - 0 1",
        claim(
            *("discovered_attack", WHITE, "e2 e3 e4 e5 e6 e7 e8", "Ne4 Re1 ke8", "e4d2 b3e3 e1e3 e8d7"),
            detail="with_check",
            gain=9,
        ),
    ),
    (
        "8/2p5/1p2K3/pP6/Pk1r4/8/3p4/3Q4 b - - 7 78",
        claim(
            *("discovered_attack", BLACK, "d1 d2 d3", "pd2 rd4 Qd1"),
            detail="quiet",
        ),
    ),
    (
        "8/8/1K4p1/3P1p1p/4r1kP/8/3R4/8 b - - 0 50",
        claim(
            *("discovered_attack", BLACK, "f4 g4 h4", "kg4 re4 Ph4", "g4g3 d5d6 e4h4"),
            detail="quiet",
            gain=1,
        ),
    ),
    (
        "3r2k1/8/8/8/8/8/3Q4/3R2K1 w - - 0 1",
        claim(
            *("battery", WHITE, "d3 d4 d5 d6 d7 d8", "Qd2 Rd1 rd8"),
        ),
    ),
    (
        "2k4r/5p2/2nBpP2/4b3/q7/3Q2P1/5P1P/2R3K1 w - - 9 37",
        claim(
            *("removable_guard", WHITE, "e5 c6", "nc6 be5", "c1c6 a4c6 d6e5"),
            detail="by_capture",
            gain=1,
            numbers={"targets": 1},
        ),
    ),
    (
        "8/5kB1/2q2P2/7K/8/8/8/8 b - - 34 74",
        claim(
            *("removable_guard", BLACK, "f6 g7", "Pf6 Bg7"),
            detail="by_capture",
            point=("c6f6",),
            numbers={"targets": 1},
        ),
    ),
    (
        "6k1/5ppp/2n5/4b3/8/8/B4PPP/4R1K1 w - - 0 1",
        claim(
            *("removable_guard", WHITE, "d5 e5", "nc6 be5", "a2d5 e5h2 g1h2"),
            detail="by_driving_off",
            gain=2,
            numbers={"targets": 1},
        ),
    ),
    (
        "3Q1rk1/q4ppp/pn6/1p2p3/2p1P3/PP3P2/2P1N1PP/1R1R2K1 w - - 0 25",
        claim(
            *("removable_guard", BLACK, "d7 d8", "Rd1 Qd8", "b6d7 e2d4 f8d8"),
            detail="by_blocking",
            after_pass=True,
            gain=9,
            numbers={"targets": 1},
        ),
    ),
    (
        "8/5k2/5b2/1pB2p2/8/8/2K5/7q b - - 1 57",
        claim(
            *("trapped_piece", BLACK, "", "Bc5 qh1", "h1c6 c2b1 c6c5"),
            detail="attackable",
            gain=3,
            numbers={"moves": 0},
        ),
    ),
    (
        "r4k1r/pp1b1p2/5N1p/3P4/2R3p1/8/P3nPPP/4R2K b - - 6 25",
        claim(
            *("trapped_piece", WHITE, "c1 g1 c3 g3 d4 f4", "ne2 Re1", "e1e2"),
            detail="attacked_already",
            after_pass=True,
            gain=3,
            numbers={"moves": 6},
        ),
    ),
    (
        "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1",
        claim(
            *("mate_in_one", WHITE, "a8", "", "a1a8"),
            mate=True,
            numbers={"moves": 1},
        ),
    ),
    (
        "7k/8/8/8/8/8/R7/1R4K1 w - - 0 1",
        claim(
            *("mate_in_two", WHITE, "a7 b7", "", "b1b7 h8g8 a2a8"),
            mate=True,
            numbers={"moves": 2},
        ),
    ),
    (
        "6k1/5p1p/2P3p1/8/3Q2K1/3p2P1/PB2r1qP/2R5 b - - 3 35",
        claim(
            *("back_rank", WHITE, "f7 g7 h7", "kg8 Rc1 Qd4", "d4h8"),
            after_pass=True,
            mate=True,
        ),
    ),
    (
        "6k1/5ppp/2n5/4b3/8/8/B4PPP/4R1K1 w - - 0 1",
        claim(
            *("back_rank", WHITE, "f7 g7 h7", "kg8 Re1"),
        ),
    ),
    (
        "8/7k/P7/8/8/8/8/4K3 w - - 0 1",
        claim(
            *("promotion_threat", WHITE, "a7 a8", "Pa6", "a6a7 h7g6 a7a8q"),
            gain=8,
            numbers={"moves_to_go": 2},
        ),
    ),
    (
        "5b2/ppp4p/2k5/4B3/1P6/3R1K2/1P5r/8 b - - 1 41",
        claim(
            *("intermediate_move", WHITE, "h2 c3 d3", "Rd3 rh2", "d3c3 c6b5 e5h2"),
            after_pass=True,
            gain=5,
            numbers={"at_once": 4},
        ),
    ),
]

SISTERS = {
    **{"absolute": "relative", "relative": "absolute", "relative_next": "absolute_next", "absolute_next": "absolute"},
    **{"with_check": "quiet", "quiet": "with_capture"},
    **{"by_capture": "by_driving_off", "by_driving_off": "by_luring", "by_luring": "by_blocking"},
    **{"by_blocking": "by_capture", "attackable": "attacked_already", "attacked_already": "attackable"},
    "none": "light",
}
"""Another detail for each detail above."""


def name_of(value: object) -> str:
    return f"{value.theme} {value.detail}" if isinstance(value, Claim) else ""


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=name_of)
def test_true_claims_pass(fen: str, claim: Claim) -> None:
    assert verify(claim, fen) == []


def changes(claim: Claim) -> Iterator[tuple[str, Claim]]:
    yield from falsified(claim)
    yield "sister", claim.with_changes(detail=SISTERS[claim.detail])
    if claim.point:
        yield "longer point", claim.with_changes(point=(*claim.point, "a1h8"))
        yield "point as a line", claim.with_changes(line=claim.point[:1], point=())
    else:
        yield "point", claim.with_changes(point=claim.line[:1] or ("a2a3",))
        if not claim.line:
            yield "pass", claim.with_changes(after_pass=True)
    if len(claim.line) > 1:
        yield "no reply", claim.with_changes(line=claim.line[:1])
    if len(claim.pieces) > 1:
        yield "other order", claim.with_changes(pieces=claim.pieces[::-1])


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=name_of)
def test_any_change_makes_them_false(fen: str, claim: Claim) -> None:
    verifier = Verifier(fen)
    passed = [what for what, lie in changes(claim) if lie != claim and not verifier.violations(lie)]
    assert not passed


READ_OFF_THE_LINE = {"promotion_threat", "intermediate_move"}
"""Not looked for by the verifier, which cannot know the line that would have been shown."""


@pytest.mark.parametrize(("fen", "claim"), TRUE_CLAIMS, ids=name_of)
def test_what_is_left_out_is_found(fen: str, claim: Claim) -> None:
    claims = claims_about(fen)
    assert claim in claims
    assert Verifier(fen).omissions(claims) == []
    if claim.theme in READ_OFF_THE_LINE or claim.detail == "attacked_already":
        return
    if claim.theme == "removable_guard" and claim.line:
        return  # its duties would all have to be worked out
    without = [other for other in claims if other != claim]
    assert any(text.split()[0] == claim.theme or claim.theme in text for text in Verifier(fen).omissions(without))


WON = [(fen, claim) for fen, claim in TRUE_CLAIMS if claim.line and claim.theme in ("pin", "skewer", "fork")]


@pytest.mark.parametrize(("fen", "claim"), WON, ids=name_of)
def test_a_move_that_wins_more_is_found(fen: str, claim: Claim) -> None:
    less = [other.with_changes(gain=other.gain - 1) if other == claim else other for other in claims_about(fen)]
    assert any(text.startswith(claim.theme) for text in Verifier(fen).omissions(less))


HOPELESS = "8/P6k/8/8/8/8/8/4K3 w - - 0 1"
SPITE_CHECK = "r3q2k/6pp/8/1N6/8/7P/6P1/6K1 w - - 0 1"
RUNNER = "8/7k/P7/8/8/8/8/4K3 w - - 0 1"
LIES = {
    "a fork that is simply taken": (
        "8/1q3k2/8/3r4/8/8/6B1/6K1 w - - 0 1",
        claim(
            *("fork", WHITE, "d5 b7 f7", "Bg2 kf7 qb7", "g2d5 f7g7 d5b7"),
            detail="with_check",
            gain=14,
            numbers={"targets": 2},
        ),
        "a legal reply leaves less",
    ),
    "a quiet move answers": (
        # The queen goes away from the rook, which wins the exchange only if she stays.
        "r4rk1/p5pp/1nq1p3/4PpNQ/3P2P1/B7/P4P1P/5RK1 b - - 8 21",
        claim(
            *("double_attack", WHITE, "c1 c6", "Rf1 qc6", "f1c1 h7h6 c1c6"),
            after_pass=True,
            gain=9,
            numbers={"targets": 1},
        ),
        "a legal reply leaves less",
    ),
    "less than the move wins": (
        RUNNER,
        claim(
            *("promotion_threat", WHITE, "a7 a8", "Pa6", "a6a7 h7g6 a7a8r"),
            gain=4,
            numbers={"moves_to_go": 2},
        ),
        "wins more than the claim says",
    ),
    "the best reply is not the one that is shown": (
        SPITE_CHECK,
        claim(
            *("fork", WHITE, "c7 a8 e8", "Nb5 qe8 ra8", "b5c7 h7h6 c7e8"),
            detail="quiet",
            gain=9,
            numbers={"targets": 2},
        ),
        "a legal reply leaves less",
    ),
    "a check that is not answered": (
        SPITE_CHECK,
        claim(
            *("fork", WHITE, "c7 a8 e8", "Nb5 qe8 ra8", "b5c7 e8e1 g1h2 e1e5 g2g3 e5c7"),
            detail="quiet",
            gain=-3,
            numbers={"targets": 2},
        ),
        "wins nothing",
    ),
    "a mate in one called two": (
        "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1",
        claim("mate_in_two", WHITE, "a8", "", "a1a8", mate=True, numbers={"moves": 1}),
        "not the quickest mate",
    ),
    "what is gained anyway": (
        HOPELESS,
        claim("skewer", WHITE, "a8", "Pa7", "a7a8q h7g7", gain=8),
        "gains anyway",
    ),
    "trapped, though it gets away": (
        "6k1/8/8/3n4/8/4P3/8/3R2K1 w - - 0 1",
        claim(
            *("trapped_piece", WHITE, "", "nd5 Pe3", "e3e4 g8g7 e4d5"),
            detail="attackable",
            gain=3,
            numbers={"moves": 0},
        ),
        "a legal reply leaves less",
    ),
}


@pytest.mark.parametrize("what", LIES)
def test_lies_are_found(what: str) -> None:
    fen, lie, because = LIES[what]
    violations = verify(lie, fen)
    assert violations and because in violations[0]
