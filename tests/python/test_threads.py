"""Many threads at once, other interpreters in the same process, and processes forked from this one.

examples/handbook/threads.md says what holds; this file holds it to that.
"""

import io
import os
import re
import subprocess
import sys
import sysconfig
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier, Lock, Thread, get_ident

import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples/data/club.pgn"
THREADS = 8

GAMES = list(ks.read_games(CLUB))
POSITIONS = [position for game in GAMES for position in list(game.positions())[10:50:8]]
TEXT = CLUB.read_bytes()
TEXTS = [game.pgn() for game in GAMES]
PAGE = (ROOT / "examples/handbook/threads.md").read_text()
PATIENCE = 60
"""Seconds after which nobody waits any longer. Far more than it takes, so that a busy machine fails nothing."""

FEW = POSITIONS[::8]
FOUND = [(position, ks.findings(position)[:2]) for position in POSITIONS[::4]]
THREATENED = [(position, threat) for position in POSITIONS for threat in ks.threats(position)][:3]
EXCHANGE_UP = ks.Position("3rr1k1/pp3ppp/8/8/3N4/2P5/PP3PPP/3R2K1 w - - 0 1")
GUARDED = ks.Position("Q7/3nkp2/4p3/1pPpPp2/8/2P4P/2P2PP1/6K1 b - - 0 27")
BAD_FENS = ("x", "8/8/8/8/8/8/8/8 w - - 0 1")


def words(items: Iterable[object]) -> list[str]:
    return [str(item) for item in items]


def rows_of(batches: Iterable[ks.RowBatch]) -> object:
    return [{column: batch[column] for column in batch.columns} for batch in batches]


folder = Path()


@pytest.fixture(scope="module", autouse=True)
def _folder(tmp_path_factory: pytest.TempPathFactory) -> None:
    global folder
    folder = tmp_path_factory.mktemp("threads")


def own_file() -> Path:
    return folder / f"{get_ident()}.pgn.gz"


# Each name begins with the function or method that it is about. Results are compared by their content.
LETS_GO: dict[str, Callable[[], object]] = {
    "findings": lambda: [words(ks.findings(position)) for position in POSITIONS],
    "threats": lambda: [words(ks.threats(position)) for position in POSITIONS],
    "parries": lambda: [ks.parries(position, threat) for position, threat in THREATENED],
    "answers": lambda: [ks.answers(position, position.moves()[0]) for position in FEW],
    "candidates": lambda: [ks.candidates(position) for position in FEW],
    "move_facts": lambda: [ks.move_facts(position) for position in FEW[:2]],
    "difficulty": lambda: [ks.difficulty(position) for position in FEW],
    "difficulty of a side": lambda: [ks.difficulty(position, "white") for position in FEW],
    "outlook": lambda: [ks.outlook(position) for position in FEW],
    "route": lambda: [ks.route(position, position.moves()[0].origin, "d5") for position in POSITIONS],
    "check_plan": lambda: [ks.check_plan(position, position.moves()[:1]) for position in FEW],
    "mobility": lambda: [ks.mobility(position, position.moves()[0].origin) for position in POSITIONS],
    "square_control": lambda: [ks.square_control(position) for position in FEW],
    "colour_complex": lambda: [ks.colour_complex(position) for position in POSITIONS],
    "guardian": lambda: [ks.guardian(GUARDED, side, "dark") for side in ("white", "black")],
    "exchange_context": lambda: ks.exchange_context(EXCHANGE_UP),
    "exchange": lambda: [ks.exchange(position, "d5") for position in POSITIONS],
    "resolve": lambda: [ks.resolve(position) for position in POSITIONS],
    "perft": lambda: [ks.perft(position, 3) for position in FEW],
    "game_report": lambda: ks.game_report(GAMES[0]),
    "move_events": lambda: ks.move_events(GAMES[0]),
    "select": lambda: list(ks.select(CLUB, themes="fork", threads=2, progress=False)),
    "profile": lambda: str(ks.profile(CLUB, GAMES[0].tags["White"], threads=2, progress=False)),
    "findings_json": lambda: [ks.findings_json(position, language="de") for position in POSITIONS],
    "threats_json": lambda: [ks.threats_json(position) for position in POSITIONS],
    "candidates_json": lambda: [ks.candidates_json(position) for position in FEW],
    "outlook_json": lambda: [ks.outlook_json(position, language="de") for position in FEW],
    "game_report_json": lambda: ks.game_report_json(GAMES[1]),
    "features": lambda: bytes(memoryview(ks.features(POSITIONS))),
    "features of texts": lambda: bytes(memoryview(ks.features([position.fen for position in POSITIONS]))),
    "read_games": lambda: list(ks.read_games(CLUB)),
    "read_games from a stream": lambda: list(ks.read_games(io.BytesIO(TEXT))),
    "game_from_text": lambda: [ks.game_from_text(text) for text in TEXTS],
    "write_games": lambda: ks.write_games(GAMES, own_file()),
    "write_games, read again": lambda: (ks.write_games(GAMES, own_file()), list(ks.read_games(own_file()))),
    "scan": lambda: rows_of(ks.scan(CLUB, features=["fen", "hanging_gain"], threads=2, progress=False)),
    "read_shard": lambda: rows_of(ks.read_shard(ks.shards([CLUB])[0], features=["legal_moves"])),
    "summarise": lambda: ks.summarise(CLUB, by="phase", threads=2, progress=False),
}
HOLDS: dict[str, Callable[[], object]] = {
    "Position": lambda: [ks.Position(position.fen) for position in POSITIONS],
    "Position, errors": lambda: [error_of(lambda: ks.Position(fen)) for fen in BAD_FENS * 50],
    "moves": lambda: [position.moves() for position in POSITIONS],
    "after": lambda: [position.after(position.moves()[0]) for position in POSITIONS],
    "states": lambda: [game.states() for game in GAMES],
    "diagram": lambda: [str(ks.diagram(position, found)) for position, found in FOUND],
    "difficulty_numbers": ks.difficulty_numbers,
    "fact_definitions": ks.fact_definitions,
    "feature_schema": ks.feature_schema,
    "move_letters": lambda: ks.move_letters("de"),
    "scan_columns": ks.scan_columns,
    "shards": lambda: ks.shards([CLUB], size=1000),
    "theme_heading": lambda: [ks.theme_heading(theme, "de") for theme in ks.themes],
    "theme_noun": lambda: [ks.theme_noun(theme) for theme in ks.themes],
    "yardsticks": ks.yardsticks,
}
WORK = LETS_GO | HOLDS
"""What is done in many threads: by functions that let go of the GIL, and by those that hold it."""


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
    alone = {name: work() for name, work in WORK.items()}
    begin = Barrier(len(WORK))

    def wait_and_work(name: str) -> str | None:
        begin.wait()
        return None if WORK[name]() == alone[name] else name

    with ThreadPoolExecutor(len(WORK)) as pool:
        assert not [name for name in pool.map(wait_and_work, WORK) if name]


