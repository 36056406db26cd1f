// Quantity: one row of the tables that the numeric vector is made of, with its name, its meaning and its computation.
#pragma once

#include <array>
#include <concepts>
#include <cstdint>
#include <string_view>

#include <keysquare/board/literal.hpp>
#include <keysquare/features/feature_facts.hpp>

namespace keysquare {

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

/// Which columns a quantity has: `white_NAME` and `black_NAME`; these and `NAME_difference`; or `NAME` alone.
enum class Spread : std::uint8_t {
    sides,                ///< `white_NAME`, `black_NAME`
    sides_and_difference, ///< these two and `NAME_difference`
    mover,                ///< `NAME`, of the side to move
    position              ///< `NAME`, of the position
};

/// How many columns that makes: 1 to 3.
[[nodiscard]] constexpr std::size_t columns_of(Spread spread) noexcept {
    switch (spread) {
    case Spread::sides: return 2;
    case Spread::sides_and_difference: return 3;
    case Spread::mover:
    case Spread::position: break;
    }
    return 1;
}

/// A quantity of a side, or of a position (then the side is the mover and need not be looked at).
struct Quantity {
    std::string_view name;                                       ///< snake case
    FeatureUnit unit;                                            ///< what its numbers count
    Spread spread;                                               ///< which columns it has
    std::string_view definition;                                 ///< in words that two people would compute alike
    int (*value)(const FeatureFacts& facts, Side side) noexcept; ///< computes it

    /// `Compute` is a lambda without captures; a set of squares stands for the number of its squares.
    template <class Compute>
    constexpr Quantity(Literal name_, FeatureUnit unit_, Spread spread_, Literal definition_, Compute) noexcept
        : name(name_), unit(unit_), spread(spread_), definition(definition_), value(&number<Compute>) {}

  private:
    template <class Compute> static int number(const FeatureFacts& facts, Side side) noexcept {
        const auto result = Compute{}(facts, side);
        if constexpr (std::same_as<decltype(result), const Squares>)
            return result.count();
        else
            return static_cast<int>(result);
    }
};

} // namespace keysquare
