// every_reply: what a move comes to when the other side may answer with any legal move, not only with captures and
// checks.
#pragma once

#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// The best reply in `position` by `value_of_move`, when every legal reply keeps at most `ceiling`; no line when one
/// keeps more, when that is not certain inside the bound, or when there is no legal move.
///
/// `answered_checks`: how often a reply that keeps more by giving check may be looked at again. A check alone parries
/// nothing: the side in check may answer it with any legal move, and the checking side then needs a reply again. The
/// reply then keeps what the best of these answers leaves it.
///
/// `arrived` is where the move that is answered arrived, `attacked` what it attacks: taking the attacker or moving
/// away is the usual way out, then other captures. Such replies are tried first; the answer does not depend on it,
/// except which of several equal replies is shown. At worst one `move_keeps` a legal move, then `best_of`.
[[nodiscard]] Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked,
                                        int answered_checks, const Bound& bound = {},
                                        const Values& values = {}) noexcept;

/// What `move` wins at least against every reply (`best_reply_within`, one check answered). No line when that is less
/// than `least`. A move that mates wins with the line that is itself.
[[nodiscard]] Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked,
                                               const Bound& bound = {}, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The outcome of `move` for the side that makes it, when `reply` is what the other side has after it.
inline Outcome followed_by(Move move, int won, const Outcome& reply) noexcept {
    Outcome outcome = preceded_by(move, 0, reply);
    outcome.gain = won - reply.gain;
    outcome.mate = reply.mated;
    outcome.mated = reply.mate;
    return outcome;
}

/// What a check keeps when the answer to it may be any legal move; no line when no answer holds it to `ceiling`.
inline Outcome best_of_answered_check(const Position& position, Move check, int ceiling, int answered_checks,
                                      const Bound& bound, const Values& values) noexcept {
    const Position checked = after(position, check);
    const int won = immediate_gain(position, check, values);
    Outcome answered; // for the side in check
    for (const Move answer : legal_moves(checked)) {
        const int taken = immediate_gain(checked, answer, values);
        const Position next = after(checked, answer);
        const Outcome reply =
            best_reply_within(next, ceiling - won + taken, answer.target(), {}, answered_checks - 1, bound, values);
        if (reply.line.empty()) continue;
        const Outcome outcome = followed_by(answer, taken, reply);
        if (is_better(outcome, answered)) answered = outcome;
    }
    return answered.line.empty() ? Outcome{} : followed_by(check, won, answered);
}

} // namespace detail

inline Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked,
                                 int answered_checks, const Bound& bound, const Values& values) noexcept {
    const MoveList replies = legal_moves(position);
    const CheckFinder finder{position};
    MoveList plain;
    MoveList checks;
    const auto turn_of = [&](Move reply) {
        if (reply.target() == arrived) return 0;
        if (attacked.has(reply.origin())) return 1;
        return captured_by(position, reply) != Kind::none ? 2 : 3;
    };
    for (const int turn : {0, 1, 2, 3})
        for (const Move reply : replies) {
            if (turn_of(reply) != turn) continue;
            const Verdict more = move_keeps(position, reply, ceiling + 1, bound, values);
            if (more.holds && more.complete && answered_checks > 0 && finder.gives_check(reply))
                checks.push_back(reply);
            else if (more.holds || !more.complete)
                return {};
        }
    for (const Move reply : replies)
        if (std::ranges::find(checks, reply) == checks.end()) plain.push_back(reply);
    Outcome best = best_of(position, plain, bound, values);
    if (!best.complete) return {};
    for (const Move check : checks) {
        const Outcome outcome =
            detail::best_of_answered_check(position, check, ceiling, answered_checks, bound, values);
        if (outcome.line.empty()) return {};
        if (is_better(outcome, best)) best = outcome;
    }
    return best;
}

inline Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked,
                                        const Bound& bound, const Values& values) noexcept {
    const Position moved = after(position, move);
    const int won = immediate_gain(position, move, values);
    if (is_mated(moved)) return {won, true, false, true, Line{move}};
    const Outcome reply = best_reply_within(moved, won - least, move.target(), attacked, 1, bound, values);
    return reply.line.empty() ? Outcome{} : detail::followed_by(move, won, reply);
}

} // namespace keysquare
