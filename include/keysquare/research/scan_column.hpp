// The columns that a scan can give beside those of the numeric vector: what is known of the game, tags, and what needs
// a search. Each stands in a table of `src/research/scan_column.cpp` with its type, its definition and its computation.
#pragma once

#include <algorithm>
#include <array>
#include <span>
#include <variant>

#include <keysquare/notation/san.hpp>
#include <keysquare/research/game_rows.hpp>

namespace keysquare {

/// How the values of a column are stored; the names are those of Arrow.
enum class ColumnType : std::uint8_t {
    int16,   ///< int16
    int32,   ///< int32
    int64,   ///< int64
    uint64,  ///< uint64
    float64, ///< float64
    utf8     ///< a text
};

/// As Arrow calls it.
[[nodiscard]] constexpr std::string_view name(ColumnType type) noexcept {
    constexpr std::array<std::string_view, 6> names{"int16", "int32", "int64", "uint64", "float64", "utf8"};
    return names[static_cast<std::size_t>(type)];
}

/// Where a column comes from, and so what it costs: `game` and `tag` next to nothing, all of `vector` together about a
/// microsecond a position, each of `search` up to some milliseconds.
enum class ColumnGroup : std::uint8_t {
    game,   ///< what is known of the game at a ply
    tag,    ///< the value of a tag
    vector, ///< of the numeric vector
    search  ///< what needs a search
};

/// As Python shows it.
[[nodiscard]] constexpr std::string_view name(ColumnGroup group) noexcept {
    constexpr std::array<std::string_view, 4> names{"game", "tag", "vector", "search"};
    return names[static_cast<std::size_t>(group)];
}

/// A value of a column in one row; `std::monostate` where there is none. A text lives until the next value is asked for.
using CellValue = std::variant<std::monostate, std::int64_t, double, std::string_view>;

/// Statistics take values as whole numbers of 1/`scale`, so that their sums are exact; `bin` of these make a bin of a
/// histogram. Of no use for texts.
struct Grain {
    int scale = 1; ///< parts of 1 that values are whole numbers of
    int bin = 1;   ///< so many parts are a bin
};

/// A column of the tables.
struct ScanColumn {
    std::string_view name;                    ///< snake case, unique
    ColumnType type;                          ///< how its values are stored
    bool may_be_missing;                      ///< whether rows may be without a value
    Grain grain;                              ///< for statistics
    std::string_view definition;              ///< in a sentence
    CellValue (*value)(const GameRows& rows); ///< computes it for a row
};

/// What is known of the game and of the place in it. "Mover" and "waiter" are the sides in the position.
[[nodiscard]] std::span<const ScanColumn> game_columns() noexcept;
/// What needs a search in the position, and what the move that was played did.
[[nodiscard]] std::span<const ScanColumn> search_columns() noexcept;

/// A column that was chosen by its name.
struct ChosenColumn {
    std::string name;                      ///< a column's, or that of a tag
    ColumnGroup group = ColumnGroup::game; ///< where it comes from
    ColumnType type = ColumnType::utf8;    ///< how its values are stored
    bool may_be_missing = true;            ///< whether rows may be without a value
    Grain grain{};                         ///< for statistics
    std::size_t place = 0;                 ///< in `feature_schema()`, `game_columns()` or `search_columns()`

    /// Its value in a row.
    [[nodiscard]] CellValue value(const GameRows& rows) const;
};

/// The column of that name: one of the numeric vector (`feature_schema`), one of the tables here, or, when the name begins
/// with a capital letter, the tag of that name; nothing when there is none.
[[nodiscard]] std::optional<ChosenColumn> scan_column(std::string_view name);

/// Whether the column looks at the comments of the game, which need not be kept otherwise.
[[nodiscard]] bool reads_comments(const ChosenColumn& column) noexcept;

/// Ratings are told apart in bands of so many points.
inline constexpr int rating_band_width = 200;

namespace detail {

/// 10^(points / 400), for `points` of at least 0. By multiplications alone, which every platform does alike; the last bits
/// of `std::pow` are not the same everywhere.
[[nodiscard]] constexpr double power_of_points(int points) noexcept {
    // 10^(1/400), 10^(2/400), 10^(4/400), ...: the doubles nearest to them
    constexpr std::array factors{1.0057730630017383, 1.0115794542598986, 1.023292992280754,
                                 1.0471285480508996, 1.096478196143185,  1.202264434617413,
                                 1.4454397707459274, 2.0892961308540396, 4.365158322401659};
    constexpr int most_tens = 400; // more than a double holds
    double power = 1;
    for (int tens = (std::min)(points / 400, most_tens); tens > 0; --tens) power *= 10;
    for (std::size_t at = 0; at < factors.size(); ++at)
        if ((points % 400 >> at & 1) != 0) power *= factors[at];
    return power;
}

} // namespace detail

/// What a player with the first rating can expect against one with the second: 1 / (1 + 10^(difference / 400)), the
/// logistic curve that rating lists use (A. E. Elo, The Rating of Chessplayers, 1978, 8.4; from memory). The same bits on
/// every platform.
[[nodiscard]] constexpr double expected_score(int rating, int other) noexcept {
    const int difference = other - rating;
    // A quotient, so that no compiler fuses a product with the sum below, which would round once instead of twice.
    const double of_weaker = 1.0 / detail::power_of_points(difference < 0 ? -difference : difference);
    return (difference > 0 ? of_weaker : 1.0) / (1.0 + of_weaker);
}

} // namespace keysquare
