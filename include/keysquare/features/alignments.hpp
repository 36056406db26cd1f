// Alignments: a slider, the first man on one of its lines and the man behind it. Pins, skewers, discoveries and
// batteries are all made of them.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

/// Three men on one line, nothing between them. Any of the two further ones may belong to either side.
struct Alignment {
    Square slider = Square::none; ///< the bishop, rook or queen that looks along the line
    Square front = Square::none;  ///< the man that it attacks
    Square back = Square::none;   ///< the man behind that one
};

/// Calls `receive` for every alignment of a slider of that kind on `square` with these squares occupied; at most eight.
template <class Receive> void each_alignment(Piece slider, Square square, Squares occupied, Receive receive) {
    const Squares seen = attacks_of(slider, square, occupied);
    for (const Square front : seen& occupied)
        if (const Squares behind = attacks_of(slider, square, occupied.without(front)) & occupied & ~seen)
            receive(Alignment{square, front, behind.first()});
}

/// Calls `receive` for every alignment of a slider of `side`.
template <class Receive> void each_alignment(const Position& position, Side side, Receive receive) {
    for (const Square slider : position.sliders(side))
        each_alignment(position.piece_at(slider), slider, position.occupied(), receive);
}

} // namespace keysquare
