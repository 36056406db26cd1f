// SAN in and out: the move text of the 1994 PGN standard (section 8.2.3).
#pragma once

#include <string>
#include <string_view>

#include <keysquare/board/legal.hpp>
#include <keysquare/notation/error.hpp>

namespace keysquare {

/// The move as SAN in export format: "Nbd7", "exd6", "O-O", "e8=Q+", "Qh7#". The origin is told apart by file, else
/// rank, else both, and only from men that could legally go to the same square. The null move is "--". Precondition:
/// the move is legal in `position`, or null.
[[nodiscard]] std::string san(const Position& position, Move move);

/// "23...Rc4": the move as people write it where a line begins.
[[nodiscard]] std::string numbered_san(const Position& position, Move move);

/// Adds the move without its number to the end of `text`, for callers that build long ones.
void write_san(const Position& position, Move move, std::string& text);

/// Reads SAN as import format allows it: zeros for the letter O in castling, an origin that says more than is needed
/// ("Ng1f3", "Ng1-f3", "Pe2e4"), a capture without "x" ("ed5") or a piece's "x" on an empty square, a promotion without
/// "=" ("e8Q", "e8(Q)"), and "+", "#", "!", "?" or "e.p." in any number at the end.
///
/// Costs no list of moves and, when it succeeds, no allocation. Errors, with the column (from 1) in `text`:
/// - `not_a_move`: the character at the column fits no move text;
/// - `no_such_piece`: no man of that kind (from that file or rank) reaches the square;
/// - `illegal_move`: castling that is not possible, an own man on the square, a promotion that is none;
/// - `king_left_in_check`: the only men that reach the square must stay with their king;
/// - `ambiguous_move`: several men may legally go there;
/// - `missing_promotion`: a pawn reaches the last rank and the text does not say what it becomes.
[[nodiscard]] Result<Move> read_san(const Position& position, std::string_view text);

} // namespace keysquare

#include <keysquare/notation/san_impl.hpp>
