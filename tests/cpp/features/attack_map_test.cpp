// Attack maps: against attacks_of and attackers_of, square by square, on positions from random games.
#include <keysquare/features/attack_map.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

BOOST_AUTO_TEST_SUITE(attack_maps)

BOOST_AUTO_TEST_CASE(of_the_start) {
    const AttackMap map = attack_map(start_position());
    BOOST_TEST(map.by(Side::white, Kind::pawn).bits() == rank_squares(2).bits());
    BOOST_TEST(map.by(Side::black, Kind::knight).bits() == (Squares{a6, c6, d7, e7, f6, h6}).bits());
    BOOST_TEST(map.by_minors(Side::white).bits() == (Squares{a3, c3, d2, e2, f3, h3, b2, g2}).bits());
    // The corners are not guarded; e2 has the queen, both minor pieces and the king behind it.
    BOOST_TEST(map.once[0].bits() == ((rank_squares(0) | rank_squares(1) | rank_squares(2)) & ~Squares{a1, h1}).bits());
    BOOST_TEST(map.thrice[0].has(e2));
    BOOST_TEST(!map.twice[0].has(a2));
}

BOOST_AUTO_TEST_CASE(edges_and_lines) {
    const Position position = read_fen("4k3/8/8/8/P6P/8/R2R4/4K3 w - - 0 1").value();
    const AttackMap map = attack_map(position);
    // Rook pawns do not reach round the board.
    BOOST_TEST(map.by(Side::white, Kind::pawn).bits() == (Squares{b5, g5}).bits());
    // The rooks guard each other and see nothing through each other.
    BOOST_TEST((map.by(Side::white, Kind::rook) & Squares{a2, d2}).bits() == (Squares{a2, d2}).bits());
    BOOST_TEST(map.twice[0].has(b2));
    BOOST_TEST(map.twice[0].has(e2));
    // The king guards d2 as well as the rook on a2 does.
    BOOST_TEST(map.twice[0].has(d2));
    BOOST_TEST(!map.thrice[0].has(d2));
    BOOST_TEST(!map.once[1].has(e8));
}

BOOST_AUTO_TEST_CASE(agrees_with_attacks_of_and_attackers_of) {
    int thrice = 0;
    for (const Position& position : test::random_positions(1500, 71)) BOOST_TEST_CONTEXT(fen(position)) {
            const AttackMap map = attack_map(position);
            for (const Side side : all_sides) {
                std::array<Squares, 3> at_least{};
                for (int at = 0; at < 64; ++at) {
                    const int count = attackers_of(position, square_at(at), side).count();
                    for (int least = 1; least <= 3; ++least)
                        if (count >= least) at_least[static_cast<std::size_t>(least - 1)] |= Squares{square_at(at)};
                }
                BOOST_TEST(map.once[index(side)].bits() == at_least[0].bits());
                BOOST_TEST(map.twice[index(side)].bits() == at_least[1].bits());
                BOOST_TEST(map.thrice[index(side)].bits() == at_least[2].bits());
                thrice += at_least[2].count();
                for (const Kind kind : all_kinds) {
                    Squares attacked;
                    for (const Square from : position.men(side, kind))
                        attacked |= attacks_of({side, kind}, from, position.occupied());
                    BOOST_TEST(map.by(side, kind).bits() == attacked.bits());
                }
            }
        }
    BOOST_TEST(thrice > 5000);
}

BOOST_AUTO_TEST_SUITE_END()
