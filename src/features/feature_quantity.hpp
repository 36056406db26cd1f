// Quantity: one row of the tables that the numeric vector is made of, with its name, its meaning and its computation.
#pragma once

#include <concepts>
#include <cstdint>
#include <string_view>

#include <keysquare/board/literal.hpp>
#include <keysquare/features/feature_facts.hpp>
#include <keysquare/features/feature_schema.hpp>

namespace keysquare::detail {

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

} // namespace keysquare::detail
