"""The example program that tells what a student does differently."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
PROGRAM = ROOT / "examples/student_profile.py"


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, str(PROGRAM), *arguments], capture_output=True, text=True, check=False)


def test_it_tells_and_draws(tmp_path: Path) -> None:
    picture = tmp_path / "profile.png"
    done = run("-o", str(picture))
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("Joren Vastin: ") and "the reference group" in done.stdout
    assert "Positions to look at" in done.stdout and "time left: more than half" in done.stdout
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_an_unknown_player_is_told_who_there_is() -> None:
    done = run("--player", "Pelerow, Ines")
    assert done.returncode == 1 and "Pellerow, Ines" in done.stderr
