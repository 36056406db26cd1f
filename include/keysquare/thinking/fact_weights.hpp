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
    // fit begins
    FactWeight{MoveFact::mates, 0, 11191},
    FactWeight{MoveFact::wins, 782, 1202},
    FactWeight{MoveFact::meets_threat, 0, 416},
    FactWeight{MoveFact::costs, -1295, -185},
    FactWeight{MoveFact::threatens_mate, 0, 1398},
    FactWeight{MoveFact::threatens, 618, 0},
    FactWeight{MoveFact::trades, 0, 490},
    FactWeight{MoveFact::checks, 0, 608},
    FactWeight{MoveFact::castles, 0, 2243},
    FactWeight{MoveFact::develops, 0, 336},
    FactWeight{MoveFact::moves_attacked_queen, 0, 1025},
    FactWeight{MoveFact::moves_attacked_piece, 0, 297},
    FactWeight{MoveFact::attacks_pieces, 0, 308},
    FactWeight{MoveFact::attacks_pawns, 0, 189},
    FactWeight{MoveFact::advances_pawn, -142, 131},
    FactWeight{MoveFact::pawn_under_attack, 0, 640},
    FactWeight{MoveFact::pawn_lever, 0, 337},
    FactWeight{MoveFact::pushes_passer, 0, 956},
    FactWeight{MoveFact::loosens_own_king, 0, -485},
    FactWeight{MoveFact::nearer_centre, 0, 110},
    FactWeight{MoveFact::king_to_centre, 0, 608},
    FactWeight{MoveFact::chained_pawns, 0, 36},
    FactWeight{MoveFact::piece_scope, 0, 56},
    FactWeight{MoveFact::rook_scope, 0, 50},
    FactWeight{MoveFact::outnumbered_men, 0, 206},
    FactWeight{MoveFact::rook_on_open_file, 0, 510},
    FactWeight{MoveFact::rook_on_half_open_file, 0, 323},
    FactWeight{MoveFact::loose_men, 0, 149},
    FactWeight{MoveFact::own_king_squares, 0, 237},
    FactWeight{MoveFact::their_king_squares, 0, 103},
    FactWeight{MoveFact::levers_at_hand, 0, 365},
    FactWeight{MoveFact::stuck_pieces, 0, 725},
    FactWeight{MoveFact::men_in_other_half, 0, 429},
    FactWeight{MoveFact::rook_on_seventh, 0, 938},
    FactWeight{MoveFact::attacked_men, 0, 47},
    FactWeight{MoveFact::outpost, 0, 498},
    FactWeight{MoveFact::frees_pawns, 0, 81},
    FactWeight{MoveFact::battery, 0, 244},
    FactWeight{MoveFact::rim_knights, 0, 197},
    FactWeight{MoveFact::takes_bishop, 0, 1379},
    FactWeight{MoveFact::holes, 0, 173},
    FactWeight{MoveFact::squares_held_twice, 0, 53},
    FactWeight{MoveFact::doubled_pawns, 0, 702},
    FactWeight{MoveFact::pins, 0, 335},
    FactWeight{MoveFact::centre_pawns, 0, 701},
    FactWeight{MoveFact::uses_hole, 0, 228},
    // fit ends
};

/// A candidate that weighs this much less than the best one is not worth a look.
inline constexpr int widest_gap = 3000;

/// What the fact adds to its move.
[[nodiscard]] constexpr int weight_of(const MoveReason& reason) noexcept {
    const FactWeight& row = fact_weights[static_cast<std::size_t>(reason.fact)];
    return row.once + row.each * std::clamp<int>(reason.amount, -most_counted, most_counted);
}

} // namespace keysquare
