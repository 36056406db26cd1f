"""What is read is written again exactly: moves, comments, glyphs and variations.

The outside: the rules library (PyPI `chess`) reads the original text and our output, and must find the same tree in both.
`KEYSQUARE_ROUND_TRIP_GAMES` says how many games of each file it reads ("all" for every one).
"""

import io
import os
import re
from pathlib import Path
from typing import Any

import chess.pgn
import pytest

import keysquare as ks

ROOT = Path(__file__).resolve().parents[2]
GAMES_OF_A_FILE = os.environ.get("KEYSQUARE_ROUND_TRIP_GAMES", "60")

MESSY = {
    "nested variations": "1. e4 (1. d4 d5 (1... Nf6 2. c4 (2. Nf3 e6) 2... g6) 2. c4) e5 (1... c5) (1... e6) 2. Nf3 *",
    "comments before, after and beyond": "{root} 1. e4 {a} ({b} 1. d4 {c} d5 {d}) {e} e5 ({f} 1... c5) {g} {h} 2. Nf3 {i} *",
    "percent lines": "% a note of the program\n1. e4\n% another 1. d4\ne5 *",
    "glyphs before a comment": "1. e4 $1 $14 {fine} e5 $2 ?! {not} (1... c5 $5) 2. Nf3!? *",
    "numbers everywhere": "1.e4 1...e5 2 . Nf3 Nc6 3.Bb5 *",
    "castling with zeros": "1. e4 e5 2. Nf3 Nf6 3. Bc4 Bc5 4. 0-0 0-0 1/2-1/2",
    "commands": "1. e4 {[%clk 0:03:00] [%eval 0.3,12]} e5 {[%clk 0:02:59] a } 1-0",
    "braces and quotes": '1. e4 {a "quoted" \\ word; and (a bracket) 1. d4 $3 [x]} e5 *',
    "null moves": "1. e4 e5 (1... -- 2. d4 {threatens to take space}) 2. Nf3 *",
    "an empty game": "*",
    "only a comment": "{nobody came} 1-0",
    "promotion, check, mate": "1. e4 e5 2. Qh5 Ke7 3. Qxe5# 1-0",
}


def words(text: str | list[str]) -> list[str]:
    return "".join(text).split()


def tree_of(game: chess.pgn.Game) -> list[Any]:
    """The tree that the rules library read: moves, comments by their words, glyphs, variations."""
    tree: list[Any] = []
    stack: list[tuple[chess.pgn.GameNode, list[Any]]] = [(game, tree)]
    while stack:
        node, into = stack.pop()
        for child in node.variations:
            below: list[Any] = []
            into.append((str(child.move), words(child.starting_comment), words(child.comment), child.nags, below))
            stack.append((child, below))
    return [words(game.comment), game.headers.get("Result"), tree]


def chess_tree(text: str) -> list[Any]:
    game = chess.pgn.read_game(io.StringIO(text))
    assert game is not None and not game.errors, (game and game.errors, text)
    return tree_of(game)


def headers(text: str) -> dict[str, str]:
    game = chess.pgn.read_game(io.StringIO(text))
    assert game is not None
    return {name: value for name, value in game.headers.items() if value not in ("?", "????.??.??")}


@pytest.mark.parametrize("movetext", MESSY.values(), ids=MESSY.keys())
def test_messy_games_come_back(movetext: str) -> None:
    for text in (f'[Event "x"]\n\n{movetext}\n', f'\ufeff[Event "x"]\n\n{movetext}\n'.replace("\n", "\r\n")):
        game = ks.game_from_text(text)
        again = ks.game_from_text(game.pgn())
        assert again == game and again.pgn() == game.pgn()
    assert chess_tree(game.pgn()) == chess_tree(f'[Event "x"]\n\n{movetext}\n')


def test_comments_to_the_end_of_a_line_come_back() -> None:
    """1994 PGN standard, section 5; the rules library passes over them."""
    game = ks.game_from_text("1. e4 ;the usual\n e5 ; and so on {here}\n ( 1... c5 ; (no variation\n ) 2. Nf3 *")
    assert [step.comment for step in game.steps] == ["", "the usual", "and so on {here}", "(no variation", ""]
    assert ks.game_from_text(game.pgn()) == game


def test_old_bytes_come_back() -> None:
    text = '[Event "Größe \\"der\\" \\\\ Plätze"]\r\n[White "Müller, Ö."]\r\n\r\n1. e4 {schön} e5 ; gut gemacht, Größter\r\n2. Nf3 '
    for encoding in ("latin-1", "utf-8"):
        (game,) = ks.read_games(io.BytesIO(text.encode(encoding)))
        assert [notice.reason for notice in game.notices] == ["missing_result"]
        assert game.tags["Event"] == 'Größe "der" \\ Plätze' and game.tags["White"] == "Müller, Ö."
        assert [step.comment for step in game.main_steps] == ["schön", "gut gemacht, Größter", ""]
        assert ks.game_from_text(game.pgn()) == game


def test_long_words_come_back() -> None:
    game = ks.Game()
    game.set_tag("Annotator", "W" * 5000)
    game.root.add_line("e4 e5").add_comment("x" * 3000 + " " + "y " * 500)
    assert ks.game_from_text(game.pgn()) == game


def texts_of_games(path: Path) -> list[str]:
    """The games of a file, parted where a tag section follows a blank line."""
    data = path.read_bytes()
    try:
        text = data.decode()
    except UnicodeDecodeError:
        text = data.decode("latin-1")
    return re.split(r"\n\s*\n(?=\[Event )", text.replace("\r\n", "\n").strip())


def game_files() -> list[Path]:
    folder = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or ROOT / "../shared/data") / "pgn"
    return sorted((ROOT / "examples" / "data").glob("*.pgn")) + sorted(folder.glob("*.pgn"))


@pytest.mark.parametrize("path", game_files(), ids=lambda path: path.name)
def test_every_game_of_a_file_comes_back(path: Path) -> None:
    games = list(ks.read_games(path))
    again = list(ks.read_games(io.StringIO("".join(game.pgn() for game in games))))
    assert again == games and bool(games) == (path.name != "other-variants.pgn")


@pytest.mark.parametrize("path", game_files(), ids=lambda path: path.name)
def test_the_rules_library_reads_the_same_in_both(path: Path) -> None:
    texts = texts_of_games(path)
    games = list(ks.read_games(path))
    if not games:
        return  # other rules than those of chess
    assert len(texts) == len(games)
    wanted = len(games) if GAMES_OF_A_FILE == "all" else int(GAMES_OF_A_FILE)
    for text, game in list(zip(texts, games))[:: max(1, len(games) // wanted)]:
        assert chess_tree(game.pgn()) == chess_tree(text), (path.name, game.number)
        before, after = headers(text), headers(game.pgn())
        assert before.items() <= after.items(), (path.name, game.number, before, after)
