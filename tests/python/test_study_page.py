"""Pages of studies in a browser: layout at three widths, keys, colours, names for screen readers, and on paper.

Looks at them in the system's Chromium by the PyPI package playwright; skipped where there is no Chromium.
"""

import io
import os
import re
import runpy
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright
from pypdf import PdfReader

import keysquare as ks

ROOT = Path(__file__).parents[2]
NAMES = ("chromium", "chromium-browser", "google-chrome")
FOUND = next(filter(None, map(shutil.which, NAMES)), None)
pytestmark = pytest.mark.skipif(FOUND is None, reason=f"needs a browser: none of {', '.join(NAMES)} is installed")

WIDTHS = (360, 768, 1280)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    # Root may not use the sandbox.
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=FOUND, args=arguments)
        yield chromium
        chromium.close()


@pytest.fixture(scope="module")
def study() -> ks.Study:
    """The lesson of the example program, with more of what may not fit."""
    example = runpy.run_path(str(ROOT / "examples/position_study.py"))
    games = list(ks.read_games(ROOT / "examples/data/club.pgn"))
    made: ks.Study = example["lesson"](games)
    made.add(games[0]).add(games[3], moves=(20, 40), diagrams=[20, 30, 39, 40])
    made.note("[A link](https://example.org/) and `" + "x" * 200 + "`\n\n> Quoted.")
    return made.add(games[1].start, question="W" * 80, answer="Yes.\n\n    a" + " wide" * 60, title="T" * 90)


@pytest.fixture(scope="module")
def pages(study: ks.Study, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    folder = tmp_path_factory.mktemp("pages")
    files = {"lesson": study.save(folder / "lesson.html"), "sheet": study.exercises(4).save(folder / "sheet.html")}
    return {name: file.as_uri() for name, file in files.items()}


def opened(browser: Browser, address: str, width: int = 1280) -> tuple[Page, list[str]]:
    """A page, and the list that its complaints go to."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda request: complaints.append(request.url) if request.url != address else None)
    page.goto(address)
    return page, complaints


@pytest.mark.parametrize("name", ["lesson", "sheet"])
@pytest.mark.parametrize("width", WIDTHS)
def test_layout(browser: Browser, pages: dict[str, str], name: str, width: int) -> None:
    page, complaints = opened(browser, pages[name], width)
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('svg')].filter(one => one.checkVisibility())
            .map(one => one.getBoundingClientRect()).map(box => [box.left, box.right, box.width, box.height])"""
    )
    assert len(boxes) > 8
    for left, right, wide, high in boxes:
        assert 0 <= left and right <= width
        assert wide >= 180 and high >= 180
    sizes = page.evaluate(
        """() => [...document.querySelectorAll('body *')]
            .filter(one => !one.closest('svg'))
            .filter(one => [...one.childNodes].some(node => node.nodeType == 3 && node.data.trim()))
            .map(one => [one.tagName, parseFloat(getComputedStyle(one).fontSize)])"""
    )
    assert not [(tag, size) for tag, size in sizes if size < 16]
    # 44 px: Web Content Accessibility Guidelines 2.2, 2.5.5; links within a sentence are excepted there.
    targets = page.evaluate(
        """() => [...document.querySelectorAll('summary, nav a')].map(one => one.getBoundingClientRect().height)"""
    )
    assert all(height >= 44 for height in targets)
    assert not complaints
    page.close()


def test_text_and_diagrams_do_not_overlap(browser: Browser, pages: dict[str, str]) -> None:
    for width in WIDTHS:
        page, _ = opened(browser, pages["lesson"], width)
        overlaps = page.evaluate(
            """() => [...document.querySelectorAll('.panel')].filter(panel => {
                const [one, other] = [...panel.children].map(child => child.getBoundingClientRect());
                return other.height > 0 && other.width > 0 && one.right > other.left + 1 && one.bottom > other.top + 1;
            }).length"""
        )
        assert overlaps == 0
        page.close()


