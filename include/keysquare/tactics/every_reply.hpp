// every_reply: what a move comes to when the other side may answer with any legal move, not only with captures and
// checks.
#pragma once

#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// Replies that may be looked at again when they keep too much. A check or a trade by itself parries nothing: its delay
/// is over when it is answered, and the delaying side then needs a reply again.
enum class Delays : std::uint8_t {
    none,                ///< no reply is looked at again
    checks,              ///< replies that give check
    checks_and_captures, ///< and replies that capture
};

/// The best reply in `position` by `value_of_move`, when every legal reply keeps at most `ceiling`; no line when one
/// keeps more, when that is not certain inside the bound, or when there is no legal move.
///
/// A reply that keeps more and is one of `delays` is looked at again: the other side may answer a check with any legal
/// move, any other delay with the captures on the square where it arrived. The delay then keeps what the best of these
/// answers leaves it, when after that no reply keeps more than the rest of `ceiling` (this time without delays).
///
/// `arrived` is where the move that is answered arrived, `attacked` what it attacks: taking the attacker or moving
/// away is the usual way out. Such replies are tried first, delays last; the verdict does not depend on it. Of equal
/// replies the first in the order of `legal_moves` is shown, those that are no delay first. At worst one `move_keeps` a
/// legal move, and as many for each answer to a delay.
[[nodiscard]] Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked,
                                        Delays delays, const Bound& bound = {}, const Values& values = {}) noexcept;

/// What `move` wins at least against every reply (`best_reply_within`). No line when that is less than `least`. A move
/// that mates wins with the line that is itself.
[[nodiscard]] Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked,
                                               Delays delays, const Bound& bound = {},
                                               const Values& values = {}) noexcept;

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

/// What a delay keeps when the best answer to it follows; no line when no answer holds it to `ceiling`.
inline Outcome best_of_answered_delay(const Position& position, Move delay, int ceiling, const Bound& bound,
                                      const Values& values) noexcept {
    const Position delayed = after(position, delay);
    const int won = immediate_gain(position, delay, values);
    Outcome answered; // for the side that answers
    for (const Move answer : in_check(delayed) ? legal_moves(delayed) : captures_of(delayed, delay.target())) {
        const int taken = immediate_gain(delayed, answer, values);
        const Outcome reply = best_reply_within(after(delayed, answer), ceiling - won + taken, answer.target(), {},
                                                Delays::none, bound, values);
        if (reply.line.empty()) continue;
        const Outcome outcome = followed_by(answer, taken, reply);
        if (is_better(outcome, answered)) answered = outcome;
    }
    return answered.line.empty() ? Outcome{} : followed_by(delay, won, answered);
}

/// Says of each reply to a move whether it is a delay, and when it is looked at.
struct ReplyOrder {
    const Position& position;
    CheckFinder finder;
    Delays delays;
    Square arrived;
    Squares attacked;

    static constexpr int turns = 4;

    [[nodiscard]] bool is_delay(Move reply) const noexcept {
        if (delays == Delays::none) return false;
        if (delays == Delays::checks_and_captures && captured_by(position, reply) != Kind::none) return true;
        return finder.gives_check(reply);
    }
    [[nodiscard]] int turn_of(Move reply) const noexcept {
        if (reply.target() == arrived) return 0;
        if (attacked.has(reply.origin())) return 1;
        if (delays == Delays::checks_and_captures) return is_delay(reply) ? 3 : 2;
        return captured_by(position, reply) != Kind::none ? 2 : 3;
    }
};

} // namespace detail

inline Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked, Delays delays,
                                 const Bound& bound, const Values& values) noexcept {
    const MoveList replies = legal_moves(position);
    const detail::ReplyOrder order{position, CheckFinder{position}, delays, arrived, attacked};
    KeptList known = nothing_known(replies.size());
    MoveList again; // delays that keep more than the ceiling
    for (int turn = 0; turn < detail::ReplyOrder::turns; ++turn)
        for (std::size_t at = 0; at < replies.size(); ++at) {
            const Move reply = replies[at];
            if (order.turn_of(reply) != turn) continue;
            const Verdict more = move_keeps(position, reply, ceiling + 1, bound, values, known[at]);
            if (!more.complete || (more.holds && !order.is_delay(reply))) return {};
            if (more.holds) again.push_back(reply);
        }
    MoveList plain;
    KeptList known_of_plain;
    Outcome delayed;
    for (std::size_t at = 0; at < replies.size(); ++at) {
        const Move reply = replies[at];
        if (!detail::contains(again, reply)) {
            plain.push_back(reply);
            known_of_plain.push_back(known[at]);
            continue;
        }
        const Outcome outcome = detail::best_of_answered_delay(position, reply, ceiling, bound, values);
        if (outcome.line.empty()) return {};
        if (is_better(outcome, delayed)) delayed = outcome;
    }
    const Outcome best = best_of(position, plain, bound, values, known_of_plain);
    if (!best.complete) return {};
    return is_better(delayed, best) ? delayed : best;
}

inline Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked, Delays delays,
                                        const Bound& bound, const Values& values) noexcept {
    const Position moved = after(position, move);
    const int won = immediate_gain(position, move, values);
    if (is_mated(moved)) return {won, true, false, true, Line{move}};
    const Outcome reply = best_reply_within(moved, won - least, move.target(), attacked, delays, bound, values);
    return reply.line.empty() ? Outcome{} : detail::followed_by(move, won, reply);
}

} // namespace keysquare
