"""How answers without a drawing of their own look in notebooks: a paragraph, a threat with its sentence, a board of letters."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from keysquare._core import Threat


class Spoken:
    """What is a sentence or a paragraph as text is a paragraph in notebooks."""

    def _repr_html_(self) -> str:
        return f"<p>{escape(str(self))}</p>"


def threat_html(threat: Threat | None, text: str) -> str:
    """The threat drawn in its position over the text; the text alone without a threat."""
    from keysquare._diagrams import diagram

    if not threat:
        return f"<p>{escape(text)}</p>"
    return f"<figure>{diagram(threat.position, [threat])}<figcaption>{escape(text)}</figcaption></figure>"


def board_html(letters: Mapping[str, str], caption: str) -> str:
    """The board seen from White's side as a table with a letter on some squares."""
    rows = []
    for rank in "87654321":
        cells = "".join(f"<td>{escape(letters.get(file + rank, ''))}</td>" for file in "abcdefgh")
        rows.append(f"<tr><th>{rank}</th>{cells}</tr>")
    files = "".join(f"<th>{file}</th>" for file in "abcdefgh")
    return f"<table><caption>{escape(caption)}</caption>{''.join(rows)}<tr><th></th>{files}</tr></table>"
