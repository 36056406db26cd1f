// Blocked pawns: pawns with a man on the square before them.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

/// The pawns of one side whose next square is occupied, by what stands there. No pawn is in two of the sets.
struct BlockedPawns {
    Squares fixed;      ///< by a pawn of the other side, which is fixed in turn
    Squares blockaded;  ///< by a piece (not a pawn) of the other side
    Squares obstructed; ///< by a man of its own side

    /// All three together.
    [[nodiscard]] constexpr Squares all() const noexcept { return fixed | blockaded | obstructed; }
};

/// Constant time.
[[nodiscard]] inline BlockedPawns blocked_pawns(const Position& position, Side side) noexcept {
    const Side enemy = other(side);
    const int back = advance_of(enemy);
    const Squares pawns = position.men(side, Kind::pawn);
    const Squares enemy_pawns = position.men(enemy, Kind::pawn);
    return {pawns & enemy_pawns.moved(back), pawns & (position.men(enemy) & ~enemy_pawns).moved(back),
            pawns & position.men(side).moved(back)};
}

} // namespace keysquare
