// What the memory of the machine can do: the limit of what only goes over text. The buffers are far larger than any
// cache, and the bytes are those that are read.
#include <cstring>
#include <memory>
#include <numeric>
#include <vector>

#include "operations.hpp"

namespace {

using bench::Amount;

using Words = std::vector<std::uint64_t>;

/// One for all operations.
std::vector<std::shared_ptr<const Words>> large_buffer(bench::Purpose) {
    static const auto buffer = std::make_shared<const Words>(std::size_t{32} << 20U, 1);
    return {buffer};
}

std::int64_t bytes_of(const Words& words) { return static_cast<std::int64_t>(words.size() * sizeof(words[0])); }

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    auto& copy = operations.add("memory/copy", "byte", large_buffer,
                                [to = Words{}](const std::shared_ptr<const Words>& from) mutable {
                                    to.resize(from->size());
                                    std::memcpy(to.data(), from->data(), static_cast<std::size_t>(bytes_of(*from)));
                                    benchmark::DoNotOptimize(to.data());
                                    benchmark::ClobberMemory();
                                    return Amount{bytes_of(*from), bytes_of(*from)};
                                });
    auto& sum = operations.add("memory/read", "byte", large_buffer, [](const std::shared_ptr<const Words>& from) {
        benchmark::DoNotOptimize(std::accumulate(from->begin(), from->end(), std::uint64_t{0}));
        return Amount{bytes_of(*from), bytes_of(*from)};
    });
    copy.counted = sum.counted = false; // they say something about the machine, not about our code
}
