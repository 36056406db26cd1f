// Scans and summaries of a file of tournament games. The last part of a name is the number of threads; only one thread
// is counted, as several do the same work.
#include <random>

#include <keysquare/research/summary.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::Amount;
using bench::Operations;
using bench::Purpose;

struct GameFile {
    std::vector<Shard> shards;
    std::int64_t bytes;
};

std::vector<GameFile> game_files(Purpose purpose) {
    const std::filesystem::path path =
        purpose == Purpose::timing ? bench::open_data("pgn/masters.pgn") : bench::season();
    if (!std::filesystem::exists(path)) return {};
    return {{shards(std::array{path}), static_cast<std::int64_t>(std::filesystem::file_size(path))}};
}

std::vector<ChosenColumn> columns(std::initializer_list<std::string_view> names) {
    std::vector<ChosenColumn> chosen;
    for (const std::string_view name : names) chosen.push_back(scan_column(name).value());
    return chosen;
}

std::vector<ChosenColumn> game_columns() {
    return columns({"file", "game_offset", "ply", "mover", "move_played", "result", "white_rating", "black_rating",
                    "clock", "evaluation"});
}

std::vector<ChosenColumn> vector_columns() {
    std::vector<ChosenColumn> chosen;
    for (const FeatureColumn& column : feature_schema()) chosen.push_back(scan_column(column.name).value());
    return chosen;
}

std::vector<ChosenColumn> all_columns() {
    std::vector<ChosenColumn> chosen = game_columns();
    for (ChosenColumn& column : vector_columns()) chosen.push_back(std::move(column));
    return chosen;
}

Amount amount(const ScanCounts& counts, const GameFile& file) {
    return {static_cast<std::int64_t>(counts.positions), file.bytes};
}

/// `work(file, threads)` on one thread and on more.
template <class Work>
void add_threads(Operations& operations, const std::string& name, std::initializer_list<int> counts, Work work) {
    for (const int threads : counts) {
        auto& operation = operations.add(name + '/' + std::to_string(threads), "position", game_files,
                                         [work, threads](const GameFile& file) { return work(file, threads); });
        operation.real_time = true;
        operation.counted = threads == 1;
    }
}

void add_scan(Operations& operations, const std::string& name, std::initializer_list<int> counts,
              const std::vector<ChosenColumn>& chosen, const RowFilter& filter = {}) {
    add_threads(operations, name, counts, [chosen, filter](const GameFile& file, int threads) {
        Scan scan{file.shards, chosen, filter, threads};
        while (const auto batch = scan.next()) benchmark::DoNotOptimize(batch.get());
        return amount(scan.counts(), file);
    });
}

/// Its items are games, as there are no positions.
void add_scan_of_nothing(Operations& operations) {
    RowFilter nothing;
    nothing.games.tags.push_back({"Event", {"none of that name"}, std::nullopt, std::nullopt});
    auto& operation = operations.add("scan/all_games_left_out/1", "game", game_files, [nothing](const GameFile& file) {
        Scan scan{file.shards, game_columns(), nothing, 1};
        while (const auto batch = scan.next()) benchmark::DoNotOptimize(batch.get());
        return Amount{static_cast<std::int64_t>(scan.counts().left_out), file.bytes};
    });
    operation.real_time = true;
}

void add_scans(Operations& operations) {
    add_scan(operations, "scan/all_static_columns", {1, 2}, all_columns());
    add_scan(operations, "scan/game_columns", {1, 2}, game_columns());
    add_scan_of_nothing(operations);
    RowFilter few;
    few.plies = {20, 20, 1};
    add_scan(operations, "scan/threats_at_ply_20", {1}, columns({"threats", "threat_gain"}), few);
    add_threads(operations, "summarise/all_static_columns", {1, 2}, [](const GameFile& file, int threads) {
        const Summary empty{columns({"white_rating_band", "phase"}), vector_columns()};
        return amount(Summarising{file.shards, empty, {}, threads}.result().counts(), file);
    });
}

using Numbers = std::vector<std::int64_t>;

std::vector<Numbers> random_numbers(Purpose) {
    std::mt19937 random{1};
    Numbers numbers(4096);
    for (std::int64_t& number : numbers) number = static_cast<std::int64_t>(random() % 200) - 100;
    return {numbers};
}

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    add_scans(operations);
    operations.unit = benchmark::kMicrosecond;
    operations.add("statistics", "number", random_numbers, [](const Numbers& numbers) {
        Statistics statistics;
        for (const std::int64_t number : numbers) statistics.add(number);
        benchmark::DoNotOptimize(statistics.sums().sum);
        return numbers.size();
    });
}
