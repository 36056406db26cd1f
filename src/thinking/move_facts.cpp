#include <keysquare/thinking/move_facts.hpp>

#include <array>

namespace keysquare {

namespace {

constexpr std::array<std::string_view, static_cast<std::size_t>(MoveFact::end_)> move_fact_names{
    "mates",
    "wins",
    "meets_threat",
    "costs",
    "threatens_mate",
    "threatens",
    "trades",
    "parries",
    "allows",
    "checks",
    "castles",
    "develops",
    "moves_attacked_queen",
    "moves_attacked_piece",
    "attacks_pieces",
    "attacks_pawns",
    "advances_pawn",
    "pawn_under_attack",
    "pawn_lever",
    "pushes_passer",
    "loosens_own_king",
    "nearer_centre",
    "king_to_centre",
    "chained_pawns",
    "piece_scope",
    "rook_scope",
    "outnumbered_men",
    "rook_on_open_file",
    "rook_on_half_open_file",
    "loose_men",
    "own_king_squares",
    "their_king_squares",
    "levers_at_hand",
    "stuck_pieces",
    "men_in_other_half",
    "rook_on_seventh",
    "attacked_men",
    "outpost",
    "frees_pawns",
    "battery",
    "rim_knights",
    "takes_bishop",
    "holes",
    "squares_held_twice",
    "doubled_pawns",
    "pins",
    "centre_pawns",
    "uses_hole",
    "fewer_checks",
    "uses_king",
    "blocks_passer",
};

constexpr std::array searched_fact_table{
    SearchedFact{MoveFact::mates, "It mates by force."},
    SearchedFact{MoveFact::wins, "Pawns that it wins, whatever the reply."},
    SearchedFact{MoveFact::meets_threat, "Pawns that it keeps more than doing nothing would; 9 also for a mate."},
    SearchedFact{MoveFact::costs, "It wins nothing: pawns that it keeps less than the best move; 9 also for a mate."},
    SearchedFact{MoveFact::threatens_mate, "If the other side passed, a forced mate would follow."},
    SearchedFact{MoveFact::threatens,
                 "It wins nothing and gives no check: pawns that would fall if the other side passed, beyond what "
                 "falls at once without the move."},
    SearchedFact{MoveFact::trades, "It takes or promotes, wins nothing, and the balance stays what it was."},
    SearchedFact{MoveFact::parries, "The strongest threat of the other side (`threats`) is stopped (`parries`)."},
    SearchedFact{MoveFact::allows,
                 "It wins nothing, and the other side can then win at least a pawn more than the move took, whatever "
                 "the reply."},
};
static_assert(searched_fact_table.size() == static_cast<std::size_t>(MoveFact::checks));

} // namespace

std::string_view name(MoveFact fact) noexcept { return move_fact_names[static_cast<std::size_t>(fact)]; }

std::span<const SearchedFact> searched_facts() noexcept { return searched_fact_table; }

} // namespace keysquare
