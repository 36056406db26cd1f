// Routes: how a piece gets to a square, safely, while the other side passes.
#pragma once

#include <vector>

#include <keysquare/features/finding.hpp>
#include <keysquare/notation/error.hpp>
#include <keysquare/thinking/stop.hpp>

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

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The breadth-first search. A man that has taken nothing yet leaves everything else as it was, so where it stands says
/// which position is meant, and what it keeps there does not depend on where it came from.
class RouteSearch {
  public:
    RouteSearch(const Position& start, Square from, Squares targets, const Options& options)
        : from_(from), targets_(targets), options_(options) {
        seen_ = Squares{from};
        stops_.push_back({from, start});
    }

    /// Fills in `moves`, `ways` and `routes`.
    void run(Routes& found) {
        for (int moves = 1; moves <= longest_safe_route && !stops_.empty(); ++moves) {
            const Squares arrived = step();
            if (!(arrived & targets_)) continue;
            found.moves = moves;
            list(arrived & targets_, found);
            return;
        }
    }

  private:
    struct Stop {
        Square square = Square::none;
        Position position; ///< with the man's side to move
    };
    /// What was found out about a square: whether the man is safe there when it has to keep `baseline`.
    struct Known {
        bool asked = false;
        bool safe = false;
        int baseline = 0;
    };

    /// One more move from every stop; the squares that are reached with it and not earlier.
    Squares step() {
        Squares arrived;
        Stops next;
        for (const Stop& stop : stops_) {
            const int baseline = baseline_of(stop.position, options_);
            for (const Move move : legal_moves(stop.position, ~seen_)) {
                if (move.origin() != stop.square || move.castles() || !may_arrive(stop.position, move)) continue;
                if (!is_safe(stop.position, move, baseline)) continue;
                const Square square = move.target();
                if (!targets_.has(square) && !arrived.has(square)) {
                    const auto onward = passed(after(stop.position, move));
                    if (!onward) continue;
                    next.push_back({square, *onward});
                }
                arrived |= Squares{square};
                moves_.push_back(move);
            }
        }
        seen_ |= arrived;
        stops_.swap(next);
        return arrived;
    }

    [[nodiscard]] bool may_arrive(const Position& position, Move move) const noexcept {
        if (move.promotes()) return move.promotion() == Kind::queen && targets_.has(move.target());
        return targets_.has(move.target()) || captured_by(position, move) == Kind::none;
    }

    /// A double step is asked about each time: the pawn may be taken en passant then.
    [[nodiscard]] bool is_safe(const Position& position, Move move, int baseline) noexcept {
        Known& known = known_[static_cast<std::size_t>(move.target())];
        if (known.asked && known.baseline == baseline && move.type() != MoveType::double_step) return known.safe;
        const bool safe = stop_safety(position, move, baseline, options_) == StopSafety::safe;
        if (move.type() != MoveType::double_step) known = {true, safe, baseline};
        return safe;
    }

    /// Counts and lists the routes that end on `ends`.
    void list(Squares ends, Routes& found) {
        std::array<int, 64> ways{}; // from a square to an end; moves are in the order of their level
        for (const Square end : ends) ways[static_cast<std::size_t>(end)] = 1;
        for (std::size_t at = moves_.size(); at-- > 0;)
            ways[static_cast<std::size_t>(moves_[at].origin())] += ways[static_cast<std::size_t>(moves_[at].target())];
        found.ways = ways[static_cast<std::size_t>(from_)];
        const auto place = [](Move move) { return index(move.origin()) * 64 + index(move.target()); };
        sort_few(moves_, [&](Move a, Move b) { return place(a) < place(b); });
        Route route;
        extend(route, from_, ends, ways, found);
    }

    void extend(Route& route, Square at, Squares ends, const std::array<int, 64>& ways, Routes& found) const {
        if (found.routes.size() == found.routes.capacity()) return;
        if (ends.has(at)) return found.routes.push_back(route);
        for (const Move move : moves_) {
            if (move.origin() != at || ways[static_cast<std::size_t>(move.target())] == 0) continue;
            route.push_back(move);
            extend(route, move.target(), ends, ways, found);
            route.pop_back();
        }
    }

    using Stops = std::vector<Stop>;

    Square from_;
    Squares targets_;
    const Options& options_;
    Squares seen_;
    Stops stops_;
    std::vector<Move> moves_; ///< every move that belongs to a shortest way to its target
    std::array<Known, 64> known_{};
};

} // namespace detail

inline Result<Routes> route(const Position& position, Square from, Squares targets, const Options& options) {
    if (from == Square::none || !position.piece_at(from))
        return InputError{Reason::no_such_piece, Field::none, 1, name(from)};
    Routes found;
    found.piece = {from, position.piece_at(from)};
    found.targets = targets;
    found.after_pass = position.mover() != found.piece.piece.side;
    found.there = targets.has(from);
    const auto start = turn_of(position, found.piece.piece.side);
    found.exists = start.has_value();
    if (start && !found.there) detail::RouteSearch{*start, from, targets, options}.run(found);
    return found;
}

} // namespace keysquare
