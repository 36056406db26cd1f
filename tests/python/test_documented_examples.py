"""The examples in the package's documentation, run as they stand."""

import doctest
import importlib
import re
import subprocess
from pathlib import Path

import jsonschema
import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    "name",
    [
        "keysquare",
        "keysquare._diagrams",
        "keysquare._intervals",
        "keysquare._profile",
        "keysquare._scan",
        "keysquare._select",
        "keysquare._shards",
        "keysquare._summary",
    ],
)
def test_examples_in_docstrings(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    result = doctest.testmod(importlib.import_module(name))
    assert result.attempted > 0 and result.failed == 0


@pytest.mark.parametrize("readme", ["README.md", "bindings/python/README.md"])
def test_the_python_example_in_the_readme(readme: str) -> None:
    text = (ROOT / readme).read_text()
    examples = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    assert examples
    for example in examples:
        test = doctest.DocTestParser().get_doctest(example, {}, "README.md", "README.md", 0)
        result = doctest.DocTestRunner().run(test)
        assert result.attempted > 0 and result.failed == 0


def test_the_cpp_example_in_the_readme() -> None:
    text = (ROOT / "README.md").read_text()
    (code,) = re.findall(r"```cpp\n(.*?)```", text, re.DOTALL)
    (output,) = re.findall(r"```text\n(.*?)```", text, re.DOTALL)
    assert code == (ROOT / "examples/first_look.cpp").read_text()
    program = ROOT / "build/release/examples/first_look"
    if not program.exists():
        pytest.skip("the C++ examples are not built; tests/run.sh builds them")
    assert subprocess.run([program], capture_output=True, text=True, check=True).stdout == output


def test_the_example_in_the_readme_of_the_schemas(monkeypatch: pytest.MonkeyPatch) -> None:
    """It finds nothing wrong with a document, and refuses one with a member that there is not."""
    (code,) = re.findall(r"```py\n(.*?)```", (ROOT / "bindings/schema/README.md").read_text(), re.DOTALL)
    monkeypatch.chdir(ROOT)
    exec(code, {})
    written = ks.findings_json
    monkeypatch.setattr(ks, "findings_json", lambda position: written(position).replace('"fen"', '"board"', 1))
    with pytest.raises(jsonschema.ValidationError, match="board"):
        exec(code, {})


def test_every_public_class_documents_its_members() -> None:
    undocumented = [
        f"{name}.{member}"
        for name in ks.__all__
        if isinstance(public := getattr(ks, name), type)
        for member, value in vars(public).items()
        if not member.startswith("_") and callable(getattr(public, member, None)) and not value.__doc__
    ]
    assert not undocumented
