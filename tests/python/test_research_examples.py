"""The programs of examples/research, held against recounts by the rules library, by texts, and by other functions."""

import importlib
import io
import os
import random
import re
import statistics
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import chess
import chess.pgn
import pytest

import keysquare as ks

pytest.importorskip("matplotlib")
ROOT = Path(__file__).parents[2]
PROGRAMS = ROOT / "examples/research"
SEASON = ROOT / "examples/data/season.pgn"
CLUB = ROOT / "examples/data/club.pgn"
NAMES = ("exchange_down", "locked_pairs", "no_plan", "overlooked_by_rating")


def run(name: str, out: Path, *files: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(PROGRAMS / f"{name}.py"), *map(str, files), "--out", str(out)]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def told(name: str, out: Path, *files: Path) -> str:
    done = run(name, out, *files)
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    return done.stdout


def rows(text: str) -> dict[str, list[str]]:
    """The cells of every line of a table by the first one."""
    lines = [re.split(r"\s{2,}", line.strip()) for line in text.splitlines()]
    return {cells[0]: cells[1:] for cells in lines if len(cells) > 3}


def replayed(*files: Path) -> list[tuple[chess.pgn.Headers, list[chess.Board]]]:
    """Games by the rules library: tags, and the positions from the start on."""
    games = []
    for file in files:
        with file.open(encoding="utf-8") as stream:
            while game := chess.pgn.read_game(stream):
                boards = [game.board()]
                for move in game.mainline_moves():
                    boards.append(boards[-1].copy(stack=False))
                    boards[-1].push(move)
                games.append((game.headers, boards))
    return games


def first_games(count: int) -> list[str]:
    return [f"[Event {text}" for text in SEASON.read_text("utf-8").split("[Event ")[1 : count + 1]]


def gain_of_white(tags: chess.pgn.Headers) -> float:
    score = {"1-0": 1.0, "0-1": 0.0, "1/2-1/2": 0.5}[tags["Result"]]
    return score - 1 / (1 + 10 ** ((int(tags["BlackElo"]) - int(tags["WhiteElo"])) / 400))


def check_figure(out: Path, name: str, *words: str) -> None:
    """It is black on white, not empty, and says what it should."""
    from matplotlib import image

    pixels = image.imread(out / f"{name}.png")[:, :, :3]
    assert pixels.shape[1] == 1800 and (pixels.max(axis=2) == pixels.min(axis=2)).all()
    assert 0.005 < (pixels.mean(axis=2) < 0.5).mean() < 0.2
    drawing = (out / f"{name}.svg").read_text("utf-8")
    assert [word for word in words if word not in drawing] == []


def exchange_up(board: chess.Board) -> int:
    """1 when White has rooks more and as many minor pieces fewer, -1 when Black has."""

    def more(*kinds: chess.PieceType) -> int:
        return sum(len(board.pieces(kind, True)) - len(board.pieces(kind, False)) for kind in kinds)

    rooks = more(chess.ROOK)
    fits = rooks and more(chess.KNIGHT, chess.BISHOP) == -rooks and not more(chess.QUEEN)
    return (rooks > 0) - (rooks < 0) if fits else 0


def lasting_exchange(boards: list[chess.Board]) -> int:
    """Who is the exchange up when that has lasted for six plies, and the rooks' scope is known."""
    ups = [exchange_up(board) for board in boards]
    for at in range(5, len(boards)):
        up = ups[at]
        waiter_up = (up > 0) != boards[at].turn
        if up and set(ups[at - 5 : at + 1]) == {up} and not (waiter_up and boards[at].is_check()):
            return up
    return 0


def test_exchange_down_agrees_with_the_rules_library(tmp_path: Path) -> None:
    text = told("exchange_down", tmp_path, SEASON)
    gains: dict[str, list[float]] = {"all": [], "White is down": [], "Black is down": []}
    for tags, boards in replayed(SEASON):
        if up := lasting_exchange(boards):
            gain = -up * gain_of_white(tags)
            gains["all"].append(gain)
            gains["White is down" if up < 0 else "Black is down"].append(gain)
    assert len(gains["all"]) >= 10
    found = rows(text)
    for name, them in gains.items():
        better = sum(gain > 0 for gain in them)
        assert found[name][:3] == [str(len(them)), str(better), f"{better / len(them):.0%}"]
        assert float(found[name][4]) == pytest.approx(statistics.mean(them), abs=0.0006)
    low, high = (int(cells[0]) for name, cells in found.items() if name.startswith("rook scope"))
    slipped = [int(cells[0]) for name, cells in found.items() if name.startswith("guardian lost")]
    assert low + high == sum(slipped) == len(gains["all"]) and len(slipped) == 3 and low >= high
    assert text.count("nothing can be said") == 3  # fewer than thirty games
    check_figure(tmp_path, "exchange_down", f"all (n = {len(gains['all'])})", "Games: season.pgn", "points a game")


