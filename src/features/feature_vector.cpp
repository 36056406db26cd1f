#include <keysquare/features/feature_vector.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

#include "feature_tables.hpp"

namespace keysquare {

namespace {

/// Writes the columns of one quantity from `to` on.
template <std::size_t At> void write_quantity(const FeatureFacts& facts, std::int16_t*& to) noexcept {
    constexpr detail::Quantity quantity = detail::quantities[At];
    const auto write = [&to](int number) { *to++ = static_cast<std::int16_t>(number); };
    if constexpr (columns_of(quantity.spread) == 1) {
        write(quantity.value(facts, facts.position.mover()));
    } else {
        const int white = quantity.value(facts, Side::white);
        const int black = quantity.value(facts, Side::black);
        write(white);
        write(black);
        if constexpr (quantity.spread == detail::Spread::sides_and_difference) write(white - black);
    }
}

} // namespace

void feature_vector(const Position& position, std::span<std::int16_t, feature_count> row) noexcept {
    const FeatureFacts facts{position};
    std::int16_t* to = row.data();
    [&]<std::size_t... At>(std::index_sequence<At...>) { (write_quantity<At>(facts, to), ...); }
    (std::make_index_sequence<detail::quantities.size()>{});
}

void feature_columns(std::span<const Position> positions, std::span<std::int16_t> out, std::size_t stride) noexcept {
    constexpr std::size_t block = 32; // rows that are turned into columns at a time, to write whole cache lines
    std::array<std::array<std::int16_t, feature_count>, block> rows;
    for (std::size_t first = 0; first < positions.size(); first += block) {
        const std::size_t count = (std::min)(block, positions.size() - first);
        for (std::size_t at = 0; at < count; ++at) feature_vector(positions[first + at], rows[at]);
        for (std::size_t column = 0; column < feature_count; ++column)
            for (std::size_t at = 0; at < count; ++at) out[column * stride + first + at] = rows[at][column];
    }
}

} // namespace keysquare
