// Options: what every feature may be told.
#pragma once

#include <keysquare/tactics/values.hpp>

namespace keysquare {

/// What every feature may be told.
struct Options {
    Values values{};    ///< what the men are worth, in pawns
    Bound bound{};      ///< how far searches look
    int least_gain = 1; ///< claims that win less are not made
};

} // namespace keysquare
