// Guardian: the worked positions, single pieces off the board against the full recomputation, and the mirrors.
#include <keysquare/features/guardian.hpp>

#include <string_view>
#include <tuple>
#include <vector>

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

} // namespace

BOOST_AUTO_TEST_SUITE(guardian_of_a_complex)

BOOST_AUTO_TEST_CASE(guarding_bishop_of_e05) {
    Findings findings;
    find_guardian(BoardView{position_of(e05)}, findings);
    BOOST_TEST_REQUIRE(findings.size() == 1U);
    const Finding& finding = findings[0];
    BOOST_TEST((finding.theme == Theme::guardian));
    BOOST_TEST((finding.detail == Detail::dark));
    BOOST_TEST((finding.side == Side::black));
    BOOST_TEST((finding.removed == g7));
    BOOST_TEST_REQUIRE(finding.pieces.size() == 1U);
    BOOST_TEST((finding.pieces[0] == Placed{g7, {Side::black, Kind::bishop}}));
    BOOST_TEST(finding.line.empty());
    // The worked position: three dark squares of its half lose their only guard, 14 become 11.
    BOOST_TEST(finding.squares.bits() == (Squares{e5, f6, h6}).bits());
    BOOST_TEST(finding.number(Measure::change) == 3);
    BOOST_TEST(finding.number(Measure::attacked) == 14);
    BOOST_TEST(finding.number(Measure::attacked_without) == 11);
    BOOST_TEST(finding.number(Measure::held) == 9);
    BOOST_TEST(finding.number(Measure::held_without) == 9);
}

BOOST_AUTO_TEST_CASE(guarding_knights) {
    // Where Black lacks the bishop of the colour, its knight keeps what is left.
    for (const auto& [text, knight, detail, squares] : {std::tuple{e01, c6, Detail::dark, Squares{a5, e5, a7}},
                                                        std::tuple{e03, f6, Detail::light, Squares{d5, h5, d7, h7}}})
        BOOST_TEST_CONTEXT(text) {
            Findings findings;
            find_guardian(BoardView{position_of(text)}, findings);
            BOOST_TEST_REQUIRE(findings.size() == 1U);
            BOOST_TEST((findings[0].pieces[0] == Placed{knight, {Side::black, Kind::knight}}));
            BOOST_TEST((findings[0].detail == detail));
            BOOST_TEST(findings[0].squares.bits() == squares.bits());
        }
}

BOOST_AUTO_TEST_CASE(no_guardian) {
    // e06: Black's pawns guard the light squares themselves.
    const Position guarded = position_of(e06);
    Findings findings;
    find_guardian(BoardView{guarded}, findings);
    BOOST_TEST(findings.empty());
    BOOST_TEST(!left_by_pawns(guarded, Side::black, Complex::light));
    // As e05, but the knight on f5 looks at h6 as well, so the bishop alone guards one square less.
    const Position shared = position_of("2r1r1k1/1b3pbp/pq2p1p1/1p1pPn2/2pP1B2/2P1QN2/PP1N1PPP/R3R1K1 w - - 0 1");
    BOOST_TEST(left_by_pawns(shared, Side::black, Complex::dark));
    BOOST_TEST(!guardian(shared, Side::black, Complex::dark).has_value());
    // As e05, with the white king in check from a pawn: of such a moment nothing is said.
    const Position check = position_of("2r1r1k1/1b2npbp/1q2p1p1/1p1pP3/2pP1B2/2P1QN2/PP1N1pPP/R3R1K1 w - - 0 1");
    BOOST_TEST(in_check(check));
    BOOST_TEST(!guardian(check, Side::black, Complex::dark).has_value());
    BOOST_TEST(guardian(without(check, f2), Side::black, Complex::dark).has_value());
    find_guardian(BoardView{check}, findings);
    BOOST_TEST(findings.empty());
}

BOOST_AUTO_TEST_CASE(the_exchange_of_a_given_piece) {
    // Worked positions e01, e03, e05: the dark or light squares attacked before and after the bishop is gone.
    struct Case {
        std::string_view text;
        Square bishop;
        std::array<int, 2> before;
        std::array<int, 2> after;
        std::array<int, 2> after_in_black_half;
    };
    for (const Case& one : {Case{e01, c5, {26, 13}, {22, 13}, {6, 11}}, Case{e03, f5, {25, 13}, {21, 13}, {6, 11}},
                            Case{e05, g7, {21, 15}, {21, 12}, {6, 11}}, Case{e06, d3, {21, 18}, {18, 18}, {3, 15}}})
        BOOST_TEST_CONTEXT(one.text) {
            const Position position = position_of(one.text);
            const auto change = grasp_without(position, Squares{one.bishop});
            BOOST_TEST_REQUIRE(change.has_value());
            const Squares colour = colour_of(one.bishop);
            for (const Side side : all_sides) {
                const std::size_t at = index(side);
                BOOST_TEST((change->before.attacked[at] & colour).count() == one.before[at]);
                BOOST_TEST((change->after.attacked[at] & colour).count() == one.after[at]);
                BOOST_TEST((change->after.attacked[at] & colour & half_of(Side::black)).count() ==
                           one.after_in_black_half[at]);
            }
        }
    // Both bishops of an exchange leave.
    const Position position = position_of(e05);
    const auto both = grasp_without(position, Squares{f4, g7});
    BOOST_TEST_REQUIRE(both.has_value());
    const SquareControl left = square_control(without(without(position, f4), g7));
    for (const Side side : all_sides) {
        BOOST_TEST(both->after.held[index(side)].bits() == left.held[index(side)].bits());
        BOOST_TEST(both->before.held[index(side)].bits() == square_control(position).held[index(side)].bits());
    }
    // Without the pinned bishop the king would stand in check: nothing is said.
    BOOST_TEST(!grasp_without(position_of("4k3/8/8/2b5/8/8/5B2/6K1 w - - 0 1"), Squares{f2}).has_value());
    BOOST_TEST(!grasp_without(position_of("4k3/8/8/2b5/8/8/5B2/6K1 b - - 0 1"), Squares{f2}).has_value());
}

