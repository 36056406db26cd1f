"""Studies: lessons written by script, as a page, as Markdown, as PGN and as a sheet of exercises."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from keysquare._core import Finding, Game, GameStep, Move, Position, Threat
from keysquare._diagrams import Arrow, Mark
from keysquare._displays import html_text
from keysquare._results import Answer, ExchangeLedger
from keysquare._study_entry import Entry, Lesson, Note, Panel, Section
from keysquare._study_files import write_files
from keysquare._study_items import entry_of_game, shown_of
from keysquare._study_markdown import MarkdownWriter
from keysquare._study_moves import line_moves
from keysquare._study_page import page
from keysquare._study_pgn import pgn_of
from keysquare._study_sheet import ExerciseSheet
from keysquare._study_wishes import Wishes, asked_about, in_language, more_of, seen_from
from keysquare._values import WHITE, Side
from keysquare._words import ENGLISH, words_in


class Study:
    """A lesson: positions, findings, plans and games, with the words of the coach, questions and answers.

    Sentences about a position are those of the library, lines are its legal moves; texts given as `about`, `note`,
    `question` and `answer` are the coach's own, in Markdown (CommonMark without raw HTML and pictures).

    >>> import keysquare as ks
    >>> study = ks.Study("Tuesday lesson", author="Hedda Wexmoor", date="2026-10-13")
    >>> position = ks.Position("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1")
    >>> finding = ks.findings(position)[0]
    >>> study.section("Guards with two jobs").note("Look at *every* guard before you count.")
    <keysquare.Study "Tuesday lesson": no entries>
    >>> study.ask(position, "Which black man has too much to do?", answer=finding)
    <keysquare.Study "Tuesday lesson": 1 entry>
    >>> print(study.pgn().splitlines()[-2])
    there, it fails its other duty: 1.Rxd5 Rxd5 2.Re8#.} 1... Rxd5 2. Re8# *
    >>> len(study), study.html().startswith("<!DOCTYPE html>")
    (1, True)

    Args:
        title: Of the lesson, plain text.
        author: Plain text.
        date: A text such as "2026-10-13", or anything whose `str` is one.
        about: What the lesson is about, Markdown.
        bottom: The side at the bottom of the diagrams: "white", "black", or "mover" for the side that moves in
            the first diagram of an entry.
        language: Of all that the library says: "en" or "de" (`keysquare.languages`). Moves have the letters that its
            readers know, but in PGN. The coach's own words stay as they are.

    Raises:
        ValueError: No title, or a language that is not known.
    """

    def __init__(
        self,
        title: str,
        *,
        author: str = "",
        date: object = "",
        about: str = "",
        bottom: str = "white",
        language: str = "en",
    ) -> None:
        if not title.strip():
            raise ValueError("a study needs a title")
        self.title = title
        """What stands at the head of the lesson."""
        self.author = author
        """Who wrote it; may be empty."""
        self.date = str(date)
        """The date, as it was given; may be empty."""
        self.about = about
        """What the lesson is about, in Markdown; may be empty."""
        self.bottom = bottom if bottom == "mover" else Side(bottom)
        """The side at the bottom of the diagrams, or "mover"."""
        self.language = words_in(language).language
        """The language of the page, by its two-letter code."""
        self._blocks: list[Section | Note | Entry] = []

    def section(self, heading: str) -> Study:
        """Begins a section under a heading of plain text. Returns the study."""
        self._blocks.append(Section(heading))
        return self

    def note(self, text: str) -> Study:
        """Adds a text of the coach, Markdown, between entries. Returns the study."""
        self._blocks.append(Note(text))
        return self

    def add(
        self,
        item: object,
        *,
        title: str = "",
        note: str = "",
        question: str = "",
        answer: object = "",
        findings: Iterable[Finding | Threat] | None = None,
        threats: bool = False,
        candidates: bool = False,
        plan: Iterable[str | Move] = (),
        solution: str | Iterable[str | Move] = (),
        said: Iterable[Answer | ExchangeLedger] = (),
        marks: Iterable[str | Mark] = (),
        arrows: Iterable[tuple[str, str] | Arrow] = (),
        moves: tuple[int, int] | None = None,
        diagrams: Iterable[int] | None = None,
        bottom: str | None = None,
    ) -> Study:
        """Adds an entry. Returns the study.

        Args:
            item: A Position or FEN; a Finding, a Threat or a list of them; Candidates, Parries, a PlanCheck, an Outlook,
                Routes, a Mobility, a Difficulty; a Game or one of its steps; or an object with a method `study_entry()`.
                Of a step the position is shown, with its comment and the move that was played there; both belong to the
                answer, where there is a question.
            title: Plain text; by default it says what the item is, or, above a question, only who is to move.
            note: The coach's words, Markdown.
            question: To the student, Markdown. What the item has to say is the answer then: the question stands beside
                the bare position.
            answer: Markdown, or an item that says it. Needs a question.
            findings: Drawn and told with the position. Without it a position or a step alone tells its strongest
                findings, at most three and about different pieces; with a question, none. They belong to the answer, too.
            threats: Whether to tell what the side that is not to move threatens.
            candidates: Whether to tell which moves deserve a look.
            plan: Moves of the mover, checked as `check_plan` does.
            solution: A line of legal moves from the position, one by one or as text: "1.Rxd5 Rxd5 2.Re8#".
            said: Results that say something of the position without holding it: what `answers` and `exchange_context`
                gave for it.
            marks: Further marks in the first diagram, also beside a question.
            arrows: Further arrows in it.
            moves: Of a game, the first and the last ply that are shown, counted from 1; all by default.
            diagrams: Of a game, the plies after which diagrams stand; the one before `moves` is where they begin.
            bottom: As in the study, for this entry.

        Raises:
            TypeError: An item that can't be shown.
            ValueError: Text that is no FEN (it belongs into `note`), findings and results of another position, an
                answer without a question, plies that the game does not have.
            InputError: Moves of a plan or solution that are not legal; squares that are none.
        """
        if (moves is not None or diagrams is not None) and not isinstance(item, Game):
            raise ValueError("moves and diagrams are for games")
        entry = entry_of_game(item, moves, diagrams) if isinstance(item, Game) else shown_of(item, self.language)
        wishes = Wishes(
            None if findings is None else tuple(findings),
            threats,
            candidates,
            tuple(plan),
            line_moves(entry.position, solution),
            tuple(said),
        )
        if question or entry.question:
            entry = asked_about(entry, question, item, wishes, self.language)
        else:
            may_choose = isinstance(item, (str, Position, GameStep))
            entry = replace(entry, shown=more_of(entry, wishes, may_choose, self.language))
        words, answered = (answer, ()) if isinstance(answer, str) else ("", shown_of(answer, self.language).shown)
        entry = replace(
            _with_marks(entry, tuple(marks), tuple(arrows)),
            title=title or entry.title,
            text=_paragraphs(entry.text, note),
            answer=_paragraphs(entry.answer, words),
            solved=(*entry.solved, *answered),
        )
        if entry.has_answer and not entry.question:
            raise ValueError("an answer needs a question")
        if self.language != ENGLISH:
            entry = in_language(entry, self.language)
        self._blocks.append(seen_from(entry, bottom or self.bottom) if bottom or self.bottom != WHITE else entry)
        return self

    def ask(self, position: Position | str, question: str, answer: object = "", **more: object) -> Study:
        """Asks a question about a position; `add` says what else can be given. Returns the study."""
        return self.add(position, question=question, answer=answer, **more)  # type: ignore[arg-type]

    @property
    def entries(self) -> list[Entry]:
        """The entries in order, without sections and notes."""
        return [entry for _, entry in self._lesson().entries]

    def html(self) -> str:
        """The page: one HTML file without scripts that loads nothing, for screens and for paper.

        On a screen answers are folded away under their questions; on paper they stand at the end.
        """
        return page(self._lesson())

    def markdown(self, folder: str = "diagrams") -> str:
        """The text in CommonMark; it shows pictures in a folder beside it, which `save` writes."""
        return MarkdownWriter(self._lesson(), folder).text

    def pgn(self) -> str:
        """One game for each entry, in export format: sentences as comments, lines as moves and variations.

        What was said of a pass stands in comments only, as PGN has no move for it.
        """
        return pgn_of(self._lesson())

    def exercises(self, per_page: int = 6) -> ExerciseSheet:
        """A sheet for print: the entries with a question, 4, 6 or 12 on a page, and the answers at the end.

        Raises ValueError for another number, and when nothing is asked.
        """
        return ExerciseSheet(self._lesson(), per_page)

    def save(self, path: str | os.PathLike[str]) -> Path:
        """Writes the study as its suffix says: ".html", ".md" (with a folder "NAME-diagrams" beside it) or ".pgn".

        The file is there as a whole or, when something goes wrong, as it was before. Returns the path. Raises ValueError
        for another suffix, OSError when it can't be written.
        """
        path = Path(path)
        suffix = path.suffix.lower()
        if suffix in (".html", ".htm"):
            write_files(path, self.html())
        elif suffix == ".md":
            folder = f"{path.stem}-diagrams"
            writer = MarkdownWriter(self._lesson(), folder)
            write_files(path, writer.text, path.with_name(folder), writer.pictures)
        elif suffix == ".pgn":
            write_files(path, self.pgn())
        else:
            raise ValueError(f"{path.name}: a study is saved as .html, .md or .pgn")
        return path

    def _lesson(self) -> Lesson:
        return Lesson(self.title, self.author, self.date, self.about, tuple(self._blocks), self.language)

    def __len__(self) -> int:
        return len(self.entries)

    def __repr__(self) -> str:
        count = len(self)
        entries = "1 entry" if count == 1 else f"{count or 'no'} entries"
        return f'<keysquare.Study "{self.title}": {entries}>'

    def _repr_html_(self) -> str:
        # A frame of its own, so that its style stays inside.
        return framed(self.html(), self.title)


def framed(html: str, title: str) -> str:
    """A page inside another one, as notebooks show it."""
    look = "width:100%;height:40rem;border:1px solid"
    return f'<iframe sandbox srcdoc="{html_text(html)}" title="{html_text(title)}" style="{look}"></iframe>'


def _paragraphs(*texts: str) -> str:
    return "\n\n".join(filter(None, texts))


def _with_marks(entry: Entry, marks: tuple[str | Mark, ...], arrows: tuple[tuple[str, str] | Arrow, ...]) -> Entry:
    if not marks and not arrows:
        return entry
    first, *rest = entry.shown
    if isinstance(first, Panel):
        first = replace(first, marks=(*first.marks, *marks), arrows=(*first.arrows, *arrows))
        return replace(entry, shown=(first, *rest))
    return replace(entry, shown=(Panel(entry.position, marks=marks, arrows=arrows), first, *rest))
