// What a move wins against every reply, when a check or a trade in between does not count as an answer.
#pragma once

#include <keysquare/tactics/every_reply.hpp>
#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

/// What `move` wins at least against every legal reply, as `gain_against_every_reply` says it, except that a reply that
/// captures is treated like one that gives check.
///
/// `ceiling` is what `move` takes by itself minus `least`. A reply keeps what `value_of_move` says. One that keeps more
/// than `ceiling` and gives check or captures, a *delay*, is looked at again: the side of `move` may answer a check
/// with any legal move, any other delay with the captures on the square where it arrived. The delaying side then needs
/// a reply again, of which none may keep more than the rest of `ceiling` (`best_reply_within`, no check answered). The
/// delay keeps what the best of these answers leaves it, the first of equals. There is no line when a reply keeps more,
/// delays included, when that is not certain inside the bound, or when the move leaves the other side stalemated. A
/// move that mates wins with the line that is itself.
///
/// The line goes on with the reply that keeps most, the first in the order of `legal_moves` of equals, those that are
/// no delay first. At worst one `move_keeps` for each reply, and for each reply to each answer to a delay.
[[nodiscard]] Outcome gain_against_answered_replies(const Position& position, Move move, int least,
                                                    const Bound& bound = {}, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// What a delay keeps when the best answer follows; no line when no answer holds it to `ceiling`.
inline Outcome best_of_answered_delay(const Position& position, Move delay, int ceiling, const Bound& bound,
                                      const Values& values) noexcept {
    const Position delayed = after(position, delay);
    const int won = immediate_gain(position, delay, values);
    const MoveList answers = in_check(delayed) ? legal_moves(delayed) : captures_of(delayed, delay.target());
    Outcome answered; // for the side that answers
    for (const Move answer : answers) {
        const int taken = immediate_gain(delayed, answer, values);
        const Outcome reply =
            best_reply_within(after(delayed, answer), ceiling - won + taken, answer.target(), {}, 0, bound, values);
        if (reply.line.empty()) continue;
        const Outcome outcome = followed_by(answer, taken, reply);
        if (is_better(outcome, answered)) answered = outcome;
    }
    return answered.line.empty() ? Outcome{} : followed_by(delay, won, answered);
}

/// The replies of one position to one move, those that may refute it first.
class RepliesToMove {
  public:
    RepliesToMove(const Position& position, Square arrived, int ceiling, const Bound& bound,
                  const Values& values) noexcept
        : position_(position), replies_(legal_moves(position)), finder_(position), arrived_(arrived), ceiling_(ceiling),
          bound_(bound), values_(values) {}

    /// The best reply when every one is held to the ceiling, otherwise no line.
    [[nodiscard]] Outcome best() noexcept {
        if (replies_.empty() || !find_delays()) return {};
        MoveList plain;
        for (const Move reply : replies_)
            if (std::ranges::find(delays_, reply) == delays_.end()) plain.push_back(reply);
        Outcome delayed;
        for (const Move delay : delays_) {
            const Outcome outcome = best_of_answered_delay(position_, delay, ceiling_, bound_, values_);
            if (outcome.line.empty()) return {};
            if (is_better(outcome, delayed)) delayed = outcome;
        }
        const Outcome best = best_of(position_, plain, bound_, values_);
        if (!best.complete) return {};
        return is_better(delayed, best) ? delayed : best;
    }

  private:
    /// Whether every reply that keeps more than the ceiling is a delay.
    [[nodiscard]] bool find_delays() noexcept {
        for (const int turn : {0, 1, 2})
            for (const Move reply : replies_) {
                if (turn_of(reply) != turn) continue;
                const Verdict more = move_keeps(position_, reply, ceiling_ + 1, bound_, values_);
                if (!more.complete) return false;
                if (!more.holds) continue;
                if (!is_delay(reply)) return false;
                delays_.push_back(reply);
            }
        return true;
    }

    /// The usual way out is to take the man that has come, or a quiet move that needs no answer.
    [[nodiscard]] int turn_of(Move reply) const noexcept {
        if (reply.target() == arrived_) return 0;
        return is_delay(reply) ? 2 : 1;
    }

    [[nodiscard]] bool is_delay(Move reply) const noexcept {
        return captured_by(position_, reply) != Kind::none || finder_.gives_check(reply);
    }

    const Position& position_;
    MoveList replies_;
    MoveList delays_;
    CheckFinder finder_;
    Square arrived_;
    int ceiling_;
    const Bound& bound_;
    const Values& values_;
};

} // namespace detail

inline Outcome gain_against_answered_replies(const Position& position, Move move, int least, const Bound& bound,
                                             const Values& values) noexcept {
    const Position moved = after(position, move);
    const int won = immediate_gain(position, move, values);
    if (is_mated(moved)) return {won, true, false, true, Line{move}};
    const Outcome reply = detail::RepliesToMove{moved, move.target(), won - least, bound, values}.best();
    return reply.line.empty() ? Outcome{} : detail::followed_by(move, won, reply);
}

} // namespace keysquare
