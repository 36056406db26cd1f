// Coordinate notation, origin and target square ("e2e4", "e7e8q"), in and out; and the reader that takes either
// notation.
#pragma once

#include <string>
#include <string_view>

#include <keysquare/notation/san.hpp>

namespace keysquare {

/// Origin, target and the promotion's small letter. Castling is the king's step ("e1g1") when the king stands on the
/// e-file and the rook on the a- or h-file; otherwise (Chess960) king square and rook square. The null move is "--".
[[nodiscard]] std::string coordinate(Move move);

/// Reads origin, target and, for promotions, a letter in either case. Both forms of castling are understood whatever
/// the files; where the king could also step to the square, the step is meant. Errors, with the column (from 1):
/// - `not_a_move`: the character at the column is no part of such a text;
/// - `no_such_piece`: the mover has no man on the first square;
/// - `illegal_move`: the man does not move that way, castling is not possible, or a promotion is none;
/// - `king_left_in_check`, `missing_promotion`: as in `read_san`.
[[nodiscard]] Result<Move> read_coordinate(const Position& position, std::string_view text);

/// Reads a move in either notation. A text that begins with two squares is taken as coordinates and its error speaks of
/// them; anything else is SAN. (No text means one move as SAN and another as coordinates.)
[[nodiscard]] Result<Move> read_move(const Position& position, std::string_view text);

} // namespace keysquare

#include <keysquare/notation/coordinate_impl.hpp>