# ----------------------------------------------------------------------------------------------------------------------
# The GIL

FUNCTIONS = {name for name in ks.__all__ if callable(getattr(ks, name)) and not isinstance(getattr(ks, name), type)}


def named(text: str) -> set[str]:
    """What stands in backticks, without classes and brackets: `Game.states` and `states()` are both "states"."""
    return {name.rpartition(".")[2] for name in re.findall(r"`([\w.]+)(?:\(\))?`", text)}


def about(names: Iterable[str]) -> set[str]:
    return {re.split(r"\W", name)[0] for name in names}


def test_the_page_says_of_each_function_whether_it_lets_go_of_the_gil() -> None:
    """A function that is missing here belongs on the page, if it lets go of the GIL, and into a list above."""
    let_go, _, held = PAGE.partition("## Python threads")[2].partition("| what |")[0].partition("It is held while")
    assert named(let_go) == about(LETS_GO)
    assert named(held) <= about(HOLDS)
    assert about(WORK) - about(LETS_GO) - FUNCTIONS == {"Position", "moves", "after", "states"}
    assert about(WORK) >= FUNCTIONS


def runs_meanwhile(work: Callable[[], object], goes_on: Callable[[int], bool]) -> bool:
    """Whether another thread came to run while this one worked, again and again, and was never asked to let it."""
    may_run, ran = Lock(), []

    def run() -> None:
        with may_run:
            ran.append(True)

    may_run.acquire()
    usual = sys.getswitchinterval()
    sys.setswitchinterval(1000)  # seconds: until then nobody is asked to let go of the GIL
    other = Thread(target=run)
    try:
        other.start()
        may_run.release()
        times = 0
        while not ran and goes_on(times):
            work()
            times += 1
        return bool(ran)
    finally:
        sys.setswitchinterval(usual)
        other.join()


needs_a_gil = pytest.mark.skipif(sys.implementation.name != "cpython", reason="asks how CPython hands over the GIL")


@needs_a_gil
@pytest.mark.parametrize("name", LETS_GO)
def test_other_threads_run_meanwhile(name: str) -> None:
    end = time.monotonic() + PATIENCE
    assert runs_meanwhile(LETS_GO[name], lambda _: time.monotonic() < end)


@needs_a_gil
@pytest.mark.parametrize("name", HOLDS)
def test_no_other_thread_runs_meanwhile(name: str) -> None:
    assert not runs_meanwhile(HOLDS[name], lambda times: times < 100)


def test_another_thread_counts_meanwhile() -> None:
    """A long calculation in one thread keeps no other from Python: it goes on until the other one has counted."""
    counted = 0
    with ThreadPoolExecutor(1) as pool:
        running = pool.submit(ks.perft, ks.Position(), 6)
        while not running.done():
            counted += 1
        assert running.result() == 119_060_324  # widely published; from memory
    assert counted > 1000  # with the GIL held it would not come to count at all


# ----------------------------------------------------------------------------------------------------------------------
# What one thread at a time may use


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


def test_the_module_does_not_declare_that_it_needs_no_gil() -> None:
    """In pybind11 by `mod_gil_not_used`, in C by the slot `Py_mod_gil` or `PyUnstable_Module_SetGIL`."""
    assert "The module does not declare that it can do without the GIL" in " ".join(PAGE.split())
    sources = [path.read_text() for path in (ROOT / "bindings/python/src").iterdir()]
    assert any("PYBIND11_MODULE(_core, module)" in source for source in sources)
    assert not any(re.search("mod_gil|MOD_GIL|SetGIL", source) for source in sources)


@pytest.mark.skipif(
    not hasattr(sys, "_is_gil_enabled") or sysconfig.get_config_var("Py_GIL_DISABLED") != 1,
    reason="needs a free-threaded build of Python; others always have the GIL",
)
def test_a_free_threaded_python_turns_the_gil_on_and_says_so() -> None:
    script = "import sys, keysquare; print(sys._is_gil_enabled())"
    environment = {name: value for name, value in os.environ.items() if name != "PYTHON_GIL"}
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=environment)
    assert done.stdout == "True\n"
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
