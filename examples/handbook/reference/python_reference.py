"""Writes the Python reference from docstrings, and types from the stub file; status 1 when a public name has no docstring.

usage: python_reference.py --check | FOLDER       --check: writes nothing

Public is what `keysquare.__all__` names and what `keysquare.distributed` defines, and every method, property and field of
those classes; nothing that begins with an underscore. Inherited ones count where the class that they come from is ours.
"""

import ast
import re
import sys
import tempfile
import warnings
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
    types = compiled.read_text(encoding="utf-8")
    (package / "__init__.pyi").write_text("from __future__ import annotations\n" + types, encoding="utf-8")
    sys.path.insert(0, str(folder))


def lead_to_sources() -> None:
    """Lets pdoc read what our classes say of their fields, and understand their types. They are said to belong to
    `keysquare`, as users know them, so Python itself does not find the files that they are written in."""
    import keysquare

    sources: dict[type, str] = {}
    for name, module in list(sys.modules.items()):
        if not name.startswith("keysquare._") or not (file := getattr(module, "__file__", None)) or file[-3:] != ".py":
            continue
        text = Path(file).read_text(encoding="utf-8")
        for node in ast.parse(text).body:
            if isinstance(node, ast.ClassDef):
                sources[vars(module)[node.name]] = ast.get_source_segment(text, node) or ""
        for known, value in vars(module).items():
            vars(keysquare).setdefault(known, value)
    usual = pdoc.doc_ast.get_source
    pdoc.doc_ast.get_source = lambda asked: (isinstance(asked, type) and sources.get(asked)) or usual(asked)


UNWRITTEN = re.compile(
    r"(\d+\. )?\w+\(.*\) -> .*$|\w+\(\*args, \*\*kwargs\)$|Overloaded function\.|Alias for field number \d+$"
)
"""Lines that compiled functions, and fields of named tuples, get by themselves. The types are taken from the stub file."""


def written(docstring: str) -> str:
    """What a person wrote of a docstring."""
    return "\n".join(line for line in docstring.splitlines() if not UNWRITTEN.match(line)).strip()


def leave_out_signatures() -> None:
    """Lets pdoc see only what a person wrote."""
    usual = pdoc.doc._safe_getdoc
    pdoc.doc._safe_getdoc = lambda documented: written(usual(documented))


def undocumented(modules: dict[str, "pdoc.doc.Module"]) -> Iterator[str]:
    seen = 0
    for module in modules.values():
        if not module.docstring.strip():
            yield module.fullname
        for member in module.own_members if module.fullname != "keysquare" else module.members.values():
            if member.name.startswith("_") or not is_listed(module, member.name):
                continue
            seen += 1
            if not written(member.docstring) and not is_constant(member):
                yield member.fullname
            if isinstance(member, pdoc.doc.Class):
                for part in member.members.values():
                    ours = part.taken_from[0].partition(".")[0] == "keysquare"
                    if part.name.startswith("_") or not ours:
                        continue
                    seen += 1
                    if not written(part.docstring):
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
    if len(arguments) != 1:
        print("usage: python_reference.py --check | FOLDER", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        lay_out_stubs(Path(folder))
        lead_to_sources()
        leave_out_signatures()
        # Types that are only known to type checkers are shown as they are written.
        warnings.filterwarnings("ignore", message="Error parsing type annotation")
        modules = {name: pdoc.doc.Module(__import__(name, fromlist=["_"])) for name in MODULES}
        faults = sorted(set(undocumented(modules)))
        for fault in faults:
            print(f"{fault} has no docstring", file=sys.stderr)
        if arguments != ["--check"]:
            pdoc.render.configure(
                docformat="markdown", search=True, show_source=False, template_directory=HERE / "templates", footer_text=""
            )
            pdoc.pdoc(*MODULES, output_directory=Path(arguments[0]))
    return 1 if faults else 0


if __name__ == "__main__":
    try:
        import pdoc
        import pdoc.doc
        import pdoc.doc_ast
        import pdoc.render
    except ImportError:
        sys.exit("pdoc is missing: pip install -r tests/requirements.txt")
    sys.exit(main(sys.argv[1:]))
