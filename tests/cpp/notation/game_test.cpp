// Game: the tree, its buffers, tags in export order, equality, and the commands inside comments.
#include <keysquare/notation/comment_commands.hpp>
#include <keysquare/notation/pgn.hpp>

#include <boost/test/unit_test.hpp>

using namespace keysquare;
using enum Square;

namespace {

constexpr Move kings_pawn{e2, e4, MoveType::double_step};
constexpr Move queens_pawn{d2, d4, MoveType::double_step};
constexpr Move reply{e7, e5, MoveType::double_step};
constexpr Move knight{g1, f3};

} // namespace

BOOST_AUTO_TEST_SUITE(game_tree)

BOOST_AUTO_TEST_CASE(an_empty_game) {
    const Game game;
    BOOST_CHECK(game.start() == start_position());
    BOOST_CHECK(game.result() == GameResult::unknown);
    BOOST_TEST(game.steps().size() == 1U);
    BOOST_TEST(game.main_line().empty());
    BOOST_TEST(game.tag("White").empty());
    BOOST_TEST(!game.has_tag("White"));
}

BOOST_AUTO_TEST_CASE(moves_and_variations) {
    Game game;
    const StepIndex first = game.add_move(root_step, kings_pawn);
    const StepIndex variation = game.add_move(root_step, queens_pawn);
    const StepIndex second = game.add_move(first, reply);
    const StepIndex third = game.add_move(second, knight);
    BOOST_TEST(game.step(root_step).first_child == first);
    BOOST_TEST(game.step(first).next_sibling == variation);
    BOOST_TEST(game.step(variation).next_sibling == root_step);
    BOOST_CHECK(game.main_line() == (std::vector<Move>{kings_pawn, reply, knight}));
    BOOST_CHECK(game.path_to(third) == (std::vector<StepIndex>{first, second, third}));
    BOOST_CHECK(game.path_to(root_step).empty());
    BOOST_TEST(fen(game.position_at(third)) == "rnbqkbnr/pppp1ppp/8/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2");
    BOOST_TEST(fen(game.position_at(variation)) == "rnbqkbnr/pppppppp/8/8/3P4/8/PPP1PPPP/RNBQKBNR b KQkq d3 0 1");
}

BOOST_AUTO_TEST_CASE(comments_and_glyphs_in_any_order) {
    Game game;
    const StepIndex first = game.add_move(root_step, kings_pawn);
    const StepIndex second = game.add_move(first, reply);
    game.add_comment(first, "one");
    game.add_nag(first, 1);
    game.add_comment(second, "other");
    game.add_nag(second, 6);
    game.add_comment(first, "  two\r\nlines \n"); // the first part no longer stands at the end of its buffer
    game.add_nag(first, 140);
    game.add_comment(first, "");
    BOOST_TEST(game.comment(first) == "one two lines");
    BOOST_TEST(game.comment(second) == "other");
    BOOST_TEST(game.comment(first, CommentPlace::before).empty());
    BOOST_TEST(game.nags(first).size() == 2U);
    BOOST_TEST(int{game.nags(first)[1]} == 140);
    BOOST_TEST(int{game.nags(second)[0]} == 6);
}

BOOST_AUTO_TEST_CASE(tags) {
    Game game;
    game.set_tag("WhiteElo", "2500");
    game.set_tag("Annotator", "A\nB");
    game.set_tag("White", "First");
    game.set_tag("White", "Second");
    BOOST_TEST(game.tag_count() == 3U);
    BOOST_TEST(game.tag("White") == "Second");
    BOOST_TEST(game.tag("Annotator") == "A B");
    BOOST_TEST(game.tag_at(0).name == "WhiteElo");
    std::string order;
    for (const GameTag tag : game.export_tags()) order.append(tag.name).append("=").append(tag.value).append(" ");
    BOOST_TEST(order ==
               "Event=? Site=? Date=????.??.?? Round=? White=Second Black=? Result=* Annotator=A B WhiteElo=2500 ");
}

BOOST_AUTO_TEST_CASE(a_start_position_sets_its_tags) {
    Game game;
    game.set_start(read_fen("4k3/8/8/8/8/8/4P3/4K3 w - - 5 39").value());
    BOOST_TEST(game.tag("FEN") == "4k3/8/8/8/8/8/4P3/4K3 w - - 5 39");
    BOOST_TEST(game.tag("SetUp") == "1");
    game.clear();
    BOOST_CHECK(game == Game{});
    BOOST_CHECK(game.start() == start_position());
}

BOOST_AUTO_TEST_CASE(equality) {
    const auto made = [](auto change) {
        Game game;
        game.set_tag("White", "A");
        game.set_result(GameResult::draw);
        const StepIndex first = game.add_move(root_step, kings_pawn);
        game.add_move(root_step, queens_pawn);
        game.add_move(first, reply);
        game.add_comment(first, "text");
        game.add_nag(first, 1);
        change(game, first);
        return game;
    };
    const Game game = made([](Game&, StepIndex) {});
    BOOST_CHECK(game == made([](Game&, StepIndex) {}));
    BOOST_CHECK(game == made([](Game& same, StepIndex) { same.set_tag("Event", "?"); })); // as export format writes it
    BOOST_CHECK(!(game == made([](Game& other, StepIndex) { other.set_tag("Event", "x"); })));
    BOOST_CHECK(!(game == made([](Game& other, StepIndex) { other.set_result(GameResult::white_wins); })));
    BOOST_CHECK(!(game == made([](Game& other, StepIndex first) { other.add_nag(first, 2); })));
    BOOST_CHECK(!(game == made([](Game& other, StepIndex first) { other.add_comment(first, "x"); })));
    BOOST_CHECK(
        !(game == made([](Game& other, StepIndex first) { other.add_comment(first, "x", CommentPlace::beyond); })));
    BOOST_CHECK(!(game == made([](Game& other, StepIndex first) { other.add_move(first, {c7, c6}); })));
    // the same number of moves, hung elsewhere
    Game straight;
    straight.add_move(straight.add_move(root_step, kings_pawn), reply);
    Game branched;
    branched.add_move(root_step, kings_pawn);
    branched.add_move(root_step, kings_pawn);
    BOOST_CHECK(!(straight == branched));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(comment_commands)

BOOST_AUTO_TEST_CASE(commands_are_found_by_name) {
    const std::string_view comment = "[%eval -0.3,17] [%clk 0:03:00] a good move [%csl Ra1,Gb2]";
    BOOST_TEST(command(comment, "clk").value() == "0:03:00");
    BOOST_TEST(command(comment, "eval").value() == "-0.3,17");
    BOOST_TEST(command(comment, "csl").value() == "Ra1,Gb2");
    BOOST_CHECK(!command(comment, "cl"));
    BOOST_CHECK(!command(comment, "emt"));
    BOOST_CHECK(!command("[%clk 0:03:00", "clk"));
    BOOST_TEST(command("[%mark]", "mark").value().empty());
}

BOOST_AUTO_TEST_CASE(prose_is_what_remains) {
    BOOST_TEST(without_commands("[%eval 0.3] [%clk 0:03:00] a good move [%csl Ra1] indeed") == "a good move indeed");
    BOOST_TEST(without_commands("plain [text]") == "plain [text]");
    BOOST_TEST(without_commands("[%clk 0:03:00]").empty());
}

BOOST_AUTO_TEST_SUITE_END()