def locked(position: ks.Position) -> dict[str, int]:
    """Locked pairs by side, from the findings."""
    found = ks.findings(position, themes=["mutual_guards"])
    return Counter(finding.side for finding in found if finding.detail == "locked")


def test_locked_pairs_agree_with_the_findings(tmp_path: Path) -> None:
    some = tmp_path / "some.pgn"
    some.write_text("".join(first_games(24)), "utf-8")
    text = told("locked_pairs", tmp_path, some, CLUB)
    games, owners, free = replayed(some, CLUB), [], 0
    for tags, boards in games:
        pairs = [locked(ks.Position(board.fen())) for board in boards]
        free += sum(not any(here.values()) for here in pairs[::15])
        owner = next((side for here in pairs for side in here if len(here) == 1), None)
        if owner:
            owners.append(tags["Result"] == ("0-1" if owner == "white" else "1-0"))
    assert text.startswith(f"{len(games)} games; 0 are left out") and owners
    assert f"In {len(owners)} of the others" in text and f"held against {free} positions" in text
    cells = rows(text)["when it first stands"]
    assert cells[:2] == [str(len(owners)), f"{sum(owners) / len(owners):.0%}"]
    assert sum(int(rows(text)[f"- {part}"][0]) for part in ("behind in material", "level", "ahead")) == len(owners)
    check_figure(tmp_path, "locked_pairs", "Games: some.pgn, club.pgn", f"(n = {len(owners)} games)")


def test_overlooked_by_rating_agrees_with_reports(tmp_path: Path) -> None:
    file = tmp_path / "some.pgn"
    file.write_text("".join(first_games(12)), "utf-8")
    text = told("overlooked_by_rating", tmp_path, file)
    themes: Counter[str] = Counter()
    moves: Counter[str] = Counter()
    played: dict[str, set[int]] = {}
    for number, game in enumerate(ks.read_games(file)):
        report = ks.game_report(game)
        for ply, (position, move) in enumerate(zip(game.positions(), game.main_line)):
            low = int(game.tags["WhiteElo" if position.mover == "white" else "BlackElo"]) // 200 * 200
            if ks.threats(position):
                moves[f"{low}-{low + 199}"] += 1
                played.setdefault(f"{low}-{low + 199}", set()).add(number)
            effects = report.plies[ply + 1].effects
            names = (str(effect.theme or "other") for effect in effects if effect.kind == "overlooked")
            themes.update(name.replace("_", " ") for name in names)
    found = rows(text)
    assert sum(themes.values()) > 10 and len(moves) >= 4
    assert {band: found[band][:2] for band in moves} == {
        band: [str(len(played[band])), str(count)] for band, count in moves.items()
    }
    assert found["all themes"][0] == str(sum(themes.values()))
    assert {theme: int(found[theme][0]) for theme in themes} == themes
    of = f"{sum(moves.values())} moves under threat, 12 games"
    check_figure(tmp_path, "overlooked_by_rating", "Games: some.pgn", of)


def with_evaluations(count: int) -> str:
    """The season's first games, evaluated by material; the last position of a mate has no evaluation."""
    worth = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9, chess.KING: 0}
    texts = []
    for text in first_games(count):
        game = chess.pgn.read_game(io.StringIO(text))
        assert game is not None
        board = game.board()
        for node in game.mainline():
            board.push(node.move)
            men = board.piece_map().values()
            balance = sum(worth[man.piece_type] * (1 if man.color else -1) for man in men)
            node.comment = "" if board.is_checkmate() else f"[%eval {balance:.2f}]"
        texts.append(str(game))
    return "\n\n".join(texts) + "\n"


