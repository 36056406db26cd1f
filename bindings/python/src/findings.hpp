// A finding as Python holds it.
#pragma once

#include "bindings.hpp"

#include <keysquare/features/finding.hpp>

namespace keysquare::python {

/// A finding with the position that it was made for: its moves and sentence need it.
struct FoundIn {
    Position position;
    Finding finding;
};

} // namespace keysquare::python
