"""The references and the handbook: nothing public lacks a description, and what the pages name is there."""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import keysquare
import pytest

ROOT = Path(__file__).resolve().parents[2]
HANDBOOK = ROOT / "examples/handbook"
REFERENCE = HANDBOOK / "reference"

pytest.importorskip("pdoc")


def run(*command: str | Path, **environment: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [str(part) for part in command],
        cwd=ROOT,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHON": sys.executable, **environment},
    )


def files() -> Iterator[str]:
    """What the repository holds, without what was built or is hidden."""
    for folder, folders, names in os.walk(ROOT):
        folders[:] = [name for name in folders if name not in ("build", "__pycache__") and not name.startswith(".")]
        yield from (Path(folder, name).relative_to(ROOT).as_posix() for name in names)


FILES = sorted(files())


# --- C++ and C

needs_doxygen = pytest.mark.skipif(shutil.which("doxygen") is None, reason="needs doxygen")


@pytest.fixture()
def headers(tmp_path: Path) -> Path:
    """A few headers, so that the tests are quick. The whole is checked by test_whole_reference."""
    folder = tmp_path / "headers/keysquare"
    for name in ("version.hpp", "board/types.hpp", "board/move.hpp", "keysquare.h"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / "include/keysquare" / name, folder / name)
    return folder


def cpp(headers: Path) -> "subprocess.CompletedProcess[str]":
    return run(REFERENCE / "make_reference.sh", "cpp", headers.parent / "out", KEYSQUARE_HEADERS=str(headers))


@needs_doxygen
def test_documented_headers_pass(headers: Path) -> None:
    done = cpp(headers)
    assert done.returncode == 0, done.stderr
    assert (headers.parent / "out/cpp/index.html").exists()


@needs_doxygen
@pytest.mark.parametrize(
    ("file", "before", "inserted", "named"),
    [
        pytest.param(
            "board/types.hpp",
            "/// The opponent of a side.",
            "[[nodiscard]] int forgotten(Side side);\n",
            "forgotten",
            id="function",
        ),
        pytest.param(
            "board/types.hpp",
            "/// The opponent of a side.",
            "struct Forgotten { int member; };\n",
            "Compound keysquare::Forgotten",
            id="class",
        ),
        pytest.param(
            "board/types.hpp", "/// The opponent of a side.", "enum class Forgotten { one };\n", "Forgotten", id="enum"
        ),
        pytest.param(
            "board/types.hpp",
            "/// The opponent of a side.",
            "template <class T> constexpr bool forgotten = sizeof(T) > 1;\n",
            "forgotten",
            id="variable",
        ),
        pytest.param(
            "board/move.hpp",
            "/// What is special about it.",
            "[[nodiscard]] constexpr bool forgotten() const noexcept { return true; }\n",
            "forgotten",
            id="method",
        ),
        pytest.param("board/move.hpp", "plain,", "forgotten,", "MoveType::forgotten", id="value of an enumeration"),
        pytest.param(
            "keysquare.h",
            "/** Frees a position.",
            "KEYSQUARE_API int32_t keysquare_forgotten(void);\n",
            "keysquare_forgotten",
            id="function of C",
        ),
        pytest.param(
            "keysquare.h",
            "/** Frees a position.",
            "enum { KEYSQUARE_FORGOTTEN = 0 /**< a value */ };\n",
            "an enumeration without a name has no comment",
            id="enumeration of C",
        ),
    ],
)
def test_undocumented_name_fails(headers: Path, file: str, before: str, inserted: str, named: str) -> None:
    path = headers / file
    text = path.read_text()
    assert text.count(before) >= 1
    at = text.index(before)
    path.write_text(text[:at] + inserted + text[at:])
    done = cpp(headers)
    assert done.returncode == 1
    assert named in done.stderr


@needs_doxygen
def test_detail_needs_no_comment(headers: Path) -> None:
    path = headers / "board/types.hpp"
    text = path.read_text()
    at = text.index("/// The opponent of a side.")
    path.write_text(text[:at] + "namespace detail {\nint helper();\nstruct Helper { int member; };\n}\n" + text[at:])
    done = cpp(headers)
    assert done.returncode == 0, done.stderr


C_INTERFACE = (ROOT / "include/keysquare/keysquare.h").read_text()


def names_of_c() -> set[str]:
    """What keysquare.h declares, read without its comments."""
    bare = re.sub(r"/\*.*?\*/", "", C_INTERFACE, flags=re.DOTALL)
    functions = re.findall(r"^KEYSQUARE_API [^;]*?(\w+)\(", bare, re.MULTILINE)
    types = re.findall(r"^typedef .* (\w+);", bare, re.MULTILINE)
    values = re.findall(r"(KEYSQUARE_\w+) = \d", bare)
    assert len(functions) >= 30 and len(types) >= 7 and len(values) >= 11
    return {*functions, *types, *values, "KEYSQUARE_API"}


