// Outposts: the conditions one by one, a slow twin and the two mirrors.
#include <keysquare/features/outpost.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

Outposts outposts_of(std::string_view text, Side side) { return outposts(read_fen(text).value(), side); }

/// The definition again: every enemy pawn is walked to the end of its file.
Outposts twin(const Position& position, Side side) {
    Outposts found;
    for (int at = 0; at < 64; ++at) {
        const Square square = square_at(at);
        const int rank = rank_for(side, square);
        if (rank < 4 || rank > 6) continue;
        if (!(attackers_of(position, square, side) & position.men(Kind::pawn))) continue;
        bool can_be_driven_off = false;
        for (const Square pawn : position.men(other(side), Kind::pawn))
            for (int walk = index(pawn); walk >= 0 && walk < 64; walk += advance_of(other(side)))
                if (pawn_attacks(other(side), square_at(walk)).has(square)) can_be_driven_off = true;
        if (can_be_driven_off) continue;
        found.squares |= Squares{square};
        if (const Piece piece = position.piece_at(square); piece.side == side && is_minor(piece.kind))
            found.taken |= Squares{square};
    }
    return found;
}

} // namespace

BOOST_AUTO_TEST_SUITE(outpost_squares)

BOOST_AUTO_TEST_CASE(conditions_one_by_one) {
    // A knight on d5, guarded by e4; black pawns on c and e file are gone or past it.
    BOOST_TEST(outposts_of("4k3/pp3ppp/3p4/3N4/4P3/8/8/4K3 w - - 0 1", Side::white).taken.bits() == Squares{d5}.bits());
    // The c-pawn could still drive it off, even though something stands before it.
    BOOST_TEST(outposts_of("4k3/ppp2ppp/2np4/3N4/4P3/8/8/4K3 w - - 0 1", Side::white).taken.bits() == 0U);
    // No pawn guards it.
    BOOST_TEST(outposts_of("4k3/pp3ppp/3p4/3N4/8/8/4P3/4K3 w - - 0 1", Side::white).squares.bits() == 0U);
    // The own half is no enemy camp.
    BOOST_TEST(outposts_of("4k3/8/8/8/3N4/2P5/8/4K3 w - - 0 1", Side::white).squares.bits() == 0U);
    // A rook on the square does not take it, a bishop does; seen from Black.
    const Outposts black = outposts_of("4k3/8/8/2p1p3/1r1b1r2/8/8/4K3 w - - 0 1", Side::black);
    BOOST_TEST(black.squares.bits() == (Squares{b4, d4, f4}).bits());
    BOOST_TEST(black.taken.bits() == Squares{d4}.bits());
    // The seventh rank counts, the eighth does not; an enemy pawn beyond the square is no danger.
    const Outposts deep = outposts_of("7k/P7/2P5/3p4/8/8/8/7K w - - 0 1", Side::white);
    BOOST_TEST(deep.squares.bits() == (Squares{b7, d7}).bits());
}

BOOST_AUTO_TEST_CASE(none_in_the_worked_positions) {
    for (const char* text :
         {"2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1",
          "3r1rk1/pp3p1p/1q2n1p1/2p1P3/2P2P2/1P1B1Q2/PB4PP/4R1K1 w - - 0 1",
          "r2qr3/pp3pk1/2p2p1p/3n4/3N4/3B3Q/PPP2PPP/3R2K1 b - - 0 1", "8/8/4k3/3b4/8/8/8/R3K3 w - - 0 1",
          "2rr2k1/pp3ppp/2n5/4p3/8/1P2P3/PB2NPPP/3R2K1 w - - 0 1"})
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(text << ' ' << name(side))
    BOOST_TEST(outposts_of(text, side).taken.bits() == 0U);
}

BOOST_AUTO_TEST_CASE(agrees_with_its_slow_twin_and_its_mirrors) {
    int squares = 0;
    int taken = 0;
    for (const Position& position : test::random_positions(1500, 22))
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                const Outposts fast = outposts(position, side);
                const Outposts slow = twin(position, side);
                BOOST_TEST(fast.squares.bits() == slow.squares.bits());
                BOOST_TEST(fast.taken.bits() == slow.taken.bits());
                const Outposts left_right = outposts(test::mirrored(position), side);
                BOOST_TEST(left_right.squares.bits() == test::mapped(fast.squares, test::left_right).bits());
                BOOST_TEST(left_right.taken.bits() == test::mapped(fast.taken, test::left_right).bits());
                const Outposts turned_round = outposts(test::flipped(position), other(side));
                BOOST_TEST(turned_round.squares.bits() == test::mapped(fast.squares, test::up_down).bits());
                BOOST_TEST(turned_round.taken.bits() == test::mapped(fast.taken, test::up_down).bits());
                squares += !fast.squares.empty();
                taken += !fast.taken.empty();
            }
    BOOST_TEST(squares > 100);
    BOOST_TEST(taken > 10);
}

BOOST_AUTO_TEST_SUITE_END()
