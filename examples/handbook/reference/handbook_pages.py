"""Writes the Markdown pages of the handbook, and the README, as HTML, with an index that leads to the references.

usage: handbook_pages.py FOLDER
"""

import os
import re
import sys
from html import escape
from pathlib import Path

from markdown_it import MarkdownIt

HERE = Path(__file__).parent
HANDBOOK = HERE.parent
ROOT = HANDBOOK.parents[1]


def pages() -> dict[Path, str]:
    """The Markdown files, and what each is called below the output folder."""
    found = {ROOT / "README.md": "readme.html", ROOT / "DEVELOPERS.md": "developers.html"}
    for path in sorted(HANDBOOK.rglob("*.md")):
        if HERE not in path.parents:
            name = path.relative_to(HANDBOOK).with_suffix(".html").as_posix()
            found[path] = "index.html" if name == "README.html" else "handbook/" + name
    return found


def slug(heading: str) -> str:
    """The name that a heading is linked by: lower case, hyphens for blanks, nothing else but letters, digits and _."""
    return re.sub(r"[^\w-]", "", heading.strip().lower().replace(" ", "-"))


def html_of(path: Path, named: dict[Path, str], output: Path) -> tuple[str, str]:
    """The title and the body of a page; links lead to the other pages where there is one, else into the project."""
    here = (output / named[path]).parent
    reader = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    tokens = reader.parse(path.read_text(encoding="utf-8"))
    title = ""
    for at, token in enumerate(tokens):
        if token.type == "heading_open":
            heading = tokens[at + 1].content
            title = title or heading
            token.attrSet("id", slug(heading))
        for part in token.children or []:
            name = {"link_open": "href", "image": "src"}.get(part.type)
            if name and not re.match(r"[a-z]+:|#", str(part.attrs[name])):
                target, _, anchor = str(part.attrs[name]).partition("#")
                file = (path.parent / target).resolve()
                file = file / "README.md" if file / "README.md" in named else file
                led = output / named[file] if file in named else file
                part.attrs[name] = os.path.relpath(led, here) + (f"#{anchor}" if anchor else "")
    return title, reader.renderer.render(tokens, reader.options, {})


def main(output: Path) -> None:
    output = output.resolve()
    named = pages()
    style = (HERE / "style.css").read_text(encoding="utf-8")
    leads = {
        "index.html": "Handbook",
        "readme.html": "README",
        "cpp/index.html": "C++ reference",
        "cpp/keysquare_8h.html": "C reference",
        "python/keysquare.html": "Python reference",
        "developers.html": "For developers",
    }
    for path, name in named.items():
        title, body = html_of(path, named, output)
        up = "../" * name.count("/")
        nav = "".join(f'<a href="{up}{lead}">{what}</a>' for lead, what in leads.items())
        page = output / name
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(
            f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>\n'
            f'<meta name="viewport" content="width=device-width"><style>{style}</style></head>\n'
            f"<body><nav>{nav}</nav>\n<main>{body}</main></body></html>\n",
            encoding="utf-8",
        )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
