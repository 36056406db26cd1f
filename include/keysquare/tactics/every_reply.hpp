// every_reply: what a move comes to when the other side may answer with any legal move, not only with captures and checks.
#pragma once

#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// The best reply in `position` by `value_of_move`, when every legal reply keeps at most `ceiling`; no line when one keeps
/// more, when that is not certain inside the bound, or when there is no legal move.
///
/// `arrived` is where the move that is answered arrived, `attacked` what it attacks: taking the attacker or moving away is
/// the usual way out, then other captures. Such replies are tried first; the answer does not depend on it, except which
/// of several equal replies is shown. At worst one `move_keeps` a legal move, then `best_of`.
[[nodiscard]] Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked,
                                        const Bound& bound = {}, const Values& values = {}) noexcept;

/// What `move` wins at least against every reply: its immediate gain, then the other side's best legal reply, then
/// `resolve`. No line when that is less than `least`. A move that mates wins with the line that is itself.
[[nodiscard]] Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked,
                                               const Bound& bound = {}, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

inline Outcome best_reply_within(const Position& position, int ceiling, Square arrived, Squares attacked,
                                 const Bound& bound, const Values& values) noexcept {
    const MoveList replies = legal_moves(position);
    const auto turn_of = [&](Move reply) {
        if (reply.target() == arrived || attacked.has(reply.origin())) return 0;
        return captured_by(position, reply) != Kind::none ? 1 : 2;
    };
    for (const int turn : {0, 1, 2})
        for (const Move reply : replies) {
            if (turn_of(reply) != turn) continue;
            const Verdict more = move_keeps(position, reply, ceiling + 1, bound, values);
            if (more.holds || !more.complete) return {};
        }
    const Outcome best = best_of(position, replies, bound, values);
    return best.complete ? best : Outcome{};
}

inline Outcome gain_against_every_reply(const Position& position, Move move, int least, Squares attacked,
                                        const Bound& bound, const Values& values) noexcept {
    const Position moved = after(position, move);
    const int won = immediate_gain(position, move, values);
    if (is_mated(moved)) return {won, true, false, true, Line{move}};
    const Outcome reply = best_reply_within(moved, won - least, move.target(), attacked, bound, values);
    if (reply.line.empty()) return {};
    Outcome outcome = preceded_by(move, 0, reply);
    outcome.gain = won - reply.gain;
    outcome.mate = reply.mated;
    outcome.mated = reply.mate;
    return outcome;
}

} // namespace keysquare
