// Columns of the numeric vector: pawns.
#pragma once

#include <array>

#include <keysquare/features/backward_pawns.hpp>
#include <keysquare/features/pawn_chains.hpp>
#include <keysquare/features/pawn_levers.hpp>
#include <keysquare/features/pawn_majority.hpp>

#include "feature_quantity.hpp"

namespace keysquare::detail {

using Facts = FeatureFacts;

/// The rank, from 1 as the side counts, of the square that lies farthest ahead; 0 when there is none.
inline int farthest_rank(Squares squares, Side side) noexcept {
    if (!squares) return 0;
    return 1 + rank_for(side, side == Side::white ? squares.last() : squares.first());
}

inline constexpr std::array pawn_quantities{
    Quantity{"isolated_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side with no pawn of the side on a neighbouring file.",
             [](const Facts& at, Side side) { return at.pawns.of(side).isolated; }},
    Quantity{"doubled_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side that share their file with another pawn of the side.",
             [](const Facts& at, Side side) { return at.pawns.of(side).doubled; }},
    Quantity{"backward_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side that are not isolated, with no pawn of the side on a neighbouring file level with "
             "them or behind them, and with a pawn of the other side attacking the square before them.",
             [](const Facts& at, Side side) { return backward_pawns(at.pawns, side); }},
    Quantity{"passed_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side with no pawn of the other side ahead of them on their own or a neighbouring file.",
             [](const Facts& at, Side side) { return at.of(side).passed.passed; }},
    Quantity{"guarded_passed_pawns", FeatureUnit::men, Spread::sides,
             "Passed pawns of the side that a pawn of the side attacks.",
             [](const Facts& at, Side side) { return at.of(side).passed.guarded; }},
    Quantity{"connected_passed_pawns", FeatureUnit::men, Spread::sides,
             "Passed pawns of the side with another passed pawn of the side on a neighbouring file.",
             [](const Facts& at, Side side) { return at.of(side).passed.connected; }},
    Quantity{"outside_passed_pawns", FeatureUnit::men, Spread::sides,
             "Passed pawns of the side on the files a to c or f to h, while the other side has pawns, all of them at "
             "least three files away.",
             [](const Facts& at, Side side) { return at.of(side).passed.outside; }},
    Quantity{"blockaded_passed_pawns", FeatureUnit::men, Spread::sides,
             "Passed pawns of the side with a piece of the other side on the square before them.",
             [](const Facts& at, Side side) { return at.of(side).passed.passed & at.of(side).blocked.blockaded; }},
    Quantity{"most_advanced_passed_pawn", FeatureUnit::rank, Spread::sides,
             "The highest rank, as the side counts from 1, on which it has a passed pawn; 0 when it has none.",
             [](const Facts& at, Side side) { return farthest_rank(at.of(side).passed.passed, side); }},
    Quantity{"candidate_passed_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side that are not passed, with no pawn of either side ahead of them on their file and at "
             "least as many pawns of the side on the neighbouring files level with them or behind them as pawns of the "
             "other side on these files ahead of them.",
             [](const Facts& at, Side side) { return candidates_to_pass(at.pawns, side); }},
    Quantity{"pawn_islands", FeatureUnit::groups, Spread::sides_and_difference,
             "Groups of neighbouring files with pawns of the side.",
             [](const Facts& at, Side side) { return at.pawns.of(side).islands; }},
    Quantity{"pawns_blocked_by_pieces", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side with a piece (not a pawn) of the other side on the square before them.",
             [](const Facts& at, Side side) { return at.of(side).blocked.blockaded; }},
    Quantity{"pawns_blocked_by_own_men", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side with a man of the side on the square before them.",
             [](const Facts& at, Side side) { return at.of(side).blocked.obstructed; }},
    Quantity{"chained_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side that attack the square of another pawn of the side, or whose square such a pawn "
             "attacks.",
             [](const Facts& at, Side side) { return chained_pawns(at.men(side, Kind::pawn), side); }},
    Quantity{"pawn_levers", FeatureUnit::squares, Spread::sides_and_difference,
             "Empty squares to which a pawn of the side could step (one square, or two from its rank 2 over an empty "
             "one) and attack a pawn of the other side from there.",
             [](const Facts& at, Side side) { return pawn_lever_arrivals(at.position, side); }},
    Quantity{"pawns_in_contact", FeatureUnit::men, Spread::sides,
             "Pawns of the side that attack a pawn of the other side.",
             [](const Facts& at, Side side) { return pawns_in_contact(at.position, side); }},
    Quantity{"half_open_files", FeatureUnit::files, Spread::sides_and_difference,
             "Files with pawns of the other side only.",
             [](const Facts& at, Side side) { return at.pawns.of(side).half_open_files & rank_squares(0); }},
    Quantity{"queenside_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side on the files a to d; the difference is the majority.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn) & wing_squares(Wing::long_); }},
    Quantity{"kingside_pawns", FeatureUnit::men, Spread::sides_and_difference,
             "Pawns of the side on the files e to h; the difference is the majority.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn) & wing_squares(Wing::short_); }},
    Quantity{"centre_pawns", FeatureUnit::men, Spread::sides_and_difference, "Pawns of the side on d4, e4, d5 and e5.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn) & centre_squares; }},
};

} // namespace keysquare::detail
