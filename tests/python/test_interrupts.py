"""Ctrl-C at any time: a process hears it, ends by KeyboardInterrupt, and leaves no half-written file.

A process works without end. SIGINT comes at random moments (the seed is fixed, the moments are the machine's), again and
again; each time it must be heard, and what lies in the folder must be whole. The last one ends the process.
"""

import contextlib
import gzip
import queue
import random
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from types import FrameType
from typing import IO

import pytest

from keysquare import _new_file

ROOT = Path(__file__).parents[2]
SEASON = ROOT / "examples/data/season.pgn"

TRIES = 12
LONGEST_DELAY = 0.15
"""Seconds between the begin of the work and the signal."""
PATIENCE = 60
"""Seconds after which a process that has not heard hangs. Far more than it takes, so that a busy machine fails nothing."""

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="sends POSIX signals")

PROGRAM = """
import io, sys
from pathlib import Path
folder, tries = Path(sys.argv[1]), int(sys.argv[2])
import keysquare as ks
def plain(wanted):
    try:
        exec(f"import {{wanted}}")
    except ImportError:
        print("missing", flush=True)
        sys.exit()
LONG, SPACE = folder / "../long.pgn", folder / "../space.pgn.gz"
few = list(ks.read_games(folder / "../season.pgn"))[:5]
{prepare}
for number in range(tries):
    try:
        print("ready", flush=True)
        while True:
            {work}
    except KeyboardInterrupt:
        print("heard", flush=True)
        sys.stdin.readline()  # the files are looked at meanwhile
print("ready", flush=True)
while True:
    {work}
"""

STUDIES = """
studies = [ks.Study(f"Lesson {number}") for number in range(2)]
for study in studies:
    for game in few:
        study.ask(list(game.positions())[20], f"What now, in {study.title}?", answer="Think. " * 100)
"""

WORK = {
    "a list of games": ("", "list(ks.read_games(LONG))"),
    "a loop over games": ("", "for game in ks.read_games(LONG): pass"),
    "a text without games": ("", "list(ks.read_games(SPACE))"),
    "a stream": ("data = LONG.read_bytes()", "list(ks.read_games(io.BytesIO(data)))"),
    "games refused": ("data = b'1. e5 *\\n\\n' * 200000", "list(ks.read_games(io.BytesIO(data)))"),
    "features": ("fens = [ks.Position().fen] * 300000", "ks.features(fens)"),
    "scan": ("", "for batch in ks.scan(LONG, progress=False): pass"),
    "scan with searches": ("", "for batch in ks.scan(LONG, features=['no_plan'], progress=False): pass"),
    "summarise": ("", "ks.summarise(LONG, by='phase', progress=False)"),
    "select": ("", "ks.select(LONG, themes='fork', gain=1, limit=10**6, progress=False)"),
    "profile": ("", "ks.profile(LONG, few[0].tags['White'], progress=False)"),
    "game_report": ("", "ks.game_report(few[0])"),
    "write_games of a list": ("many = few * 2000", "ks.write_games(many, folder / 'games.pgn')"),
    "write_games of a reader": ("", "ks.write_games(ks.read_games(LONG), folder / 'games.pgn.gz')"),
    "write_games, short": ("", "ks.write_games(few, folder / 'few.pgn')"),
    "a study as a page": (STUDIES, "for one in studies: one.save(folder / 'study.html')"),
    "a study as Markdown": (STUDIES, "for one in studies: one.save(folder / 'study.md')"),
    "a sheet": (STUDIES, "for one in studies: one.exercises().save(folder / 'sheet.html')"),
    "write_parquet": (
        "plain('pyarrow.parquet')",
        "ks.scan(folder / '../season.pgn', features=['legal_moves'], progress=False)"
        ".write_parquet(folder / 'rows.parquet')",
    ),
}


