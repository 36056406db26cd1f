"""examples/handbook/threads.md: what it names is there, and no class is left out that one thread must use alone.

Whether it is true is shown by tests/cpp/threads_test.cpp, test_threads.py and test_interrupts.py.
"""

import builtins
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import keysquare as ks

ROOT = Path(__file__).resolve().parents[2]
HEADERS = ROOT / "include/keysquare"
PAGE = (ROOT / "examples/handbook/threads.md").read_text()
CPP = PAGE.partition("## C++")[2].partition("\n## ")[0]
PYTHON = PAGE.partition("## Python threads")[2]


def in_backticks(text: str) -> list[str]:
    return re.findall(r"`([^`]+)`", text)


def row(beginning: str) -> str:
    """The row of a table that begins so."""
    (found,) = [line for line in PAGE.splitlines() if line.startswith(f"| {beginning}")]
    return found


# --- C++


def code(text: str) -> str:
    """Without comments, texts and lines of the preprocessor."""
    comments, texts = r"//[^\n]*|/\*.*?\*/", r"'(?:\\.|[^'\\\n])'|\"(?:\\.|[^\"\\\n])*\""
    return re.sub(rf"{comments}|{texts}|^#[^\n]*", "", text, flags=re.MULTILINE | re.DOTALL)


CODE = code("\n".join(path.read_text() for path in sorted(HEADERS.rglob("*.hpp"))))


def blocks(text: str) -> Iterator[tuple[str, str]]:
    """What stands before each outermost pair of braces, since the last statement, and what in them."""
    depth = begin = last = 0
    for at, sign in enumerate(text):
        if sign == "{":
            if depth == 0:
                begin = at
            depth += 1
        elif sign == "}":
            depth -= 1
            if depth == 0:
                yield text[last:begin], text[begin + 1 : at]
                last = at + 1
        elif sign == ";" and depth == 0:
            last = at + 1


CLASS = re.compile(r"(?<!enum )\b(?:class|struct)\s+(\w+)(?:<.*>)?(?:\s+final)?(?:\s*:[^:].*)?\s*$", re.DOTALL)


def classes(text: str) -> Iterator[tuple[str, str]]:
    """The classes outside of classes, with their bodies; also those in `detail`."""
    for before, body in blocks(text):
        if re.search(r"\bnamespace\b", before):
            yield from classes(body)
        elif found := CLASS.search(before):
            yield found[1], body


def members(body: str) -> str:
    """The body without those of functions and without initial values, but with what classes in it have."""
    text, last = "", 0
    for before, inside in blocks(body):
        at = body.index(before + "{" + inside + "}", last)
        text += body[last:at] + before
        if re.search(r"\b(?:class|struct)\b", before) and "(" not in before:
            text += ";" + members(inside)
        elif "(" in before:
            text += ";"
        last = at + len(before) + len(inside) + 2
    return text + body[last:]


def keeping(text: str) -> set[str]:
    """The classes whose const operations may write: with a mutable member, or with a member of such a class."""
    parts = {name: members(body) for name, body in classes(text)}
    found = {name for name, part in parts.items() if re.search(r"(?:^|[;:{}])\s*mutable\b", part)}
    while True:
        one_of_them = re.compile(rf"\b(?:{'|'.join(found)})\b(?![^;]*\()[^;(&*]*;" if found else r"(?!)")
        more = {name for name, part in parts.items() if one_of_them.search(part)}
        if more <= found:
            return found
        found |= more


def test_classes_that_keep_what_they_worked_out_are_named() -> None:
    """Whoever adds a mutable member adds its class to that row, or makes it safe for many threads and says so here."""
    (told,) = [line for line in CPP.splitlines() if "even reading writes into it" in line]
    assert set(in_backticks(told)) == keeping(CODE)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("namespace a { class New { public: int f() const { return 1; } private: mutable int kept_ = 0; }; }", {"New"}),
        ("namespace a { namespace detail { struct New final : Old { mutable std::optional<int> x{}; }; } }", {"New"}),
        ("class Out { struct In { mutable int x; }; In in_; };", {"Out"}),
        ("class New { mutable int x; }; class Has { std::optional<New> new_; int y; };", {"New", "Has"}),
        ("class New { mutable int x; }; class Has { int y() const { New local; return 1; } };", {"New"}),
        ("class New { mutable int x; }; class Has { void look(const New& at); Old old_{New{}}; };", {"New"}),
        ("class Old { int f() { return [x = 1]() mutable { return x; }(); } };", set()),
        ("enum class Old { one }; inline int immutable = 0; // mutable int x;", set()),
    ],
)
def test_they_would_be_found(text: str, found: set[str]) -> None:
    assert keeping(code(text)) == found


def is_declared(name: str) -> bool:
    if "/" in name or name.endswith(".h"):
        return (ROOT / name).exists() or (HEADERS / name).exists()
    *classes_, last = name.split("::")
    places = [body for of, body in classes(CODE) if of in classes_] if classes_ else [CODE]
    return any(re.search(rf"\b(?:class|struct) {last}\b|\b{last}\(", place) for place in places)


@pytest.mark.parametrize("name", sorted({*in_backticks(PAGE.partition("\n## ")[0] + CPP)} - {"const"}))
def test_what_it_names_in_cpp_is_there(name: str) -> None:
    assert is_declared(name)


@pytest.mark.parametrize("name", ["features", "Game::add_tags", "Forgotten", "tests/cpp/thread_test.cpp"])
def test_what_is_not_there_would_be_found(name: str) -> None:
    assert not is_declared(name)


def test_every_function_of_the_c_interface_is_used_in_many_threads() -> None:
    functions = set(re.findall(r"\b(keysquare_\w+)\(", code((HEADERS / "keysquare.h").read_text())))
    assert len(functions) > 20
    used = set(re.findall(r"\bkeysquare_\w+\b", (ROOT / "tests/cpp/threads_test.cpp").read_text()))
    assert functions <= used


# --- Python

OUTSIDE = {"multiprocessing", "spawn", "forkserver", "fork", "os._exit", "plies", "check_plies", "nodes"}
"""What is named and is not ours, or a parameter."""
NAMES = {name for name in in_backticks(PYTHON) if re.fullmatch(r"[A-Za-z_.]+(?:\(\))?", name) and name[0] != "."}


def is_in_the_package(name: str) -> bool:
    *owner, last = name.removesuffix("()").split(".")
    public = [getattr(ks, each) for each in ks.__all__]
    if owner:
        return hasattr(getattr(ks, owner[0], None), last)
    return any(hasattr(place, last) for place in [ks, builtins, *(one for one in public if isinstance(one, type))])


@pytest.mark.parametrize("name", sorted(NAMES - {"season.pgn"}))
def test_what_it_names_in_python_is_there(name: str) -> None:
    assert (name in OUTSIDE) != is_in_the_package(name)


def test_everything_that_changes_a_game_is_named() -> None:
    changing = {
        name
        for changed in (ks.Game, ks.GameStep)
        for name, part in vars(changed).items()
        if re.match(r"(?:add|set|remove)_", name) or getattr(part, "fset", None)
    }
    assert set(in_backticks(row("A `Game`"))) - {"Game"} == changing


def test_the_position_that_takes_long_is_one() -> None:
    (fen,) = [text for text in in_backticks(PYTHON) if "/" in text and " b " in text]
    position = ks.Position(fen)
    assert sum(piece.kind == "queen" for piece in position.pieces.values()) == 7
