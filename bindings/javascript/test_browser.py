"""The package in headless Chromium: in a page and in a worker, and the example page. Needs pytest and playwright.

KEYSQUARE_PACKAGE names the built package; KEYSQUARE_RESULTS a folder with the files positions.txt and games.pgn and what
test_results.c printed of them. Skipped where there is no Chromium. Both pages forbid what the package does not need.
"""

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

HERE = Path(__file__).parent
PACKAGE = Path(os.environ.get("KEYSQUARE_PACKAGE", HERE.parents[1] / "build/wasm/keysquare"))
RESULTS = os.environ.get("KEYSQUARE_RESULTS")
NAMES = ("chromium", "chromium-browser", "google-chrome")
FOUND = next(filter(None, map(shutil.which, NAMES)), None)
pytestmark = pytest.mark.skipif(FOUND is None, reason=f"needs a browser: none of {', '.join(NAMES)} is installed")

LOCKED = "4r1k1/1b1q1ppp/p4b2/1p1p4/2rN1P1P/P2R2Q1/1PP1N3/1K4R1 w - - 1 24"

Ask = Callable[[str, Any], Any]


class Served(SimpleHTTPRequestHandler):
    """Files with the types that browsers want; below /untyped/, as a server sends them that does not know any."""

    extensions_map = {".html": "text/html", ".mjs": "text/javascript", ".wasm": "application/wasm"}

    def guess_type(self, path: str | os.PathLike[str]) -> str:
        untyped = "/untyped/" in self.path and str(path).endswith(".wasm")
        return "application/octet-stream" if untyped else super().guess_type(path)

    def log_message(self, format: str, *arguments: object) -> None:
        """Says nothing."""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the package and the files of the tests are served."""
    folder = tmp_path_factory.mktemp("served")
    for place in (folder, folder / "untyped"):
        place.mkdir(exist_ok=True)
        for file in [*PACKAGE.iterdir(), *HERE.glob("test_*.mjs"), *HERE.glob("test_*.html")]:
            shutil.copy(file, place)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Served, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    # Root may not use the sandbox.
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=FOUND, args=arguments)
        yield chromium
        chromium.close()


def opened(browser: Browser, address: str, width: int = 1280) -> tuple[Page, list[str]]:
    """A page, and the list that its complaints go to: messages, errors, and requests that leave the server."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.set_default_timeout(120_000)
    complaints: list[str] = []
    server = "/".join(address.split("/")[:3])
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda asked: None if asked.url.startswith((server, "data:,")) else complaints.append(asked.url))
    page.goto(address)
    return page, complaints


