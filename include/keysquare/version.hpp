// The version of the library. CMake and the Python package read it from this file.
#pragma once

#include <string_view>

namespace keysquare {

inline constexpr std::string_view version = "0.1.0";

} // namespace keysquare
