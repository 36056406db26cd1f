// Findings cost no allocation once the caller's vector has grown, nor does a game once the caller's game has, and the
// numeric vector costs none: every allocation of this program is counted.
#include <boost/test/unit_test.hpp>

#include <atomic>
#include <cstdlib>
#include <new>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/notation/pgn.hpp>

#include "features/mirrored.hpp"
#include "platform.hpp"

namespace {

/// clang 14 as C++23 goes the way in libstdc++'s strings that is for constant evaluation alone, and allocates at every
/// `assign` (seen with libstdc++ 12).
auto needs_sound_strings() {
#if defined(__clang__) && __clang_major__ < 15 && __cplusplus > 202002L && defined(__GLIBCXX__)
    constexpr bool is_there = false;
#else
    constexpr bool is_there = true;
#endif
    return keysquare::test::needs(is_there, "string that keeps its memory");
}

std::atomic<long> allocations{0};

void* counted(std::size_t size) {
    ++allocations;
    if (void* memory = std::malloc(size)) return memory;
    throw std::bad_alloc{};
}

} // namespace

// A compiler that sees into these takes `free` for the wrong counterpart of `new`.
#ifdef __GNUC__
#define KEYSQUARE_OPAQUE [[gnu::noinline]]
#else
#define KEYSQUARE_OPAQUE
#endif
KEYSQUARE_OPAQUE void* operator new(std::size_t size) { return counted(size); }
KEYSQUARE_OPAQUE void* operator new[](std::size_t size) { return counted(size); }
KEYSQUARE_OPAQUE void operator delete(void* memory) noexcept { std::free(memory); }
KEYSQUARE_OPAQUE void operator delete[](void* memory) noexcept { std::free(memory); }
KEYSQUARE_OPAQUE void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
KEYSQUARE_OPAQUE void operator delete[](void* memory, std::size_t) noexcept { std::free(memory); }

BOOST_AUTO_TEST_SUITE(allocation)

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

BOOST_AUTO_TEST_CASE(none_for_a_game_after_warming_up, *needs_sound_strings()) {
    using namespace keysquare;
    const std::string games = R"([Event "Club evening"]
[White "Ossfeld, Ruda"]
[Black "Vastin, Koor"]
[Result "1-0"]

{A quiet line. [%clk 0:10:00]} 1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 (3... Nf6 4. O-O {well known} Nxe4 (4... Be7 5. Re1))
4. Ba4 $1 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O {[%eval 0.3] Both sides are ready.} 1-0

[Event "Club evening"]
[SetUp "1"]
[FEN "4k3/P7/8/8/8/8/8/4K3 w - - 0 1"]

1. a8=Q+ Kd7 2. Qb7+ *

[Event "Without a move"]

*

)";
    constexpr std::size_t copies = 50;
    std::string text;
    for (std::size_t copy = 0; copy < copies; ++copy) text += games;
    PgnReader reader{std::make_unique<TextSource>(text)};
    Game game;
    std::size_t moves = 0;
    for (int warming_up = 0; warming_up < 6; ++warming_up) BOOST_REQUIRE(reader.next(game) == Reading::game);
    const long before = allocations;
    std::size_t count = 0;
    while (reader.next(game) == Reading::game) {
        ++count;
        moves += game.steps().size() - 1;
    }
    const long during = allocations - before;
    BOOST_TEST(during == 0);
    BOOST_TEST(count == 3 * copies - 6);
    BOOST_TEST(moves == (copies - 2) * (16 + 5 + 3));
}

BOOST_AUTO_TEST_CASE(the_counter_counts) {
    const long before = allocations;
    ::operator delete(::operator new(1)); // a compiler may leave out what `delete new int` allocates
    BOOST_TEST(allocations > before);
}

BOOST_AUTO_TEST_SUITE_END()
