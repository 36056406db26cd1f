"""Scans: every cell against independent programs, filters, formats, refused games, Arrow consumers, and interruption.

The outside: the rules library `chess` (games, clocks, evaluations, every number of the vector by `truth.vector`), pyarrow,
polars, DuckDB and pandas as consumers. Columns with search are held to the functions that the verifier holds to theirs.
"""

import bz2
import gzip
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import chess
import chess.pgn
import pyarrow as pa
import pyarrow.parquet as pq
import pytest
import zstandard

import keysquare as ks
from keysquare._circumstances import circumstances
from truth.positions import open_data
from truth.vector import vector

ROOT = Path(__file__).resolve().parents[2]
CLUB = ROOT / "examples/data/club.pgn"
SEASON = ROOT / "examples/data/season.pgn"
GAME_COLUMNS = [column.name for column in ks.scan_columns() if column.group == "game"]
SEARCH_COLUMNS = [column.name for column in ks.scan_columns() if column.group == "search"]

EVENT = '[Event "Lantern Chess Club"]\n[White "Vastin, Joren"]\n[Black "Pellerow, Ines"]\n'
SOUND = EVENT + '[Result "1-0"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n'
BROKEN = EVENT + '[Result "*"]\n\n1. e4 e5\n2. Ke3 *\n\n'


def rows(source: object, **wanted: Any) -> list[dict[str, Any]]:
    table = pa.table(ks.scan(source, progress=False, **wanted))  # type: ignore[arg-type]
    table.validate(full=True)
    result: list[dict[str, Any]] = table.to_pylist()
    return result


def open_games(name: str) -> Path:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    return folder / "pgn" / name


# Every cell -----------------------------------------------------------------------------------------------------------


def nodes_of(path: Path, at_most: int) -> list[list[chess.pgn.GameNode]]:
    """The nodes of the first games as the rules library reads them, the start first."""
    games = []
    with path.open(encoding="utf-8", errors="replace") as text:
        while len(games) < at_most and (game := chess.pgn.read_game(text)):
            games.append([game, *game.mainline()])
    return games


def expected_game_cells(node: chess.pgn.GameNode, nodes: list[chess.pgn.GameNode], at: int) -> dict[str, Any]:
    headers = nodes[0].game().headers
    board = node.board()
    ratings = {
        side: int(headers[tag]) if headers.get(tag, "?").isdigit() else None
        for side, tag in ((chess.WHITE, "WhiteElo"), (chess.BLACK, "BlackElo"))
    }
    score = {"1-0": 1.0, "0-1": 0.0, "1/2-1/2": 0.5}.get(headers["Result"])
    evaluation = node.eval().white() if at and node.eval() else None
    mover, waiter = ratings[board.turn], ratings[not board.turn]
    return {
        "ply": at,
        "plies": len(nodes) - 1,
        "mover": chess.COLOR_NAMES[board.turn],
        "fen": board.fen(en_passant="fen"),
        "move_played": board.san(nodes[at + 1].move) if at + 1 < len(nodes) else None,
        "result": headers["Result"],
        "white_score": score,
        "mover_score": score if score is None or board.turn else 1 - score,
        "white_rating": ratings[chess.WHITE],
        "black_rating": ratings[chess.BLACK],
        "mover_rating": mover,
        "waiter_rating": waiter,
        "white_rating_band": band(ratings[chess.WHITE]),
        "black_rating_band": band(ratings[chess.BLACK]),
        "mover_rating_band": band(mover),
        "waiter_rating_band": band(waiter),
        "clock": nodes[at - 1].clock() if at > 1 else None,
        "evaluation": evaluation.score() / 100 if evaluation is not None and evaluation.score() is not None else None,
        "evaluation_mate_in": evaluation.mate() if evaluation is not None else None,
    }


def band(rating: int | None) -> str | None:
    return None if rating is None else f"{rating // 200 * 200}-{rating // 200 * 200 + 199}"


