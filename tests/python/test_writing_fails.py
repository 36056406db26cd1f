"""Files that can't be written: what was there stays as it was, nothing half-written is left, and the error says why.

The full disc is a limit of the process on the size of its files (`setrlimit`, POSIX), the folder that may not be written
to is one of root's seen by another user; both need a process of their own.
"""

import errno
import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples/data/club.pgn"

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs POSIX limits and users")

# Each writes to `path` more than ROOM bytes.
WRITERS = {
    "study.html": "study.save(path)",
    "study.md": "study.save(path)",
    "study.pgn": "study.save(path)",
    "sheet.html": "study.exercises().save(path)",
    "games.pgn": "ks.write_games(many, path)",
    "games.pgn.gz": "ks.write_games(many, path)",
    "games.pgn.bz2": "ks.write_games(many, path)",
    "games.pgn.zst": "ks.write_games(many, path)",
    "rows.parquet": "ks.scan([CLUB] * 4, progress=False).write_parquet(path)",
}
ROOM = 20_000

PROGRAM = """
import json, os, random, resource, signal, sys
from pathlib import Path
import keysquare as ks
CLUB, folder, writers = sys.argv[1], Path(sys.argv[2]), json.loads(sys.argv[3])
try:
    import pyarrow.parquet
except ImportError:
    del writers["rows.parquet"]
chance = random.Random(3)
# A comment that can't be compressed makes every file long.
many = [ks.game_from_text("{" + chance.randbytes(100).hex() + "} 1. e4 e5 *") for _ in range(600)]
study = ks.Study("Lesson").add(many[0]).ask(ks.Position(), "What now?", answer="Think. " * 10000)
{before}
said = {}
for name, write in writers.items():
    path = folder / name / name
    try:
        exec(write)
        said[name] = ["written"]
    except Exception as error:
        said[name] = [type(error).__name__, getattr(error, "reason", getattr(error, "errno", None)), str(error)]
print(json.dumps(said))
"""

FULL = """
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (ROOM, ROOM))
""".replace("ROOM", str(ROOM))
NOBODY = """
if os.geteuid() == 0:
    os.setgid(65534)
    os.setuid(65534)
"""


