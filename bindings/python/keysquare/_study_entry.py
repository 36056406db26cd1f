"""What a study is made of: entries, their panels, and the lesson that holds them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from keysquare._core import Finding, Move, Position, Threat
from keysquare._diagrams import Arrow, Mark, SvgText, diagram
from keysquare._study_moves import Fragment, line_arrows, line_text
from keysquare._values import WHITE, Side
from keysquare._words import ENGLISH, moves_in, words_in


class Told(NamedTuple):
    """A sentence of the library, with what proves it."""

    text: str
    number: int = 0
    """What it has in the diagram; 0 for none."""
    line: str = ""
    """The line as people write it, where the sentence does not hold it."""


@dataclass(frozen=True)
class Panel:
    """One diagram, and the sentences that belong to it. Raises ValueError for what belongs to another position."""

    position: Position
    """The position of the diagram."""
    heading: str = ""
    """What stands above the diagram, in one line."""
    findings: tuple[Finding | Threat, ...] = ()
    """Drawn and told, in this order; the i-th of several has the number i."""
    sentences: tuple[str, ...] = ()
    """Further sentences of the library."""
    numbered: bool = False
    """Whether the sentences have the numbers 1, 2, ... of the arrows."""
    marks: tuple[str | Mark, ...] = ()
    """Marked squares: their names, or `Mark`."""
    arrows: tuple[tuple[str, str] | Arrow, ...] = ()
    """Arrows: pairs of squares, or `Arrow`."""
    line: tuple[Move, ...] = ()
    """Legal moves from the position. The first two are drawn when nothing else is."""
    bottom: Side = WHITE
    """The side that sits below."""
    language: str = ENGLISH
    """Of what the findings say and of the moves; `heading` and `sentences` are as they are given."""

    def __post_init__(self) -> None:
        if self.numbered and self.findings:
            raise ValueError("findings have numbers of their own: put numbered sentences into another panel")
        self.picture()
        self.line_text()

    def picture(self, title: str = "", serial: int = 0) -> SvgText:
        """The diagram."""
        drawn = self.findings or self.marks or self.arrows
        return diagram(
            self.position,
            self.findings,
            bottom=self.bottom,
            title=title,
            marks=self.marks,
            arrows=self.arrows if drawn else line_arrows(self.line),
            serial=serial,
            language=self.language,
        )

    def told(self) -> list[Told]:
        """The sentences, each with its number in the diagram and its line."""
        several = len(self.findings) > 1
        told = [
            Told(f.text(self.language), i if several else 0, _untold_line(f, self.language))
            for i, f in enumerate(self.findings, start=1)
        ]
        return told + [Told(text, i if self.numbered else 0) for i, text in enumerate(self.sentences, start=1)]

    def line_text(self) -> str:
        """The line as people write it, where no sentence holds it already."""
        line = line_text(self.position, self.line, self.language)
        told = (*(finding.text(self.language) for finding in self.findings), *self.sentences)
        return "" if any(line in text for text in told) else line


def _untold_line(finding: Finding | Threat, language: str) -> str:
    """The line of a finding where its sentence does not hold it already, with what must be thought of first."""
    words, line = words_in(language), moves_in(language, finding.line_san)
    if len(finding.line) < 2 or line.split()[-1] in finding.text(language):
        return ""
    thought = []
    if isinstance(finding, Finding) and finding.removed:
        thought.append(words.without.format(square=finding.removed))
    if finding.after_pass:
        thought.append(words.if_passes.format(side=words.side(finding.side.other)))
    if not thought:
        return line
    condition = ", ".join(thought)
    return f"{condition[0].upper()}{condition[1:]}: {line}"


def playable_lines(finding: Finding | Threat) -> list[list[Move]]:
    """The lines of a finding that are legal in its position as it stands."""
    if finding.after_pass:
        return []
    if isinstance(finding, Threat):
        return [finding.line]
    return [line for line in (finding.line, finding.point) if line and not finding.removed]


@dataclass(frozen=True)
class Entry:
    """What a study shows of one thing. Objects with a method `study_entry()` that returns one can be added to a study."""

    title: str
    """What stands above the entry."""
    shown: tuple[Panel | Fragment, ...]
    """At least one; the entry's position is that of the first."""
    text: str = ""
    """Of the coach, Markdown."""
    question: str = ""
    """To the student, Markdown."""
    answer: str = ""
    """Of the coach, Markdown."""
    solved: tuple[Panel | Fragment, ...] = ()
    """What the answer shows."""

    def __post_init__(self) -> None:
        if not self.shown:
            raise ValueError("an entry shows at least one panel")

    @property
    def position(self) -> Position:
        """The position that the entry is about."""
        return self.shown[0].position

    @property
    def has_answer(self) -> bool:
        """Whether there is anything to fold away."""
        return bool(self.answer or self.solved)

    def _repr_html_(self) -> str:
        from keysquare._study import Study

        return Study(self.title).add(self)._repr_html_()


def mover_text(position: Position, language: str = ENGLISH) -> str:
    """ "White to move", or how the game has ended."""
    words = words_in(language)
    pattern = words.to_move
    if position.is_mated:
        pattern = words.checkmated
    elif position.is_stalemated:
        pattern = words.stalemated
    return pattern.format(side=words.side(position.mover))


class Section(NamedTuple):
    """A heading under which the following entries stand."""

    heading: str


class Note(NamedTuple):
    """A text of the coach between entries."""

    text: str
    """Markdown."""


class Lesson(NamedTuple):
    """A whole study, as the writers of pages and files take it."""

    title: str
    author: str
    date: str
    about: str
    """Markdown."""
    blocks: tuple[Section | Note | Entry, ...]
    language: str = ENGLISH

    @property
    def entries(self) -> list[tuple[int, Entry]]:
        """The entries with their numbers."""
        return list(enumerate((block for block in self.blocks if isinstance(block, Entry)), start=1))

    @property
    def byline(self) -> str:
        """Author and date, as far as they are known."""
        return ", ".join(filter(None, (self.author, self.date)))
