// Fixed pawns: pawns that can't well advance.
#pragma once

#include <optional>

#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

/// Pawns of `side` that can't well advance: the square before them holds a pawn or a man of the other side, or one step
/// (made whoever is to move, a pin ignored, to a queen on the last rank) loses the pawn: the other side then wins at
/// least 1 more by `exchange` there than the step won. A pawn behind a piece of its own is not fixed.
[[nodiscard]] Squares fixed_pawns_of(const Position& position, Side side, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

inline Squares fixed_pawns_of(const Position& position, Side side, const Values& values) noexcept {
    const Squares pawns = position.men(side, Kind::pawn);
    const int advance = advance_of(side);
    const Squares blocks = position.men(Kind::pawn) | position.men(other(side));
    Squares fixed = pawns & blocks.moved(-advance);
    std::optional<Position> turn;
    for (const Square pawn : pawns & ~fixed & (~position.occupied()).moved(-advance)) {
        const Square stop = square_at(index(pawn) + advance);
        if (!attackers_of(position, stop, other(side), position.occupied().without(pawn))) continue;
        if (!turn) turn = position.mover() == side ? position : turned(position);
        const Move step{pawn, stop, rank_for(side, stop) == 7 ? MoveType::promote_queen : MoveType::plain};
        const int won = immediate_gain(*turn, step, values);
        if (exchange_wins(after(*turn, step), stop, 1 + won, values)) fixed |= Squares{pawn};
    }
    return fixed;
}

} // namespace keysquare
