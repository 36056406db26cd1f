// Diagrams: a position as an SVG picture in the manner of a printed book, and in words.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <keysquare/board/position.hpp>
#include <keysquare/board/types.hpp>
#include <keysquare/lesson/language.hpp>

namespace keysquare {

/// How a square is marked. The styles differ in shape, never in colour, so they survive a black-and-white printer and
/// colour blindness. A cross lies above the man that it strikes out, everything else below the men; a dot is for empty
/// squares; `bare` is for a number alone.
enum class MarkStyle : std::uint8_t {
    outline,        ///< a square
    double_outline, ///< two squares, one in the other
    dotted_outline, ///< a square of dots
    corners,        ///< the four corners of a square
    ring,           ///< a circle
    cross,          ///< lies above the man
    dot,            ///< for empty squares
    bare            ///< a number alone
};

/// How the shaft of an arrow is drawn.
enum class LineStyle : std::uint8_t {
    solid,  ///< solid
    dashed, ///< dashed
    dotted  ///< dotted
};

/// A marked square. The number, if any, stands in a black disc in a corner of the square, and further numbers of the
/// same square in its other corners. 0 or less is no number.
struct SquareMark {
    Square square = Square::none;         ///< which square
    MarkStyle style = MarkStyle::outline; ///< how
    int number = 0;                       ///< 0 or less: none
};

/// An arrow between two different squares. Its number stands in a white disc on the shaft, so that a text can count
/// squares and arrows apart. 0 or less is no number.
struct Arrow {
    Square from = Square::none;         ///< where its shaft begins
    Square to = Square::none;           ///< where its head is
    LineStyle style = LineStyle::solid; ///< how the shaft is drawn
    int number = 0;                     ///< 0 or less: none
};

/// What a diagram shows beside the men.
struct DiagramOptions {
    int square_size = 48;          ///< pixels, held between 8 and 512; the picture scales without loss at any size
    Side bottom = Side::white;     ///< the side that sits below
    bool coordinates = true;       ///< letters and numbers along two edges
    bool mover_mark = true;        ///< a triangle beside the board, on the mover's side and pointing the way it moves
    std::string title;             ///< any text; invalid UTF-8 is replaced. Empty: "Chess position, White to move"
    std::vector<SquareMark> marks; ///< marked squares
    std::vector<Arrow> arrows;     ///< arrows, the later ones above
    Language language = Language::english; ///< of the title and the description
    int serial = 0;                        ///< tells equal diagrams apart where several stand in one document
};

/// The position as one self-contained SVG element, ready for a file of its own or for HTML: no scripts, style sheets,
/// colours or references to anything outside. Title and description carry the position, the marks and the arrows in
/// words. Ids are made from the whole content, so different diagrams can share a document, and the same input always
/// gives the same text. Marks and arrows that name no square are left out. The time grows with the square of the number
/// of arrows and numbers.
[[nodiscard]] std::string diagram(const Position& position, const DiagramOptions& options = {});

/// "White: king g1, rooks a1 and f1, pawns f2, g2 and h2. Black: king g8. White to move."
[[nodiscard]] std::string position_in_words(const Position& position, Language language = Language::english);

} // namespace keysquare
