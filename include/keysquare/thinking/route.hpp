// Routes: how a piece gets to a square, safely, while the other side passes.
#pragma once

#include <cstddef>

#include <keysquare/features/finding.hpp>
#include <keysquare/features/options.hpp>
#include <keysquare/notation/error.hpp>

namespace keysquare {

/// No safe route is longer than this many moves, and no more routes than this are listed.
inline constexpr int longest_safe_route = 6;
inline constexpr std::size_t most_routes = 8; ///< No more routes than these are listed.

/// The moves of one route, all of the same man. Its stops are their targets.
using Route = BoundedList<Move, longest_safe_route>;

/// The shortest safe routes of one man.
struct Routes {
    Placed piece;            ///< the man, and where it starts
    Squares targets;         ///< where it was to go
    bool exists = false;     ///< false when its side has no turn: the other one is to move and stands in check
    bool after_pass = false; ///< the man's side is not to move: the other side passes first, too
    bool there = false;      ///< it stands on a target already; there are no routes then
    int moves = 0;           ///< how many moves each route takes; 0 when there is none
    int ways = 0;            ///< how many shortest routes there are, also those that are not listed
    /// The first `most_routes` of them, in the order of their stops (a1, b1, ..., h8).
    BoundedList<Route, most_routes> routes;
};

/// The shortest safe routes of the man on `from` to any square of `targets`, its side moving alone.
///
/// The man's side is to move at first (after a pass where the other side is), and the other side passes after each move
/// but the last. So each move is a legal move of the man, all other men standing where they stand, and none but the
/// last may give check, since a side in check can't pass. En passant lapses with every pass. A move that takes a man of
/// the other side or promotes ends the route, so it must end on a target; a pawn promotes to a queen. Castling is no
/// part of a route. Every stop is `safe` (`stop_safety` with the `baseline_of` the position before the move): a route
/// that is found is a plan of which `check_plan` finds every stop safe. Stalemate is not looked at.
///
/// Breadth first, at most `longest_safe_route` moves. Of the routes with the fewest moves all are counted (`ways`) and
/// the first `most_routes` listed. Costs a tenth of a millisecond on average.
/// Errors: `no_such_piece` when `from` is empty.
[[nodiscard]] Result<Routes> route(const Position& position, Square from, Squares targets, const Options& options = {});

/// The same to one square.
[[nodiscard]] inline Result<Routes> route(const Position& position, Square from, Square target,
                                          const Options& options = {}) {
    return route(position, from, Squares{target}, options);
}

} // namespace keysquare