@pytest.fixture(scope="module", autouse=True)
def signals_are_heard() -> Iterator[None]:
    """A shell lets what it starts in the background ignore SIGINT, and so would what the tests start."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("interrupts")
    text = SEASON.read_bytes()
    (folder / "season.pgn").write_bytes(text)
    (folder / "long.pgn").write_bytes(text * 100)
    with gzip.open(folder / "space.pgn.gz", "wb") as file:
        for _ in range(300):
            file.write(b" " * (1 << 20))
    return folder


def test_a_draft_goes_wherever_the_signal_comes(tmp_path: Path) -> None:
    """SIGINT at the first step that Python takes in writing a file, at the second, and so on to the last."""
    target = tmp_path / "rows"
    ours = {_new_file.__file__, contextlib.__file__}
    steps = last = 0

    def step(frame: FrameType, event: str, _: object) -> object:
        nonlocal steps
        frame.f_trace_opcodes = True
        if event == "opcode":
            steps += 1
            if steps == last:
                signal.raise_signal(signal.SIGINT)
        return step

    def write(file: IO[bytes]) -> None:
        file.write(b"whole")

    heard = 0
    while steps >= last:  # as long as there was a step for the signal
        last, steps = last + 1, 0
        sys.settrace(lambda frame, *event: step(frame, *event) if frame.f_code.co_filename in ours else None)
        try:
            _new_file.write_new_file(target, write)
        except KeyboardInterrupt:
            # Looked at here, as what the error still holds is not let go of before it is dealt with.
            heard += 1
            assert {file.read_bytes() for file in tmp_path.iterdir()} <= {b"whole"}, last
            assert {file.name for file in tmp_path.iterdir()} <= {"rows"}, last
        finally:
            sys.settrace(None)
        if steps >= last:
            target.unlink(missing_ok=True)
    assert heard == last - 1 > 100
    assert target.read_bytes() == b"whole"


class Worker:
    """The process, and the lines that it says."""

    def __init__(self, program: str, folder: Path) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-c", program, str(folder), str(TRIES)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        self.lines: queue.Queue[str] = queue.Queue()
        self.complaints = ""
        self.readers = [threading.Thread(target=work) for work in (self._read, self._read_complaints)]
        for reader in self.readers:
            reader.start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.lines.put(line.strip())
        self.lines.put("end")

    def _read_complaints(self) -> None:
        assert self.process.stderr is not None
        self.complaints = self.process.stderr.read()

    def line(self) -> str:
        try:
            return self.lines.get(timeout=PATIENCE)
        except queue.Empty:
            return "nothing"

    def go_on(self) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write("\n")
        self.process.stdin.flush()

    def __enter__(self) -> "Worker":
        return self

    def __exit__(self, *_: object) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for reader in self.readers:
            reader.join()
        for stream in (self.process.stdin, self.process.stdout, self.process.stderr):
            assert stream is not None
            stream.close()


@pytest.mark.parametrize("name", WORK)
def test_it_is_heard(name: str, files: Path) -> None:
    prepare, work = WORK[name]
    folder = files / name.replace(" ", "_")
    folder.mkdir()
    chance = random.Random(name)
    with Worker(PROGRAM.format(prepare=prepare, work=work), folder) as worker:
        for at in range(TRIES + 1):
            said = worker.line()
            if said == "missing":
                pytest.skip("needs a package that is not installed")
            assert said == "ready", (at, said, worker.complaints)
            time.sleep(chance.uniform(0, LONGEST_DELAY))
            worker.process.send_signal(signal.SIGINT)
            assert worker.line() == ("heard" if at < TRIES else "end"), at
            check_files(folder)
            if at < TRIES:
                worker.go_on()
        assert worker.process.wait(PATIENCE) == -signal.SIGINT  # as Python ends by a KeyboardInterrupt that none caught
        for reader in worker.readers:
            reader.join()
        assert worker.complaints.strip().endswith("KeyboardInterrupt")


WHOLE = {"games.pgn", "games.pgn.gz", "few.pgn", "study.html", "study.md", "study-diagrams", "sheet.html", "rows.parquet"}


def check_files(folder: Path) -> None:
    """No file but those that were asked for, each from its first to its last byte."""
    there = {file.name for file in folder.iterdir()}
    assert there <= WHOLE
    for name in there - {"study-diagrams"}:
        data = (folder / name).read_bytes()
        if name.endswith(".gz"):
            data = gzip.decompress(data)
        if name.endswith((".pgn", ".pgn.gz")):
            assert data.startswith(b"[Event ") and data.endswith(b"\n\n"), name
            assert data.count(b"[Event ") in (5, 5 * 2000, SEASON.read_bytes().count(b"[Event ") * 100)
        elif name.endswith(".html"):
            assert data.startswith(b"<!DOCTYPE html>") and data.endswith(b"</html>\n")
        elif name.endswith(".md"):
            number = data.split(b"\n")[0].rpartition(b" ")[2]
            assert data.count(b"in Lesson " + number + b"?") == 5
        else:
            assert data.startswith(b"PAR1") and data.endswith(b"PAR1")
    pictures = [file for file in folder.rglob("*.svg")]
    assert all(picture.read_text().rstrip().endswith("</svg>") for picture in pictures)
    assert ("study.md" in there) <= (len(pictures) >= 5)
