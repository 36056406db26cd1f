// What is measured. An operation is described once and serves twice: Google Benchmark times it, and `--count` counts
// its instructions (main.cpp).
#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <string>
#include <type_traits>
#include <utility>

#include <benchmark/benchmark.h>

namespace bench {

/// Timing takes many inputs, from the open data. Counting takes few, from files of the repository, so that the numbers
/// are the same everywhere.
enum class Purpose : std::uint8_t { timing, counting };

/// What a piece of work came to.
struct Amount {
    std::int64_t items = 0;
    std::int64_t bytes = 0; ///< of text that was gone through; 0 where there is none

    Amount& operator+=(const Amount& other) {
        items += other.items;
        bytes += other.bytes;
        return *this;
    }
};

/// Does the work once on every input.
using Pass = std::function<Amount()>;

struct Operation {
    std::string name;
    std::string item;                     ///< what its amounts count, e.g. "move"
    std::function<Pass(Purpose)> prepare; ///< reads the inputs; an empty pass when there are none
    benchmark::TimeUnit unit;
    bool real_time = false; ///< for work that is done by other threads
    bool counted = true;
};

/// `work(input)` gives an `Amount`, a number of items, or nothing: then it was one item.
template <class Work, class Input> Amount amount_of(Work& work, const Input& input) {
    using Given = std::invoke_result_t<Work&, const Input&>;
    if constexpr (std::is_void_v<Given>) {
        work(input);
        return {1};
    } else if constexpr (std::is_same_v<Given, Amount>) {
        return work(input);
    } else {
        return {static_cast<std::int64_t>(work(input))};
    }
}

class Operations {
  public:
    benchmark::TimeUnit unit = benchmark::kMicrosecond; ///< of what is added from now on

    /// `inputs(purpose)` gives a container, which may be empty for timing when the open data is missing.
    template <class Inputs, class Work> Operation& add(std::string name, std::string item, Inputs inputs, Work work) {
        const auto prepare = [inputs, work](Purpose purpose) -> Pass {
            auto all = inputs(purpose);
            if (all.empty()) return {};
            return [all = std::move(all), work]() mutable {
                Amount done;
                for (const auto& input : all) done += amount_of(work, input);
                return done;
            };
        };
        return all_.emplace_back(Operation{std::move(name), std::move(item), prepare, unit});
    }

    [[nodiscard]] const std::deque<Operation>& all() const { return all_; }

  private:
    std::deque<Operation> all_; // what `add` returned stays where it is
};

/// Every layer's program defines it.
void describe(Operations& operations);

} // namespace bench
