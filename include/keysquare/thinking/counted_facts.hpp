// Counted facts: what a move changes, counted on the board before it and after it.
#pragma once

#include <span>
#include <string_view>

#include <keysquare/features/feature_facts.hpp>
#include <keysquare/thinking/move_facts.hpp>

namespace keysquare {

/// A move between the boards that it connects.
struct MoveMade {
    const FeatureFacts& before; ///< the board before the move
    const FeatureFacts& after;  ///< the board after it
    Move move;                  ///< the move

    /// The side that moves.
    [[nodiscard]] Side side() const noexcept { return before.position.mover(); }
    /// The kind of the man that moves; a pawn that promotes is a pawn.
    [[nodiscard]] Kind kind() const noexcept { return before.position.kind_at(move.origin()); }
    /// Where it comes from.
    [[nodiscard]] Square from() const noexcept { return move.origin(); }
    /// Where the man that moved stands now; for castling, where the king stands.
    [[nodiscard]] Square to() const noexcept { return move.castles() ? after.position.king(side()) : move.target(); }
};

/// One row of the table of counted facts.
struct CountedFact {
    MoveFact fact;               ///< which fact
    std::string_view definition; ///< "the side" is the one that moves; the words are those of the numeric vector
    MoveReason (*count)(const MoveMade& made) noexcept; ///< counts it
};

/// Every fact that is counted, in the order of `MoveFact`. No search.
[[nodiscard]] std::span<const CountedFact> counted_facts() noexcept;

} // namespace keysquare