def test_every_answer_is_reached_and_opened_by_keys(browser: Browser, pages: dict[str, str]) -> None:
    page, _ = opened(browser, pages["lesson"])
    answers = page.locator("summary").count()
    assert answers >= 6
    reached = []
    first = None
    for _ in range(200):
        page.keyboard.press("Tab")
        tag, text, outline = page.evaluate(
            """() => { const one = document.activeElement, style = getComputedStyle(one);
                return [one.tagName, one.textContent, style.outlineStyle + ' ' + parseFloat(style.outlineWidth)]; }"""
        )
        if tag == "BODY":
            break
        first = first or text
        if tag in ("SUMMARY", "A"):
            style, size = outline.split()
            assert style == "solid" and float(size) >= 2
        if tag == "SUMMARY":
            reached.append(text)
            page.keyboard.press("Enter")
            assert page.evaluate("document.activeElement.parentElement.open")
            page.keyboard.press("Enter")
            assert not page.evaluate("document.activeElement.parentElement.open")
    assert first == "Skip the contents"
    assert len(reached) == len(set(reached)) == answers
    page.close()


def test_the_skip_link_leads_to_the_lesson(browser: Browser, pages: dict[str, str]) -> None:
    page, _ = opened(browser, pages["lesson"])
    page.keyboard.press("Tab")
    box = page.evaluate(
        "(() => { const box = document.activeElement.getBoundingClientRect(); return [box.left, box.top]; })()"
    )
    assert box[0] >= 0 and box[1] >= 0
    page.keyboard.press("Enter")
    assert page.url.endswith("#lesson")
    page.close()


def luminance(colour: str) -> float:
    """Relative luminance (Web Content Accessibility Guidelines 2.2, definitions)."""
    parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("name", ["lesson", "sheet"])
def test_contrast(browser: Browser, pages: dict[str, str], name: str) -> None:
    page, _ = opened(browser, pages[name])
    pairs = page.evaluate(
        """() => [...document.querySelectorAll('body, body *')].filter(one => !one.closest('svg')).map(one => {
            let behind = one, paper = 'rgba(0, 0, 0, 0)';
            for (; behind && paper == 'rgba(0, 0, 0, 0)'; behind = behind.parentElement)
                paper = getComputedStyle(behind).backgroundColor;
            return [getComputedStyle(one).color, paper];
        })"""
    )
    assert len(pairs) > 100
    for ink, paper in {tuple(pair) for pair in pairs}:
        high, low = sorted((luminance(ink), luminance(paper)), reverse=True)
        assert (high + 0.05) / (low + 0.05) >= 7  # success criterion 1.4.6
    page.close()


def test_screen_readers_get_every_diagram_in_words_once(
    browser: Browser, pages: dict[str, str], study: ks.Study
) -> None:
    page, _ = opened(browser, pages["lesson"])
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    devtools = page.context.new_cdp_session(page)
    devtools.send("Accessibility.enable")
    nodes = devtools.send("Accessibility.getFullAXTree")["nodes"]
    told = [node for node in nodes if not node.get("ignored")]
    names = [node["name"]["value"] for node in told if node["role"]["value"] in ("image", "img", "graphics-document")]
    assert len(names) == page.evaluate(
        "[...document.querySelectorAll('svg')].filter(one => one.checkVisibility()).length"
    )
    for name in names:
        assert re.match(r"(Diagram|Answer to) \d+", name) and "White: king" in name and "Black: king" in name
    roles = {node["role"]["value"] for node in told}
    assert {"main", "navigation", "banner", "heading", "list"} <= roles
    # The caption says what the picture's words say, so it is not read out again.
    captions = [
        node for node in told if node["role"]["value"] == "StaticText" and node["name"]["value"] == "White to move"
    ]
    assert not captions
    assert page.evaluate("document.documentElement.lang") == "en" and page.title() == study.title
    page.close()


