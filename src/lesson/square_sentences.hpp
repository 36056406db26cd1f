// The English sentences about squares and pieces.
#pragma once

#include <array>

#include "sentence_row.hpp"

namespace keysquare {

/// The sentences of the themes about squares and pieces.
inline constexpr std::array square_sentences{
    SentenceRow{Theme::hole, Detail::none,
                "{Other} has {squares:hole} where a minor piece of {Side} can settle ({squares}).", ""},
    SentenceRow{Theme::outpost, Detail::held_by_piece,
                "{Man} holds an outpost: a pawn guards it, and no enemy pawn can drive it off.", ""},
    SentenceRow{Theme::outpost, Detail::none, "{Pieces} can be on an outpost ({squares}) in {moves_to_go:move}.", ""},
    SentenceRow{Theme::space, Detail::none,
                "{Side} has more space: {squares:square} of room behind the pawns against {squares_of_other}.", ""},
    SentenceRow{Theme::good_bishop, Detail::none,
                "{Man} is a good bishop: {fixed_pawns:own pawn} fixed on the other colour ({squares}).", ""},
    SentenceRow{Theme::bad_bishop, Detail::none,
                "{Man} is a bad bishop: {fixed_pawns:own pawn} fixed on its colour ({squares}).", ""},
    SentenceRow{Theme::rim_knight, Detail::none, "{Man} stands on the rim, with {scope:square} of scope.", ""},
    SentenceRow{Theme::undeveloped, Detail::none,
                "{Other} is behind in development, with {pieces:minor piece} at home ({squares}).", ""},
    SentenceRow{Theme::passive_piece, Detail::none,
                "{Man} is passive: {scope:square} of scope, where {usual_scope} are usual.", ""},
    SentenceRow{Theme::guarding_only, Detail::none,
                "{Man} only guards ({squares}): it attacks no enemy man and no square of the enemy half.", ""},
};

} // namespace keysquare
