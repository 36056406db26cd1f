// Attacks against textbook sums, and against a slow twin that walks the board square by square.
#include <boost/test/unit_test.hpp>

#include <random>

#include <keysquare/board/attacks.hpp>

namespace {

using namespace keysquare;

Squares walked(Square from, Squares occupied, std::initializer_list<std::pair<int, int>> directions) {
    Squares reached;
    for (const auto& [file_step, rank_step] : directions)
        for (int file = file_of(from) + file_step, rank = rank_of(from) + rank_step;
             file >= 0 && file < 8 && rank >= 0 && rank < 8; file += file_step, rank += rank_step) {
            reached |= Squares{square_at(file, rank)};
            if (occupied.has(square_at(file, rank))) break;
        }
    return reached;
}

int sum_on_empty_board(Kind kind) {
    int sum = 0;
    for (const Square from : all_squares) sum += attacks_of({Side::white, kind}, from, {}).count();
    return sum;
}

} // namespace

BOOST_AUTO_TEST_SUITE(attacks)

// The sums over all squares of an empty board (textbook combinatorics).
BOOST_AUTO_TEST_CASE(sums_on_an_empty_board) {
    BOOST_TEST(sum_on_empty_board(Kind::knight) == 336);
    BOOST_TEST(sum_on_empty_board(Kind::king) == 420);
    BOOST_TEST(sum_on_empty_board(Kind::bishop) == 560);
    BOOST_TEST(sum_on_empty_board(Kind::rook) == 896);
    BOOST_TEST(sum_on_empty_board(Kind::queen) == 1456);
    BOOST_TEST(sum_on_empty_board(Kind::pawn) == 98); // 14 on each of seven ranks
}

BOOST_AUTO_TEST_CASE(sliders_equal_their_slow_twin) {
    std::mt19937_64 random(20261124); // NOLINT: the same boards every time
    for (int round = 0; round < 2000; ++round) {
        const Squares occupied{random() & random()};
        for (const Square from : all_squares) {
            BOOST_REQUIRE(rook_attacks(from, occupied) == walked(from, occupied, {{1, 0}, {-1, 0}, {0, 1}, {0, -1}}));
            BOOST_REQUIRE(bishop_attacks(from, occupied) ==
                          walked(from, occupied, {{1, 1}, {-1, 1}, {1, -1}, {-1, -1}}));
        }
    }
}

BOOST_AUTO_TEST_CASE(between_and_lines) {
    BOOST_TEST((squares_between(Square::a1, Square::d4) == Squares{Square::b2, Square::c3}));
    BOOST_TEST((squares_between(Square::e8, Square::e6) == Squares{Square::e7}));
    BOOST_TEST(squares_between(Square::a1, Square::b3).empty());
    BOOST_TEST(squares_between(Square::a1, Square::b2).empty());
    BOOST_TEST(line_through(Square::c3, Square::e5).count() == 8);
    BOOST_TEST(line_through(Square::c3, Square::d5).empty());
    for (const Square a : all_squares)
        for (const Square b : all_squares) BOOST_REQUIRE(squares_between(a, b) == squares_between(b, a));
}

BOOST_AUTO_TEST_CASE(pawns_do_not_wrap_around_the_board) {
    BOOST_TEST((pawn_attacks(Side::white, Squares{Square::a2}) == Squares{Square::b3}));
    BOOST_TEST((pawn_attacks(Side::black, Squares{Square::h7}) == Squares{Square::g6}));
    BOOST_TEST((pawn_attacks(Side::white, Square::h4) == Squares{Square::g5}));
}

BOOST_AUTO_TEST_SUITE_END()
