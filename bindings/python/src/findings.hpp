// A finding as Python holds it.
#pragma once

#include <array>

#include "bindings.hpp"

#include <keysquare/features/finding.hpp>

namespace keysquare::python {

/// A finding with the position that it was made for: its moves and sentence need it.
struct FoundIn {
    Position position;
    Finding finding;
};

/// By theme, whether it is wanted.
using ThemeChoice = std::array<bool, static_cast<std::size_t>(Theme::end_)>;

/// Those of the names, all without names. Throws `py::value_error` for a name of none.
ThemeChoice themes_named(const std::optional<std::vector<Text>>& names);

/// The findings of the wanted themes and, when it is given, of that side. Touches nothing of Python.
Findings findings_of(const Position& position, const ThemeChoice& wanted, std::optional<Side> side,
                     const Options& options);

} // namespace keysquare::python
