// perft against published counts.
#include <boost/test/unit_test.hpp>

#include <sstream>

#include <keysquare/board/perft.hpp>
#include <keysquare/notation/fen.hpp>

#include "open_data.hpp"

namespace {

using namespace keysquare;

struct Count {
    std::string_view fen;
    int depth;
    std::uint64_t leaves;
};

// Published on the chess programming community's pages of perft results; values from memory.
constexpr Count published[] = {
    {start_fen, 1, 20},
    {start_fen, 2, 400},
    {start_fen, 3, 8902},
    {start_fen, 4, 197281},
    {start_fen, 5, 4865609},
    {"r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1", 4, 4085603},
    {"8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1", 6, 11030083},
    {"r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1", 4, 422333},
    {"rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8", 4, 2103487},
    {"r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10", 4, 3894594},
};

void check_file(const char* file, int deepest) {
    const auto lines = test::open_data_lines(file);
    if (!lines) return;
    int counts = 0;
    for (const std::string& line : *lines) {
        const auto operations = line.find(';');
        const auto position = read_fen(line.substr(0, operations));
        if (!position) BOOST_FAIL(line << ": " << position.error().what());
        std::istringstream words(line.substr(operations));
        for (std::string word; words >> word;) {
            if (word[0] != 'D') continue;
            const int depth = word[1] - '0';
            std::uint64_t leaves = 0;
            words >> leaves;
            if (depth > deepest) continue;
            ++counts;
            const std::uint64_t counted = perft(*position, depth);
            if (counted != leaves) BOOST_ERROR(line << " at depth " << depth << ": " << counted);
        }
    }
    BOOST_TEST(counts > 0);
    BOOST_TEST_MESSAGE(file << ": " << counts << " counts compared");
}

} // namespace

BOOST_AUTO_TEST_SUITE(perft_counts)

BOOST_AUTO_TEST_CASE(published_positions) {
    for (const Count& count : published)
        BOOST_TEST(perft(read_fen(count.fen).value(), count.depth) == count.leaves, count.fen << " " << count.depth);
}

// Sources of the three files: see the README, section on open data.
BOOST_AUTO_TEST_CASE(standard_positions_to_depth_4) { check_file("perft-standard.epd", 4); }
BOOST_AUTO_TEST_CASE(chess960_positions_to_depth_4) { check_file("perft-chess960.epd", 4); }
BOOST_AUTO_TEST_CASE(tricky_positions_to_depth_5) { check_file("perft-tricky.epd", 5); }

BOOST_AUTO_TEST_CASE(depth_zero_counts_the_position) { BOOST_TEST(perft(start_position(), 0) == 1U); }

BOOST_AUTO_TEST_CASE(record_of_legal_moves) {
    // The known record of a position with only one promoted set: 218 moves (N. Petrovic, 1964; from memory).
    const Position record = read_fen("R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1").value();
    BOOST_TEST(legal_moves(record).size() == 218U);
    BOOST_TEST(count_legal_moves(record) == 218);
}

BOOST_AUTO_TEST_SUITE_END()