# With the king on c3, after plies 3 and 9, White can only wait; Black always has something to do. White blunders with
# ply 6, which is within five moves of the first of them. Black begins, so that it is White that moves at odd plies; of
# its quiet, even positions at every third ply one is left, after ply 12.
WALLS = """[Event "Walls"]
[White "A"]
[Black "B"]
[Result "1/2-1/2"]
[SetUp "1"]
[FEN "3rk3/8/1p1p1p1p/pPpPpPpP/P1P1P1P1/3K4/8/3R4 b - - 0 41"]

41... Kf8 {[%eval 0.0]} 42. Kc3 {[%eval 0.0]} Ke8 {[%eval 0.0]} 43. Kd3 {[%eval 0.0]} Kf8 {[%eval 0.0]}
44. Kc2 {[%eval -2.5]} Ke8 {[%eval 0.0]} 45. Kc3 {[%eval 0.0]} Kf8 {[%eval 0.0]} 46. Kd3 {[%eval 0.0]} Ke8 {[%eval 0.0]}
47. Kc3 {[%eval 0.0]} Kf8 {[%eval 0.0]} 1/2-1/2
"""


def no_plan_recounted(file: Path) -> tuple[list[bool], list[bool]]:
    """Of quiet, even positions, and of those without a plan, whether the mover blunders."""
    quiet, without = [], []
    for game in ks.read_games(file):
        values = [None, *(step.evaluation.pawns if step.evaluation else None for step in game.main_steps)]
        for ply, position in list(enumerate(game.positions()))[::3]:
            now, side = values[ply], 1 if position.mover == "white" else -1
            known = [value for value in values[ply + 1 : ply + 10 : 2] if value is not None]
            if now is None or abs(now) > 2 or not known:
                continue
            if position.in_check or ks.threats(position) or ks.threats(position, position.mover):
                continue
            quiet.append(any(side * (now - value) >= 2 for value in known))
            if ks.outlook(position)[position.mover].no_plan:
                without.append(quiet[-1])
    return quiet, without


def test_no_plan_agrees_with_outlooks(tmp_path: Path) -> None:
    walls, both = tmp_path / "walls.pgn", tmp_path / "both.pgn"
    walls.write_text(WALLS, "utf-8")
    both.write_text(f"{with_evaluations(10)}\n{WALLS}", "utf-8")
    quiet, without = no_plan_recounted(both)
    assert any(quiet) and not all(quiet) and any(without) and not all(without)
    text = told("no_plan", tmp_path / "both", both)
    assert "11 games, 11 of them with evaluation commands." in text
    assert f"{len(quiet)} quiet, even positions with a known outcome, {len(without)} of them without a plan." in text
    assert no_plan_recounted(walls)[1] == [True, False]
    found = rows(told("no_plan", tmp_path, walls))
    assert found["endgame"][:3] == found["all"][:3] == ["2 in 1", "50.0%", "1 in 1"]
    check_figure(tmp_path, "no_plan", "Games: walls.pgn", "(n = 2 in 1 games)")


@pytest.fixture
def modules() -> Iterator[dict[str, ModuleType]]:
    sys.path.insert(0, str(PROGRAMS))
    yield {name: importlib.import_module(name) for name in ("evidence", *NAMES)}
    sys.path.remove(str(PROGRAMS))
    for name in ("evidence", *NAMES):
        del sys.modules[name]


def test_what_a_blunder_is(modules: dict[str, ModuleType]) -> None:
    blunders = modules["no_plan"].blunders
    level = [0.0] * 12
    for at, expected in ((1, True), (2, False), (9, True), (11, False)):  # own moves are the odd plies
        assert blunders([*level[:at], -2.0, *level[at + 1 :]], 0, "white") is expected
    assert blunders([0.0, -1.99, 0.0, 1.99], 0, "white") is False
    assert blunders([0.0, 0.3, 2.3], 1, "black") is True and blunders([0.0, 0.3, 2.29], 1, "black") is False
    assert blunders([0.0, None, 0.0, -1000.0], 0, "white") is True
    assert blunders([0.0, None, -5.0, None], 0, "white") is None and blunders([0.0], 0, "white") is None
    assert blunders([2.01, 0.0], 0, "white") is None and blunders([None, 0.0], 0, "white") is None
    assert blunders([-2.0, -4.0], 0, "white") is True


