// Whole games, as a lesson needs them. "Items" are plies; a report is made of some tournament games and some games of
// club players, in which more is given and taken.
#include <benchmark/benchmark.h>

#include <keysquare/lesson/game_report.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

constexpr std::size_t games = 25;

void report(benchmark::State& state, const char* file) {
    run(state, bench::games_of(file, games), [](const Game& game) { return game_report(game).plies.size() - 1; });
}
BENCHMARK_CAPTURE(report, tournament_games, "masters.pgn")
    ->Name("game_report/tournament_games")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(report, club_players, "rated-rapid-blitz.pgn")
    ->Name("game_report/club_players")
    ->Unit(benchmark::kMillisecond);

void effects(benchmark::State& state, const char* file) {
    run(state, bench::games_of(file, games), [](const Game& game) { return game_effects(game).size(); });
}
BENCHMARK_CAPTURE(effects, tournament_games, "masters.pgn")
    ->Name("game_effects/tournament_games")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(effects, club_players, "rated-rapid-blitz.pgn")
    ->Name("game_effects/club_players")
    ->Unit(benchmark::kMillisecond);

} // namespace
