// Themes hanging, poisoned, loose; guard duties, overloaded and tied men; pairs that hold each other. The facts come
// from our own worked positions (tests/python/data/worked-positions.jsonl), whose names the cases bear.
#include <boost/test/unit_test.hpp>

#include <keysquare/features/findings.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

namespace {

using namespace keysquare;

Findings found_in(std::string_view fen) { return findings(read_fen(fen).value()); }

/// The first finding of the theme whose main piece stands on `square`; null when there is none.
const Finding* find(const Findings& found, Theme theme, Square square) {
    for (const Finding& finding : found)
        if (finding.theme == theme && !finding.pieces.empty() && finding.pieces.front().square == square)
            return &finding;
    return nullptr;
}

const Finding* find_pair(const Findings& found, Theme theme, Squares pair) {
    for (const Finding& finding : found)
        if (finding.theme == theme && finding.pieces.size() == 2 &&
            (Squares{finding.pieces[0].square} | Squares{finding.pieces[1].square}) == pair)
            return &finding;
    return nullptr;
}

void check_hanging(std::string_view fen, Square square, int gain, Detail detail, std::string_view first) {
    const Findings found = found_in(fen);
    const Finding* hanging = find(found, Theme::hanging, square);
    BOOST_REQUIRE_MESSAGE(hanging, fen);
    BOOST_TEST(hanging->gain == gain);
    BOOST_TEST(name(hanging->detail) == name(detail));
    BOOST_TEST(coordinate(hanging->line.front()) == first);
    BOOST_TEST(!hanging->after_pass);
}

} // namespace

BOOST_AUTO_TEST_SUITE(piece_safety)

BOOST_AUTO_TEST_CASE(a01_without_a_guard) {
    check_hanging("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1", Square::d6, 3, Detail::unguarded, "d1d6");
}
BOOST_AUTO_TEST_CASE(a03_attacked_more_often) {
    check_hanging("r2r2k1/pp2qppp/1bn2n2/8/3N4/4B3/PPQ1BPPP/R3R1K1 b - - 0 1", Square::d4, 3, Detail::outnumbered,
                  "c6d4");
}
BOOST_AUTO_TEST_CASE(a05_the_guard_is_pinned) {
    check_hanging("r2q1rk1/pp1nbpp1/2pp1nbp/8/3P1N2/1BN4P/PPP2PP1/R1BQ1RK1 w - - 0 1", Square::g6, 3,
                  Detail::guard_pinned, "f4g6");
}
BOOST_AUTO_TEST_CASE(a07_in_passing) {
    check_hanging("r1b2rk1/pp3ppp/2n1pn2/2Pp3q/3P4/P1N2NB1/1P3PPP/R1Q1R1K1 w - d6 0 1", Square::d5, 1,
                  Detail::en_passant, "c5d6");
}
BOOST_AUTO_TEST_CASE(a09_the_queen_behind_the_rook_counts) {
    check_hanging("r4rk1/2q2ppp/p2b4/1p1pn3/8/2P2N1P/PP2RPP1/R2BQ1K1 w - - 0 1", Square::e5, 3, Detail::outnumbered,
                  "f3e5");
}
BOOST_AUTO_TEST_CASE(a10_a_pinned_attacker_takes_nothing) {
    const Findings found = found_in("r1b2rk1/ppp1qppp/2n1p3/8/1bBPn3/2N1PN2/PP3PPP/R1BQK2R w KQ - 0 1");
    BOOST_TEST(!find(found, Theme::hanging, Square::e4));
}
BOOST_AUTO_TEST_CASE(a12_the_second_rook_guards_through_the_first) {
    const Findings found = found_in("2rr2k1/pp2bp1p/2n3p1/8/3N4/5B2/PP1R1PPP/3R2K1 b - - 0 1");
    BOOST_TEST(!find(found, Theme::hanging, Square::d4));
}