@needs_doxygen
def test_every_name_of_c_is_asked_for_a_comment(headers: Path) -> None:
    of_file, guard, rest = C_INTERFACE.partition("#ifndef KEYSQUARE_KEYSQUARE_H")
    (headers / "keysquare.h").write_text(of_file + guard + rest.replace("/**", "/*"))
    done = cpp(headers)
    assert done.returncode == 1
    assert names_of_c() - set(re.findall(r"\w+", done.stderr)) == set()
    assert done.stderr.count("an enumeration without a name has no comment") == 4


@needs_doxygen
@pytest.mark.parametrize("file", ["keysquare.h", "board/move.hpp"])
def test_header_without_its_own_comment_fails(headers: Path, file: str) -> None:
    """Doxygen passes over what such a header holds, and says nothing."""
    path = headers / file
    text = path.read_text()
    path.write_text(text.replace(" * @file\n", "") if file.endswith(".h") else text.partition("\n")[2])
    assert path.read_text() != text
    done = cpp(headers)
    assert done.returncode == 1
    assert f"{path}: the header has no comment of its own" in done.stderr.splitlines()


# --- Python


@pytest.fixture()
def package(tmp_path: Path) -> Path:
    """A copy of the installed package."""
    copied = tmp_path / "site/keysquare"
    shutil.copytree(Path(keysquare.__file__).parent, copied, ignore=shutil.ignore_patterns("__pycache__"))
    return copied


def check_python(package: Path) -> "subprocess.CompletedProcess[str]":
    others = os.environ.get("PYTHONPATH", "")
    return run(sys.executable, REFERENCE / "python_reference.py", "--check", PYTHONPATH=f"{package.parent}:{others}")


def test_documented_package_passes(package: Path) -> None:
    done = check_python(package)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("file", "docstring", "named"),
    [
        ("_diagrams.py", '    """The square that is marked."""\n', "keysquare.Mark.square"),  # a field of a named tuple
        ("_results.py", '    """It castles."""\n', "keysquare.Parry.castles"),  # a field of a record
        ("_values.py", '        """Whether it is a light square."""\n', "keysquare.Square.is_light"),  # a property
        ("_profile.py", '    """How often something happened in so many moves."""\n', "keysquare.Rate"),  # a class
    ],
)
def test_missing_docstring_fails(package: Path, file: str, docstring: str, named: str) -> None:
    path = package / file
    text = path.read_text()
    assert text.count(docstring) == 1
    path.write_text(text.replace(docstring, ""))
    done = check_python(package)
    assert done.returncode == 1
    assert f"{named} has no docstring" in done.stderr.splitlines()


@pytest.mark.parametrize(
    ("file", "code", "named"),
    [
        ("distributed.py", "def forgotten() -> None: ...", "keysquare.distributed.forgotten"),
        ("__init__.py", "def forgotten() -> None: ...\n__all__.append('forgotten')", "keysquare.forgotten"),
    ],
)
def test_new_function_without_docstring_fails(package: Path, file: str, code: str, named: str) -> None:
    path = package / file
    path.write_text(path.read_text() + f"\n\n{code}\n")
    done = check_python(package)
    assert done.returncode == 1
    assert f"{named} has no docstring" in done.stderr.splitlines()


# --- JavaScript


@pytest.fixture()
def types(tmp_path: Path) -> Path:
    shutil.copy(ROOT / "bindings/javascript/keysquare.d.ts", tmp_path)
    return tmp_path / "keysquare.d.ts"


def check_javascript(types: Path) -> "subprocess.CompletedProcess[str]":
    return run(REFERENCE / "make_reference.sh", "javascript", KEYSQUARE_TYPES=str(types.parent))


def test_documented_types_pass(types: Path) -> None:
    done = check_javascript(types)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("export type Side ", "Side"),
        ("export interface Finding ", "Finding"),
        ("  point_san:", "Finding.point_san"),
        ("export class Games ", "Games"),
        ("  constructor(message", "InputError.constructor"),
        ("  readonly mover:", "Position.mover"),
        ("  findingsJson(", "Position.findingsJson"),
        ("  [Symbol.iterator](", "Games.[Symbol.iterator]"),
        ("export function load(", "load"),
    ],
)
def test_missing_comment_of_javascript_fails(types: Path, line: str, named: str) -> None:
    text = types.read_text()
    bare, removed = re.subn(r" */\*\*(?:(?!\*/).)*\*/\n(?=" + re.escape(line) + ")", "", text, flags=re.DOTALL)
    assert removed == 1
    types.write_text(bare)
    done = check_javascript(types)
    assert done.returncode == 1
    faults = [fault.partition(": ")[2] for fault in done.stderr.splitlines() if fault.startswith(str(types))]
    assert faults == [f"{named} has no comment"]


