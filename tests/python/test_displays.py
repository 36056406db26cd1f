"""What the answers look like: every one has a short repr, and the main ones a drawing, a table or a paragraph."""

from html.parser import HTMLParser
from pathlib import Path

import pytest

import keysquare as ks

POSITION = ks.Position("rn1q1rk1/pbpp1ppp/1p1bpn2/8/3PP3/2NB1N2/PPP2PPP/R1BQ1RK1 b - - 0 1")
THREAT = ks.threats(POSITION)[0]
KNIGHTS = ks.Position("4r1k1/1b1q1ppp/p4b2/1p1p4/2rN1P1P/P2R2Q1/1PP1N3/1K4R1 w - - 1 24")
GUARDED = ks.Position("r2qkr2/3n1p1p/p1p1p2B/1p1pPp2/P2P4/2P3QP/2P2PP1/RR4K1 b q - 3 18")
GAME = next(iter(ks.read_games(Path(__file__).parents[2] / "examples/data/club.pgn")))

SHOWN = {
    "answer": ks.answers(POSITION, "Ba3"),
    "answer without a reply": ks.answers(ks.Position(), "e4"),
    "parries": ks.parries(POSITION, THREAT),
    "square control": ks.square_control(POSITION),
    "colour complex": ks.colour_complex(POSITION)["dark"],
    "guardian": ks.guardian(GUARDED, "black", "dark"),
    "difficulty": ks.difficulty(POSITION, "black"),
    "difficulties": ks.difficulty(POSITION),
    "game state": GAME.root.state,
    "standing": ks.game_report(GAME).plies[0].standing,
    "threat": THREAT,
    "finding": ks.findings(KNIGHTS)[0],
    "mobility": ks.mobility(KNIGHTS, "d3"),
    "candidates": ks.candidates(POSITION),
    "outlook": ks.outlook(POSITION),
    "plan": ks.check_plan(POSITION, ["a6"]),
    "routes": ks.route(POSITION, "b8", "d5"),
    "position": POSITION,
    "game": GAME,
    "step": GAME.root,
    "entry": ks.Study("x").ask(POSITION, "What now?", answer=THREAT).entries[0],
    "study": ks.Study("x").add(POSITION),
}


class Balance(HTMLParser):
    """Counts what is open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.words = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in ("meta", "br", "link"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words += data


@pytest.mark.parametrize("name", SHOWN)
def test_it_shows_itself(name: str) -> None:
    shown = SHOWN[name]
    display = getattr(shown, "_repr_html_", None) or shown._repr_svg_  # type: ignore[attr-defined]
    text = display()
    assert Balance(text).open == [] and ("<svg" in text or "<table" in text or "<p>" in text or "<iframe" in text)


# The reprs of plain records are their contents.
RECORDS = {"answer", "answer without a reply", "parries", "game state", "entry", "plan", "standing"}


@pytest.mark.parametrize("name", [name for name in SHOWN if name not in RECORDS])
def test_its_repr_is_short_and_names_it(name: str) -> None:
    text = repr(SHOWN[name])
    assert "keysquare." in text and len(text) < 900 and " object at 0x" not in text


def test_a_board_of_letters_says_who_holds_what() -> None:
    control = ks.square_control(POSITION)
    words = Balance(control._repr_html_()).words
    assert words.count("W") - 3 == len(control.held["white"])  # the caption says "White" twice and "W:"
    assert str(control) == f"White holds {len(control.held['white'])} squares, Black {len(control.held['black'])}."
    assert repr(ks.feature_schema()) == f"<keysquare.FeatureSchema version {ks.feature_schema().version}: 249 columns>"
