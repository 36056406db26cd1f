// same_claim: what two positions have in common, and what is new in one of them.
#pragma once

#include <algorithm>

#include <keysquare/features/finding.hpp>

namespace keysquare {

/// Whether two findings, of the same or of different positions, make the same claim: theme, side and pieces are the
/// same; for those without a piece, theme, side and detail.
[[nodiscard]] inline bool is_same_claim(const Finding& a, const Finding& b) noexcept {
    if (a.theme != b.theme || a.side != b.side || a.pieces.size() != b.pieces.size()) return false;
    return a.pieces.empty() ? a.detail == b.detail
                            : std::is_permutation(a.pieces.begin(), a.pieces.end(), b.pieces.begin());
}

/// Whether one of the findings makes the same claim as `one`.
template <class Range> [[nodiscard]] bool makes_claim(const Range& findings, const Finding& one) noexcept {
    return detail::any_of(findings, [&](const Finding& other) { return is_same_claim(one, other); });
}

} // namespace keysquare
