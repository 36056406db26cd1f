// The teacher's questions. "Items" are positions; for answers, moves. `parries` asks about the strongest threat of the
// waiter, and leaves positions without one out; `difficulty` is that of both sides.
#include <benchmark/benchmark.h>

#include <keysquare/thinking/answers.hpp>
#include <keysquare/thinking/candidates.hpp>
#include <keysquare/thinking/difficulty.hpp>
#include <keysquare/thinking/outlook.hpp>
#include <keysquare/thinking/parries.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

void find_threats(benchmark::State& state, const std::vector<Position>& positions) {
    Threats found;
    run(state, positions, [&](const Position& position) {
        threats(position, position.waiter(), found);
        benchmark::DoNotOptimize(found.data());
        return 1;
    });
}
BENCHMARK_CAPTURE(find_threats, puzzles, bench::game_positions())
    ->Name("threats/puzzles")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_threats, tournament_games, bench::tournament_positions())
    ->Name("threats/tournament_games")
    ->Unit(benchmark::kMillisecond);

void find_parries(benchmark::State& state) {
    std::vector<std::pair<Position, Threat>> threatened;
    for (const Position& position : bench::game_positions())
        if (const Threats found = threats(position); !found.empty()) threatened.emplace_back(position, found.front());
    run(state, threatened, [](const std::pair<Position, Threat>& one) {
        benchmark::DoNotOptimize(parries(one.first, one.second).natural);
        return 1;
    });
}
BENCHMARK(find_parries)->Name("parries")->Unit(benchmark::kMillisecond);

void find_answers(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) benchmark::DoNotOptimize(answers(position, move).cost);
        return moves.size();
    });
}
BENCHMARK(find_answers)->Name("answers")->Unit(benchmark::kMillisecond);

void count_difficulty(benchmark::State& state, const std::vector<Position>& positions) {
    run(state, positions, [](const Position& position) {
        for (const Side side : all_sides) benchmark::DoNotOptimize(difficulty(position, side).keeping);
        return 1;
    });
}
BENCHMARK_CAPTURE(count_difficulty, puzzles, bench::game_positions())
    ->Name("difficulty/puzzles")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(count_difficulty, tournament_games, bench::tournament_positions())
    ->Name("difficulty/tournament_games")
    ->Unit(benchmark::kMillisecond);

void find_candidates(benchmark::State& state, const std::vector<Position>& positions) {
    run(state, positions, [](const Position& position) {
        benchmark::DoNotOptimize(candidates(position).size());
        return 1;
    });
}
BENCHMARK_CAPTURE(find_candidates, puzzles, bench::game_positions())
    ->Name("candidates/puzzles")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_candidates, tournament_games, bench::tournament_positions())
    ->Name("candidates/tournament_games")
    ->Unit(benchmark::kMillisecond);

void find_outlook(benchmark::State& state, const std::vector<Position>& positions) {
    run(state, positions, [](const Position& position) {
        benchmark::DoNotOptimize(outlook(position).equilibrium);
        return 1;
    });
}
BENCHMARK_CAPTURE(find_outlook, puzzles, bench::game_positions())
    ->Name("outlook/puzzles")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_outlook, tournament_games, bench::tournament_positions())
    ->Name("outlook/tournament_games")
    ->Unit(benchmark::kMillisecond);

} // namespace
