// Bishops, rim knights, undeveloped and passive pieces, and pieces that only guard: rule by rule, and the mirrors.
#include <keysquare/features/piece_themes.hpp>

#include <boost/test/unit_test.hpp>

#include "theme_helpers.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position position_of(std::string_view text) { return read_fen(text).value(); }

Findings themes_of(const Position& position) {
    Findings found;
    const BoardView view{position};
    find_piece_themes(view, found);
    return found;
}

std::vector<Finding> themes_of(std::string_view text, Theme theme, Side side) {
    return test::of_theme(themes_of(position_of(text)), theme, side);
}

Square main_man(const std::vector<Finding>& found) {
    return found.empty() || found.front().pieces.empty() ? Square::none : found.front().pieces.front().square;
}

} // namespace

BOOST_AUTO_TEST_SUITE(piece_themes)

BOOST_AUTO_TEST_CASE(bad_bishops) {
    // The French bishop: d5 and e6 are blocked, and all black pawns but three stand on light squares.
    const std::string_view french = "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1";
    const auto found = themes_of(french, Theme::bad_bishop, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((main_man(found) == c8));
    BOOST_TEST((found[0].squares & Squares{d5, e6}).bits() == (Squares{d5, e6}).bits());
    BOOST_TEST(found[0].number(Measure::fixed_pawns) == found[0].squares.count());
    BOOST_TEST(found[0].number(Measure::pawns_on_colour) == 6); // d5, e6, g6, b7, f7 and h7
    BOOST_TEST(found[0].number(Measure::scope) == 1);           // d7 alone
    BOOST_TEST(found[0].pieces.size() == 1U + static_cast<std::size_t>(found[0].squares.count()));
    // The bishop before its pawns is not bad: it sees enough of White's half.
    BOOST_TEST(
        themes_of("r3k3/pp3p1p/4p1p1/3pPb2/3P4/8/PP3PPP/R3K3 w - - 0 1", Theme::bad_bishop, Side::white).empty());
    // Pawns that can move freely make no bishop bad.
    BOOST_TEST(themes_of("r1b1k3/pp3p1p/4p1p1/3p4/8/8/PP3PPP/R3K3 w - - 0 1", Theme::bad_bishop, Side::white).empty());
    // The other colour.
    BOOST_TEST(
        themes_of("r3kb2/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1", Theme::bad_bishop, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(good_bishops) {
    // White's pawns on d4 and e5 are blocked on dark squares, the bishop is light and has room.
    const std::string_view french = "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1";
    const auto found = themes_of(french, Theme::good_bishop, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((main_man(found) == d3));
    BOOST_TEST((found[0].squares & Squares{d4, e5}).bits() == (Squares{d4, e5}).bits());
    BOOST_TEST((found[0].squares & light_squares).empty());
    BOOST_TEST(found[0].number(Measure::pawns_on_colour) == 2); // a2 and g2
    // Shut in, it is not good.
    BOOST_TEST(
        themes_of("r1b1k3/pp3p1p/4p1p1/3pP3/3P4/8/PP2PPPP/R3KB2 w - - 0 1", Theme::good_bishop, Side::white).empty());
    BOOST_TEST(themes_of(french, Theme::good_bishop, Side::black).empty());
}

BOOST_AUTO_TEST_CASE(rim_knights) {
    // All four squares are free: b3, c4, c6 and b7.
    BOOST_TEST(themes_of("4k3/8/8/N1p5/3p4/P7/1PP5/4K3 w - - 0 1", Theme::rim_knight, Side::black).empty());
    // b3 is taken by an own pawn, c4 denied by a pawn of the other side.
    const auto narrow = themes_of("4k3/p7/8/Np1p4/8/1P6/2P5/4K3 w - - 0 1", Theme::rim_knight, Side::black);
    BOOST_REQUIRE(narrow.size() == 1U);
    BOOST_TEST((main_man(narrow) == a5));
    BOOST_TEST(narrow[0].squares.bits() == (Squares{b7, c6}).bits());
    BOOST_TEST(narrow[0].number(Measure::scope) == 2);
    BOOST_TEST(narrow[0].number(Measure::usual_scope) == 4);
    // Not on the rim; and in a corner.
    BOOST_TEST(themes_of("4k3/p7/8/1pNp4/8/1P6/2P5/4K3 w - - 0 1", Theme::rim_knight, Side::black).empty());
    BOOST_TEST(!themes_of("n3k3/8/8/8/8/8/8/4K3 w - - 0 1", Theme::rim_knight, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(behind_in_development) {
    BOOST_TEST(themes_of(start_position()).empty());
    BOOST_TEST(undeveloped_of(start_position(), Side::black).bits() == (Squares{b8, c8, f8, g8}).bits());
    const std::string_view ahead = "rnbqkbnr/ppp2ppp/3p4/4p3/2B1P3/2N2N2/PPPP1PPP/R1BQK2R b KQkq - 0 4";
    const auto found = themes_of(ahead, Theme::undeveloped, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].squares.bits() == (Squares{b8, c8, f8, g8}).bits());
    BOOST_TEST(found[0].pieces.size() == 4U);
    BOOST_TEST(found[0].number(Measure::pieces) == 4);
    BOOST_TEST(themes_of(ahead, Theme::undeveloped, Side::black).empty());
    // A bishop on f1 beside a castled king has been out; one beside an uncastled king counts.
    BOOST_TEST(undeveloped_of(position_of("r1bqk2r/8/8/8/8/8/8/R1BQ1BK1 w - - 0 1"), Side::white).bits() ==
               Squares{c1}.bits());
    BOOST_TEST(undeveloped_of(position_of("r1bqk2r/8/8/8/8/8/8/R1BQKB1R w - - 0 1"), Side::white).bits() ==
               (Squares{c1, f1}).bits());
    BOOST_TEST(undeveloped_of(position_of("1kbqr1r1/8/8/8/8/8/8/R1BQKB1R w - - 0 1"), Side::black).empty());
    // A rook on b1 and a bishop on g1 are not at home; in an endgame nothing is.
    BOOST_TEST(undeveloped_of(position_of("r1bqk2r/8/8/8/8/8/8/RR2K1BR w - - 0 1"), Side::white).empty());
    BOOST_TEST(undeveloped_of(position_of("4k2r/8/8/8/8/8/8/RNB1K3 w - - 0 1"), Side::white).empty());
    BOOST_TEST(!undeveloped_of(position_of("4k1rr/8/8/8/8/8/8/RNB1K3 w - - 0 1"), Side::white).empty());
}

BOOST_AUTO_TEST_CASE(scopes) {
    BOOST_TEST(scope_of(start_position(), b1).bits() == (Squares{a3, c3}).bits());
    BOOST_TEST(scope_of(start_position(), a1).empty());
    // a2 holds an own pawn, d5 is denied by e6; the pawn on e4 can be taken.
    BOOST_TEST(scope_of(position_of("4k3/p7/4p3/8/4p3/2N5/P7/4K3 w - - 0 1"), c3).bits() ==
               (Squares{b1, d1, e2, a4, b5, e4}).bits());
    BOOST_TEST(scope_of(position_of("4k3/8/1p6/8/2p5/8/3R2P1/4K3 w - - 0 1"), d2).bits() ==
               ((file_squares(3) | rank_squares(1)) & ~Squares{d2, g2, h2, d3}).bits());
}

BOOST_AUTO_TEST_CASE(passive_pieces) {
    BOOST_TEST((passive_piece_of(start_position(), Side::white) == Square::none));
    // The bishop on b1 has no square: a2 and c2 hold own pawns.
    const std::string_view buried = "4k3/8/8/8/4P3/3P4/P1P5/1B2K2R w - - 0 1";
    const auto found = themes_of(buried, Theme::passive_piece, Side::black);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((main_man(found) == b1));
    BOOST_TEST(found[0].squares.empty());
    BOOST_TEST(found[0].number(Measure::scope) == 0);
    BOOST_TEST(found[0].number(Measure::usual_scope) == 4);
    BOOST_TEST(themes_of(buried, Theme::passive_piece, Side::white).empty());
    // Half of the usual is not less than half.
    BOOST_TEST(is_passive(Kind::knight, 1));
    BOOST_TEST(!is_passive(Kind::knight, 2));
    BOOST_TEST(is_passive(Kind::rook, 2));
    BOOST_TEST(!is_passive(Kind::rook, 3));
    BOOST_TEST(is_passive(Kind::queen, 4));
    BOOST_TEST(!is_passive(Kind::queen, 5));
    BOOST_TEST(!is_passive(Kind::king, 0));
    // Of a rook and a bishop without any scope the rook counts; of two such rooks neither.
    BOOST_TEST((passive_piece_of(position_of("4k3/8/8/8/8/1P6/PBP5/RN2K3 w - - 0 1"), Side::white) == a1));
    BOOST_TEST((passive_piece_of(position_of("4k3/8/8/8/8/8/PP4PP/RN2K1NR w - - 0 1"), Side::white) == Square::none));
    // With two pieces undeveloped everything waits; with one it does not.
    const std::string_view waiting = "r2qk2r/pppbbppp/2np1n2/4p3/4P3/2N2N2/PPPP1PPP/R1BQKB1R w - - 0 1";
    BOOST_TEST((passive_piece_of(position_of(waiting), Side::white) == Square::none));
    const std::string_view one_left = "r2qk2r/pppbbppp/2np1n2/4p3/2B1P3/2N2N2/PPPP1PPP/R1BQKR2 w - - 0 1";
    BOOST_TEST((passive_piece_of(position_of(one_left), Side::white) == c1));
}

BOOST_AUTO_TEST_CASE(the_passive_piece_is_the_one_with_the_smallest_share) {
    int passive = 0;
    for (const Position& position : test::random_positions(600, 74))
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                const Square least = passive_piece_of(position, side);
                const Squares pieces = position.men(side) & ~(position.men(Kind::pawn) | position.men(Kind::king));
                const auto share = [&](Square square) {
                    return scope_of(position, square).count() * 180 / usual_scope(position.kind_at(square));
                };
                int smallest = 90;
                for (const Square square : pieces) smallest = (std::min)(smallest, share(square));
                int dearest = 0;
                for (const Square square : pieces)
                    if (share(square) == smallest) dearest = (std::max)(dearest, usual_scope(position.kind_at(square)));
                Squares best;
                for (const Square square : pieces)
                    if (share(square) == smallest && usual_scope(position.kind_at(square)) == dearest)
                        best |= Squares{square};
                const bool is_one = smallest < 90 && best.count() == 1 && !undeveloped_of(position, side).several();
                BOOST_TEST((least == (is_one ? best.first() : Square::none)));
                passive += is_one;
            }
    BOOST_TEST(passive > 100);
}

BOOST_AUTO_TEST_CASE(pieces_that_only_guard) {
    // The rook on a1 guards the pawn on a2 and sees nothing else of Black's.
    const std::string_view guard = "r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1";
    const auto found = themes_of(guard, Theme::guarding_only, Side::black);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((main_man(found) == a1));
    BOOST_TEST(found[0].squares.has(a2));
    BOOST_TEST(found[0].number(Measure::duties) == found[0].squares.count());
    BOOST_REQUIRE(found[0].pieces.size() >= 2U);
    BOOST_TEST((found[0].pieces[1] == Placed{a2, {Side::white, Kind::pawn}}));
    // On a7 the pawn gives the rook a view: it has a duty and looks into Black's half, up to its own pawn.
    BOOST_TEST(themes_of("r5k1/8/8/8/P7/8/6PP/R5K1 w - - 0 1", Theme::guarding_only, Side::black).size() == 1U);
    BOOST_TEST(themes_of("r5k1/P7/8/8/8/8/6PP/R5K1 w - - 0 1", Theme::guarding_only, Side::black).empty());
    // Away from the file it guards nothing.
    BOOST_TEST(themes_of("r5k1/8/8/8/8/8/P5PP/1R4K1 w - - 0 1", Theme::guarding_only, Side::black).empty());
    // Without a duty it guards nothing that would fall.
    BOOST_TEST(themes_of("6k1/6pp/8/8/8/8/P5PP/R5K1 w - - 0 1", Theme::guarding_only, Side::black).empty());
}

BOOST_AUTO_TEST_CASE(are_the_same_in_both_mirrors) {
    std::array<int, 64> seen{};
    for (const Position& position : test::random_positions(500, 75)) BOOST_TEST_CONTEXT(fen(position)) {
            const Findings found = themes_of(position);
            for (const Finding& finding : found) ++seen[static_cast<std::size_t>(finding.theme)];
            BOOST_TEST((test::essence(found, test::left_right, false) ==
                        test::essence(themes_of(test::mirrored(position)), test::unmoved, false)));
            BOOST_TEST((test::essence(found, test::up_down, true) ==
                        test::essence(themes_of(test::flipped(position)), test::unmoved, false)));
        }
    for (const Theme theme : {Theme::good_bishop, Theme::bad_bishop, Theme::rim_knight, Theme::undeveloped,
                              Theme::passive_piece, Theme::guarding_only})
        BOOST_TEST(seen[static_cast<std::size_t>(theme)] > 5, name(theme));
}

BOOST_AUTO_TEST_SUITE_END()
