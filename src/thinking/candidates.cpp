#include <keysquare/thinking/candidates.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>

#include <keysquare/thinking/fact_weights.hpp>
#include <keysquare/thinking/move_studies.hpp>

namespace keysquare {

namespace {

/// The sum of the weights of all facts about a move.
int weight_of_facts(const ReasonList& facts) noexcept {
    int sum = 0;
    for (const MoveReason& fact : facts) sum += weight_of(fact);
    return sum;
}

/// The reasons that weigh on one side, the weightiest first.
ReasonList weighing(const ReasonList& facts, bool for_the_move) {
    ReasonList chosen;
    for (const MoveReason& fact : facts) {
        const int weight = weight_of(fact);
        if (is_reason(fact.fact) && (for_the_move ? weight > 0 : weight < 0)) chosen.push_back(fact);
    }
    detail::sort_few(chosen, [](const MoveReason& a, const MoveReason& b) {
        return std::abs(weight_of(a)) > std::abs(weight_of(b));
    });
    return chosen;
}

/// Hands out the moves that do not lose, unless all do, the weightiest first. `allows` costs as much as all other facts
/// together and only takes weight away, so it is worked out for those moves alone that would come next without it.
class WeighedMoves {
  public:
    explicit WeighedMoves(const MoveStudies& studies) : studies_(studies) {
        static_assert(fact_weights[static_cast<std::size_t>(MoveFact::allows)].once <= 0 &&
                      fact_weights[static_cast<std::size_t>(MoveFact::allows)].each <= 0);
        for (std::size_t at = 0; at < studies.moves().size(); ++at) {
            const MoveStudy study = studies.study(at);
            moves_.push_back({study, weight_of_facts(study.facts)});
        }
        const auto loses = [](const Weighed& move) { return move.study.loses; };
        if (!detail::all_of(moves_, loses))
            for (Weighed& move : moves_) move.is_given = loses(move);
    }

    /// Null when no other move weighs more than the first one less `widest_gap`.
    [[nodiscard]] const MoveStudy* next() {
        for (;;) {
            Weighed* best = nullptr;
            for (Weighed& move : moves_)
                if (!move.is_given && (!best || move.weight > best->weight)) best = &move;
            if (!best || best->weight <= too_little_) return nullptr;
            if (best->is_complete) {
                too_little_ = (std::max)(too_little_, best->weight - widest_gap);
                best->is_given = true;
                return &best->study;
            }
            studies_.add_allows(best->study);
            best->weight = weight_of_facts(best->study.facts);
            best->is_complete = true;
        }
    }

  private:
    struct Weighed {
        MoveStudy study;
        int weight = 0;
        bool is_complete = false; ///< with `allows`
        bool is_given = false;    ///< or never to be given
    };

    const MoveStudies& studies_;
    std::vector<Weighed> moves_; ///< in the order of `legal_moves`
    int too_little_ = (std::numeric_limits<int>::min)();
};

Candidate candidate_from(const MoveStudy& study) {
    Candidate candidate;
    static_cast<MoveStudy&>(candidate) = study;
    candidate.weight = weight_of_facts(study.facts);
    candidate.reasons = weighing(study.facts, true);
    candidate.drawbacks = weighing(study.facts, false);
    return candidate;
}

} // namespace

Candidates candidates(const Position& position, int at_most, const Options& options) {
    const MoveStudies studies{position, options};
    WeighedMoves moves{studies};
    Candidates found;
    while (static_cast<int>(found.size()) < at_most) {
        const MoveStudy* const next = moves.next();
        if (!next) break;
        Candidate candidate = candidate_from(*next);
        if (candidate.reasons.empty()) continue;
        if (candidate.has(MoveFact::parries)) candidate.parried = *studies.threat_of_other();
        if (candidate.has(MoveFact::allows)) candidate.allowed = studies.allowed_by(candidate.move);
        found.push_back(candidate);
    }
    return found;
}

} // namespace keysquare
