// GameState: repetition, the 50- and 75-move rules, dead positions, and the ends of a game. Source: FIDE Laws of Chess,
// 2023, the articles beside each case.
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/game_state.hpp>
#include <keysquare/notation/pgn.hpp>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

namespace {

Game game_from(std::string_view start_fen_text, std::string_view moves) {
    const std::string text =
        (start_fen_text.empty() ? std::string{} : "[FEN \"" + std::string{start_fen_text} + "\"]\n\n") +
        std::string{moves} + " *\n";
    return read_pgn(text).value();
}

GameState last_state(std::string_view start_fen_text, std::string_view moves) {
    return game_states(game_from(start_fen_text, moves)).back();
}

std::string repeated(std::string_view part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
}

constexpr std::string_view knights_out_and_back = "Nf3 Nf6 Ng1 Ng8 ";

} // namespace

BOOST_AUTO_TEST_SUITE(game_state_by_the_laws)

BOOST_AUTO_TEST_CASE(a_repeated_position) { // 9.2, 9.6.1
    const std::vector<GameState> states = game_states(game_from("", repeated(knights_out_and_back, 4)));
    BOOST_REQUIRE(states.size() == 17U);
    for (const std::size_t again : {0U, 4U, 8U, 12U, 16U}) {
        BOOST_TEST(states[again].occurrences == static_cast<int>(again / 4 + 1));
        BOOST_TEST(states[again].has_occurred_five_times == (again == 16));
        BOOST_TEST(states[again].claimable_by_repetition == (again >= 8));
        BOOST_TEST(states[again].is_over() == (again == 16));
    }
    // before the eighth ply Black may write down Ng8 and claim (9.2.1)
    BOOST_TEST(states[6].claimable_by_repetition == false);
    BOOST_TEST(states[7].claimable_by_repetition == true);
    BOOST_TEST(states[7].occurrences == 2);
    BOOST_REQUIRE(states[7].repeating_moves.size() == 1U);
    BOOST_TEST(coordinate(states[7].repeating_moves[0]) == "f6g8");
    BOOST_CHECK(states[7].mover == Side::black);
}

BOOST_AUTO_TEST_CASE(an_en_passant_square_counts_only_when_it_can_be_used) { // 9.2.3.1
    // Nobody can capture on e3: the position after 1.e4 is the same as later on.
    BOOST_TEST(last_state("", "e4 Nf6 Nf3 Ng8 Ng1").occurrences == 2);
    // The pawn on d4 can capture on e3 the first time only.
    BOOST_TEST(last_state("4k1n1/8/8/8/3p4/8/4P3/4K1N1 w - - 0 1", "e4 Nf6 Nf3 Ng8 Ng1").occurrences == 1);
    // It can't when it is pinned: to take e3 it would leave the king to the rook on d1.
    BOOST_TEST(last_state("3k2n1/8/8/8/3p4/8/4P3/3RK1N1 w - - 0 1", "e4 Nf6 Nf3 Ng8 Ng1").occurrences == 2);
}

