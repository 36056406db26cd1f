// game_border: a text that is cut at borders gives the games of the whole, however broken it is.
#include <keysquare/notation/game_border.hpp>
#include <keysquare/notation/pgn.hpp>

#include <random>
#include <set>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

namespace {

std::optional<std::size_t> border_of(std::string_view text) {
    const std::optional<std::uint64_t> border = game_border(std::make_unique<TextSource>(text));
    if (!border) return std::nullopt;
    return static_cast<std::size_t>(*border);
}

/// What a reader says of a game.
struct Told {
    Reading reading = Reading::end;
    std::uint64_t offset = 0;
    std::size_t moves = 0;
    Reason reason = Reason::none;

    friend bool operator==(const Told&, const Told&) = default;
};

std::vector<Told> games_in(std::string_view text, std::uint64_t offset, const PgnOptions& options) {
    PgnReader reader{std::make_unique<TextSource>(text), options};
    std::vector<Told> told;
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
        const bool is_game = reading == Reading::game;
        const bool is_refused = reading == Reading::refused;
        told.push_back({reading, offset + reader.game_offset(), is_game ? game.steps().size() - 1 : 0,
                        is_refused ? reader.error().reason : Reason::none});
    }
    return told;
}

/// Cuts the text at the first border after each of some places and reads the parts apart.
std::vector<Told> games_in_parts(std::string_view text, const std::set<std::size_t>& places,
                                 const PgnOptions& options) {
    std::set<std::size_t> cuts{text.size()};
    for (const std::size_t place : places)
        if (const auto border = border_of(text.substr(place))) cuts.insert(place + *border);
    std::vector<Told> told;
    std::size_t begin = 0;
    for (const std::size_t cut : cuts) {
        const std::vector<Told> part = games_in(text.substr(begin, cut - begin), begin, options);
        told.insert(told.end(), part.begin(), part.end());
        begin = cut;
    }
    return told;
}

/// Everything that may stand in a text of games, whole and broken, and much that may not.
constexpr std::array fragments{
    "[Event \"a\"]\n",
    "[Event \"a\"]\n",
    "[White \"w\"]\n",
    "[Black \"b\"]\n",
    "[Event \"broken\n",
    "[Event]\n",
    "[Variant \"Atomic\"]\n",
    "[FEN \"8/8/8/8 w\"]\n",
    "  [Site \"indented\"]\n",
    "1. e4 * [White \"behind a result\"]\n",
    "{ a comment } [Black \"behind a comment\"]\n",
    "[White\r\"w\"]\n",
    "[Event \"a\"] [Site \"b\"] 1. d4 *\n",
    "\n",
    "\n",
    "\r\n",
    "  \t\n",
    "\x01\n",
    "\xEF\xBB\xBF",
    "% [Event \"escaped\"]\n",
    "%\n",
    "1. e4 e5 2. Nf3 Nc6 *\n",
    "1. e4 e5 1-0\n",
    "1. d4 d5 2. c4 1/2-1/2 {and a comment}\n",
    "1. e4 e5\n",
    "1. e5 e4 0-1\n",
    "e4 (d4 (c4) d5) e5\n",
    "(\n",
    ")\n",
    "*\n",
    "...\n",
    "e.p.\n",
    "$1\n",
    "$999\n",
    "{ a comment\nof two lines }\n",
    "{ a comment\n\n[Event \"that swallows\"]\n",
    "{ a comment\n[White \"inside\"]\n}\n",
    "{\n",
    "}\n",
    "; to the end of the line [Event \"b\"]\n",
    "words without meaning\n",
    "1. e4 [Event \"in the line\"] e5\n",
};

std::string made_up_text(std::mt19937& random) {
    std::string text;
    for (auto parts = random() % 60; parts > 0; --parts) text += fragments[random() % fragments.size()];
    return text;
}

} // namespace

BOOST_AUTO_TEST_SUITE(game_borders)

BOOST_AUTO_TEST_CASE(the_first_one_after_a_game) {
    const std::string first = "[Event \"a\"]\n[White \"w\"]\n\n1. e4 *\n\n";
    BOOST_TEST(border_of(first + "[Event \"b\"]\n\n*\n").value_or(0) == first.size());
    BOOST_TEST(border_of(first + "\n\r\n[Event \"b\"]\n\n*\n").value_or(0) == first.size() + 3);
    BOOST_TEST(!border_of(first));
    BOOST_TEST(!border_of(""));
}

BOOST_AUTO_TEST_CASE(what_is_none) {
    // Tags at the beginning, which may go on from somewhere else.
    BOOST_TEST(!border_of("\n[Event \"a\"]\n\n1. e4 *\n"));
    // A section of tags with a blank line in it.
    BOOST_TEST(!border_of("1. e4 *\n[Event \"a\"]\n\n[White \"w\"]\n"));
    BOOST_TEST(!border_of("1. e4 *\n[Event \"a\"]\n% escaped\n\n[White \"w\"]\n"));
    BOOST_TEST(!border_of("1. e4 *\n[Event \"a\"]\n  [Site \"s\"]\n\n[White \"w\"]\n"));
    // No blank line, no tag pair, not at the start of the line.
    BOOST_TEST(!border_of("1. e4 *\n1. d4 *\n[Event \"a\"]\n"));
    BOOST_TEST(!border_of("1. e4 *\n1. d4 *\n\n[Event]\n"));
    BOOST_TEST(!border_of("1. e4 *\n1. d4 *\n\n [Event \"a\"]\n"));
}

BOOST_AUTO_TEST_CASE(parts_give_the_games_of_the_whole) {
    std::mt19937 random{20261126};
    std::size_t cut_in_parts = 0;
    PgnOptions some_left_out;
    some_left_out.wanted = [](const Game& game) { return !game.has_tag("White"); };
    for (int text_number = 0; text_number < 20'000; ++text_number) {
        const std::string text = made_up_text(random);
        std::set<std::size_t> places;
        for (auto count = random() % 5 + 1; count > 0; --count) places.insert(random() % (text.size() + 1));
        for (const PgnOptions& options : {PgnOptions{}, some_left_out}) {
            const std::vector<Told> whole = games_in(text, 0, options);
            const std::vector<Told> parts = games_in_parts(text, places, options);
            if (whole != parts) BOOST_FAIL("parts give other games than the whole:\n" << text);
        }
        for (const std::size_t place : places)
            if (border_of(std::string_view{text}.substr(place))) ++cut_in_parts;
    }
    BOOST_TEST(cut_in_parts > 1000U);
}

BOOST_AUTO_TEST_CASE(a_blank_line_longer_than_the_window) {
    const std::string first = "1. e4 *\n1. d4 *\n" + std::string(200'000, ' ') + "\n";
    BOOST_TEST(border_of(first + "[Event \"b\"]\n").value_or(0) == first.size());
}

BOOST_AUTO_TEST_SUITE_END()
