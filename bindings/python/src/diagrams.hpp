// How findings draw themselves.
#pragma once

#include "findings.hpp"
#include "threats.hpp"

namespace keysquare::python {

/// A diagram of the finding's position that shows the finding, as SVG.
std::string drawing_of(const FoundIn& found);
std::string drawing_of(const ThreatIn& found);

} // namespace keysquare::python
