// The numeric vector: a position as a row of small numbers, for statistics over many positions. (Part of
// keysquare::keysquare.)
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include <keysquare/board/position.hpp>
#include <keysquare/features/feature_schema.hpp>

namespace keysquare {

/// One position as a row, in the order of `feature_schema()`. No search and no allocation; some microseconds at most.
/// Precondition: both sides have a king, as in any position that `read_fen` accepts.
void feature_vector(const Position& position, std::span<std::int16_t, feature_count> row) noexcept;

/// Many positions as columns: the number of position `at` in column `column` goes to `out[column * stride + at]`.
/// Precondition: `stride >= positions.size()` and `out.size() >= feature_count * stride`.
void feature_columns(std::span<const Position> positions, std::span<std::int16_t> out, std::size_t stride) noexcept;

} // namespace keysquare
