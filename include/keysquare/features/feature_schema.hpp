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
    std::string_view name;               ///< unique, snake case
    std::string_view type;               ///< how the numbers are stored: "int16"
    FeatureUnit unit = FeatureUnit::men; ///< what they count
    /// `white`, `black`: "the side" of the definition. `difference`: White's number minus Black's.
    FeatureView view = FeatureView::position;
    std::string_view definition; ///< in words that two people would compute alike
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

/// The columns in order. Static storage, filled by the first call.
[[nodiscard]] std::span<const FeatureColumn, feature_count> feature_schema() noexcept;

/// The place of the column of that name, `feature_count` when there is none. O(columns).
[[nodiscard]] std::size_t feature_column(std::string_view name) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline constexpr std::string_view white_prefix = "white_";
inline constexpr std::string_view black_prefix = "black_";
inline constexpr std::string_view difference_suffix = "_difference";

/// How many characters all names have.
inline constexpr std::size_t names_length = [] {
    std::size_t length = 0;
    for (const Quantity& quantity : quantities)
        for (std::size_t column = 0; column < columns_of(quantity.spread); ++column) {
            const FeatureView view = view_of(quantity.spread, column);
            length += quantity.name.size();
            if (view == FeatureView::white) length += white_prefix.size();
            if (view == FeatureView::black) length += black_prefix.size();
            if (view == FeatureView::difference) length += difference_suffix.size();
        }
    return length;
}();

/// The columns and the text of their names. Made when the program runs: compilers take long for it.
class Schema {
  public:
    Schema() noexcept {
        std::size_t at = 0;
        for (const Quantity& quantity : quantities)
            for (std::size_t column = 0; column < columns_of(quantity.spread); ++column, ++at) {
                const FeatureView view = view_of(quantity.spread, column);
                columns_[at] = {name_of(quantity, view), "int16", quantity.unit, view, quantity.definition};
            }
    }
    Schema(const Schema&) = delete; // names refer to the text
    Schema& operator=(const Schema&) = delete;
    ~Schema() = default;

    [[nodiscard]] const std::array<FeatureColumn, feature_count>& columns() const noexcept { return columns_; }

  private:
    [[nodiscard]] std::string_view name_of(const Quantity& quantity, FeatureView view) noexcept {
        const std::size_t begin = length_;
        if (view == FeatureView::white) add(white_prefix);
        if (view == FeatureView::black) add(black_prefix);
        add(quantity.name);
        if (view == FeatureView::difference) add(difference_suffix);
        return {text_.data() + begin, length_ - begin};
    }
    void add(std::string_view part) noexcept {
        for (const char c : part) text_[length_++] = c;
    }

    std::array<char, names_length> text_{};
    std::size_t length_ = 0;
    std::array<FeatureColumn, feature_count> columns_{};
};

} // namespace detail

inline std::span<const FeatureColumn, feature_count> feature_schema() noexcept {
    static const detail::Schema schema;
    return schema.columns();
}

inline std::size_t feature_column(std::string_view name) noexcept {
    const auto columns = feature_schema();
    std::size_t at = 0;
    while (at < feature_count && columns[at].name != name) ++at;
    return at;
}

} // namespace keysquare
