// Pawn structure: worked positions, a slow twin, and the two mirrors.
#include <keysquare/features/pawn_structure.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

PawnStructure structure_of(std::string_view text) { return pawn_structure(read_fen(text).value()); }

Squares files(std::initializer_list<int> numbers) {
    Squares squares;
    for (const int file : numbers) squares |= file_squares(file);
    return squares;
}

/// The definitions again, by loops over pairs of squares.
PawnStructure twin(const Position& position) {
    PawnStructure structure;
    const auto pawns_on_file = [&](Side side, int file) {
        int count = 0;
        for (int rank = 0; rank < 8; ++rank)
            if (file >= 0 && file < 8 && position.piece_at(square_at(file, rank)) == Piece{side, Kind::pawn}) ++count;
        return count;
    };
    for (int file = 0; file < 8; ++file) {
        const int white = pawns_on_file(Side::white, file);
        const int black = pawns_on_file(Side::black, file);
        if (white + black == 0) structure.open_files |= file_squares(file);
        if (white == 0 && black > 0) structure.sides[0].half_open_files |= file_squares(file);
        if (black == 0 && white > 0) structure.sides[1].half_open_files |= file_squares(file);
    }
    for (const Side side : all_sides) {
        SidePawns& own = structure.sides[index(side)];
        for (int file = 0; file < 8; ++file)
            if (pawns_on_file(side, file) > 0 && pawns_on_file(side, file - 1) == 0) ++own.islands;
        for (int at = 0; at < 64; ++at) {
            const Square square = square_at(at);
            if (position.piece_at(square) != Piece{side, Kind::pawn}) continue;
            const int file = file_of(square);
            own.pawns |= Squares{square};
            if (pawns_on_file(side, file - 1) + pawns_on_file(side, file + 1) == 0) own.isolated |= Squares{square};
            if (pawns_on_file(side, file) > 1) own.doubled |= Squares{square};
            bool passed = true;
            for (int enemy = 0; enemy < 64; ++enemy) {
                const Square stopper = square_at(enemy);
                if (position.piece_at(stopper) == Piece{other(side), Kind::pawn} &&
                    std::abs(file_of(stopper) - file) <= 1 && rank_for(side, stopper) > rank_for(side, square))
                    passed = false;
            }
            if (passed) own.passed |= Squares{square};
        }
    }
    return structure;
}

void check_same(const SidePawns& a, const SidePawns& b) {
    BOOST_TEST(a.pawns.bits() == b.pawns.bits());
    BOOST_TEST(a.isolated.bits() == b.isolated.bits());
    BOOST_TEST(a.doubled.bits() == b.doubled.bits());
    BOOST_TEST(a.passed.bits() == b.passed.bits());
    BOOST_TEST(a.half_open_files.bits() == b.half_open_files.bits());
    BOOST_TEST(a.islands == b.islands);
}

template <class Map> SidePawns image(const SidePawns& pawns, Map map) {
    return {test::mapped(pawns.pawns, map),  test::mapped(pawns.isolated, map),        test::mapped(pawns.doubled, map),
            test::mapped(pawns.passed, map), test::mapped(pawns.half_open_files, map), pawns.islands};
}

} // namespace

BOOST_AUTO_TEST_SUITE(pawn_structures)

