"""Many threads at once, other interpreters in the same process, and processes forked from this one.

examples/handbook/threads.md says what holds; this file holds it to that.
"""

import io
import os
import subprocess
import sys
import sysconfig
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples/data/club.pgn"
THREADS = 8

GAMES = list(ks.read_games(CLUB))
POSITIONS = [position for game in GAMES for position in list(game.positions())[10:50:8]]
TEXT = CLUB.read_bytes()


def every_word(item: object) -> object:
    return [str(one) for one in item] if isinstance(item, (list, tuple)) else str(item)


WORK: dict[str, Callable[[], object]] = {
    "findings": lambda: [every_word(ks.findings(position)) for position in POSITIONS],
    "threats": lambda: [every_word(ks.threats(position)) for position in POSITIONS],
    "candidates": lambda: [every_word(list(ks.candidates(position))) for position in POSITIONS[::4]],
    "outlook": lambda: [str(ks.outlook(position)) for position in POSITIONS[::8]],
    "game_report": lambda: str(ks.game_report(GAMES[0])),
    "features": lambda: bytes(memoryview(ks.features(POSITIONS))),
    "diagram": lambda: [str(ks.diagram(position, ks.findings(position)[:2])) for position in POSITIONS[::4]],
    "read_games": lambda: [game.pgn() for game in ks.read_games(CLUB)],
    "read_games from a stream": lambda: [game.pgn() for game in ks.read_games(io.BytesIO(TEXT))],
    "errors": lambda: [error_of(lambda: ks.Position(fen)) for fen in ("x", "8/8/8/8/8/8/8/8 w - - 0 1") * 50],
    "summarise": lambda: repr(ks.summarise(CLUB, by="phase", threads=2, progress=False).table()),
}


def error_of(work: Callable[[], object]) -> str:
    with pytest.raises(ks.InputError) as caught:
        work()
    return f"{caught.value} {caught.value.reason}"


def at_once(work: Callable[[], object]) -> list[object]:
    """What each of several threads gets that begin together."""
    begin = Barrier(THREADS)

    def wait_and_work(_: int) -> object:
        begin.wait()
        return work()

    with ThreadPoolExecutor(THREADS) as pool:
        return list(pool.map(wait_and_work, range(THREADS)))


@pytest.mark.parametrize("name", WORK)
def test_many_threads_get_what_one_gets(name: str) -> None:
    alone = WORK[name]()
    assert alone
    assert all(result == alone for result in at_once(WORK[name]))


def test_all_kinds_of_work_at_once() -> None:
    few = {name: work for name, work in WORK.items() if name not in ("candidates", "outlook", "game_report")}
    alone = {name: work() for name, work in few.items()}
    begin = Barrier(len(few))

    def wait_and_work(name: str) -> bool:
        begin.wait()
        return few[name]() == alone[name]

    with ThreadPoolExecutor(len(few)) as pool:
        assert all(pool.map(wait_and_work, few))


def test_other_threads_run_meanwhile() -> None:
    """A long calculation in one thread keeps no other from Python: it goes on until the other one has counted."""
    counted = 0
    with ThreadPoolExecutor(1) as pool:
        running = pool.submit(ks.perft, ks.Position(), 6)
        while not running.done():
            counted += 1
        assert running.result() == 119_060_324  # widely published; from memory
    assert counted > 1000  # with the GIL held it would not come to count at all


def test_a_reader_gives_each_game_to_one_thread() -> None:
    """Who comes while another thread reads is told so, and no game is lost or given twice."""
    reader = ks.read_games(io.BytesIO(TEXT * 50))
    begin = Barrier(THREADS)

    def take(_: int) -> tuple[list[int], int]:
        taken, turned_away = [], 0
        begin.wait()
        while True:
            try:
                taken.append(next(reader).offset)
            except StopIteration:
                return taken, turned_away
            except RuntimeError as error:
                assert "in use in another thread" in str(error)
                turned_away += 1

    with ThreadPoolExecutor(THREADS) as pool:
        results = list(pool.map(take, range(THREADS)))
    offsets = [offset for taken, _ in results for offset in taken]
    assert len(offsets) == len(set(offsets)) == 50 * len(GAMES)


