"""Findings and features as Python shows them. Whether they are true is checked by the truth tests."""

import json
import pickle
from typing import Any
from xml.etree import ElementTree

import pytest

import keysquare as ks

FORK = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10"
LOOSE_ROOK = "4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1"
EXCHANGE_UP = "2r3k1/5pp1/p2pp2p/1p1b4/3N4/1P2P3/P4PPP/R1R3K1 b - - 0 25"
WEAK_SQUARES = "6k1/1p3p2/p2p1np1/P1pPp2p/2P1P2P/5PP1/3B4/6K1 w - - 0 40"
POSITIONS = [
    FORK,
    LOOSE_ROOK,
    EXCHANGE_UP,
    WEAK_SQUARES,
    "r2q1rk1/pp1bbppp/2np1n2/4p3/4P3/1NN1BP2/PPPQ2PP/2KR1B1R w - - 0 10",
    "2r3k1/1b3ppp/p3pn2/1p1pN3/3P1P2/1P1QP3/P5PP/2R3K1 b - - 0 20",
    "4r1k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1",
    "rnb1kbnr/pppp1ppp/8/4p3/6Pq/5P2/PPPPP2P/RNBQKBNR w KQkq - 1 3",
]


def hanging_rook() -> ks.Finding:
    (finding,) = ks.findings(ks.Position(LOOSE_ROOK), themes=["hanging"], side="white")
    return finding


def test_a_finding_carries_its_witness() -> None:
    finding = hanging_rook()
    assert (finding.theme, finding.detail, finding.side) == ("hanging", "unguarded", ks.WHITE)
    assert finding.squares == ["d5"]
    assert [tuple(placed) for placed in finding.pieces] == [("d5", "black rook"), ("e3", "white knight")]
    assert str(finding.pieces[0]) == "black rook on d5"
    assert (finding.gain, finding.mate, finding.mated, finding.after_pass) == (5, False, False, False)
    assert finding.removed is None and finding.point == [] and finding.point_san == ""
    assert finding.line == [finding.position.move("Nxd5")] and finding.line_san == "1.Nxd5"
    assert finding.numbers == {"attackers": 1, "guards": 0}
    assert finding.position.fen == LOOSE_ROOK
    assert str(finding) == "White can win material worth 5 pawns with Nxd5: the rook on d5 has no guard."
    assert "hanging" in repr(finding) and str(finding) in repr(finding)


@pytest.mark.parametrize("fen", POSITIONS)
def test_findings_come_strongest_first_and_their_lines_can_be_played(fen: str) -> None:
    position = ks.Position(fen)
    found = ks.findings(position)
    assert found and [f.weight for f in found] == sorted((f.weight for f in found), reverse=True)
    for finding in found:
        assert finding.theme in ks.themes
        start: ks.Position | None = position.passed() if finding.after_pass else position
        assert start is not None
        if finding.removed and finding.line:
            start = start.without(finding.removed)
        assert not finding.line or start.mover == finding.side
        for line, text in ((finding.line, finding.line_san), (finding.point, finding.point_san)):
            played = start
            for move in line:
                assert move.san(played) in text
                played = played.after(move)


@pytest.mark.parametrize("fen", POSITIONS)
def test_findings_round_trip_through_pickle_and_json(fen: str) -> None:
    for finding in ks.findings(ks.Position(fen)):
        restored = pickle.loads(pickle.dumps(finding))
        assert restored == finding and hash(restored) == hash(finding)
        assert restored.as_dict() == finding.as_dict()
        data = json.loads(json.dumps(finding.as_dict()))
        assert data["theme"] == finding.theme and data["fen"] == fen and data["sentence"] == str(finding)
        assert data["squares"] == finding.squares and data["line"] == [str(move) for move in finding.line]
        assert data["removed"] == finding.removed and data["numbers"] == finding.numbers
        assert [(one["square"], one["piece"]) for one in data["pieces"]] == [tuple(one) for one in finding.pieces]
        types = {type(value) for key in ("theme", "side", "removed") if (value := data[key]) is not None}
        assert types == {str}


def test_plain_data_holds_plain_types() -> None:
    def check(value: Any) -> None:
        if isinstance(value, dict):
            for key, one in value.items():
                assert type(key) is str
                check(one)
        elif isinstance(value, list):
            for one in value:
                check(one)
        else:
            assert type(value) in (str, int, bool, type(None))

    for finding in ks.findings(ks.Position(FORK)):
        check(finding.as_dict())


