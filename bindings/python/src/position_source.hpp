// Many positions from Python, in whatever they come.
#pragma once

#include <vector>

#include "bindings.hpp"

namespace keysquare::python {

/// The positions of an iterable of Position objects and FENs, or of a column of FENs (Arrow, numpy), which is read
/// where it lies. Needs the GIL, and lets go of it while it reads a column.
///
/// Raises InputError with the index for a FEN that can't be read, TypeError for what holds no positions.
std::vector<Position> positions_in(const py::object& source);

} // namespace keysquare::python
