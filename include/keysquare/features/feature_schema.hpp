// The schema of the numeric vector: every column with its name, type, unit, point of view and definition.
//
// Words in the definitions. A man attacks what `attacks_of` says: a pawn its two capture squares, a slider everything
// up to and including the first man of either side; pins are not looked at. A man that its own side attacks is guarded.
// A piece is a man other than a pawn. A side counts ranks from its own: rank 1 is where its king starts, and ahead is
// towards its rank 8. Neighbouring squares and files touch.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <utility>

#include <keysquare/features/feature_tables_kings.hpp>
#include <keysquare/features/feature_tables_men.hpp>
#include <keysquare/features/feature_tables_pawns.hpp>
#include <keysquare/features/feature_tables_pieces.hpp>

namespace keysquare {

/// Raised whenever a column that there was gets another name, place or meaning. New columns are appended and leave it:
/// of two schemas of one version the shorter one is the beginning of the longer one.
inline constexpr int feature_schema_version = 1;

/// One column. All numbers are whole ones of the type "int16".
struct FeatureColumn {
    std::string_view name; ///< unique, snake case
    std::string_view type;
    FeatureUnit unit = FeatureUnit::men;
    /// `white`, `black`: "the side" of the definition. `difference`: White's number minus Black's.
    FeatureView view = FeatureView::position;
    std::string_view definition;
};

namespace detail {

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

} // namespace detail

/// The number of columns.
inline constexpr std::size_t feature_count = [] {
    std::size_t count = 0;
    for (const Quantity& quantity : detail::quantities) count += columns_of(quantity.spread);
    return count;
}();

/// The columns in order. Static storage.
[[nodiscard]] constexpr std::span<const FeatureColumn, feature_count> feature_schema() noexcept;

/// The place of the column of that name, `feature_count` when there is none. O(columns).
[[nodiscard]] constexpr std::size_t feature_column(std::string_view name) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline constexpr std::string_view white_prefix = "white_";
inline constexpr std::string_view black_prefix = "black_";
inline constexpr std::string_view difference_suffix = "_difference";

/// Hands every part of every column's name to `receive(part, is_last)`.
template <class Receive> constexpr void each_name_part(Receive receive) {
    for (const Quantity& quantity : quantities)
        for (std::size_t column = 0; column < columns_of(quantity.spread); ++column) {
            const FeatureView view = view_of(quantity.spread, column);
            if (view == FeatureView::white) receive(white_prefix, false);
            if (view == FeatureView::black) receive(black_prefix, false);
            receive(quantity.name, view != FeatureView::difference);
            if (view == FeatureView::difference) receive(difference_suffix, true);
        }
}

inline constexpr std::size_t names_length = [] {
    std::size_t length = 0;
    each_name_part([&](std::string_view part, bool) { length += part.size(); });
    return length;
}();

/// All names one after the other, and where each of them ends.
struct ColumnNames {
    std::array<char, names_length> text{};
    std::array<std::size_t, feature_count> ends{};
};

inline constexpr ColumnNames column_names = [] {
    ColumnNames names;
    std::size_t length = 0;
    std::size_t column = 0;
    each_name_part([&](std::string_view part, bool is_last) {
        for (const char c : part) names.text[length++] = c;
        if (is_last) names.ends[column++] = length;
    });
    return names;
}();

inline constexpr std::array<FeatureColumn, feature_count> columns = [] {
    std::array<FeatureColumn, feature_count> made;
    std::size_t at = 0;
    std::size_t begin = 0;
    for (const Quantity& quantity : quantities)
        for (std::size_t column = 0; column < columns_of(quantity.spread); ++column, ++at) {
            const std::string_view name{column_names.text.data() + begin, column_names.ends[at] - begin};
            made[at] = {name, "int16", quantity.unit, view_of(quantity.spread, column), quantity.definition};
            begin = column_names.ends[at];
        }
    return made;
}();

} // namespace detail

constexpr std::span<const FeatureColumn, feature_count> feature_schema() noexcept { return detail::columns; }

constexpr std::size_t feature_column(std::string_view name) noexcept {
    std::size_t at = 0;
    while (at < feature_count && detail::columns[at].name != name) ++at;
    return at;
}

} // namespace keysquare
