"""Scans and summaries on a real cluster of several worker processes, held against those of one process.

Skipped where Dask distributed is not installed. Nothing here depends on how long anything takes.
"""

import gzip
import os
import pickle
import signal
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest

import keysquare as ks

dask_distributed = pytest.importorskip("distributed", reason="not installed: pip install distributed")
from keysquare import distributed  # noqa: E402  # it is of no use without Dask

ROOT = Path(__file__).resolve().parents[2]
SEASON = ROOT / "examples/data/season.pgn"
CLUB = ROOT / "examples/data/club.pgn"
WORKERS = 3
LONG = 120
"""Seconds after which something that was waited for is taken never to come."""

WISHES: dict[str, dict[str, Any]] = {
    "everything": {},
    "groups": {"by": ("phase", "white_rating_band", "mover"), "features": ["legal_moves", "piece_scope_difference"]},
    "search columns": {"by": "phase", "features": ["safe_moves", "hanging_gain", "clock"], "every": 3},
    "a search column as group": {"by": ["overlooks", "ECO"], "features": [], "where": {"White": "Pellerow, Ines"}},
    "filters": {
        "by": "White",
        "features": ["threats", "white_rating"],
        "where": {"rating": (1200, None), "Result": {"1-0", "1/2-1/2"}, "Date": ("2026.10", None)},
    },
    "nothing left": {"by": "phase", "where": {"White": "Nobody"}},
}


@pytest.fixture(scope="module")
def client() -> Iterator[Any]:
    with (
        dask_distributed.LocalCluster(
            n_workers=WORKERS,
            threads_per_worker=1,
            processes=True,
            dashboard_address=None,
            scheduler_kwargs={"dashboard_address": "127.0.0.1:0"},  # else a port that another cluster may have
        ) as cluster,
        dask_distributed.Client(cluster) as client,
    ):
        assert len(set(client.run(os.getpid).values()) - {os.getpid()}) == WORKERS
        yield client


@pytest.fixture(scope="module")
def long_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Enough work that a worker can be killed in the middle of it."""
    path = tmp_path_factory.mktemp("long") / "seasons.pgn"
    path.write_bytes(SEASON.read_bytes() * 12)
    return path


@pytest.fixture(scope="module")
def open_files(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Two larger files, the second one compressed."""
    folder = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or ROOT / "../shared/data") / "pgn"
    plain = folder / "rated-rapid-blitz.pgn"
    if not plain.exists():
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with pgn/rated-rapid-blitz.pgn")
    compressed = tmp_path_factory.mktemp("open") / "rated.pgn.gz"
    compressed.write_bytes(gzip.compress(plain.read_bytes(), 1))
    return [plain, compressed]


def assert_same_summary(found: ks.Summary, expected: ks.Summary) -> None:
    assert found == expected and found.counts == expected.counts and found.table() == expected.table() or (
        repr(found.table()) == repr(expected.table())  # NaN is not equal to itself
    )
    assert pickle.dumps(found) == pickle.dumps(expected)


def wait_for(condition: Callable[[], Any]) -> Any:
    """What the condition gives as soon as it is true."""
    begun = time.monotonic()
    while not (result := condition()):
        assert time.monotonic() - begun < LONG, "waited for something that never came"
        time.sleep(0.002)
    return result


def task_count(dask_scheduler: Any = None) -> int:
    return len(dask_scheduler.tasks)


def all_is_taken_back(client: Any) -> bool:
    return bool(wait_for(lambda: client.run_on_scheduler(task_count) == 0))


def kill_a_busy_worker(process_ids: dict[str, int], dask_scheduler: Any = None) -> str:
    """Kills a worker that holds results and has tasks. Its address, or an empty text if there is none just now."""
    for worker in dask_scheduler.workers.values():
        if worker.has_what and worker.processing:
            os.kill(process_ids[worker.address], signal.SIGKILL)
            return str(worker.address)
    return ""


def assert_died_in_the_middle(client: Any, address: str) -> None:
    """The scheduler noticed that it died, with results and tasks that others had to take over."""
    gone = [
        event
        for _, event in client.get_events("all")
        if event.get("action") == "remove-worker" and event["worker"] == address
    ]
    assert len(gone) == 1 and not gone[0]["expected"]
    assert gone[0]["processing-tasks"]
    client.wait_for_workers(WORKERS, timeout=LONG)
    assert address not in client.scheduler_info()["workers"]


