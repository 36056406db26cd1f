"""Profiles: counts of events in a player's moves, beside others' moves."""

import io
import itertools
import json
import pickle
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from scipy import stats  # type: ignore[import-untyped]

import keysquare as ks
from keysquare import _profile
from keysquare._circumstances import SPLITS, Circumstances, circumstances
from keysquare._tally import ALL, KINDS, MOST_EXAMPLES

ROOT = Path(__file__).parents[2]
SEASON = ROOT / "examples/data/season.pgn"


class MadeUp(NamedTuple):
    """An event that a test makes up."""

    ply: int
    side: str
    kind: str
    theme: str
    gain: int = 1
    mate: bool = False


def made_up(game: ks.Game) -> list[MadeUp]:
    """Events by lot: Vastin allows forks seven times as often as everybody else."""
    lot = random.Random(f"{game.tags['White']} {game.tags['Black']} {len(game.main_line)}")
    events = []
    for ply in range(1, len(game.main_line) + 1):
        side = "white" if ply % 2 else "black"
        for kind in KINDS:
            theme = lot.choice(["fork", "pin", "hanging", "other"])
            habit = kind == "allowed" and theme == "fork" and game.tags[side.capitalize()] == "Vastin, Joren"
            if lot.random() < (0.42 if habit else 0.06):
                events.append(MadeUp(ply, side, kind, theme, lot.randint(1, 9), lot.random() < 0.1))
    return events


@pytest.fixture
def by_lot(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_profile, "_events", made_up)


@pytest.fixture(scope="module")
def season() -> list[ks.Game]:
    return list(ks.read_games(SEASON))


def profile_of(player: str, files: object = SEASON, **options: object) -> ks.Profile:
    return ks.profile(files, player, progress=False, **options)  # type: ignore[arg-type]


def counted(games: list[ks.Game], player: str) -> tuple[Counter[tuple[str, str]], int, Counter[tuple[str, str]], int]:
    """Events and moves of the player and of the opponents, counted in the plainest way."""
    own: Counter[tuple[str, str]] = Counter()
    others: Counter[tuple[str, str]] = Counter()
    own_moves = other_moves = 0
    for game in games:
        if player not in (game.tags["White"], game.tags["Black"]):
            continue
        side = "white" if game.tags["White"] == player else "black"
        moves = len(game.main_line)
        white_moves = (moves + 1) // 2
        own_moves += white_moves if side == "white" else moves - white_moves
        other_moves += moves - white_moves if side == "white" else white_moves
        for event in made_up(game):
            (own if event.side == side else others)[event.kind, event.theme] += 1
    return own, own_moves, others, other_moves


@pytest.mark.usefixtures("by_lot")
def test_counts_rates_and_intervals(season: list[ks.Game]) -> None:
    profile = profile_of("Vastin, Joren")
    own, own_moves, others, other_moves = counted(season, "Vastin, Joren")
    assert (profile.games, profile.moves, profile.refused) == (15, own_moves, 0)
    rows = {(row.kind, row.theme): row for row in profile.rows()}
    assert len(rows) == len(profile.rows()) == 4 * 5
    for (kind, theme), row in rows.items():
        if theme != "any":
            assert (row.own.count, row.own.moves) == (own[kind, theme], own_moves)
            assert (row.others.count, row.others.moves) == (others[kind, theme], other_moves)
        # SciPy: binomtest(...).proportion_ci(method="wilson").
        expected = stats.binomtest(row.own.count, row.own.moves).proportion_ci(method="wilson")
        assert row.own.interval == pytest.approx((100 * expected.low, 100 * expected.high), abs=1e-10)
        assert row.own.per_100 == pytest.approx(100 * row.own.count / own_moves)
        assert row.interval.low <= row.difference <= row.interval.high