def test_findings_are_told_apart() -> None:
    found = ks.findings(ks.Position(FORK))
    assert len(set(found)) == len(found) > 5
    assert found == ks.findings(ks.Position(FORK))
    assert found[0] != found[1] and found[0] != "finding"
    assert set(found).isdisjoint(ks.findings(ks.Position(FORK.replace("0 10", "0 11"))))


def test_themes_and_sides_select() -> None:
    position = ks.Position(FORK)
    everything = ks.findings(position)
    for theme in {finding.theme for finding in everything}:
        assert ks.findings(position, [theme]) == [f for f in everything if f.theme == theme]
    for side in (ks.WHITE, "black"):
        assert ks.findings(position, side=side) == [f for f in everything if f.side == side]
    assert ks.findings(position, []) == []


def test_bounds_and_thresholds_are_obeyed() -> None:
    position = ks.Position(LOOSE_ROOK)
    assert not ks.findings(position, ["hanging"], least_gain=6)
    assert ks.findings(ks.Position(FORK), nodes=1) != ks.findings(ks.Position(FORK))
    assert ks.findings(position, ["hanging"], values={"rook": 50})[0].gain == 50


def test_bad_arguments_are_answered() -> None:
    position = ks.Position()
    with pytest.raises(ValueError, match='"forks"'):
        ks.findings(position, ["forks"])
    with pytest.raises(ks.InputError):
        ks.findings(position, side="red")
    with pytest.raises(ValueError, match="least_gain"):
        ks.findings(position, least_gain=0)
    for bad in ("not a position", None):
        with pytest.raises(TypeError):
            ks.findings(bad)  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        ks.findings(position, "hanging")
    with pytest.raises(TypeError):
        ks.Finding()


def test_a_finding_draws_itself() -> None:
    figure = ElementTree.fromstring(hanging_rook()._repr_html_())
    assert figure.tag == "figure"
    caption = figure.find("figcaption")
    assert caption is not None and caption.text == str(hanging_rook())
    assert figure.find("{http://www.w3.org/2000/svg}svg") is not None


# --- features ---


def test_mobility_is_a_mapping_from_squares_to_verdicts() -> None:
    position = ks.Position(FORK)
    mobility = ks.mobility(position, "c1")
    assert mobility.known and mobility.piece == ("c1", "white bishop")
    assert mobility["d2"].verdict == "denied_by_tactics"
    assert mobility["d2"].gain == -1 and [str(m) for m in mobility["d2"].line] == ["c1d2", "c6d4"]
    assert mobility["b2"].verdict == "own_man" and mobility["b2"].line == []
    assert list(mobility) == [to.square for to in mobility.destinations] and "d2" in mobility
    assert set(mobility.scope) == {s for s, to in mobility.items() if to.verdict in ("open", "neglects")}
    assert pickle.loads(pickle.dumps(mobility)) == mobility
    with pytest.raises(KeyError):
        mobility["a8"]
    assert ElementTree.fromstring(mobility._repr_svg_()).tag.endswith("svg")


def test_mobility_of_the_waiter_is_not_known_in_check() -> None:
    position = ks.Position("4k3/8/8/8/8/8/4r3/R3K3 w - - 0 1")
    assert ks.mobility(position, "e1").known
    asked = ks.mobility(position, "e2")
    assert not asked.known and len(asked) == 0


def test_mobility_of_nothing_is_refused() -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.mobility(ks.Position(), "e4")
    assert caught.value.reason == "no_such_piece"


def test_square_control_of_the_start_position() -> None:
    control = ks.square_control(ks.Position())
    assert len(control) == 64 and list(control)[0] == "a1"
    square = control["f3"]
    assert (square.white.attackers, square.white.cheapest, square.black.attackers) == (3, "pawn", 0)
    assert square.black.cheapest is None and square.of("white") is square.white
    assert square.holder == ks.WHITE and control["f6"].holder == "black"
    assert len(control.held["white"]) == len(control.held["black"])
    assert set(control.held["white"]) == {s for s, one in control.items() if one.holder == "white"}
    assert set(control.attacked["black"]) == {s for s, one in control.items() if one.black.attackers}
    assert set(control.denied["white"]) >= {s for s, one in control.items() if one.white.denies}
    assert pickle.loads(pickle.dumps(control)) == control
    with pytest.raises(ks.InputError):
        control["e9"]
    assert "e9" not in control and control.get("e4") is not None


