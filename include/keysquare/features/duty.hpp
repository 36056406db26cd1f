// Duties: what each man holds, shown by taking it off the board.
#pragma once

#include <keysquare/board/steady_list.hpp>
#include <keysquare/features/finding.hpp>
#include <keysquare/features/options.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/mates.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// A duty of one man: with it removed, and the other side to move, something falls that holds now.
struct Duty {
    Square guard = Square::none;  ///< the man on duty
    Square target = Square::none; ///< the man that would hang, or the square of the mate or of the promotion
    Detail kind = Detail::none;   ///< guards_man, blocks_line, hinders_attacker, stops_mate, stops_promotion
    Outcome fall;                 ///< what the other side wins without the guard; line from the counterfactual position
};

/// Duties in the order in which they were found; the first 32 need no allocation.
using Duties = SteadyList<Duty, 32>;

/// All duties of the men of `owner`, who is not to move in `attacker_to_move`. For every man D except the king, with
/// D removed (where that leaves the owner's king unattacked), the other side to move:
/// - a man X of the owner falls that did not: `exchange` on its square and its best capture by `value_of_move` win
///   at least `least_gain` now, and did not before. Kind: `guards_man` when D attacks X, directly or through
///   sliders of its own side; `blocks_line` when D stands between X and a slider of the other side;
///   `hinders_attacker` otherwise (D pins an attacker, say);
/// - a move mates at once, and no move did before (`stops_mate`, target = where the mating man arrives);
/// - a pawn's step to its last rank wins by `resolve` and did not (`stops_promotion`, target = the last square).
/// Every legal capture counts, so a duty may be that of a man that is itself attacked.
void find_duties_of(const Position& attacker_to_move, Duties& duties, const Options& options = {});

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How D stands to X: guard (through own sliders too), shield, or neither.
inline Detail kind_of_duty(const Position& position, Square guard, Square target) noexcept {
    const Piece man = position.piece_at(guard);
    const Squares own_sliders = position.sliders(man.side);
    if (attacks_of(man, guard, position.occupied() & ~own_sliders.without(target)).has(target) &&
        attacks_of(man, guard, {}).has(target))
        return Detail::guards_man;
    const Side attacker = other(man.side);
    const Squares opened = attackers_of(position, target, attacker, position.occupied().without(guard)) &
                           ~attackers_of(position, target, attacker);
    return opened ? Detail::blocks_line : Detail::hinders_attacker;
}

/// The steps of pawns to the last rank, as queens.
inline MoveList queening_steps(const Position& position) noexcept {
    MoveList steps;
    const Side mover = position.mover();
    const Squares last_rank = rank_squares(mover == Side::white ? 7 : 0);
    if (!(position.men(mover, Kind::pawn) & rank_squares(mover == Side::white ? 6 : 1))) return steps;
    for (const Move move : legal_moves(position, last_rank & ~position.occupied()))
        if (move.promotion() == Kind::queen) steps.push_back(move);
    return steps;
}

/// The best capture of a man that falls: `exchange` on its square wins, and so does that capture. No line when it
/// holds; when the search bound was too small, `complete` is false.
inline Outcome fall_of(const Position& taker_to_move, Square square, const Options& options) noexcept {
    if (!exchange_wins(taker_to_move, square, options.least_gain, options.values)) return {};
    Outcome best = best_of(taker_to_move, captures_of(taker_to_move, square), options.bound, options.values);
    const bool falls = best.mate || (!best.mated && best.gain >= options.least_gain);
    if (!falls || !best.complete) best.line.clear();
    return best;
}

/// Whether the man falls, or may fall for all that the bound tells. Quicker than `fall_of`.
inline bool may_fall(const Position& taker_to_move, Square square, const Options& options) noexcept {
    if (!exchange_wins(taker_to_move, square, options.least_gain, options.values)) return false;
    return any_of(captures_of(taker_to_move, square), [&](Move capture) {
        const Verdict wins = move_keeps(taker_to_move, capture, options.least_gain, options.bound, options.values);
        return wins.holds || !wins.complete;
    });
}

inline Squares falling_men(const Position& taker_to_move, const Options& options) noexcept {
    Squares falling;
    for (const Square square : taker_to_move.men(taker_to_move.waiter()) & ~taker_to_move.men(Kind::king))
        if (may_fall(taker_to_move, square, options)) falling |= Squares{square};
    return falling;
}

} // namespace detail

inline void find_duties_of(const Position& attacker_to_move, Duties& duties, const Options& options) {
    const Position& now = attacker_to_move;
    const Side owner = now.waiter();
    const Side attacker = now.mover();
    const Squares kings = now.men(Kind::king);
    const Squares falling_now = detail::falling_men(now, options);
    const bool mate_now = !mating_moves(now).empty();
    const auto wins = [&](const Position& position, Move move) {
        return move_keeps(position, move, options.least_gain, options.bound, options.values);
    };
    for (const Square guard : now.men(owner) & ~kings) {
        const Position bare = without(now, guard);
        if (attackers_of(bare, bare.king(owner), attacker)) continue; // pinned to the king: no such position
        for (const Square target : bare.men(owner) & ~kings & ~falling_now) {
            if (!attackers_of(bare, target, attacker)) continue;
            if (Outcome fall = detail::fall_of(bare, target, options); !fall.line.empty())
                duties.push_back({guard, target, detail::kind_of_duty(now, guard, target), fall});
        }
        if (!mate_now)
            for (const Move mate : mating_moves(bare))
                duties.push_back({guard, mate.target(), Detail::stops_mate,
                                  value_of_move(bare, mate, options.bound, options.values)});
        for (const Move step : detail::queening_steps(bare)) {
            if (!wins(bare, step).holds) continue;
            const Verdict before = is_legal(now, step) ? wins(now, step) : Verdict{};
            if (before.holds || !before.complete) continue;
            if (const Outcome fall = value_of_move(bare, step, options.bound, options.values); fall.complete)
                duties.push_back({guard, step.target(), Detail::stops_promotion, fall});
        }
    }
}

} // namespace keysquare