BOOST_AUTO_TEST_CASE(a_poisoned_pawn) {
    // The rook that takes on b2 leaves the back rank: 1...Rxb2 2.Rd8#.
    const Findings found = found_in("1r4k1/5ppp/8/8/8/8/1P3PPP/3R2K1 b - - 0 1");
    BOOST_TEST(!find(found, Theme::hanging, Square::b2));
    const Finding* poisoned = find(found, Theme::poisoned, Square::b2);
    BOOST_REQUIRE(poisoned);
    BOOST_TEST(poisoned->mated);
    BOOST_TEST((poisoned->side == Side::black));
    BOOST_TEST(coordinate(poisoned->line.back()) == "d1d8");
}

BOOST_AUTO_TEST_CASE(what_hangs_after_a_pass_is_marked) {
    const Findings found = found_in("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 b - - 0 1");
    const Finding* hanging = find(found, Theme::hanging, Square::d6);
    BOOST_REQUIRE(hanging);
    BOOST_TEST(hanging->after_pass);
}

BOOST_AUTO_TEST_CASE(in_check_nothing_is_claimed_for_the_waiter) {
    // White is in check; Black's rook could otherwise take on a2.
    const Findings found = found_in("r5k1/8/8/8/4r3/8/N7/4K3 w - - 0 1");
    BOOST_TEST(!found.empty());
    for (const Finding& finding : found) BOOST_TEST(!finding.after_pass);
    BOOST_TEST(!find(found, Theme::hanging, Square::a2));
}