def test_what_is_known_of_the_game() -> None:
    path = open_games("rated-with-evals.pgn")
    games = nodes_of(path, 60)
    found = rows(path, features=[], columns=GAME_COLUMNS)[: sum(map(len, games))]
    expected = [expected_game_cells(node, nodes, at) for nodes in games for at, node in enumerate(nodes)]
    assert len(found) == len(expected) > 3000
    for row, wanted in zip(found, expected, strict=True):
        assert {name: row[name] for name in wanted} == pytest.approx(wanted, abs=1e-9)
    assert sum(row["evaluation"] is not None for row in found) > 3000
    data = path.read_bytes()
    assert all(data[row["game_offset"] :].startswith(b"[Event ") for row in found)
    assert {row["file"] for row in found} == {str(path)}
    for row in found:
        expectation = 1 / (1 + 10 ** ((row["black_rating"] - row["white_rating"]) / 400))
        assert row["white_expected_score"] == pytest.approx(expectation)
        mover = expectation if row["mover"] == "white" else 1 - expectation
        assert row["mover_expected_score"] == pytest.approx(mover)
        assert row["year"] == int(data[row["game_offset"] :].split(b'Date "')[1][:4])
    keys: dict[int, set[str]] = {}
    for row in found:
        keys.setdefault(row["key"], set()).add(" ".join(row["fen"].split()[:3]))
    assert all(len(fens) == 1 for fens in keys.values()) and len(keys) > 2500


def test_every_number_of_the_vector_on_5000_positions() -> None:
    """All columns by an independent program on the rules library, from the definitions alone."""
    wrong = []
    compared = 0
    names = ks.feature_schema().names
    for name, first in (("masters.pgn", 2), ("rated-one-player.pgn", 6)):
        for batch in ks.scan(open_games(name), columns=["fen"], every=range(first, 200, 11), progress=False):
            some = pa.array(range(0, len(batch), 23))
            for row in pa.record_batch(batch).take(some).to_pylist():
                truth = vector(chess.Board(row["fen"]))
                wrong += [f"{column}: {row['fen']}" for column in names if row[column] != truth(column)]
                compared += 1
    assert compared >= 5000 and not wrong, f"{len(wrong)} of {compared} rows: " + "\n".join(wrong[:20])


@pytest.mark.parametrize(("path", "where"), [(CLUB, {}), (SEASON, {"Date": "2026.11.05"})], ids=["club", "season"])
def test_columns_with_search_say_what_the_functions_say(path: Path, where: dict[str, str]) -> None:
    found = rows(path, features=SEARCH_COLUMNS, columns=["fen", "ply", "game_offset"], where=where)
    games = {game.offset: game for game in ks.read_games(path) if where.items() <= game.tags.items()}
    events = {offset: ks.move_events(game) for offset, game in games.items()}
    assert len(found) == sum(len(game.positions()) for game in games.values())
    for row in found:
        position = ks.Position(row["fen"])
        outlook = ks.outlook(position)
        mine, theirs = outlook[position.mover], outlook["black" if position.mover == "white" else "white"]
        chances = ks.threats(position, side=position.mover)
        threats = ks.threats(position)
        sure = len(mine.merely_safe) + sum(not useful.won for useful in mine.useful)
        assert sure <= row["safe_moves"] <= len(mine.merely_safe) + len(mine.useful)
        assert row["only_move"] == (mine.only_move is not None)
        assert row["chances"] == len(chances) and row["threats"] == len(threats)
        assert row["chance_gain"] == max((threat.gain for threat in chances), default=0)
        assert row["threat_gain"] == max((threat.gain for threat in threats), default=0)
        assert row["chance_mates"] == any(threat.mate for threat in chances)
        assert row["threat_mates"] == any(threat.mate for threat in threats)
        assert row["useful_moves"] == len(mine.useful) and row["no_plan"] == mine.no_plan
        assert row["waiter_useful_moves"] == (len(theirs.useful) if not position.in_check else None)
        assert row["waiter_no_plan"] == (theirs.no_plan if not position.in_check else None)
        hanging = ks.findings(position, themes=["hanging"])
        for column, side in (("hanging_gain", position.mover), ("waiter_hanging_gain", theirs.side)):
            if side == position.mover or not position.in_check:
                assert row[column] == max((one.gain for one in hanging if one.side == side), default=0)
            else:
                assert row[column] is None
        pairs = ks.findings(position, themes=["mutual_guards"])
        for side in ("white", "black"):
            assert row[f"{side}_locked_pairs"] == sum(it.detail == "locked" and it.side == side for it in pairs)
        own = [event for event in events[row["game_offset"]] if event.ply == row["ply"] + 1]
        kinds = {"exploits": "exploited", "misses": "missed", "allows": "allowed", "overlooks": "overlooked"}
        for column, kind in kinds.items():
            assert row[column] == next((event.theme for event in own if event.kind == kind), None)
        if row["ply"] < len(games[row["game_offset"]].positions()) - 1:
            mistakes = [event for event in own if event.kind != "exploited"]
            assert row["mistake"] == max((event.cost for event in mistakes if not event.mate), default=0)
            assert row["mate_mistake"] == any(event.mate for event in mistakes)


