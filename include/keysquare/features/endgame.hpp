// Endgame: whether so few pieces are left that opening and middlegame ideas no longer apply.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

/// At most this many knights, bishops, rooks and queens of both sides together make an endgame. (A definition that N.
/// Minev gave; from memory.)
inline constexpr int most_endgame_pieces = 4;

/// Whether the position is an endgame: at most `most_endgame_pieces` men are left besides kings and pawns.
[[nodiscard]] inline bool is_endgame(const Position& position) noexcept {
    const Squares pieces = position.occupied() & ~(position.men(Kind::pawn) | position.men(Kind::king));
    return pieces.count() <= most_endgame_pieces;
}

} // namespace keysquare
