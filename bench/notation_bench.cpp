// PGN, SAN and move text. Bytes a second for PGN; "items" are moves elsewhere.
#include <benchmark/benchmark.h>

#include <filesystem>
#include <sstream>

#include <keysquare/notation/game_file.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/san.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::run;

std::string file_of_open_data(const std::string& name) {
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    std::ifstream file{std::string{folder ? folder : "../shared/data"} + "/" + name, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

/// Every game of a file read and replayed into the same `Game`. "Items" are moves.
void read_pgn(benchmark::State& state, const std::string& name, bool keep_comments) {
    const std::string text = file_of_open_data(name);
    if (text.empty()) {
        state.SkipWithError("no open data: set KEYSQUARE_OPEN_DATA");
        return;
    }
    std::int64_t moves = 0;
    for ([[maybe_unused]] auto _ : state) {
        PgnOptions options;
        options.keep_comments = keep_comments;
        PgnReader reader{std::make_unique<TextSource>(text), options};
        Game game;
        while (reader.next(game) != Reading::end) moves += static_cast<std::int64_t>(game.steps().size()) - 1;
    }
    state.SetItemsProcessed(moves);
    state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations()) * static_cast<std::int64_t>(text.size()));
}

/// The games of a file written compressed and read again, replayed. Bytes are those of the text.
void read_compressed(benchmark::State& state, const std::string& suffix) {
    const std::string text = file_of_open_data("pgn/masters.pgn");
    if (text.empty()) {
        state.SkipWithError("no open data: set KEYSQUARE_OPEN_DATA");
        return;
    }
    const std::filesystem::path path = std::filesystem::temp_directory_path() / ("keysquare_bench.pgn" + suffix);
    GameFileWriter writer{path};
    writer.write_text(text);
    writer.close();
    std::int64_t moves = 0;
    for ([[maybe_unused]] auto _ : state) {
        PgnReader reader = read_games(path).value();
        Game game;
        while (reader.next(game) != Reading::end) moves += static_cast<std::int64_t>(game.steps().size()) - 1;
    }
    state.SetItemsProcessed(moves);
    state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations()) * static_cast<std::int64_t>(text.size()));
    std::filesystem::remove(path);
}

const bool pgn_registered = [] {
    for (const char* name : {"masters.pgn", "rated-with-evals.pgn"})
        for (const bool keep_comments : {true, false})
            benchmark::RegisterBenchmark(
                (std::string{"read_pgn/"} + name + (keep_comments ? "" : "/without_comments")).c_str(), read_pgn,
                std::string{"pgn/"} + name, keep_comments)
                ->Unit(benchmark::kMillisecond);
    for (const char* suffix : {".zst", ".gz", ".bz2"})
        benchmark::RegisterBenchmark((std::string{"read_compressed/masters.pgn"} + suffix).c_str(), read_compressed,
                                     std::string{suffix})
            ->Unit(benchmark::kMillisecond);
    return true;
}();

void write_all_san(benchmark::State& state) {
    std::string text;
    run(state, bench::game_positions(), [&](const Position& position) {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) {
            text.clear();
            write_san(position, move, text);
            benchmark::DoNotOptimize(text.data());
        }
        return moves.size();
    });
}
BENCHMARK(write_all_san)->Name("write_san")->Unit(benchmark::kMicrosecond);

void read_all_san(benchmark::State& state) {
    struct Written {
        Position position;
        std::vector<std::string> moves;
    };
    std::vector<Written> inputs;
    for (const Position& position : bench::game_positions()) {
        inputs.push_back({position, {}});
        for (const Move move : legal_moves(position)) inputs.back().moves.push_back(san(position, move));
    }
    run(state, inputs, [](const Written& input) {
        for (const std::string& text : input.moves) benchmark::DoNotOptimize(read_san(input.position, text));
        return input.moves.size();
    });
}
BENCHMARK(read_all_san)->Name("read_san")->Unit(benchmark::kMicrosecond);

} // namespace
