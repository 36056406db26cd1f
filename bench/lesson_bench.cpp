// Whole games, as a lesson needs them: tournament games, and games of club players, in which more is given and taken.
#include <keysquare/lesson/game_report.hpp>
#include <keysquare/thinking/game_effects.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::Purpose;

constexpr std::size_t timed_games = 25;

std::vector<Game> tournament_games(Purpose purpose) {
    if (purpose == Purpose::counting) return bench::first_games(bench::season(), 2);
    return bench::first_games(bench::open_data("pgn/masters.pgn"), timed_games);
}

std::vector<Game> club_players(Purpose purpose) {
    if (purpose == Purpose::counting) return bench::first_games(bench::kept_file("../examples/data/club.pgn"), 2);
    return bench::first_games(bench::open_data("pgn/rated-rapid-blitz.pgn"), timed_games);
}

} // namespace

void bench::describe(Operations& operations) {
    const auto report = [](const Game& game) { return game_report(game).plies.size() - 1; };
    const auto effects = [](const Game& game) { return game_effects(game).size(); };
    operations.unit = benchmark::kMillisecond;
    operations.add("game_report/tournament_games", "ply", tournament_games, report);
    operations.add("game_report/club_players", "ply", club_players, report);
    operations.add("game_effects/tournament_games", "ply", tournament_games, effects);
    operations.add("game_effects/club_players", "ply", club_players, effects);
}