@pytest.mark.parametrize(
    "added",
    [
        "export function forgotten(): void;",
        "/** */\nexport function forgotten(): void;",
        "// Not what an editor shows.\nexport function forgotten(): void;",
        "/** Of something else. */\n\nexport function forgotten(): void;",
        "/** With a member. */\nexport interface Forgotten { forgotten: string }",
        "/** With a member. */\nexport type Forgotten = { forgotten: string };",
        "/** With a member. */\nexport interface Forgotten {\n  /** A member. */ forgotten: string;\n}",
        "declare namespace forgotten {}",
    ],
)
def test_new_name_of_javascript_without_comment_fails(types: Path, added: str) -> None:
    types.write_text(types.read_text() + "\n" + added + "\n")
    done = check_javascript(types)
    assert done.returncode == 1
    assert "forgotten" in done.stderr


# --- all of it


@needs_doxygen
def test_whole_reference(tmp_path: Path) -> None:
    done = run(REFERENCE / "make_reference.sh", "all", tmp_path)
    assert done.returncode == 0, done.stderr
    index = (tmp_path / "index.html").read_text()
    for led in re.findall(r'href="([^"#:]+)["#]', index):
        assert led.startswith("../") or (tmp_path / led).exists(), led  # what lies outside: test_links_lead_somewhere
    assert "readme.html" in index and "cpp/index.html" in index and "python/keysquare.html" in index
    assert "exchange_imbalance" in (tmp_path / "cpp/files.html").read_text()
    assert 'href="cpp/keysquare_8h.html"' in index
    page = (tmp_path / "cpp/keysquare_8h.html").read_text()
    listed = " ".join(re.findall(r'<td class="memItemRight".*?</td>', page, re.DOTALL))
    assert "keysquare_findings_json" in page and names_of_c() - set(re.findall(r"\w+", listed)) == set()
    assert "Every function that can fail returns a status" in page
    described = (tmp_path / "python/keysquare.html").read_text()
    assert all(f'id="{name}"' in described for name in keysquare.__all__ if not name.startswith("_"))


# --- the pages


def slugs(markdown: str) -> set[str]:
    without_code = re.sub(r"^```.*?^```", "", markdown, flags=re.MULTILINE | re.DOTALL)
    headings = re.findall(r"^#+ (.*)$", without_code, flags=re.MULTILINE)
    return {re.sub(r"[^\w-]", "", heading.strip().lower().replace(" ", "-")) for heading in headings}


def links_of(page: Path) -> list[str]:
    """Those that lead to files and headings, not to the network."""
    text = re.sub(r"^```.*?^```", "", page.read_text(), flags=re.MULTILINE | re.DOTALL)
    return [link for link in re.findall(r"\]\(([^)\s]+)\)", text) if not re.match(r"[a-z]+:", link)]


@pytest.mark.parametrize("page", [name for name in FILES if name.endswith(".md")])
def test_links_lead_somewhere(page: str) -> None:
    for link in links_of(ROOT / page):
        target, _, anchor = link.partition("#")
        file = ((ROOT / page).parent / target).resolve() if target else ROOT / page
        assert file.exists() and file.is_relative_to(ROOT), link
        if anchor:
            assert anchor in slugs(file.read_text()), link


@pytest.mark.parametrize("page", ["bindings/python/README.md", "bindings/javascript/README.md"])
def test_readme_of_a_package_needs_no_other_file(page: str) -> None:
    """It is shown where the package is published, too."""
    assert [link for link in links_of(ROOT / page) if not link.startswith("#")] == []


# --- versions

# What a release changes besides `version.hpp`, from which CMake and the Python package read the version.
WITH_VERSION = {
    "bindings/javascript/package.json",
    "examples/handbook/CHANGES.md",
    "examples/handbook/CITATION.cff",
    "examples/handbook/README.md",
    "tests/consumers/c_interface/CMakeLists.txt",
    "tests/consumers/find_package/CMakeLists.txt",
}


def test_versions_are_said_where_they_are_known_to_be() -> None:
    major, minor, patch = keysquare.__version__.split(".")
    said = re.compile(rf"(?<![\d.]){major}\.{minor}\.{patch}(?!\.?\d)|keysquare {major}\.{minor}\b".encode())
    found = {name for name in FILES if said.search((ROOT / name).read_bytes())}
    assert found == {"include/keysquare/version.hpp", *WITH_VERSION}


