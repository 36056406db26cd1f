#include <keysquare/thinking/route.hpp>

#include <array>
#include <vector>

#include <keysquare/thinking/stop.hpp>

namespace keysquare {

namespace {

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
        detail::sort_few(moves_, [&](Move a, Move b) { return place(a) < place(b); });
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

} // namespace

Result<Routes> route(const Position& position, Square from, Squares targets, const Options& options) {
    if (from == Square::none || !position.piece_at(from))
        return InputError{Reason::no_such_piece, Field::none, 1, name(from)};
    Routes found;
    found.piece = {from, position.piece_at(from)};
    found.targets = targets;
    found.after_pass = position.mover() != found.piece.piece.side;
    found.there = targets.has(from);
    const auto start = turn_of(position, found.piece.piece.side);
    found.exists = start.has_value();
    if (start && !found.there) RouteSearch{*start, from, targets, options}.run(found);
    return found;
}

} // namespace keysquare
