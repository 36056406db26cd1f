// shut_in: the quiet answer that takes the last way out from a man that has just arrived, and then attacks it.
#pragma once

#include <keysquare/tactics/quiet_attack.hpp>

namespace keysquare {

/// The strongest quiet answer that shuts in the knight, bishop, rook or queen that has arrived on `to`: a bishop that took
/// a pawn at the edge, and the pawn beside it steps forward. It takes nothing, promotes nothing, does not castle and
/// gives no check, and
/// - before it the man had one to five ways out, after it it has none. A *way out* is a legal move of the man (before
///   the answer: with the move handed back) after which captures where it arrives (`exchange`) leave its side more than
///   `ceiling`;
/// - every reply keeps at most `ceiling` (`value_of_move`), or is a move of another man after which a `quiet_attack` on
///   the man leaves its side at most `ceiling`.
///
/// The outcome is as that of `quiet_attack`. No line when there is no such answer, when the mover is in check, and when
/// `ceiling` is not negative: then no retreat would be a way out. Costs a map of attacked squares for a man that is free
/// to go; for others some `exchange` for each answer, and where one takes the last way out a `move_keeps` for each reply
/// and a `quiet_attack` for those that keep more.
[[nodiscard]] Outcome shut_in(const Position& arrived, Square to, int ceiling, int least_gain = 1,
                              const Bound& bound = {}, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// A man that has more is not looked at: one move hardly ever takes them all.
inline constexpr int most_ways_out = 5;

/// Squares that the man on `from`, whose side waits, could go to and that nobody attacks: ways out without a question.
inline Squares open_squares(const Position& position, Square from) noexcept {
    const Piece man = position.piece_at(from);
    if (lone_blockers(position, position.king(man.side), position.mover()).has(from)) return {};
    const Squares reach = attacks_of(man, from, position.occupied()) & ~position.men(man.side);
    return reach & ~attacked_by(position, position.mover(), position.occupied().without(from), reach);
}

/// A cheap necessary test: whether the answer may keep the man on `from` from going to `open`, an open square. It goes
/// there or between, attacks it, uncovers an attack on it, or pins the man.
inline bool may_close(const Position& position, Move answer, Square from, Square open) noexcept {
    const Squares moved = Squares{answer.origin()} | Squares{answer.target()};
    if (line_through(from, position.king(position.waiter())) & moved) return true;
    if (line_through(answer.origin(), open) & position.sliders(position.mover())) return true;
    if (squares_between(from, open).with(open).has(answer.target())) return true;
    const Squares occupied = position.occupied().without(from).without(answer.origin()).with(answer.target());
    return attacks_of(position.piece_at(answer.origin()), answer.target(), occupied).has(open);
}

/// The first ways out, at most `most` and to squares of `among`, of the man on `from`, whose side is to move and not in
/// check.
inline Squares first_ways_out(const Position& position, Square from, Squares among, int most, int ceiling,
                              const Values& values) noexcept {
    const Piece man = position.piece_at(from);
    const Square king = position.king(man.side);
    Squares reach = attacks_of(man, from, position.occupied()) & ~position.men(man.side) & among;
    if (reach && lone_blockers(position, king, position.waiter()).has(from)) reach &= line_through(king, from);
    Squares found;
    for (const Square to : reach) {
        const Move move{from, to};
        const int won = immediate_gain(position, move, values);
        if (exchange_wins(after(position, move), to, won - ceiling, values)) continue;
        found |= Squares{to};
        if (found.count() >= most) break;
    }
    return found;
}

/// The best reply for the side whose man on `to` is shut in, when none keeps more than `ceiling`; else no line.
inline Outcome best_reply_when_shut_in(const Position& position, Square to, int ceiling, int least_gain,
                                       const Bound& bound, const Values& values) noexcept {
    MoveList plain;
    KeptList known_of_plain;
    Outcome best;
    for (const Move reply : legal_moves(position)) {
        Kept known;
        const Verdict more = move_keeps(position, reply, ceiling + 1, bound, values, known);
        if (!more.complete) return {};
        if (!more.holds) {
            plain.push_back(reply);
            known_of_plain.push_back(known);
            continue;
        }
        if (reply.origin() == to) return {};
        const int won = immediate_gain(position, reply, values);
        const Outcome attacked = quiet_attack(after(position, reply), to, ceiling - won, least_gain, bound, values);
        if (attacked.line.empty()) return {};
        const Outcome outcome = preceded_by(reply, won, attacked);
        if (is_better(outcome, best)) best = outcome;
    }
    const Outcome best_plain = best_of(position, plain, bound, values, known_of_plain);
    if (!plain.empty() && !best_plain.complete) return {};
    return is_better(best, best_plain) ? best : best_plain;
}

} // namespace detail

inline Outcome shut_in(const Position& arrived, Square to, int ceiling, int least_gain, const Bound& bound,
                       const Values& values) noexcept {
    const Kind kind = arrived.kind_at(to);
    if (kind == Kind::pawn || kind == Kind::king || ceiling >= 0 || in_check(arrived)) return {};
    const Squares open = detail::open_squares(arrived, to);
    if (open.count() > detail::most_ways_out) return {};
    const Squares ways_out =
        open | detail::first_ways_out(turned(arrived), to, ~open, detail::most_ways_out + 1, ceiling, values);
    if (!ways_out || ways_out.count() > detail::most_ways_out) return {};
    Outcome worst;
    const CheckFinder finder{arrived};
    for (const Move answer : legal_moves(arrived)) {
        if (detail::takes_promotes_or_castles(arrived, answer) || finder.gives_check(answer)) continue;
        if (open && !detail::may_close(arrived, answer, to, open.first())) continue;
        const Position shut = after(arrived, answer);
        if (detail::first_ways_out(shut, to, ways_out, 1, ceiling, values)) continue; // most answers leave one of them
        if (detail::first_ways_out(shut, to, ~ways_out, 1, ceiling, values)) continue;
        const Outcome kept = detail::best_reply_when_shut_in(shut, to, ceiling, least_gain, bound, values);
        if (!kept.line.empty() && (worst.line.empty() || is_better(worst, kept))) worst = preceded_by(answer, 0, kept);
    }
    return worst;
}

} // namespace keysquare
