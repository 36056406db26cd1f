"""Diagrams from Python: well-formed, safe, with the marks that were asked for."""

from xml.etree import ElementTree

import pytest

import keysquare as ks

SVG = "{http://www.w3.org/2000/svg}"
FORK = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10"


def described(svg: str) -> str:
    """What the picture says about itself in words."""
    root = ElementTree.fromstring(svg)
    assert root.tag == f"{SVG}svg"
    return root.findtext(f"{SVG}desc", "")


def test_a_diagram_is_svg_that_draws_itself() -> None:
    picture = ks.diagram(ks.Position())
    assert isinstance(picture, str) and isinstance(picture, ks.SvgText)
    assert picture._repr_svg_() == picture and type(picture._repr_svg_()) is str
    assert "White to move" in described(picture)
    assert ks.Position()._repr_svg_() == picture
    assert ks.diagram(ks.Position()) == picture


def test_the_title_may_hold_any_text() -> None:
    hostile = "</title><script>alert(1)</script>&\"'\x00 ]]>"
    root = ElementTree.fromstring(ks.diagram(ks.Position(), title=hostile))
    assert root.findtext(f"{SVG}title") == hostile.replace("\x00", "\ufffd")
    assert not list(root.iter(f"{SVG}script"))


def test_options_change_the_picture() -> None:
    position = ks.Position(FORK)
    usual = ks.diagram(position)
    others = [
        ks.diagram(position, bottom=ks.BLACK),
        ks.diagram(position, square_size=20),
        ks.diagram(position, coordinates=False),
        ks.diagram(position, mover_mark=False),
        ks.diagram(position, title="x"),
        ks.diagram(position, serial=1),
    ]
    assert len({usual, *others}) == 7


def test_marks_and_arrows() -> None:
    text = described(
        ks.diagram(
            ks.Position(FORK),
            marks=["d5", ks.Mark("e4", "dot", 3), ks.Mark(ks.Square("f6"), "ring")],
            arrows=[("c3", "b5"), ks.Arrow("c6", "d4", "dashed", 2)],
        )
    )
    assert "outline on d5, dot on e4 (3), ring on f6" in text
    assert "from c3 to b5, dashed from c6 to d4 (2)" in text


def test_one_finding_is_drawn_without_a_number() -> None:
    position = ks.Position(FORK)
    (finding,) = ks.findings(position, ["denied_square"], side="white")[:1]
    text = described(ks.diagram(position, [finding]))
    assert "ring on c1, dot on d2." in text
    assert "Arrows: from c1 to d2, dashed from c6 to d4." in text


def test_several_findings_are_numbered_and_what_they_share_is_drawn_once() -> None:
    position = ks.Position(FORK)
    duties = ks.findings(position, ["guard_duty"], side="black")
    assert [finding.removed for finding in duties] == ["d1", "f3"]
    text = described(ks.diagram(position, duties))
    assert "cross on d1 (1), outline on d4, cross on f3 (2)." in text
    assert text.count("from c6 to d4") == 1


def test_large_counts_are_drawn_alone_only() -> None:
    position = ks.Position("4k3/8/8/8/8/8/PPPPPPPP/RNBQKBNR w KQ - 0 1")
    (control,) = ks.findings(position, ["square_control"])
    assert len(control.squares) > 12
    alone = described(ks.diagram(position, [control]))
    assert alone.count("dot") == len(control.squares)
    (other, *_) = ks.findings(position, ["material"])
    together = described(ks.diagram(position, [control, other]))
    assert f"number on {control.squares[0]} (1)" in together


def test_bad_arguments_are_answered() -> None:
    position = ks.Position(FORK)
    finding = ks.findings(position)[0]
    with pytest.raises(ValueError, match="another position"):
        ks.diagram(ks.Position(), [finding])
    with pytest.raises(ValueError, match="dotted_outline"):
        ks.diagram(position, marks=[ks.Mark("e4", "sparkle")])
    with pytest.raises(ValueError, match="dashed"):
        ks.diagram(position, arrows=[ks.Arrow("e4", "e5", "wavy")])
    with pytest.raises(ValueError, match="two different squares"):
        ks.diagram(position, arrows=[("e4", "e4")])
    for arguments in ({"marks": ["e9"]}, {"arrows": [("e4", "e9")]}, {"bottom": "red"}):
        with pytest.raises(ks.InputError):
            ks.diagram(position, **arguments)  # type: ignore[arg-type]
    for wrong in ([None], ["finding"]):
        with pytest.raises(TypeError):
            ks.diagram(position, wrong)  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        ks.diagram(position, title=3)  # type: ignore[arg-type]
