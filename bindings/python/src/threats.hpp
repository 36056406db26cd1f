// A threat as Python holds it.
#pragma once

#include "bindings.hpp"

#include <keysquare/thinking/threats.hpp>

namespace keysquare::python {

/// A threat with the position that it was found in: its moves and sentence need it.
struct ThreatIn {
    Position position;
    Threat threat;
};

} // namespace keysquare::python
