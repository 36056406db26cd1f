// perft: counts of legal move sequences, the trade's check of a move generator.
#pragma once

#include <cstdint>

#include <keysquare/board/legal.hpp>

namespace keysquare {

/// The number of leaves of the tree of legal moves of the given depth; depth 0 counts 1. The last ply is counted
/// without making its moves. No draw rule ends a line.
[[nodiscard]] inline std::uint64_t perft(const Position& position, int depth) noexcept {
    if (depth <= 0) return 1;
    if (depth == 1) return static_cast<std::uint64_t>(count_legal_moves(position));
    std::uint64_t leaves = 0;
    for (const Move move : legal_moves(position)) leaves += perft(after(position, move), depth - 1);
    return leaves;
}

} // namespace keysquare
