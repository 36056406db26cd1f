// The version of the library. CMake and the Python package read it from this file.
#pragma once

#include <string_view>

/// Everything of the library. Names of the nested namespace `detail` are nobody's to use: they change without notice.
namespace keysquare {

/// The version of the library, by semantic versioning: "major.minor.patch".
inline constexpr std::string_view version = "0.1.0";

} // namespace keysquare
