"""The theme pages of the handbook: made again they are the same, they leave nothing out, and their lines are legal.

Lines and gains are read from the committed pages and checked with the rules library `chess` alone.
"""

import doctest
import importlib.util
import json
import re
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

import chess
import chess.pgn
import keysquare as ks
import pytest

pytest.importorskip("tomllib", reason="the table of the theme pages is TOML, which Python reads from 3.11 on")

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "examples/handbook/themes"
PAGES = sorted(path for path in FOLDER.glob("*.md") if path.name != "README.md")
VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}
FEN = r"(?:[1-8pnbrqkPNBRQK]+/){7}[1-8pnbrqkPNBRQK]+ [wb] (?:-|[KQkq]+) (?:-|[a-h][36]) \d+ \d+"


@cache
def make_pages() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_pages", FOLDER / "make_pages.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@cache
def entries() -> dict[str, dict]:
    return {entry["name"]: entry for entry in make_pages().read_entries()}


def test_made_again_they_are_the_same() -> None:
    made = make_pages().files()
    kept = {str(path.relative_to(FOLDER)) for path in FOLDER.rglob("*") if path.suffix in (".md", ".svg")}
    assert kept == set(made)
    for name, text in made.items():
        assert (FOLDER / name).read_bytes() == text.encode(), f"{name}: run examples/handbook/themes/make_pages.py"


def test_every_theme_has_a_page() -> None:
    assert {page.stem for page in PAGES} == set(ks.themes)


@pytest.mark.parametrize("theme", sorted(ks.themes))
def test_a_false_entry_makes_no_page(theme: str) -> None:
    """The near miss does not pass for an example, the example not for a near miss, and the limit not the other way round."""
    module, entry = make_pages(), entries()[theme]
    fens = {key: entry[key]["fen"] for key in ("example", "near_miss")}
    with pytest.raises(module.Broken, match=theme):
        module.example_of(entry | {"example": entry["example"] | {"fen": fens["near_miss"]}})
    with pytest.raises(module.Broken, match=theme):
        module.check_near_miss(entry | {"near_miss": entry["near_miss"] | {"fen": fens["example"]}})
    with pytest.raises(module.Broken, match=theme):
        module.check_limit(entry | {"limit": entry["limit"] | {"claimed": not entry["limit"]["claimed"]}})


# --- nothing is left unexplained -------------------------------------------------------------------------------------


def positions() -> Iterator[str]:
    """What the C++ tests, the benches, the worked positions and the pages look at, and the club's season at some plies."""
    files = [*(ROOT / "tests/cpp").rglob("*.cpp"), *(ROOT / "bench").glob("*.fen"), ROOT / "bench/positions.epd"]
    files += [ROOT / "tests/python/data/worked-positions.jsonl", *PAGES]
    for file in files:
        yield from re.findall(FEN, file.read_text())
    with (ROOT / "examples/data/season.pgn").open() as season:
        while game := chess.pgn.read_game(season):
            for node in game.mainline():
                if node.ply() % 12 == 0:
                    yield node.board().fen()


@cache
def seen() -> tuple[dict[str, set[str]], dict[str, set[str]]]:
    """The details and the numbers of every theme that occur."""
    details, numbers = defaultdict(set), defaultdict(set)
    for fen in set(positions()):
        try:
            position = ks.Position(fen)
        except ks.InputError:  # some tests are about positions that can't be
            continue
        for finding in ks.findings(position):
            details[finding.theme] |= {finding.detail} - {None}
            numbers[finding.theme] |= set(finding.numbers)
    return details, numbers


@pytest.mark.parametrize("theme", sorted(ks.themes))
def test_every_detail_and_number_is_explained(theme: str) -> None:
    details, numbers = seen()
    text = (FOLDER / f"{theme}.md").read_text()
    assert set(re.findall(r"^- detail `(\w+)`: \w", text, re.MULTILINE)) == details[theme]
    assert set(re.findall(r"^- number `(\w+)`: \w", text, re.MULTILINE)) == numbers[theme]


def test_what_the_verifier_does_is_said_as_it_is() -> None:
    from truth.verifier import Verifier

    counted = {name for name, entry in entries().items() if entry["verifier"] == "counted"}
    assert counted == Verifier.counted_themes()
    sources = "".join(path.read_text() for path in (ROOT / "tests/python/truth").glob("*_themes.py"))
    searched = set(re.findall(r'^            "(\w+)": self\._omitted_', sources, re.MULTILINE))
    assert searched  # the mates are searched for by other means
    searched |= {"mate_in_one", "mate_in_two", "back_rank"}
    assert searched == {name for name, entry in entries().items() if entry["verifier"] == "searched"}


