// Sentences: one for every finding, and only what the finding holds.
#include <boost/test/unit_test.hpp>

#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/fen.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

std::string first_sentence(std::string_view fen, Theme theme) {
    const Position position = read_fen(fen).value();
    for (const Finding& finding : findings(position))
        if (finding.theme == theme) return sentence(position, finding);
    return {};
}

} // namespace

BOOST_AUTO_TEST_SUITE(explanations)

BOOST_AUTO_TEST_CASE(say_what_a_teacher_would_say) {
    BOOST_TEST(first_sentence("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1", Theme::hanging) ==
               "White can win material worth 3 pawns with Rxd6: the knight on d6 has no guard.");
    BOOST_TEST(first_sentence("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 b - - 0 1", Theme::hanging) ==
               "White threatens to win material worth 3 pawns with Rxd6: the knight on d6 has no guard.");
    BOOST_TEST(
        first_sentence("3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1", Theme::mutual_guards) ==
        "The knights on e2 and d4 are locked: each needs the other, and every one of their moves loses something; "
        "the least bad one, Nc1, loses material worth 3 pawns (1...Rxd4).");
    BOOST_TEST(
        first_sentence("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1", Theme::overloaded) ==
        "The rook on d8 is overloaded (d5 and e8): Rxd5 wins material worth 3 pawns, for if it takes there, it fails "
        "its other duty: 1.Rxd5 Rxd5 2.Re8#.");
}

BOOST_AUTO_TEST_CASE(speak_of_squares_and_pieces) {
    const std::string_view hole = "4k3/pp3ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1";
    BOOST_TEST(first_sentence(hole, Theme::hole) == "Black has one hole where a minor piece of White can settle (d5).");
    BOOST_TEST(first_sentence(hole, Theme::outpost) == "The knight on c3 can be on an outpost (d5) in one move.");
    BOOST_TEST(first_sentence("4k3/pp3ppp/3p4/3N4/4P3/8/5PPP/4K3 w - - 0 1", Theme::outpost) ==
               "The knight on d5 holds an outpost: a pawn guards it, and no enemy pawn can drive it off.");
    const std::string_view opening = "rnbqkbnr/ppp2ppp/3pp3/8/2PPP3/5N2/PP3PPP/RNBQKB1R b KQkq - 0 4";
    BOOST_TEST(first_sentence(opening, Theme::space) ==
               "White has more space: 11 squares of room behind the pawns against 6.");
    BOOST_TEST(first_sentence(opening, Theme::undeveloped) ==
               "Black is behind in development, with 4 minor pieces at home (b8, c8, f8 and g8).");
    const std::string_view french = "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1";
    BOOST_TEST(first_sentence(french, Theme::bad_bishop) ==
               "The bishop on c8 is a bad bishop: 3 own pawns fixed on its colour (d5, e6 and f7).");
    BOOST_TEST(first_sentence(french, Theme::good_bishop) ==
               "The bishop on d3 is a good bishop: 2 own pawns fixed on the other colour (d4 and e5).");
    BOOST_TEST(first_sentence("4k3/p7/8/Np1p4/8/1P6/2P5/4K3 w - - 0 1", Theme::rim_knight) ==
               "The knight on a5 stands on the rim, with 2 squares of scope.");
    BOOST_TEST(first_sentence("4k3/8/8/8/4P3/3P4/P1P5/1B2K2R w - - 0 1", Theme::passive_piece) ==
               "The bishop on b1 is passive: no square of scope, where 4 are usual.");
    BOOST_TEST(first_sentence("r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1", Theme::guarding_only) ==
               "The rook on a1 only guards (a2): it attacks no enemy man and no square of the enemy half.");
}

BOOST_AUTO_TEST_CASE(every_finding_has_its_sentence) {
    for (const Position& position : test::random_positions(300, 53))
        for (const Finding& finding : findings(position)) {
            const std::string text = sentence(position, finding);
            BOOST_REQUIRE_MESSAGE(text.size() > 10 && text.back() == '.', name(finding.theme) << ": " << text);
            BOOST_TEST(text.find_first_of("{}") == std::string::npos, text);
            BOOST_TEST(text.find("  ") == std::string::npos, text);
            BOOST_TEST((text.front() >= 'A' && text.front() <= 'Z'), text);
        }
}

BOOST_AUTO_TEST_CASE(lines_carry_move_numbers) {
    const Position position = read_fen("3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 b - - 0 12").value();
    const Outcome outcome = exchange(position, Square::d4);
    BOOST_TEST(outcome.line.empty());
    const Line line{Move{Square::d8, Square::d4}, Move{Square::e2, Square::d4}};
    BOOST_TEST(line_text(position, line) == "12...Rxd4 13.Nxd4");
}

BOOST_AUTO_TEST_SUITE_END()
