// Commands in comments: times, evaluations, and changing one while the rest of the comment stays.
#include <keysquare/notation/comment_commands.hpp>
#include <keysquare/notation/game.hpp>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

BOOST_AUTO_TEST_SUITE(comment_commands)

BOOST_AUTO_TEST_CASE(times) {
    struct Case {
        std::string_view text;
        std::optional<double> seconds;
    };
    constexpr Case cases[] = {{"1:23:45.6", 5025.6},
                              {"0:03:00", 180.0},
                              {"1:23:45", 5025.0},
                              {"23:45", 1425.0},
                              {"45", 45.0},
                              {"0.5", 0.5},
                              {"100:00:00", 3.6e5},
                              {"90", 90.0},
                              {"0:59:59.999", 3599.999},
                              {"", std::nullopt},
                              {"0:60:00", std::nullopt},
                              {"0:00:60", std::nullopt},
                              {"1:2:3:4", std::nullopt},
                              {"-0:01:00", std::nullopt},
                              {"1:", std::nullopt},
                              {":30", std::nullopt},
                              {"1.5:30", std::nullopt},
                              {"0:01:00 x", std::nullopt},
                              {"nan", std::nullopt},
                              {"1e3", std::nullopt},
                              {"99999999999:00:00", std::nullopt},
                              {"0:00:1.", std::nullopt}};
    for (const auto& [text, seconds] : cases) BOOST_CHECK_MESSAGE(seconds_in(text) == seconds, text);
}

BOOST_AUTO_TEST_CASE(evaluations) {
    struct Case {
        std::string_view text;
        std::optional<Evaluation> evaluation;
    };
    constexpr Case cases[] = {{"0.35", Evaluation{0.35, {}, {}}},
                              {"0.35,20", Evaluation{0.35, {}, 20}},
                              {"-1.2", Evaluation{-1.2, {}, {}}},
                              {"+3", Evaluation{3.0, {}, {}}},
                              {"#-3", Evaluation{{}, -3, {}}},
                              {"#5,31", Evaluation{{}, 5, 31}},
                              {"", std::nullopt},
                              {"#", std::nullopt},
                              {"#1.5", std::nullopt},
                              {"-", std::nullopt},
                              {"+-1", std::nullopt},
                              {"0.35,", std::nullopt},
                              {"0.35,2.5", std::nullopt},
                              {"0.35, 20", std::nullopt},
                              {"inf", std::nullopt},
                              {"0,35 x", std::nullopt},
                              {"0.12345678901234567890", std::nullopt}};
    for (const auto& [text, evaluation] : cases) BOOST_CHECK_MESSAGE(evaluation_in(text) == evaluation, text);
}

BOOST_AUTO_TEST_CASE(changing_a_command) {
    BOOST_TEST(with_command("", "clk", "0:03:00") == "[%clk 0:03:00]");
    BOOST_TEST(with_command("a plan", "clk", "0:03:00") == "[%clk 0:03:00] a plan");
    BOOST_TEST(with_command("x [%clk 1] y [%eval 0.2]  z", "clk", "2") == "x [%clk 2] y [%eval 0.2]  z");
    BOOST_TEST(with_command("[%clk 1] y [%clk 3] z", "clk", "2") == "[%clk 2] y z");
    BOOST_TEST(with_command("[%clkx 1]", "clk", "2") == "[%clk 2] [%clkx 1]");
    BOOST_TEST(with_command("y", "mark", "") == "[%mark] y");
    BOOST_TEST(with_command("an [%open", "clk", "2") == "[%clk 2] an [%open");
    BOOST_TEST(without_command("x [%clk 1] y", "clk") == "x y");
    BOOST_TEST(without_command("x [%clk 1]", "clk") == "x");
    BOOST_TEST(without_command("[%clk 1] [%clk 2]", "clk") == "");
    BOOST_TEST(without_command("x  y", "clk") == "x  y");
}

BOOST_AUTO_TEST_CASE(changing_a_game) {
    Game game;
    const StepIndex at = game.add_move(root_step, Move{Square::e2, Square::e4, MoveType::double_step});
    game.set_comment(at, "first");
    game.set_comment(at, game.comment(at)); // a view of the game's own text
    BOOST_TEST(game.comment(at) == "first");
    game.set_command(at, "clk", "0:01:00");
    game.set_command(at, "clk", "0:00:59");
    BOOST_TEST(game.comment(at) == "[%clk 0:00:59] first");
    game.set_comment(at, "second\nline");
    BOOST_TEST(game.comment(at) == "second line");
    game.set_comment(at, "");
    BOOST_TEST(game.comment(at).empty());
}

BOOST_AUTO_TEST_SUITE_END()
