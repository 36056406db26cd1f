// The inputs that fuzzing starts from, and those that it found faults with, through the fuzz targets.
#include <boost/test/unit_test.hpp>

#include "../fuzz/targets.hpp"
#include "folder.hpp"
#include "platform.hpp"

using namespace keysquare;

namespace {

void try_corpus(std::string_view name) {
    const fuzz::Target* const target = fuzz::target_named(name);
    BOOST_REQUIRE(target);
    std::size_t inputs = 0;
    for (const auto& entry : std::filesystem::directory_iterator{"tests/fuzz/corpus/" + std::string{name}}) {
        const std::string bytes = test::bytes_of(entry.path());
        BOOST_TEST_CONTEXT(entry.path()) BOOST_CHECK_NO_THROW(target->try_input(bytes));
        ++inputs;
    }
    BOOST_TEST(inputs >= 5U);
}

} // namespace

BOOST_AUTO_TEST_SUITE(fuzz_corpus)

BOOST_AUTO_TEST_CASE(compressed, *test::needs_compression()) { try_corpus("compressed"); }
BOOST_AUTO_TEST_CASE(epd) { try_corpus("epd"); }
BOOST_AUTO_TEST_CASE(fen) { try_corpus("fen"); }
BOOST_AUTO_TEST_CASE(pgn) { try_corpus("pgn"); }
BOOST_AUTO_TEST_CASE(plan) { try_corpus("plan"); }
BOOST_AUTO_TEST_CASE(position) { try_corpus("position"); }
BOOST_AUTO_TEST_CASE(san) { try_corpus("san"); }
BOOST_AUTO_TEST_CASE(every_target_has_a_test) { BOOST_TEST(std::size(fuzz::targets) == 7U); }

BOOST_AUTO_TEST_SUITE_END()
