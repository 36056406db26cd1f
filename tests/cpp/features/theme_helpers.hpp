// Helpers for tests of themes that are counts: the findings of one theme, and the same findings in a mirror.
#pragma once

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include <keysquare/features/finding.hpp>

#include "mirrored.hpp"

namespace keysquare::test {

[[nodiscard]] inline std::vector<Finding> of_theme(const Findings& findings, Theme theme, Side side) {
    std::vector<Finding> found;
    for (const Finding& finding : findings)
        if (finding.theme == theme && finding.side == side) found.push_back(finding);
    return found;
}

/// What a count says, with the order of equals forgotten, seen in a mirror.
using Essence = std::tuple<Theme, Detail, Side, std::uint64_t, std::vector<std::tuple<int, Side, Kind>>,
                           std::vector<std::pair<Measure, int>>>;

template <class Map> [[nodiscard]] std::vector<Essence> essence(const Findings& findings, Map map, bool swap_sides) {
    std::vector<Essence> result;
    const auto seen = [&](Side side) { return swap_sides ? other(side) : side; };
    for (const Finding& finding : findings) {
        std::vector<std::tuple<int, Side, Kind>> pieces;
        for (const Placed& placed : finding.pieces)
            pieces.emplace_back(index(map(placed.square)), seen(placed.piece.side), placed.piece.kind);
        std::ranges::sort(pieces);
        std::vector<std::pair<Measure, int>> numbers;
        for (const Number& number : finding.numbers) numbers.emplace_back(number.measure, number.value);
        result.emplace_back(finding.theme, finding.detail, seen(finding.side), mapped(finding.squares, map).bits(),
                            pieces, numbers);
    }
    std::ranges::sort(result);
    return result;
}

[[nodiscard]] constexpr Square unmoved(Square square) noexcept { return square; }

} // namespace keysquare::test
