// Every quantity of the numeric vector, in the order of the columns.
#pragma once

#include <array>
#include <utility>

#include "feature_tables_kings.hpp"
#include "feature_tables_men.hpp"
#include "feature_tables_pawns.hpp"
#include "feature_tables_pieces.hpp"

namespace keysquare::detail {

/// The rows of all tables, one after the other. A row has no empty state, so the array is made of all of them at once.
template <std::size_t... Sizes> consteval auto joined(const std::array<Quantity, Sizes>&... tables) {
    std::array<const Quantity*, (Sizes + ...)> rows{};
    std::size_t count = 0;
    const auto append = [&](const auto& table) {
        for (const Quantity& quantity : table) rows[count++] = &quantity;
    };
    (append(tables), ...);
    return [&]<std::size_t... At>(std::index_sequence<At...>) {
        return std::array<Quantity, sizeof...(At)>{*rows[At]...};
    }
    (std::make_index_sequence<(Sizes + ...)>{});
}

/// Every quantity, in the order of the columns. New ones come last.
inline constexpr auto quantities = joined(material_quantities, square_quantities, piece_quantities, safety_quantities,
                                          pawn_quantities, king_quantities, position_quantities);

/// The view of a column of a quantity; those of sides are in the order of `FeatureView`.
constexpr FeatureView view_of(Spread spread, std::size_t column) noexcept {
    if (spread == Spread::mover) return FeatureView::mover;
    if (spread == Spread::position) return FeatureView::position;
    return static_cast<FeatureView>(column);
}

} // namespace keysquare::detail