BOOST_AUTO_TEST_CASE(lost_castling_rights_make_another_position) { // 9.2.3.2
    constexpr std::string_view rooks = "4k3/8/8/8/8/8/8/R3K3 w Q - 0 1";
    BOOST_TEST(last_state(rooks, "Ra2 Ke7 Ra1 Ke8").occurrences == 1);
    BOOST_TEST(last_state(rooks, "Ra2 Ke7 Ra1 Ke8 Ra2 Ke7 Ra1 Ke8").occurrences == 2);
    BOOST_TEST(last_state("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "Ra2 Ke7 Ra1 Ke8").occurrences == 2);
}

BOOST_AUTO_TEST_CASE(another_mover_makes_another_position) { // 9.2.3
    // The rook loses a move on the way, so the men stand as before with the other side to move.
    const GameState state = last_state("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "Ra3 Kd8 Ra2 Ke8 Ra1");
    BOOST_TEST(state.occurrences == 1);
    BOOST_CHECK(state.mover == Side::black);
}

BOOST_AUTO_TEST_CASE(fifty_and_seventy_five_moves) { // 9.3, 9.6.2
    const auto state = [](int clock, std::string_view moves) {
        return last_state("4k3/8/8/8/8/4K3/8/R7 w - - " + std::to_string(clock) + " 90", moves);
    };
    BOOST_TEST(state(97, "Rb1").claimable_by_quiet_moves == false);
    BOOST_TEST(state(98, "Rb1").claimable_by_quiet_moves == true); // 9.3.1: any move makes them 100
    BOOST_TEST(state(99, "Rb1").claimable_by_quiet_moves == true); // 9.3.2
    BOOST_TEST(state(99, "Rb1").quiet_plies == 100);
    BOOST_TEST(state(148, "Rb1").is_quiet_for_75_moves == false);
    BOOST_TEST(state(149, "Rb1").is_quiet_for_75_moves == true);
    // A checkmate takes precedence.
    const GameState mate = last_state("4k3/8/4K3/8/8/8/8/R7 w - - 149 90", "Ra8");
    BOOST_TEST(mate.mover_is_mated);
    BOOST_TEST(mate.quiet_plies == 150);
    BOOST_TEST(!mate.is_quiet_for_75_moves);
    BOOST_TEST(!mate.claimable_by_quiet_moves);
    // The king can't move, so no move makes it 100.
    BOOST_TEST(!last_state("8/8/8/8/8/8/P1k5/K7 w - - 99 90", "").claimable_by_quiet_moves);
}

BOOST_AUTO_TEST_CASE(dead_positions) { // 5.2.2
    struct Case {
        std::string_view fen;
        bool is_dead;
    };
    constexpr Case cases[] = {
        {"4k3/8/8/8/8/8/8/4K3 w - - 0 1", true},    {"4k3/8/8/8/8/8/8/4KN2 w - - 0 1", true},
        {"4kb2/8/8/8/8/8/8/4K3 w - - 0 1", true},   {"4k3/8/8/8/8/8/8/3NKN2 w - - 0 1", false},
        {"4kn2/8/8/8/8/8/8/4KN2 w - - 0 1", false}, {"4kb2/8/8/8/8/8/8/2B1K3 w - - 0 1", true},
        {"4kb2/8/8/8/8/8/8/4KB2 w - - 0 1", false}, {"4k3/8/8/8/8/B7/8/2B1K3 w - - 0 1", true},
        {"4kb2/8/8/8/8/8/8/4KN2 w - - 0 1", false}, {"4k3/8/8/8/8/8/8/4KR2 w - - 0 1", false},
        {"4k3/4p3/8/8/8/8/8/4K3 w - - 0 1", false}, {"4k3/8/8/8/8/8/8/3QK3 w - - 0 1", false},
    };
    for (const auto& [text, is_dead] : cases) BOOST_TEST(is_dead_by_material(read_fen(text).value()) == is_dead, text);
}

BOOST_AUTO_TEST_CASE(the_ends_of_a_game) { // 5.1.1, 5.2.1
    const GameState mate = last_state("", "f3 e5 g4 Qh4#");
    BOOST_TEST(mate.mover_is_mated);
    BOOST_TEST(mate.is_over());
    BOOST_TEST(!mate.mover_is_stalemated);
    const GameState stalemate = last_state("7k/8/8/6Q1/8/8/8/K7 w - - 0 1", "Qg6");
    BOOST_TEST(stalemate.mover_is_stalemated);
    BOOST_TEST(!stalemate.mover_is_mated);
    BOOST_TEST(!game_state(Game{}, root_step).is_over());
}

BOOST_AUTO_TEST_CASE(a_node_has_its_own_path) {
    const Game game = game_from("", "Nf3 Nf6 Ng1 Ng8 (2... Nd5 3. Nf3 Nf6 4. Ng1 Ng8) Nf3");
    const std::vector<GameState> states = game_states(game);
    const std::vector<StepIndex> steps = game.main_steps();
    for (std::size_t ply = 0; ply <= steps.size(); ++ply)
        BOOST_CHECK(states[ply] == game_state(game, ply == 0 ? root_step : steps[ply - 1]));
    int in_variation = 0;
    for (StepIndex at = 0; at < game.steps().size(); ++at)
        if (game.path_to(at).size() == 8) in_variation = game_state(game, at).occurrences;
    BOOST_TEST(in_variation == 2); // the start position; Nf6 was on the board twice, but after other moves of White
}

BOOST_AUTO_TEST_CASE(nobody_claims_by_passes) {
    // In the variation the position comes again only because of the null moves.
    const Game game = game_from("", "Nf3 (1. Nc3 -- 2. Nb1 --) Nf6");
    const auto last = static_cast<StepIndex>(game.steps().size() - 2);
    BOOST_TEST(fen(game.position_at(last)).starts_with("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w"));
    BOOST_TEST(game_state(game, last).occurrences == 1);
}

BOOST_AUTO_TEST_SUITE_END()
