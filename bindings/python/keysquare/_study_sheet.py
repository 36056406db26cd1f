"""Exercise sheets: the questions of a study as pages of diagrams to be solved with a pencil."""

from __future__ import annotations

import os
from pathlib import Path

from keysquare._displays import html_text
from keysquare._study_entry import Entry, Lesson, Panel, mover_text
from keysquare._study_files import write_files
from keysquare._study_markup import html_of
from keysquare._study_page import STYLE, PageWriter, document

_COLUMNS = {4: 2, 6: 2, 12: 3}
"""How many diagrams stand side by side, by their number on a page."""

_SHEET_STYLE = """
h1 { font-size: 1.6rem; margin: 0; }
.byline { margin: 0; }
.sheet { list-style: none; margin: 0 0 2rem; padding: 0; display: grid; gap: 2rem;
  grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr)); }
.sheet figure { margin: 0 0 .4rem; max-width: none; }
.question p { margin: 0; }
.rule { border-bottom: 1px solid #000; height: 2rem; }
.answers { border-top: 4px double #000; padding-top: 1rem; }
.answers .panel { grid-template-columns: minmax(0, 13rem) minmax(0, 1fr); }
@media (max-width: 30rem) { .answers .panel { grid-template-columns: minmax(0, 1fr); } }
@media print {
  @page { margin: 12mm 14mm; }
  body { font-size: 10.5pt; line-height: 1.3; }
  header { margin-bottom: 4mm; padding-bottom: 1mm; }
  h1 { font-size: 15pt; }
  .sheet { break-after: page; margin: 0; gap: 3mm 8mm; grid-template-columns: repeat(var(--columns), minmax(0, 1fr)); }
  .sheet > li { break-inside: avoid; display: flex; flex-direction: column; height: var(--height); overflow: hidden; }
  .sheet figure { flex: 1 1 0; min-height: 0; margin: 0 0 1mm; }
  .sheet svg { height: 100%; margin: 0 auto; }
  .rule { height: 7mm; flex: none; }
  .answers { border: 0; padding: 0; }
  .answers .panel { grid-template-columns: 4.4cm minmax(0, 1fr); }
}
"""

_HEIGHTS = {4: "116mm", 6: "76mm", 12: "56.5mm"}
"""Of an exercise on paper: a page holds them on A4 and on US letter."""

_RULES = {4: 3, 6: 2, 12: 1}
"""Lines to write on."""


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
        """Exercises on a page."""

    def __len__(self) -> int:
        return len(self._exercises)

    def __repr__(self) -> str:
        count = "1 exercise" if len(self) == 1 else f"{len(self)} exercises"
        return f'<keysquare.ExerciseSheet "{self._lesson.title}": {count}, {self.per_page} on a page>'

    def html(self) -> str:
        """The sheet as one HTML file without scripts that loads nothing."""
        lesson, size = self._lesson, self.per_page
        writer = PageWriter(lesson.language)
        words = writer.words
        pages = [self._exercises[at : at + size] for at in range(0, len(self._exercises), size)]
        sheets = []
        for at, exercises in enumerate(pages):
            items = [
                _exercise(writer, at * size + i, entry, _RULES[size]) for i, entry in enumerate(exercises, start=1)
            ]
            layout = f"--columns: {_COLUMNS[size]}; --height: {_HEIGHTS[size]}"
            sheets.append(f'<ol class="sheet" role="list" style="{layout}">{"".join(items)}</ol>')
        answers = [
            f'<article id="answer-{number}"><h3>{words.answer_to.format(number=number)}</h3>{writer.answer(number, entry, 4)}</article>'
            for number, entry in enumerate(self._exercises, start=1)
            if entry.has_answer
        ]
        solved = f'<section class="answers"><h2>{words.answers}</h2>{"".join(answers)}</section>' if answers else ""
        byline = f'<p class="byline">{html_text(lesson.byline)}</p>' if lesson.byline else ""
        body = f"<header><h1>{html_text(lesson.title)}</h1>{byline}</header>\n<main>{''.join(sheets)}{solved}</main>"
        return document(lesson.title, STYLE + _SHEET_STYLE, body, lesson.language)

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


def _exercise(writer: PageWriter, number: int, entry: Entry, rules: int) -> str:
    first = next((part for part in entry.shown if isinstance(part, Panel)), None) or Panel(
        entry.position, language=writer.words.language
    )
    writer.serial += 1
    picture = first.picture(writer.words.exercise.format(number=number), writer.serial)
    return (
        f'<li id="exercise-{number}"><figure>{picture}</figure>'
        f'<div class="question"><b>{number}. {mover_text(entry.position, writer.words.language)}.</b> {html_of(entry.question, 2)}</div>'
        f"{'<div class=rule></div>' * rules}</li>"
    )