@pytest.mark.parametrize("shard_size", [2_000, 25_000, 1 << 30])
@pytest.mark.parametrize("wish", WISHES)
def test_summaries_are_those_of_one_process(client: Any, wish: str, shard_size: int) -> None:
    wanted = WISHES[wish]
    expected = ks.summarise([SEASON, CLUB], progress=False, **wanted)
    assert_same_summary(distributed.summarise(client, [SEASON, CLUB], shard_size=shard_size, **wanted), expected)
    assert (expected.counts.positions == 0) == (wish == "nothing left")


@pytest.mark.parametrize(
    "wanted",
    [
        {},
        {
            "features": ["safe_moves", "overlooks"],
            "columns": ["file", "fen", "ECO", "phase"],
            "where": {"Black": "Pellerow, Ines"},
            "every": 5,
        },
        {"features": ["threats"], "where": {"rating": (1300, 1800), "Result": ["0-1"]}, "every": range(1, 80, 7)},
        {"features": [], "columns": ["ply"], "where": {"White": "Nobody"}},
    ],
)
@pytest.mark.parametrize("ahead", [1, 32])
def test_tables_are_those_of_one_process_in_order(client: Any, wanted: dict[str, Any], ahead: int) -> None:
    expected = pa.table(ks.scan([SEASON, CLUB], progress=False, **wanted))
    tables = list(distributed.scan(client, [SEASON, CLUB], shard_size=9_000, ahead=ahead, **wanted))
    cut = ks.shards([SEASON, CLUB], 9_000)
    assert len(tables) == len(cut) > 30
    for table, shard in zip(tables, cut):
        assert table.equals(pa.table(ks.read_shard(shard, **wanted)), check_metadata=True)
    assert pa.concat_tables(tables).equals(expected, check_metadata=True)


def test_large_files_plain_and_compressed(client: Any, open_files: list[Path]) -> None:
    by = ["phase", "white_rating_band"]
    expected = ks.summarise(open_files, by=by, progress=False)
    assert expected.counts.games > 1000
    assert_same_summary(distributed.summarise(client, open_files, by=by, shard_size=100_000), expected)

    wanted: dict[str, Any] = {"features": ["legal_moves", "piece_scope_difference"]}
    tables = distributed.scan(client, open_files, shard_size=100_000, **wanted)
    assert pa.concat_tables(tables).equals(pa.table(ks.scan(open_files, progress=False, **wanted)))


def test_every_way_to_name_files(client: Any) -> None:
    cut = ks.shards(SEASON, 50_000)
    sources: list[Any] = [SEASON, str(SEASON.with_name("s*.pgn")), [SEASON], cut, iter(cut), cut[2], [CLUB, *cut], []]
    for source in sources:
        again = list(source) if isinstance(source, Iterator) else source
        expected = ks.summarise(again, by="phase", features=["legal_moves"], progress=False)
        source = iter(again) if isinstance(source, Iterator) else source
        assert_same_summary(distributed.summarise(client, source, by="phase", features=["legal_moves"]), expected)
    assert list(distributed.scan(client, [])) == []


def test_refused_games_are_counted_alike(client: Any, tmp_path: Path) -> None:
    """More of them than are listed one by one, in several files."""
    good = '[White "Pellerow, Ines"]\n[Result "1-0"]\n\n1. e4 e5 2. Nf3 Nc6 1-0\n\n'
    bad = '[White "Ashgrove-Till, Kit"]\n[Result "*"]\n\n1. e4 e5 2. Ke3 *\n\n'
    worse = '[FEN "8/8/8/8/8/8/8/8 w - - 0 1"]\n[SetUp "1"]\n[Result "*"]\n\n*\n\n'
    for number in range(3):
        (tmp_path / f"{number}.pgn").write_text((good + bad + good + worse) * 40)
    files = tmp_path / "*.pgn"
    expected = ks.summarise(files, by="White", features=["legal_moves"], progress=False)
    assert expected.counts.games == 240 and expected.counts.refused == 240
    assert len(expected.counts.refused_by_reason) == 2 and len(expected.counts.refused_games) == 100
    assert_same_summary(
        distributed.summarise(client, files, by="White", features=["legal_moves"], shard_size=1_000), expected
    )
    tables = distributed.scan(client, files, features=["legal_moves"], shard_size=1_000)
    assert pa.concat_tables(tables).equals(pa.table(ks.scan(files, features=["legal_moves"], progress=False)))


def test_large_conditions_of_two_calls_at_once(client: Any) -> None:
    """Dask keeps large arguments as tasks of their own; those of one call must not be taken for those of another."""
    conditions = [
        {"White": [name, *(f"Nobody {number}" for number in range(20_000))]}
        for name in ("Pellerow, Ines", "Ashgrove-Till, Kit")
    ]
    expected = [ks.summarise(SEASON, features=[], where=where, progress=False) for where in conditions]
    assert expected[0] != expected[1] and all(summary.counts.games > 0 for summary in expected)

    def found(where: dict[str, list[str]]) -> ks.Summary:
        return distributed.summarise(client, SEASON, features=[], where=where, shard_size=30_000)

    with ThreadPoolExecutor(2) as threads:
        assert list(threads.map(found, conditions)) == expected


