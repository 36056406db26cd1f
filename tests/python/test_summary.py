"""Summaries: every number against NumPy and SciPy, intervals against statsmodels, and parts against the whole.

The outside: numpy and scipy.stats (means, variances, quantiles), scipy.stats.binomtest and statsmodels (Wilson intervals),
pyarrow's group_by on the rows of the same scan.
"""

import math
import pickle
from pathlib import Path

import numpy as np
import pyarrow as pa
import pytest
from scipy import stats

import keysquare as ks

ROOT = Path(__file__).resolve().parents[2]
CLUB = ROOT / "examples/data/club.pgn"
SEASON = ROOT / "examples/data/season.pgn"
COLUMNS = ["piece_scope_difference", "legal_moves", "white_material", "clock", "white_rating", "mover_expected_score", "plies"]


def summary_of(files: object, by: object = ("phase", "mover"), **wanted: object) -> ks.Summary:
    return ks.summarise(files, by=by, features=COLUMNS, progress=False, **wanted)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def whole() -> ks.Summary:
    return summary_of(SEASON)


@pytest.fixture(scope="module")
def frame() -> dict[tuple[str, str], dict[str, np.ndarray]]:
    """The rows of the same positions, by group; NaN for what is missing."""
    names = ["phase", "mover", "game_offset", "result", *COLUMNS]
    features = [name for name in COLUMNS if name in ks.feature_schema().names]
    columns = [name for name in names if name not in features]
    table = pa.table(ks.scan(SEASON, columns=columns, features=features, progress=False))
    arrays = {name: table[name].to_numpy(zero_copy_only=False) for name in names}
    keys = list(zip(arrays["phase"], arrays["mover"]))
    return {
        key: {name: array[np.array([it == key for it in keys])] for name, array in arrays.items()} for key in set(keys)
    }


def test_every_number_of_every_group(whole: ks.Summary, frame: dict[tuple[str, str], dict[str, np.ndarray]]) -> None:
    assert set(whole) == set(frame) and len(whole) == 6
    for key, group in whole.items():
        rows = frame[key]  # type: ignore[index]
        assert group.positions == len(rows["plies"])
        for name, it in group.items():
            values = rows[name].astype(float)
            known = values[~np.isnan(values)]
            assert (it.count, it.missing) == (len(known), len(values) - len(known))
            described = stats.describe(known)
            assert it.min == pytest.approx(described.minmax[0], abs=5e-5)
            assert it.max == pytest.approx(described.minmax[1], abs=5e-5)
            assert it.mean == pytest.approx(described.mean, rel=1e-12, abs=5e-5)
            if name != "mover_expected_score":  # which is rounded to a ten-thousandth
                assert it.variance == pytest.approx(described.variance, rel=1e-12)
                assert it.deviation == pytest.approx(np.std(known, ddof=1), rel=1e-12)
                assert it.sum == pytest.approx(known.sum(), rel=1e-12)
            bins = it.histogram
            edges = [*bins, max(bins) + bins.width]
            inside = np.histogram(known + 1e-9, bins=edges)[0] if name != "mover_expected_score" else None
            if inside is not None:
                assert list(inside) == list(bins.values())
            assert sum(bins.values()) == it.count


def test_quantiles_and_shares(whole: ks.Summary, frame: dict[tuple[str, str], dict[str, np.ndarray]]) -> None:
    for key, group in whole.items():
        values = frame[key]["legal_moves"]  # type: ignore[index]
        for q in (0, 0.1, 0.25, 0.5, 0.9, 1):
            assert group["legal_moves"].quantile(q) == np.quantile(values, q, method="inverted_cdf")
        share = group["legal_moves"].share(at_least=30)
        assert share == ks.Share(int((values >= 30).sum()), len(values))
        expected = stats.binomtest(share.count, share.of).proportion_ci(method="wilson")
        assert share.interval() == pytest.approx((expected.low, expected.high), abs=1e-12)
    with pytest.raises(ValueError, match="quantile"):
        group["legal_moves"].quantile(1.5)
    with pytest.raises(ValueError, match="width"):
        group["white_rating"].share(at_least=1401)


