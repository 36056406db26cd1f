"""Games from Python: reading files and streams, the tree, writing, and what happens to broken games."""

import io
import pickle
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

import keysquare as ks

GAME = """[Event "Club evening"]
[White "Field, A."]
[Black "Rook, <B>"]
[Result "1-0"]

{before} 1. e4 {[%clk 0:03:00] best} e5 $1 ( 1... c5 {sharp} 2. Nf3 ( {early} 2. c3 ) {beyond} ) 2. Qh5 Nc6
3. Bc4 Nf6?? 4. Qxf7# 1-0
"""
BROKEN = """[Event "Broken"]
[White "Nobody"]

1. e4 e5 2. Ke3 *
"""
SHORT = """[Event "Short"]

1. d4 d5 1/2-1/2
"""
THREE = f"{GAME}\n{BROKEN}\n{SHORT}"


def test_a_game_holds_tags_moves_and_positions() -> None:
    game = ks.game_from_text(GAME)
    assert list(game.tags.items())[:2] == [("Event", "Club evening"), ("White", "Field, A.")]
    assert game.result == "1-0" and game.start == ks.Position()
    assert [str(move) for move in game.main_line] == ["e2e4", "e7e5", "d1h5", "b8c6", "f1c4", "g8f6", "h5f7"]
    positions = game.positions()
    assert len(positions) == 8 and positions[0] == game.start and positions[-1].is_mated
    for before, move, after in zip(positions, game.main_line, positions[1:]):
        assert before.after(move) == after
    assert repr(game) == "<keysquare.Game Field, A. - Rook, <B>, 1-0, 7 plies>"


def test_the_tree_keeps_variations_comments_and_glyphs() -> None:
    game = ks.game_from_text(GAME)
    root = game.root
    assert (root.move, root.san, root.parent, root.ply, root.comment) == (None, None, None, 0, "before")
    assert root.position == game.start and root.is_main_line
    first = root.next
    assert first is not None and first.san == "e4" and first.parent == root
    assert first.comment == "[%clk 0:03:00] best" and first.plain_comment == "best"
    assert first.command("clk") == "0:03:00" and first.command("eval") is None
    reply, variation = first.children
    assert reply.nags == [1] and reply.is_main_line
    assert variation.san == "c5" and variation.comment == "sharp" and not variation.is_main_line
    assert variation.ply == 2 and variation.position == game.start.after("e4").after("c5")
    knight, pawn = variation.children
    assert (knight.san, pawn.san) == ("Nf3", "c3")
    assert pawn.comment_before == "early" and pawn.comment_beyond == "beyond"
    assert knight.next is None and knight.children == []
    assert len(game.steps) == 11 and game.steps[0] == root
    blunder = game.steps[-2]
    assert [node.san for node in game.steps if 4 in node.nags] == ["Nf6"] and blunder.position is not None


def test_nodes_compare_by_place_and_keep_their_game() -> None:
    root = ks.game_from_text(GAME).root
    node = root.next
    assert node is not None
    assert node == root.next and hash(node) == hash(root.next) and node != root
    assert ks.game_from_text(GAME).root != root
    assert node.position == ks.Position().after("e4")
    assert repr(node) == "<keysquare.GameStep 1.e4>" and repr(root) == "<keysquare.GameStep (start)>"
    assert ElementTree.fromstring(node._repr_svg_()).tag.endswith("svg")


def test_games_compare_by_content_and_survive_writing_and_pickling() -> None:
    game = ks.game_from_text(GAME)
    assert ks.game_from_text(game.pgn()) == game and str(game) == game.pgn()
    restored = pickle.loads(pickle.dumps(game))
    assert restored == game and restored.number == 1
    other = ks.game_from_text(SHORT)
    assert game != other and game != GAME
    with pytest.raises(TypeError):
        hash(game)
    assert max(len(line) for line in game.pgn().splitlines()) < 80


def test_a_game_draws_itself_and_lets_no_markup_through() -> None:
    text = ks.game_from_text(GAME)._repr_html_()
    assert "Rook, &lt;B&gt;" in text and "<B>" not in text
    ElementTree.fromstring(f"<div>{text}</div>")


