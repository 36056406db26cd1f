// Statistics: exact sums of whole numbers, so that parts can be added in any order and come to the same.
#pragma once

#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

namespace keysquare {

/// A sum of squares: an unsigned number of 128 bits, which wraps around.
struct WideSum {
    std::uint64_t low = 0;  ///< the lower 64 bits
    std::uint64_t high = 0; ///< the upper 64 bits

    /// a * b.
    [[nodiscard]] static constexpr WideSum product(std::uint64_t a, std::uint64_t b) noexcept;
    /// Adds, modulo 2^128.
    constexpr WideSum& operator+=(WideSum other) noexcept {
        low += other.low;
        high += other.high + (low < other.low ? 1 : 0);
        return *this;
    }
    /// Subtracts, modulo 2^128.
    constexpr WideSum& operator-=(WideSum other) noexcept {
        high -= other.high + (low < other.low ? 1 : 0);
        low -= other.low;
        return *this;
    }
    /// The nearest number in floating point.
    [[nodiscard]] constexpr double value() const noexcept {
        return std::ldexp(static_cast<double>(high), 64) + static_cast<double>(low);
    }
    /// Whether all of it is equal.
    friend constexpr bool operator==(WideSum, WideSum) noexcept = default;
};

/// How often each number came up, in bins of one width that begin at multiples of it. Grows as far as the numbers reach,
/// up to `farthest_bin` bins to either side of 0; what lies beyond is counted in the last bin there.
class Histogram {
  public:
    /// Bins beyond this one to either side of 0 are one; every int16 has its own.
    static constexpr std::int64_t farthest_bin = 32'768; // every int16 has its bin

    /// Empty. Precondition: `width >= 1`.
    explicit Histogram(std::int64_t width = 1) noexcept : width_(width) {}
    /// One that is known. Precondition: `begin` is a multiple of the width, and no bin lies beyond the farthest.
    Histogram(std::int64_t width, std::int64_t begin, std::vector<std::uint64_t> counts)
        : width_(width), first_(begin / width), counts_(std::move(counts)) {}

    /// Counts a number so many times.
    void add(std::int64_t number, std::uint64_t times = 1);
    /// Precondition: the same width.
    Histogram& operator+=(const Histogram& other);

    /// How many numbers share a bin.
    [[nodiscard]] std::int64_t width() const noexcept { return width_; }
    /// The number where the first bin begins; a multiple of the width.
    [[nodiscard]] std::int64_t begin() const noexcept { return first_ * width_; }
    /// From the lowest bin that was ever needed to the highest.
    [[nodiscard]] const std::vector<std::uint64_t>& counts() const noexcept { return counts_; }

    /// Whether the same was counted in bins of the same width.
    friend bool operator==(const Histogram&, const Histogram&) noexcept = default;

  private:
    [[nodiscard]] std::int64_t bin_of(std::int64_t number) const noexcept {
        const std::int64_t bin = width_ == 1 ? number : number / width_ - (number % width_ < 0 ? 1 : 0);
        return bin < -farthest_bin ? -farthest_bin : bin > farthest_bin ? farthest_bin : bin;
    }
    void make_room(std::int64_t first, std::int64_t last);

    std::int64_t width_;
    std::int64_t first_ = 0; // the number of the first bin
    std::vector<std::uint64_t> counts_;
};

/// Exact sums over whole numbers.
struct Sums {
    std::uint64_t count = 0;                                            ///< rows with a number
    std::uint64_t missing = 0;                                          ///< rows without a number
    std::int64_t sum = 0;                                               ///< of the numbers
    WideSum squares{};                                                  ///< of their squares
    std::int64_t least = (std::numeric_limits<std::int64_t>::max)();    ///< without numbers beyond every number ...
    std::int64_t greatest = (std::numeric_limits<std::int64_t>::min)(); ///< ... in its direction

    /// Whether all of it is equal.
    friend bool operator==(const Sums&, const Sums&) noexcept = default;
};

/// Count, sum, sum of squares, least, greatest and histogram of whole numbers. All of it is exact, so that
/// `a += b` is associative and commutative to the bit.
class Statistics {
  public:
    /// Empty. Precondition: `bin_width >= 1`.
    explicit Statistics(std::int64_t bin_width = 1) noexcept : histogram_(bin_width) {}
    /// Those that are known.
    Statistics(const Sums& sums, Histogram histogram) : sums_(sums), histogram_(std::move(histogram)) {}

    /// A row with this number.
    void add(std::int64_t number);
    /// A row without a number.
    void add_missing() noexcept { ++sums_.missing; }
    /// Precondition: the same width of the bins.
    Statistics& operator+=(const Statistics& other);

    /// The exact sums.
    [[nodiscard]] const Sums& sums() const noexcept { return sums_; }
    /// How often each bin occurred.
    [[nodiscard]] const Histogram& histogram() const noexcept { return histogram_; }

    /// NaN without numbers.
    [[nodiscard]] double mean() const noexcept;
    /// Of the numbers as a sample (divided by count - 1), from the exact sums; NaN with fewer than two numbers.
    [[nodiscard]] double variance() const noexcept;

    /// Whether the same was counted in bins of the same width.
    friend bool operator==(const Statistics&, const Statistics&) noexcept = default;