@pytest.mark.usefixtures("by_lot")
@pytest.mark.parametrize("split", list(SPLITS))
def test_the_parts_add_up_to_the_whole(split: str) -> None:
    profile = profile_of("Pellerow, Ines")
    for kind in KINDS:
        for theme in (None, "fork", "other"):
            whole = profile.row(kind, theme)
            parts = [profile.row(kind, theme, split, value) for value in profile.values(split)]
            assert sum(part.own.count for part in parts) == whole.own.count
            assert sum(part.own.moves for part in parts) == whole.own.moves == profile.moves
        themes = [profile.row(kind, theme).own.count for theme in ("fork", "pin", "hanging", "other")]
        assert sum(themes) == profile.row(kind).own.count
    assert len(profile.rows(split)) == 4 * 5 * len(profile.values(split))
    assert profile.values("colour") == ["white", "black"] and profile.values("phase")[0] == "opening"
    with pytest.raises(ValueError):
        profile.values("weather")


@pytest.mark.usefixtures("by_lot")
def test_a_habit_is_found_and_told_with_its_examples() -> None:
    profile = profile_of("Vastin, Joren")
    assert len(profile.habits) == 5
    habit = profile.habits[0]
    assert (habit.kind, habit.theme, habit.holds) == ("allowed", "fork", True)
    assert habit.rate == habit.row.own.per_100 > habit.reference_rate and habit.interval == habit.row.own.interval
    assert str(habit) == f"Joren Vastin allows forks in {habit.row.own}; the opponents in {habit.row.others}."
    standardised = [abs(row.standardised) for row in profile.compared]
    assert standardised == sorted(standardised, reverse=True)
    assert all(row.own.count + row.others.count >= 5 for row in profile.compared)
    assert 0 < len(habit.examples) <= MOST_EXAMPLES
    for example in habit.examples:
        side = "white" if example.white == "Vastin, Joren" else "black"
        assert example.position == example.game.positions()[example.ply] and example.position.mover == side
        assert example.event in made_up(example.game) and example.event.ply == example.ply + 1
        assert (example.event.kind, example.event.theme) == ("allowed", "fork")
        assert example.played in str(example) and example.title in str(example)
    assert f"* {habit}" in str(profile) and f"{len(profile.compared)} kinds of event were compared" in str(profile)
    ElementTree.fromstring(f"<div>{profile._repr_html_()}</div>")
    json.dumps(profile.table("phase"))
    assert profile.table()[0]["theme"] == "any"


@pytest.mark.usefixtures("by_lot")
def test_few_rows_hold_where_there_is_no_habit(season: list[ks.Game]) -> None:
    names = {game.tags["White"] for game in season} - {"Vastin, Joren"}
    profiles = [profile_of(name, season) for name in sorted(names)]
    # With Bonferroni's correction one profile in twenty has such a row by chance; Vastin's forks count for the others.
    held = [habit for profile in profiles for habit in profile.habits if habit.holds]
    assert len(held) <= 2


@pytest.mark.usefixtures("by_lot")
def test_the_reference_group(season: list[ks.Game]) -> None:
    profile = profile_of("Vastin", reference=SEASON)
    everybody = sum(len(game.main_line) for game in season)
    assert profile.others_tally.moves[ALL] == everybody - profile.moves
    assert profile.others == "the reference group" and profile.others_tally.games == 120
    total = sum(event.kind == "missed" for game in season for event in made_up(game))
    assert profile.row("missed").own.count + profile.row("missed").others.count == total
    alone = profile_of("Vastin", reference=[])
    assert alone.others_tally.moves[ALL] == 0 and alone.row("missed").others.interval == (0, 100)
    assert str(alone) and not any(habit.holds for habit in alone.habits)


@pytest.mark.usefixtures("by_lot")
def test_profiles_do_not_depend_on_threads_or_parts(season: list[ks.Game]) -> None:
    whole = profile_of("Karlitz, Edo", season)
    for other in (
        profile_of("Karlitz, Edo", season, threads=1),
        profile_of("Karlitz, Edo", iter(season)),
        profile_of("Karlitz, Edo", season[:50]) + profile_of("Karlitz, Edo", season[50:]),
        pickle.loads(pickle.dumps(whole)),
    ):
        assert other.own_tally == whole.own_tally and other.others_tally == whole.others_tally
        assert str(other) == str(whole) and other.table("opponent") == whole.table("opponent")
    with pytest.raises(ValueError):
        whole + profile_of("Vastin", season)


