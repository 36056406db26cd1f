// Colour complexes: the facts of the worked positions, the rules one by one, and the mirrors.
#include <keysquare/features/colour_complex.hpp>

#include <string_view>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position position_of(std::string_view text) { return read_fen(text, Strictness::lenient).value(); }

constexpr std::string_view e01 = "r3r1k1/1b1q1p1p/p1n1p1p1/1pBpP3/1PpP1P1P/P1P2NP1/3Q2K1/R4R2 w - - 0 1";
constexpr std::string_view e03 = "r4rk1/4b1q1/1p1p1n1p/p1pPpBp1/P1P1P1P1/1PN4P/3Q2K1/R4R2 w - - 0 1";
constexpr std::string_view e05 = "2r1r1k1/1b2npbp/pq2p1p1/1p1pP3/2pP1B2/2P1QN2/PP1N1PPP/R3R1K1 w - - 0 1";
constexpr std::string_view e06 = "r2q1rk1/pp1nbppp/2p1pn2/3p4/3P4/2NBPN2/PPP1QPPP/R4RK1 w - - 0 1";

/// What the worked position says; the weak side is Black in all four. The counts are White's, then Black's.
struct Facts {
    std::string_view id;
    std::string_view text;
    Complex complex;
    Squares pawns_on;
    Squares pawns_off;
    Squares fixed;
    std::array<int, 2> attacked;
    std::array<int, 2> attacked_in_weak_half;
    Squares holes;
    bool weak;
};

const std::array facts{
    Facts{"e01",
          e01,
          Complex::dark,
          {},
          {c4, b5, d5, a6, e6, g6, f7, h7},
          {c4, b5, d5, e6, g6, f7},
          {26, 13},
          {10, 11},
          {a5, c5, b6, d6, f6, h6, a7, c7, e7, g7},
          true},
    Facts{"e03",
          e03,
          Complex::light,
          {},
          {a5, c5, e5, g5, b6, d6, h6},
          {a5, c5, e5, g5, b6, d6},
          {25, 13},
          {10, 11},
          {b5, d5, f5, h5, a6, c6, e6, g6, b7, d7, f7, h7},
          true},
    Facts{"e05",
          e05,
          Complex::dark,
          {},
          {c4, b5, d5, a6, e6, g6, f7, h7},
          {c4, d5, e6, g6, h7},
          {21, 15},
          {6, 14},
          {a5, c5, b6, d6, f6, h6, a7, c7, e7, g7},
          false},
    Facts{"e06",
          e06,
          Complex::light,
          {d5, c6, e6, b7, f7, h7},
          {a7, g7},
          {d5, e6},
          {21, 18},
          {6, 15},
          {b7, d7, f7, h7},
          false},
};

/// The definition again: every pawn is walked up its file.
Squares holes_walked(const Position& position, Side side) {
    Squares holes;
    for (const Square square : all_squares) {
        if (rank_for(side, square) < 1 || rank_for(side, square) > 3) continue;
        bool guarded = false;
        for (const Square pawn : position.men(side, Kind::pawn))
            for (int at = index(pawn); at >= 0 && at < 64; at += advance_of(side))
                guarded = guarded || pawn_attacks(side, square_at(at)).has(square);
        if (!guarded) holes |= Squares{square};
    }
    return holes;
}

} // namespace

BOOST_AUTO_TEST_SUITE(colour_complex)

BOOST_AUTO_TEST_CASE(facts_of_the_worked_positions) {
    for (const Facts& fact : facts) BOOST_TEST_CONTEXT(fact.id) {
            const Position position = position_of(fact.text);
            const ColourComplexes complexes = colour_complexes(position);
            const ComplexSide& black = complexes.of(Side::black, fact.complex);
            BOOST_TEST(black.pawns.bits() == fact.pawns_on.bits());
            BOOST_TEST(black.pawns_off.bits() == fact.pawns_off.bits());
            BOOST_TEST((black.fixed_pawns | black.fixed_pawns_off).bits() == fact.fixed.bits());
            BOOST_TEST(black.fixed_pawns.bits() == (fact.fixed & squares_of(fact.complex)).bits());
            BOOST_TEST(black.holes.bits() == fact.holes.bits());
            for (const Side side : all_sides) {
                const Squares attacked = complexes.of(side, fact.complex).attacked;
                const Region weak_half = side == Side::black ? Region::own_half : Region::other_half;
                BOOST_TEST(attacked.count() == fact.attacked[index(side)]);
                BOOST_TEST((attacked & region_squares(position, side, weak_half)).count() ==
                           fact.attacked_in_weak_half[index(side)]);
            }
            BOOST_TEST((weak_side(position, fact.complex) == Side::black) == fact.weak);
            // With the pawns locked White is weak on the other colour; of that the worked positions say nothing.
            std::size_t found = 0;
            Findings findings;
            find_colour_complex(BoardView{position}, findings);
            for (const Finding& finding : findings) found += finding.side == Side::white;
            BOOST_TEST(found == (fact.weak ? 1U : 0U));
        }
}

