// CandidateWords: how reasons for a move are said; and the English ones.
#pragma once

#include <array>

#include <keysquare/board/list_algorithms.hpp>
#include <keysquare/board/literal.hpp>
#include <keysquare/thinking/move_facts.hpp>

#include "vocabulary.hpp"

namespace keysquare {

/// How a fact is said, after the name of the move. Empty: it only helps to order moves. {worth}: the amount in pawns;
/// {amount}: the amount, with its noun or the word that goes with it; {men}: the men on its squares; {squares}: the
/// squares; {man}: the man that moves; {win}: the line that wins; {threat}: the move that is threatened; {parried}: the
/// move that was; {saved}: what is saved from it; {allowed}: what the other side then wins, and how.
struct FactWords {
    MoveFact fact;
    Literal good; ///< what speaks for the move
    Literal bad;  ///< what speaks against it: less of it, or more of a drawback
};

struct CandidateWords {
    TableOf<FactWords> facts; ///< in the order of `MoveFact`
    Literal but;              ///< between what speaks for the move and what speaks against it
    Literal saved_king;       ///< {saved}, when it was to be mated
    Literal allowed;          ///< {allowed}: {Side} wins {worth} by {line}
    Literal allowed_mate;     ///< the same with a mate
};

inline constexpr std::array english_fact_words{
    FactWords{MoveFact::mates, "mates ({win})", ""},
    FactWords{MoveFact::wins, "wins {worth} ({win})", ""},
    FactWords{MoveFact::meets_threat, "saves {saved}", ""},
    FactWords{MoveFact::costs, "", "keeps {worth} less than the best move"},
    FactWords{MoveFact::threatens_mate, "threatens mate with {threat}", ""},
    FactWords{MoveFact::threatens, "threatens {threat}", ""},
    FactWords{MoveFact::trades, "trades on {squares}", ""},
    FactWords{MoveFact::parries, "parries {parried}", ""},
    FactWords{MoveFact::allows, "", "lets {allowed}"},
    FactWords{MoveFact::checks, "gives check", ""},
    FactWords{MoveFact::castles, "castles", ""},
    FactWords{MoveFact::develops, "develops a piece", ""},
    FactWords{MoveFact::moves_attacked_queen, "takes the queen out of attack", ""},
    FactWords{MoveFact::moves_attacked_piece, "moves the attacked {man:kind}", ""},
    FactWords{MoveFact::attacks_pieces, "attacks {men}", ""},
    FactWords{MoveFact::attacks_pawns, "attacks {men}", ""},
    FactWords{MoveFact::advances_pawn, "", ""},
    FactWords{MoveFact::pawn_under_attack, "", ""},
    FactWords{MoveFact::pawn_lever, "brings a lever against {men}", ""},
    FactWords{MoveFact::pushes_passer, "pushes a passed pawn", ""},
    FactWords{MoveFact::loosens_own_king, "", "loosens the pawns before its king"},
    FactWords{MoveFact::nearer_centre, "brings the {man:kind} nearer to the centre", ""},
    FactWords{MoveFact::king_to_centre, "brings the king into play", ""},
    FactWords{MoveFact::chained_pawns, "makes pawns guard each other", "breaks up a chain of pawns"},
    FactWords{MoveFact::piece_scope, "gives the pieces {amount:more square}",
              "takes {amount:square} from its own pieces"},
    FactWords{MoveFact::rook_scope, "", ""},
    FactWords{MoveFact::outnumbered_men, "leaves fewer men attacked more often than guarded",
              "leaves {men} attacked more often than guarded"},
    FactWords{MoveFact::rook_on_open_file, "puts a rook on an open file", "leaves the open file"},
    FactWords{MoveFact::rook_on_half_open_file, "puts a rook on a half-open file", ""},
    FactWords{MoveFact::loose_men, "leaves fewer men loose", "leaves {men} loose"},
    FactWords{MoveFact::own_king_squares, "gives its king {amount:more square}", ""},
    FactWords{MoveFact::their_king_squares, "takes {squares} from the other king", ""},
    FactWords{MoveFact::levers_at_hand, "prepares a pawn lever on {squares}", ""},
    FactWords{MoveFact::stuck_pieces, "frees a piece that had no square", "shuts in {men}"},
    FactWords{MoveFact::men_in_other_half, "goes into the other half of the board", ""},
    FactWords{MoveFact::rook_on_seventh, "brings a rook to the seventh rank", "leaves the seventh rank"},
    FactWords{MoveFact::attacked_men, "leaves fewer men attacked", ""},
    FactWords{MoveFact::outpost, "takes the outpost on {squares}", "gives up the outpost on {squares}"},
    FactWords{MoveFact::frees_pawns, "clears the way for a pawn", ""},
    FactWords{MoveFact::battery, "lines up two pieces", ""},
    FactWords{MoveFact::rim_knights, "brings the knight back from the rim", "puts the knight on the rim"},
    FactWords{MoveFact::takes_bishop, "takes a bishop", ""},
    FactWords{MoveFact::holes, "closes {amount?the hole|the holes} on {squares}",
              "leaves {amount?the hole|the holes} on {squares} behind"},
    FactWords{MoveFact::squares_held_twice, "attacks {amount:more square} twice", ""},
    FactWords{MoveFact::doubled_pawns, "undoubles pawns", "doubles pawns"},
    FactWords{MoveFact::pins, "pins {men}", ""},
    FactWords{MoveFact::centre_pawns, "puts a pawn into the centre", "takes a pawn away from the centre"},
    FactWords{MoveFact::uses_hole, "aims at {amount?the hole|the holes} on {squares}", ""},
    FactWords{MoveFact::fewer_checks, "leaves the other side fewer checks", "lets the other side give more checks"},
    FactWords{MoveFact::uses_king, "uses the king", ""},
    FactWords{MoveFact::blocks_passer, "blocks {men}", "lets a passed pawn go"},
};
static_assert(english_fact_words.size() == static_cast<std::size_t>(MoveFact::end_));
static_assert(detail::is_in_order_of_facts(english_fact_words));

inline constexpr CandidateWords english_candidate_words{
    .facts = english_fact_words,
    .but = ", but ",
    .saved_king = "the king from mate",
    .allowed = "{Side} win {worth} ({line})",
    .allowed_mate = "{Side} mate ({line})",
};

} // namespace keysquare
