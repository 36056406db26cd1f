// Routes to outposts: which minor pieces can reach an outpost of their side, and how soon.
#pragma once

#include <keysquare/board/legal.hpp>
#include <keysquare/features/outpost.hpp>

namespace keysquare {

/// No route to an outpost is longer than this many moves.
inline constexpr int longest_route = 3;

/// The nearest outposts of one side.
struct OutpostRoutes {
    int moves = 0;   ///< moves that the nearest one takes; 0 when none is within reach
    Squares squares; ///< the outposts that a piece reaches in so many moves
    Squares pieces;  ///< the knights and bishops that reach one of them in so many moves
};

/// Squares that the knight or bishop on `from` reaches in exactly the steps 1, 2, 3 (at index 0, 1, 2) and not earlier,
/// its own side moving alone: it moves as its kind does, every other man stays where it is, it enters no square that a
/// pawn of the other side attacks or a man of its own stands on, and ends its route where it takes a man of the other
/// side. Not on the square of a king, and not at all when the piece is pinned to its king (`pinned_men`), even if it
/// could move along the pin. What else guards the squares does not matter.
[[nodiscard]] std::array<Squares, longest_route> reached_by(const Position& position, Square from) noexcept;

/// The nearest outposts (`outposts`) within reach (`reached_by`) of the knights and bishops of `side` that do not stand
/// on an outpost of their side already: of all pairs of a piece and an outpost those with the fewest moves, at most
/// `longest_route`. A few hundred nanoseconds a piece.
[[nodiscard]] OutpostRoutes nearest_outposts(const Position& position, Side side) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

inline std::array<Squares, longest_route> reached_by(const Position& position, Square from) noexcept {
    std::array<Squares, longest_route> reached{};
    const Piece piece = position.piece_at(from);
    const Side enemy = other(piece.side);
    if (pinned_men(position, piece.side).has(from)) return reached;
    const Squares occupied = position.occupied().without(from);
    const Squares closed =
        position.men(piece.side) | position.men(Kind::king) | pawn_attacks(enemy, position.men(enemy, Kind::pawn));
    Squares seen{from};
    Squares stops{from};
    for (Squares& step : reached) {
        for (const Square stop : stops) step |= attacks_of(piece, stop, occupied);
        step &= ~(closed | seen);
        seen |= step;
        stops = step & ~occupied;
    }
    return reached;
}

inline OutpostRoutes nearest_outposts(const Position& position, Side side) noexcept {
    OutpostRoutes routes;
    const Outposts found = outposts(position, side);
    const Squares minors = position.men(side) & (position.men(Kind::knight) | position.men(Kind::bishop));
    const Squares free = found.squares & ~position.men(side);
    if (!free) return routes;
    for (const Square from : minors & ~found.taken) {
        const auto reached = reached_by(position, from);
        for (int moves = 1; moves <= longest_route; ++moves) {
            const Squares squares = reached[static_cast<std::size_t>(moves - 1)] & free;
            if (!squares) continue;
            if (routes.moves != 0 && routes.moves < moves) break;
            if (routes.moves != moves) routes = {moves, {}, {}};
            routes.squares |= squares;
            routes.pieces |= Squares{from};
            break;
        }
    }
    return routes;
}

} // namespace keysquare