def test_worked_positions_are_named_where_they_are_used() -> None:
    source = (ROOT / "tests/python/test_worked_positions.py").read_text()
    for part in re.split(r'@of_theme\("', source)[1:]:
        letter = part[0]
        tested = {theme for theme in ks.themes if f'"{theme}"' in part}
        named = {name for name, entry in entries().items() if entry.get("worked") == letter}
        assert named <= tested, letter


def test_measured_figures_are_of_themes() -> None:
    measured = json.loads((FOLDER / "measured_themes.json").read_text())
    assert set(measured["themes"]) <= set(ks.themes)
    for theme, figures in measured["themes"].items():
        text = " ".join((FOLDER / f"{theme}.md").read_text().split())
        assert f"solution of {figures['recall']} % of them" in text
        assert f"{figures['labelled']} have the label" in text


# --- an independent look ---------------------------------------------------------------------------------------------


def balance(board: chess.Board, side: chess.Color) -> int:
    return sum(
        VALUES[piece.piece_type] * (1 if piece.color == side else -1) for piece in board.piece_map().values()
    )


def played(text: str, board: chess.Board) -> chess.Board:
    """The board after a line in SAN, every move of it legal."""
    board = board.copy()
    for word in re.sub(r"\d+\.+", " ", text).split():
        board.push_san(word)
    return board


def rows(text: str) -> dict[str, str]:
    table = text.partition("## Example")[2].partition("## Near miss")[0]
    return dict(re.findall(r"^\| ([^|]+?) \| ([^|]+?) \|$", table, re.MULTILINE))


def with_line() -> list[Path]:
    return [page for page in PAGES if re.search(r"^\| line", page.read_text(), re.MULTILINE)]


@pytest.mark.parametrize("page", with_line(), ids=lambda page: page.stem)
def test_lines_are_legal_and_win_what_is_said(page: Path) -> None:
    text = page.read_text()
    facts = rows(text)
    fen = re.search(FEN, text.partition("## Example")[2])
    assert fen
    board = chess.Board(fen[0])
    assert board.is_valid()
    if removed := facts.get("taken off the board"):
        board.remove_piece_at(chess.parse_square(removed))
    side = facts.get("good for") or facts["a warning to"]
    if (side == "White") != board.turn:
        assert "line, the mover passing" in facts and not board.is_check()
        board.push(chess.Move.null())
        board = chess.Board(board.fen())
    mover = board.turn
    for name in ("line", "point"):
        if not (line := facts.get(name) or facts.get(f"{name}, the mover passing")):
            continue
        end = played(line, board)
        if name == "point":
            continue
        gain = facts["gain"]
        pawns = re.search(r"-?\d+", gain)
        assert balance(end, mover) - balance(board, mover) == int(pawns[0] if pawns else 0)
        assert end.is_checkmate() == ("mate" in gain or "is mated" in gain)
        if end.is_checkmate():
            assert (end.turn == mover) == gain.startswith("is mated")
        warning = gain.startswith("is mated") or (not end.is_checkmate() and balance(end, mover) <= balance(board, mover))
        assert ("a warning to" in facts) == warning


def test_some_pages_have_lines() -> None:
    assert len(with_line()) > 20


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_positions_are_legal_and_near_misses_near(page: Path) -> None:
    text = page.read_text()
    fens = re.findall(f"^`({FEN})`", text, re.MULTILINE)
    assert len(fens) == 3
    boards = [chess.Board(fen) for fen in fens]
    assert all(board.is_valid() for board in boards)
    example, miss = (board.piece_map() for board in boards[:2])
    differ = {square for square in chess.SQUARES if example.get(square) != miss.get(square)}
    assert 1 <= len(differ) <= 2


# --- the pages as text -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_the_call_gives_what_the_page_says(page: Path) -> None:
    (example,) = re.findall(r"```python\n(.*?)```", page.read_text(), re.DOTALL)
    test = doctest.DocTestParser().get_doctest(example, {}, page.name, None, None)
    result = doctest.DocTestRunner().run(test)
    assert result.attempted == 3 and result.failed == 0


@pytest.mark.parametrize("page", [*PAGES, FOLDER / "README.md"], ids=lambda page: page.stem)
def test_links_lead_somewhere(page: Path) -> None:
    text = page.read_text()
    links = re.findall(r"\]\(([^)]+)\)", text)
    assert links
    for link in links:
        target, _, part = link.partition("#")
        file = (page.parent / target).resolve() if target else page
        assert file.exists(), link
        if part:
            heads = re.findall(r"^#+ (.+)$", file.read_text(), re.MULTILINE)
            assert part in {head.lower().replace(" ", "-") for head in heads}, link


def test_the_diagrams_stay_small() -> None:
    assert sum(path.stat().st_size for path in (FOLDER / "diagrams").iterdir()) < 3_000_000
