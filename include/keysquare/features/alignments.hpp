// Alignments: a slider, the first man on one of its lines and the man behind it. Pins, skewers, discoveries and
// batteries are all made of them.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

/// Three men on one line, nothing between them. Any of the two further ones may belong to either side.
struct Alignment {
    Square slider = Square::none;
    Square front = Square::none;
    Square back = Square::none;
};

/// Calls `receive` for every alignment of the slider on `slider`; at most eight.
template <class Receive> void each_alignment(const Position& position, Square slider, Receive receive) {
    const Piece piece = position.piece_at(slider);
    const Squares occupied = position.occupied();
    const Squares seen = attacks_of(piece, slider, occupied);
    for (const Square front : seen& occupied)
        if (const Squares behind = attacks_of(piece, slider, occupied.without(front)) & occupied & ~seen)
            receive(Alignment{slider, front, behind.first()});
}

/// Calls `receive` for every alignment of a slider of `side`.
template <class Receive> void each_alignment(const Position& position, Side side, Receive receive) {
    for (const Square slider :
         position.men(side) & (position.men(Kind::bishop) | position.men(Kind::rook) | position.men(Kind::queen)))
        each_alignment(position, slider, receive);
}

} // namespace keysquare
