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