def test_phases_and_rating_bands_are_those_of_profiles() -> None:
    columns = ["phase", "mover", "waiter_rating_band"]
    told = [circumstance for game in ks.read_games(SEASON) for circumstance in circumstances(game)]
    found = [row for row in rows(SEASON, features=[], columns=["move_played", *columns]) if row["move_played"]]
    assert [(row["phase"], row["mover"], row["waiter_rating_band"]) for row in found] == [it[:3] for it in told]


def test_the_ledger_of_the_exchange(tmp_path: Path) -> None:
    """White takes the bishop of the dark squares for a rook; in the second game the imbalance was there from the start."""
    setup = EVENT + '[SetUp "1"]\n[FEN "{}"]\n\n'
    given = setup.format("r4rk1/pp3pbp/6p1/8/3P4/2N3P1/PP3PKP/3RR3 b - - 0 1")
    given += "1... Bxd4 2. Rxd4 Rad8 3. Rxd8 Rxd8 *\n\n"
    taken = setup.format("3r2k1/5p1p/5bp1/8/8/2B3P1/3R1PKP/8 w - - 0 1") + "1. Bxf6 Rxd2 2. Kf3 Rd3+ *\n\n"
    lasting = setup.format("3r2k1/5p1p/6p1/8/8/2B3P1/5PKP/8 w - - 0 1") + "1. Kf3 Rd3+ 2. Ke2 *\n\n"
    path = tmp_path / "exchange.pgn"
    path.write_text(given + taken + lasting)
    columns = ["exchanges_up", "rook_scope_of_up", "guardian_loss_of_up", "compensation"]
    found = rows(path, features=columns, columns=["fen", "ply", "game_offset"])
    games = {game.offset: game for game in ks.read_games(path)}
    told = 0
    for row in found:
        position = ks.Position(row["fen"])
        # Before the captures in a row: the start of each game here, but for the last one, which has none.
        earlier = None if row["game_offset"] == len(given + taken) else games[row["game_offset"]].positions()[0]
        ledger = ks.exchange_context(position, earlier=earlier)
        if ledger is None:
            assert [row[column] for column in columns] == [0, None, None, None]
            continue
        up = ledger.side
        assert row["exchanges_up"] == ledger.times * (1 if up == "white" else -1)
        assert row["compensation"] == ledger.compensation.level
        scopes = list(ledger.pages[up].rooks.values())
        if None in scopes:
            assert row["rook_scope_of_up"] is None
        else:
            assert row["rook_scope_of_up"] == sum(len(squares or []) for squares in scopes)
        if ledger.guardian is None:
            assert row["guardian_loss_of_up"] is None
        else:
            before, now = ledger.guardian.before, ledger.guardian.now
            slipped = (set(before.held[up]) - set(now.held[up])) | (set(before.attacked[up]) - set(now.attacked[up]))
            assert row["guardian_loss_of_up"] == len(slipped)
            told += 1
    assert told >= 2


# Which rows -----------------------------------------------------------------------------------------------------------


def tags_by_hand(path: Path) -> list[dict[str, str]]:
    """The tags of all games, by splitting lines."""
    games: list[dict[str, str]] = []
    for line in path.read_text().splitlines():
        if line.startswith("[Event "):
            games.append({})
        if line.startswith("["):
            name, value = line[1:-2].split(' "', 1)
            games[-1][name] = value
    return games


@pytest.mark.parametrize(
    ("where", "fits"),
    [
        ({}, lambda tags: True),
        ({"Result": "1-0"}, lambda tags: tags["Result"] == "1-0"),
        ({"Result": ["1-0", "0-1"]}, lambda tags: tags["Result"] in ("1-0", "0-1")),
        ({"Date": ("2026.09.28", None)}, lambda tags: tags["Date"] >= "2026.09.28"),
        ({"Date": (None, "2026.09.28")}, lambda tags: tags["Date"] <= "2026.09.28"),
        ({"rating": (1200, 1500)}, lambda tags: all(1200 <= int(tags[t]) <= 1500 for t in ("WhiteElo", "BlackElo"))),
        ({"white_rating": (None, 1300)}, lambda tags: int(tags["WhiteElo"]) <= 1300),
        ({"black_rating": (1300, None), "Result": "0-1"}, lambda tags: int(tags["BlackElo"]) >= 1300 and tags["Result"] == "0-1"),
        ({"Opening": "none of that name"}, lambda tags: False),
    ],
)
def test_games_are_chosen_by_their_tags(where: dict[str, Any], fits: Callable[[dict[str, str]], bool]) -> None:
    games = tags_by_hand(SEASON)
    wanted = [tags for tags in games if fits(tags)]
    scan = ks.scan(SEASON, features=[], columns=["Event", "Date", "White"], where=where, every=1000, progress=False)
    found = [row for batch in scan for row in zip(batch["Event"], batch["Date"], batch["White"])]
    assert found == [(tags["Event"], tags["Date"], tags["White"]) for tags in wanted]
    assert scan.counts.games == len(wanted) and scan.counts.seen == len(games)
    assert scan.counts.left_out == len(games) - len(wanted) and scan.counts.refused == 0