def printed(browser: Browser, address: str, paper: str) -> list[str]:
    """The text of every page that comes out of the printer."""
    page, _ = opened(browser, address)
    data = page.pdf(format=paper, prefer_css_page_size=True)
    page.close()
    return [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]


@pytest.fixture(scope="module")
def lesson_on_paper(browser: Browser, pages: dict[str, str]) -> list[str]:
    return printed(browser, pages["lesson"], "A4")


def test_on_paper_answers_come_after_all_questions(lesson_on_paper: list[str], study: ks.Study) -> None:
    texts = [" ".join(text.split()) for text in lesson_on_paper]
    answers = next(at for at, text in enumerate(texts) if re.search(r"\bAnswers\b", text))
    questions = [at for at, text in enumerate(texts) if "is at the end." in text]
    assert questions and max(questions) < answers
    asked = [number for number, entry in enumerate(study.entries, start=1) if entry.has_answer]
    assert sum(text.count("is at the end.") for text in texts) == len(asked)
    finding = next(part for part in study.entries[1].solved if isinstance(part, ks.Panel)).findings[0]
    assert [at >= answers for at, text in enumerate(texts) if str(finding) in text] == [True]
    assert not any("Answer to" in text for text in texts)  # what is folded away on a screen
    # The answers lead back to the questions by number.
    for number in asked:
        assert any(f"{number}. {study.entries[number - 1].title}"[:30] in text for text in texts[answers:])


def whole_diagrams(texts: list[str]) -> int:
    """Every diagram has all its letters and all its digits on the same page, or it is cut ("a" is a word, too)."""
    whole = 0
    for text in texts:
        words = text.split()
        ranks, files = [words.count(digit) for digit in "12345678"], [words.count(letter) for letter in "bcdefgh"]
        assert len(set(files)) == 1 and min(ranks) >= files[0]
        whole += files[0]
    return whole


def test_no_diagram_is_cut_by_the_end_of_a_page(lesson_on_paper: list[str], study: ks.Study) -> None:
    parts = [part for entry in study.entries for part in (*entry.shown, *entry.solved)]
    diagrams = [1 if isinstance(part, ks.Panel) else len(part.diagrams) for part in parts]
    assert whole_diagrams(lesson_on_paper) == sum(diagrams)


@pytest.mark.parametrize("per_page, counts", [(4, [4, 4, 4, 1]), (6, [6, 6, 1]), (12, [12, 1])])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_sheet_has_its_diagrams_on_a_page_and_the_answers_behind(
    browser: Browser, tmp_path: Path, paper: str, per_page: int, counts: list[int]
) -> None:
    many = ks.Study("Many")
    for at in range(13):
        many.ask("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", f"Task {at} of this sheet.", answer=f"Found {at}.")
    address = many.exercises(per_page).save(tmp_path / f"sheet-{per_page}.html").as_uri()
    texts = printed(browser, address, paper)
    assert [text.count("Task") for text in texts[: len(counts)]] == counts
    assert [text.count("Found") > 0 for text in texts] == [at >= len(counts) for at in range(len(texts))]
    assert sum(text.count("Found") for text in texts) == 13
    assert whole_diagrams(texts) == 13


def test_nothing_runs_in_a_hostile_page(browser: Browser, tmp_path: Path) -> None:
    hostile = "<script>document.title='run'</script><img src=http://127.0.0.1/x onerror=\"document.title='run'\">"
    made = ks.Study("Calm", about=hostile, author=hostile).note(hostile)
    made.ask(ks.Position(), hostile, hostile, title=hostile)
    page, complaints = opened(browser, made.save(tmp_path / "calm.html").as_uri())
    assert page.title() == "Calm" and not complaints
    assert page.evaluate("document.querySelectorAll('script, img').length") == 0
    # Even a script that got in could not run.
    page.evaluate(
        """() => { const one = document.createElement('script');
            one.text = 'document.title = "run"'; document.body.append(one); }"""
    )
    assert page.title() == "Calm" and complaints
    page.close()