@pytest.fixture(scope="module", params=["page", "worker", "worker with the page's module", "page, untyped"])
def ask(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[Ask]:
    """Asks in the page, in a worker, and where the server does not know the type of the module."""
    untyped = "untyped/" if "untyped" in request.param else ""
    page, complaints = opened(browser, f"{address}{untyped}test_page.html")
    page.wait_for_function("window.ready")
    calls = {
        "worker": "question => inWorker(question)",
        "worker with the page's module": "async question => inWorker(question, await compiled())",
    }
    call = calls.get(request.param, "question => here(question)")
    yield lambda what, of: page.evaluate(call, {"what": what, "of": of})
    assert not complaints
    page.close()


def test_known_counts(ask: Ask) -> None:
    # The most legal moves that a legal position is known to have, and perft (widely published; from memory).
    assert ask("moves", "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1") == 218
    assert ask("perft", 3) == 8902


def test_errors(ask: Ask) -> None:
    error = ask("error", "rnbqkbnr/ppppxppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1")
    message = error.pop("message")
    assert error == {
        "isInputError": True,
        "name": "InputError",
        "reason": "bad_piece_letter",
        "field": "placement",
        "line": 1,
        "column": 14,
    }
    assert "column 14" in message
    assert ask("error", "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1") is None


def test_umlauts_and_nulls_in_pgn(ask: Ask) -> None:
    pgn = '[White "Müller, Jürgen"]\n\n1. e4 {a\0b} *\n\n[White "Broken"]\n\n1. e\0004 *\n\n[White "王"]\n\n1. d4 *\n'
    said = ask("whites", pgn)
    assert said["read"] == ["Müller, Jürgen", "王"]
    assert said["refused"] == ["not_a_move"]


@pytest.mark.skipif(RESULTS is None, reason="needs the results of the machine's own build: KEYSQUARE_RESULTS")
def test_the_same_results_as_the_machines_own_build(ask: Ask) -> None:
    folder = Path(RESULTS or "")
    positions, pgn, expected = ((folder / name).read_text() for name in ("positions.txt", "games.pgn", "results.txt"))
    said = ask("results", {"positions": positions, "pgn": pgn})
    for line, wanted in zip(said.split("\n"), expected.split("\n"), strict=True):
        assert line == wanted


def test_a_diagram_is_drawn(browser: Browser, address: str) -> None:
    page, complaints = opened(browser, f"{address}test_page.html")
    page.wait_for_function("window.ready")
    page.evaluate(
        """async fen => { document.body.innerHTML = await here({ what: "diagram", of: fen }); }""",
        LOCKED,
    )
    box = page.locator("svg").bounding_box()
    assert box and box["width"] > 300 and box["height"] > 300
    # What is on the screen: both colours cover a good part of the board.
    shot = page.locator("svg").screenshot()
    dark, light = page.evaluate(
        """async bytes => {
            const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
            const canvas = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
            canvas.drawImage(picture, 0, 0);
            const { data } = canvas.getImageData(0, 0, picture.width, picture.height);
            let dark = 0, light = 0;
            for (let at = 0; at < data.length; at += 4) data[at] < 64 ? ++dark : data[at] > 192 ? ++light : 0;
            return [dark / data.length * 4, light / data.length * 4];
        }""",
        list(shot),
    )
    assert 0.03 < dark < 0.5 and light > 0.3
    assert not complaints
    page.close()


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_example_page(browser: Browser, address: str, width: int) -> None:
    page, complaints = opened(browser, f"{address}example.html", width)
    first = page.locator("[data-finding='0']")
    first.wait_for()
    assert first.inner_text().startswith("The knights on e2 and d4 are locked")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    # 44 px: Web Content Accessibility Guidelines 2.2, 2.5.5.
    heights = page.evaluate("[...document.querySelectorAll('button, input')].map(one => one.offsetHeight)")
    assert all(height >= 44 for height in heights if height)

    # A statement is drawn when it is pressed, and goes when it is pressed again.
    plain = page.locator("#board").inner_html()
    first.press("Enter")
    assert first.get_attribute("aria-pressed") == "true"
    assert page.locator("#board").inner_html() != plain
    first.press("Enter")
    assert page.locator("#board").inner_html() == plain

    # A move is played, and taken back.
    fen = page.input_value("#fen")
    page.locator("section", has_text="Moves of White").locator("li button").first.click()
    assert " b " in page.input_value("#fen")
    page.get_by_text("Take back").click()
    assert page.input_value("#fen") == fen and page.get_by_text("Take back").is_disabled()
    page.get_by_text("Turn the board").click()
    assert page.locator("#board").inner_html() != plain

    # What can't be read is said, and the board stays.
    page.fill("#fen", "4k3/8/8/8/8/8/8/4X3 w - - 0 1")
    page.get_by_text("Look", exact=True).click()
    assert "column" in page.locator("[role=alert]").inner_text()
    assert page.locator("#board svg").count() == 1
    page.fill("#fen", "R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1")
    page.keyboard.press("Enter")
    assert page.locator("#caption").inner_text() == "Checkmate: White has won."
    assert page.locator("[role=alert]").inner_text() == ""
    assert not complaints
    page.close()


def test_example_page_reads_its_address(browser: Browser, address: str) -> None:
    page, complaints = opened(browser, f"{address}example.html#fen=8/8/8/8/8/4k3/4p3/4K3+w+-+-+0+1")
    page.get_by_text("Stalemate: a draw.").wait_for()
    page.evaluate("location.hash = 'fen=nonsense'")
    page.wait_for_function("document.querySelector('[role=alert]').textContent !== ''")
    page.evaluate("location.hash = '%%%'")
    assert page.locator("#caption").inner_text() == "Stalemate: a draw."
    assert not complaints
    page.close()
