// The teacher's questions about plans. "Items" are routes asked for, and plans.
#include <benchmark/benchmark.h>

#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/thinking/plan.hpp>
#include <keysquare/thinking/route.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

/// From every knight, bishop and rook of both sides to the centre.
void routes(benchmark::State& state) {
    run(state, bench::tournament_positions(), [](const Position& position) {
        const Squares pieces = position.men(Kind::knight) | position.men(Kind::bishop) | position.men(Kind::rook);
        for (const Square square : pieces & ~centre_squares)
            benchmark::DoNotOptimize(route(position, square, centre_squares));
        return (pieces & ~centre_squares).count();
    });
}
BENCHMARK(routes)->Name("route")->Unit(benchmark::kMillisecond);

/// Three steps of the mover: each time the legal move in the middle of the list, no checks.
std::vector<Move> three_steps(const Position& position) {
    std::vector<Move> steps;
    Position at = position;
    while (steps.size() < 3) {
        const MoveList moves = legal_moves(at);
        if (moves.empty()) break;
        steps.push_back(moves[moves.size() / 2]);
        const auto onward = passed(after(at, steps.back()));
        if (!onward) break;
        at = *onward;
    }
    return steps;
}

void plans(benchmark::State& state) {
    run(state, bench::tournament_positions(), [](const Position& position) {
        const std::vector<Move> steps = three_steps(position);
        if (steps.empty()) return 0;
        benchmark::DoNotOptimize(check_plan(position, position.mover(), steps));
        return 1;
    });
}
BENCHMARK(plans)->Name("check_plan")->Unit(benchmark::kMillisecond);

} // namespace