@pytest.mark.usefixtures("by_lot")
def test_players_are_found_by_name_or_by_a_part_of_it(season: list[ks.Game]) -> None:
    assert profile_of("vastin", season).player == "Vastin, Joren"
    assert profile_of("Vastin, Joren", season).name == "Joren Vastin"
    for wrong, told in (
        ("Vastyn, Joren", "close to it are Vastin, Joren"),
        ("e", "several players are called like 'e': Aldercombe, Rufus, "),
        ("Nobody", "no player in these games is called 'Nobody'"),
    ):
        with pytest.raises(ValueError, match=told):
            profile_of(wrong, season)
    with pytest.raises(ValueError, match="no player"):
        profile_of("Vastin", [])
    # A whole name is meant even when it is a part of another one.
    games = [ks.game_from_text(f'[White "{name}"]\n[Black "B"]\n\n1. e4 e5 *\n') for name in ("Wex", "Wexmoor")]
    assert profile_of("Wex", games).player == "Wex" and profile_of("wexm", games).player == "Wexmoor"


def held(profile: ks.Profile) -> dict[tuple[str, str], ks.Habit]:
    return {(habit.kind, habit.theme): habit for habit in profile.habits if habit.holds}


def test_the_habits_that_the_season_was_given_are_found() -> None:
    """What examples/data/make_season.py says of its members, by the real events."""
    vastin = held(profile_of("Vastin, Joren", reference=SEASON))
    assert vastin["allowed", "fork"].rate > 5 * vastin["allowed", "fork"].reference_rate
    for example in vastin["allowed", "fork"].examples:
        after = example.game.positions()[example.ply + 1]
        replies = [finding.line[0] for finding in ks.findings(after, themes=["fork"], side=after.mover) if finding.line]
        assert ks.threats(after, side=after.mover)[0].line[0] in replies  # the strongest reply is a fork
    quillon = held(profile_of("Quillon, Sela"))
    assert quillon["overlooked", "hanging"].rate > 3 * quillon["overlooked", "hanging"].reference_rate
    karlitz = profile_of("Karlitz, Edo")
    assert held(karlitz)["missed", "hanging"].rate > 3 * held(karlitz)["missed", "hanging"].reference_rate
    rates = [karlitz.row("missed", None, "time_left", value).own for value in karlitz.values("time_left")]
    assert karlitz.values("time_left")[-1] == "under a tenth"
    assert rates[-1].interval.low > max(rate.interval.high for rate in rates[:-1])
    pellerow = held(profile_of("Pellerow, Ines"))
    assert {"exploited", "allowed"} <= {kind for kind, _ in pellerow} <= {"exploited", "allowed", "overlooked"}
    assert all((habit.rate > habit.reference_rate) == (kind == "exploited") for (kind, _), habit in pellerow.items())


def test_games_without_moves_ratings_and_clocks() -> None:
    text = '[White "A"]\n[Black "B"]\n\n*\n\n[White "B"]\n[Black "A"]\n\n1. e4 e5 2. Nf3 *\n'
    profile = profile_of("A", list(ks.read_games(io.StringIO(text))))
    assert (profile.games, profile.moves) == (2, 1)
    assert profile.values("opponent") == profile.values("time_left") == ["unknown"]
    assert profile.row("missed").own.count == 0 and profile.habits == []
    assert "Nothing happened" in str(profile)


def test_the_circumstances_of_a_move() -> None:
    tags = '[WhiteElo "1799"]\n[BlackElo "1400"]\n[TimeControl "{}"]\n\n'
    moves = "1. e4 {[%clk 0:51:00]} e5 {[%clk 0:50:00]} 2. Nf3 {[%clk 0:05:00]} Nc6 3. Bb5 {[%clk 0:04:59]} a6 4. a3 *"
    around = circumstances(ks.game_from_text(tags.format("6000+30") + moves))
    assert [each.phase for each in around] == ["opening"] * 7
    assert [each.colour for each in around] == ["white", "black"] * 3 + ["white"]
    assert [each.opponent for each in around[:2]] == ["1400-1599", "1600-1799"]
    half, tenth, under = "more than half", "a tenth to half", "under a tenth"
    changed = moves.replace("0:05:00", "0:10:00").replace("0:04:59", "0:09:59")
    around = circumstances(ks.game_from_text(tags.format("6000") + changed))
    # White: at the start, with 51, 10 and almost 10 of 100 minutes left; Black: at the start, with 50, without a clock.
    assert [each.time_left for each in around[::2]] == [half, half, tenth, under]
    assert [each.time_left for each in around[1::2]] == [half, tenth, "unknown"]
    for control in ("40/7200:3600", "-", "?", "*60", ""):
        around = circumstances(ks.game_from_text(tags.format(control) + moves))
        assert {each.time_left for each in around} == {"unknown"}