def tried(folder: Path, before: str = "") -> dict[str, list[Any]]:
    """What the writers say in a process: the error's type, its reason or number, and its text; or "written"."""
    program = PROGRAM.replace("{before}", before)
    done = subprocess.run(
        [sys.executable, "-c", program, str(CLUB), str(folder), json.dumps(WRITERS)], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    said: dict[str, list[Any]] = json.loads(done.stdout)
    assert len(said) >= len(WRITERS) - 1
    return said


def contents(folder: Path) -> dict[str, bytes | None]:
    """All files with their bytes, and the folders."""
    return {
        str(file.relative_to(folder)): file.read_bytes() if file.is_file() else None for file in folder.rglob("*")
    }


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one for each file, which other users may go into."""
    for parent in (tmp_path, *tmp_path.parents):
        if parent.stat().st_uid == os.getuid() and parent != Path("/"):
            parent.chmod(parent.stat().st_mode | 0o055)
    for name in WRITERS:
        (tmp_path / "here" / name).mkdir(parents=True)
    return tmp_path / "here"


def check_what_is_said(said: dict[str, list[Any]], number: int) -> None:
    """Games are written in C++, which has InputError with what the system says; all else raises OSError."""
    for name, (kind, reason, text) in said.items():
        if name.startswith("games"):
            assert (kind, reason) == ("InputError", "cannot_write"), name
            assert os.strerror(number) in text and f"{name}/{name}" in text
        else:
            assert kind in ("OSError", "PermissionError"), name
            assert reason == number or os.strerror(number) in text


def test_it_is_written_where_nothing_is_in_the_way(folder: Path) -> None:
    """Otherwise something else might be what fails below. Each is larger than what the full disc has room for."""
    for name, said in tried(folder).items():
        assert said == ["written"]
        assert (folder / name / name).stat().st_size > ROOM, name
        expected = {name, "study-diagrams"} if name == "study.md" else {name}
        assert {file.name for file in (folder / name).iterdir()} == expected


@pytest.mark.parametrize("there", [True, False], ids=["an old file", "no file"])
def test_a_full_disc(there: bool, folder: Path) -> None:
    for name in WRITERS if there else ():
        (folder / name / name).write_bytes(b"what was there")
    before = contents(folder)
    check_what_is_said(tried(folder, FULL), errno.EFBIG)
    assert contents(folder) == before


def test_a_folder_that_may_not_be_written_to(folder: Path) -> None:
    for name in WRITERS:
        (folder / name / name).write_bytes(b"what was there")
        (folder / name / name).chmod(0o666)  # the file may be written, but not be replaced
        (folder / name).chmod(0o555)
    before = contents(folder)
    try:
        check_what_is_said(tried(folder, NOBODY), errno.EACCES)
    finally:
        for name in WRITERS:
            (folder / name).chmod(0o755)
    assert contents(folder) == before


def test_a_folder_of_that_name(folder: Path) -> None:
    for name in WRITERS:
        (folder / name / name).mkdir()
        (folder / name / name / "kept").write_text("kept")
    before = contents(folder)
    for name, said in tried(folder).items():
        assert said[0] in ("IsADirectoryError", "InputError") and f"{name}/{name}" in said[-1]
    assert contents(folder) == before


def test_a_folder_in_the_place_of_a_picture(folder: Path) -> None:
    """Nothing is replaced when something can't be."""
    path = folder / "study.md" / "study.md"
    study = ks.Study("Lesson").ask(ks.Position(), "What now?", answer="e4")
    study.ask(ks.Position().after("e4"), "And now?", answer="e5").save(path)
    last = sorted((path.parent / "study-diagrams").iterdir())[-1]
    last.unlink()
    last.mkdir()
    before = contents(folder)
    with pytest.raises(IsADirectoryError) as caught:
        study.ask(ks.Position("8/8/8/8/8/4k3/4p3/4K3 w - - 0 1"), "Stalemate?", answer="Yes").save(path)
    assert caught.value.filename == str(last)
    assert contents(folder) == before


@pytest.mark.parametrize("mask", [0o022, 0o077])
def test_who_may_read_a_file(mask: int, folder: Path) -> None:
    """A new file is for whom the process says (umask), one that replaces another for whom that one was."""
    before = f"os.umask({mask})"
    assert {tuple(said) for said in tried(folder, before).values()} == {("written",)}
    for name in WRITERS:
        file = folder / name / name
        assert file.stat().st_mode & 0o777 == 0o666 & ~mask, name
        file.chmod(0o640)
    assert {tuple(said) for said in tried(folder, before).values()} == {("written",)}
    for name in WRITERS:
        assert (folder / name / name).stat().st_mode & 0o777 == 0o640, name


def test_a_link_is_followed(folder: Path) -> None:
    for name in WRITERS:
        (folder / name / "real").write_bytes(b"what was there")
        (folder / name / name).symlink_to(folder / name / "real")
    for name, said in tried(folder).items():
        assert said == ["written"]
        assert (folder / name / name).is_symlink() and (folder / name / "real").stat().st_size > ROOM


def test_games_that_stop_coming(tmp_path: Path) -> None:
    def broken() -> Iterator[ks.Game]:
        yield ks.Game()
        raise LookupError("the sea is wide")

    path = tmp_path / "games.pgn"
    path.write_text("what was there")
    mixed: list[Any] = [ks.Game(), 3]
    for games, error in ((broken(), LookupError), (mixed, TypeError)):
        with pytest.raises(error):
            ks.write_games(games, path)
        assert contents(tmp_path) == {"games.pgn": b"what was there"}


KILLED = """
import os, signal, sys
from pathlib import Path
import keysquare as ks
from keysquare import _new_file
path, game = Path(sys.argv[1]), ks.game_from_text("1. e4 e5 2. Nf3 Nc6 *")
def games():
    for _ in range(20_000):
        yield game
    os.kill(os.getpid(), signal.SIGKILL)
def half(file):
    file.write(b"half")
    file.flush()
    os.kill(os.getpid(), signal.SIGKILL)
if ".pgn" in path.name:
    ks.write_games(games(), path)
else:
    _new_file.write_new_file(path, half)
"""


@pytest.mark.parametrize(
    ("name", "draft"),
    [
        ("games.pgn", r"games\.pgn\.\d+\.part"),
        ("games.pgn.gz", r"games\.pgn\.gz\.\d+\.part"),
        ("rows.parquet", r"\.rows\.parquet\.[0-9a-f]+"),
    ],
)
def test_a_process_that_is_killed(name: str, draft: str, tmp_path: Path) -> None:
    """Nobody is left to clean up: a draft may stay, under the name that threads.md tells."""
    (tmp_path / name).write_bytes(b"what was there")
    done = subprocess.run([sys.executable, "-c", KILLED, str(tmp_path / name)], stderr=subprocess.PIPE, text=True)
    assert done.returncode == -signal.SIGKILL, done.stderr
    left = contents(tmp_path)
    assert left.pop(name) == b"what was there"
    assert len(left) == 1 and all(re.fullmatch(draft, other) for other in left), left


@pytest.mark.parametrize("save", [ks.Study.save, lambda study, path: study.exercises().save(path)])
def test_devices_are_not_replaced(save: Callable[[ks.Study, Path], object], tmp_path: Path) -> None:
    study = ks.Study("Lesson").ask(ks.Position(), "What now?")
    link = tmp_path / "full.html"
    link.symlink_to("/dev/full")
    with pytest.raises(OSError, match="full.html"):
        save(study, link)
    with pytest.raises(ks.InputError) as caught:
        ks.write_games([ks.Game()], "/dev/full")
    assert caught.value.reason == "cannot_write"
    assert Path("/dev/full").is_char_device() and contents(tmp_path).keys() == {"full.html"}