  private:
    Sums sums_;
    Histogram histogram_;
};

/// An interval of confidence.
struct Interval {
    double low = 0;  ///< its lower end
    double high = 1; ///< its upper end
};

/// Wilson's score interval for a rate (E. B. Wilson, 1927) from the mean of `trials` numbers between 0 and 1; `z` is the
/// quantile of the normal distribution, 1.96 for 95 %. For numbers that are not all 0 or 1, such as scores with draws,
/// it is wider than need be, never narrower, as no numbers in these bounds vary more. 0 to 1 without trials.
[[nodiscard]] Interval wilson(double mean, std::uint64_t trials, double z = 1.959963984540054) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The number without its sign.
[[nodiscard]] constexpr std::uint64_t size_of(std::int64_t number) noexcept {
    return number < 0 ? 0 - static_cast<std::uint64_t>(number) : static_cast<std::uint64_t>(number);
}

} // namespace detail

constexpr WideSum WideSum::product(std::uint64_t a, std::uint64_t b) noexcept {
    constexpr std::uint64_t half = 0xFFFFFFFFU;
    const std::uint64_t low = (a & half) * (b & half);
    const std::uint64_t middle = (a >> 32U) * (b & half) + (low >> 32U);
    const std::uint64_t other_middle = (a & half) * (b >> 32U) + (middle & half);
    return {other_middle << 32U | (low & half), (a >> 32U) * (b >> 32U) + (middle >> 32U) + (other_middle >> 32U)};
}

inline void Histogram::make_room(std::int64_t first, std::int64_t last) {
    if (counts_.empty()) {
        first_ = first;
        counts_.resize(static_cast<std::size_t>(last - first + 1));
        return;
    }
    if (first < first_) {
        counts_.insert(counts_.begin(), static_cast<std::size_t>(first_ - first), 0);
        first_ = first;
    }
    const auto size = static_cast<std::size_t>(last - first_ + 1);
    if (size > counts_.size()) counts_.resize(size);
}

inline void Histogram::add(std::int64_t number, std::uint64_t times) {
    const std::int64_t bin = bin_of(number);
    // One comparison for both ends: what lies below wraps around to a large number.
    if (static_cast<std::uint64_t>(bin - first_) >= counts_.size()) make_room(bin, bin);
    counts_[static_cast<std::size_t>(bin - first_)] += times;
}

inline Histogram& Histogram::operator+=(const Histogram& other) {
    if (other.counts_.empty()) return *this;
    make_room(other.first_, other.first_ + static_cast<std::int64_t>(other.counts_.size()) - 1);
    const auto offset = static_cast<std::size_t>(other.first_ - first_);
    for (std::size_t at = 0; at < other.counts_.size(); ++at) counts_[offset + at] += other.counts_[at];
    return *this;
}

inline void Statistics::add(std::int64_t number) {
    ++sums_.count;
    sums_.sum += number;
    const std::uint64_t size = detail::size_of(number);
    sums_.squares += size < (std::uint64_t{1} << 32U) ? WideSum{size * size, 0} : WideSum::product(size, size);
    if (number < sums_.least) sums_.least = number;
    if (number > sums_.greatest) sums_.greatest = number;
    histogram_.add(number);
}

inline Statistics& Statistics::operator+=(const Statistics& other) {
    sums_.count += other.sums_.count;
    sums_.missing += other.sums_.missing;
    sums_.sum += other.sums_.sum;
    sums_.squares += other.sums_.squares;
    if (other.sums_.least < sums_.least) sums_.least = other.sums_.least;
    if (other.sums_.greatest > sums_.greatest) sums_.greatest = other.sums_.greatest;
    histogram_ += other.histogram_;
    return *this;
}

inline double Statistics::mean() const noexcept {
    if (sums_.count == 0) return std::numeric_limits<double>::quiet_NaN();
    return static_cast<double>(sums_.sum) / static_cast<double>(sums_.count);
}

inline double Statistics::variance() const noexcept {
    if (sums_.count < 2) return std::numeric_limits<double>::quiet_NaN();
    // About a whole number m next to the mean, where nothing large cancels: with r = sum - n m the sum of (x - mean)^2 is
    // that of (x - m)^2 less r^2 / n, and the sum of (x - m)^2 = squares - n m^2 - 2 m r is exact. m and r never have
    // different signs.
    const auto count = static_cast<std::int64_t>(sums_.count);
    const std::uint64_t m = detail::size_of(sums_.sum / count);
    const std::uint64_t r = detail::size_of(sums_.sum % count);
    WideSum about_m = sums_.squares;
    about_m -= WideSum::product(m * sums_.count, m);
    about_m -= WideSum::product(2 * m, r);
    const auto rest = static_cast<double>(r);
    return (about_m.value() - rest * rest / static_cast<double>(count)) / static_cast<double>(count - 1);
}

inline Interval wilson(double mean, std::uint64_t trials, double z) noexcept {
    if (trials == 0) return {};
    const auto n = static_cast<double>(trials);
    const double middle = (mean + z * z / (2 * n)) / (1 + z * z / n);
    const double half = z * std::sqrt(mean * (1 - mean) / n + z * z / (4 * n * n)) / (1 + z * z / n);
    return {mean <= 0 ? 0.0 : middle - half, mean >= 1 ? 1.0 : middle + half};
}

} // namespace keysquare