BOOST_AUTO_TEST_CASE(worked_positions) {
    struct Worked {
        const char* fen;
        std::array<Squares, 2> isolated, doubled, passed, half_open;
        Squares open;
    };
    const Worked worked[] = {
        {"2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1", // g01
         {Squares{a2, c2, c3}, {}},
         {Squares{c2, c3}, {}},
         {},
         {files({1, 3}), files({2})},
         {}},
        {"3r1rk1/pp3p1p/1q2n1p1/2p1P3/2P2P2/1P1B1Q2/PB4PP/4R1K1 w - - 0 1", // g03
         {},
         {},
         {},
         {Squares{}, files({4})},
         files({3})},
        {"r2qr3/pp3pk1/2p2p1p/3n4/3N4/3B3Q/PPP2PPP/3R2K1 b - - 0 1", // g05
         {Squares{}, Squares{f6, h6, f7}},
         {Squares{}, Squares{f6, f7}},
         {},
         {Squares{}, files({6})},
         files({3, 4})},
        {"8/8/4k3/3b4/8/8/8/R3K3 w - - 0 1", {}, {}, {}, {}, all_squares},                        // g06
        {"2rr2k1/pp3ppp/2n5/4p3/8/1P2P3/PB2NPPP/3R2K1 w - - 0 1", {}, {}, {}, {}, files({2, 3})}, // g08
    };
    for (const Worked& one : worked) {
        BOOST_TEST_CONTEXT(one.fen) {
            const PawnStructure structure = structure_of(one.fen);
            for (const Side side : all_sides) {
                const SidePawns& pawns = structure.of(side);
                BOOST_TEST(pawns.isolated.bits() == one.isolated[index(side)].bits());
                BOOST_TEST(pawns.doubled.bits() == one.doubled[index(side)].bits());
                BOOST_TEST(pawns.passed.bits() == one.passed[index(side)].bits());
                BOOST_TEST(pawns.half_open_files.bits() == one.half_open[index(side)].bits());
            }
            BOOST_TEST(structure.open_files.bits() == one.open.bits());
        }
    }
}

BOOST_AUTO_TEST_CASE(passed_pawns_and_islands) {
    // a6 has nothing ahead; d5 and e5 pass each other; g3 and g4 are both stopped by h7, h5 passes when it is past g6.
    const PawnStructure structure = structure_of("4k3/7p/P7/3Pp3/6P1/6P1/8/4K3 w - - 0 1");
    BOOST_TEST(structure.of(Side::white).passed.bits() == (Squares{a6, d5}).bits());
    BOOST_TEST(structure.of(Side::black).passed.bits() == Squares{e5}.bits());
    BOOST_TEST(structure.of(Side::white).islands == 3);
    BOOST_TEST(structure.of(Side::black).islands == 2);
    // Both of two pawns on one file are passed.
    const PawnStructure pair = structure_of("4k3/8/2P5/2P5/8/8/8/4K3 w - - 0 1");
    BOOST_TEST(pair.of(Side::white).passed.bits() == (Squares{c5, c6}).bits());
    BOOST_TEST(count_files(pair.of(Side::white).doubled) == 1);
    BOOST_TEST(pair.files_for(Side::black).bits() == all_squares.bits());
    BOOST_TEST(pair.files_for(Side::white).bits() == (~file_squares(2)).bits());
}

BOOST_AUTO_TEST_CASE(agrees_with_its_slow_twin_and_its_mirrors) {
    std::array<int, 4> seen{};
    for (const Position& position : test::random_positions(1500, 20)) {
        const PawnStructure fast = pawn_structure(position);
        const PawnStructure slow = twin(position);
        const PawnStructure left_right = pawn_structure(test::mirrored(position));
        const PawnStructure turned_round = pawn_structure(test::flipped(position));
        BOOST_TEST_CONTEXT(fen(position)) {
            BOOST_TEST(fast.open_files.bits() == slow.open_files.bits());
            BOOST_TEST(left_right.open_files.bits() == test::mapped(fast.open_files, test::left_right).bits());
            for (const Side side : all_sides) {
                check_same(fast.of(side), slow.of(side));
                check_same(left_right.of(side), image(fast.of(side), test::left_right));
                check_same(turned_round.of(other(side)), image(fast.of(side), test::up_down));
                seen[0] += !fast.of(side).isolated.empty();
                seen[1] += !fast.of(side).doubled.empty();
                seen[2] += !fast.of(side).passed.empty();
                seen[3] += !fast.of(side).half_open_files.empty();
            }
        }
    }
    for (const int times : seen) BOOST_TEST(times > 100); // the positions do show the cases
}

BOOST_AUTO_TEST_SUITE_END()