def test_colour_complexes() -> None:
    complexes = ks.colour_complex(ks.Position(WEAK_SQUARES))
    dark = complexes["dark"]
    assert dark.colour == "dark" and complexes["light"].weak_side is None
    assert dark.sides["white"].bishops == ["d2"] and dark.sides["black"].bishops == []
    for one in complexes.values():
        for side in one.sides.values():
            assert side.regions["board"].held == len(side.held)
            assert side.regions["board"].attacked == len(side.attacked)
            assert side.regions["own_half"].held + side.regions["other_half"].held == len(side.held)
            assert all(ks.Square(square).is_light == (one.colour == "light") for square in side.held)
            assert set(side.fixed_pawns) <= set(side.pawns)
    assert pickle.loads(pickle.dumps(complexes)) == complexes


def test_the_guardian_agrees_with_the_finding() -> None:
    seen = 0
    for fen in (
        "6k1/pb3p1p/1p2pnp1/8/3P4/2P1BP2/P5PP/6K1 b - - 0 25",
        "r4rk1/1p3p1p/p1p2bp1/2Pp4/1P1P4/P3P1N1/5PPP/R4RK1 w - - 0 20",
        WEAK_SQUARES,
    ):
        position = ks.Position(fen)
        found = {(f.side, f.detail): f for f in ks.findings(position, ["guardian"])}
        for side in ("white", "black"):
            for colour in ("light", "dark"):
                guardian = ks.guardian(position, side, colour)  # type: ignore[arg-type]
                finding = found.get((side, colour))
                assert (guardian is None) == (finding is None)
                if guardian and finding:
                    seen += 1
                    assert guardian.piece == finding.pieces[0] and guardian.lost == finding.squares
                    assert len(guardian.now.held[guardian.side]) == finding.numbers["held"]
                    assert len(guardian.without.held[guardian.side]) == finding.numbers["held_without"]
    with pytest.raises(ValueError, match="light"):
        ks.guardian(ks.Position(), "white", "green")  # type: ignore[arg-type]
    with pytest.raises(ks.InputError):
        ks.guardian(ks.Position(), "green", "light")


def test_the_exchange_ledger() -> None:
    ledger = ks.exchange_context(ks.Position(EXCHANGE_UP))
    assert ledger is None  # a rook and a knight against a rook and a bishop, and a rook more: no exchange
    position = ks.Position("2r3k1/5pp1/p2pp2p/1p1b4/8/1P2P3/P4PPP/R1R3K1 b - - 0 25")
    ledger = ks.exchange_context(position)
    assert ledger is not None
    assert (ledger.side, ledger.giver, ledger.times, ledger.guardian) == ("white", "black", 1, None)
    page, other = ledger.pages[ledger.side], ledger.pages[ledger.giver]
    assert list(page.rooks) == ["a1", "c1"] and list(other.rooks) == ["c8"]
    assert page.open_files == ["c"] and page.half_open_files == ["d"]
    assert page.more_pawns == -other.more_pawns == len(page.pawns) - len(other.pawns)
    assert page.king.king == "g1" and page.king.shield == ["f2", "g2", "h2"]
    assert ledger.compensation.level in ("none", "some", "enough", "more_than_enough")
    assert ledger.compensation.points == sum(ledger.compensation.items.values())
    assert pickle.loads(pickle.dumps(ledger)) == ledger
    assert ks.exchange_context(ks.Position()) is None


def test_the_ledger_names_the_guardian_that_left() -> None:
    earlier = ks.Position("r1r3k1/5pp1/p2pp2p/1p1b4/8/1PN1P3/P4PPP/R1R3K1 b - - 0 25")
    now = earlier.after("Rxc3").after("Rxc3")
    ledger = ks.exchange_context(now, earlier)
    assert ledger is not None and ledger.guardian is not None
    assert ledger.guardian.piece == ("c3", "white knight")
    assert ledger.guardian.colour in ("light", "dark")