def test_a_summary_outlives_the_death_of_a_worker(client: Any, long_file: Path) -> None:
    wanted: dict[str, Any] = {"by": ["phase", "mover"], "features": ["safe_moves", "hanging_gain"]}
    process_ids = client.run(os.getpid)
    with ThreadPoolExecutor(1) as thread:
        running = thread.submit(distributed.summarise, client, long_file, shard_size=30_000, **wanted)
        address = wait_for(lambda: running.done() or client.run_on_scheduler(kill_a_busy_worker, process_ids))
        assert isinstance(address, str), "all was done before a worker could be killed"
        found = running.result(LONG)
    assert_died_in_the_middle(client, address)
    assert_same_summary(found, ks.summarise(long_file, progress=False, **wanted))


def test_a_scan_outlives_the_death_of_a_worker(client: Any, long_file: Path) -> None:
    wanted: dict[str, Any] = {"features": ["safe_moves", "hanging_gain"]}
    process_ids = client.run(os.getpid)
    tables = distributed.scan(client, long_file, shard_size=30_000, ahead=1_000, **wanted)
    found = [next(tables)]
    address = wait_for(lambda: client.run_on_scheduler(kill_a_busy_worker, process_ids))
    found += tables
    assert_died_in_the_middle(client, address)
    assert pa.concat_tables(found).equals(pa.table(ks.scan(long_file, progress=False, **wanted)))


def test_a_file_that_vanishes_is_no_silent_loss(client: Any, tmp_path: Path) -> None:
    path = tmp_path / "club.pgn"
    path.write_bytes(CLUB.read_bytes())
    cut = ks.shards(path, 1_000)
    tables = distributed.scan(client, cut, ahead=1)
    assert next(tables).equals(pa.table(ks.read_shard(cut[0])))
    path.unlink()
    starts: list[Callable[[], Any]] = [lambda: next(tables), lambda: distributed.summarise(client, [CLUB, *cut])]
    for start in starts:
        with pytest.raises(ks.InputError) as refusal:
            start()
        assert refusal.value.reason == "cannot_open" and refusal.value.file == str(path)
        assert all_is_taken_back(client)  # though the exception is still held
    starts = [
        lambda: distributed.summarise(client, path),
        lambda: distributed.scan(client, path),
        lambda: ks.summarise(cut, progress=False),
        lambda: ks.read_shard(cut[0]),
    ]
    for start in starts:
        with pytest.raises(ks.InputError, match="can't be opened"):
            start()


@pytest.mark.parametrize(
    "slip",
    [
        {"features": ["legal_move"]},
        {"features": ["threats", "threats"]},
        {"where": {"rating": 1200}},
        {"where": {"nothing": "1-0"}},
        {"where": [("Result", "1-0")]},
        {"every": 0},
        {"every": range(5, 0, -1)},
    ],
)
def test_slips_come_up_here_and_say_the_same(client: Any, slip: dict[str, Any]) -> None:
    pairs: list[tuple[Callable[[], Any], Callable[[], Any]]] = [
        (lambda: ks.summarise(SEASON, progress=False, **slip), lambda: distributed.summarise(client, SEASON, **slip)),
        (lambda: ks.scan(SEASON, progress=False, **slip), lambda: distributed.scan(client, SEASON, **slip)),
    ]
    for here, there in pairs:
        with pytest.raises((ValueError, TypeError)) as expected:
            here()
        with pytest.raises(expected.type) as found:
            there()
        assert str(found.value) == str(expected.value)
    assert client.run_on_scheduler(task_count) == 0


def test_what_is_interrupted_or_left_is_taken_back(client: Any, long_file: Path) -> None:
    wanted: dict[str, Any] = {"features": ["safe_moves"], "shard_size": 30_000}
    tables = distributed.scan(client, long_file, **wanted)
    next(tables)
    tables.close()
    assert all_is_taken_back(client)

    def interrupt() -> None:
        wait_for(lambda: client.run_on_scheduler(task_count))
        signal.pthread_kill(threading.main_thread().ident or 0, signal.SIGINT)

    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        interrupter = threading.Thread(target=interrupt)
        interrupter.start()
        with pytest.raises(KeyboardInterrupt) as held:
            distributed.summarise(client, long_file, **wanted)
        assert all_is_taken_back(client) and held.value is not None
        interrupter.join()
    finally:
        signal.signal(signal.SIGINT, before)