BOOST_AUTO_TEST_CASE(slipped_squares) {
    Grasp before;
    Grasp after;
    before.held[0] = Squares{a1, b1};
    before.attacked[0] = Squares{a1, b1, c1, d1};
    after.held[0] = Squares{b1, e1};
    after.attacked[0] = Squares{a1, b1, c1, e1};
    BOOST_TEST(slipped(before, after, Side::white).bits() == (Squares{a1, d1}).bits());
    BOOST_TEST(slipped(before, after, Side::black).bits() == 0U);
}

BOOST_AUTO_TEST_CASE(absences_equal_the_full_recomputation) {
    std::size_t asked = 0;
    std::size_t not_asked = 0;
    std::vector<Position> positions = test::random_positions(400, 11);
    for (const std::string_view text : {e01, e03, e05, e06}) positions.push_back(position_of(text));
    for (const Position& position : positions) BOOST_TEST_CONTEXT(fen(position)) {
            const PieceAbsences absences = piece_absences(position);
            const Squares pieces = position.occupied() & ~position.men(Kind::pawn) & ~position.men(Kind::king);
            BOOST_TEST(static_cast<int>(absences.pieces.size()) == pieces.count());
            for (const Absence& absence : absences.pieces) {
                const auto full = grasp_without(position, Squares{absence.piece.square});
                BOOST_TEST((absence.piece.piece == position.piece_at(absence.piece.square)));
                BOOST_TEST(absence.asked == full.has_value());
                if (!full) {
                    ++not_asked;
                    BOOST_TEST(absence.lost.empty());
                    continue;
                }
                ++asked;
                BOOST_TEST((absences.now == full->before));
                BOOST_TEST((absence.after == full->after));
                BOOST_TEST(absence.lost.bits() == slipped(full->before, full->after, absence.piece.piece.side).bits());
            }
        }
    BOOST_TEST(asked > 2000U);
    BOOST_TEST(not_asked > 20U);
}

BOOST_AUTO_TEST_CASE(the_rule_and_its_mirrors) {
    std::vector<Position> positions = test::random_positions(1500, 12);
    positions.push_back(position_of(e05));
    std::size_t guardians = 0;
    for (const Position& position : positions)
        for (const Side side : all_sides)
            for (const Complex complex : all_complexes) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                    const Complex opposite = complex == Complex::light ? Complex::dark : Complex::light;
                    const auto found = guardian(position, side, complex);
                    const auto sideways = guardian(test::mirrored(position), side, opposite);
                    const auto turned_round = guardian(test::flipped(position), other(side), opposite);
                    BOOST_TEST(found.has_value() == sideways.has_value());
                    BOOST_TEST(found.has_value() == turned_round.has_value());
                    if (!found) continue;
                    ++guardians;
                    BOOST_TEST((sideways->absence.piece.square == test::left_right(found->absence.piece.square)));
                    BOOST_TEST((turned_round->absence.piece.square == test::up_down(found->absence.piece.square)));
                    BOOST_TEST(sideways->absence.lost.bits() ==
                               test::mapped(found->absence.lost, test::left_right).bits());
                    // The rule again, from the counts of all pieces.
                    BOOST_TEST(left_by_pawns(position, side, complex));
                    const Squares camp = squares_of(complex) & half_of(side);
                    for (const Absence& absence : piece_absences(position).pieces) {
                        if (absence.piece.piece.side != side || !is_minor(absence.piece.piece.kind)) continue;
                        const Squares lost = absence.lost & camp;
                        if (absence.piece == found->absence.piece) {
                            BOOST_TEST(lost.bits() == found->absence.lost.bits());
                            BOOST_TEST(lost.count() >= least_guardian_loss);
                        } else {
                            BOOST_TEST(lost.count() + least_guardian_lead <= found->absence.lost.count());
                        }
                    }
                }
    BOOST_TEST(guardians > 0U);
}

BOOST_AUTO_TEST_SUITE_END()
