// run_before: how far a text goes on before one of a few characters.
#pragma once

#include <cstddef>
#include <string_view>

namespace keysquare::detail {

/// The number of characters before the first one of `stops`, or all. (`find_first_of` looks each up by a call.)
template <char... stops> [[nodiscard]] std::size_t run_before(std::string_view text) noexcept {
    std::size_t run = 0;
    while (run < text.size() && ((text[run] != stops) && ...)) ++run;
    return run;
}

} // namespace keysquare::detail