@pytest.mark.parametrize("every", [1, 7, range(20, 41), range(3, 100, 10), range(0, 1)], ids=str)
def test_plies_are_chosen(every: int | range) -> None:
    wanted = range(0, 10**6, every) if isinstance(every, int) else every
    plies = [[at for at in range(len(game.positions())) if at in wanted] for game in ks.read_games(CLUB)]
    found = ks.scan(CLUB, features=[], columns=["ply"], every=every, progress=False)
    assert [ply for batch in found for ply in batch["ply"]] == sum(plies, [])


@pytest.mark.parametrize(
    ("arguments", "error", "message"),
    [
        ({"features": ["white_unicorns"]}, ValueError, "white_unicorns"),
        ({"columns": ["ply", "ply"]}, ValueError, "twice"),
        ({"columns": [], "features": []}, ValueError, "at least one"),
        ({"where": {1: 2}}, TypeError, "names"),
        ({"where": {"Éco": "B01"}}, ValueError, "Éco"),
        ({"where": lambda game: True}, TypeError, "mapping"),
        ({"where": {"elo": (1, 2)}}, ValueError, "elo"),
        ({"where": {"rating": 1500}}, TypeError, "tuple"),
        ({"where": {"rating": (1500, 1000)}}, ValueError, "more than"),
        ({"where": {"rating": ("1", "2")}}, TypeError, "int"),
        ({"where": {"Result": 1}}, TypeError, "Result"),
        ({"where": {"Result": []}}, TypeError, "Result"),
        ({"every": 0}, ValueError, "at least 1"),
        ({"every": "1"}, TypeError, "plies"),
        ({"every": range(5, 5)}, ValueError, "not empty"),
        ({"every": range(9, 0, -1)}, ValueError, "goes up"),
        ({"threads": -1}, ValueError, "threads"),
    ],
)
def test_what_makes_no_sense_is_refused(arguments: dict[str, Any], error: type[Exception], message: str) -> None:
    with pytest.raises(error, match=message):
        ks.scan(CLUB, progress=False, **arguments)


def test_files_that_are_not_there(tmp_path: Path) -> None:
    for files in (tmp_path / "none.pgn", [CLUB, tmp_path / "none.pgn"], str(tmp_path / "*.pgn"), tmp_path):
        with pytest.raises(ks.InputError) as caught:
            ks.scan(files, progress=False)
        assert caught.value.reason == "cannot_open"
    with pytest.raises(TypeError, match="Game"):
        ks.scan([ks.Game()], progress=False)  # type: ignore[list-item]


# Files and shards -----------------------------------------------------------------------------------------------------


def test_formats_patterns_and_shards_give_the_same(tmp_path: Path) -> None:
    text = SEASON.read_bytes()
    (tmp_path / "a.pgn").write_bytes(text)
    (tmp_path / "b.pgn.gz").write_bytes(gzip.compress(text))
    (tmp_path / "c.pgn.bz2").write_bytes(bz2.compress(text))
    (tmp_path / "d.pgn.zst").write_bytes(zstandard.ZstdCompressor().compress(text))
    wanted: dict[str, Any] = {"features": ["piece_scope_difference"], "columns": ["game_offset", "ply", "White"]}
    plain = rows(tmp_path / "a.pgn", **wanted)
    assert rows(str(tmp_path / "*"), **wanted) == plain * 4
    assert rows([tmp_path / "d.pgn.zst", tmp_path / "b.pgn.gz"], threads=3, **wanted) == plain * 2
    for size in (700, 12_345, 10**9):
        shards = ks.shards(tmp_path / "a.pgn", size)
        assert rows(shards, **wanted) == plain
        assert [row for shard in shards for row in pa.table(ks.read_shard(shard, **wanted)).to_pylist()] == plain
    assert len(ks.shards(tmp_path / "d.pgn.zst", 700)) == 1


