"""Game reports: what Python shows, the picture, and the independent verifier.

By default the verifier proves the effects of a sample of moves; `KEYSQUARE_EFFECT_MOVES=2000` has it prove so many.
"""

import io
import os
import pickle
import random
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

import keysquare as ks
from truth.foundation import Lie
from truth.game_report import PlyVerifier, effect_violations, report_violations
from truth.positions import game_texts, open_data

EFFECT_MOVES = int(os.environ.get("KEYSQUARE_EFFECT_MOVES") or 120)
CLUB = Path(__file__).parents[2] / "examples/data/club.pgn"
CARELESS = """[White "Field, A."]
[Black "Rook, <B>"]
[SetUp "1"]
[FEN "6k1/5ppp/8/3r4/8/4N3/5PPP/R5K1 b - - 0 1"]

1... h6 2. h3 Kh7 3. Nxd5 Kg8 4. Kh2 Kf8 5. Nc7 g6 6. f3 *
"""


@pytest.fixture(scope="module")
def club() -> list[ks.GameReport]:
    return [ks.game_report(game) for game in ks.read_games(CLUB)]


# --- what Python shows -----------------------------------------------------------------------------------------------------


def test_a_report_follows_the_game() -> None:
    game = ks.game_from_text(CARELESS)
    report = ks.game_report(game)
    assert report.game is game and len(report.plies) == 11
    assert [ply.move for ply in report.plies[1:]] == game.main_line
    assert [ply.position for ply in report.plies] == game.positions()
    assert report.plies[0].move is None and report.plies[0].numbered == "" and report.plies[0].step == game.root
    third = report.plies[3]
    assert (third.ply, third.numbered, third.step.san) == (3, "2...Kh7", "Kh7")
    overlooked = third.effect("overlooked")
    assert overlooked is not None and third.effect("missed") is None
    assert (overlooked.theme, overlooked.cost, overlooked.win.after_pass) == ("hanging", 5, True)
    assert str(overlooked).startswith("2...Kh7 overlooks that White threatens to win material worth 5 pawns: 3.Nxd5.")
    assert overlooked.better is not None and overlooked.better_san == overlooked.better.san(report.plies[2].position)
    assert third.standing.pawns == 8 and str(third.standing) == "With what can be won at once, White has 8 pawns more."
    assert report.plies[7].standing.mating == "white" and report.plies[7].standing.lead == "white_mates"
    assert [ply.numbered for ply, _ in report.effects("missed")] == ["2.h3", "5.Nc7"]
    assert report.effects("missed", "black") == [] and len(report.effects()) == 5
    assert [point.numbered for point in report.turning_points] == ["4...Kf8", "5.Nc7"]
    assert str(report.turning_points[0]) == "4...Kf8 lets White mate: 5.Ra8#. After 4...Kh7 nothing is lost."


def test_moments_ask_and_answer() -> None:
    report = ks.game_report(ks.game_from_text(CARELESS))
    first, second = report.moments
    assert (first.ply, first.moved, first.played, first.theme) == (1, "1...h6", "2.h3", "hanging")
    assert first.title == "After 1...h6"
    assert first.question == "White to move. There is something to win. What, and how?"
    assert first.answer == "White can win material worth 5 pawns with Nxd5: the rook on d5 has no guard. 2.h3 misses it."
    assert first.position.mover == "white" and first.effect is report.plies[2].effects[0]
    assert second.answer == "White mates with Ra8#. 5.Nc7 misses it."
    assert ks.game_report(report.game, at_most=1).moments in ([first], [second])


def test_events_are_the_effects_of_the_report(club: list[ks.GameReport]) -> None:
    for report in club:
        events = [
            (ply.ply, before.position.mover, e.kind, e.theme, e.win.gain, e.win.mate, e.cost - e.left)
            for before, ply in zip(report.plies, report.plies[1:])
            for e in ply.effects
        ]
        found = ks.move_events(report.game)
        assert [(e.ply, e.side, e.kind, e.theme, e.gain, e.mate, e.cost) for e in found] == events
    assert isinstance(ks.move_events(club[0].game)[0], ks.MoveEvent)


