// Guard duties: what each man holds, shown by taking it off the board. And which men are tied to their duties.
#pragma once

#include <keysquare/board/steady_list.hpp>
#include <keysquare/features/board_view.hpp>
#include <keysquare/tactics/mates.hpp>

namespace keysquare {

/// A duty of one man: with it removed, and the other side to move, something falls that holds now.
struct Duty {
    Square guard = Square::none;  ///< the man on duty
    Square target = Square::none; ///< the man that would hang, or the square of the mate or of the promotion
    Detail kind = Detail::none;   ///< guards_man, blocks_line, hinders_attacker, stops_mate, stops_promotion
    Outcome fall;                 ///< what the other side wins without the guard; line from the counterfactual position
};

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

/// Themes `guard_duty` and `tied`, for both sides.
///
/// - guard_duty: side = the other side, `removed` = the guard's square, line and gain hold in that counterfactual
///   position; pieces = the guard, then the man that falls (none for mates and promotions); squares = the target.
/// - tied: a knight, bishop, rook or queen with a duty and at least one legal move, every one of which loses
///   (`JudgedMoves`). A warning to its owner: the line is its least bad move with the punishment. pieces = it; squares
///   = its duties' targets; numbers: duties, moves, least_loss.
void find_guard_duties(const BoardView& view, const std::array<Duties, 2>& duties, Findings& findings);

/// The duties of both sides, indexed by the owner's side; empty for a side whose opponent has no turn.
[[nodiscard]] std::array<Duties, 2> guard_duties(const BoardView& view);

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

inline Squares falling_men(const Position& taker_to_move, const Options& options) noexcept {
    Squares falling;
    for (const Square square : taker_to_move.men(taker_to_move.waiter()) & ~taker_to_move.men(Kind::king))
        if (const Outcome fall = fall_of(taker_to_move, square, options); !fall.line.empty() || !fall.complete)
            falling |= Squares{square};
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
            if (!before.holds && before.complete)
                duties.push_back({guard, step.target(), Detail::stops_promotion,
                                  value_of_move(bare, step, options.bound, options.values)});
        }
    }
}

inline std::array<Duties, 2> guard_duties(const BoardView& view) {
    std::array<Duties, 2> duties;
    for (const Side owner : all_sides)
        if (const Turn& turn = view.turn(other(owner)); turn.exists)
            find_duties_of(turn.position, duties[index(owner)], view.options());
    return duties;
}

namespace detail {

inline void add_guard_duty(const BoardView& view, const Duty& duty, Findings& findings) {
    const Position& position = view.position();
    const Piece guard = position.piece_at(duty.guard);
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::guard_duty;
    finding.detail = duty.kind;
    finding.side = other(guard.side);
    finding.after_pass = view.turn(finding.side).after_pass;
    finding.removed = duty.guard;
    finding.gain = duty.fall.gain;
    finding.mate = duty.fall.mate;
    finding.line = duty.fall.line;
    finding.pieces.push_back({duty.guard, guard});
    if (const Piece man = position.piece_at(duty.target); man && man.side == guard.side && duty.target != duty.guard)
        finding.pieces.push_back({duty.target, man});
    finding.squares = Squares{duty.target};
}

/// The least bad of the moves of `men`, when every one of them loses (and there is one); no line otherwise.
inline Outcome least_bad_move(const BoardView& view, Side side, Squares men, int& moves) {
    const JudgedMoves& judged = view.judged(side);
    const auto is_theirs = [&](std::size_t at) { return men.has(judged.moves()[at].origin()); };
    moves = 0;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        if (!is_theirs(at)) continue;
        if (!judged.loses(at)) return {};
        ++moves;
    }
    Outcome best;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        if (!is_theirs(at)) continue;
        const Outcome outcome = judged.value(at);
        if (!outcome.complete) return {};
        if (is_better(outcome, best)) best = outcome;
    }
    return best;
}

/// Fills a warning: what happens when `side` makes the first move of the line.
inline void set_warning(const BoardView& view, Side side, const Outcome& outcome, Finding& finding) {
    finding.side = side;
    finding.after_pass = view.turn(side).after_pass;
    finding.gain = outcome.gain;
    finding.mated = outcome.mated;
    finding.line = outcome.line;
    if (!outcome.mated) finding.count(Measure::least_loss, view.judged(side).baseline() - outcome.gain);
}

inline void add_if_tied(const BoardView& view, Square square, const Duties& duties, Findings& findings) {
    const Piece man = view.position().piece_at(square);
    Squares targets;
    for (const Duty& duty : duties)
        if (duty.guard == square) targets |= Squares{duty.target};
    if (!targets || !view.turn(man.side).exists) return;
    int moves = 0;
    const Outcome least_bad = least_bad_move(view, man.side, Squares{square}, moves);
    if (least_bad.line.empty()) return;
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::tied;
    set_warning(view, man.side, least_bad, finding);
    finding.pieces.push_back({square, man});
    finding.squares = targets;
    finding.count(Measure::duties, targets.count());
    finding.count(Measure::moves, moves);
}

} // namespace detail

inline void find_guard_duties(const BoardView& view, const std::array<Duties, 2>& duties, Findings& findings) {
    const Squares pawns_and_kings = view.position().men(Kind::pawn) | view.position().men(Kind::king);
    for (const Side owner : all_sides) {
        for (const Duty& duty : duties[index(owner)]) detail::add_guard_duty(view, duty, findings);
        for (const Square square : view.position().men(owner) & ~pawns_and_kings)
            detail::add_if_tied(view, square, duties[index(owner)], findings);
    }
}

} // namespace keysquare
