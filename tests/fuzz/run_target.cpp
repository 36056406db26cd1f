// One fuzz target: the function KEYSQUARE_FUZZ_FUNCTION of the header KEYSQUARE_FUZZ_HEADER, as libFuzzer calls it.
#include KEYSQUARE_FUZZ_HEADER

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    keysquare::fuzz::KEYSQUARE_FUZZ_FUNCTION({reinterpret_cast<const char*>(bytes), size});
    return 0;
}
