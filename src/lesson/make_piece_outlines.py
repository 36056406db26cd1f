#!/usr/bin/env python3
"""Write src/lesson/piece_outlines.cpp: the contours of the six chess men that diagrams are drawn with.

    python3 src/lesson/make_piece_outlines.py DejaVuSans.ttf > src/lesson/piece_outlines.cpp

Needs fontTools (written with 4.68). The font is DejaVu Sans 2.37, in Debian's package fonts-dejavu-core. Its chess men
(U+265A to U+265F) were added to Bitstream Vera by the DejaVu project, which placed its changes in the public domain.

Only the outermost contour of each man and three small inner contours of the knight come from the font. One contour
serves both sides, drawn with one pen, so that White and Black have the same size and weight. The inner lines, the
notches of the queen's crown and the king's cross are ours.
"""

import sys

from fontTools.pens.basePen import decomposeQuadraticSegment
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

GRID = 1000  # units of the result per board square
# The pen would fill in the small cross of the king: it is cut off at this height, and ours set in its place.
CROSS_FOOT = 1290
CROSS = [[(918, 1270), (918, 1600)], [(785, 1440), (1051, 1440)]]

# The points of the queen's crown are thinner than the pen, which would leave a white queen black: the notches between
# them are raised.
NOTCHES = {(626, 524): (590, 830), (837, 492): (800, 810), (1001, 490): (1042, 810), (1174, 524): (1252, 830)}

BASE = 862  # the men stand on this line, counted from the upper edge of the square
SIZE = 0.475  # result units per font unit, before the scale of the man

# Name, code point, scale, inner contours to keep, and our own inner lines: polylines in font units.
MEN = [
    ("pawn", 0x265F, 0.80, [], []),
    ("knight", 0x265E, 0.96, [1, 2, 3], []),
    ("bishop", 0x265D, 0.98, [], [[(918, 1080), (918, 740)], [(735, 930), (1101, 930)], [(740, 655), (1096, 655)]]),
    ("rook", 0x265C, 0.86, [], [[(560, 1195), (1276, 1195)], [(560, 235), (1276, 235)]]),
    ("queen", 0x265B, 1.00, [], [[(500, 270), (1315, 270)]]),
    ("king", 0x265A, 1.00, [], [[(918, 1090), (918, 440)], [(520, 435), (1316, 435)]]),
]


def contours_of(glyphs, name):
    """The closed contours of a glyph as lists of (operator, points), the largest first."""
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    contours, current = [], []
    for operator, points in pen.value:
        current.append((operator, points))
        if operator == "closePath":
            contours.append(current)
            current = []

    def size(contour):
        left, bottom, right, top = bounds_of(contour)
        return (right - left) * (top - bottom)

    outer = max(contours, key=size)
    return [outer] + [contour for contour in contours if contour is not outer]


def bounds_of(contour):
    pen = BoundsPen(None)
    for operator, points in contour:
        getattr(pen, operator)(*points)
    return pen.bounds


class Path:
    """SVG path data: whole numbers, relative to the last point, without needless separators."""

    def __init__(self, place):
        self.place, self.at, self.start, self.text, self.last = place, (0, 0), (0, 0), "", ""

    def put(self, operator, *points):
        places = [self.place(point) for point in points]
        numbers = [place[axis] - self.at[axis] for place in places for axis in (0, 1)]
        if operator == "l" and numbers == [0, 0]:
            return
        if operator == "l" and 0 in numbers:
            operator, numbers = ("v", numbers[1:]) if numbers[0] == 0 else ("h", numbers[:1])
        written = "" if operator == self.last and operator != "m" else operator
        for number in numbers:
            # A sign or an operator in front of a number separates enough.
            written += f"{'' if number < 0 or written[-1:].isalpha() else ' '}{number}"
        self.text, self.at, self.last = self.text + written, places[-1], operator
        if operator == "m":
            self.start = self.at

    def draw(self, contour):
        current = None
        for operator, points in contour:
            if operator == "moveTo":
                self.put("m", *points)
            elif operator == "lineTo":
                self.put("l", *points)
            elif operator == "qCurveTo":
                for control, end in decomposeQuadraticSegment(points):
                    self.put("q", control, end)
            elif operator == "closePath":
                self.text, self.at, self.last = self.text + "z", self.start, "z"
            else:
                raise ValueError(f"unexpected {operator}")


def outline(glyphs, man, name, scale, kept, lines):
    contours = contours_of(glyphs, name)
    crossed = man == "king"
    if crossed:
        contours[0] = [step for step in contours[0] if not (step[0] == "lineTo" and step[1][0][1] > CROSS_FOOT)]
    if man == "queen":
        contours[0] = [(step, tuple(NOTCHES.get(point, point) for point in points)) for step, points in contours[0]]
    left, bottom, right, _ = bounds_of(contours[0])

    def place(point):  # centred on the square, feet on the base line, y downwards
        x, y = point
        return (
            round(GRID / 2 + (x - (left + right) / 2) * SIZE * scale),
            round(BASE - (y - bottom) * SIZE * scale),
        )

    paths = [Path(place) for _ in range(3)]
    paths[0].draw(contours[0])
    for number in kept:
        paths[1].draw(contours[number])
    for path, line in [(paths[0], line) for line in CROSS if crossed] + [(paths[2], line) for line in lines]:
        path.draw([("moveTo", line[:1])] + [("lineTo", [point]) for point in line[1:]])
    return [path.text for path in paths]


def literal(text, width=100):
    return "\n     ".join(f'"{text[at : at + width]}"' for at in range(0, max(len(text), 1), width))


def main():
    font = TTFont(sys.argv[1])
    glyphs, characters = font.getGlyphSet(), font.getBestCmap()
    print(
        """// Made by make_piece_outlines.py from DejaVu Sans 2.37; do not edit.
//
// The contours derive from the chess men of DejaVu Sans, which the DejaVu project added to Bitstream Vera.
// The licence of the fonts says of such additions: "DejaVu changes are in public domain."
#include "piece_outlines.hpp"

namespace keysquare::detail {

// clang-format off
const std::array<PieceOutline, 6> piece_outlines{{"""
    )
    for man, code, scale, kept, lines in MEN:
        body, solid, line = outline(glyphs, man, characters[code], scale, kept, lines)
        print(f"    // {man}\n    {{{literal(body)},\n     {literal(solid)},\n     {literal(line)}}},")
    print("}};\n// clang-format on\n\n} // namespace keysquare::detail")


if __name__ == "__main__":
    main()