def test_what_the_coach_wrote_is_found(club: list[ks.GameReport]) -> None:
    """The notes of examples/data/club.pgn were written by hand, before there was a report."""
    assert [moment.played for moment in club[0].moments if moment.theme == "mutual_guards"] == ["24.h5"]  # "They are locked"
    assert [moment.played for moment in club[0].moments if moment.theme == "exchange_imbalance"]
    assert [point.numbered for point in club[1].turning_points] == ["28.a4", "28...Re2", "29.a5"]  # "overlooked once"
    assert club[2].plies[42].effect("overlooked") and club[2].plies[43].effect("exploited")  # the knight is free now


def test_the_timeline_has_a_row_for_each_ply(club: list[ks.GameReport]) -> None:
    timeline = club[0].timeline
    assert len(timeline) == len(club[0].plies)
    assert timeline is club[0].timeline
    assert list(timeline["white_pawns"])[0] == 8


def test_everything_shows_itself(club: list[ks.GameReport]) -> None:
    report = club[1]
    assert repr(report) == "<keysquare.GameReport Thornquill, Mabel – Karlitz, Edo, 0-1: 74 plies, 3 turning points, 3 moments>"
    assert str(report).splitlines()[1] == f"Turning point: {report.turning_points[0]}"
    assert "<svg" in report._repr_html_() and "<details>" in report.moments[0]._repr_html_()
    assert repr(report.plies[55]).startswith("<keysquare.PlyReport 28.a4: allowed")
    assert repr(report.plies[0]) == "<keysquare.PlyReport (start)>"
    assert repr(report.turning_points[0]) == "<keysquare.TurningPoint 28.a4: level to black_ahead>"
    assert repr(report.moments[0]).startswith("<keysquare.Moment After 28.a4, removable_guard: ")
    assert "<svg" in report.turning_points[0]._repr_html_() and "<svg" in report.plies[3]._repr_html_()
    assert repr(report.plies[55].effects[0]).startswith("<keysquare.MoveEffect allowed removable_guard: 28.a4 lets")
    hostile = ks.game_report(ks.game_from_text(CARELESS))._repr_html_()
    assert "Rook, &lt;B&gt;" in hostile and "<B>" not in hostile


def test_records_compare_and_pickle(club: list[ks.GameReport]) -> None:
    report = ks.game_report(ks.game_from_text(CARELESS))
    again = pickle.loads(pickle.dumps(report.moments))
    assert again == report.moments
    assert pickle.loads(pickle.dumps(report.turning_points)) == report.turning_points
    assert pickle.loads(pickle.dumps(ks.move_events(report.game))) == ks.move_events(report.game)


def test_other_values_and_bounds() -> None:
    game = ks.game_from_text(CARELESS)
    assert not ks.move_events(game, least_gain=6, plies=1) or all(e.mate for e in ks.move_events(game, least_gain=6, plies=1))
    with pytest.raises(ValueError, match="least_gain"):
        ks.game_report(game, least_gain=0)
    with pytest.raises(TypeError):
        ks.game_report(None)  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        ks.move_events(None)  # type: ignore[arg-type]
    empty = ks.game_report(ks.Game())
    assert len(empty.plies) == 1 and empty.moments == [] and ks.move_events(ks.Game()) == []


def test_themes_have_nouns() -> None:
    assert ks.theme_noun("fork") == "forks" and ks.theme_noun("other") == "other ways"
    assert len({ks.theme_noun(theme) for theme in ks.themes}) == len(ks.themes)
    with pytest.raises(ValueError, match="no theme"):
        ks.theme_noun("forks")


