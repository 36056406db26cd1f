"""Writes the Python reference from docstrings, and types from the stub file; status 1 when a public name has no docstring.

usage: python_reference.py [--check] FOLDER       --check: writes nothing

Public is what `keysquare.__all__` and `keysquare.distributed.__all__` name, and every method, property and field of those
classes that does not begin with an underscore. Inherited ones count where the class that they come from is ours.
"""

import inspect
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

HERE = Path(__file__).parent
MODULES = ("keysquare", "keysquare.distributed")


def lay_out_stubs(folder: Path) -> None:
    """Puts the types of the compiled part where pdoc looks for those of the package."""
    import keysquare

    compiled = Path(keysquare.__file__).parent / "_core.pyi"
    package = folder / "keysquare"
    package.mkdir(parents=True)
    shutil.copy(compiled, package / "__init__.pyi")
    sys.path.insert(0, str(folder))


def without_signatures(docstring: str) -> str:
    """What a person wrote of a docstring: compiled functions begin theirs with their signature."""
    lines = [line for line in docstring.splitlines() if not re.match(r"(\d+\. )?\w+\(.*\)( -> .*)?$|Overloaded function", line)]
    return "\n".join(lines).strip()


def undocumented(modules: dict[str, "pdoc.doc.Module"]) -> Iterator[str]:
    seen = 0
    for module in modules.values():
        if not module.docstring.strip():
            yield module.fullname
        for member in module.own_members if module.fullname != "keysquare" else module.members.values():
            if member.name.startswith("_") or not is_listed(module, member.name):
                continue
            seen += 1
            if not without_signatures(member.docstring) and not is_constant(member):
                yield member.fullname
            if isinstance(member, pdoc.doc.Class):
                for part in member.members.values():
                    ours = part.taken_from[0].partition(".")[0] == "keysquare"
                    if part.name.startswith("_") or not ours:
                        continue
                    seen += 1
                    if not without_signatures(part.docstring):
                        yield f"{member.fullname}.{part.name}"
    if seen < 100:
        yield f"only {seen} names were found, so the check is not to be trusted"


def is_listed(module: "pdoc.doc.Module", name: str) -> bool:
    listed = getattr(module.obj, "__all__", None)
    return listed is None or name in listed


def is_constant(member: "pdoc.doc.Doc[object]") -> bool:
    """WHITE and BLACK: their values say what they are, and their class has a docstring."""
    return isinstance(member, pdoc.doc.Variable) and member.name.isupper()


def main(arguments: list[str]) -> int:
    only_check = arguments[:1] == ["--check"]
    if len(arguments) != (1 if not only_check else 2) and not (only_check and len(arguments) == 1):
        print(inspect.cleandoc(__doc__ or "").splitlines()[2], file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        lay_out_stubs(Path(folder))
        modules = {name: pdoc.doc.Module(__import__(name, fromlist=["_"])) for name in MODULES}
        faults = sorted(set(undocumented(modules)))
        for fault in faults:
            print(f"{fault} has no docstring", file=sys.stderr)
        if not only_check:
            pdoc.render.configure(
                docformat="markdown", search=True, show_source=False, template_directory=HERE / "templates", footer_text=""
            )
            pdoc.pdoc(*MODULES, output_directory=Path(arguments[0]))
    return 1 if faults else 0


if __name__ == "__main__":
    try:
        import pdoc
        import pdoc.doc
        import pdoc.render
    except ImportError:
        sys.exit("pdoc is missing: pip install -r tests/requirements.txt")
    sys.exit(main(sys.argv[1:]))
