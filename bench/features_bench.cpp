// Each feature by itself, then all findings and their sentences. "Items" are positions. What a feature shares with
// others (the view, the guard duties) is part of its time, as it is for somebody who asks for that feature alone.
#include <span>

#include <benchmark/benchmark.h>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/explain.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

template <class Find> void run_feature(benchmark::State& state, Find find) {
    Findings found;
    run(state, bench::game_positions(), [&](const Position& position) {
        found.clear();
        find(BoardView{position, {}}, found);
        benchmark::DoNotOptimize(found.data());
        return 1;
    });
}

void add(const char* name, void (*find)(const BoardView&, Findings&)) {
    benchmark::RegisterBenchmark(name, [find](benchmark::State& state) {
        run_feature(state, find);
    })->Unit(benchmark::kMicrosecond);
}

const bool features_registered = [] {
    add("piece_safety", find_piece_safety);
    add("guard_duties",
        [](const BoardView& view, Findings& found) { find_guard_duties(view, guard_duties(view), found); });
    add("overloaded", [](const BoardView& view, Findings& found) { find_overloaded(view, guard_duties(view), found); });
    add("mutual_guards",
        [](const BoardView& view, Findings& found) { find_mutual_guards(view, guard_duties(view), found); });
    add("mobility_and_rooks", [](const BoardView& view, Findings& found) {
        const auto duties = guard_duties(view);
        for (const Side side : all_sides) detail::find_by_mobility(view, side, duties[index(side)], found);
    });
    add("forks", find_forks);
    add("pins", find_pins);
    add("discoveries", find_discoveries);
    add("removable_guards",
        [](const BoardView& view, Findings& found) { find_removable_guards(view, guard_duties(view), found); });
    add("trapped_pieces", find_trapped_pieces);
    add("mates", find_mates);
    add("promotions", find_promotions);
    add("intermediate_moves", find_intermediate_moves);
    add("pawn_themes", find_pawn_themes);
    add("king_themes", find_king_themes);
    add("square_themes", find_square_themes);
    add("piece_themes",
        [](const BoardView& view, Findings& found) { find_piece_themes(view, guard_duties(view), found); });
    add("square_control", find_square_control);
    add("colour_complex", find_colour_complex);
    add("guardian", find_guardian);
    add("material", find_material);
    add("exchange_imbalance", find_exchange_imbalance);
    return true;
}();

void all_findings(benchmark::State& state, const std::vector<Position>& positions) {
    Findings found;
    run(state, positions, [&](const Position& position) {
        findings(position, found);
        benchmark::DoNotOptimize(found.data());
        return 1;
    });
}
BENCHMARK_CAPTURE(all_findings, puzzles, bench::game_positions())
    ->Name("findings/puzzles")
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(all_findings, tournament_games, bench::tournament_positions())
    ->Name("findings/tournament_games")
    ->Unit(benchmark::kMicrosecond);

void vectors(benchmark::State& state) {
    std::array<std::int16_t, feature_count> row;
    run(state, bench::game_positions(), [&](const Position& position) {
        feature_vector(position, row);
        benchmark::DoNotOptimize(row.data());
        return 1;
    });
}
BENCHMARK(vectors)->Name("feature_vector")->Unit(benchmark::kMicrosecond);

/// The same as columns, many positions at a time.
void vector_columns(benchmark::State& state) {
    const std::vector<Position>& positions = bench::game_positions();
    std::vector<std::int16_t> numbers(feature_count * positions.size());
    const std::vector<std::span<const Position>> batches(positions.empty() ? 0 : 1, positions);
    run(state, batches, [&](std::span<const Position> batch) {
        feature_columns(batch, numbers, batch.size());
        benchmark::DoNotOptimize(numbers.data());
        return batch.size();
    });
}
BENCHMARK(vector_columns)->Name("feature_columns")->Unit(benchmark::kMicrosecond);

void findings_with_sentences(benchmark::State& state) {
    Findings found;
    run(state, bench::game_positions(), [&](const Position& position) {
        findings(position, found);
        for (const Finding& finding : found) benchmark::DoNotOptimize(sentence(position, finding));
        return 1;
    });
}
BENCHMARK(findings_with_sentences)->Name("findings_and_sentences")->Unit(benchmark::kMicrosecond);

} // namespace
