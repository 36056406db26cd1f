// The schema of the numeric vector: every column with its name, type, unit, point of view and definition.
// (Part of keysquare::keysquare.)
//
// Words in the definitions. A man attacks what `attacks_of` says: a pawn its two capture squares, a slider everything
// up to and including the first man of either side; pins are not looked at. A man that its own side attacks is guarded.
// A piece is a man other than a pawn. A side counts ranks from its own: rank 1 is where its king starts, and ahead is
// towards its rank 8. Neighbouring squares and files touch.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace keysquare {

/// Raised whenever a column that there was gets another name, place or meaning. New columns are appended and leave it:
/// of two schemas of one version the shorter one is the beginning of the longer one.
inline constexpr int feature_schema_version = 1;

/// What the numbers of a column count.
enum class FeatureUnit : std::uint8_t {
    men,      ///< pieces and pawns, kings included where the definition does not except them
    squares,  ///< squares of the board
    files,    ///< whole files
    pairs,    ///< pairs of men
    lines,    ///< files and diagonals
    groups,   ///< groups of pawns
    pawns,    ///< pawns, as a measure of value
    rank,     ///< a rank, as the side counts from 1
    steps,    ///< steps of a man or a pawn
    moves,    ///< legal moves
    plies,    ///< moves of one side, as the game counts them
    yes_or_no ///< 1 for yes, 0 for no
};
/// Whose number it is: one side's, White's minus Black's, the mover's, or that of the position as a whole.
enum class FeatureView : std::uint8_t {
    white,      ///< the number of White
    black,      ///< the number of Black
    difference, ///< White's minus Black's
    mover,      ///< the number of the side to move
    position    ///< of the position as a whole
};

/// As the schema spells it: "men", ..., "yes_or_no".
[[nodiscard]] constexpr std::string_view name(FeatureUnit unit) noexcept {
    constexpr std::array<std::string_view, 12> names{"men",   "squares", "files", "pairs", "lines", "groups",
                                                     "pawns", "rank",    "steps", "moves", "plies", "yes_or_no"};
    return names[static_cast<std::size_t>(unit)];
}
/// As the schema spells it: "white", ..., "position".
[[nodiscard]] constexpr std::string_view name(FeatureView view) noexcept {
    constexpr std::array<std::string_view, 5> names{"white", "black", "difference", "mover", "position"};
    return names[static_cast<std::size_t>(view)];
}

/// One column. All numbers are whole ones of the type "int16".
struct FeatureColumn {
    std::string_view name;               ///< unique, snake case
    std::string_view type;               ///< how the numbers are stored: "int16"
    FeatureUnit unit = FeatureUnit::men; ///< what they count
    /// `white`, `black`: "the side" of the definition. `difference`: White's number minus Black's.
    FeatureView view = FeatureView::position;
    std::string_view definition; ///< in words that two people would compute alike
};

/// The number of columns.
inline constexpr std::size_t feature_count = 249;

/// The columns in order. Static storage, filled by the first call.
[[nodiscard]] std::span<const FeatureColumn, feature_count> feature_schema() noexcept;

/// The place of the column of that name, `feature_count` when there is none. O(columns).
[[nodiscard]] std::size_t feature_column(std::string_view name) noexcept;

} // namespace keysquare
