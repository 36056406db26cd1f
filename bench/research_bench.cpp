// Scans and summaries of a file of tournament games. "Items" are positions; bytes are those of the file. Real time, as
// threads work for it: the last part of a name is their number.
#include <benchmark/benchmark.h>

#include <cstdlib>
#include <filesystem>
#include <random>

#include <keysquare/research/summary.hpp>

namespace {

using namespace keysquare;

std::filesystem::path file_of_open_data(const std::string& name) {
    const char* const folder = std::getenv("KEYSQUARE_OPEN_DATA");
    return std::filesystem::path{folder ? folder : "../shared/data"} / "pgn" / name;
}

std::vector<ChosenColumn> columns(std::initializer_list<std::string_view> names) {
    std::vector<ChosenColumn> chosen;
    for (const std::string_view name : names) chosen.push_back(scan_column(name).value());
    return chosen;
}

std::vector<ChosenColumn> usual_columns() {
    return columns({"file", "game_offset", "ply", "mover", "move_played", "result", "white_rating", "black_rating",
                    "clock", "evaluation"});
}

std::vector<ChosenColumn> vector_columns() {
    std::vector<ChosenColumn> chosen;
    for (const FeatureColumn& column : feature_schema()) chosen.push_back(scan_column(column.name).value());
    return chosen;
}

std::vector<ChosenColumn> all_columns() {
    std::vector<ChosenColumn> chosen = usual_columns();
    for (ChosenColumn& column : vector_columns()) chosen.push_back(std::move(column));
    return chosen;
}

/// Runs `work` on the shards of the file; it returns the counts.
template <class Work> void run(benchmark::State& state, const std::filesystem::path& file, Work work) {
    if (!std::filesystem::exists(file)) {
        state.SkipWithError("no open data: set KEYSQUARE_OPEN_DATA");
        return;
    }
    const std::vector<Shard> parts = shards(std::array{file});
    std::uint64_t positions = 0;
    for ([[maybe_unused]] auto _ : state) positions += work(parts).positions;
    state.SetItemsProcessed(static_cast<std::int64_t>(positions));
    state.SetBytesProcessed(
        static_cast<std::int64_t>(static_cast<std::uint64_t>(state.iterations()) * std::filesystem::file_size(file)));
}

void scan_file(benchmark::State& state, const std::string& name, const std::vector<ChosenColumn>& chosen,
               const RowFilter& filter) {
    run(state, file_of_open_data(name), [&](const std::vector<Shard>& parts) {
        Scan scan{parts, chosen, filter, static_cast<int>(state.range(0))};
        while (const auto batch = scan.next()) benchmark::DoNotOptimize(batch.get());
        return scan.counts();
    });
}

void summarise_file(benchmark::State& state, const std::string& name) {
    run(state, file_of_open_data(name), [&](const std::vector<Shard>& parts) {
        const Summary empty{columns({"white_rating_band", "phase"}), vector_columns()};
        return Summarising{parts, empty, {}, static_cast<int>(state.range(0))}.result().counts();
    });
}

RowFilter nothing() {
    RowFilter filter;
    filter.games.tags.push_back({"Event", {"none of that name"}, std::nullopt, std::nullopt});
    return filter;
}

const bool registered = [] {
    const auto add = [](const char* name, auto function, auto... arguments) {
        return benchmark::RegisterBenchmark(name, function, std::string{"masters.pgn"}, arguments...)
            ->UseRealTime()
            ->Unit(benchmark::kMillisecond);
    };
    add("scan/all_static_columns", scan_file, all_columns(), RowFilter{})->Arg(1)->Arg(2);
    add("scan/game_columns", scan_file, usual_columns(), RowFilter{})->Arg(1)->Arg(2);
    add("scan/all_games_left_out", scan_file, usual_columns(), nothing())->Arg(1);
    RowFilter few;
    few.plies = {20, 20, 1};
    add("scan/threats_at_ply_20", scan_file, columns({"threats", "threat_gain"}), few)->Arg(1);
    add("summarise/all_static_columns", summarise_file)->Arg(1)->Arg(2);
    return true;
}();

void add_to_statistics(benchmark::State& state) {
    std::mt19937 random{1};
    std::vector<std::int64_t> numbers(4096);
    for (std::int64_t& number : numbers) number = static_cast<std::int64_t>(random() % 200) - 100;
    Statistics statistics;
    for ([[maybe_unused]] auto _ : state)
        for (const std::int64_t number : numbers) statistics.add(number);
    benchmark::DoNotOptimize(statistics.sums().sum);
    state.SetItemsProcessed(static_cast<std::int64_t>(state.iterations()) * static_cast<std::int64_t>(numbers.size()));
}
BENCHMARK(add_to_statistics)->Name("statistics");

} // namespace
