// Fact weights: how much each fact about a move counts when candidates are put in order.
#pragma once

#include <algorithm>
#include <array>

#include <keysquare/thinking/move_facts.hpp>

namespace keysquare {

/// One row: a move gets `once` when the amount is not 0, and `each` for every one of it, up to `most_counted`. In
/// thousandths; they only order moves, and mean nothing by themselves.
struct FactWeight {
    MoveFact fact = MoveFact::end_;
    int once = 0;
    int each = 0;
};

/// Amounts above this count like it, below its negative likewise.
inline constexpr int most_counted = 9;

/// Fitted by `bench/fit_candidates.py` (which prints these rows) on tournament games and on every other position of two
/// open collections; the accuracy that is reported is that of the positions left out.
inline constexpr std::array fact_weights{
    FactWeight{MoveFact::mates, 0, 11178},
    FactWeight{MoveFact::wins, 762, 1220},
    FactWeight{MoveFact::meets_threat, 0, 428},
    FactWeight{MoveFact::costs, -1261, -176},
    FactWeight{MoveFact::threatens_mate, 0, 1394},
    FactWeight{MoveFact::threatens, 649, 0},
    FactWeight{MoveFact::trades, 0, 440},
    FactWeight{MoveFact::checks, 0, 414},
    FactWeight{MoveFact::castles, 0, 2479},
    FactWeight{MoveFact::develops, 0, 350},
    FactWeight{MoveFact::moves_attacked_queen, 0, 984},
    FactWeight{MoveFact::moves_attacked_piece, 0, 334},
    FactWeight{MoveFact::attacks_pieces, 0, 305},
    FactWeight{MoveFact::attacks_pawns, 0, 206},
    FactWeight{MoveFact::advances_pawn, -160, 144},
    FactWeight{MoveFact::pawn_under_attack, 0, 590},
    FactWeight{MoveFact::pawn_lever, 0, 288},
    FactWeight{MoveFact::pushes_passer, 0, 1033},
    FactWeight{MoveFact::loosens_own_king, 0, -448},
    FactWeight{MoveFact::nearer_centre, 0, 115},
    FactWeight{MoveFact::king_to_centre, 0, 626},
    FactWeight{MoveFact::chained_pawns, 0, 3},
    FactWeight{MoveFact::piece_scope, 0, 53},
    FactWeight{MoveFact::rook_scope, 0, 52},
    FactWeight{MoveFact::outnumbered_men, 0, 200},
    FactWeight{MoveFact::rook_on_open_file, 0, 503},
    FactWeight{MoveFact::rook_on_half_open_file, 0, 301},
    FactWeight{MoveFact::loose_men, 0, 137},
    FactWeight{MoveFact::own_king_squares, 0, 223},
    FactWeight{MoveFact::their_king_squares, 0, 115},
    FactWeight{MoveFact::levers_at_hand, 0, 332},
    FactWeight{MoveFact::stuck_pieces, 0, 748},
    FactWeight{MoveFact::men_in_other_half, 0, 466},
    FactWeight{MoveFact::rook_on_seventh, 0, 1020},
    FactWeight{MoveFact::attacked_men, 0, 8},
    FactWeight{MoveFact::outpost, 0, 470},
    FactWeight{MoveFact::frees_pawns, 0, 47},
    FactWeight{MoveFact::battery, 0, 268},
    FactWeight{MoveFact::rim_knights, 0, 101},
    FactWeight{MoveFact::takes_bishop, 0, 1418},
    FactWeight{MoveFact::holes, 0, 169},
    FactWeight{MoveFact::squares_held_twice, 0, 52},
    FactWeight{MoveFact::doubled_pawns, 0, 700},
    FactWeight{MoveFact::pins, 0, 372},
    FactWeight{MoveFact::centre_pawns, 0, 706},
    FactWeight{MoveFact::uses_hole, 0, 236},
    FactWeight{MoveFact::fewer_checks, 0, 222},
    FactWeight{MoveFact::uses_king, 0, 730},
    FactWeight{MoveFact::blocks_passer, 0, 415},
};
static_assert(fact_weights.size() == static_cast<std::size_t>(MoveFact::end_));
static_assert(std::ranges::is_sorted(fact_weights, {}, &FactWeight::fact));

/// A candidate that weighs this much less than the best one is not worth a look.
inline constexpr int widest_gap = 3000;

/// Whether a fact is a reason that is given for a move. The others only help to order moves: nobody plays a move because
/// it is made by a pawn, and `rook_scope` is a part of `piece_scope`.
[[nodiscard]] constexpr bool is_reason(MoveFact fact) noexcept {
    return fact != MoveFact::advances_pawn && fact != MoveFact::pawn_under_attack && fact != MoveFact::rook_scope;
}

/// What the fact adds to its move.
[[nodiscard]] constexpr int weight_of(const MoveReason& reason) noexcept {
    const FactWeight& row = fact_weights[static_cast<std::size_t>(reason.fact)];
    return row.once + row.each * std::clamp<int>(reason.amount, -most_counted, most_counted);
}

} // namespace keysquare
