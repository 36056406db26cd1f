"""Select: positions of a collection that show what is asked for."""

import itertools
import pickle
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import chess
import pytest
from truth import adapter
from truth.positions import open_data
from truth.verifier import Verifier

import keysquare as ks

ROOT = Path(__file__).parents[2]
SEASON = ROOT / "examples/data/season.pgn"
CLUB = ROOT / "examples/data/club.pgn"


def select(files: Any, **wanted: Any) -> ks.Selection:
    return ks.select(files, progress=False, **wanted)


def ratings_of(game: ks.Game) -> list[int]:
    return [int(game.tags[f"{side}Elo"]) for side in ("White", "Black")]


def by_hand(
    files: Path, fits: Callable[[ks.Finding], bool], plies: tuple[int, int] = (0, 10_000)
) -> dict[int, list[tuple[int, ks.Position]]]:
    """Every position with a finding that fits, by the number of the game, from `ks.findings` alone."""
    found: dict[int, list[tuple[int, ks.Position]]] = {}
    for game in ks.read_games(files):
        for ply, position in enumerate(game.positions()):
            if plies[0] <= ply <= plies[1] and any(map(fits, ks.findings(position))):
                found.setdefault(game.number, []).append((ply, position))
    return found


@pytest.mark.parametrize("theme", ["mutual_guards:locked", "overloaded", "poisoned", "outpost:held_by_piece"])
def test_what_is_found_is_what_findings_say(theme: str) -> None:
    name, _, detail = theme.partition(":")
    expected = by_hand(CLUB, lambda f: f.theme == name and detail in ("", f.detail))
    chosen = select(CLUB, themes=theme, limit=1000)
    assert chosen.whole and chosen.games == 4 and chosen.refused == 0
    assert {moment.game.number for moment in chosen} == set(expected)
    for moment in chosen:
        assert (moment.ply, moment.position) in expected[moment.game.number]
        every = ks.findings(moment.position)
        assert moment.findings == [f for f in every if f.theme == name and detail in ("", f.detail)]
    first = {number: plies[0][0] for number, plies in expected.items()}
    assert {m.game.number: m.ply for m in select(CLUB, themes=theme, limit=len(first))} == first


def test_conditions_of_themes() -> None:
    mover = by_hand(CLUB, lambda f: f.theme == "fork" and f.side == f.position.mover and (f.gain >= 3 or f.mate))
    chosen = select(CLUB, themes=["fork"], side="mover", gain=3, limit=1000)
    assert {(m.game.number, m.ply) for m in chosen} <= {(n, ply) for n, plies in mover.items() for ply, _ in plies}
    assert {m.game.number for m in chosen} == set(mover)
    for side in ("white", "black", "waiter"):
        for moment in select(CLUB, themes=["fork"], side=side, limit=50):
            assert moment.findings
            assert all(f.side == (moment.position.waiter if side == "waiter" else side) for f in moment.findings)


def test_each_of_several_themes_must_be_seen() -> None:
    both = select(CLUB, themes=["passed_pawn", "open_file"], limit=100)
    assert both
    for moment in both:
        assert {finding.theme for finding in moment.findings} == {"passed_pawn", "open_file"}


def test_a_predicate_decides_and_sees_findings_columns_game_and_step() -> None:
    def endgame(moment: ks.Selected) -> bool:
        assert moment.step.position == moment.position and moment.step.ply == moment.ply
        return moment.columns["white_queens"] + moment.columns["black_queens"] == 0

    chosen = select(SEASON, where=endgame, limit=6)
    assert len(chosen) == 6 and len({id(moment.game) for moment in chosen}) == 6
    for moment in chosen:
        assert not any(piece.kind == "queen" for piece in moment.position.pieces.values())
        assert moment.findings == ks.findings(moment.position)
        before = moment.game.positions()[moment.ply - 1]
        assert any(piece.kind == "queen" for piece in before.pieces.values())  # the first such position of its game
        assert len(moment.columns) == len(list(moment.columns)) == 249
    asked: list[int] = []
    select(CLUB, themes="fork", where=lambda moment: asked.append(moment.ply) is not None, limit=1)
    assert asked  # and nothing was taken


