// A FEN on the first line, a move text on the second: what is accepted is legal, and written and read as the same move.
#pragma once

#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

#include "require.hpp"

namespace keysquare::fuzz {

inline void require_means(const Position& position, std::string_view text, Move move) {
    const Result<Move> read = read_move(position, text);
    require(read && *read == move, std::string{text} + " does not mean the move it was written for");
}

inline void try_san(std::string_view text) {
    const auto end = text.find('\n');
    const Result<Position> position = read_fen(text.substr(0, end), Strictness::lenient);
    if (!position) return;
    const std::string_view move_text = end == std::string_view::npos ? "" : text.substr(end + 1);
    for (auto* const read : {&read_san, &read_coordinate, &read_move}) {
        const Result<Move> move = read(*position, move_text);
        if (!move) {
            require(move.error().column <= move_text.size() + 1, "an error behind the text");
            continue;
        }
        if (!*move) continue; // the null move
        require(is_legal(*position, *move), "accepted and not legal");
    }
    for (const Move move : legal_moves(*position)) {
        require_means(*position, san(*position, move), move);
        require_means(*position, coordinate(move), move);
    }
}

} // namespace keysquare::fuzz
