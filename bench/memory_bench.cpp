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

struct Buffers {
    Words from = Words(std::size_t{32} << 20U, 1);
    Words to = from; ///< written once already, so that its pages are there

    [[nodiscard]] std::size_t bytes() const { return from.size() * sizeof(from[0]); }
    [[nodiscard]] Amount amount() const {
        return {static_cast<std::int64_t>(bytes()), static_cast<std::int64_t>(bytes())};
    }
};

/// The same for all operations.
std::vector<std::shared_ptr<Buffers>> large_buffers(bench::Purpose) {
    static const auto buffers = std::make_shared<Buffers>();
    return {buffers};
}

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    auto& copy = operations.add("memory/copy", "byte", large_buffers, [](const std::shared_ptr<Buffers>& buffers) {
        std::memcpy(buffers->to.data(), buffers->from.data(), buffers->bytes());
        benchmark::ClobberMemory();
        return buffers->amount();
    });
    auto& sum = operations.add("memory/read", "byte", large_buffers, [](const std::shared_ptr<Buffers>& buffers) {
        benchmark::DoNotOptimize(std::accumulate(buffers->from.begin(), buffers->from.end(), std::uint64_t{0}));
        return buffers->amount();
    });
    copy.counted = sum.counted = false; // they say something about the machine, not about our code
}
