// Pawn majorities: which side has more pawns on a wing.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

/// The files a to d (`Wing::long_`, the queenside) or e to h (`Wing::short_`, the kingside): each half of the board.
[[nodiscard]] constexpr Squares wing_squares(Wing wing) noexcept {
    const std::uint64_t queenside = 0x0F0F0F0F0F0F0F0F;
    return Squares{wing == Wing::long_ ? queenside : ~queenside};
}

/// The pawns on one wing.
struct WingPawns {
    Squares own;   ///< pawns of the side
    Squares enemy; ///< pawns of the other side

    /// Pawns more than the other side has; zero or less means no majority.
    [[nodiscard]] constexpr int majority() const noexcept { return own.count() - enemy.count(); }
};

/// The pawns on a wing as `side` sees them. Doubled pawns count like others. Constant time. Common practice, no source.
[[nodiscard]] inline WingPawns wing_pawns(const Position& position, Side side, Wing wing) noexcept {
    const Squares pawns = position.men(Kind::pawn) & wing_squares(wing);
    return {pawns & position.men(side), pawns & position.men(other(side))};
}

} // namespace keysquare
