// The rules and FEN. "Items" are leaves for perft, moves for legal_moves, and positions elsewhere.
#include <benchmark/benchmark.h>

#include <keysquare/board/perft.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

void count_perft(benchmark::State& state, const bench::PerftCase& test) {
    for ([[maybe_unused]] auto _ : state)
        if (perft(test.position, test.depth) != test.leaves) state.SkipWithError("wrong leaf count");
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(test.leaves));
}

const bool perft_registered = [] {
    for (const auto& test : bench::perft_cases())
        benchmark::RegisterBenchmark(("perft/" + test.name).c_str(), count_perft, test)->Unit(benchmark::kMillisecond);
    return true;
}();

void list_moves(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        const MoveList moves = legal_moves(position);
        benchmark::DoNotOptimize(moves);
        return moves.size();
    });
}
BENCHMARK(list_moves)->Name("legal_moves")->Unit(benchmark::kMicrosecond);

void find_checkmate(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        benchmark::DoNotOptimize(is_mated(position));
        return 1;
    });
}
BENCHMARK(find_checkmate)->Name("is_mated")->Unit(benchmark::kMicrosecond);

void parse_fen(benchmark::State& state) {
    run(state, bench::game_fens(), [](const std::string& text) {
        benchmark::DoNotOptimize(read_fen(text));
        return 1;
    });
}
BENCHMARK(parse_fen)->Name("read_fen")->Unit(benchmark::kMicrosecond);

void write_fen(benchmark::State& state) {
    run(state, bench::game_positions(), [](const Position& position) {
        benchmark::DoNotOptimize(fen(position));
        return 1;
    });
}
BENCHMARK(write_fen)->Name("write_fen")->Unit(benchmark::kMicrosecond);

} // namespace
