// Columns of the numeric vector: kings, and what belongs to the position as a whole.
#pragma once

#include <algorithm>
#include <array>

#include <keysquare/features/endgame.hpp>

#include "feature_quantity.hpp"

namespace keysquare::detail {

using Facts = FeatureFacts;

inline constexpr std::array king_quantities{
    Quantity{"shielded_files", FeatureUnit::files, Spread::sides_and_difference,
             "Files out of the king's and its neighbours on which a pawn of the side stands one or two ranks ahead of "
             "the side's king.",
             [](const Facts& at, Side side) { return at.of(side).shield; }},
    Quantity{"king_open_files", FeatureUnit::files, Spread::sides,
             "Files out of that of the side's king and its neighbours without any pawn.",
             [](const Facts& at, Side side) { return at.of(side).king_open_files & rank_squares(0); }},
    Quantity{"king_half_open_files", FeatureUnit::files, Spread::sides,
             "Files out of that of the side's king and its neighbours with pawns of the side only.",
             [](const Facts& at, Side side) { return at.of(side).king_half_open_files & rank_squares(0); }},
    Quantity{"king_diagonals", FeatureUnit::lines, Spread::sides,
             "Bishops and queens of the other side, each counted once for each of its two diagonals on which it "
             "attacks the square of the side's king or one next to it.",
             [](const Facts& at, Side side) { return at.of(side).king_diagonals; }},
    Quantity{"king_attackers", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the other side, its king excepted, that attack the square of the side's king or one next to it.",
             [](const Facts& at, Side side) { return at.of(side).near.attackers; }},
    Quantity{"king_attacked_squares", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares out of that of the side's king and those next to it that a man of the other side, its king "
             "excepted, attacks.",
             [](const Facts& at, Side side) { return at.of(side).near.attacked; }},
    Quantity{"king_attacked_twice", FeatureUnit::squares, Spread::sides,
             "Squares out of that of the side's king and those next to it that at least two men of the other side, its "
             "king included, attack.",
             [](const Facts& at, Side side) { return at.of(side).near.squares & at.attacked_twice(other(side)); }},
    Quantity{"king_defenders", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king excepted, that attack the square of its king or one next to it.",
             [](const Facts& at, Side side) { return at.of(side).near.defenders; }},
    Quantity{"king_escapes", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares next to the side's king, without a man of the side, that the other side does not attack once the "
             "king is off the board.",
             [](const Facts& at, Side side) { return at.of(side).escapes; }},
    Quantity{"luft_squares", FeatureUnit::squares, Spread::sides,
             "King escapes on the side's rank 2 while its king stands on its rank 1; otherwise 0.",
             [](const Facts& at, Side side) {
                 const int first_rank = side == Side::white ? 0 : 7;
                 return rank_of(at.position.king(side)) == first_rank ? at.of(side).escapes & ~rank_squares(first_rank)
                                                                      : no_squares;
             }},
    Quantity{"king_in_centre", FeatureUnit::yes_or_no, Spread::sides,
             "Whether the side's king stands on the d-file or e-file, on its rank 1 or 2.",
             [](const Facts& at, Side side) { return is_king_in_centre(at.position, side); }},
    Quantity{"king_rank", FeatureUnit::rank, Spread::sides, "The rank of the side's king, as the side counts from 1.",
             [](const Facts& at, Side side) { return 1 + rank_for(side, at.position.king(side)); }},
    Quantity{"may_castle_short", FeatureUnit::yes_or_no, Spread::sides,
             "Whether the side has kept the right to castle towards the h-file.",
             [](const Facts& at, Side side) { return at.position.castling_rook(side, Wing::short_) != Square::none; }},
    Quantity{"may_castle_long", FeatureUnit::yes_or_no, Spread::sides,
             "Whether the side has kept the right to castle towards the a-file.",
             [](const Facts& at, Side side) { return at.position.castling_rook(side, Wing::long_) != Square::none; }},
};

/// Each side has exactly one bishop, and they run on different colours.
inline bool has_opposite_bishops(const Position& position) noexcept {
    const Squares white = position.men(Side::white, Kind::bishop);
    const Squares black = position.men(Side::black, Kind::bishop);
    return white.count() == 1 && black.count() == 1 && is_light(white.first()) != is_light(black.first());
}

inline bool kings_on_opposite_wings(const Position& position) noexcept {
    return (file_of(position.king(Side::white)) < 4) != (file_of(position.king(Side::black)) < 4);
}

inline constexpr std::array position_quantities{
    Quantity{"white_to_move", FeatureUnit::yes_or_no, Spread::position, "Whether White is the mover.",
             [](const Facts& at, Side) { return at.position.mover() == Side::white; }},
    Quantity{"in_check", FeatureUnit::yes_or_no, Spread::mover, "Whether the mover's king is attacked.",
             [](const Facts& at, Side mover) { return at.attacked(other(mover)).has(at.position.king(mover)); }},
    Quantity{"checkers", FeatureUnit::men, Spread::mover, "Men that give check to the mover.",
             [](const Facts& at, Side) { return checkers_of(at.position); }},
    Quantity{"legal_moves", FeatureUnit::moves, Spread::mover,
             "Legal moves of the mover; a promotion counts once for each piece.",
             [](const Facts& at, Side) { return at.moves.moves; }},
    Quantity{"legal_captures", FeatureUnit::moves, Spread::mover,
             "Legal moves that take a man, en passant included; a promotion counts once for each piece.",
             [](const Facts& at, Side) { return at.moves.captures; }},
    Quantity{"legal_checks", FeatureUnit::moves, Spread::mover,
             "Legal moves that give check; a promotion counts once for each piece.",
             [](const Facts& at, Side) { return at.moves.checks; }},
    Quantity{"en_passant_captures", FeatureUnit::moves, Spread::mover, "Legal en passant captures.",
             [](const Facts& at, Side) { return at.moves.en_passant; }},
    Quantity{"men", FeatureUnit::men, Spread::position, "Men on the board, kings included.",
             [](const Facts& at, Side) { return at.position.occupied(); }},
    Quantity{"pieces", FeatureUnit::men, Spread::position, "Knights, bishops, rooks and queens of both sides.",
             [](const Facts& at, Side) {
                 return at.position.occupied() & ~(at.position.men(Kind::pawn) | at.position.men(Kind::king));
             }},
    Quantity{"endgame", FeatureUnit::yes_or_no, Spread::position,
             "Whether at most four knights, bishops, rooks and queens of both sides together are left.",
             [](const Facts& at, Side) { return is_endgame(at.position); }},
    Quantity{"opposite_bishops", FeatureUnit::yes_or_no, Spread::position,
             "Whether each side has exactly one bishop and they stand on squares of different colours.",
             [](const Facts& at, Side) { return has_opposite_bishops(at.position); }},
    Quantity{"open_files", FeatureUnit::files, Spread::position, "Files without any pawn.",
             [](const Facts& at, Side) { return at.pawns.open_files & rank_squares(0); }},
    Quantity{"locked_pawn_pairs", FeatureUnit::pairs, Spread::position,
             "White pawns with a black pawn on the square before them.",
             [](const Facts& at, Side) { return at.of(Side::white).blocked.fixed; }},
    Quantity{"contested_squares", FeatureUnit::squares, Spread::position, "Squares that both sides attack.",
             [](const Facts& at, Side) { return at.attacked(Side::white) & at.attacked(Side::black); }},
    Quantity{"kings_distance", FeatureUnit::steps, Spread::position,
             "King moves from one king to the other on an empty board.",
             [](const Facts& at, Side) {
                 return king_distance(at.position.king(Side::white), at.position.king(Side::black));
             }},
    Quantity{"kings_on_opposite_wings", FeatureUnit::yes_or_no, Spread::position,
             "Whether one king stands on the files a to d and the other on e to h.",
             [](const Facts& at, Side) { return kings_on_opposite_wings(at.position); }},
    Quantity{"halfmove_clock", FeatureUnit::plies, Spread::position,
             "Plies since the last capture or pawn move, as the position says; at most 32767.",
             [](const Facts& at, Side) { return (std::min)(at.position.halfmove_clock(), 32767); }},
    Quantity{"move_number", FeatureUnit::moves, Spread::position,
             "The number of the move, from 1, as the position says; at most 32767.",
             [](const Facts& at, Side) { return (std::min)(at.position.move_number(), 32767); }},
};

} // namespace keysquare::detail
