"""The examples in the package's documentation, run as they stand."""

import doctest
import importlib
import re
from pathlib import Path

import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("name", ["keysquare", "keysquare._values", "keysquare._diagrams"])
def test_examples_in_docstrings(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0 and result.failed == 0


def test_the_example_in_the_readme() -> None:
    text = (ROOT / "bindings/python/README.md").read_text()
    examples = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    assert examples
    for example in examples:
        test = doctest.DocTestParser().get_doctest(example, {}, "README.md", "README.md", 0)
        result = doctest.DocTestRunner().run(test)
        assert result.attempted > 0 and result.failed == 0


def test_every_public_class_documents_its_members() -> None:
    undocumented = [
        f"{name}.{member}"
        for name in ks.__all__
        if isinstance(public := getattr(ks, name), type)
        for member, value in vars(public).items()
        if not member.startswith("_") and callable(getattr(public, member, None)) and not value.__doc__
    ]
    assert not undocumented