BOOST_AUTO_TEST_CASE(the_finding) {
    Findings findings;
    find_colour_complex(BoardView{position_of(e01)}, findings);
    BOOST_TEST_REQUIRE(findings.size() == 2U);
    BOOST_TEST((findings[0].detail == Detail::light)); // Black's: White's pawns all stand on dark squares
    BOOST_TEST((findings[0].side == Side::black));
    const Finding& finding = findings[1];
    BOOST_TEST((finding.theme == Theme::colour_complex));
    BOOST_TEST((finding.detail == Detail::dark));
    BOOST_TEST((finding.side == Side::white));
    BOOST_TEST(finding.line.empty());
    // White holds a5, c5, e5, g5, b6, d6 and f6; h6 is a hole that Black does not hold. Black's own back ranks stay
    // out.
    BOOST_TEST(finding.squares.bits() == (Squares{a5, c5, e5, g5, b6, d6, f6, h6}).bits());
    BOOST_TEST_REQUIRE(finding.pieces.size() == 7U);
    BOOST_TEST((finding.pieces[0] == Placed{c5, {Side::white, Kind::bishop}}));
    BOOST_TEST((finding.pieces[1] == Placed{c4, {Side::black, Kind::pawn}}));
    BOOST_TEST(finding.number(Measure::held) == 23);
    BOOST_TEST(finding.number(Measure::held_by_other) == 8);
    BOOST_TEST(finding.number(Measure::attacked) == 26);
    BOOST_TEST(finding.number(Measure::attacked_by_other) == 13);
    BOOST_TEST(finding.number(Measure::holes) == 10);
    BOOST_TEST(finding.number(Measure::fixed_pawns) == 6);
    BOOST_TEST(finding.number(Measure::pawns_on_colour, -1) == 0);
    BOOST_TEST(finding.number(Measure::bishops) == 1);
    BOOST_TEST(finding.number(Measure::bishops_of_other, -1) == 0);
}

BOOST_AUTO_TEST_CASE(each_condition_is_needed) {
    const Position weak = position_of(e01);
    BOOST_TEST((weak_side(weak, Complex::dark) == Side::black));
    BOOST_TEST((weak_side(weak, Complex::light) == Side::white));
    BOOST_TEST(!weak_side(without(weak, b7), Complex::light).has_value());
    // Black has a dark-squared bishop; White has none.
    BOOST_TEST(
        !weak_side(position_of("r3rbk1/1b1q1p1p/p1n1p1p1/1pBpP3/1PpP1P1P/P1P2NP1/3Q2K1/R4R2 w - - 0 1"), Complex::dark)
             .has_value());
    BOOST_TEST(!weak_side(without(weak, c5), Complex::dark).has_value());
    // Five of seven pawns on light squares are 71 %, four of six 67 %; all that stand there are blocked.
    const Position five_of_seven = position_of("4k3/2p1p3/p7/Pp1p1p1p/1P1P1P1P/8/8/4K3 w - - 0 1");
    const Position four_of_six = position_of("4k3/2p1p3/8/1p1p1p1p/1P1P1P1P/8/8/4K3 w - - 0 1");
    BOOST_TEST(left_by_pawns(five_of_seven, Side::black, Complex::dark));
    BOOST_TEST(!left_by_pawns(four_of_six, Side::black, Complex::dark));
    // Two fixed pawns are not enough, three are.
    BOOST_TEST(!left_by_pawns(position_of("4k3/5p2/8/1p1p4/1P1P4/8/8/4K3 w - - 0 1"), Side::black, Complex::dark));
    BOOST_TEST(left_by_pawns(position_of("4k3/8/8/1p1p1p2/1P1P1P2/8/8/4K3 w - - 0 1"), Side::black, Complex::dark));
    // No pawns at all.
    BOOST_TEST(!left_by_pawns(position_of("4k3/8/8/8/8/8/8/4K3 w - - 0 1"), Side::black, Complex::dark));
    // A king in check: no finding, whatever the pawns say.
    const Position check = position_of("r3r1k1/1b1q1p1p/p1n1p1p1/1pBpP3/1PpP1P1P/P1P2NPr/3Q3K/R4R2 w - - 0 1");
    BOOST_TEST((weak_side(check, Complex::dark) == Side::black));
    Findings findings;
    find_colour_complex(BoardView{check}, findings);
    BOOST_TEST(findings.empty());
}

