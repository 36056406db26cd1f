#include <keysquare/thinking/move_studies.hpp>

#include <algorithm>

#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/thinking/counted_facts.hpp>

#include "threat_parts.hpp"

namespace keysquare {

namespace {

constexpr int most = 9; ///< of an amount

void add(ReasonList& facts, const MoveReason& reason) {
    if (reason.amount != 0) facts.push_back(reason);
}
void add(ReasonList& facts, MoveFact fact, int amount, Squares squares) {
    add(facts, {fact, static_cast<std::int16_t>(amount), squares});
}

/// What the move keeps, at most 0.
int kept_by(const MoveStudy& study) noexcept {
    if (study.kept.mated) return -detail::mate_line;
    return study.kept.mate ? 0 : (std::min)(0, study.kept.gain);
}

} // namespace

MoveStudies::MoveStudies(const Position& position, const Options& options) noexcept
    : position_(position), options_(options), judged_(position, options), wins_(position, options.least_gain, options),
      facts_(position), at_once_(resolve(position, options.bound, options.values)), fallen_(falls_after_pass()),
      threats_(threats(position, options)) {
    if (!threats_.empty()) threatened_.emplace(position, threats_.front(), options);
}

MoveStudy MoveStudies::study(std::size_t at) const {
    MoveStudy study;
    study.move = moves()[at];
    const Position moved = after(position_, study.move);
    const FeatureFacts facts_after{moved};
    study.won = wins_.win(study.move);
    study.kept = judged_.value(at);
    study.loses = study.won.line.empty() && study.kept.complete && kept_by(study) < judged_.baseline();
    study.threat = threat_of(moved);
    add_searched(study);
    for (const CountedFact& counted : counted_facts())
        add(study.facts, counted.count({facts_, facts_after, study.move}));
    return study;
}

void MoveStudies::add_allows(MoveStudy& study) const {
    if (!study.won.line.empty()) return;
    if (!leaves_threat(study) && !reply_wins(position_, study.move, options_)) return;
    const MoveReason allows{MoveFact::allows, 1, Squares{study.move.target()}};
    const std::size_t place =
        detail::place_of(study.facts, [&](const MoveReason& one) { return one.fact > allows.fact; });
    study.facts.insert(study.facts.begin() + place, allows);
}

Outcome MoveStudies::allowed_by(Move move) const noexcept { return winning_reply(position_, move, options_); }

void MoveStudies::add_searched(MoveStudy& study) const {
    const Outcome& won = study.won;
    const bool wins = !won.line.empty();
    const Squares won_squares = detail::taken_by_line(position_, won.line, won.mate);
    add(study.facts, MoveFact::mates, wins && won.mate ? 1 : 0, won_squares);
    add(study.facts, MoveFact::wins, wins && !won.mate ? won.gain : 0, won_squares);
    const Squares target{study.move.target()};
    const int kept = kept_by(study);
    add(study.facts, MoveFact::meets_threat, std::clamp(kept - judged_.standing(), 0, most), fallen_);
    add(study.facts, MoveFact::costs, wins ? 0 : std::clamp(judged_.best() - kept, 0, most), target);
    if (!study.threat.line.empty()) {
        const Position again = turned(after(position_, study.move));
        const Squares threatened = detail::taken_by_line(again, study.threat.line, study.threat.mate);
        add(study.facts, MoveFact::threatens_mate, study.threat.mate ? 1 : 0, threatened);
        add(study.facts, MoveFact::threatens, study.threat.mate || wins ? 0 : study.threat.gain - won_at_once(),
            threatened);
    }
    const bool even = study.kept.complete && !study.kept.mated && study.kept.gain == 0;
    add(study.facts, MoveFact::trades, !wins && even && detail::takes(position_, study.move) ? 1 : 0, target);
    const bool parries = threatened_ && !threatened_->is_on(after(position_, study.move), study.move);
    add(study.facts, MoveFact::parries, parries ? 1 : 0, parries ? threats_.front().squares : Squares{});
}

Outcome MoveStudies::threat_of(const Position& moved) const noexcept {
    if (in_check(moved) || at_once_.mate) return {};
    const Position again = turned(moved);
    const int enough = won_at_once() + options_.least_gain;
    if (!resolve_wins(again, enough, options_.bound, options_.values).holds) return {};
    const Outcome threat = resolve(again, options_.bound, options_.values);
    return threat.complete ? threat : Outcome{};
}

bool MoveStudies::leaves_threat(const MoveStudy& study) const noexcept {
    return threatened_ && !study.has(MoveFact::parries) && immediate_gain(position_, study.move, options_.values) == 0;
}

int MoveStudies::won_at_once() const noexcept { return (std::max)(0, at_once_.gain); }

Squares MoveStudies::falls_after_pass() const noexcept {
    if (in_check(position_) || judged_.standing() == 0) return {};
    const Position handed_over = turned(position_);
    const Outcome taken = resolve(handed_over, options_.bound, options_.values);
    return detail::taken_by_line(handed_over, taken.line, taken.mate);
}

} // namespace keysquare
