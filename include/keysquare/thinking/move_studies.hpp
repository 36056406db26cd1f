// MoveStudies: every legal move of the side to move, with what it wins, keeps and threatens and all facts about it.
#pragma once

#include <optional>

#include <keysquare/thinking/counted_facts.hpp>
#include <keysquare/thinking/parries.hpp>

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

/// The facts about each legal move, worked out when it is asked about.
///
/// The searched ones: `mates` and `wins` are those of `won`. `meets_threat` is what `kept` has more than
/// `JudgedMoves::standing`, each at most 0. `costs` is what `kept` of a move that wins nothing has less than
/// `JudgedMoves::best`, from 0 to 9; being mated costs 9. `threatens_mate` and `threatens` are those of `threat`;
/// `threatens` is what it wins more than what `resolve` wins in the position as it stands (at least 0), and only where
/// the move wins nothing and gives no check. `trades` is 1 for a move that takes or promotes, wins nothing and keeps
/// exactly the balance. `parries` is 1 when the strongest threat of the other side is stopped (`Parry::stops`).
/// `allows`, which costs most, is left out by `study` and added by `add_allows`: 1 when the move wins nothing and some
/// reply wins `Options::least_gain` more than the move took (`MoveWins`). The squares are those of the men that the
/// lines take; for `meets_threat`, of those that would fall after a pass.
///
/// A tenth of a millisecond a move at worst. Refers to the position, copies the options, and belongs to one thread.
class MoveStudies {
  public:
    /// Judges all legal moves; what else is known of them is worked out when it is asked for.
    MoveStudies(const Position& position, const Options& options) noexcept
        : position_(position), options_(options), judged_(position, options),
          wins_(position, options.least_gain, options), facts_(position),
          at_once_(resolve(position, options.bound, options.values)), fallen_(falls_after_pass()),
          threats_(threats(position, options)) {
        if (!threats_.empty()) threatened_.emplace(position, threats_.front(), options);
    }
    MoveStudies(const Position&& position, const Options& options) = delete;

    /// In the order of `legal_moves`.
    [[nodiscard]] const MoveList& moves() const noexcept { return judged_.moves(); }
    /// What each of the moves keeps and loses.
    [[nodiscard]] const JudgedMoves& judged() const noexcept { return judged_; }

    /// Everything about a move but `allows`, by its place in `moves()`.
    [[nodiscard]] MoveStudy study(std::size_t at) const {
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

    /// The strongest threat of the other side, or null.
    [[nodiscard]] const Threat* threat_of_other() const noexcept {
        return threats_.empty() ? nullptr : &threats_.front();
    }

    /// Adds the fact `allows` where it holds.
    void add_allows(MoveStudy& study) const {
        if (!study.won.line.empty()) return;
        const Position moved = after(position_, study.move);
        if (!leaves_threat(study) && !MoveWins{moved, enough_after(study.move), options_}.any()) return;
        const MoveReason allows{MoveFact::allows, 1, Squares{study.move.target()}};
        const std::size_t place =
            detail::place_of(study.facts, [&](const MoveReason& one) { return one.fact > allows.fact; });
        study.facts.insert(study.facts.begin() + place, allows);
    }

    /// The best reply to a move that `allows` something: what it wins, and the line that starts with it. The first of
    /// equals.
    [[nodiscard]] Outcome allowed_by(Move move) const noexcept {
        const Position moved = after(position_, move);
        const MoveWins wins{moved, enough_after(move), options_};
        Outcome best;
        for (const Move reply : wins.moves())
            if (const Outcome outcome = wins.win(reply); !outcome.line.empty() && is_better(outcome, best))
                best = outcome;
        return best;
    }

  private:
    static constexpr int most = 9;

    static void add(ReasonList& facts, const MoveReason& reason) {
        if (reason.amount != 0) facts.push_back(reason);
    }
    static void add(ReasonList& facts, MoveFact fact, int amount, Squares squares) {
        add(facts, {fact, static_cast<std::int16_t>(amount), squares});
    }

    void add_searched(MoveStudy& study) const {
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

    /// What the move keeps, at most 0.
    [[nodiscard]] static int kept_by(const MoveStudy& study) noexcept {
        if (study.kept.mated) return -detail::mate_line;
        return study.kept.mate ? 0 : (std::min)(0, study.kept.gain);
    }

    /// What the move threatens: a mate, or more than falls at once.
    [[nodiscard]] Outcome threat_of(const Position& moved) const noexcept {
        if (in_check(moved) || at_once_.mate) return {};
        const Position again = turned(moved);
        const int enough = won_at_once() + options_.least_gain;
        if (!resolve_wins(again, enough, options_.bound, options_.values).holds) return {};
        const Outcome threat = resolve(again, options_.bound, options_.values);
        return threat.complete ? threat : Outcome{};
    }

    /// Whether the threat that is still on is enough, without a search: the move took nothing.
    [[nodiscard]] bool leaves_threat(const MoveStudy& study) const noexcept {
        return threatened_ && !study.has(MoveFact::parries) &&
               immediate_gain(position_, study.move, options_.values) == 0;
    }

    /// What a reply has to win so that the move allows something.
    [[nodiscard]] int enough_after(Move move) const noexcept {
        return options_.least_gain + immediate_gain(position_, move, options_.values);
    }

    [[nodiscard]] int won_at_once() const noexcept { return (std::max)(0, at_once_.gain); }

    [[nodiscard]] Squares falls_after_pass() const noexcept {
        if (in_check(position_) || judged_.standing() == 0) return {};
        const Position handed_over = turned(position_);
        const Outcome taken = resolve(handed_over, options_.bound, options_.values);
        return detail::taken_by_line(handed_over, taken.line, taken.mate);
    }

    const Position& position_;
    Options options_;
    JudgedMoves judged_;
    MoveWins wins_;
    FeatureFacts facts_;
    Outcome at_once_;
    Squares fallen_;
    Threats threats_; ///< of the other side
    std::optional<detail::ThreatAfterMoves> threatened_;
};

} // namespace keysquare
