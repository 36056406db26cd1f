// Space: the room that a side has behind its pawns.
#pragma once

#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The room of `side` behind its pawns: squares
/// - on the files c to f, on the first four ranks as the side counts,
/// - with a pawn of the side on the same or a neighbouring file on a higher rank as the side counts (on any rank),
/// - on which no pawn of either side stands, and that no pawn of the other side attacks.
/// Pieces are not looked at. (That space is the room behind the pawns, that the middle files count for it and that a
/// square under fire from a pawn is no room is common practice, no source.) Constant time; at most 16.
[[nodiscard]] inline Squares space_of(const Position& position, Side side) noexcept {
    const Squares middle_files = file_squares(2) | file_squares(3) | file_squares(4) | file_squares(5);
    const Squares own = position.men(side, Kind::pawn);
    const Squares behind = with_all_ahead(other(side), own.moved(advance_of(other(side))));
    const Squares room = (behind | beside(behind)) & middle_files & half_of(side);
    return room & ~position.men(Kind::pawn) & ~pawn_attacks(other(side), position.men(other(side), Kind::pawn));
}

} // namespace keysquare
