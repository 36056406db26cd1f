// candidates: the few moves that deserve a look, each with its reasons.
#pragma once

#include <cstdlib>
#include <vector>

#include <keysquare/thinking/fact_weights.hpp>
#include <keysquare/thinking/move_studies.hpp>

namespace keysquare {

inline constexpr int most_candidates = 4;

/// A move worth a look.
struct Candidate : MoveStudy {
    int weight = 0;       ///< the sum of the weights of all facts; it orders candidates and means nothing else
    ReasonList reasons;   ///< the reasons (`is_reason`) for the move, the weightiest first; never empty
    ReasonList drawbacks; ///< those that speak against it, likewise
};

using Candidates = boost::container::small_vector<Candidate, most_candidates>;

/// The candidate moves of the mover, the one with the weightiest facts first; of equals the first in the order of
/// `legal_moves`. At most `at_most`, and fewer when fewer deserve a look: a move is none
/// - when it loses material inside the bound (`MoveStudy::loses`), unless every move does,
/// - when nothing speaks for it, or
/// - when it weighs `widest_gap` less than the first one.
/// None where there is no legal move. The order comes from the table in `fact_weights.hpp`; it is no judgement of the
/// position. One to two milliseconds.
[[nodiscard]] Candidates candidates(const Position& position, int at_most = most_candidates,
                                    const Options& options = {});

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The sum of the weights of all facts about a move.
inline int weight_of_facts(const ReasonList& facts) noexcept {
    int sum = 0;
    for (const MoveReason& fact : facts) sum += weight_of(fact);
    return sum;
}

/// The reasons that weigh on one side, the weightiest first.
inline ReasonList weighing(const ReasonList& facts, bool for_the_move) {
    ReasonList chosen;
    for (const MoveReason& fact : facts) {
        const int weight = weight_of(fact);
        if (is_reason(fact.fact) && (for_the_move ? weight > 0 : weight < 0)) chosen.push_back(fact);
    }
    std::ranges::stable_sort(chosen, std::ranges::greater{},
                             [](const MoveReason& fact) { return std::abs(weight_of(fact)); });
    return chosen;
}

inline Candidate candidate_from(const MoveStudy& study) {
    Candidate candidate;
    static_cast<MoveStudy&>(candidate) = study;
    candidate.weight = weight_of_facts(study.facts);
    candidate.reasons = weighing(study.facts, true);
    candidate.drawbacks = weighing(study.facts, false);
    return candidate;
}

} // namespace detail

inline Candidates candidates(const Position& position, int at_most, const Options& options) {
    const MoveStudies studies{position, options};
    std::vector<MoveStudy> moves;
    for (std::size_t at = 0; at < studies.moves().size(); ++at) moves.push_back(studies.study(at));
    const auto loses = [](const MoveStudy& move) { return move.loses; };
    if (!std::ranges::all_of(moves, loses)) std::erase_if(moves, loses);
    const auto weight = [](const MoveStudy& move) { return detail::weight_of_facts(move.facts); };
    std::ranges::stable_sort(moves, std::ranges::greater{}, weight);
    Candidates found;
    for (const MoveStudy& move : moves) {
        if (static_cast<int>(found.size()) >= at_most || weight(moves.front()) - weight(move) >= widest_gap) break;
        Candidate candidate = detail::candidate_from(move);
        if (!candidate.reasons.empty()) found.push_back(std::move(candidate));
    }
    return found;
}

} // namespace keysquare
