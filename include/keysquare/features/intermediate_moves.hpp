// Intermediate moves: something better first, the capture later.
#pragma once

#include <keysquare/features/piece_safety.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `intermediate_move`, for both sides: there is a man that the side could take profitably at once (`hanging`),
/// and a check or a capture on another square comes first: it wins (`WinningMoves`) more than every capture on squares
/// of hanging men does at once, without mating, and in the line the side takes that man later, where it stands now.
/// side = the moving side; line and gain = the move and the best replies; pieces = the man that moves, then the man
/// that is taken later; squares = where they stand and where the move arrives; number: at_once (what the best of these
/// captures wins). One finding a side, the move that wins most.
void find_intermediate_moves(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// What the best capture of a hanging man wins at once, and the hanging men.
inline int best_hanging(const BoardView& view, Side side, Squares& hanging) noexcept {
    const Position& position = view.turn(side).position;
    int best = 0;
    for (const Square square : position.men(other(side)) & ~position.men(Kind::king)) {
        const SafetyOfMan safety = view.safety(square);
        if (safety.safety != Safety::hanging || safety.capture.mate) continue;
        hanging |= Squares{square};
        best = (std::max)(best, safety.capture.gain);
    }
    return best;
}

inline void add_intermediate_move(const BoardView& view, Side side, Findings& findings) {
    Squares hanging;
    const int at_once = best_hanging(view, side, hanging);
    if (!hanging) return;
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Outcome* best = nullptr;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (hanging.has(move.target())) continue;
        if (captured_by(position, move) == Kind::none && !winning.finder().gives_check(move)) continue;
        const Outcome* outcome = winning.win(at, hanging);
        if (!outcome || outcome->mate || outcome->gain < at_once + view.options().least_gain) continue;
        if (!later_arrives_on(outcome->line, hanging)) continue;
        if (!best || is_better(*outcome, *best)) best = outcome;
    }
    if (!best) return;
    Finding& finding =
        findings.emplace_back(winning_finding(view, Theme::intermediate_move, Detail::none, side, *best));
    const Move first = best->line.front();
    finding.pieces.push_back({first.origin(), position.piece_at(first.origin())});
    finding.squares = Squares{first.origin(), first.target()};
    for (std::size_t at = 2; at < best->line.size(); at += 2) {
        const Square taken = best->line[at].target();
        if (!hanging.has(taken)) continue;
        finding.pieces.push_back({taken, position.piece_at(taken)});
        finding.squares |= Squares{taken};
        break;
    }
    finding.count(Measure::at_once, at_once);
}

} // namespace detail

inline void find_intermediate_moves(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides)
        if (view.turn(side).exists) detail::add_intermediate_move(view, side, findings);
}

} // namespace keysquare