def test_a_scan_gives_each_batch_to_one_thread() -> None:
    rows = ks.scan([CLUB] * 200, features=["legal_moves"], progress=False)
    expected = sum(len(batch) for batch in ks.scan([CLUB] * 200, features=["legal_moves"], progress=False))
    begin = Barrier(THREADS)

    def take(_: int) -> int:
        taken = 0
        begin.wait()
        while True:
            try:
                taken += len(next(rows))
            except StopIteration:
                return taken
            except RuntimeError as error:
                assert "in use in another thread" in str(error)

    with ThreadPoolExecutor(THREADS) as pool:
        assert sum(pool.map(take, range(THREADS))) == expected


# ----------------------------------------------------------------------------------------------------------------------
# Other interpreters

INTERPRETERS = """
import sys
try:
    import _interpreters as interpreters
except ImportError:
    import _xxsubinterpreters as interpreters
{first}
interpreter = interpreters.create()
script = {script!r}
try:
    failed = interpreters.run_string(interpreter, "import sys; sys.path[:] = " + repr(sys.path) + "\\n" + script)
except Exception as error:
    failed = error
print("in the other:", getattr(failed, "formatted", failed))
interpreters.destroy(interpreter)
import keysquare as ks
print("in the first:", ks.perft(ks.Position(), 3))
"""


@pytest.mark.skipif(sys.implementation.name != "cpython", reason="interpreters of CPython")
@pytest.mark.parametrize("first", ["", "import keysquare"], ids=["only there", "here, too"])
def test_another_interpreter_in_the_same_process_is_refused(first: str) -> None:
    script = INTERPRETERS.format(first=first, script="import keysquare")
    path = os.pathsep.join(filter(None, sys.path))
    done = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": path},
        timeout=300,  # it hangs where it is not refused
    )
    assert done.returncode == 0, done.stderr
    other, here = done.stdout.strip().splitlines()
    assert "ImportError" in other or "does not support loading in subinterpreters" in other
    assert here == "in the first: 8902"


def test_the_module_asks_for_the_gil() -> None:
    """On a free-threaded build of Python its import turns the GIL on; on others there is nothing else."""
    script = "import sys, keysquare; print(getattr(sys, '_is_gil_enabled', lambda: True)())"
    done = subprocess.run([sys.executable, "-W", "ignore", "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout == "True\n"


@pytest.mark.skipif(sysconfig.get_config_var("Py_GIL_DISABLED") != 1, reason="needs a free-threaded build of Python")
def test_a_free_threaded_python_says_so() -> None:
    done = subprocess.run([sys.executable, "-c", "import keysquare"], capture_output=True, text=True, check=True)
    assert "The global interpreter lock (GIL) has been enabled to load module 'keysquare._core'" in done.stderr


# ----------------------------------------------------------------------------------------------------------------------
# Fork

FORKED = """
import os, signal, sys
import keysquare as ks
rows = ks.scan([sys.argv[1]] * 500, features=["legal_moves"], threads=2, progress=False)
next(rows)
{before}
child = os.fork()
if child == 0:
    print(ks.perft(ks.Position(), 3), len(ks.findings(ks.Position())) >= 0, len(list(ks.read_games(sys.argv[1]))) > 0)
    sys.stdout.flush()
    {end}
_, status = os.waitpid(child, 0)
print("status", status, sum(map(len, rows)) > 0)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(
    ("before", "end", "goes_on"),
    [("", "os._exit(0)", "True"), ("rows.close()", "sys.exit(0)", "")],
    ids=["with an open scan the child leaves by os._exit", "with a closed scan it may end as it likes"],
)
def test_a_forked_process(before: str, end: str, goes_on: str) -> None:
    script = FORKED.format(before=before, end=end)
    if not goes_on:
        script = script.replace("sum(map(len, rows)) > 0", "''")
    done = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", script, str(CLUB)], capture_output=True, text=True, timeout=300
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines() == ["8902 True True", f"status 0 {goes_on}"]