def test_ratings_and_plies() -> None:
    def in_the_middle(rating: int) -> bool:
        return 1300 <= rating <= 1600

    chosen = select(SEASON, themes="hanging", rating=(1300, 1600), plies=(20, 30), limit=500)
    assert chosen.whole and chosen.games == 120
    assert chosen.searched == sum(all(map(in_the_middle, ratings_of(game))) for game in ks.read_games(SEASON))
    for moment in chosen:
        assert 20 <= moment.ply <= 30 and all(map(in_the_middle, ratings_of(moment.game)))
    unrated = ks.game_from_text("1. e4 d5 2. exd5 *")
    assert select([unrated], themes="hanging") and not select([unrated], themes="hanging", rating=(0, 4000))


def test_spread_over_games() -> None:
    games = list(itertools.islice(ks.read_games(SEASON), 6))
    assert [m.game.number for m in select(games, themes="hanging", limit=6)] == [1, 2, 3, 4, 5, 6]
    assert [m.game.number for m in select(games, themes="hanging", limit=4, per_game=2)] == [1, 1, 2, 2]
    filled = [m.game.number for m in select(games, themes="hanging", limit=15)]
    assert sorted(filled) == filled and {filled.count(number) for number in range(1, 7)} == {2, 3}
    once = select([*games, *games], themes="hanging", limit=200)
    assert len({m.position.key for m in once}) == len(once)  # no position twice, even of a game that is there twice
    for moments in (list(group) for _, group in itertools.groupby(once, key=lambda m: id(m.game))):
        shown = [{(f.side, *f.pieces) for f in m.findings} for m in moments]
        assert all(shown[a] != shown[b] for a in range(len(shown)) for b in range(a))


def test_the_same_call_gives_the_same_positions() -> None:
    chosen = [select(SEASON, themes="pin", gain=1, limit=12, threads=threads) for threads in (1, 2, 5)]
    assert chosen[0] == chosen[1] == chosen[2]
    assert [m.title for m in chosen[0]] == [m.title for m in chosen[1]]
    assert not chosen[0].whole and chosen[0].positions > 0


def test_paths_patterns_games_and_refused_games(tmp_path: Path) -> None:
    text = CLUB.read_text()
    (tmp_path / "a.pgn").write_text(text)
    broken = '[Event "Broken"]\n\n1. e4 e5 2. Ke3 *\n\n'
    (tmp_path / "b.pgn").write_text(f'{broken}[Event "Short"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n')
    by_path = select(tmp_path / "a.pgn", themes="overloaded", limit=50)
    assert by_path == select(str(tmp_path / "a.pgn"), themes="overloaded", limit=50)
    assert [m.title for m in by_path] == [m.title for m in select(ks.read_games(CLUB), themes="overloaded", limit=50)]
    counts = select(str(tmp_path / "*.pgn"), themes="mate_in_one", limit=50)
    assert (counts.games, counts.refused, counts.whole) == (5, 1, True)
    assert (counts.searched, counts.positions) == (5, sum(len(g.positions()) for g in ks.read_games(CLUB)) + 5)
    for missing in ("nothing.pgn", str(tmp_path / "x*.pgn")):
        with pytest.raises(ks.InputError) as refused:
            select(missing, themes="fork")
        assert refused.value.reason == "cannot_open"


def test_questions_without_sense_are_refused() -> None:
    for wrong in (
        {"themes": "forks"},
        {"themes": "fork:locked_up"},
        {"themes": "fork", "side": "both"},
        {"themes": "fork", "limit": 0},
        {"themes": "fork", "per_game": 0},
        {"themes": "fork", "gain": -1},
        {"themes": "fork", "plies": (-1, 3)},
        {"themes": "fork", "threads": 0},
        {"gain": 1},
        {"side": "white"},
    ):
        with pytest.raises(ValueError):
            select(CLUB, **wrong)


def test_progress_is_on_stderr_or_not_at_all(capsys: pytest.CaptureFixture[str]) -> None:
    ks.select(CLUB, themes="overloaded")
    told = capsys.readouterr()
    assert told.out == "" and "100%" in told.err and "found" in told.err
    ks.select(CLUB, themes="overloaded", progress=False)
    assert capsys.readouterr() == ("", "")


def test_an_interruption_goes_through_and_leaves_nothing_running() -> None:
    def interrupted(moment: ks.Selected) -> bool:
        raise KeyboardInterrupt

    before = threading.active_count()
    with pytest.raises(KeyboardInterrupt):
        select(SEASON, themes="hanging", where=interrupted)
    assert threading.active_count() == before