@pytest.mark.parametrize(
    ("fen", "phase"),
    [
        ("r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R w KQkq - 2 10", "opening"),
        ("r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R w KQkq - 2 11", "middlegame"),
        ("4k3/8/8/8/8/8/8/4K2R w - - 0 10", "opening"),
        ("r1b1kbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNB1KB1R w KQkq - 2 11", "endgame"),  # no queens
        ("3qk1n1/5ppp/8/8/8/8/5PPP/3QK1N1 w - - 0 30", "endgame"),  # 12 and 12
        ("3qk1n1/5ppp/8/8/8/8/5PPP/R2QK3 w - - 0 30", "middlegame"),  # 14 and 12
    ],
)
def test_the_phase_by_the_position_before_the_move(fen: str, phase: str) -> None:
    game = ks.Game(ks.Position(fen))
    game.root.add_move(game.start.moves()[0])
    assert [each.phase for each in circumstances(game)] == [phase]


def stream(count: int) -> Iterator[tuple[ks.Game, list[MadeUp], list[Circumstances]]]:
    """So many games with their events: one game of the season again and again, with events of their own."""
    game = next(iter(ks.read_games(SEASON)))
    around = circumstances(game)
    lot = random.Random(20)
    for _ in range(count):
        events = [
            MadeUp(ply, "white" if ply % 2 else "black", lot.choice(KINDS), lot.choice(ks.themes))
            for ply in range(1, len(around) + 1)
            if lot.random() < 0.05
        ]
        yield game, events, around


@pytest.mark.parametrize("count", [20, 20_000])
def test_tallies_of_few_and_of_many_games_hold_counts_and_a_few_examples(count: int) -> None:
    tally = ks.Tally()
    total: Counter[str] = Counter()
    for game, events, around in stream(count):
        tally.add_game(game, ["white"], events, around)
        total.update(event.kind for event in events if event.side == "white")
    assert tally.games == count and tally.moves[ALL] == count * ((len(around) + 1) // 2)
    assert {kind: tally.count(kind) for kind in KINDS} == {kind: total[kind] for kind in KINDS}
    assert len(tally.examples) <= len(KINDS) * len(ks.themes)
    assert all(len(examples) <= MOST_EXAMPLES for examples in tally.examples.values())
    for split in SPLITS:
        cells = [cell for cell in tally.moves if cell[0] == split]
        assert sum(tally.moves[cell] for cell in cells) == tally.moves[ALL]


@pytest.mark.usefixtures("by_lot")
def test_the_plot(tmp_path: Path, season: list[ks.Game]) -> None:
    import matplotlib

    matplotlib.use("Agg")
    profile = profile_of("Vastin", season)
    ax = profile.plot()
    labels = [label.get_text() for label in ax.get_yticklabels()]
    assert labels[0] == "allowed forks *"
    assert [label.removesuffix(" *") for label in labels] == [row.words for row in profile.compared[:10]]
    assert [text.get_text() for text in ax.get_legend().get_texts()] == ["Joren Vastin", "the opponents"]
    own, others = (container.lines[0].get_xdata() for container in ax.containers)
    assert list(own) == [row.own.per_100 for row in profile.compared[:10]]
    assert list(others) == [row.others.per_100 for row in profile.compared[:10]]
    figure = ax.get_figure()
    figure.savefig(tmp_path / "profile.png")
    assert profile.plot(ax) is ax
    matplotlib.pyplot.close("all")


@pytest.mark.usefixtures("by_lot")
def test_the_plot_says_what_it_needs(monkeypatch: pytest.MonkeyPatch, season: list[ks.Game]) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "matplotlib.pyplot", None)
    with pytest.raises(ImportError, match="needs matplotlib"):
        profile_of("Vastin", itertools.islice(season, 8)).plot()