def test_a_game_can_be_made_and_annotated() -> None:
    start = ks.Position("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1")
    game = ks.Game(start)
    game.set_tag("Event", 'A "study"')
    node = game.root.add_move("e4")
    node.add_comment("forward")
    node.add_nag(1)
    side = game.root.add_move(start.move("e2e3"))
    side.add_comment("too slow", "before")
    reply = node.add_move("Ke7")
    waiting = node.add_move("--")
    assert waiting.move is not None and waiting.move.is_null and waiting.san == "--"
    game.result = "1/2-1/2"
    assert [str(move) for move in game.main_line] == ["e2e4", "e8e7"] and reply.is_main_line
    again = ks.game_from_text(game.pgn())
    assert again == game and again.start == start and again.tags["Event"] == 'A "study"'
    assert again.result == "1/2-1/2"
    assert pickle.loads(pickle.dumps(game)) == game


def test_what_a_game_must_not_hold_is_refused() -> None:
    game = ks.Game()
    for name in ("", "a b", "x]", "FEN", "Result"):
        with pytest.raises(ValueError):
            game.set_tag(name, "x")
    with pytest.raises(ValueError):
        game.result = "2-0"
    with pytest.raises(ks.InputError) as caught:
        game.root.add_move("Ke2")
    assert caught.value.reason == "king_left_in_check" or caught.value.reason in ("illegal_move", "no_such_piece")
    with pytest.raises(ks.InputError):
        game.root.add_move("--")
    for nag in (-1, 256):
        with pytest.raises(ValueError):
            game.root.add_move("e4").add_nag(nag)
    with pytest.raises(ValueError):
        game.root.add_nag(1)
    with pytest.raises(ValueError):
        game.root.add_comment("x", "above")  # type: ignore[arg-type]


def test_moves_are_found_by_ply_and_by_number() -> None:
    game = ks.game_from_text(GAME)
    assert [step.numbered for step in game.main_steps] == ["1.e4", "1...e5", "2.Qh5", "2...Nc6", "3.Bc4", "3...Nf6", "4.Qxf7#"]
    assert game.at_ply(0) == game.root and game.at_ply(-1) == game.main_steps[-1] == game.at_ply(7)
    assert game.at_ply(-8) == game.root
    for ply in (8, -9):
        with pytest.raises(IndexError, match="the game has 7"):
            game.at_ply(ply)
    assert [game.at_move(n).ply for n in (1, 2, 3, 4)] == [1, 3, 5, 7]
    reply = game.at_move(3, "black")
    assert reply.san == "Nf6" and reply.move_number == 3 and reply.numbered == "3...Nf6"
    for number, side in ((0, "white"), (4, "black"), (5, "white"), (-1, "black"), (2**40, "white")):
        with pytest.raises(IndexError, match=r"the game goes from 1\.e4 to 4\.Qxf7#"):
            game.at_move(number, side)
    with pytest.raises(ks.InputError):
        game.at_move(1, "red")
    with pytest.raises(IndexError, match="no moves"):
        ks.Game().at_move(1)
    variation = game.main_steps[0].children[1]
    assert [step.san for step in variation.children[1].line] == ["e4", "c5", "c3"] and game.root.line == []
    assert (game.root.move_number, game.root.numbered) == (None, None)


def test_numbers_go_on_from_the_start_position() -> None:
    game = ks.Game(ks.Position("4k3/8/8/8/8/8/4P3/4K3 b - - 5 39"))
    game.root.add_line("Kd7 e4 Ke6")
    assert [step.numbered for step in game.main_steps] == ["39...Kd7", "40.e4", "40...Ke6"]
    assert game.at_move(39, "black").san == "Kd7" and game.at_move(40).san == "e4" and game.at_move(40, "black").ply == 3
    for number, side in ((39, "white"), (41, "white"), (38, "black")):
        with pytest.raises(IndexError, match="39...Kd7"):
            game.at_move(number, side)


