// shut_in: the quiet answer that takes the last way out from a man that has just arrived, and then attacks it.
#pragma once

#include <keysquare/tactics/quiet_attack.hpp>

namespace keysquare {

/// The strongest quiet answer that shuts in the knight, bishop, rook or queen that has arrived on `to`: a bishop that
/// took a pawn at the edge, and the pawn beside it steps forward. It takes nothing, promotes nothing, does not castle
/// and gives no check, and
/// - before it the man had one to five ways out, after it it has none. A *way out* is a legal move of the man (before
///   the answer: with the move handed back) that loses nothing by captures where it arrives (`exchange` wins no more
///   there than the move took);
/// - every reply comes to at most `ceiling`. A reply comes to what it keeps (`value_of_move`); one of another man to
///   what a `quiet_attack` on the man that is shut in then leaves, when that is less.
///
/// The outcome is as that of `quiet_attack`. No line when there is no such answer, and when the mover is in check.
/// Costs a map of attacked squares for a man that is free to go; for others some `exchange` for each answer, and where
/// one takes the last way out a `move_keeps` for each reply and a `quiet_attack` for those that keep more than others.
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
inline Squares first_ways_out(const Position& position, Square from, Squares among, int most,
                              const Values& values) noexcept {
    const Piece man = position.piece_at(from);
    const Square king = position.king(man.side);
    Squares reach = attacks_of(man, from, position.occupied()) & ~position.men(man.side) & among;
    if (reach && lone_blockers(position, king, position.waiter()).has(from)) reach &= line_through(king, from);
    Squares found;
    for (const Square to : reach) {
        const Move move{from, to};
        const int won = immediate_gain(position, move, values);
        if (exchange_wins(after(position, move), to, won + 1, values)) continue;
        found |= Squares{to};
        if (found.count() >= most) break;
    }
    return found;
}

/// Whether a reply of the side whose man on `to` is shut in comes to more than `ceiling`, for all that the bound tells.
inline bool may_escape(const Position& position, Move reply, Square to, int ceiling, int least_gain, const Bound& bound,
                       const Values& values, Kept& known) noexcept {
    const Verdict more = move_keeps(position, reply, ceiling + 1, bound, values, known);
    if (!more.holds) return !more.complete;
    if (reply.origin() == to) return true;
    const int left = ceiling - immediate_gain(position, reply, values);
    return quiet_attack(after(position, reply), to, left, least_gain, bound, values).line.empty();
}

/// What the reply comes to; no line when that is not certain inside the bound.
inline Outcome value_when_shut_in(const Position& position, Move reply, Square to, int least_gain, const Bound& bound,
                                  const Values& values, Kept& known) noexcept {
    Outcome kept = value_of_move(position, reply, bound, values, known);
    if (!kept.complete) return {};
    if (reply.origin() == to || kept.mate || kept.mated) return kept;
    const int won = immediate_gain(position, reply, values);
    const Outcome attacked = quiet_attack(after(position, reply), to, kept.gain - 1 - won, least_gain, bound, values);
    return attacked.line.empty() ? kept : preceded_by(reply, won, attacked);
}

/// The best reply for the side whose man on `to` is shut in, when none comes to more than `ceiling`; else no line.
inline Outcome best_reply_when_shut_in(const Position& position, Square to, int ceiling, int least_gain,
                                       const Bound& bound, const Values& values) noexcept {
    const MoveList replies = legal_moves(position);
    KeptList known = nothing_known(replies.size());
    for (const bool of_man : {true, false}) // mostly one does, and the man's own moves are the quickest to ask about
        for (std::size_t at = 0; at < replies.size(); ++at)
            if ((replies[at].origin() == to) == of_man &&
                may_escape(position, replies[at], to, ceiling, least_gain, bound, values, known[at]))
                return {};
    Outcome best;
    for (std::size_t at = 0; at < replies.size(); ++at) {
        const int better = best.line.empty() ? -mate_score : better_than(best, true);
        const Verdict more = move_keeps(position, replies[at], better, bound, values, known[at]);
        if (!more.complete) return {};
        if (!more.holds) continue;
        const Outcome outcome = value_when_shut_in(position, replies[at], to, least_gain, bound, values, known[at]);
        if (outcome.line.empty()) return {};
        if (is_better(outcome, best)) best = outcome;
    }
    return best;
}

} // namespace detail

inline Outcome shut_in(const Position& arrived, Square to, int ceiling, int least_gain, const Bound& bound,
                       const Values& values) noexcept {
    const Kind kind = arrived.kind_at(to);
    if (kind == Kind::pawn || kind == Kind::king || in_check(arrived)) return {};
    const Squares open = detail::open_squares(arrived, to);
    if (open.count() > detail::most_ways_out) return {};
    const Squares ways_out =
        open | detail::first_ways_out(turned(arrived), to, ~open, detail::most_ways_out + 1, values);
    if (!ways_out || ways_out.count() > detail::most_ways_out) return {};
    Outcome worst;
    for (const Move answer : legal_moves(arrived)) {
        if (detail::takes_promotes_or_castles(arrived, answer)) continue;
        if (open && !detail::may_close(arrived, answer, to, open.first())) continue;
        const Position shut = after(arrived, answer);
        if (in_check(shut)) continue;
        if (detail::first_ways_out(shut, to, ways_out, 1, values)) continue; // most answers leave one of them
        if (detail::first_ways_out(shut, to, ~ways_out, 1, values)) continue;
        const Outcome kept = detail::best_reply_when_shut_in(shut, to, ceiling, least_gain, bound, values);
        if (!kept.line.empty() && (worst.line.empty() || is_better(worst, kept))) worst = preceded_by(answer, 0, kept);
    }
    return worst;
}

} // namespace keysquare
