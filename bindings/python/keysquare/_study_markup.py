"""Texts of the coach: Markdown made safe, as HTML, as Markdown and as plain words; and plain text as Markdown."""

from __future__ import annotations

import re
from collections.abc import MutableMapping, Sequence
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token

from keysquare._displays import html_text, shown

_SPECIAL = re.compile(r"[\\`*_\[\]<>&|~$]")
_LINE_START = re.compile(r"^(?:#|[-+=]|\d+(?=[.)](?:\s|$)))")
_LINK = re.compile(r"(?i)(https?|mailto):")
_RAW_HTML = re.compile(r"(?i)<(?!(?:https?|mailto):[^\s<>]*>)(?=[a-z/!?])")
_PICTURE = re.compile(r"!(?=\[)")
_OTHER_TARGET = re.compile(r"(?i)\](?=\((?!\s*<?(?:https?|mailto):)|:(?!\s*<?(?:https?|mailto):))")


def markdown_of(text: str) -> str:
    """Plain text as Markdown that shows it literally, in one line."""
    text = _SPECIAL.sub(r"\\\g<0>", " ".join(shown(text).split())).replace(" #", r" \#")
    start = _LINE_START.match(text)
    if not start:
        return text
    number = start[0] if start[0].isdigit() else ""
    return rf"{number}\{text[len(number) :]}"


def disarmed(markdown: str) -> str:
    """Markdown for a file that somebody else's program shows: without raw HTML, pictures of others, and links to anything
    but http, https and mailto."""
    markdown = shown(markdown)
    # By entities: a backslash that the coach wrote before the sign would undo one of ours.
    for pattern, instead in ((_RAW_HTML, "&lt;"), (_PICTURE, "&#33;"), (_OTHER_TARGET, "&#93;")):
        markdown = pattern.sub(instead, markdown)
    return markdown


def _image(
    renderer: RendererHTML, tokens: Sequence[Token], at: int, options: Any, env: MutableMapping[str, Any]
) -> str:
    """A picture would need the network: its words stand for it."""
    return html_text(renderer.renderInlineAsText(tokens[at].children or [], options, env))


def _heading(
    renderer: RendererHTML, tokens: Sequence[Token], at: int, options: Any, env: MutableMapping[str, Any]
) -> str:
    """Headings within a text come below the heading that the text stands under."""
    level = min(6, int(tokens[at].tag[1:]) + int(env["level"]))
    return f"<{'/' if tokens[at].nesting < 0 else ''}h{level}>"


class _Reader(MarkdownIt):
    def __init__(self) -> None:
        super().__init__("commonmark", {"html": False})
        for rule, render in (("image", _image), ("heading_open", _heading), ("heading_close", _heading)):
            self.add_render_rule(rule, render)

    def validateLink(self, url: str) -> bool:
        return bool(_LINK.match(url))


_READER = _Reader()


def html_of(markdown: str, level: int = 1) -> str:
    """CommonMark as HTML: no raw HTML, no pictures, links to http, https and mailto alone.

    A heading of the first level becomes one of level + 1.
    """
    return shown(_READER.render(markdown, {"level": level}))


def words_of(markdown: str) -> str:
    """CommonMark as plain words in one line."""
    words: list[str] = []
    for token in _READER.parse(markdown, {"level": 1}):
        if token.type == "inline":
            words.append("".join(map(_word, token.children or [])))
        elif token.type in ("fence", "code_block"):
            words.append(token.content)
    return " ".join(" ".join(words).split())


def _word(token: Token) -> str:
    if token.type in ("softbreak", "hardbreak"):
        return " "
    return token.content if token.type in ("text", "code_inline", "image", "text_special") else ""
