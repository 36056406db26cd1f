"""Text of game files is hostile: names, events and comments that try to run, to load, to link, or to break out.

Every text field of everything that becomes a page, a picture or Markdown holds the same attack and a name of its own. The
pages are opened in the system's Chromium by the PyPI package playwright, Markdown after markdown-it-py has made HTML of
it with raw HTML allowed. PGN is read again by us and by the rules library `chess`.
"""

import io
import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import unquote
from xml.etree import ElementTree

import chess.pgn
import pytest
from markdown_it import MarkdownIt
from playwright.sync_api import Browser, sync_playwright

import keysquare as ks

ROOT = Path(__file__).parents[2]
NAMES = ("chromium", "chromium-browser", "google-chrome")
FOUND = next(filter(None, map(shutil.which, NAMES)), None)
needs_browser = pytest.mark.skipif(FOUND is None, reason=f"needs a browser: none of {', '.join(NAMES)} is installed")

RUN = "document.title='run'"
ATTACK = (
    f'<script>{RUN}</script><img src="http://127.0.0.1:9/x.png" onerror="{RUN}"><svg onload="{RUN}"></svg>'
    f'<a href="javascript:{RUN}">press</a><iframe src="http://127.0.0.1:9/"></iframe>'
    f'<style>@import "http://127.0.0.1:9/x.css";*{{display:none}}</style><link rel=stylesheet href=http://127.0.0.1:9/>'
    '<meta http-equiv="refresh" content="0;url=http://127.0.0.1:9/"><base href="http://127.0.0.1:9/">'
    f"</title></desc></text></style></svg></pre></figcaption></textarea><script>{RUN}</script>"
    f"]]> --> <!-- <![CDATA[ ?> &lt;script&gt;{RUN}&lt;/script&gt; &#60;img src=x onerror={RUN}&#62; &amp; &nosuch;"
    f"\" onload=\"{RUN}\" ' onload='{RUN}' \u202eturned\u2066 \x00\x01\x1b[2J \ufffe"
    f"[press](javascript:{RUN}) [x\\](javascript:{RUN}) ![](http://127.0.0.1:9/p.png) !![](http://127.0.0.1:9/q.png) "
    f"\\![](http://127.0.0.1:9/r.png) <javascript:{RUN}> <\u202escript>{RUN}</script> [r][r] | ~~~ ``` $x$ "
)
DEFINITION = f"\n\n[r]: javascript:{RUN}\n\n[r\\]: javascript:{RUN}\n\n"
"""A link's target that Markdown takes from elsewhere in the text."""


def hostile(field: str) -> str:
    return f"{ATTACK}«{field}»"


def coach(field: str) -> str:
    """For fields in Markdown, where the coach may link: to another place, by which one tells whose a link is."""
    return (hostile(field) + DEFINITION + hostile(field)).replace("127.0.0.1:9", "coach.example")


TAGS = ("Event", "Site", "Date", "White", "Black", "Annotator", "ECO", "TimeControl")


def hostile_game() -> ks.Game:
    game = ks.game_from_text("1. e4 e5 (1... c5 2. Nf3) 2. Nf3 f6 3. Nxe5 fxe5 4. Qh5+ Ke7 5. Qxe5+ Kf7 1-0")
    for tag in TAGS:
        game.set_tag(tag, hostile(f"tag {tag}"))
    game.root.add_comment(hostile("root"))
    step = game.root.next
    assert step is not None and step.next is not None
    step.add_comment(hostile("comment"))
    aside = step.children[1]
    aside.add_comment(hostile("before"), "before")
    aside.add_comment(hostile("aside"))
    aside.add_comment(hostile("beyond"), "beyond")
    return game


GAME_FIELDS = {f"tag {tag}" for tag in ("Event", "Site", "Date", "White", "Black")} | {
    *("root", "comment", "before", "aside", "beyond")
}


class Shows(Protocol):
    def _repr_html_(self) -> str: ...


def study() -> ks.Study:
    game = hostile_game()
    made = ks.Study(
        hostile("title"), author=hostile("author"), date=hostile("date"), about=coach("about"), bottom="mover"
    )
    made.section(hostile("section")).note(coach("loose note"))
    made.ask(
        ks.Position(), coach("question"), coach("answer"), title=hostile("entry"), note=coach("note"), arrows=[("e2", "e4")]
    )
    made.add(game, diagrams=[2, 5]).add(game.root.next)
    made.add(ks.Panel(ks.Position(), hostile("heading")))
    made.add(ks.Entry(hostile("own entry"), (ks.Panel(ks.Position(), sentences=(hostile("sentence"),)),)))
    for moment in ks.game_report(game).moments:
        made.add(moment)
    return made


STUDY_FIELDS = GAME_FIELDS | {
    *("title", "author", "date", "about", "section", "loose note", "question", "answer", "entry", "note"),
    *("heading", "own entry", "sentence"),
}
SHEET_FIELDS = {"title", "author", "date", "question", "answer"}


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=FOUND, args=arguments)
        yield chromium
        chromium.close()