BOOST_AUTO_TEST_CASE(no_finding_where_little_is_held) {
    // The rule speaks of pawns and bishops alone; a white bishop in the corner rules nothing against queen and rooks.
    const Position position = position_of("1rqr2k1/8/2n5/1p1p1p2/1P1P1P2/8/8/B5K1 w - - 0 1");
    BOOST_TEST((weak_side(position, Complex::dark) == Side::black));
    const ColourComplexes complexes = colour_complexes(position);
    BOOST_TEST(complexes.of(Side::white, Complex::dark).held.count() <=
               complexes.of(Side::black, Complex::dark).held.count());
    Findings findings;
    find_colour_complex(BoardView{position}, findings);
    BOOST_TEST(findings.empty());
    // Black holds more light squares here, but only one in White's half.
    const Position shallow = position_of("r2r2k1/p4pp1/1qp4p/4P1b1/1P4b1/P7/2QN1PPP/R4RK1 w - - 7 21");
    BOOST_TEST((weak_side(shallow, Complex::light) == Side::white));
    const ColourComplexes both = colour_complexes(shallow);
    const Squares black = both.of(Side::black, Complex::light).held;
    BOOST_TEST(black.count() > both.of(Side::white, Complex::light).held.count());
    BOOST_TEST((black & half_of(Side::white)).count() < least_ruled);
    find_colour_complex(BoardView{shallow}, findings);
    BOOST_TEST(findings.empty());
}

BOOST_AUTO_TEST_CASE(fixed_pawns) {
    const auto fixed = [](std::string_view text, Side side) { return fixed_pawns_of(position_of(text), side).bits(); };
    // Blocked by a pawn of either side or an enemy man; behind a piece of its own a pawn is not fixed.
    BOOST_TEST(fixed("4k3/8/8/8/n3p2P/P3P2P/3N4/3PK3 w - - 0 1", Side::white) == (Squares{a3, e3, h3}).bits());
    // A step under a pawn's fire loses the pawn, unless it is guarded there.
    BOOST_TEST(fixed("4k3/8/8/2p5/8/3P4/8/4K3 w - - 0 1", Side::white) == Squares{d3}.bits());
    BOOST_TEST(fixed("4k3/8/8/2p5/8/3PP3/8/4K3 w - - 0 1", Side::white) == 0U);
    // The waiter's pawns are asked the same.
    BOOST_TEST(fixed("4k3/8/8/2p5/8/3P4/8/4K3 b - - 0 1", Side::white) == Squares{d3}.bits());
    // The rook behind it looks through the pawn that steps on.
    BOOST_TEST(fixed("3rk3/8/8/3P4/8/8/8/4K3 w - - 0 1", Side::white) == Squares{d5}.bits());
    BOOST_TEST(fixed("4k3/8/8/8/3P4/8/3r4/6K1 w - - 0 1", Side::white) == Squares{d4}.bits());
    // Promotion: the queen is taken at once, and only the pawn is lost; or a rook is won back for it.
    BOOST_TEST(fixed("r3k3/1P6/8/8/8/8/8/4K3 w - - 0 1", Side::white) == Squares{b7}.bits());
    BOOST_TEST(fixed("r3k3/1P6/8/8/8/8/8/1R2K3 w - - 0 1", Side::white) == 0U);
    BOOST_TEST(fixed("4k3/1P6/8/8/8/8/8/4K3 w - - 0 1", Side::white) == 0U);
}

