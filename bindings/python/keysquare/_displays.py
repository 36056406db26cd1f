"""How answers without a drawing of their own look in notebooks: a paragraph, a threat with its sentence, a board of letters;
and how text that others wrote is shown."""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from keysquare._core import Threat

_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")
_CONTROLS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


def shown(text: str) -> str:
    """A text without what pages can't show as it is: the signs that turn the direction of writing around go, since what
    follows would be turned, too, and controls and halves of characters become U+FFFD."""
    return _CONTROLS.sub("\ufffd", _TURNS.sub("", text))


def html_text(text: str) -> str:
    """Any text, such as a name in a game file, as text of a page."""
    return escape(shown(text))


class Spoken:
    """What is a sentence or a paragraph as text is a paragraph in notebooks."""

    def _repr_html_(self) -> str:
        return f"<p>{html_text(str(self))}</p>"


def threat_html(threat: Threat | None, text: str) -> str:
    """The threat drawn in its position over the text; the text alone without a threat."""
    from keysquare._diagrams import diagram

    if not threat:
        return f"<p>{html_text(text)}</p>"
    return f"<figure>{diagram(threat.position, [threat])}<figcaption>{html_text(text)}</figcaption></figure>"


def board_html(letters: Mapping[str, str], caption: str) -> str:
    """The board seen from White's side as a table with a letter on some squares."""
    rows = []
    for rank in "87654321":
        cells = "".join(f"<td>{html_text(letters.get(file + rank, ''))}</td>" for file in "abcdefgh")
        rows.append(f"<tr><th>{rank}</th>{cells}</tr>")
    files = "".join(f"<th>{file}</th>" for file in "abcdefgh")
    return f"<table><caption>{html_text(caption)}</caption>{''.join(rows)}<tr><th></th>{files}</tr></table>"
