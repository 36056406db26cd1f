"""The package as installed: its version, its type information, its names."""

import importlib.metadata
import re
from pathlib import Path

import keysquare as ks
import leak_rounds

ROOT = Path(__file__).parents[2]


def test_version_is_that_of_the_cpp_header() -> None:
    header = (ROOT / "include/keysquare/version.hpp").read_text()
    match = re.search(r'version = "([^"]+)"', header)
    assert match is not None
    assert ks.__version__ == match[1] == importlib.metadata.version("keysquare")


def test_type_information_is_installed() -> None:
    package = Path(ks.__file__).parent
    assert (package / "py.typed").exists()
    assert (package / "_core.pyi").exists()


def test_every_public_name_has_a_docstring() -> None:
    undocumented = [name for name in ks.__all__ if not name.startswith("_") and not getattr(ks, name).__doc__]
    assert not undocumented


def test_every_binding_file_is_searched_for_leaks() -> None:
    sources = {file.stem for file in (ROOT / "bindings/python/src").glob("*.cpp")} - {"module"}
    assert sources == leak_rounds.FILES.keys()
