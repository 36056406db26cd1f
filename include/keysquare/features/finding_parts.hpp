// Finding parts: how themes fill in their findings.
#pragma once

#include <keysquare/features/finding.hpp>

namespace keysquare::detail {

/// A finding without a line.
inline Finding& add_count(Findings& findings, Theme theme, Detail detail, Side side, Squares squares) {
    Finding& finding = findings.emplace_back();
    finding.theme = theme;
    finding.detail = detail;
    finding.side = side;
    finding.squares = squares;
    return finding;
}

/// Names the men on the squares in the order a1 to h8, as far as there is room.
inline void name_men(const Position& position, Squares men, Finding& finding) {
    for (const Square square : men)
        if (finding.pieces.size() < finding.pieces.capacity())
            finding.pieces.push_back({square, position.piece_at(square)});
}

} // namespace keysquare::detail
