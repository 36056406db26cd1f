// Many threads ask at once about the same positions and games: everybody gets the answers that one thread gets. Built with
// ThreadSanitizer (tests/sanitize.sh) this shows that nothing is shared that is written.
#include <keysquare/keysquare.hpp>
#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/notation/game_state.hpp>

#include <atomic>
#include <fstream>
#include <thread>

#include <boost/test/unit_test.hpp>

#include "platform.hpp"

using namespace keysquare;

namespace {

std::vector<Game> club_games() {
    std::ifstream file{"examples/data/club.pgn"};
    PgnReader reader{file};
    std::vector<Game> games;
    Game game;
    while (games.size() < 4 && reader.next(game) == Reading::game) games.push_back(game);
    BOOST_REQUIRE(games.size() == 4U);
    return games;
}

/// Everything that is asked about a position, as text.
std::string study(const Position& position) {
    std::string text = fen(position);
    const Findings found = findings(position);
    for (const Finding& finding : found) text += sentence(position, finding);
    for (const Side side : all_sides) {
        for (const Threat& threat : threats(position, side)) text += sentence(position, threat);
        text += paragraph(difficulty(position, side));
    }
    for (const Candidate& candidate : candidates(position)) text += sentence(position, candidate);
    text += paragraph(position, outlook(position));
    return text + diagram(position, diagram_of(position, {found.data(), found.size()}));
}

std::string study(const Game& game) {
    std::string text = write_pgn(game);
    for (const Moment& moment : game_report(game).moments) text += moment.question + moment.answer;
    for (const GameState& state : game_states(game)) text += std::to_string(state.occurrences);
    return text + study(game.position_at(game.main_steps()[game.main_steps().size() / 2]));
}

} // namespace

BOOST_AUTO_TEST_CASE(many_threads_get_what_one_gets, *test::needs_threads()) {
    const std::vector<Game> games = club_games();
    std::vector<std::string> expected;
    for (const Game& game : games) expected.push_back(study(game));

    constexpr std::size_t threads = 8;
    std::atomic<std::size_t> different{0};
    std::vector<std::thread> running;
    for (std::size_t number = 0; number < threads; ++number)
        running.emplace_back([&, number] {
            const std::size_t at = number % games.size(); // every game is studied by two threads at once
            if (study(games[at]) != expected[at]) ++different;
        });
    for (std::thread& thread : running) thread.join();
    BOOST_TEST(different == 0U);
}
