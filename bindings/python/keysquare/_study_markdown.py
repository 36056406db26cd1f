"""A study as Markdown (CommonMark) with its diagrams as SVG files; the answers stand at the end."""

from __future__ import annotations

from collections.abc import Iterable
from urllib.parse import quote

from keysquare._diagrams import SvgText
from keysquare._study_entry import Entry, Lesson, Note, Panel, Section, mover_text
from keysquare._study_markup import disarmed, markdown_of
from keysquare._study_moves import Fragment, Token
from keysquare._words import words_in


class MarkdownWriter:
    """Writes the text and collects the pictures that it shows."""

    def __init__(self, lesson: Lesson, folder: str) -> None:
        self.folder = quote(folder)
        self.words = words_in(lesson.language)
        self.pictures: dict[str, SvgText] = {}
        """File names, and what goes into the files."""
        self.text = self._lesson(lesson)
        """The whole text."""

    def _picture(self, picture: SvgText) -> str:
        name = f"diagram-{len(self.pictures) + 1:02}.svg"
        self.pictures[name] = picture
        return f"![{markdown_of(picture.words)}]({self.folder}/{name})"

    def _lesson(self, lesson: Lesson) -> str:
        blocks = [f"# {markdown_of(lesson.title)}"]
        if lesson.byline:
            blocks.append(f"*{markdown_of(lesson.byline)}*")
        blocks += [disarmed(lesson.about), f"*{self.words.markdown_legend}*"]
        level, number = 2, 0
        for block in lesson.blocks:
            if isinstance(block, Section):
                level = 3
                blocks.append(f"## {markdown_of(block.heading)}")
            elif isinstance(block, Note):
                blocks.append(disarmed(block.text))
            else:
                number += 1
                blocks += self._entry(number, block, "#" * level)
        answered = [(number, entry) for number, entry in lesson.entries if entry.has_answer]
        if answered:
            blocks.append(f"## {self.words.answers}")
        for number, entry in answered:
            blocks.append(f"### {number}. {markdown_of(entry.title)}")
            blocks.append(disarmed(entry.answer))
            blocks += self._parts(entry.solved, "####")
        return "\n\n".join(block.strip() for block in blocks if block.strip()) + "\n"

    def _entry(self, number: int, entry: Entry, heading: str) -> list[str]:
        return [
            f"{heading} {number}. {markdown_of(entry.title)}",
            *self._parts(entry.shown, heading + "#", disarmed(entry.text)),
            disarmed(entry.question),
            f"*{self.words.answer_is_at_the_end}*" if entry.has_answer else "",
        ]

    def _parts(self, parts: Iterable[Panel | Fragment], heading: str, text: str = "") -> list[str]:
        blocks = []
        for part in parts:
            if part.heading:
                blocks.append(f"{heading} {markdown_of(part.heading)}")
            blocks += self._panel(part, text) if isinstance(part, Panel) else [text, *self._fragment(part)]
            text = ""
        return blocks

    def _panel(self, panel: Panel, text: str) -> list[str]:
        blocks = [self._picture(panel.picture()), f"*{mover_text(panel.position, panel.language)}*", text]
        for sentence, number, line in panel.told():
            told = f"**({number})** " * bool(number) + markdown_of(sentence)
            blocks.append(f"> {told}" + (f" **{markdown_of(line)}**" if line else ""))
        if line := panel.line_text():
            blocks.append(f"**{markdown_of(line)}**")
        return blocks

    def _fragment(self, fragment: Fragment) -> list[str]:
        blocks, words = [], ""
        for token in fragment.tokens():
            if token.kind == "diagram":
                assert token.position is not None
                blocks += [words, self._picture(fragment.picture(token, token.text, 0))]
                blocks.append(f"*{', '.join(filter(None, (token.text, mover_text(token.position, fragment.language))))}*")
                words = ""
            else:
                text = _word(token)
                words += text if token.kind == "close" or not words or words.endswith("(") else f" {text}"
        return [*blocks, words]


def _word(token: Token) -> str:
    text = markdown_of(token.text)
    return f"**{text}**" if token.kind in ("move", "result") else text
