"""Exercise sheets: the questions of a study as pages of diagrams to be solved with a pencil."""

from __future__ import annotations

import os
from html import escape
from pathlib import Path

from keysquare._study_entry import Entry, Lesson, Panel, mover_text
from keysquare._study_files import write_files
from keysquare._study_markup import html_of
from keysquare._study_page import PageWriter, document

_COLUMNS = {4: 2, 6: 2, 12: 3}
"""How many diagrams stand side by side, by their number on a page."""

_STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 1.125rem/1.5 Georgia, "DejaVu Serif", serif; color: #000; background: #fff; margin: 0 auto; max-width: 58rem;
  padding: 1rem; overflow-wrap: break-word; }
h1 { font-size: 1.6rem; font-weight: normal; margin: 0; }
h2 { font-size: 1.3rem; margin: 0 0 1rem; }
h3 { font-size: 1.125rem; margin: 0 0 .3rem; }
p { margin: 0 0 .4rem; }
header { border-bottom: 4px double #000; margin-bottom: 1.5rem; padding-bottom: .5rem; }
.byline { font-style: italic; margin: 0; }
.sheet { margin: 0 0 2rem; padding: 0; list-style: none; display: grid; gap: 2rem 2rem; grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr)); }
.sheet figure { margin: 0 0 .4rem; }
.sheet svg, .panel svg { display: block; width: 100%; height: auto; }
.rule { border-bottom: 1px solid #000; height: 2rem; }
.question p { margin: 0; }
.answers { border-top: 4px double #000; padding-top: 1rem; }
.panel { display: grid; grid-template-columns: minmax(0, 12rem) minmax(0, 1fr); gap: 1rem; }
.panel figure { margin: 0; }
figcaption { text-align: center; font-style: italic; font-size: 1rem; }
.line { display: block; font-weight: bold; }
.game, .result { font-weight: bold; }
ol.told { list-style: none; margin: 0; padding: 0; }
ol.several > li { padding-left: 2.1rem; position: relative; }
.disc { position: absolute; left: 0; top: .1em; width: 1.5rem; height: 1.5rem; border: 2px solid #000; border-radius: 50%;
  background: #000; color: #fff; font: bold 1rem/1.25rem sans-serif; text-align: center; print-color-adjust: exact; }
.disc.light { background: #fff; color: #000; }
.answers article { margin: 0 0 1.25rem; }
@media (max-width: 30rem) { .panel { grid-template-columns: minmax(0, 1fr); } }
@media print {
  @page { margin: 12mm 14mm; }
  body { font-size: 10.5pt; line-height: 1.3; max-width: none; padding: 0; }
  header { margin-bottom: 4mm; padding-bottom: 1mm; }
  h1 { font-size: 15pt; }
  .sheet { break-after: page; margin: 0; gap: 3mm 8mm; grid-template-columns: repeat(var(--columns), minmax(0, 1fr)); }
  .sheet > li { break-inside: avoid; display: flex; flex-direction: column; height: var(--height); overflow: hidden; }
  .sheet figure { flex: 1 1 0; min-height: 0; margin: 0 0 1mm; }
  .sheet svg { height: 100%; margin: 0 auto; }
  .rule { height: 7mm; flex: none; }
  .answers { border: 0; padding: 0; }
  .answers article { break-inside: avoid; }
}
"""

_HEIGHTS = {4: "112mm", 6: "74mm", 12: "55mm"}
"""Of an exercise on paper: a page holds them on A4 and on US letter."""


class ExerciseSheet:
    """Exercises for print, made by `Study.exercises`: diagrams with their questions, room for the answer, and the answers
    on a page of their own at the end."""

    def __init__(self, lesson: Lesson, per_page: int) -> None:
        if per_page not in _COLUMNS:
            raise ValueError(f"{per_page} exercises on a page: there can be {', '.join(map(str, _COLUMNS))}")
        self._lesson = lesson
        self._exercises = [entry for _, entry in lesson.entries if entry.question]
        if not self._exercises:
            raise ValueError("the study asks no question, so there is no exercise")
        self.per_page = per_page

    def __len__(self) -> int:
        return len(self._exercises)

    def __repr__(self) -> str:
        return f'<keysquare.ExerciseSheet "{self._lesson.title}": {len(self)} exercises, {self.per_page} on a page>'

    def html(self) -> str:
        """The sheet as one HTML file without scripts that loads nothing."""
        lesson, size = self._lesson, self.per_page
        writer = PageWriter()
        pages = [self._exercises[at : at + size] for at in range(0, len(self._exercises), size)]
        sheets = []
        for at, exercises in enumerate(pages):
            items = [_exercise(writer, at * size + i, entry) for i, entry in enumerate(exercises, start=1)]
            layout = f"--columns: {_COLUMNS[size]}; --height: {_HEIGHTS[size]}"
            sheets.append(f'<ol class="sheet" role="list" style="{layout}">{"".join(items)}</ol>')
        answers = [
            f'<article id="answer-{number}"><h3>Answer to {number}</h3>{writer.answer(number, entry, 4)}</article>'
            for number, entry in enumerate(self._exercises, start=1)
            if entry.has_answer
        ]
        solved = f'<section class="answers"><h2>Answers</h2>{"".join(answers)}</section>' if answers else ""
        byline = f'<p class="byline">{escape(lesson.byline)}</p>' if lesson.byline else ""
        body = f"<header><h1>{escape(lesson.title)}</h1>{byline}</header>\n<main>{''.join(sheets)}{solved}</main>"
        return document(lesson.title, _STYLE, body)

    def save(self, path: str | os.PathLike[str]) -> Path:
        """Writes the sheet into an ".html" file, as a whole or not at all. Returns the path.

        Raises ValueError for another suffix, OSError when it can't be written.
        """
        path = Path(path)
        if path.suffix.lower() not in (".html", ".htm"):
            raise ValueError(f"{path.name}: a sheet of exercises is saved as .html")
        write_files(path, self.html())
        return path

    def _repr_html_(self) -> str:
        from keysquare._study import framed

        return framed(self.html(), self._lesson.title)


def _exercise(writer: PageWriter, number: int, entry: Entry) -> str:
    first = next((part for part in entry.shown if isinstance(part, Panel)), None) or Panel(entry.position)
    writer.serial += 1
    picture = first.picture(f"Exercise {number}", writer.serial)
    return (
        f'<li id="exercise-{number}"><figure>{picture}</figure>'
        f'<div class="question"><b>{number}. {mover_text(entry.position)}.</b> {html_of(entry.question, 2)}</div>'
        f'<div class="rule"></div><div class="rule"></div></li>'
    )
