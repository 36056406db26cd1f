"""A study as one HTML file: no script, nothing from a network, readable on paper, on a phone and by a screen reader.

On a screen answers are folded away under their questions; on paper they stand on pages of their own at the end.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from keysquare._diagrams import SvgText
from keysquare._displays import html_text
from keysquare._study_entry import Entry, Lesson, Note, Panel, Section, Told, mover_text
from keysquare._study_markup import html_of
from keysquare._study_moves import Fragment, Token
from keysquare._words import words_in

STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 1.125rem/1.55 Georgia, "DejaVu Serif", serif; color: #000; background: #fff; max-width: 58rem;
  margin: 0 auto; padding: 1rem 1.25rem 4rem; overflow-wrap: anywhere; }
h1, h2, h3, h4 { line-height: 1.25; margin: 0 0 .5rem; break-after: avoid; text-wrap: balance; }
h1 { font-size: 2rem; font-weight: normal; }
h2 { font-size: 1.4rem; }
h3 { font-size: 1.2rem; }
h4, h5, h6 { font-size: 1.125rem; font-style: italic; font-weight: normal; }
p { margin: 0 0 .6rem; text-wrap: pretty; }
a { color: #000; text-underline-offset: .2em; }
header { border-bottom: 4px double #000; margin-bottom: 1.5rem; padding-bottom: .5rem; }
.byline { font-style: italic; }
blockquote { margin: 0 0 .6rem; padding-left: 1rem; border-left: 2px solid #000; }
pre { white-space: pre-wrap; }
code { font-size: 1em; }
.panel { display: grid; grid-template-columns: minmax(0, 22rem) minmax(0, 1fr); gap: 0 1.75rem; margin: 0 0 1rem; }
.wrapped { display: flow-root; margin: 0 0 1rem; }
.wrapped figure { float: left; width: 22rem; margin-right: 1.75rem; }
figure { margin: 0 0 .6rem; max-width: 22rem; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
figcaption { text-align: center; font-style: italic; }
ol.told { list-style: none; margin: 0 0 .6rem; padding: 0 0 0 .8rem; border-left: 1px solid #000; }
ol.told > li { margin: 0 0 .6rem; break-inside: avoid; }
ol.told > li:last-child { margin-bottom: 0; }
ol.several > li { padding-left: 2.1rem; position: relative; }
.disc { position: absolute; left: 0; top: .1em; width: 1.5rem; height: 1.5rem; border: 2px solid #000; border-radius: 50%;
  background: #000; color: #fff; font: bold 1rem/1.25rem sans-serif; text-align: center; print-color-adjust: exact; }
.disc.light { background: #fff; color: #000; }
.line { display: block; font-weight: bold; }
.moves .game { font-weight: bold; }
.result { font-weight: bold; white-space: nowrap; }
@media (max-width: 46rem) {
  body { padding: .75rem 1rem 3rem; }
  .panel { grid-template-columns: minmax(0, 1fr); }
  .wrapped figure { float: none; width: auto; margin-right: 0; }
}
@media print {
  body { font-size: 11pt; line-height: 1.4; max-width: none; padding: 0; }
  h1 { font-size: 20pt; }
  h2 { font-size: 15pt; }
  h3 { font-size: 12.5pt; }
  h4, h5, h6 { font-size: 11pt; }
  .panel { grid-template-columns: 6.4cm minmax(0, 1fr); gap: 0 6mm; margin-bottom: 2mm; }
  .wrapped figure { float: left; width: 6.4cm; margin-right: 6mm; }
  article { break-inside: avoid; }
  p, li { orphans: 3; widows: 3; }
}
"""
"""What lessons and sheets of exercises share."""

_LESSON_STYLE = """
a:focus-visible, summary:focus-visible { outline: 3px solid #000; outline-offset: 3px; }
.skip { position: absolute; left: -100rem; padding: .6rem 1rem; background: #fff; border: 2px solid #000; }
.skip:focus { left: 1rem; top: 1rem; }
.legend { font-style: italic; font-size: 1rem; }
nav ul { list-style: none; margin: 0 0 1.5rem; padding: 0; }
nav li { padding-left: 1.5rem; }
nav li.section { padding-left: 0; font-weight: bold; }
nav a { display: inline-block; padding: .55rem 0; min-height: 2.75rem; }
main > h2, section > h2 { border-bottom: 1px solid #000; margin: 2.5rem 0 1rem; padding-bottom: .3rem; }
article { margin: 2.25rem 0; }
article:target > :first-child { text-decoration: underline; text-decoration-thickness: 3px; }
.question { border-left: 4px solid #000; padding-left: 1rem; font-weight: bold; break-inside: avoid; }
details { border: 1px solid #000; margin: 0 0 1rem; }
summary { cursor: pointer; font-weight: bold; padding: .6rem 1rem; min-height: 2.75rem; }
details[open] > summary { border-bottom: 1px solid #000; }
.solution { padding: 1rem; }
.paper { display: none; }
@media (max-width: 46rem) { .solution { padding: .75rem; } }
@media (min-width: 46rem) { nav ul { columns: 2; } }
@media print {
  @page { margin: 16mm 15mm 18mm; @bottom-center { content: counter(page); font: 10pt Georgia, "DejaVu Serif", serif; } }
  nav, details, .skip { display: none; }
  .paper { display: block; }
  .legend { font-size: 9.5pt; }
  article { margin: 5mm 0; }
  article.long { break-inside: auto; }
  .note:has(+ article) { break-after: avoid; }
  .answers { break-before: page; }
  .answers h2 { margin-top: 0; }
}
"""

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"


