// The contours of the chess men, for diagrams.
#pragma once

#include <array>
#include <string_view>

namespace keysquare::detail {

/// SVG path data of one man, shared by both sides, in a square of 1000 by 1000 units with y downwards.
struct PieceOutline {
    std::string_view body;  ///< one closed contour
    std::string_view solid; ///< inner shapes to fill, may be empty
    std::string_view lines; ///< inner lines to draw with a pen, may be empty
};

/// Indexed by `Kind`.
extern const std::array<PieceOutline, 6> piece_outlines;

} // namespace keysquare::detail
