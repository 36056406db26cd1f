"""Diagrams: positions as pictures in the manner of a printed book."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import unescape
from typing import NamedTuple

from keysquare import _core
from keysquare._core import Finding, Position, Threat
from keysquare._displays import shown


class Mark(NamedTuple):
    """A marked square of a diagram."""

    square: str
    """The square that is marked."""
    style: str = "outline"
    """ "outline", "double_outline", "dotted_outline", "corners", "ring", "cross", "dot" (for empty squares), or "bare" for a
    number alone."""
    number: int = 0
    """Stands in a black disc in a corner of the square; 0 for none."""


class Arrow(NamedTuple):
    """An arrow of a diagram, between two different squares."""

    origin: str
    """The square where the arrow begins."""
    target: str
    """The square that it points at."""
    style: str = "solid"
    """ "solid", "dashed" or "dotted"."""
    number: int = 0
    """Stands in a white disc on the shaft; 0 for none."""


class SvgText(str):
    """The text of an SVG picture, which draws itself in notebooks."""

    __slots__ = ()

    @property
    def words(self) -> str:
        """What the picture shows, in words: the men, the side to move, the marks and arrows."""
        told = re.search(r"<desc[^>]*>(.*?)</desc>", self, re.DOTALL)
        return unescape(told[1]) if told else ""

    def _repr_svg_(self) -> str:
        return str(self)


def diagram(
    position: Position,
    findings: Iterable[Finding | Threat] = (),
    *,
    bottom: str = "white",
    square_size: int = 48,
    coordinates: bool = True,
    mover_mark: bool = True,
    title: str = "",
    marks: Iterable[str | Mark] = (),
    arrows: Iterable[tuple[str, str] | Arrow] = (),
    serial: int = 0,
    language: str = "en",
) -> SvgText:
    """A position as one self-contained SVG element, black on white, ready for a file or for HTML.

    Args:
        position: What is drawn.
        findings: Findings and threats, shown by marks and arrows. The main piece stands in a ring, further pieces in an outline, a piece that
            is thought away is crossed out; squares that were counted have a dot (a dotted outline, where a man stands);
            the first move of the line is a solid arrow, the reply a dashed one. Of several findings, the i-th has the
            number i. More than a few make a picture that nobody can read.
        bottom: The side that sits at the bottom.
        square_size: The width of a square in pixels, held between 8 and 512.
        coordinates: Whether letters and digits stand beside the board.
        mover_mark: Whether a triangle beside the board shows the side to move.
        title: Any text, read out by screen readers; "Chess position, White to move" when empty.
        marks: Further marks; a plain square means an outline.
        arrows: Further arrows; a plain pair of squares means a solid one.
        serial: Any number; tells equal diagrams apart where several stand in one document.
        language: Of what the picture says of itself in words.

    Raises:
        InputError: A square or side that is none.
        ValueError: A style or a language that does not exist, or a finding that was made for another position.

    >>> position = Position("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1")
    >>> diagram(position, [f for f in _core.findings(position, ["hanging"])]).startswith("<svg")
    True
    """
    full_marks = [Mark(mark) if isinstance(mark, str) else Mark(*mark) for mark in marks]
    full_arrows = [Arrow(*arrow) for arrow in arrows]
    return SvgText(
        _core.draw(
            position,
            list(findings),
            bottom,
            square_size,
            coordinates,
            mover_mark,
            shown(title),
            full_marks,
            full_arrows,
            serial,
            language,
        )
    )
