// FEN in and out: the six fields of the 1994 PGN standard (section 16.1), with the castling field of X-FEN and of
// rook-file letters ("HAha") for Chess960.
#pragma once

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string>
#include <string_view>

#include <keysquare/board/validity.hpp>
#include <keysquare/notation/error.hpp>

namespace keysquare {

/// How much a FEN reader accepts.
enum class Strictness : std::uint8_t {
    strict, ///< only positions that a game could give, by the tests of `board/validity.hpp`
    lenient ///< all that can be computed on: impossible castling rights and en passant squares are dropped
};

/// The usual start position.
inline constexpr std::string_view start_fen = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

/// Reads a FEN of four to six fields (an EPD's four fields count as clocks "0 1"). Spaces around it are allowed.
/// Errors: the reason, the field and the column (from 1) of the character at fault.
[[nodiscard]] Result<Position> read_fen(std::string_view text, Strictness strictness = Strictness::strict);

/// The first four fields alone; anything after them is left to the caller and its start is stored in `rest_at`
/// (offset).
[[nodiscard]] Result<Position> read_fen_fields(std::string_view text, Strictness strictness, std::size_t& rest_at);

/// The position as FEN. The en passant field names the square after every double step, as the standard says; a castling
/// right is a letter KQkq when its rook is the outermost one, otherwise the letter of the rook's file (X-FEN).
[[nodiscard]] std::string fen(const Position& position);

/// The start position of chess.
[[nodiscard]] inline Position start_position() {
    static const Position position = *read_fen(start_fen);
    return position;
}

} // namespace keysquare

#include <keysquare/notation/fen_impl.hpp>
