// candidates: the few moves that deserve a look, each with its reasons.
#pragma once

#include <vector>

#include <keysquare/features/options.hpp>
#include <keysquare/thinking/move_study.hpp>
#include <keysquare/thinking/threats.hpp>

namespace keysquare {

inline constexpr int most_candidates = 4; ///< How many candidates are named by default.

/// A move worth a look.
struct Candidate : MoveStudy {
    int weight = 0;       ///< the sum of the weights of all facts; it orders candidates and means nothing else
    ReasonList reasons;   ///< the reasons (`is_reason`) for the move, the weightiest first; never empty
    ReasonList drawbacks; ///< those that speak against it, likewise
    Threat parried;       ///< the threat of the other side that it `parries`; otherwise no line
    Outcome allowed;      ///< the reply that it `allows`, with what it wins for the other side; otherwise no line
};

using Candidates = std::vector<Candidate>; ///< The best one first.

/// The candidate moves of the mover, the one with the weightiest facts first; of equals the first in the order of
/// `legal_moves`. At most `at_most`, and fewer when fewer deserve a look: a move is none
/// - when it loses material inside the bound (`MoveStudy::loses`), unless every move does,
/// - when nothing speaks for it, or
/// - when it weighs `widest_gap` less than the first one.
/// None where there is no legal move. The order comes from the table in `fact_weights.hpp`; it is no judgement of the
/// position. One to two milliseconds.
[[nodiscard]] Candidates candidates(const Position& position, int at_most = most_candidates,
                                    const Options& options = {});

} // namespace keysquare
