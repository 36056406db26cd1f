// FreePlay: what a side achieves in a few moves when nobody stops it.
#pragma once

#include <keysquare/features/options.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// No more free moves than this are looked at.
inline constexpr int most_free_moves = 3;

/// The best that a side can do with free moves.
struct FreePlay {
    int looked_at = 0;    ///< strings of 1 to this many free moves were tried
    bool mate = false;    ///< the last free move, with the best replies, mates
    bool complete = true; ///< false when the node bound left a string undecided; that one is not counted
    int gain = 0;         ///< what all of it wins, in pawns; 0 without moves when nothing wins anything
    BoundedList<Move, most_free_moves> moves; ///< the free moves, the other side passing in between
    Line line;                                ///< the last of them again, and the best replies to it
};

/// What the mover achieves at best with 1 to `moves` (at most `most_free_moves`) free moves in a row, every legal move
/// tried. The other side passes between them, so none but the last gives check and en passant lapses; after the last
/// one it answers, and `resolve` says what comes of it. `gain` is what the free moves win by themselves
/// (`immediate_gain`) minus what the other side then wins by `resolve`. A mate is better than any gain; of equals the
/// one with fewer moves, then the first in the order of `legal_moves` counts. Doing nothing wins 0, so nothing that
/// wins less is given. About a millisecond for three moves.
[[nodiscard]] FreePlay free_play(const Position& position, int moves, const Options& options = {}) noexcept;

} // namespace keysquare