def test_refused_games_are_counted_and_told(tmp_path: Path) -> None:
    path = tmp_path / "games.pgn"
    path.write_text((SOUND + BROKEN) * 150 + SOUND.replace("[White ", '[Variant "Atomic"]\n[White '))
    scan = ks.scan(path, features=[], progress=False, threads=2)
    assert sum(len(batch) for batch in scan) == 150 * 8 == scan.counts.positions
    counts = scan.counts
    assert (counts.games, counts.left_out, counts.refused, counts.seen) == (150, 0, 151, 301)
    assert counts.refused_by_reason == {"no_such_piece": 150, "unknown_variant": 1}
    assert len(counts.refused_games) == 100
    data = path.read_bytes()
    for at, refused in enumerate(counts.refused_games):
        assert refused.offset == len(SOUND) + at * len(SOUND + BROKEN)
        assert data[refused.error.offset :].startswith(b"Ke3") and refused.error.file == str(path)
        assert refused.line == 7 and refused.token == "Ke3"
    assert str(counts) == "1200 positions of 150 games, 0 left out, 151 refused (no_such_piece 150, unknown_variant 1)"


def test_shards_are_values() -> None:
    shard = ks.Shard("games.pgn", 10, 20)
    assert shard == ks.Shard("games.pgn", 10, 20) and len({shard, ks.Shard("games.pgn", 10, 20)}) == 1
    for begin, end in ((-1, None), (20, 10)):
        with pytest.raises(ValueError, match="shard"):
            ks.Shard("games.pgn", begin, end)
    with pytest.raises(ValueError, match="byte"):
        ks.shards(CLUB, 0)
    with pytest.raises(TypeError, match="Shard"):
        ks.read_shard(str(CLUB))  # type: ignore[arg-type]


# Consumers ------------------------------------------------------------------------------------------------------------


def test_batches_and_scans_are_arrow() -> None:
    scan = ks.scan(SEASON, columns=["ply", "White", "clock"], features=["white_space"], progress=False)
    schema = pa.schema(scan)
    assert schema.names == ["ply", "White", "clock", "white_space"] == list(scan.columns)
    assert [field.type for field in schema] == [pa.int32(), pa.string(), pa.float64(), pa.int16()]
    assert [field.nullable for field in schema] == [False, True, True, False]
    batches = list(scan)
    assert max(map(len, batches)) <= 8192 and sum(map(len, batches)) > 8192
    for batch in batches:
        taken = pa.record_batch(batch)
        taken.validate(full=True)
        assert taken.to_pydict() == dict(batch) and taken.schema == schema
        assert repr(batch) == f"<keysquare.RowBatch, {len(batch)} rows, 4 columns>"
    with pytest.raises(KeyError):
        batches[0]["Black"]
    kept = pa.record_batch(batches.pop()).column("White")
    batches.clear()
    assert kept.to_pylist()[0]


def test_other_consumers_get_the_same_table() -> None:
    polars = pytest.importorskip("polars")
    duckdb = pytest.importorskip("duckdb")
    wanted: dict[str, Any] = {"columns": ["White", "ply", "white_rating"], "features": ["piece_scope_difference"]}
    table = pa.table(ks.scan(SEASON, progress=False, **wanted))
    assert polars.DataFrame(ks.scan(SEASON, progress=False, **wanted)).to_arrow().to_pylist() == table.to_pylist()
    scan = ks.scan(SEASON, progress=False, **wanted)
    mean, count = duckdb.sql('select avg(piece_scope_difference), count("White") from scan').fetchall()[0]
    assert count == table.num_rows
    numbers = table["piece_scope_difference"].to_pylist()
    assert mean == pytest.approx(sum(numbers) / len(numbers))
    frame = pytest.importorskip("pandas").DataFrame.from_dict(table.to_pydict())
    assert len(frame) == table.num_rows


def test_parquet_in_one_line(tmp_path: Path) -> None:
    counts = ks.scan(SEASON, features=["white_space"], progress=False).write_parquet(tmp_path / "a.parquet")
    assert counts.games == 120 and [path.name for path in tmp_path.iterdir()] == ["a.parquet"]
    assert pq.read_table(tmp_path / "a.parquet").equals(pa.table(ks.scan(SEASON, features=["white_space"], progress=False)))
    before = (tmp_path / "a.parquet").read_bytes()
    with pytest.raises(pa.ArrowException):
        ks.scan(SEASON, features=[], progress=False).write_parquet(tmp_path / "a.parquet", compression="none of that name")
    assert (tmp_path / "a.parquet").read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["a.parquet"]