# What our pages are made of. No script, img, iframe, object, link, base, form, input, ...
ELEMENTS = set(
    "html head meta title style body header main nav section article div p span ol ul li h1 h2 h3 h4 h5 h6 a b strong em "
    "code pre blockquote hr br figure figcaption details summary table tbody caption tr th td "
    "svg desc g path rect circle line polygon polyline text use defs marker pattern clippath".split()
)


def look(browser: Browser, file: Path) -> dict[str, Any]:
    """What there is in the page, after asserting that nothing ran and nothing was asked for."""
    page = browser.new_page(viewport={"width": 800, "height": 600})
    page.set_default_timeout(120_000)  # the machine may have other things to do
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("dialog", lambda dialog: said.append(dialog.message))
    page.on("popup", lambda popup: said.append(popup.url))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(file.as_uri())
    page.wait_for_load_state("load")
    seen: dict[str, Any] = page.evaluate(
        """() => { const all = [...document.querySelectorAll('*')]; return {
            names: [...new Set(all.map(one => one.localName.toLowerCase()))],
            handlers: all.flatMap(one => [...one.attributes].map(a => a.name)).filter(name => name.startsWith('on')),
            links: all.filter(one => one.hasAttribute('href')).map(one => one.getAttribute('href')),
            sources: all.filter(one => one.hasAttribute('src')).map(one => one.getAttribute('src')),
            text: document.documentElement.textContent,
            title: document.title,
            policy: [...document.querySelectorAll('meta[http-equiv]')].map(one => one.httpEquiv),
            wide: document.documentElement.scrollWidth };
        }"""
    )
    page.wait_for_timeout(50)  # for what runs later than it should
    assert page.title() == seen["title"] != "run"
    page.close()
    allowed = {str(file), *(str(file.parent / unquote(source)) for source in seen["sources"])}
    assert {unquote(url) for url in asked} <= {f"file://{path}" for path in allowed} and not said
    assert not seen["handlers"]
    for link in seen["links"]:
        assert re.match(r"#|http://coach\.example/", link), link
    assert not re.search("[\u202a-\u202e\u2066-\u2069\x00\x01\x1b\ufffe]", seen["text"])
    return seen


def told(seen: dict[str, Any]) -> set[str]:
    return set(re.findall("«([a-zA-Z ]+)»", seen["text"]))


@needs_browser
@pytest.mark.parametrize("name", ["page", "sheet"])
def test_pages(browser: Browser, tmp_path: Path, name: str) -> None:
    made = study()
    file = made.save(tmp_path / "page.html") if name == "page" else made.exercises(4).save(tmp_path / "page.html")
    seen = look(browser, file)
    assert set(seen["names"]) <= ELEMENTS
    assert told(seen) == (STUDY_FIELDS if name == "page" else SHEET_FIELDS)
    assert seen["policy"] == ["Content-Security-Policy"]
    assert seen["title"].startswith("<script>") and seen["text"].count("<script>") > 5
    assert seen["wide"] <= 800


def shown_items() -> dict[str, tuple[Shows, set[str]]]:
    game = hostile_game()
    name = game.tags["White"]
    report = ks.game_report(game)
    players = {"tag White", "tag Black"}
    selection = ks.select([game], themes="fork", gain=1, progress=False)
    assert len(selection) > 0 and report.moments
    return {
        "game": (game, GAME_FIELDS | {f"tag {tag}" for tag in TAGS}),
        "report": (report, players),
        "moment": (report.moments[0], set()),
        "profile": (ks.profile([game], name, progress=False), {"tag White"}),
        "selection": (selection, players | {"tag Date"}),
        "selected": (selection[0], players | {"tag Date"}),
    }


@needs_browser
@pytest.mark.parametrize("name", ["game", "report", "moment", "profile", "selection", "selected"])
def test_what_notebooks_show(browser: Browser, tmp_path: Path, name: str) -> None:
    item, fields = shown_items()[name]
    file = tmp_path / "page.html"
    file.write_text(f"<!DOCTYPE html><meta charset=utf-8><title>Notebook</title><body>{item._repr_html_()}", "utf-8")
    seen = look(browser, file)
    assert set(seen["names"]) <= ELEMENTS
    assert told(seen) == fields and seen["title"] == "Notebook"
    assert all(link.startswith("#") for link in seen["links"])


@needs_browser
@pytest.mark.parametrize("name", ["study", "sheet", "entry"])
def test_frames_in_notebooks(browser: Browser, tmp_path: Path, name: str) -> None:
    made = study()
    item: Shows = {"study": made, "sheet": made.exercises(4), "entry": made.entries[0]}[name]  # type: ignore[assignment]
    file = tmp_path / "page.html"
    file.write_text(f"<!DOCTYPE html><meta charset=utf-8><title>Notebook</title><body>{item._repr_html_()}", "utf-8")
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri())
    frame = page.locator("iframe")
    assert frame.count() == 1 and frame.get_attribute("sandbox") == ""
    names = page.frames[1].evaluate("[...document.querySelectorAll('*')].map(one => one.localName.toLowerCase())")
    assert len(names) > 50 and set(names) <= ELEMENTS
    assert page.title() == "Notebook" and [url for url in asked if not url.startswith("about:")] == [file.as_uri()]
    page.close()


