// Fact weights: how much each fact about a move counts when candidates are put in order.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include <keysquare/board/list_algorithms.hpp>
#include <keysquare/thinking/move_facts.hpp>

namespace keysquare {

/// One row: a move gets `once` when the amount is not 0, and `each` for every one of it, up to `most_counted`. In
/// thousandths; they only order moves, and mean nothing by themselves.
struct FactWeight {
    MoveFact fact = MoveFact::end_; ///< which fact
    int once = 0;                   ///< for having it at all
    int each = 0;                   ///< for every one of its amount
};

/// Amounts above this count like it, below its negative likewise.
inline constexpr int most_counted = 9;

/// Fitted by `bench/fit_candidates.py` (which prints these rows) on tournament games and on every other position of two
/// open collections; the accuracy that is reported is that of the positions left out.
inline constexpr std::array fact_weights{
    FactWeight{MoveFact::mates, 0, 10996},
    FactWeight{MoveFact::wins, 634, 1219},
    FactWeight{MoveFact::meets_threat, 0, 340},
    FactWeight{MoveFact::costs, -339, -159},
    FactWeight{MoveFact::threatens_mate, 0, 1337},
    FactWeight{MoveFact::threatens, 600, 0},
    FactWeight{MoveFact::trades, 0, 391},
    FactWeight{MoveFact::parries, 0, 387},
    FactWeight{MoveFact::allows, 0, -1306},
    FactWeight{MoveFact::checks, 0, 409},
    FactWeight{MoveFact::castles, 0, 2504},
    FactWeight{MoveFact::develops, 0, 329},
    FactWeight{MoveFact::moves_attacked_queen, 0, 1010},
    FactWeight{MoveFact::moves_attacked_piece, 0, 314},
    FactWeight{MoveFact::attacks_pieces, 0, 290},
    FactWeight{MoveFact::attacks_pawns, 0, 205},
    FactWeight{MoveFact::advances_pawn, -122, 136},
    FactWeight{MoveFact::pawn_under_attack, 0, 573},
    FactWeight{MoveFact::pawn_lever, 0, 301},
    FactWeight{MoveFact::pushes_passer, 0, 1082},
    FactWeight{MoveFact::loosens_own_king, 0, -476},
    FactWeight{MoveFact::nearer_centre, 0, 127},
    FactWeight{MoveFact::king_to_centre, 0, 650},
    FactWeight{MoveFact::chained_pawns, 0, 2},
    FactWeight{MoveFact::piece_scope, 0, 50},
    FactWeight{MoveFact::rook_scope, 0, 50},
    FactWeight{MoveFact::outnumbered_men, 0, 126},
    FactWeight{MoveFact::rook_on_open_file, 0, 512},
    FactWeight{MoveFact::rook_on_half_open_file, 0, 317},
    FactWeight{MoveFact::loose_men, 0, 120},
    FactWeight{MoveFact::own_king_squares, 0, 225},
    FactWeight{MoveFact::their_king_squares, 0, 131},
    FactWeight{MoveFact::levers_at_hand, 0, 307},
    FactWeight{MoveFact::stuck_pieces, 0, 748},
    FactWeight{MoveFact::men_in_other_half, 0, 462},
    FactWeight{MoveFact::rook_on_seventh, 0, 1068},
    FactWeight{MoveFact::attacked_men, 0, 3},
    FactWeight{MoveFact::outpost, 0, 463},
    FactWeight{MoveFact::frees_pawns, 0, 59},
    FactWeight{MoveFact::battery, 0, 277},
    FactWeight{MoveFact::rim_knights, 0, 50},
    FactWeight{MoveFact::takes_bishop, 0, 1396},
    FactWeight{MoveFact::holes, 0, 161},
    FactWeight{MoveFact::squares_held_twice, 0, 53},
    FactWeight{MoveFact::doubled_pawns, 0, 707},
    FactWeight{MoveFact::pins, 0, 383},
    FactWeight{MoveFact::centre_pawns, 0, 717},
    FactWeight{MoveFact::uses_hole, 0, 233},
    FactWeight{MoveFact::fewer_checks, 0, 213},
    FactWeight{MoveFact::uses_king, 0, 759},
    FactWeight{MoveFact::blocks_passer, 0, 401},
};
static_assert(fact_weights.size() == static_cast<std::size_t>(MoveFact::end_));
static_assert(detail::is_in_order_of_facts(fact_weights));

/// A candidate that weighs this much less than the best one is not worth a look.
inline constexpr int widest_gap = 3000;

/// Whether a fact is a reason that is given for a move. The others only help to order moves: nobody plays a move
/// because it is made by a pawn, and `rook_scope` is a part of `piece_scope`.
[[nodiscard]] constexpr bool is_reason(MoveFact fact) noexcept {
    return fact != MoveFact::advances_pawn && fact != MoveFact::pawn_under_attack && fact != MoveFact::rook_scope;
}

/// What the fact adds to its move.
[[nodiscard]] constexpr int weight_of(const MoveReason& reason) noexcept {
    const FactWeight& row = fact_weights[static_cast<std::size_t>(reason.fact)];
    return row.once + row.each * std::clamp<int>(reason.amount, -most_counted, most_counted);
}

} // namespace keysquare