def test_a_line_is_added_whole_or_not_at_all() -> None:
    game = ks.Game()
    last = game.root.add_line("1. e4 e5 2.Nf3 2...Nc6 3.Bb5")
    assert last.numbered == "3.Bb5" and [step.san for step in game.main_steps] == ["e4", "e5", "Nf3", "Nc6", "Bb5"]
    variation = game.at_move(2, "black").add_line("Bc4 Nf6")
    assert variation.parent is not None and variation.parent.parent == game.at_move(2, "black")
    before = game.pgn()
    with pytest.raises(ks.InputError) as caught:
        last.add_line("a6 Ba4 Ke6")
    assert (caught.value.step, caught.value.token, caught.value.reason) == (3, "Ke6", "no_such_piece")
    assert game.pgn() == before
    assert game.root.add_line("  ") == game.root


def test_comments_and_commands_change_in_place() -> None:
    game = ks.Game()
    step = game.root.add_move("e4")
    assert (step.seconds_left, step.seconds_used, step.evaluation) == (None, None, None)
    step.add_comment("[%eval 0.35,20] [%clk 1:23:45.6] the usual [%emt 0:00:12]")
    assert (step.seconds_left, step.seconds_used) == (5025.6, 12.0)
    assert step.evaluation == ks.Evaluation(pawns=0.35, mate_in=None, depth=20)
    step.set_command("clk", "0:59:59")
    step.set_command("eval", "#-3")
    assert step.comment == "[%eval #-3] [%clk 0:59:59] the usual [%emt 0:00:12]"
    assert step.evaluation == ks.Evaluation(pawns=None, mate_in=-3, depth=None) and step.seconds_left == 3599.0
    step.set_command("emt", None)
    step.set_command("eval", "nonsense")
    assert step.comment == "[%eval nonsense] [%clk 0:59:59] the usual" and step.evaluation is None
    step.set_comment("new")
    step.set_comment("inside", "before")
    step.set_command("mark", "a1")
    assert (step.comment, step.comment_before, step.plain_comment) == ("[%mark a1] new", "inside", "new")
    step.set_comment("")
    assert step.comment == ""
    for name, value in (("", "x"), ("a b", "x"), ("clk", "x]"), ("clk", "x\ny")):
        with pytest.raises(ValueError):
            step.set_command(name, value)


# --- readers ---


@pytest.fixture
def three(tmp_path: Path) -> Path:
    path = tmp_path / "three.pgn"
    path.write_text(THREE)
    return path


def test_broken_games_are_skipped_and_noted(three: Path) -> None:
    reader = ks.read_games(three)
    games = list(reader)
    assert [(game.number, game.tags["Event"]) for game in games] == [(1, "Club evening"), (3, "Short")]
    assert games[1].offset == THREE.index('[Event "Short"]')
    assert reader.counts == ks.ReadingCounts(read=2, refused=1, with_notices=0)
    (refused,) = reader.refused
    assert (refused.number, refused.offset) == (2, THREE.index('[Event "Broken"]'))
    assert refused.tags == {"Event": "Broken", "White": "Nobody"}
    lines = THREE.splitlines()
    assert (refused.line, refused.column) == (lines.index("1. e4 e5 2. Ke3 *") + 1, 13)
    fault = THREE.index("Ke3")
    error = refused.error
    assert (error.file, error.game, error.offset) == (str(three), 2, fault)
    assert str(three) in str(error) and "game 2" in str(error) and f"byte {fault}" in str(error) and '"Ke3"' in str(error)
    assert repr(reader) == f"<keysquare.GameReader {three}, 2 read, 1 refused>" and games[0].file == str(three)
    assert refused.token == "Ke3" and refused.reason == refused.error.reason == "no_such_piece"
    assert pickle.loads(pickle.dumps(refused)).error.args == refused.error.args
    assert list(reader) == []


def test_broken_games_can_raise_without_ending_the_reading(three: Path) -> None:
    reader = ks.read_games(str(three), on_error="raise")
    assert next(reader).number == 1
    with pytest.raises(ks.InputError) as caught:
        next(reader)
    assert caught.value.token == "Ke3"
    assert next(reader).number == 3
    with pytest.raises(StopIteration):
        next(reader)
    assert len(reader.refused) == 1


