// Puts men of a position into a finding.
#pragma once

#include <keysquare/features/finding.hpp>

namespace keysquare::detail {

/// Adds the men that stand on the squares, in the order of the squares, as many as fit in.
inline void add_men(const Position& position, Squares squares, Finding& finding) {
    for (const Square square : squares)
        if (finding.pieces.size() < finding.pieces.capacity())
            finding.pieces.push_back({square, position.piece_at(square)});
}

} // namespace keysquare::detail
