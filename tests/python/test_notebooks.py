"""The notebooks of examples/notebooks run from top to bottom, and show what they are there to show."""

from pathlib import Path
from typing import Any

import pytest

nbclient = pytest.importorskip("nbclient")
nbformat = pytest.importorskip("nbformat")
pytest.importorskip("ipykernel")
pytest.importorskip("matplotlib")

FOLDER = Path(__file__).parents[2] / "examples/notebooks"
# What a notebook must show, by the type of its output.
SHOWN = {
    "position_study": {"image/svg+xml": 2, "text/html": 2},
    "game_review": {"image/png": 1, "text/html": 2},
    "exercise_sheet": {"text/html": 2},
    "student_profile": {"image/png": 1, "text/html": 1},
}


def outputs(book: Any) -> list[Any]:
    return [output for cell in book.cells if cell.cell_type == "code" for output in cell.outputs]


def test_every_notebook_is_listed() -> None:
    assert {path.stem for path in FOLDER.glob("*.ipynb")} == set(SHOWN)


@pytest.mark.parametrize("name", SHOWN)
def test_it_runs_and_shows(name: str) -> None:
    book = nbformat.read(FOLDER / f"{name}.ipynb", as_version=4)
    assert not outputs(book), "notebooks are kept without outputs: they would go stale, and differences be unreadable"
    nbclient.NotebookClient(book, timeout=300, kernel_name="python3", resources={"metadata": {"path": FOLDER}}).execute()
    shown = outputs(book)
    assert not [output for output in shown if output.output_type == "error" or output.get("name") == "stderr"]
    for kind, least in SHOWN[name].items():
        assert sum(kind in output.get("data", {}) for output in shown) >= least, kind