def test_what_a_moment_says_and_how_it_looks() -> None:
    chosen = select(CLUB, themes="mutual_guards:locked")
    moment = chosen[0]
    assert moment.title == f"Vastin, Joren – Pellerow, Ines, 2026.09.24, after {moment.moved}"
    assert moment.white == "Vastin, Joren" and moment.black == "Pellerow, Ines"
    san = [node.san for node in moment.game.steps if node.is_main_line]
    assert moment.moved.endswith(str(san[moment.ply])) and moment.played.endswith(str(san[moment.ply + 1]))
    assert str(moment).startswith(moment.title) and str(moment.findings[0]) in str(moment)
    ElementTree.fromstring(f"<div>{chosen._repr_html_()}</div>")
    entry = moment.study_entry()
    assert (entry.title, entry.position, entry.shown[0].position) == (moment.title, moment.position, moment.position)
    assert moment.title in ks.Study("Locked knights").add(moment).markdown()
    again = pickle.loads(pickle.dumps(chosen))
    assert again == chosen and again[0].findings == moment.findings and len(again[:1]) == 1
    start = select([ks.game_from_text('[White "<b>"]\n\n1. e4 *')], where=lambda m: True, limit=5)
    assert [m.moved for m in start] == ["", "1.e4"] and "start position" in start[0].title and start[1].played == ""
    assert "<b>" not in start[0]._repr_html_().replace("<p><b>", "")


def both_knights(moment: ks.Selected) -> bool:
    return any({piece.kind for _, piece in finding.pieces} == {"knight"} for finding in moment.findings)


def require_knights_that_hold_each_other(moment: ks.Selected) -> None:
    """By the rules library: two knights of one side that guard each other, and one of them is attacked. By the
    independent verifier: that the pair is what it is said to be, pressured or locked."""
    board = chess.Board(moment.position.fen)
    pairs = [f for f in moment.findings if all(piece.kind == "knight" for _, piece in f.pieces)]
    assert pairs
    for finding in pairs:
        assert finding.theme == "mutual_guards"
        a, b = (chess.parse_square(square) for square, _ in finding.pieces)
        assert board.piece_at(a) == board.piece_at(b) and board.piece_type_at(a) == chess.KNIGHT
        assert b in board.attacks(a) and a in board.attacks(b)
        other = not board.color_at(a)
        assert board.is_attacked_by(other, a) or board.is_attacked_by(other, b)
        assert Verifier(moment.position.fen).violations(adapter.claim_of(finding)) == []


def test_a_coach_gets_knights_that_hold_each_other_from_the_season() -> None:
    chosen = select(SEASON, themes="mutual_guards", where=both_knights, rating=(1000, 1400), limit=10)
    assert chosen
    for moment in chosen:
        require_knights_that_hold_each_other(moment)


def test_a_coach_gets_ten_positions_with_knights_that_hold_each_other_in_one_call() -> None:
    chosen = select(
        open_games("rated-rapid-blitz.pgn"), themes="mutual_guards", where=both_knights, rating=(1000, 1400), limit=10
    )
    assert len(chosen) == 10 and len({moment.game.number for moment in chosen}) == 10
    for moment in chosen:
        assert all(1000 <= rating <= 1400 for rating in ratings_of(moment.game))
        require_knights_that_hold_each_other(moment)


def test_locked_knights_are_rare_and_none_is_left_out() -> None:
    """Every move of either knight loses something: of 1,055 games few have that, and all that do are found."""
    file = open_games("rated-rapid-blitz.pgn")
    chosen = select(file, themes="mutual_guards:locked", where=both_knights, limit=1000)
    assert chosen.whole and chosen
    for moment in chosen:
        require_knights_that_hold_each_other(moment)
    # From the other end: the positions in which two knights of one side guard each other, by the rules library.
    pairs = 0
    for game in itertools.islice(ks.read_games(file), 150):
        for position in game.positions():
            board = chess.Board(position.fen)
            if any(
                board.attacks(square) & board.pieces(chess.KNIGHT, side)
                for side in chess.COLORS
                for square in board.pieces(chess.KNIGHT, side)
            ):
                pairs += 1
                locked = [
                    f
                    for f in ks.findings(position, themes=["mutual_guards"])
                    if f.detail == "locked" and {piece.kind for _, piece in f.pieces} == {"knight"}
                ]
                assert bool(locked) == any(m.position == position for m in chosen)
    assert pairs > 50


def open_games(name: str) -> Path:
    folder = open_data()
    if folder is None or not (folder / "pgn" / name).exists():
        pytest.skip(f"no open data: KEYSQUARE_OPEN_DATA names no folder with pgn/{name}")
    return folder / "pgn" / name
