// Outposts: squares in the enemy camp that a piece can keep, because a pawn guards them and no enemy pawn can drive it
// off.
#pragma once

#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The outposts of one side.
struct Outposts {
    /// Squares on the fifth to seventh rank, as the side counts, that a pawn of the side guards and that no enemy pawn
    /// attacks or could attack by advancing, whatever blocks it now. (An enemy pawn that changes its file by a capture
    /// is not foreseen.) Whatever stands on the square, if anything, does not matter. On the eighth rank no pawn could
    /// ever attack a piece, so the word would say nothing there.
    Squares squares;
    Squares taken; ///< those of them on which a knight or bishop of the side stands
};

/// Constant time.
[[nodiscard]] inline Outposts outposts(const Position& position, Side side) noexcept {
    const Squares own = position.men(side, Kind::pawn);
    const Squares enemy = position.men(other(side), Kind::pawn);
    const Squares attackable = pawn_attacks(other(side), with_all_ahead(other(side), enemy));
    const Squares last_rank = rank_squares(side == Side::white ? 7 : 0);
    Outposts found;
    found.squares = pawn_attacks(side, own) & half_of(other(side)) & ~last_rank & ~attackable;
    found.taken = found.squares & position.men(side) & (position.men(Kind::knight) | position.men(Kind::bishop));
    return found;
}

} // namespace keysquare
