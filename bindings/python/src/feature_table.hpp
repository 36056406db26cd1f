// The numbers of many positions, column by column, as Python gets them.
#pragma once

#include <memory>

#include "bindings.hpp"

#include <keysquare/features/feature_vector.hpp>

namespace keysquare::python {

/// Never changed once it is made, so that whoever looks at the numbers may share them.
struct FeatureTable {
    std::size_t rows = 0;
    std::shared_ptr<const std::int16_t[]> numbers; ///< the columns one after the other

    [[nodiscard]] std::span<const std::int16_t> column(std::size_t at) const noexcept {
        return {numbers.get() + at * rows, rows};
    }
};

} // namespace keysquare::python
