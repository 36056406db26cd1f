// The inputs that fuzzing starts from, and those that it found faults with, through the fuzz targets.
#include <fstream>
#include <functional>
#include <iterator>

#include <boost/test/unit_test.hpp>

#include "../fuzz/compressed_target.hpp"
#include "../fuzz/epd_target.hpp"
#include "../fuzz/fen_target.hpp"
#include "../fuzz/pgn_target.hpp"
#include "../fuzz/plan_target.hpp"
#include "../fuzz/position_target.hpp"
#include "../fuzz/san_target.hpp"
#include "folder.hpp"
#include "platform.hpp"

using namespace keysquare;

namespace {

void try_corpus(const std::string& target, void (*try_input)(std::string_view)) {
    std::size_t inputs = 0;
    for (const auto& entry : std::filesystem::directory_iterator{"tests/fuzz/corpus/" + target}) {
        const std::string bytes = test::bytes_of(entry.path());
        BOOST_CHECK_NO_THROW(try_input(bytes));
        ++inputs;
    }
    BOOST_TEST(inputs >= 5U);
}

} // namespace

BOOST_AUTO_TEST_SUITE(fuzz_corpus)

BOOST_AUTO_TEST_CASE(fen) { try_corpus("fen", fuzz::try_fen); }
BOOST_AUTO_TEST_CASE(san) { try_corpus("san", fuzz::try_san); }
BOOST_AUTO_TEST_CASE(epd) { try_corpus("epd", fuzz::try_epd); }
BOOST_AUTO_TEST_CASE(pgn) { try_corpus("pgn", fuzz::try_pgn); }
BOOST_AUTO_TEST_CASE(compressed, *test::needs_compression()) { try_corpus("compressed", fuzz::try_compressed); }
BOOST_AUTO_TEST_CASE(plan) { try_corpus("plan", fuzz::try_plan); }
BOOST_AUTO_TEST_CASE(position) { try_corpus("position", fuzz::try_position); }

BOOST_AUTO_TEST_SUITE_END()
