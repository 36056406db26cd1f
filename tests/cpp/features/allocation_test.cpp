// Findings cost no allocation once the caller's vector has grown, and the numeric vector costs none: every allocation of
// this program is counted.
#include <boost/test/unit_test.hpp>

#include <atomic>
#include <cstdlib>
#include <new>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>

#include "features/mirrored.hpp"

namespace {

std::atomic<long> allocations{0};

void* counted(std::size_t size) {
    ++allocations;
    if (void* memory = std::malloc(size)) return memory;
    throw std::bad_alloc{};
}

} // namespace

void* operator new(std::size_t size) { return counted(size); }
void* operator new[](std::size_t size) { return counted(size); }
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete[](void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete[](void* memory, std::size_t) noexcept { std::free(memory); }

BOOST_AUTO_TEST_SUITE(allocations_of_findings)

BOOST_AUTO_TEST_CASE(none_after_warming_up) {
    using namespace keysquare;
    const std::vector<Position> positions = test::random_positions(200, 61);
    Findings found;
    for (const Position& position : positions) findings(position, found);
    const long before = allocations;
    std::size_t count = 0;
    for (const Position& position : positions) {
        findings(position, found);
        count += found.size();
    }
    const long during = allocations - before;
    BOOST_TEST(during == 0);
    BOOST_TEST(count > 1000U);
}

BOOST_AUTO_TEST_CASE(none_for_the_numeric_vector) {
    using namespace keysquare;
    const std::vector<Position> positions = test::random_positions(50, 62);
    std::vector<std::int16_t> numbers(feature_count * positions.size(), -1);
    const long before = allocations;
    feature_columns(positions, numbers, positions.size());
    const long during = allocations - before;
    BOOST_TEST(during == 0);
    BOOST_TEST(numbers.back() > 0); // the move number of the last position
}

BOOST_AUTO_TEST_CASE(the_counter_counts) {
    const long before = allocations;
    ::operator delete(::operator new(1)); // a compiler may leave out what `delete new int` allocates
    BOOST_TEST(allocations > before);
}

BOOST_AUTO_TEST_SUITE_END()
