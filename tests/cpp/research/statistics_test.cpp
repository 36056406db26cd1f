// Statistics: exact sums, whatever the order in which parts are added.
#include <keysquare/research/statistics.hpp>

#include <algorithm>
#include <random>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

namespace {

Statistics statistics_of(const std::vector<std::int64_t>& numbers, std::int64_t bin_width = 1) {
    Statistics statistics{bin_width};
    for (const std::int64_t number : numbers) statistics.add(number);
    return statistics;
}

/// The textbook way in two passes, in long double.
long double variance_of(const std::vector<std::int64_t>& numbers) {
    long double sum = 0;
    for (const std::int64_t number : numbers) sum += static_cast<long double>(number);
    const long double mean = sum / static_cast<long double>(numbers.size());
    long double squares = 0;
    for (const std::int64_t number : numbers) {
        const long double off = static_cast<long double>(number) - mean;
        squares += off * off;
    }
    return squares / static_cast<long double>(numbers.size() - 1);
}

} // namespace

BOOST_AUTO_TEST_SUITE(exact_statistics)

BOOST_AUTO_TEST_CASE(numbers_that_are_counted_by_hand) {
    Statistics statistics = statistics_of({3, -1, 4, 1, -5, 9, 2, 6});
    statistics.add_missing();
    const Sums& sums = statistics.sums();
    BOOST_TEST(sums.count == 8U);
    BOOST_TEST(sums.missing == 1U);
    BOOST_TEST(sums.sum == 19);
    BOOST_TEST(sums.squares.low == 173U);
    BOOST_TEST(sums.least == -5);
    BOOST_TEST(sums.greatest == 9);
    BOOST_TEST(statistics.mean() == 2.375);
    BOOST_TEST(statistics.variance() == (173 - 19.0 * 19 / 8) / 7, boost::test_tools::tolerance(1e-15));
    BOOST_TEST(statistics.histogram().begin() == -5);
    const std::vector<std::uint64_t> counts{1, 0, 0, 0, 1, 0, 1, 1, 1, 1, 0, 1, 0, 0, 1};
    BOOST_TEST(statistics.histogram().counts() == counts, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(of_none_and_of_one) {
    BOOST_TEST(std::isnan(Statistics{}.mean()));
    BOOST_TEST(std::isnan(statistics_of({7}).variance()));
    BOOST_TEST(statistics_of({7}).mean() == 7);
    BOOST_TEST(statistics_of({7, 7, 7}).variance() == 0);
}

BOOST_AUTO_TEST_CASE(bins_wider_than_one_begin_at_multiples) {
    const Statistics statistics = statistics_of({-11, -10, -1, 0, 9, 10, 25}, 10);
    BOOST_TEST(statistics.histogram().begin() == -20);
    BOOST_TEST(statistics.histogram().counts() == (std::vector<std::uint64_t>{1, 2, 2, 1, 1}),
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(what_is_beyond_the_farthest_bin_takes_no_room) {
    Statistics statistics;
    for (const std::int64_t number : {std::int64_t{0}, std::int64_t{1} << 40U, -(std::int64_t{1} << 40U)})
        statistics.add(number);
    const auto& counts = statistics.histogram().counts();
    BOOST_TEST(counts.size() == 2U * Histogram::farthest_bin + 1);
    BOOST_TEST(counts.front() + counts.back() == 2U);
    BOOST_TEST(statistics.sums().greatest == std::int64_t{1} << 40U);
}

BOOST_AUTO_TEST_CASE(variance_of_large_numbers_that_differ_little) {
    std::mt19937_64 random{20261126};
    for (const std::int64_t middle : {std::int64_t{0}, std::int64_t{-3}, std::int64_t{1'000'003},
                                      -(std::int64_t{1} << 31U), std::int64_t{3} << 35U}) {
        std::vector<std::int64_t> numbers;
        for (int count = 0; count < 10'000; ++count)
            numbers.push_back(middle + static_cast<std::int64_t>(random() % 7) - 3);
        BOOST_TEST(statistics_of(numbers).variance() == static_cast<double>(variance_of(numbers)),
                   boost::test_tools::tolerance(1e-12));
    }
}

BOOST_AUTO_TEST_CASE(a_sum_of_squares_beyond_64_bits) {
    Statistics statistics;
    for (int count = 0; count < 10; ++count) statistics.add(std::int64_t{3} << 31U); // its square is 9 * 2^62
    BOOST_TEST(statistics.sums().squares.high == 22U);                               // 90 * 2^62 = 22.5 * 2^64
    BOOST_TEST(statistics.sums().squares.low == std::uint64_t{1} << 63U);
    BOOST_TEST(statistics.variance() == 0);
    constexpr std::uint64_t all_ones = ~std::uint64_t{0};
    BOOST_CHECK((WideSum::product(all_ones, all_ones) == WideSum{1, all_ones - 1}));
}

BOOST_AUTO_TEST_CASE(parts_in_any_order_come_to_the_same) {
    std::mt19937 random{7};
    for (const std::int64_t width : {1, 10}) {
        std::vector<std::int64_t> numbers;
        for (int count = 0; count < 2000; ++count) numbers.push_back(static_cast<std::int64_t>(random() % 4001) - 2000);
        const Statistics whole = statistics_of(numbers, width);
        for (int round = 0; round < 20; ++round) {
            std::vector<Statistics> parts(8, Statistics{width});
            for (const std::int64_t number : numbers) parts[random() % parts.size()].add(number);
            std::ranges::shuffle(parts, random);
            Statistics sum{width};
            for (const Statistics& part : parts) sum += part;
            BOOST_CHECK(sum == whole);
        }
    }
}

// E. B. Wilson, 1927; the numbers by R. G. Newcombe, Statistics in Medicine 17 (1998), table I, method 3.
BOOST_AUTO_TEST_CASE(published_intervals_of_wilson) {
    struct Published {
        int count;
        std::uint64_t trials;
        double low;
        double high;
    };
    for (const auto& [count, trials, low, high] :
         {Published{81, 263, 0.2553, 0.3662}, Published{15, 148, 0.0624, 0.1605}, Published{0, 20, 0, 0.1611},
          Published{1, 29, 0.0061, 0.1718}}) {
        const Interval interval = wilson(static_cast<double>(count) / static_cast<double>(trials), trials);
        BOOST_TEST(std::abs(interval.low - low) < 5e-5);
        BOOST_TEST(std::abs(interval.high - high) < 5e-5);
    }
    BOOST_TEST(wilson(0.5, 0).high == 1);
}

BOOST_AUTO_TEST_SUITE_END()