def test_shares_and_quantiles_at_the_edges(tmp_path: Path) -> None:
    path = tmp_path / "games.pgn"
    clocks = "".join(f'1. e4 {{[%clk 0:01:0{seconds}]}} e5 2. d4 *\n\n' for seconds in (2, 5, 7))
    path.write_text(clocks)
    it = ks.summarise(path, features=["clock"], progress=False)[()]["clock"]
    assert (it.count, it.min, it.max) == (3, 62, 67)
    assert it.share(62) == ks.Share(3, 3) and it.share(-5) == ks.Share(3, 3) and it.share(68) == ks.Share(0, 3)
    for bound in (65, 67, float("nan")):
        with pytest.raises(ValueError, match="part|NaN"):
            it.share(bound)
    games = "".join(f'[WhiteElo "{rating}"]\n\n*\n\n' for rating in range(1, 101))
    path.write_text(games)
    plies = ks.summarise(path, features=["white_rating"], progress=False)[()]
    assert plies["white_rating"].share(50) == ks.Share(51, 100)
    path.write_text("".join(f'[FEN "4k3/8/8/8/8/8/8/4K3 w - - 0 {number}"]\n\n*\n\n' for number in range(1, 101)))
    numbers = ks.summarise(path, features=["move_number"], progress=False)[()]["move_number"]
    for q in (0.07, 0.14, 0.28, 0.55, 0.56):
        assert numbers.quantile(q) == round(q * 100)
    assert numbers.share(0.5) == ks.Share(100, 100) and numbers.share(50.5) == ks.Share(50, 100)


def test_groups_of_any_name(tmp_path: Path) -> None:
    path = tmp_path / "games.pgn"
    names = ["9" * 5000, "10", "9", "", "Vastin"]
    path.write_text("".join(f'[Event "{name}"]\n\n*\n\n' for name in names) + '[White "b"]\n\n*\n\n')
    summary = ks.summarise(path, by="Event", features=[], progress=False)
    assert [key[0] for key in summary] == ["", "Vastin", "9", "10", "9" * 5000, None]
    assert "Event : 1 position of 1 game," in str(summary) and "Event unknown: 1 position of 1 game," in str(summary)
    keys = ks.summarise(path, by="key", features=[], progress=False)
    (batch,) = ks.scan(path, columns="key", features=[], progress=False)
    assert [key[0] for key in keys] == sorted({str(key) for key in batch["key"]})


def test_games_and_scores(whole: ks.Summary, frame: dict[tuple[str, str], dict[str, np.ndarray]]) -> None:
    proportion = pytest.importorskip("statsmodels.stats.proportion")
    for key, group in whole.items():
        rows = frame[key]  # type: ignore[index]
        results = dict(zip(rows["game_offset"], rows["result"]))
        assert group.games == len(results)
        counted = [list(results.values()).count(result) for result in ("1-0", "1/2-1/2", "0-1")]
        score = group.score
        assert [score.wins, score.draws, score.losses] == counted and score.games == sum(counted)
        points = counted[0] + counted[1] / 2
        assert score.mean == points / score.games
        low, high = proportion.proportion_confint(points, score.games, method="wilson")
        assert score.interval() == pytest.approx((low, high), abs=1e-12)