def test_a_comparison_is_weighted_by_kinds(modules: dict[str, ModuleType]) -> None:
    evidence = modules["evidence"]
    seen = [
        *(evidence.Seen(("a", at), ("x",), True, 1.0) for at in range(30)),
        *(evidence.Seen(("a", at), ("y",), True, 0.0) for at in range(30, 40)),
        *(evidence.Seen(("b", at), ("x",), False, float(at % 2)) for at in range(30)),
        *(evidence.Seen(("b", at), ("y",), False, 0.0) for at in range(100)),
        evidence.Seen(("c", 0), ("only here",), True, 7.0),
    ]
    found = evidence.against_control(seen)
    assert found[:4] == (40, 40, 130, 100)
    assert found.means == pytest.approx([0.75, 0.75 * 0.5, 0.75 * 0.5])
    for middle, (low, high) in zip(found.means, found.intervals):
        assert low < middle < high
    few = evidence.against_control(seen[:20] + seen[40:])
    assert few.intervals == (evidence.UNKNOWN,) * 3 and "too few" in evidence.verdict(few.intervals[2], "more", "less")


def test_intervals_hold_the_mean_as_often_as_they_say(modules: dict[str, ModuleType]) -> None:
    """Of 60 samples with a fixed seed; of 95 % intervals 50 or more hold it with a probability above 0.999."""
    chance = random.Random(5)
    samples = [[chance.choice((0.0, 0.5, 1.0)) for _ in range(60)] for _ in range(60)]
    intervals = [modules["evidence"].mean(sample)[1] for sample in samples]
    assert 50 <= sum(low <= 0.5 <= high for low, high in intervals)
    spread = (1 / 6 / 60) ** 0.5  # the standard error of the mean
    assert statistics.mean(high - low for low, high in intervals) == pytest.approx(2 * 1.96 * spread, rel=0.05)


def test_slopes_are_those_of_the_largest_likelihood(modules: dict[str, ModuleType]) -> None:
    import numpy as np

    bands, moves = np.array([5.0, 6.0, 7.0, 9.0]), np.array([1000.0, 4000.0, 500.0, 2000.0])
    exact = moves * 0.05 * 0.8**bands
    counts = np.array([exact, [90.0, 200.0, 30.0, 20.0]])
    slopes = modules["overlooked_by_rating"].slopes_of(bands, moves, counts)
    assert np.exp(slopes[0]) == pytest.approx(0.8)

    def likelihood(slope: float) -> float:  # of the multinomial that is left when the height is fitted
        weights = moves * np.exp(slope * bands)
        return float(counts[1] @ np.log(weights / weights.sum()))

    best = max(np.linspace(-1, 1, 20001), key=likelihood)
    assert slopes[1] == pytest.approx(best, abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_they_answer_for_real_games(name: str, tmp_path: Path) -> None:
    """The first 60 of a file: every game is counted, and what is said fits how many they are."""
    source = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or ROOT / "../shared/data") / "pgn/rated-with-evals.pgn"
    if not source.is_file():
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with pgn/rated-with-evals.pgn")
    file = tmp_path / "real.pgn"
    file.write_text("".join(f"[Event {text}" for text in source.read_text("utf-8").split("[Event ")[1:61]), "utf-8")
    text = told(name, tmp_path, file)
    assert text.startswith("60 games") and "is drawn" not in text
    check_figure(tmp_path, name, "Games: real.pgn")
    if name in ("exchange_down", "locked_pairs", "no_plan"):  # each has fewer than thirty games to go by
        assert "Fewer than 30 games are too few: nothing can be said." in text and "more often" not in text


@pytest.mark.parametrize("name", NAMES)
def test_without_a_game_that_qualifies_it_says_so(name: str, tmp_path: Path) -> None:
    file, out = tmp_path / "short.pgn", tmp_path / "out"
    file.write_text('[Event "?"]\n[White "A"]\n[Black "B"]\n[Result "*"]\n\n1. e4 e5 2. Nf3 *\n', "utf-8")
    assert "nothing can be said, and no figure is drawn" in told(name, out, file)
    assert list(out.iterdir()) == []
    missing = run(name, out, tmp_path / "missing.pgn")
    assert missing.returncode == 1 and "missing.pgn" in missing.stderr and "Traceback" not in missing.stderr
