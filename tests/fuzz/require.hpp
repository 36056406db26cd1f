// require: what must hold whatever the input. A fuzzer takes the exception for a crash, a test case for a failure.
#pragma once

#include <stdexcept>
#include <string>

namespace keysquare::fuzz {

inline void require(bool holds, const std::string& what) {
    if (!holds) throw std::logic_error{what};
}

} // namespace keysquare::fuzz