def test_wilson_is_that_of_statsmodels() -> None:
    proportion = pytest.importorskip("statsmodels.stats.proportion")
    for of in (1, 2, 7, 50, 1000, 10**9):
        for count in {0, 1, of // 3, of - 1, of}:
            for confidence in (0.5, 0.95, 0.999):
                low, high = proportion.proportion_confint(count, of, alpha=1 - confidence, method="wilson")
                assert ks.Share(count, of).interval(confidence) == pytest.approx((low, high), abs=1e-12)


@pytest.mark.parametrize("threads", [1, 2, 5])
def test_threads_make_no_difference(whole: ks.Summary, threads: int) -> None:
    again = summary_of([SEASON], threads=threads)
    assert again == whole and pickle.dumps(again) == pickle.dumps(whole)


def test_parts_add_up_to_the_whole(whole: ks.Summary) -> None:
    parts = [summary_of(shard, threads=1) for shard in ks.shards(SEASON, 3000)]
    assert len(parts) > 10
    forwards = parts[0]
    for part in parts[1:]:
        forwards = forwards + part
    left, right = parts[0] + parts[1], parts[2] + parts[3]
    assert (left + right) == ((parts[0] + (parts[1] + parts[2])) + parts[3])
    assert forwards == whole and pickle.dumps(forwards) == pickle.dumps(whole)
    backwards = parts[-1]
    for part in reversed(parts[:-1]):
        backwards = backwards + part
    assert backwards == whole


def test_summaries_pickle(whole: ks.Summary) -> None:
    again = pickle.loads(pickle.dumps(whole))
    assert again == whole and list(again) == list(whole) and again.table() == whole.table()
    assert again[("opening", "white")]["legal_moves"] == whole[("opening", "white")]["legal_moves"]
    assert again.counts == whole.counts
    state = whole._numbers.__getstate__()
    for broken in (b"", state[:-1], state + b"x", b"x" + state):
        with pytest.raises(ValueError, match="summary"):
            whole._numbers.__class__.__new__(whole._numbers.__class__).__setstate__(broken)


def test_other_summaries_are_not_added(whole: ks.Summary) -> None:
    with pytest.raises(ValueError, match="other groups"):
        whole + ks.summarise(CLUB, by="phase", features=COLUMNS, progress=False)
    with pytest.raises(ValueError, match="other groups"):
        whole + ks.summarise(CLUB, by=["phase", "mover"], features=["plies"], progress=False)
    with pytest.raises(TypeError):
        whole + 1  # type: ignore[operator]
    assert whole != summary_of(CLUB) and whole != 1


def test_groups_by_tags_numbers_and_none() -> None:
    summary = ks.summarise(CLUB, by=["White", "endgame"], features=[], progress=False)
    assert {key[1] for key in summary} == {"0", "1"}
    assert {key[0] for key in summary} == {game.tags["White"] for game in ks.read_games(CLUB)}
    assert sum(group.positions for group in summary.values()) == summary.counts.positions
    one = ks.summarise(CLUB, features=["plies"], progress=False)
    assert list(one) == [()] and one[()].games == 4
    bands = list(ks.summarise(SEASON, by="white_rating_band", features=[], every=1000, progress=False))
    assert bands == sorted(bands, key=lambda key: int((key[0] or "9999-").split("-")[0]))


def test_positions_without_a_value_are_a_group(tmp_path: Path) -> None:
    path = tmp_path / "games.pgn"
    path.write_text('[White "a"]\n[WhiteElo "900"]\n\n1. e4 *\n\n[White "b"]\n[WhiteElo "?"]\n\n1. d4 *\n\n')
    summary = ks.summarise(path, by="white_rating_band", features=["white_rating"], progress=False)
    assert list(summary) == [("800-999",), (None,)]
    assert summary[None]["white_rating"].missing == 2 and summary[None]["white_rating"].count == 0
    assert math.isnan(summary[None]["white_rating"].mean) and summary[None]["white_rating"].min is None
    assert summary["800-999"].score.games == 0 and math.isnan(summary["800-999"].score.mean)
    assert summary["800-999"].score.interval() == (0, 1)
    with pytest.raises(KeyError, match="1000-1199"):
        summary["1000-1199"]
    assert 5 not in summary and "800-999" in summary
    with pytest.raises(KeyError):
        summary[None]["black_rating"]


def test_a_table_for_a_data_frame(whole: ks.Summary) -> None:
    rows = whole.table()
    assert len(rows) == 6 * len(COLUMNS)
    assert list(rows[0]) == ["phase", "mover", "positions", "games", "white_score", "column", "count", "missing", "mean",
                             "deviation", "min", "max"]
    assert rows[0]["mean"] == whole[("endgame", "black")]["piece_scope_difference"].mean
    bare = ks.summarise(CLUB, by="phase", features=[], progress=False).table()
    assert [row["phase"] for row in bare] == ["endgame", "middlegame", "opening"] and "column" not in bare[0]


@pytest.mark.parametrize("column", ["White", "fen", "key", "game_offset", "move_played"])
def test_columns_without_numbers_are_refused(column: str) -> None:
    with pytest.raises(ValueError, match="numbers"):
        ks.summarise(CLUB, features=[column], progress=False)


def test_it_speaks(whole: ks.Summary) -> None:
    assert str(whole).splitlines()[0] == f"{whole.counts.positions} positions of 120 games, 0 left out"
    assert "phase opening, mover white: " in str(whole)
    group = whole[("opening", "white")]
    assert repr(group).startswith("<keysquare.Group ('opening', 'white'): ")
    assert repr(group["plies"]).startswith("<keysquare.ColumnStatistics: ")
    assert repr(group["clock"].histogram).endswith("of width 10>")
    assert str(ks.Share(4, 100)) == "4.0 % of 100 (95 % 1.6 to 9.8)"
    assert repr(whole) == "<keysquare.Summary: 6 groups, 7 columns>"
