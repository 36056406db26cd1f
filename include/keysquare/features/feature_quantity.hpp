// Quantity: one row of the tables that the numeric vector is made of, with its name, its meaning and its computation.
#pragma once

#include <array>
#include <concepts>
#include <cstdint>
#include <string_view>

#include <keysquare/features/feature_facts.hpp>

namespace keysquare {

/// What the numbers of a column count.
enum class FeatureUnit : std::uint8_t {
    men,
    squares,
    files,
    pairs,
    lines,
    groups,
    pawns,
    rank,
    steps,
    moves,
    plies,
    yes_or_no
};
/// Whose number it is: one side's, White's minus Black's, the mover's, or that of the position as a whole.
enum class FeatureView : std::uint8_t { white, black, difference, mover, position };

[[nodiscard]] constexpr std::string_view name(FeatureUnit unit) noexcept {
    constexpr std::array<std::string_view, 12> names{"men",   "squares", "files", "pairs", "lines", "groups",
                                                     "pawns", "rank",    "steps", "moves", "plies", "yes_or_no"};
    return names[static_cast<std::size_t>(unit)];
}
[[nodiscard]] constexpr std::string_view name(FeatureView view) noexcept {
    constexpr std::array<std::string_view, 5> names{"white", "black", "difference", "mover", "position"};
    return names[static_cast<std::size_t>(view)];
}

/// Which columns a quantity has: `white_NAME` and `black_NAME`; these and `NAME_difference`; or `NAME` alone.
enum class Spread : std::uint8_t { sides, sides_and_difference, mover, position };

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
    std::string_view name; ///< snake case
    FeatureUnit unit;
    Spread spread;
    std::string_view definition;
    int (*value)(const FeatureFacts& facts, Side side) noexcept;

    /// `Compute` is a lambda without captures; a set of squares stands for the number of its squares.
    template <class Compute>
    constexpr Quantity(std::string_view name_, FeatureUnit unit_, Spread spread_, std::string_view definition_,
                       Compute) noexcept
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
