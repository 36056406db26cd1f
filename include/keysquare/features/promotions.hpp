// Promotion threats: pawns that get through.
#pragma once

#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `promotion_threat`, for both sides: a pawn on its sixth or seventh rank, as its side counts, with a move
/// forward (a capture counts) that wins (`WinningMoves`) with a promotion of that pawn in the line; a promotion to the
/// piece that wins most. One finding a pawn, the move that wins most. pieces = the pawn; squares = where it goes first
/// and where it promotes; number: moves_to_go (its moves until it has promoted).
void find_promotions(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How many moves of the pawn the line has up to its promotion, and where that is; 0 when it does not promote.
inline int moves_to_promotion(const Line& line, Square& arrival) noexcept {
    Square pawn = line.front().origin();
    int moves = 0;
    for (std::size_t at = 0; at < line.size(); at += 2) {
        if (line[at].origin() != pawn) continue;
        pawn = line[at].target();
        ++moves;
        if (!line[at].promotes()) continue;
        arrival = pawn;
        return moves;
    }
    return 0;
}

} // namespace detail

inline void find_promotions(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        if (!view.turn(side).exists) continue;
        const Squares near = rank_squares(side == Side::white ? 5 : 2) | rank_squares(side == Side::white ? 6 : 1);
        const Squares pawns = view.position().men(side, Kind::pawn) & near;
        if (!pawns) continue;
        const WinningMoves& winning = view.winning(side);
        for (const Square pawn : pawns) {
            const Outcome* best = nullptr;
            for (std::size_t at = 0; at < winning.moves().size(); ++at) {
                if (winning.moves()[at].origin() != pawn) continue;
                const Outcome* outcome = winning.win(at, {});
                Square arrival = Square::none;
                if (!outcome || (best && !is_better(*outcome, *best))) continue;
                if (detail::moves_to_promotion(outcome->line, arrival) > 0) best = outcome;
            }
            if (!best) continue;
            Finding& finding = findings.emplace_back(
                detail::winning_finding(view, Theme::promotion_threat, Detail::none, side, *best));
            Square arrival = Square::none;
            finding.count(Measure::moves_to_go, detail::moves_to_promotion(best->line, arrival));
            finding.pieces.push_back({pawn, view.position().piece_at(pawn)});
            finding.squares = Squares{best->line.front().target(), arrival};
        }
    }
}

} // namespace keysquare
