#include <keysquare/thinking/move_wins.hpp>

#include <algorithm>

#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/tactics/quiet_refutation.hpp>

namespace keysquare {

bool MoveWins::any() const noexcept {
    for (const bool forcing : {true, false})
        for (const Move move : moves_)
            if ((detail::takes(position_, move) || finder_.gives_check(move)) == forcing && wins(move)) return true;
    return false;
}

bool MoveWins::threatens(Move move, int least) const noexcept {
    return finder_.gives_check(move) || again(move, (std::max)(least, at_once() + 1));
}

Outcome MoveWins::judge(Move move, bool exact) const noexcept {
    const int won = immediate_gain(position_, move, options_.values);
    const bool takes = detail::takes(position_, move);
    const bool checks = finder_.gives_check(move);
    Outcome forced;
    Kept known;
    Verdict enough;
    if (takes || checks) enough = move_keeps(position_, move, least_, options_.bound, options_.values, known);
    stopped_ = stopped_ || !enough.complete;
    if (enough.holds) {
        if (exact)
            forced = value_of_move(position_, move, options_.bound, options_.values, known);
        else
            forced = {least_, false, false, true, Line{move}};
        stopped_ = stopped_ || !forced.complete;
        if (!forced.complete) forced.line.clear();
        if (forced.mate) return forced;
        if (takes && !forced.line.empty())
            if (const Outcome refuted = refutation(move, forced.gain - 1 - won); !refuted.line.empty())
                return is_enough(refuted) ? refuted : Outcome{};
        if (!exact && !forced.line.empty()) return forced;
    }
    const int more = forced.line.empty() ? least_ : forced.gain + 1;
    if (!checks && !again(move, takes ? more - won : (std::max)(more, at_once() + 1))) return forced;
    const Outcome outcome = gain_against_every_reply(position_, move, more, {}, Delays::checks_and_captures,
                                                     options_.bound, options_.values);
    stopped_ = stopped_ || !outcome.complete;
    return is_enough(outcome) ? outcome : forced;
}

bool MoveWins::is_enough(const Outcome& outcome) const noexcept {
    return !outcome.line.empty() && (outcome.mate || (!outcome.mated && outcome.gain >= least_));
}

Outcome MoveWins::refutation(Move move, int ceiling) const noexcept {
    Outcome refuted = quiet_refutation(after(position_, move), move.target(), ceiling, options_.least_gain,
                                       options_.bound, options_.values);
    if (refuted.line.empty()) return refuted;
    return preceded_by(move, immediate_gain(position_, move, options_.values), refuted);
}

bool MoveWins::again(Move move, int threshold) const noexcept {
    if (threshold <= 0) return true;
    const Verdict more = resolve_wins(turned(after(position_, move)), threshold, options_.bound, options_.values);
    stopped_ = stopped_ || !more.complete;
    return more.holds;
}

int MoveWins::at_once() const noexcept {
    if (!at_once_) {
        const Outcome outcome = resolve(position_, options_.bound, options_.values);
        stopped_ = stopped_ || !outcome.complete;
        const int gain = outcome.mated || !outcome.complete ? 0 : (std::max)(0, outcome.gain);
        at_once_ = outcome.complete && outcome.mate ? detail::mate_score : gain;
    }
    return *at_once_;
}

namespace {

[[nodiscard]] int enough_after(const Position& position, Move move, const Options& options) noexcept {
    return options.least_gain + immediate_gain(position, move, options.values);
}

/// The best move of those that win at least `enough`.
[[nodiscard]] Outcome best_win(const MoveWins& wins, int enough) noexcept {
    Outcome best;
    for (const Move move : wins.moves()) {
        const Outcome outcome = wins.win(move);
        if (outcome.line.empty() || (!outcome.mate && outcome.gain < enough)) continue;
        if (is_better(outcome, best)) best = outcome;
    }
    return best;
}

} // namespace

bool reply_wins(const Position& position, Move move, const Options& options) noexcept {
    const Position moved = after(position, move);
    const int enough = enough_after(position, move, options);
    const MoveWins wins{moved, enough, options};
    if (wins.any()) return true;
    return wins.was_stopped() && !best_win(MoveWins{moved, options.least_gain, options}, enough).line.empty();
}

Outcome winning_reply(const Position& position, Move move, const Options& options) noexcept {
    const Position moved = after(position, move);
    const int enough = enough_after(position, move, options);
    const MoveWins wins{moved, enough, options};
    const Outcome best = best_win(wins, enough);
    if (!best.line.empty() || !wins.was_stopped()) return best;
    return best_win(MoveWins{moved, options.least_gain, options}, enough);
}

} // namespace keysquare
