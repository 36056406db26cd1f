// The fuzz targets in one program, as libFuzzer calls it: the environment variable KEYSQUARE_FUZZ_TARGET names the target.
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "targets.hpp"

namespace {

keysquare::fuzz::Target chosen() {
    const char* const name = std::getenv("KEYSQUARE_FUZZ_TARGET");
    const keysquare::fuzz::Target* const target = keysquare::fuzz::target_named(name ? name : "");
    keysquare::fuzz::require(target != nullptr, "KEYSQUARE_FUZZ_TARGET names no target");
    return *target;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const keysquare::fuzz::Target target = chosen();
    target.try_input({reinterpret_cast<const char*>(bytes), size});
    return 0;
}
