// Promotion threats: pawns that get through.
#pragma once

#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `promotion_threat`, for both sides: a pawn on its sixth or seventh rank, as its side counts, with a move (a
/// capture counts) that wins at least `least_gain` against every reply (`gain_against_every_reply`, checks are delays),
/// with a promotion of that pawn in the line. One finding a pawn, the move that wins most. pieces = the pawn; squares =
/// where it goes first and where it promotes; number: moves_to_go (its moves until it has promoted).
void find_promotions(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How many moves of the pawn the line has up to its promotion, and where that is; 0 when it does not promote.
inline int moves_to_promotion(const Line& line, Square& arrival) noexcept {
    Square pawn = line.front().origin();
    int moves = 0;
    for (std::size_t at = 0; at < line.size(); ++at) {
        if (at % 2 == 1 && line[at].target() == pawn) return 0; // it is taken
        if (at % 2 == 1 || line[at].origin() != pawn) continue;
        pawn = line[at].target();
        ++moves;
        if (!line[at].promotes()) continue;
        arrival = pawn;
        return moves;
    }
    return 0;
}

/// The move of the pawn that wins most and promotes it; no line when there is none.
inline Outcome best_way_through(const Position& position, Square pawn, const Options& options) noexcept {
    Outcome best;
    Square arrival = Square::none;
    for (const Move move : legal_moves(position)) {
        if (move.origin() != pawn) continue;
        const Outcome outcome = gain_against_every_reply(position, move, options.least_gain, {}, Delays::checks,
                                                         options.bound, options.values);
        const bool wins = outcome.mate || (!outcome.mated && outcome.gain >= options.least_gain);
        if (wins && moves_to_promotion(outcome.line, arrival) > 0 && is_better(outcome, best)) best = outcome;
    }
    return best;
}

} // namespace detail

inline void find_promotions(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        if (!view.turn(side).exists) continue;
        const Squares near = rank_squares(side == Side::white ? 5 : 2) | rank_squares(side == Side::white ? 6 : 1);
        for (const Square pawn : view.position().men(side, Kind::pawn) & near) {
            const Outcome best = detail::best_way_through(view.turn(side).position, pawn, view.options());
            if (best.line.empty()) continue;
            Finding& finding =
                findings.emplace_back(detail::winning_finding(view, Theme::promotion_threat, Detail::none, side, best));
            Square arrival = Square::none;
            finding.count(Measure::moves_to_go, detail::moves_to_promotion(best.line, arrival));
            finding.pieces.push_back({pawn, view.position().piece_at(pawn)});
            finding.squares = Squares{best.line.front().target(), arrival};
        }
    }
}

} // namespace keysquare