def document(title: str, style: str, body: str, language: str) -> str:
    """A page that may load nothing and run nothing."""
    return f"""<!DOCTYPE html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="{_POLICY}">
<title>{html_text(title)}</title>
<style>{style}</style>
</head>
<body>
{body}
</body>
</html>
"""


class _Chunk(NamedTuple):
    """Some of the text of a game, and the diagram beside it."""

    diagram: Token | None
    tokens: list[Token]


def _chunks(fragment: Fragment) -> list[_Chunk]:
    """A diagram stands beside the moves that led to it, or, where these have one, beside those that follow."""
    chunks: list[_Chunk] = []
    is_open = False
    for token in fragment.tokens():
        if token.kind != "diagram":
            if not is_open:
                chunks.append(_Chunk(None, []))
                is_open = True
            chunks[-1].tokens.append(token)
        elif is_open and chunks[-1].diagram is None:
            chunks[-1] = _Chunk(token, chunks[-1].tokens)
            is_open = False
        else:
            chunks.append(_Chunk(token, []))
            is_open = True
    return chunks


def _moves(tokens: Iterable[Token]) -> str:
    """The text of a game; spaces stand between its pieces, but not inside brackets."""
    html = ""
    for token in tokens:
        text = html_text(token.text)
        if token.kind == "move":
            text = f'<span class="game">{text}</span>'
        elif token.kind == "result":
            text = f'<span class="result">{text}</span>'
        html += text if token.kind == "close" or not html or html.endswith("(") else f" {text}"
    return f'<p class="moves">{html}</p>' if html else ""


def told_html(told: list[Told], light: bool) -> str:
    """Sentences, with the numbers that they have in the diagram."""
    if not told:
        return ""
    items = []
    for text, number, line in told:
        disc = f'<span class="disc{" light" if light else ""}">{number}</span> ' if number else ""
        proof = f'<span class="line">{html_text(line)}</span>' if line else ""
        items.append(f"<li>{disc}{html_text(text)}{proof}</li>")
    several = any(one.number for one in told)
    return f'<ol class="told{" several" if several else ""}" role="list">{"".join(items)}</ol>'