def test_the_plot_is_black_and_white(club: list[ks.GameReport]) -> None:
    matplotlib_image = pytest.importorskip("matplotlib.image")
    figure = club[1].plot()
    texts = [text.get_text() for panel in figure.axes for text in panel.texts]
    assert {"28.a4", "28...Re2", "29.a5", "1", "2", "3"} <= set(texts)
    assert len(figure.axes) == 2 and len(club[1].plot(columns=()).axes) == 1
    picture = io.BytesIO()
    figure.savefig(picture, format="png", dpi=60)
    picture.seek(0)
    pixels = matplotlib_image.imread(picture)[:, :, :3]
    assert (pixels.max(axis=2) - pixels.min(axis=2)).max() < 0.02  # no colour anywhere
    assert pixels.min() < 0.1
    with pytest.raises(ValueError, match="no feature with a difference"):
        club[1].plot(columns=("white_pawns",))
    assert ks.game_report(ks.Game()).plot() is not None


# --- the independent verifier ----------------------------------------------------------------------------------------------


def open_reports(count: int) -> Iterator[ks.GameReport]:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    for name in ("rated-rapid-blitz.pgn", "masters.pgn"):
        for text in list(game_texts(folder / "pgn" / name, 4 * count))[:: 4]:
            yield ks.game_report(ks.game_from_text(text))


def moves_to_prove(reports: list[ks.GameReport], count: int) -> list[tuple[ks.GameReport, int]]:
    """Moves with an effect and as many without one, as far as there are some."""
    every = [(report, at) for report in reports for at in range(1, len(report.plies))]
    random.Random(5).shuffle(every)
    with_effects = [(report, at) for report, at in every if report.plies[at].effects]
    without = [(report, at) for report, at in every if not report.plies[at].effects]
    return [*with_effects[: count * 2 // 3], *without[: count // 3]]


def test_reports_hold_no_lie(club: list[ks.GameReport]) -> None:
    for report in club:
        assert list(report_violations(report)) == []
    proved = [lie for report, at in moves_to_prove(club, EFFECT_MOVES // 3) for lie in effect_violations(report, at)]
    assert proved == []


def test_reports_of_open_games_hold_no_lie() -> None:
    reports = list(open_reports(max(8, EFFECT_MOVES // 20)))
    assert [lie for report in reports for lie in report_violations(report)] == []
    chosen = moves_to_prove(reports, EFFECT_MOVES)
    assert len(chosen) >= EFFECT_MOVES // 2
    lies = [lie for report, at in chosen for lie in effect_violations(report, at)]
    assert lies == [], "\n".join(lies)


def test_the_verifier_notices_lies(club: list[ks.GameReport]) -> None:
    report = club[1]
    last, ply, next_ply = report.plies[54:57]
    assert ply.numbered == "28.a4" and [effect.kind for effect in ply.effects] == ["allowed"]
    verifier = PlyVerifier(last.position.fen)

    def refused(**changes: object) -> bool:
        changed = replace(ply, effects=[replace(ply.effects[0], **changes)])  # type: ignore[arg-type]
        try:
            verifier.check_effects(last, changed, next_ply)
        except Lie:
            return True
        return False

    assert not refused()
    assert refused(kind="overlooked") and refused(kind="missed") and refused(kind="exploited")
    assert refused(cost=3) and refused(left=1) and refused(better=ply.move) and refused(win=next_ply.threats[0])
    with pytest.raises(Lie):
        verifier.check_effects(last, replace(ply, effects=[]), next_ply)
    missed = report.plies[56]
    with pytest.raises(Lie):
        PlyVerifier(report.plies[55].position.fen).check_effects(report.plies[55], replace(missed, effects=[]), report.plies[57])
    for lie in (
        replace(report, turning_points=report.turning_points[1:]),
        replace(report, plies=[*report.plies[:-1], replace(report.plies[-1], created=[])]),
        replace(report, plies=[replace(report.plies[0], standing=ks.Standing(1, None, "level")), *report.plies[1:]]),
    ):
        assert list(report_violations(lie)) != []
