// quiet_attack: the quiet answer that attacks a man that has just arrived, or brings a pawn before its promotion, and
// nothing helps.
#pragma once

#include <keysquare/tactics/every_reply.hpp>
#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

/// The strongest quiet answer to the arrival of a man on `to`: a legal move of the mover that takes nothing, promotes
/// nothing, does not castle and gives no check (`resolve` has tried those; when the mover is in check it may be an
/// evasion), to which every reply keeps at most `ceiling` (`value_of_move`), and that
/// - attacks the man or uncovers an attack on it, such that captures on `to` would win at least `least_gain` if the
///   mover could move again: a fork, pin, skewer or trap looks like this; or
/// - brings a pawn one step before its last rank.
///
/// `gain`, `mate` and `mated` are those of the side that arrived, with its best reply; the line starts with the answer.
/// No line when there is no such answer. Costs well under a microsecond for each answer that attacks nothing, and one
/// `move_keeps` for each reply that has to be ruled out.
[[nodiscard]] Outcome quiet_attack(const Position& arrived, Square to, int ceiling, int least_gain = 1,
                                   const Bound& bound = {}, const Values& values = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// What a quiet answer does not do, besides giving check.
[[nodiscard]] inline bool takes_promotes_or_castles(const Position& position, Move move) noexcept {
    return captured_by(position, move) != Kind::none || move.promotes() || move.castles();
}

/// A cheap necessary test: the answering man attacks `to` from where it arrives, or uncovers an attack on it.
[[nodiscard]] inline bool may_attack(const Position& position, Move answer, Square to) noexcept {
    const Squares occupied = position.occupied().without(answer.origin()).with(answer.target());
    if (attacks_of(position.piece_at(answer.origin()), answer.target(), occupied).has(to)) return true;
    if (!line_through(answer.origin(), to)) return false;
    const Squares before = attackers_of(position, to, position.mover());
    return (attackers_of(position, to, position.mover(), occupied) & ~before).without(answer.origin()).bits() != 0;
}

/// Whether the answer brings a pawn one step before its last rank.
[[nodiscard]] inline bool nears_promotion(const Position& position, Move answer) noexcept {
    return rank_for(position.mover(), answer.target()) == 6 && position.piece_at(answer.origin()).kind == Kind::pawn;
}

/// Whether the answer attacks the man on `to` with a gain if its side could move again.
[[nodiscard]] inline bool attacks_with_gain(const Position& position, Move answer, Square to, int least_gain,
                                            const Values& values) noexcept {
    return may_attack(position, answer, to) && exchange_wins(turned(after(position, answer)), to, least_gain, values);
}

} // namespace detail

inline Outcome quiet_attack(const Position& arrived, Square to, int ceiling, int least_gain, const Bound& bound,
                            const Values& values) noexcept {
    Outcome worst;
    for (const Move answer : legal_moves(arrived)) {
        if (detail::takes_promotes_or_castles(arrived, answer)) continue;
        const bool forces = detail::nears_promotion(arrived, answer) ||
                            detail::attacks_with_gain(arrived, answer, to, least_gain, values);
        if (!forces) continue;
        const Position answered = after(arrived, answer);
        if (in_check(answered)) continue;
        const Outcome kept =
            best_reply_within(answered, ceiling, answer.target(), Squares{to}, Delays::none, bound, values);
        if (!kept.line.empty() && (worst.line.empty() || is_better(worst, kept))) worst = preceded_by(answer, 0, kept);
    }
    return worst;
}

} // namespace keysquare
