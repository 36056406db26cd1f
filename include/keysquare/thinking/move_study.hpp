// MoveStudy: what is known about one legal move.
#pragma once

#include <cstddef>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/board/list_algorithms.hpp>
#include <keysquare/tactics/resolve.hpp>
#include <keysquare/thinking/move_facts.hpp>

namespace keysquare {

/// One fact of each kind at most.
using ReasonList = BoundedList<MoveReason, static_cast<std::size_t>(MoveFact::end_)>;

/// What is known about one legal move.
struct MoveStudy {
    Move move;      ///< the move
    Outcome won;    ///< what it wins whatever the reply (`MoveWins`); no line when it wins nothing
    Outcome kept;   ///< `value_of_move`: what its side has when the other side replies with captures and checks
    Outcome threat; ///< what would follow if the other side passed (`resolve`), when it is a mate or more than falls at
                    ///< once without the move; otherwise no line. The line starts after the move and the pass.
    bool loses = false; ///< it keeps less than `JudgedMoves::baseline`, and wins nothing
    ReasonList facts;   ///< those with an amount other than 0, in the order of `MoveFact`

    /// Whether the move has the fact, by any amount.
    [[nodiscard]] bool has(MoveFact fact) const noexcept {
        return detail::any_of(facts, [&](const MoveReason& one) { return one.fact == fact; });
    }
};

} // namespace keysquare
