"""hostile_input.md: each row names tests that are there, and what fuzzing found is told."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "examples/handbook/hostile_input.md").read_text()

TESTS = {file.name: file for file in (ROOT / "tests").rglob("*.*") if file.suffix in (".cpp", ".py")}
CASE = r"^BOOST_AUTO_TEST_CASE\((\w+)|^def (test_\w+)\("


def test_files_that_the_page_names_are_there() -> None:
    paths = set(re.findall(r"`((?:tests|examples|src|include)/[\w./]+)`", PAGE))
    assert paths and all((ROOT / path).exists() for path in paths), paths
    names = set(re.findall(r"`([\w.]+\.(?:cpp|py))`", PAGE))
    assert names and names <= TESTS.keys()


def test_each_row_names_the_tests_that_say_so() -> None:
    """In its last cell: "`file`: `test`, `test`; `file`: `test`"."""
    rows = [row for row in PAGE.splitlines() if row.startswith("| ") and not row.endswith("| tested in |")]
    assert len(rows) > 30
    for row in rows:
        for part in row.rstrip("| ").rpartition(" | ")[2].split("; "):
            named = re.fullmatch(r"`([\w.]+)`: (`\w+`(?:, `\w+`)*)", part)
            assert named, row
            there = {a or b for a, b in re.findall(CASE, TESTS[named[1]].read_text(), re.MULTILINE)}
            assert set(re.findall(r"\w+", named[2])) <= there, row


def test_all_that_fuzzing_found_is_told() -> None:
    corpus = ROOT / "tests/fuzz/corpus"
    found = {file.relative_to(corpus).as_posix() for file in corpus.glob("*/found-*")}
    assert found and set(re.findall(r"^- `(\w+/found-[^`]+)`", PAGE, re.MULTILINE)) == found
