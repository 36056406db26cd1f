// The calculations that claims rest on. "Items" are men looked at for exchange, positions for resolve, moves for
// move_keeps.
#include <benchmark/benchmark.h>

#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

void exchange_all(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        const Squares men = position.men(position.waiter()) & ~position.men(Kind::king);
        for (const Square square : men) benchmark::DoNotOptimize(exchange(position, square));
        return men.count();
    });
}
BENCHMARK(exchange_all)->Name("exchange")->Unit(benchmark::kMicrosecond);

void ask_exchanges(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        const Squares men = position.men(position.waiter()) & ~position.men(Kind::king);
        for (const Square square : men) benchmark::DoNotOptimize(exchange_wins(position, square, 1));
        return men.count();
    });
}
BENCHMARK(ask_exchanges)->Name("exchange_wins")->Unit(benchmark::kMicrosecond);

void resolve_all(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        benchmark::DoNotOptimize(resolve(position));
        return 1;
    });
}
BENCHMARK(resolve_all)->Name("resolve")->Unit(benchmark::kMicrosecond);

void ask_resolve(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        benchmark::DoNotOptimize(resolve_wins(position, 1));
        return 1;
    });
}
BENCHMARK(ask_resolve)->Name("resolve_wins")->Unit(benchmark::kMicrosecond);

void judge_moves(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) benchmark::DoNotOptimize(move_keeps(position, move, 0));
        return moves.size();
    });
}
BENCHMARK(judge_moves)->Name("move_keeps")->Unit(benchmark::kMicrosecond);

} // namespace
