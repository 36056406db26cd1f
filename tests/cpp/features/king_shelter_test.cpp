// King shelter: worked positions, the border cases of the definition, a slow twin and the two mirrors.
#include <keysquare/features/king_shelter.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

KingShelter shelter_of(std::string_view text, Side side) { return king_shelter(read_fen(text).value(), side); }

/// The definitions again, square by square.
KingShelter twin(const Position& position, Side side) {
    KingShelter shelter;
    shelter.king = position.king(side);
    const auto is_pawn = [&](Side owner, int file, int rank) {
        return rank >= 0 && rank < 8 && position.piece_at(square_at(file, rank)) == Piece{owner, Kind::pawn};
    };
    for (int file = file_of(shelter.king) - 1; file <= file_of(shelter.king) + 1; ++file) {
        if (file < 0 || file > 7) continue;
        const int step = side == Side::white ? 1 : -1;
        const int rank = rank_of(shelter.king);
        for (const int ahead : {1, 2})
            if (is_pawn(side, file, rank + ahead * step)) {
                shelter.shield |= Squares{square_at(file, rank + ahead * step)};
                break;
            }
        bool own = false;
        bool enemy = false;
        for (int any = 0; any < 8; ++any) {
            own = own || is_pawn(side, file, any);
            enemy = enemy || is_pawn(other(side), file, any);
        }
        if (!own && !enemy) shelter.open_files |= file_squares(file);
        if (own && !enemy) shelter.half_open_files |= file_squares(file);
    }
    for (int at = 0; at < 64; ++at) {
        const Square target = square_at(at);
        if (king_distance(target, shelter.king) <= 1)
            shelter.bearing_men |= attackers_of(position, target, other(side)).without(position.king(other(side)));
    }
    return shelter;
}

void check_same(const KingShelter& a, const KingShelter& b) {
    BOOST_TEST(index(a.king) == index(b.king));
    BOOST_TEST(a.shield.bits() == b.shield.bits());
    BOOST_TEST(a.open_files.bits() == b.open_files.bits());
    BOOST_TEST(a.half_open_files.bits() == b.half_open_files.bits());
    BOOST_TEST(a.bearing_men.bits() == b.bearing_men.bits());
}

template <class Map> KingShelter image(const KingShelter& shelter, Map map) {
    return {map(shelter.king), test::mapped(shelter.shield, map), test::mapped(shelter.open_files, map),
            test::mapped(shelter.half_open_files, map), test::mapped(shelter.bearing_men, map)};
}

} // namespace

BOOST_AUTO_TEST_SUITE(king_shelters)

BOOST_AUTO_TEST_CASE(worked_positions) {
    struct Worked {
        const char* fen;
        std::array<int, 2> shield;
        std::array<Squares, 2> bearing_on;
    };
    const Worked worked[] = {
        {"2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1", {2, 3}, {Squares{a5}, {}}},    // g01
        {"3r1rk1/pp3p1p/1q2n1p1/2p1P3/2P2P2/1P1B1Q2/PB4PP/4R1K1 w - - 0 1", {2, 3}, {}},                    // g03
        {"r2qr3/pp3pk1/2p2p1p/3n4/3N4/3B3Q/PPP2PPP/3R2K1 b - - 0 1", {3, 2}, {Squares{}, Squares{d3, h3}}}, // g05
        {"8/8/4k3/3b4/8/8/8/R3K3 w - - 0 1", {0, 0}, {}},                                                   // g06
        {"2rr2k1/pp3ppp/2n5/4p3/8/1P2P3/PB2NPPP/3R2K1 w - - 0 1", {3, 3}, {}},                              // g08
    };
    for (const Worked& one : worked)
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(one.fen << ' ' << name(side)) {
                const KingShelter shelter = shelter_of(one.fen, side);
                BOOST_TEST(shelter.shield.count() == one.shield[index(side)]);
                BOOST_TEST(shelter.bearing_men.bits() == one.bearing_on[index(side)].bits());
            }
}

BOOST_AUTO_TEST_CASE(one_pawn_a_file_and_no_farther_than_two_ranks) {
    // c2 hides c3; b4 is too far; a1 and the pawn level with the king on c5 do not come into it.
    BOOST_TEST(shelter_of("4k3/8/8/8/1P6/2P5/P1P5/1K6 w - - 0 1", Side::white).shield.bits() ==
               (Squares{a2, c2}).bits());
    BOOST_TEST(shelter_of("4k3/8/8/1KP5/P7/8/8/8 w - - 0 1", Side::white).shield.bits() == 0U);
    BOOST_TEST(shelter_of("7k/8/6pp/8/8/8/8/K7 w - - 0 1", Side::black).shield.bits() == (Squares{g6, h6}).bits());
    BOOST_TEST(shelter_of("7K/8/8/8/8/8/6PP/k7 w - - 0 1", Side::white).shield.bits() == 0U); // nothing ahead of h8
}

BOOST_AUTO_TEST_CASE(files_on_the_king) {
    // e: open; f: half-open for the other side, which has no pawn there; d: only an enemy pawn, so no half-open file of
    // that kind; c and g are not on the king.
    const KingShelter shelter = shelter_of("4k3/3p4/8/8/8/8/5P2/4K3 w - - 0 1", Side::white);
    BOOST_TEST(shelter.open_files.bits() == file_squares(4).bits());
    BOOST_TEST(shelter.half_open_files.bits() == file_squares(5).bits());
}

BOOST_AUTO_TEST_CASE(bearing_is_not_looking_through) {
    // The rook on a1 is stopped by its own knight, the pawn h7 attacks g8; the enemy king next door is no attacker.
    const KingShelter shelter = shelter_of("R1N3k1/7P/6K1/8/8/8/8/8 b - - 0 1", Side::black);
    BOOST_TEST(shelter.bearing_men.bits() == Squares{h7}.bits());
}

BOOST_AUTO_TEST_CASE(agrees_with_its_slow_twin_and_its_mirrors) {
    std::array<int, 4> seen{};
    for (const Position& position : test::random_positions(1000, 21)) {
        const Position left_right = test::mirrored(position);
        const Position turned_round = test::flipped(position);
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                const KingShelter fast = king_shelter(position, side);
                check_same(fast, twin(position, side));
                check_same(king_shelter(left_right, side), image(fast, test::left_right));
                check_same(king_shelter(turned_round, other(side)), image(fast, test::up_down));
                seen[0] += !fast.shield.empty();
                seen[1] += !fast.open_files.empty();
                seen[2] += !fast.half_open_files.empty();
                seen[3] += fast.bearing_men.several();
            }
    }
    for (const int times : seen) BOOST_TEST(times > 50);
}

BOOST_AUTO_TEST_SUITE_END()
