// Intermediate moves: something better first, the capture later.
#pragma once

#include <keysquare/features/piece_safety.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `intermediate_move`, for both sides: there is a man X that the side could take profitably at once (`hanging`),
/// and a check, a promotion or a capture on another square comes first: it wins (`WinningMoves`) at least `least_gain`
/// more than taking X at once does, without mating, and in the line the side later takes X, where it stands.
///
/// side = the moving side; line and gain = the move and the best replies; pieces = the man that moves, then X; squares
/// = where they stand and where the move arrives; number: at_once (what taking X at once wins). One finding a side, the
/// move that wins most; of several X in the line, the first.
void find_intermediate_moves(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The men that the side could take profitably.
inline Squares hanging_men(const BoardView& view, Side side) {
    Squares hanging;
    for (const Square square : view.position().men(other(side)) & ~view.position().men(Kind::king)) {
        const SafetyOfMan safety = view.safety(square);
        if (safety.safety == Safety::hanging && !safety.capture.mate) hanging |= Squares{square};
    }
    return hanging;
}

/// Where the side that moves first in `line` first takes, with one of its moves after the first, a man on one of
/// `squares` that has stood there from the beginning; `Square::none` when it does not.
inline Square later_takes_on(const Line& line, Squares squares) noexcept {
    for (std::size_t at = 1; at < line.size(); ++at) {
        const bool reply = at % 2 == 1;
        if (!reply && squares.has(line[at].target())) return line[at].target();
        if (reply) squares = squares.without(line[at].origin());
    }
    return Square::none;
}

inline void add_intermediate_move(const BoardView& view, Side side, Findings& findings) {
    const Squares hanging = hanging_men(view, side);
    if (!hanging) return;
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Outcome* best = nullptr;
    Square taken = Square::none;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        const Squares others = hanging.without(move.target());
        if (!others || (!takes(position, move) && !winning.finder().gives_check(move))) continue;
        const Outcome* outcome = winning.win(at, hanging);
        if (!outcome || outcome->mate || (best && !is_better(*outcome, *best))) continue;
        const Square later = later_takes_on(outcome->line, others);
        if (later == Square::none) continue;
        if (outcome->gain < view.safety(later).capture.gain + view.options().least_gain) continue;
        best = outcome;
        taken = later;
    }
    if (!best) return;
    Finding& finding =
        findings.emplace_back(winning_finding(view, Theme::intermediate_move, Detail::none, side, *best));
    const Move first = best->line.front();
    for (const Square square : {first.origin(), taken}) finding.pieces.push_back({square, position.piece_at(square)});
    finding.squares = Squares{first.origin(), first.target(), taken};
    finding.count(Measure::at_once, view.safety(taken).capture.gain);
}

} // namespace detail

inline void find_intermediate_moves(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides)
        if (view.turn(side).exists) detail::add_intermediate_move(view, side, findings);
}

} // namespace keysquare