BOOST_AUTO_TEST_CASE(loose_pieces_at_home_and_in_play) {
    const Findings found = found_in("4k3/8/8/3n4/8/8/8/R3K3 w - - 0 1");
    const Finding* knight = find(found, Theme::loose, Square::d5);
    BOOST_REQUIRE(knight);
    BOOST_TEST((knight->side == Side::white));
    BOOST_TEST((knight->detail == Detail::in_play));
    BOOST_TEST(!find(found, Theme::loose, Square::e1));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(duties)

BOOST_AUTO_TEST_CASE(b01_man_and_mate_square) {
    const Findings found = found_in("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1");
    const Finding* overloaded = find(found, Theme::overloaded, Square::d8);
    BOOST_REQUIRE(overloaded);
    BOOST_TEST(overloaded->gain == 3);
    BOOST_TEST((overloaded->squares == Squares{Square::d5, Square::e8}));
    BOOST_TEST(coordinate(overloaded->line.front()) == "d1d5");
    BOOST_TEST(coordinate(overloaded->point.back()) == "e1e8");
}
BOOST_AUTO_TEST_CASE(b03_even_the_queen_may_be_offered) {
    const Findings found = found_in("4rbk1/p4pp1/1pq2n1p/8/1PN5/P4B2/1Q3PPP/2R3K1 b - - 0 1");
    const Finding* overloaded = find(found, Theme::overloaded, Square::c1);
    BOOST_REQUIRE(overloaded);
    BOOST_TEST(overloaded->gain == 3);
    BOOST_TEST(coordinate(overloaded->line.front()) == "c6c4");
}
BOOST_AUTO_TEST_CASE(b05_bishop_guards_knight_and_mate) {
    const Findings found = found_in("r3rbk1/pp3ppp/1qpn4/8/6Q1/1P3N2/PBP2PPP/3RR1K1 w - - 0 1");
    BOOST_REQUIRE(find(found, Theme::overloaded, Square::f8));
}
BOOST_AUTO_TEST_CASE(b07_b09_two_duties_are_not_enough) {
    for (const auto& [fen, guard] :
         {std::pair{"r4rk1/ppq2ppp/4pn2/3n1b2/3N4/5B2/PPP1NPPP/R1Q1R1K1 w - - 0 1", Square::e6},
          std::pair{"r4rk1/p4ppp/2pq4/1pb1n3/8/1N4B1/PPP2PPP/RQ3RK1 w - - 0 1", Square::d6}})
        BOOST_TEST(!find(found_in(fen), Theme::overloaded, guard));
}

BOOST_AUTO_TEST_CASE(the_guard_of_a_promotion_square) {
    // The rook on a8 alone stops the pawn.
    const Findings found = found_in("r5k1/1P6/8/8/8/8/6PP/6K1 w - - 0 1");
    const auto duty = std::ranges::find_if(found, [](const Finding& finding) {
        return finding.theme == Theme::guard_duty && finding.detail == Detail::stops_promotion;
    });
    BOOST_REQUIRE((duty != found.end()));
    BOOST_TEST((duty->removed == Square::a8));
    BOOST_TEST((duty->squares == Squares{Square::b8}));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(pairs)

BOOST_AUTO_TEST_CASE(c01_c03_locked_knights) {
    for (const auto& [fen, pair] :
         {std::pair{"3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1", Squares{Square::d4, Square::e2}},
          std::pair{"3r1rk1/p2q1ppp/1pnNp1b1/8/4N3/P1P3P1/1P3P1P/R1Q2RK1 w - - 0 1",
                    Squares{Square::d6, Square::e4}}}) {
        const Findings found = found_in(fen);
        const Finding* locked = find_pair(found, Theme::mutual_guards, pair);
        BOOST_REQUIRE(locked);
        BOOST_TEST((locked->detail == Detail::locked));
        BOOST_TEST(locked->number(Measure::moves) == 11);
        BOOST_TEST(locked->number(Measure::safe_moves) == 0);
        BOOST_TEST(locked->gain < 0);
    }
}
BOOST_AUTO_TEST_CASE(c05_locked_rooks) {
    const Findings found = found_in("8/1pr1rppk/p2Q2bp/8/6B1/7P/q4PPK/3R1R2 b - - 0 1");
    const Finding* locked = find_pair(found, Theme::mutual_guards, Squares{Square::c7, Square::e7});
    BOOST_REQUIRE(locked);
    BOOST_TEST((locked->detail == Detail::locked));
    BOOST_TEST((locked->side == Side::black));
}
BOOST_AUTO_TEST_CASE(c07_guard_and_shield) {
    const Findings found = found_in("r3r1k1/1q1nppbp/p5p1/1pp5/5Q2/1PN3P1/PBP1PP1P/R2R2K1 w - - 0 1");
    const Finding* pair = find_pair(found, Theme::shield_pair, Squares{Square::b2, Square::c3});
    BOOST_REQUIRE(pair);
    BOOST_TEST((pair->detail == Detail::locked));
    BOOST_TEST((pair->pieces.front().square == Square::b2)); // the guard first
    BOOST_TEST(!find_pair(found, Theme::mutual_guards, Squares{Square::b2, Square::c3}));
}
BOOST_AUTO_TEST_CASE(c08_a_rook_that_moves_and_still_guards) {
    const Findings found = found_in("2r1rbk1/5ppp/8/4p3/4P2Q/3R2P1/2q2PBP/3R2K1 w - - 0 1");
    const Finding* pair = find_pair(found, Theme::mutual_guards, Squares{Square::d1, Square::d3});
    BOOST_REQUIRE(pair);
    BOOST_TEST((pair->detail == Detail::pressured));
    BOOST_TEST(pair->number(Measure::safe_moves) == 4);
    BOOST_TEST((pair->squares == Squares{Square::d2, Square::d5, Square::d7}));
}
BOOST_AUTO_TEST_CASE(c10_pawns_side_by_side_guard_nothing) {
    const Findings found = found_in("r1bq1rk1/pp2bppp/2n2n2/2pp4/8/2N1PN2/PP2BPPP/R1BQ1RK1 b - - 0 1");
    BOOST_TEST(!find_pair(found, Theme::mutual_guards, Squares{Square::c5, Square::d5}));
}

BOOST_AUTO_TEST_SUITE_END()
