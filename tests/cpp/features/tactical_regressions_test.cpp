// What once was claimed wrongly about tactics, found by the independent verifier (tests/python/truth).
#include <keysquare/features/findings.hpp>

#include <boost/test/unit_test.hpp>

#include "theme_helpers.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position position_of(std::string_view text) { return read_fen(text).value(); }

std::vector<Finding> claims(std::string_view text, Theme theme, Side side) {
    return test::of_theme(findings(position_of(text)), theme, side);
}

} // namespace

BOOST_AUTO_TEST_SUITE(tactical_regressions)

BOOST_AUTO_TEST_CASE(a_win_stays_where_it_is) {
    // Nearly every move mates by force, so that many answers are kept while the first ones are still looked at.
    const Position position = position_of("7k/8/8/8/8/8/2QQ4/K2QQ3 w - - 0 1");
    const BoardView view{position};
    const WinningMoves& winning = view.winning(Side::white);
    std::vector<const Outcome*> wins;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) wins.push_back(winning.win(at, {}));
    std::size_t won = 0;
    for (std::size_t at = 0; at < wins.size(); ++at) {
        BOOST_TEST((winning.win(at, {}) == wins[at]));
        if (!wins[at]) continue;
        ++won;
        BOOST_TEST((wins[at]->line.front() == winning.moves()[at]));
    }
    BOOST_TEST(won > 24U);
}

BOOST_AUTO_TEST_CASE(lines_of_the_longest_searches_fit) {
    // Checks fill the whole bound here, and themes put moves before what a search found.
    const Position position =
        read_fen("Rr5b/Pkpb4/qn6/3P1NPN/4nK1Q/B2b1nP1/3Bbbr1/1Q4n1 w - - 0 1", Strictness::lenient).value();
    Options options;
    options.bound = {31, 31, 6000};
    const Findings found = findings(position, options);
    BOOST_TEST(!found.empty());
}

BOOST_AUTO_TEST_CASE(many_winning_moves) {
    // Many moves of the knight check and win something, 5 at most.
    const std::string_view knight = "5b2/2k5/1p3Bp1/1pp2P2/3P2P1/P1r2nK1/3N1Q2/Rr6 b - - 1 56";
    const auto discovered = claims(knight, Theme::discovered_attack, Side::black);
    BOOST_REQUIRE(discovered.size() == 1U);
    BOOST_TEST(discovered[0].gain == 5);
    // Every intermediate move has its line.
    for (const Side side : all_sides)
        for (const Finding& finding :
             claims("rn2k1Br/8/3bq1p1/4pb2/5pPP/p3pK2/4PR2/1q4R1 w kq - 0 37", Theme::intermediate_move, side))
            BOOST_TEST(finding.line.size() > 2U);
}

BOOST_AUTO_TEST_CASE(a_king_threatens_only_what_nobody_guards) {
    // On e5 the king attacks the guarded pawn f5 and the guarded knight e6.
    BOOST_TEST(claims("8/8/3kN3/5P2/6P1/8/8/6K1 b - - 0 1", Theme::fork, Side::black).empty());
    // Nobody guards these two.
    const auto found = claims("8/8/1K6/1p1p4/8/8/8/7k w - - 0 1", Theme::fork, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].squares.bits() == (Squares{b5, d5} | (found[0].squares & Squares{c5, c6})).bits());
}

BOOST_AUTO_TEST_CASE(a_discovery_with_check) {
    // The queen takes with check while it uncovers the rook: a check comes before a capture, as it does for forks.
    const auto found =
        claims("4rnk1/pp6/2p1q1p1/3p4/3P2Q1/2PBPR2/PP4K1/8 w - - 5 40", Theme::discovered_attack, Side::black);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((found[0].detail == Detail::with_check));
    BOOST_TEST((found[0].line.front() == Move{e6, g4}));
}

BOOST_AUTO_TEST_CASE(the_best_double_attack) {
    // Both ... Ba4 and ... Bf5 attack the queen and threaten mate; the latter wins more.
    const auto found =
        claims("7k/2pb4/pp1b3p/3p2p1/1P1P1q2/P7/2Q1BrPP/2RN3K w - - 4 33", Theme::double_attack, Side::black);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((found[0].line.front() == Move{d7, f5}));
    BOOST_TEST(found[0].gain == 6);
}

BOOST_AUTO_TEST_CASE(every_mate_in_one_counts_on_the_back_rank) {
    // Qg7 and Qh8 mate, and the second one along the rank.
    const auto found = claims("6k1/5p1p/2P3p1/8/3Q2K1/3p2P1/PB2r1qP/2R5 b - - 3 35", Theme::back_rank, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].mate);
    BOOST_TEST((found[0].line.front() == Move{d4, h8}));
}

BOOST_AUTO_TEST_CASE(what_a_move_takes_it_does_not_pin) {
    // The queen takes on f3, before her rook: no pawn is pinned there any more, and she pins nobody.
    for (const Finding& pin : claims("5rk1/pp5p/3p1qB1/3P4/6n1/5P1n/PPQ5/R4K2 w - - 1 30", Theme::pin, Side::black))
        BOOST_TEST((pin.detail != Detail::absolute_next));
}

BOOST_AUTO_TEST_CASE(what_a_move_takes_guards_nothing) {
    // White's queen takes the one that guarded f7 and opens the file: the rook skewers f6 and f7, which nobody guards.
    const auto found = claims("r5rk/1bq2p1p/p3pp2/1pp5/5Q2/PPNP2PP/1P4P1/R4RK1 b - - 2 20", Theme::skewer, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].gain == 10);
    BOOST_TEST((found[0].line.front() == Move{f4, c7}));
}

BOOST_AUTO_TEST_CASE(no_move_no_loss) {
    // Black has no legal move, so it loses nothing "whatever it plays", and White wins with what wins.
    const Position position = position_of("k7/P7/1K6/8/8/8/8/8 b - - 0 1");
    BOOST_TEST((JudgedMoves{position, Options{}}.best()) == 0);
}

BOOST_AUTO_TEST_CASE(the_man_that_is_taken_later_has_not_moved) {
    const Line stands{{a1, a7}, {h8, g8}, {b2, e5}};
    const Line moved{{a1, a7}, {e5, e4}, {b2, e5}};
    BOOST_TEST((detail::later_takes_on(stands, Squares{e5}) == e5));
    BOOST_TEST((detail::later_takes_on(moved, Squares{e5}) == none));
    BOOST_TEST((detail::later_takes_on(stands, Squares{a7}) == none)); // the first move does not count
}

BOOST_AUTO_TEST_CASE(a_pawn_that_is_taken_promotes_no_more) {
    Square arrival = none;
    const Line runs{{g6, g7}, {f7, e7}, {g7, g8, MoveType::promote_queen}};
    BOOST_TEST(detail::moves_to_promotion(runs, arrival) == 2);
    BOOST_TEST((arrival == g8));
    // The king takes the pawn on g7, another one takes it back and promotes.
    const Line taken{{g6, g7}, {g8, g7}, {h6, g7}, {f7, e7}, {g7, g8, MoveType::promote_queen}};
    BOOST_TEST(detail::moves_to_promotion(taken, arrival) == 0);
}

BOOST_AUTO_TEST_SUITE_END()
