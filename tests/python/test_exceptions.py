"""C++ exceptions as Python exceptions, whatever other modules in the same process do to exceptions.

All pybind11 modules that are built alike share their translators of exceptions. duckdb is one that registers some for
the standard exceptions; `data/hostile_module.cpp` is one that takes every exception.
"""

import os
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
COMPILER = os.environ.get("CXX") or next(filter(None, map(shutil.which, ("c++", "g++", "clang++"))), None)

# What pybind11 maps by itself: its documentation, "Exceptions", "Built-in C++ to Python exception translation".
MAPPED = {
    "bad_alloc": MemoryError,
    "domain_error": ValueError,
    "invalid_argument": ValueError,
    "length_error": ValueError,
    "out_of_range": IndexError,
    "range_error": ValueError,
    "overflow_error": OverflowError,
    "underflow_error": RuntimeError,
    "runtime_error": RuntimeError,
    "logic_error": RuntimeError,
    "exception": RuntimeError,
    "unknown": RuntimeError,
    "py_stop_iteration": StopIteration,
    "py_index_error": IndexError,
    "py_key_error": KeyError,
    "py_value_error": ValueError,
    "py_type_error": TypeError,
    "py_import_error": ImportError,
    "error_already_set": ZeroDivisionError,
}

PROVOKED = """
import sys
sys.path.insert(0, {tests!r})
from test_vector_from_columns import DAMAGED, START, AsArray, AsStream, plain

def name_of(work):
    try:
        work()
    except BaseException as error:
        return type(error).__name__
    return "nothing"

def stream(code):
    producer = plain([START.encode()])
    producer.code = code
    return lambda: ks.features(AsStream(producer))

names = [
    name_of(stream(12)),  # std::bad_alloc
    name_of(stream(5)),  # std::runtime_error
    name_of(lambda: ks.features(AsArray(DAMAGED["no offsets"]))),  # std::invalid_argument
    name_of(lambda: ks.Position("x")),  # InputError
    name_of(lambda: ks.findings(ks.Position(), plies=-1)),  # py::value_error
    name_of(lambda: ks.features([3])),  # py::type_error
    name_of(lambda: ks.features([ks.Position()])["no such column"]),  # py::key_error
    name_of(lambda: next(iter(ks.read_games("/nowhere.pgn")))),  # InputError from a thread without the GIL
]
print(*names)
"""
EXPECTED = "MemoryError RuntimeError ValueError InputError ValueError TypeError KeyError InputError"

ORDERS = {
    "alone": "import keysquare as ks",
    "before": "import {other}; import keysquare as ks",
    "after": "import keysquare as ks; import {other}",
    "late": "import keysquare as ks; ks.Position(); import {other}",
}


def names_raised(order: str, other: str, *folders: Path) -> str:
    script = ORDERS[order].format(other=other) + "\n" + PROVOKED.format(tests=str(Path(__file__).parent))
    path = os.pathsep.join([*map(str, folders), *filter(None, sys.path)])
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, env={**os.environ, "PYTHONPATH": path}
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


@pytest.mark.parametrize("order", ORDERS)
def test_duckdb_in_the_same_process(order: str) -> None:
    pytest.importorskip("duckdb")
    assert names_raised(order, "duckdb") == EXPECTED


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built module."""
    pybind11 = pytest.importorskip("pybind11")
    if COMPILER is None:
        pytest.skip("needs a C++ compiler")
    folder = tmp_path_factory.mktemp("hostile")
    includes = [ROOT / "bindings/python/src", pybind11.get_include(), sysconfig.get_path("include")]
    subprocess.run(
        [
            *(COMPILER, "-std=c++20", "-O0", "-shared", "-fPIC", "-fvisibility=hidden"),
            *(f"-I{include}" for include in includes),
            str(ROOT / "tests/python/data/hostile_module.cpp"),
            *("-o", str(folder / f"hostile{sysconfig.get_config_var('EXT_SUFFIX')}")),
        ],
        check=True,
    )
    return folder


@pytest.mark.parametrize("order", ORDERS)
def test_a_module_that_takes_every_exception(hostile: Path, order: str) -> None:
    assert names_raised(order, "hostile", hostile) == EXPECTED


def test_every_standard_exception_is_what_it_is_by_default(hostile: Path) -> None:
    """Before the guard the hostile module has it, so the guard is what keeps it."""
    script = f"""
import sys
sys.path.insert(0, {str(hostile)!r})
import hostile
def raised(name):
    try:
        hostile.throw_guarded(name)
    except BaseException as error:
        return type(error).__name__, str(error).strip("'")
names = {list(MAPPED)!r}
print([raised(name)[0] for name in names])
hostile.guard()
print([raised(name) for name in names])
"""
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    taken, guarded = map(eval, done.stdout.splitlines())
    # pybind11 itself looks after what Python raised.
    assert taken == ["LookupError" if name != "error_already_set" else "ZeroDivisionError" for name in MAPPED]
    assert [name for name, _ in guarded] == [error.__name__ for error in MAPPED.values()]
    own_words = {"bad_alloc", "exception", "unknown"}
    assert all(text == "the sea is wide" for name, (_, text) in zip(MAPPED, guarded) if name not in own_words)