def test_the_moves_before_a_fault_can_be_kept(three: Path) -> None:
    reader = ks.read_games(three, on_error="keep")
    games = list(reader)
    assert len(games) == 3 and not reader.refused
    kept = games[1]
    assert [str(move) for move in kept.main_line] == ["e2e4", "e7e5"] and kept.result == "*"
    assert [notice.token for notice in kept.notices] == ["Ke3"] and isinstance(kept.notices[0], ks.InputError)
    restored = pickle.loads(pickle.dumps(kept))
    assert [n.args for n in restored.notices] == [n.args for n in kept.notices] and restored.offset == kept.offset
    assert reader.counts.with_notices == 1


@pytest.mark.parametrize("make", [lambda: io.StringIO(THREE), lambda: io.BytesIO(THREE.encode())])
def test_streams_of_text_and_of_bytes_are_read(make: Any) -> None:
    reader = ks.read_games(make())
    assert len(list(reader)) == 2 and len(reader.refused) == 1


def test_streams_may_give_any_text() -> None:
    name = "Größe ♞"
    text = f'[White "{name}"]\n\n1. e4 *\n'
    (by_text,) = ks.read_games(io.StringIO(text))
    (by_bytes,) = ks.read_games(io.BytesIO(text.encode()))
    assert by_text.tags["White"] == by_bytes.tags["White"] == name
    (latin,) = ks.read_games(io.BytesIO('[White "Größe"]\n\n1. e4 *\n'.encode("latin-1")))
    assert latin.tags["White"] == "Größe"
    wrapped = io.TextIOWrapper(io.BytesIO('[White "Größe"]\n\n1. e4 *\n'.encode("latin-1")), errors="surrogateescape")
    (escaped,) = ks.read_games(wrapped)
    assert escaped.tags["White"] == "Größe"


def test_many_games_in_small_chunks() -> None:
    class Drops:
        def __init__(self) -> None:
            self.rest = THREE.encode() * 200

        def read(self, size: int) -> bytes:
            assert size > 0
            chunk, self.rest = self.rest[:7], self.rest[7:]
            return chunk

    reader = ks.read_games(Drops(), most_refused=50)
    assert sum(1 for _ in reader) == 400
    assert reader.counts.refused == 200 and len(reader.refused) == 50


def test_what_a_stream_raises_comes_through() -> None:
    class Failing:
        calls = 0

        def read(self, size: int) -> bytes:
            self.calls += 1
            if self.calls == 1:
                return (THREE * 40).encode()
            raise OSError("the disk is gone")

    reader = ks.read_games(Failing())
    with pytest.raises(OSError, match="the disk is gone"):
        for _ in reader:
            pass
    with pytest.raises(RuntimeError, match="broke off"):  # games are missing, so it is not the end
        next(reader, None)
    reader.close()
    assert next(reader, None) is None

    class Numbers:
        def read(self, size: int) -> int:
            return size

    with pytest.raises(TypeError, match="neither text nor bytes"):
        list(ks.read_games(Numbers()))  # type: ignore[arg-type]


def test_a_reader_can_be_closed(three: Path) -> None:
    with ks.read_games(three) as reader:
        assert next(reader).number == 1
    assert list(reader) == []


def test_bad_arguments_are_answered(three: Path, tmp_path: Path) -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.read_games(tmp_path / "missing.pgn")
    assert caught.value.reason == "cannot_open" and caught.value.token == "missing.pgn"
    with pytest.raises(ValueError, match="StringIO"):
        ks.read_games(THREE)
    with pytest.raises(ValueError, match="keep"):
        ks.read_games(three, on_error="ignore")  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        ks.read_games(3)  # type: ignore[arg-type]
    for text, reason in (("", "missing_field"), (BROKEN, "no_such_piece")):
        with pytest.raises(ks.InputError) as caught:
            ks.game_from_text(text)
        assert caught.value.reason == reason
