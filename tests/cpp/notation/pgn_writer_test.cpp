// write_pgn: export format to the letter, and games that come out equal when they are read again.
#include <keysquare/notation/pgn.hpp>

#include <algorithm>
#include <random>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

namespace {

// The example game of the 1994 standard (section 2.3), from memory.
constexpr std::string_view example_game = R"([Event "F/S Return Match"]
[Site "Belgrade, Serbia JUG"]
[Date "1992.11.04"]
[Round "29"]
[White "Fischer, Robert J."]
[Black "Spassky, Boris V."]
[Result "1/2-1/2"]

1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3
O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15.
Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21.
Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7
27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33.
f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5
40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6 1/2-1/2

)";

std::string movetext_of(std::string_view text) {
    const std::string written = write_pgn(read_pgn(text).value());
    return written.substr(written.find("\n\n") + 2);
}

std::size_t widest_line(std::string_view text) {
    std::size_t widest = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        widest = std::max(widest, end - begin);
        begin = end + 1;
    }
    return widest;
}

void check_comes_back(const Game& game) {
    const std::string written = write_pgn(game);
    BOOST_TEST_CONTEXT(written) {
        const Result<Game> read = read_pgn(written);
        BOOST_REQUIRE(read);
        BOOST_CHECK(*read == game);
        BOOST_TEST(write_pgn(*read) == written);
    }
}

} // namespace

BOOST_AUTO_TEST_SUITE(pgn_writing)

BOOST_AUTO_TEST_CASE(the_example_of_the_standard) {
    const Game game = read_pgn(example_game).value();
    BOOST_TEST(game.main_line().size() == 85U);
    BOOST_TEST(fen(game.position_at(static_cast<StepIndex>(game.steps().size() - 1))) ==
               "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43");
    BOOST_TEST(write_pgn(game) == example_game);
}

BOOST_AUTO_TEST_CASE(tags_are_escaped_and_completed) {
    Game game;
    game.set_tag("White", R"(A "B" \ C)");
    game.set_result(GameResult::black_wins);
    BOOST_TEST(write_pgn(game) == R"([Event "?"]
[Site "?"]
[Date "????.??.??"]
[Round "?"]
[White "A \"B\" \\ C"]
[Black "?"]
[Result "0-1"]

0-1

)");
    check_comes_back(game);
}

BOOST_AUTO_TEST_CASE(comments_glyphs_and_variations) {
    BOOST_TEST(movetext_of("{a} 1. e4! {b} (1. d4 {c} d5 (1... Nf6 2. -- e6) ) {d} ({e} 1. c4) e5 2. Nf3 Nc6 *") ==
               "{a} 1. e4 $1 {b} (1. d4 {c} 1... d5 (1... Nf6 2. -- e6)) {d} ({e} 1. c4) 1...\ne5 2. Nf3 Nc6 *\n\n");
    BOOST_TEST(movetext_of("1. e4 e5 {x} 2. Nf3 Nc6 (2... d6) 3. Bb5 *") ==
               "1. e4 e5 {x} 2. Nf3 Nc6 (2... d6) 3. Bb5 *\n\n");
    BOOST_TEST(movetext_of("[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 5 39\"]\n\nKd7 e4 *") == "39... Kd7 40. e4 *\n\n");
}

BOOST_AUTO_TEST_CASE(a_closing_brace_goes_to_a_line_of_its_own) {
    BOOST_TEST(movetext_of("1. e4 ;a } b\n(1. d4 ;}\n) 1... e5 *") == "1. e4 ; a } b\n(1. d4 ; }\n) 1... e5 *\n\n");
}

BOOST_AUTO_TEST_CASE(lines_stay_below_eighty_columns) {
    std::string text = "1. e4 {";
    for (int i = 0; i < 300; ++i) text += "word" + std::string(static_cast<std::size_t>(i % 7), 'x') + " ";
    const std::string written = write_pgn(read_pgn(text + "} e5 *").value());
    BOOST_TEST(widest_line(written) < 80U);
    BOOST_TEST(widest_line(written) > 70U);
}

BOOST_AUTO_TEST_CASE(no_line_of_a_comment_begins_with_a_percent_sign) {
    Game game;
    for (int i = 0; i < 100; ++i) game.add_comment(root_step, "10 % and");
    BOOST_TEST(write_pgn(game).find("\n%") == std::string::npos);
    check_comes_back(game);
}

BOOST_AUTO_TEST_CASE(texts_of_several_games_can_be_joined) {
    const Game game = read_pgn(example_game).value();
    std::string text;
    write_pgn(game, text);
    write_pgn(game, text);
    PgnReader reader{std::make_unique<TextSource>(text)};
    Game read;
    BOOST_CHECK(reader.next(read) == Reading::game);
    BOOST_CHECK(reader.next(read) == Reading::game);
    BOOST_CHECK(read == game);
    BOOST_CHECK(reader.next(read) == Reading::end);
}

/// Trees grown at random, with comments of awkward words in every place, come back equal.
BOOST_AUTO_TEST_CASE(random_games_come_back) {
    std::mt19937 random{1994}; // NOLINT: the same games every time
    const auto below = [&](std::size_t limit) { return static_cast<std::size_t>(random()) % limit; };
    const auto comment = [&] {
        constexpr std::string_view words[] = {"a",
                                              "",
                                              "[%clk 0:01:02]",
                                              "%",
                                              "{",
                                              "(1.",
                                              "\xC3\xBC",
                                              "\\",
                                              "\"",
                                              ";",
                                              "$1",
                                              "[Event",
                                              "rather-long-word-without-any-space-in-it-that-takes-a-lot-of-room"};
        std::string text;
        for (std::size_t i = below(12); i > 0; --i) text.append(words[below(std::size(words))]).append(" ");
        if (below(8) == 0) text += "}";
        return text;
    };
    for (int trial = 0; trial < 200; ++trial) {
        Game game;
        if (below(2) == 0) game.set_start(read_fen("r3k2r/pPpp1ppp/8/4pP2/8/8/PPPP2PP/R3K2R w KQkq e6 0 7").value());
        game.set_tag("Event", comment());
        game.set_tag("Zzz", "x");
        game.set_result(static_cast<GameResult>(below(4)));
        game.add_comment(root_step, comment());
        for (int i = 0; i < 40; ++i) {
            const auto parent = static_cast<StepIndex>(below(game.steps().size()));
            const MoveList moves = legal_moves(game.position_at(parent));
            if (moves.empty()) continue;
            const StepIndex at = game.add_move(parent, moves[below(moves.size())]);
            if (below(3) == 0) game.add_nag(at, static_cast<std::uint8_t>(below(256)));
            if (below(3) == 0) game.add_comment(at, comment());
            if (game.step(parent).first_child == at) continue; // only variations have comments in the other places
            if (below(2) == 0) game.add_comment(at, comment(), CommentPlace::before);
            if (below(2) == 0) game.add_comment(at, comment(), CommentPlace::beyond);
        }
        check_comes_back(game);
    }
}

BOOST_AUTO_TEST_SUITE_END()