BOOST_AUTO_TEST_CASE(holes_and_regions) {
    BOOST_TEST(holes_of(start_position(), Side::white).bits() == rank_squares(1).bits());
    BOOST_TEST(holes_of(start_position(), Side::black).bits() == rank_squares(6).bits());
    // With the pawns on e4 and g3 nothing guards d3, f3 and their like any more; h4 is guarded, f4 too.
    BOOST_TEST(holes_of(position_of("4k3/8/8/8/4P3/6P1/8/4K3 w - - 0 1"), Side::white).bits() ==
               ((rank_squares(1) | rank_squares(2) | rank_squares(3)) & ~Squares{f4, h4}).bits());
    const Position position = position_of("6k1/8/8/8/8/8/8/K7 w - - 0 1");
    BOOST_TEST(region_squares(position, Side::white, Region::own_king).bits() == (Squares{a2, b1, b2}).bits());
    BOOST_TEST(region_squares(position, Side::black, Region::other_king).bits() == (Squares{a2, b1, b2}).bits());
    BOOST_TEST(region_squares(position, Side::white, Region::other_king).bits() ==
               (Squares{f7, f8, g7, h7, h8}).bits());
    BOOST_TEST(region_squares(position, Side::black, Region::own_half).bits() == half_of(Side::black).bits());
    BOOST_TEST(region_squares(position, Side::black, Region::other_half).bits() == half_of(Side::white).bits());
    BOOST_TEST(region_squares(position, Side::black, Region::centre).count() == 4);
    BOOST_TEST(region_squares(position, Side::black, Region::board).count() == 64);
}

BOOST_AUTO_TEST_CASE(sets_add_up_and_mirror) {
    std::size_t holes = 0;
    std::size_t fixed = 0;
    for (const Position& position : test::random_positions(500, 9)) {
        const SquareControl control = square_control(position);
        const ColourComplexes complexes = colour_complexes(position, control);
        const ColourComplexes sideways = colour_complexes(test::mirrored(position));
        const ColourComplexes turned_round = colour_complexes(test::flipped(position));
        for (const Side side : all_sides) {
            const ComplexSide& light = complexes.of(side, Complex::light);
            const ComplexSide& dark = complexes.of(side, Complex::dark);
            BOOST_TEST((light.held | dark.held).bits() == control.held[index(side)].bits());
            BOOST_TEST((light.attacked | dark.attacked).bits() == control.attacked[index(side)].bits());
            BOOST_TEST((light.holes | dark.holes).bits() == holes_walked(position, side).bits());
            BOOST_TEST((light.bishops | dark.bishops).bits() == position.men(side, Kind::bishop).bits());
            holes += static_cast<std::size_t>((light.holes & ~rank_squares(1) & ~rank_squares(6)).count());
            for (const Complex complex : all_complexes) {
                const ComplexSide& one = complexes.of(side, complex);
                const Complex opposite = complex == Complex::light ? Complex::dark : Complex::light;
                // Either mirror exchanges the colours of the squares.
                const ComplexSide& left_right = sideways.of(side, opposite);
                const ComplexSide& up_down = turned_round.of(other(side), opposite);
                for (const auto set : {&ComplexSide::held, &ComplexSide::attacked, &ComplexSide::holes,
                                       &ComplexSide::bishops, &ComplexSide::pawns, &ComplexSide::fixed_pawns,
                                       &ComplexSide::pawns_off, &ComplexSide::fixed_pawns_off}) {
                    BOOST_TEST((left_right.*set).bits() == test::mapped(one.*set, test::left_right).bits());
                    BOOST_TEST((up_down.*set).bits() == test::mapped(one.*set, test::up_down).bits());
                }
                BOOST_TEST((one.pawns | one.pawns_off).bits() == position.men(side, Kind::pawn).bits());
                fixed += static_cast<std::size_t>(one.fixed_pawns.count());
            }
        }
    }
    BOOST_TEST(holes > 100U);
    BOOST_TEST(fixed > 100U);
}

BOOST_AUTO_TEST_SUITE_END()