def test_newest_change_is_this_version() -> None:
    newest = re.search(r"^## (\S+)", (HANDBOOK / "CHANGES.md").read_text(), re.MULTILINE)
    assert newest and newest[1] == keysquare.__version__
    schema = keysquare.feature_schema()
    said = f"Feature schema version {schema.version} ({len(schema.columns)} columns)"
    assert said in (HANDBOOK / "CHANGES.md").read_text()


def citation() -> dict[str, Any]:
    import yaml

    found: dict[str, Any] = yaml.safe_load((HANDBOOK / "CITATION.cff").read_text())
    return found


def test_citation() -> None:
    """Against the rules of the Citation File Format 1.2.0 (its schema guide), as far as they touch what we use."""
    cited = citation()
    assert set(cited) >= {"cff-version", "message", "title", "authors"}  # required
    assert set(cited) <= {"cff-version", "message", "title", "authors", "type", "version", "license", "keywords"}
    assert cited["cff-version"] == "1.2.0" and cited["type"] in ("software", "dataset")
    assert cited["authors"] == [{"name": "The keysquare developers"}]  # an entity: its name is required
    assert all(isinstance(word, str) for word in cited["keywords"])
    assert str(cited["version"]) == keysquare.__version__


def test_handbook_cites_as_the_file_does() -> None:
    text = (HANDBOOK / "README.md").read_text()
    cited = citation()
    for part in (cited["title"], cited["authors"][0]["name"]):
        assert text.count(part) == 2, part
    assert f"version = {{{keysquare.__version__}}}" in text
    assert f"Version {keysquare.__version__}," in text


def test_measured_page_says_what_was_measured(tmp_path: Path) -> None:
    """The page is made of what the programs wrote, figure by figure."""
    (tmp_path / "results").mkdir()
    (tmp_path / "results/commit.txt").write_text("0123abc\n")
    (tmp_path / "results/accuracy.json").write_text(json.dumps({"themes": [{"theme": "fork", "found_percent": 12.5}]}))
    rows = [
        {"name": "a", "items": 1234567.0, "reference": 1000.0, "ratio": 1234.567, "bytes": 5e6, "of_copy": None},
        {"name": "b", "error": "no data"},
    ]
    (tmp_path / "reference.json").write_text(json.dumps(rows))
    done = run(sys.executable, ROOT / "bench/measured.py", tmp_path, tmp_path / "page.md")
    assert done.returncode == 0, done.stderr
    lines = (tmp_path / "page.md").read_text().splitlines()
    assert "| commit | 0123abc |" in lines
    assert "| fork | 12.5 |" in lines
    assert "| `a` | 1,200 |" in lines
    assert "| `a` | 1,234,567 | 5 |" in lines
    assert "Not measured: `b` (no data)." in lines
    assert lines[-1] == "Not measured in this run."  # no compile time was given


def rows_of(text: str, heading: str) -> dict[str, list[str]]:
    """The table under a heading, or after a line: the cells of each row by its first one."""
    table = re.search(r"(?:^\|.*\n)+", text[text.index(heading) :], re.MULTILINE)
    assert table is not None
    rows = [line.strip("| ").split(" | ") for line in table[0].splitlines()]
    return {cells[0]: cells[1:] for cells in rows}


def test_readme_gives_the_accuracy_that_was_measured() -> None:
    measured = (HANDBOOK / "measured.md").read_text()
    suite = rows_of(measured, "### Candidates suite")["all"]
    expected = {"Strategic Test Suite": [suite[0], suite[1], suite[2], suite[4]]}
    names = {
        "open puzzles": "open-puzzles.csv, odd places",
        "Bratko-Kopec": "bratko-kopec.epd",
        "Win at Chess": "win-at-chess.epd",
        "Silent but Deadly": "silent-but-deadly.epd",
        "Kaufman's test": "kaufman.epd",
    }
    table = rows_of(measured, "### Candidates\n")
    expected |= {shown: table[file][:4] for shown, file in names.items()}
    told = rows_of((ROOT / "README.md").read_text(), "In brackets\nthe bar:")
    assert len(told) == len(expected) + 2  # the head and the line below it
    for name, (number, among, first, candidates) in expected.items():
        [cells] = [cells for row, cells in told.items() if row.startswith(name)]
        figures = [float(re.sub(r" %.*", "", cell)) for cell in cells]
        rounded = [0, 0.55, 0.55, 0.055]  # by both pages, each from the figure itself
        for figure, value, off in zip(figures, (number, among, first, candidates), rounded, strict=True):
            assert abs(figure - float(value)) <= off, name
