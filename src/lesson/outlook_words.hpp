// OutlookTemplates and OutlookWords: the sentences about the outlook of both sides; and the English ones.
#pragma once

#include <array>

#include <keysquare/board/literal.hpp>
#include <keysquare/thinking/outlook.hpp>

#include "vocabulary.hpp"

namespace keysquare {

/// How a reason is said: of useful moves, in brackets behind them; and of a best square, where the man stands there.
/// {worth}: the amount in pawns; {count}: the amount, with its noun or the word that goes with it; {squares}: the
/// squares.
struct OutlookWords {
    MoveFact fact;
    Literal of_moves;
    Literal there;
};

/// {Side}, {Other}: the side spoken of, the other one; {count}, {safe}, {legal}, {useful}, {threats}: counts; {move},
/// {moves}: moves; {man} goes to {square}, by way of {stop}, for {gains}. Where "after pass" makes a difference it has a
/// template of its own.
struct OutlookTemplates {
    Literal no_turn;
    Literal mated;
    Literal no_move;
    Literal no_move_after_pass;
    Literal in_check;
    Literal only;
    Literal named;
    Literal named_after_pass;
    Literal among;
    Literal among_after_pass;
    Literal none_useful;
    Literal none_useful_after_pass;
    Literal none_safe;
    Literal none_safe_after_pass;
    Literal no_plan;
    Literal best_in_one;
    Literal best_in_two;
    Literal equilibrium;
    Literal guardian;
    Literal has_turn;
    Literal has_no_turn;
};

/// In the order in which reasons are told: the searched ones, then as `yardsticks`.
inline constexpr std::array english_outlook_words{
    OutlookWords{MoveFact::mates, "mate", ""},
    OutlookWords{MoveFact::wins, "winning {worth}", ""},
    OutlookWords{MoveFact::meets_threat, "against a threat", ""},
    OutlookWords{MoveFact::threatens_mate, "threatening mate", ""},
    OutlookWords{MoveFact::threatens, "threatening {worth}", ""},
    OutlookWords{MoveFact::castles, "castling", ""},
    OutlookWords{MoveFact::outpost, "an outpost", "stands on an outpost"},
    OutlookWords{MoveFact::rook_on_seventh, "the seventh rank", "stands on the seventh rank"},
    OutlookWords{MoveFact::pushes_passer, "a passed pawn goes on", ""},
    OutlookWords{MoveFact::develops, "development", "is developed"},
    OutlookWords{MoveFact::rook_on_open_file, "an open file", "has an open file"},
    OutlookWords{MoveFact::rook_on_half_open_file, "a half-open file", "has a half-open file"},
    OutlookWords{MoveFact::stuck_pieces, "no longer shut in", "leaves fewer pieces shut in"},
    OutlookWords{MoveFact::rim_knights, "away from the rim", "is off the rim"},
    OutlookWords{MoveFact::king_to_centre, "the king towards the centre", "is nearer to the centre"},
    OutlookWords{MoveFact::blocks_passer, "stopping a passed pawn", "stops a passed pawn"},
    OutlookWords{MoveFact::uses_hole, "aiming at {squares}", "aims at the {count?hole|holes} on {squares}"},
    OutlookWords{MoveFact::pawn_lever, "a pawn lever", ""},
    OutlookWords{MoveFact::centre_pawns, "a pawn in the centre", ""},
    OutlookWords{MoveFact::their_king_squares, "less room for the other king", "takes {squares} from the other king"},
    OutlookWords{MoveFact::holes, "fewer holes", "leaves {count:hole} fewer"},
    OutlookWords{MoveFact::piece_scope, "more squares for the pieces", "gives the pieces {count:more square}"},
    OutlookWords{MoveFact::chained_pawns, "pawns that guard each other", ""},
    OutlookWords{MoveFact::squares_held_twice, "more squares attacked twice",
                 "helps to attack {count:more square} twice"},
};

inline constexpr OutlookTemplates english_outlook_templates{
    .no_turn = "{Side} has no turn, as {Other} stands in check.",
    .mated = "{Side} is mated.",
    .no_move = "{Side} has no legal move.",
    .no_move_after_pass = "{Side} would have no legal move.",
    .in_check = "{Side} stands in check and has {legal:legal move}.",
    .only = "Only {move} keeps the material.",
    .named = "{Side} has {count:useful move}: {moves}.",
    .named_after_pass = "If {Other} passed, {Side} would have {count:useful move}: {moves}.",
    .among = "{Side} has {count:useful move}, among them {moves}.",
    .among_after_pass = "If {Other} passed, {Side} would have {count:useful move}, among them {moves}.",
    .none_useful = "{Side} has no useful move, only {safe:safe move}.",
    .none_useful_after_pass = "If {Other} passed, {Side} would have no useful move, only {safe:safe move}.",
    .none_safe = "{Side} has no move that is useful or safe.",
    .none_safe_after_pass = "If {Other} passed, {Side} would have no move that is useful or safe.",
    .no_plan = "No piece has a better square: {Side} can only wait.",
    .best_in_one = "The best square for {man} is {square}, one move away, where it {gains}.",
    .best_in_two = "The best square for {man} is {square}, two moves away by way of {stop}, where it {gains}.",
    .equilibrium = "Neither side has a threat, and no piece a better square: whoever is to move can only wait.",
    .guardian =
        "{Man} is gone: of the {colour} squares {Side} held {before} and holds {now} now, {Other} held {other_before} and holds {other_now}.",
    .has_turn = "{Side} has {useful:useful move} and {threats:threat}",
    .has_no_turn = "{Side} has no turn while {Other} stands in check",
};

} // namespace keysquare
