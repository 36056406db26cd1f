// What the files about the outlook and the exchange share.
#pragma once

#include "bindings.hpp"

#include <keysquare/thinking/outlook.hpp>

namespace keysquare::python {

/// The useful moves and the threats of one side of `position`.
py::list python_useful_moves(const Position& position, const SideOutlook& side);
py::list python_threats(const Position& position, const SideOutlook& side);

} // namespace keysquare::python