def test_a_scan_that_is_left_early() -> None:
    with ks.scan(SEASON, progress=False) as scan:
        first = next(scan)
    assert list(scan) == [] and len(first) > 0
    scan.close()
    assert scan.counts.positions <= 10_000
    assert repr(scan).startswith("<keysquare.Scan: ")


def test_the_rows_are_given_once(tmp_path: Path) -> None:
    for take in (list, pa.table, lambda scan: scan.write_parquet(tmp_path / "a.parquet")):
        scan = ks.scan(CLUB, features=[], columns="ply", progress=False)
        take(scan)
        for again in (pa.table, lambda scan: scan.write_parquet(tmp_path / "a.parquet")):
            with pytest.raises(ValueError, match="given its rows"):
                again(scan)
    assert pq.read_table(tmp_path / "a.parquet").num_rows == 290


def test_parquet_files_are_like_other_files(tmp_path: Path) -> None:
    path = tmp_path / "a.parquet"
    ks.scan([CLUB] * 70, features=[], progress=False).write_parquet(path)
    assert pq.ParquetFile(path).metadata.num_row_groups == 5 and pq.read_table(path).num_rows == 70 * 290
    plain = tmp_path / "plain"
    plain.touch()
    assert path.stat().st_mode == plain.stat().st_mode
    link = tmp_path / "link.parquet"
    link.symlink_to(path)
    ks.scan(CLUB, features=[], progress=False).write_parquet(link)
    assert link.is_symlink() and pq.read_table(path).num_rows == 290
    for target, error in ((tmp_path, IsADirectoryError), (tmp_path / "none/a.parquet", FileNotFoundError)):
        with pytest.raises(error):
            ks.scan(CLUB, features=[], progress=False).write_parquet(target)


def test_a_file_that_has_become_shorter(tmp_path: Path) -> None:
    path = tmp_path / "games.pgn"
    path.write_text(SOUND * 10)
    shards = ks.shards(path, 1000)
    path.write_text(SOUND)
    for shard in shards[:-1]:
        scan = ks.read_shard(shard, features=[])
        assert list(scan) == [] and scan.counts.refused_by_reason == {"truncated_file": 1}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_pipes_are_refused(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "games.pgn")
    with pytest.raises(ValueError, match="pipe"):
        ks.scan(tmp_path / "games.pgn", progress=False)


INTERRUPTED = """
import os, signal, sys, threading, time
import keysquare as ks
def interrupt():
    time.sleep(1)
    os.kill(os.getpid(), signal.SIGINT)
files, wanted = [sys.argv[1]] * 200, {{"features": ["no_plan"], "progress": False}}
threading.Thread(target=interrupt, daemon=True).start()
try:
    {use}
except OSError as error: # what pyarrow makes of a stream that stops
    print(error)
except KeyboardInterrupt:
    print("interrupted")
"""


@pytest.mark.parametrize(
    "use",
    [
        "for batch in ks.scan(files, **wanted): pass",
        "ks.scan(files, **wanted).write_parquet(sys.argv[2])",
        "import pyarrow; pyarrow.table(ks.scan(files, **wanted))",
        "ks.summarise(files, **wanted)",
    ],
)
@pytest.mark.skipif(sys.platform == "win32", reason="signals of this kind are those of POSIX")
def test_an_interruption_ends_it_and_leaves_nothing(use: str, tmp_path: Path) -> None:
    target = tmp_path / "a.parquet"
    done = subprocess.run(
        [sys.executable, "-c", INTERRUPTED.format(use=use), str(SEASON), str(target)],
        capture_output=True,
        text=True,
        timeout=600,
        check=False,
    )
    assert done.stdout.strip() == "interrupted", done.stderr
    assert list(tmp_path.iterdir()) == []


def test_progress_is_shown_on_request(capfd: pytest.CaptureFixture[str]) -> None:
    for _ in ks.scan(CLUB, features=[], progress=True):
        pass
    assert "290 of 4 games" in capfd.readouterr().err
    progress = ks.scan(CLUB, features=[], progress=False)
    list(progress)
    assert progress.progress.bytes == progress.progress.of_bytes == CLUB.stat().st_size
    assert capfd.readouterr().err == ""
