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
    if ((takes || checks) && move_keeps(position_, move, least_, options_.bound, options_.values, known).holds) {
        if (exact)
            forced = value_of_move(position_, move, options_.bound, options_.values, known);
        else
            forced = {least_, false, false, true, Line{move}};
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
    return threshold <= 0 ||
           resolve_wins(turned(after(position_, move)), threshold, options_.bound, options_.values).holds;
}

int MoveWins::at_once() const noexcept {
    if (!at_once_) {
        const Outcome outcome = resolve(position_, options_.bound, options_.values);
        const int gain = outcome.mated || !outcome.complete ? 0 : (std::max)(0, outcome.gain);
        at_once_ = outcome.complete && outcome.mate ? detail::mate_score : gain;
    }
    return *at_once_;
}

namespace {

// Asked for more than `least_gain`, a move presses less often, and a search stops at its bound elsewhere. So what is asked
// for is what `threats` asks for, and compared afterwards.
[[nodiscard]] bool is_worth(const Outcome& reply, int enough) noexcept {
    return !reply.line.empty() && (reply.mate || reply.gain >= enough);
}

} // namespace

bool reply_wins(const Position& position, Move move, const Options& options) noexcept {
    const Position moved = after(position, move);
    const int taken = immediate_gain(position, move, options.values);
    const MoveWins wins{moved, options.least_gain, options};
    if (taken == 0) return wins.any();
    return detail::any_of(wins.moves(),
                          [&](Move reply) { return is_worth(wins.win(reply), options.least_gain + taken); });
}

Outcome winning_reply(const Position& position, Move move, const Options& options) noexcept {
    const Position moved = after(position, move);
    const int enough = options.least_gain + immediate_gain(position, move, options.values);
    const MoveWins wins{moved, options.least_gain, options};
    Outcome best;
    for (const Move reply : wins.moves())
        if (const Outcome outcome = wins.win(reply); is_worth(outcome, enough) && is_better(outcome, best))
            best = outcome;
    return best;
}

} // namespace keysquare
