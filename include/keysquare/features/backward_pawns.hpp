// Backward pawns: pawns that their neighbours have left behind and that an enemy pawn keeps from catching up.
#pragma once

#include <keysquare/board/attacks.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The backward pawns of `side` (common practice, no source): all of these hold for such a pawn,
/// - a pawn of its side stands on a neighbouring file (it is not isolated),
/// - none of those stands level with it or behind it, so none can come to guard it or the square before it,
/// - a pawn of the other side attacks the square one step ahead of it, whatever stands there.
/// The last point keeps passed pawns out. Only pawns are looked at. Constant time.
[[nodiscard]] constexpr Squares backward_pawns(const PawnStructure& pawns, Side side) noexcept {
    const SidePawns& own = pawns.of(side);
    const Side enemy = other(side);
    const Squares level_or_behind = beside(with_all_ahead(side, own.pawns));
    const Squares held_back = pawn_attacks(enemy, pawns.of(enemy).pawns).moved(advance_of(enemy));
    return own.pawns & ~own.isolated & ~level_or_behind & held_back;
}
/// The same, from a position.
[[nodiscard]] inline Squares backward_pawns(const Position& position, Side side) noexcept {
    return backward_pawns(pawn_structure(position), side);
}

} // namespace keysquare
