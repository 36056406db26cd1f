// All fuzz targets by name.
#pragma once

#include <string_view>

#include "compressed_target.hpp"
#include "epd_target.hpp"
#include "fen_target.hpp"
#include "pgn_target.hpp"
#include "plan_target.hpp"
#include "position_target.hpp"
#include "san_target.hpp"

namespace keysquare::fuzz {

struct Target {
    std::string_view name;
    void (*try_input)(std::string_view bytes); ///< throws when something does not hold
};

inline constexpr Target targets[] = {
    {"compressed", try_compressed}, {"epd", try_epd}, {"fen", try_fen}, {"pgn", try_pgn}, {"plan", try_plan},
    {"position", try_position},     {"san", try_san},
};

/// Null when there is none of that name.
[[nodiscard]] inline const Target* target_named(std::string_view name) noexcept {
    for (const Target& target : targets)
        if (target.name == name) return &target;
    return nullptr;
}

} // namespace keysquare::fuzz
