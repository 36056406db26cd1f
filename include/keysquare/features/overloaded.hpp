// Overloaded men: two duties, and a move that makes the man choose.
#pragma once

#include <keysquare/features/duties.hpp>
#include <keysquare/features/finding_parts.hpp>

namespace keysquare {

/// Theme `overloaded`, for both sides: a man D with duties towards two or more targets, and a move of the other side to
/// one of these targets (a capture, a check on the mating square, a step to the last rank) such that
/// - by `resolve` the move wins at least `least_gain` against every reply, and
/// - if D takes there, which is legal, the other side goes on to win at least `least_gain` in all, or mates, with a
///   move to another of D's targets on the way: D has done one duty and failed the other.
///
/// side = the other side; line and gain = that move and the best replies; `point` = what happens when D takes;
/// pieces = D, then the men among its targets; squares = its targets; numbers: duties. One finding a man: the move that
/// wins most.
void find_overloaded(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline Squares targets_of(Square guard, const Duties& duties) noexcept {
    Squares targets;
    for (const Duty& duty : duties)
        if (duty.guard == guard) targets |= Squares{duty.target};
    return targets;
}

/// Whether the side that moves first in `line` arrives on one of `squares` with one of its moves.
inline bool arrives_on(const Line& line, Squares squares) noexcept {
    for (std::size_t at = 0; at < line.size(); at += 2)
        if (squares.has(line[at].target())) return true;
    return false;
}

/// What follows when the guard takes the man that `first` brought to its target: the whole line, or none when that does
/// not show a failed duty.
inline Line failed_duty(const Position& position, Move first, Square guard, Squares other_targets,
                        const Options& options) {
    const Position offered = after(position, first);
    Bound bound = options.bound; // two moves more than what is searched must fit into a line
    bound.plies = (std::min)(bound.plies, static_cast<int>(longest_line) - 2);
    for (const Move take : captures_of(offered, first.target())) {
        if (take.origin() != guard) continue;
        const Outcome rest = resolve(after(offered, take), bound, options.values);
        const int total =
            immediate_gain(position, first, options.values) - immediate_gain(offered, take, options.values) + rest.gain;
        if (!rest.complete || !(rest.mate || total >= options.least_gain)) continue;
        if (!arrives_on(rest.line, other_targets)) continue;
        Line line{first, take};
        line.insert(line.end(), rest.line.begin(), rest.line.end());
        return line;
    }
    return {};
}

inline void add_if_overloaded(const BoardView& view, Square guard, Squares targets, Findings& findings) {
    const Piece man = view.position().piece_at(guard);
    const Turn& turn = view.turn(other(man.side));
    const Options& options = view.options();
    Outcome best;
    Line point;
    for (const Move move : legal_moves(turn.position, targets)) {
        if (move.promotes() && move.promotion() != Kind::queen) continue;
        const Squares occupied = after(turn.position, move).occupied();
        if (!attackers_of(turn.position, move.target(), man.side, occupied).has(guard)) continue;
        Kept known;
        if (!move_keeps(turn.position, move, options.least_gain, options.bound, options.values, known).holds) continue;
        Line shown = failed_duty(turn.position, move, guard, targets.without(move.target()), options);
        if (shown.empty()) continue;
        const Outcome outcome = value_of_move(turn.position, move, options.bound, options.values, known);
        const bool wins = outcome.complete && !outcome.mated && (outcome.mate || outcome.gain >= options.least_gain);
        if (!wins || !is_better(outcome, best)) continue;
        best = outcome;
        point = shown;
    }
    if (best.line.empty()) return;
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::overloaded;
    finding.side = turn.position.mover();
    finding.after_pass = turn.after_pass;
    finding.gain = best.gain;
    finding.mate = best.mate;
    finding.line = best.line;
    finding.point = point;
    finding.squares = targets;
    finding.pieces.push_back({guard, man});
    name_men(view.position(), targets & view.position().men(man.side), finding);
    finding.count(Measure::duties, targets.count());
}

} // namespace detail

inline void find_overloaded(const BoardView& view, Findings& findings) {
    for (const Side owner : all_sides) {
        if (!view.turn(other(owner)).exists) continue;
        for (const Square guard : view.position().men(owner) & ~view.position().men(Kind::king)) {
            const Squares targets = detail::targets_of(guard, view.duties(owner));
            if (targets.several()) detail::add_if_overloaded(view, guard, targets, findings);
        }
    }
}

} // namespace keysquare