@needs_browser
def test_pictures_alone(browser: Browser, tmp_path: Path) -> None:
    for at, title in enumerate((hostile("title"), "\ud800 half", "W" * 100_000, "")):
        picture = ks.diagram(ks.Position(), title=title, arrows=[("e2", "e4")])
        root = ElementTree.fromstring(picture)  # well-formed XML
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        file = tmp_path / f"picture-{at}.svg"
        file.write_text(picture, "utf-8")
        seen = look(browser, file)
        assert set(seen["names"]) <= ELEMENTS and all(link.startswith("#") for link in seen["links"])
        assert told(seen) == ({"title"} if at == 0 else set())


RENDERERS = {
    "CommonMark": MarkdownIt("commonmark", {"html": True}),
    "with more": MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]),
}


@needs_browser
@pytest.mark.parametrize("renderer", RENDERERS)
@pytest.mark.parametrize("name", ["lesson.md", "a](javascript:x) <img src=x onerror=y> & \"q' #.md"])
def test_markdown(browser: Browser, tmp_path: Path, renderer: str, name: str) -> None:
    made = study()
    text = made.save(tmp_path / name).read_text("utf-8")
    file = tmp_path / "page.html"
    html = RENDERERS[renderer].render(text)
    file.write_text(f"<!DOCTYPE html><meta charset=utf-8><title>Lesson</title><body>{html}", "utf-8")
    seen = look(browser, file)
    assert set(seen["names"]) <= ELEMENTS | {"img", "s", "thead"}
    assert told(seen) == STUDY_FIELDS and seen["title"] == "Lesson"
    pictures = list(tmp_path.glob("*-diagrams/*.svg"))
    assert len(pictures) == len(seen["sources"]) > 5
    assert "![](http" not in text


def test_markdown_of_a_coach_who_links() -> None:
    text = ks.Study("Links", about="[club](https://example.org/) <mailto:a@example.org> \\[no\\](x)").markdown()
    html = RENDERERS["CommonMark"].render(text)
    assert re.findall('href="([^"]*)"', html) == ["https://example.org/", "mailto:a@example.org"]


def test_what_is_no_text_is_a_sign_for_it() -> None:
    """NUL, a control character and half of a character; PGN, which is UTF-8, has no place for the last."""
    broken, shown = "a\x00b\x01c\ud800d", "a\ufffdb\ufffdc\ufffdd"
    made = ks.Study(broken, about=broken).ask(ks.Position(), broken, broken, title=broken)
    for text in (made.html(), made.exercises().html(), made.markdown(), ks.diagram(ks.Position(), title=broken)):
        assert shown in text
        assert not re.search("[\x00\x01\ud800]", text)
    with pytest.raises(UnicodeEncodeError):
        made.pgn()


def test_games_are_written_so_that_they_are_read_as_they_were() -> None:
    """No text opens a comment, a tag or a game of its own. A comment can't hold "}" (1994 PGN standard, 8.2.5)."""
    breaks = ' } 1. d4 {x} ; y \n% z\n\n[Event "two"]\n\n1. a3 * "]\n[White "b\\"] $5 ( 1. c4 ) '
    game = hostile_game()
    for tag in TAGS:
        game.set_tag(tag, hostile(tag) + breaks)
    for step in (game.root, game.root.next):
        assert step is not None
        step.add_comment(breaks)
    text = game.pgn()
    reader = ks.read_games(io.BytesIO(text.encode()))
    read = list(reader)
    assert len(read) == 1 and not reader.refused
    assert [str(move) for move in read[0].main_line] == [str(move) for move in game.main_line]
    assert read[0].tags.keys() - game.tags.keys() == {"Round", "Result"}  # which export format always has
    assert read[0].pgn() == text
    other = chess.pgn.read_game(stream := io.StringIO(text))
    assert other is not None and not other.errors
    assert [move.uci() for move in other.mainline_moves()] == [str(move) for move in game.main_line]
    assert chess.pgn.read_game(stream) is None

    made = study().note(breaks).ask(ks.Position(), breaks, breaks, title=breaks)
    made.title = made.author = breaks
    reader = ks.read_games(io.BytesIO(made.pgn().encode("utf-8", "replace")))
    assert len(list(reader)) == len(made) and not reader.refused


def test_plots_show_names_as_they_are() -> None:
    pytest.importorskip("matplotlib").use("agg")
    from matplotlib import pyplot

    for name in (r"Ines $\frac{$ Pellerow", r"$\includegraphics{x}$", "$x^2$", "a_b^c \\alpha"):
        game = ks.game_from_text("1. e4 e5 2. Nf3 f6 3. Nxe5 fxe5 4. Qh5+ Ke7 5. Qxe5+ Kf7 1-0")
        game.set_tag("White", name)
        axes = ks.profile([game], name, progress=False).plot()
        assert axes.get_title(loc="left").startswith(name)
        pyplot.savefig(io.BytesIO(), format="svg")
        ks.game_report(game).plot().savefig(io.BytesIO(), format="svg")
        pyplot.close("all")
