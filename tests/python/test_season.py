"""The season of the invented club: written by a program, complete, and the same each time."""

import importlib.util
import sys
from collections import Counter
from itertools import combinations, pairwise
from pathlib import Path
from types import ModuleType

import chess
import chess.pgn
import pytest

import keysquare as ks

DATA = Path(__file__).parents[2] / "examples/data"
SEASON = DATA / "season.pgn"


@pytest.fixture(scope="module")
def program() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_season", DATA / "make_season.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["make_season"] = module  # its dataclasses look themselves up there
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def games() -> list[ks.Game]:
    reader = ks.read_games(SEASON, on_error="raise")
    games = list(reader)
    assert reader.counts.with_notices == 0
    return games


def test_the_program_writes_the_same_bytes_each_time(program: ModuleType, games: list[ks.Game]) -> None:
    """The moves may change when what the library counts does, so they are held against a second run, not the file."""
    written = ["".join(game.pgn() for game in program.season(2)) for _ in range(2)]
    assert written[0] == written[1] and written[0].count("[Event ") == 2
    again = ks.game_from_text(written[0])
    assert dict(again.tags, Result="") == dict(games[0].tags, Result="")
    pairs = [(white.name, black.name) for pairs in program.rounds() for white, black in pairs]
    assert [(game.tags["White"], game.tags["Black"]) for game in games] == pairs
    openings = [line[:5] for line in program.OPENINGS]
    assert all([step.san for step in game.main_steps[:5]] in openings for game in games)


def test_everybody_meets_everybody_once(program: ModuleType, games: list[ks.Game]) -> None:
    names = {member.name: member.rating for member in program.MEMBERS}
    assert len(names) == 16 and min(names.values()) >= 1000 and max(names.values()) <= 1950
    pairs = Counter(frozenset((game.tags["White"], game.tags["Black"])) for game in games)
    assert set(pairs) == {frozenset(pair) for pair in combinations(names, 2)} and set(pairs.values()) == {1}
    whites = Counter(game.tags["White"] for game in games)
    assert all(6 <= whites[name] <= 9 for name in names)
    for game in games:
        assert all(int(game.tags[f"{side}Elo"]) == names[game.tags[side]] for side in ("White", "Black"))
        assert game.tags["Site"] == "Dunmarrow" and game.tags["TimeControl"] == "5400+30"
        assert "2026.09.17" <= game.tags["Date"] <= "2026.11.30"


def test_the_file_is_small_and_plain() -> None:
    data = SEASON.read_bytes()
    assert len(data) < 400_000 and b"\r" not in data
    assert max(map(len, data.decode("utf-8").splitlines())) < 80


def test_games_differ_and_end_as_their_results_say(games: list[ks.Game]) -> None:
    lines = {tuple(map(str, game.main_line)) for game in games}
    assert len(lines) == len(games) and len({line[:12] for line in lines}) > 60
    lengths = [len(game.main_line) for game in games]
    assert min(lengths) >= 20 and max(lengths) <= 140
    assert {game.result for game in games} == {"1-0", "0-1", "1/2-1/2"}
    for game in games:
        last = game.positions()[-1]
        if last.is_mated:
            assert game.result == ("0-1" if last.mover == "white" else "1-0")
        elif game.result != "1/2-1/2":  # resigned, far behind
            worth = {"pawn": 1, "knight": 3, "bishop": 3, "rook": 5, "queen": 9, "king": 0}
            men = [(piece.side, worth[piece.kind]) for piece in last.pieces.values()]
            balance = sum(value if side == "white" else -value for side, value in men)
            assert (balance >= 3) == (game.result == "1-0") and abs(balance) >= 3


def test_the_rules_library_reads_the_same_games(games: list[ks.Game]) -> None:
    with SEASON.open() as stream:
        for ours in games:
            theirs = chess.pgn.read_game(stream)
            assert theirs is not None and not theirs.errors
            assert [move.uci() for move in theirs.mainline_moves()] == [str(move) for move in ours.main_line]
            board = theirs.end().board()
            if ours.result == "1/2-1/2":
                assert not board.is_checkmate()
            else:
                assert not (board.is_stalemate() or board.is_insufficient_material())


def test_clocks_run(games: list[ks.Game]) -> None:
    for game in games:
        times = [step.seconds_left for step in game.main_steps]
        for side in (times[::2], times[1::2]):
            assert all(later and earlier and later <= earlier + 30 for earlier, later in pairwise([5400, *side]))
