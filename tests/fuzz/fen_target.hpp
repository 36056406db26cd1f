// Any text as FEN: what is accepted is written and read again as the same position, and so is what follows on it.
#pragma once

#include <keysquare/board/perft.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

#include "require.hpp"

namespace keysquare::fuzz {

inline void require_round_trip(const Position& position, Strictness strictness) {
    const std::string text = fen(position);
    const Result<Position> again = read_fen(text, strictness);
    require(static_cast<bool>(again), "not read again: " + text);
    require(*again == position, "read again as another position: " + text);
    require(again->key() == position.key(), "another key: " + text);
}

inline void try_fen(std::string_view text) {
    const Result<Position> strict = read_fen(text);
    const Result<Position> lenient = read_fen(text, Strictness::lenient);
    require(strict || strict.error().column <= text.size() + 1, "an error behind the text");
    if (strict) {
        require(lenient && *lenient == *strict, "strict and lenient differ");
        require_round_trip(*strict, Strictness::strict);
    }
    if (!lenient) return;
    require_round_trip(*lenient, Strictness::lenient);
    std::uint64_t leaves = 0;
    for (const Move move : legal_moves(*lenient)) {
        const Position next = after(*lenient, move);
        require(is_legal(*lenient, move), "listed and not legal: " + coordinate(move));
        require_round_trip(next, Strictness::lenient);
        leaves += legal_moves(next).size();
    }
    require(perft(*lenient, 2) == leaves, "perft counts otherwise");
}

} // namespace keysquare::fuzz