class PageWriter:
    """Writes the pieces of a page. It numbers the diagrams, as equal ones need different ids."""

    def __init__(self, language: str) -> None:
        self.serial = 0
        self.words = words_in(language)

    def figure(self, picture: SvgText, caption: str) -> str:
        """A diagram. Its caption is for the eyes alone: the picture says the same in words."""
        return f'<figure>{picture}<figcaption aria-hidden="true">{html_text(caption)}</figcaption></figure>'

    def panel(self, panel: Panel, name: str, heading: int, before: str = "", after: str = "") -> str:
        """A diagram with its sentences beside it, between other texts."""
        self.serial += 1
        picture = panel.picture(f"{name}: {panel.heading}" if panel.heading else name, self.serial)
        said = [f"<h{heading}>{html_text(panel.heading)}</h{heading}>"] if panel.heading else []
        said += [before, told_html(panel.told(), panel.numbered)]
        if line := panel.line_text():
            said.append(f'<p class="line">{html_text(line)}</p>')
        said.append(after)
        figure = self.figure(picture, mover_text(panel.position, panel.language))
        return f'<div class="panel">{figure}<div>{"".join(said)}</div></div>'

    def fragment(self, fragment: Fragment, name: str, heading: int, before: str = "", after: str = "") -> str:
        """Moves with their diagrams."""
        pieces = []
        if fragment.heading:
            pieces.append(f"<h{heading}>{html_text(fragment.heading)}</h{heading}>")
        for diagram, tokens in _chunks(fragment):
            text = before + _moves(tokens)
            before = ""
            if diagram is None or diagram.position is None:
                pieces.append(text)
                continue
            self.serial += 1
            title = f"{name}: {diagram.text}" if diagram.text else name
            caption = ", ".join(filter(None, (diagram.text, mover_text(diagram.position, fragment.language))))
            figure = self.figure(fragment.picture(diagram, title, self.serial), caption)
            pieces.append(f'<div class="wrapped">{figure}{text}</div>')
        return "".join(pieces) + after

    def parts(
        self, parts: tuple[Panel | Fragment, ...], name: str, heading: int, before: str = "", after: str = ""
    ) -> str:
        """Panels and moves in turn; the texts stand with the first one."""
        pieces = []
        for at, part in enumerate(parts):
            texts = (before, after) if at == 0 else ("", "")
            write = self.panel if isinstance(part, Panel) else self.fragment
            pieces.append(write(part, name, heading, *texts))  # type: ignore[arg-type]
        return "".join(pieces)

    def answer(self, number: int, entry: Entry, heading: int) -> str:
        """What is folded away, or stands at the end."""
        text = html_of(entry.answer, heading) if entry.answer else ""
        if not entry.solved:
            return text
        return self.parts(entry.solved, self.words.answer_to.format(number=number), heading, text)

    def entry(self, number: int, entry: Entry, level: int) -> str:
        """An entry under a heading of that level."""
        before = html_of(entry.text, level) if entry.text else ""
        after, fold = "", ""
        if entry.question:
            after = f'<div class="question">{html_of(entry.question, level)}</div>'
        if entry.has_answer:
            at_the_end = self.words.answer_to_is_at_the_end.format(number=number)
            fold = (
                f'<details><summary>{self.words.answer_to.format(number=number)}</summary><div class="solution">'
                f"{self.answer(number, entry, level + 1)}</div></details>"
                f'<p class="paper"><a href="#answer-{number}">{at_the_end}</a></p>'
            )
        name = self.words.diagram.format(number=number)
        is_long = len(entry.shown) > 1 or isinstance(entry.shown[0], Fragment)
        return (
            f'<article id="entry-{number}"{" class=long" if is_long else ""} aria-labelledby="title-{number}">'
            f'<h{level} id="title-{number}">{number}. {html_text(entry.title)}</h{level}>'
            f"{self.parts(entry.shown, name, level + 1, before, after)}{fold}</article>"
        )

    def answers(self, lesson: Lesson) -> str:
        """The pages with the answers, for paper alone."""
        articles = [
            f'<article id="answer-{number}"><h3><a href="#entry-{number}">{number}. {html_text(entry.title)}</a></h3>'
            f"{self.answer(number, entry, 4)}</article>"
            for number, entry in lesson.entries
            if entry.has_answer
        ]
        if not articles:
            return ""
        return f'<section class="answers paper"><h2>{self.words.answers}</h2>{"".join(articles)}</section>'


def _contents(lesson: Lesson) -> str:
    """A list of what there is, where there is enough of it."""
    items, number = [], 0
    for at, block in enumerate(lesson.blocks):
        if isinstance(block, Section):
            items.append(f'<li class="section"><a href="#section-{at}">{html_text(block.heading)}</a></li>')
        elif isinstance(block, Entry):
            number += 1
            items.append(f'<li><a href="#entry-{number}">{number}. {html_text(block.title)}</a></li>')
    if len(items) < 3:
        return ""
    return f'<nav aria-label="{words_in(lesson.language).contents}"><ul role="list">{"".join(items)}</ul></nav>'


def _is_drawn_on(lesson: Lesson) -> bool:
    parts = [part for _, entry in lesson.entries for part in (*entry.shown, *entry.solved)]
    return any(isinstance(part, Panel) and (part.findings or part.arrows or part.marks or part.line) for part in parts)


def page(lesson: Lesson) -> str:
    """The whole page."""
    writer = PageWriter(lesson.language)
    words = writer.words
    level, number = 2, 0
    pieces = []
    for at, block in enumerate(lesson.blocks):
        if isinstance(block, Section):
            level = 3
            pieces.append(f'<h2 id="section-{at}">{html_text(block.heading)}</h2>')
        elif isinstance(block, Note):
            pieces.append(f'<div class="note">{html_of(block.text, level - 1)}</div>')
        else:
            number += 1
            pieces.append(writer.entry(number, block, level))
    contents = _contents(lesson)
    skip = f'<a class="skip" href="#lesson">{words.skip}</a>\n' if contents else ""
    byline = f'<p class="byline">{html_text(lesson.byline)}</p>' if lesson.byline else ""
    legend = f'<p class="legend">{words.page_legend}</p>' if _is_drawn_on(lesson) else ""
    lines = "\n".join(pieces)
    body = f"""{skip}<header>
<h1>{html_text(lesson.title)}</h1>
{byline}{html_of(lesson.about, 1)}{legend}
</header>
{contents}
<main id="lesson">
{lines}
{writer.answers(lesson)}
</main>"""
    return document(lesson.title, STYLE + _LESSON_STYLE, body, lesson.language)
