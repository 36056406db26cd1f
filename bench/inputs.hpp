// What the benchmarks run on.
#pragma once

#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/pgn.hpp>

namespace bench {

/// A line of positions.epd: a published position with the leaf count of its deepest listed depth.
struct PerftCase {
    std::string name;
    keysquare::Position position;
    int depth = 0;
    std::uint64_t leaves = 0;
};

inline std::vector<PerftCase> perft_cases() {
    std::vector<PerftCase> cases;
    std::ifstream file{KEYSQUARE_BENCH_DIR "/positions.epd"};
    for (std::string line; std::getline(file, line);) {
        const auto name_at = line.find("id \"") + 4;
        const auto depth_at = line.rfind(" D") + 2;
        const auto leaves_at = line.find(' ', depth_at);
        cases.push_back({line.substr(name_at, line.find('"', name_at) - name_at),
                         keysquare::read_fen(line.substr(0, name_at - 5)).value(),
                         std::stoi(line.substr(depth_at, leaves_at - depth_at)), std::stoull(line.substr(leaves_at))});
    }
    if (cases.empty()) throw std::runtime_error{"bench/positions.epd can't be read"};
    return cases;
}

/// The FENs of the open puzzles: 1,024 positions from rated games. Empty without the open data.
inline const std::vector<std::string>& game_fens() {
    static const std::vector<std::string> fens = [] {
        std::vector<std::string> found;
        const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
        std::ifstream file{std::string{folder ? folder : "../shared/data"} + "/open-puzzles.csv"};
        std::string line;
        std::getline(file, line); // the column names
        while (std::getline(file, line)) {
            const auto fen_at = line.find(',') + 1;
            found.push_back(line.substr(fen_at, line.find(',', fen_at) - fen_at));
        }
        return found;
    }();
    return fens;
}

inline const std::vector<keysquare::Position>& game_positions() {
    static const std::vector<keysquare::Position> positions = [] {
        std::vector<keysquare::Position> read;
        for (const std::string& fen : game_fens()) read.push_back(keysquare::read_fen(fen).value());
        return read;
    }();
    return positions;
}

/// The first games of a file of the open data that can be read. Empty without it.
inline std::vector<keysquare::Game> games_of(const std::string& name, std::size_t count) {
    std::vector<keysquare::Game> read;
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    std::ifstream file{std::string{folder ? folder : "../shared/data"} + "/pgn/" + name, std::ios::binary};
    keysquare::PgnReader reader{file};
    while (read.size() < count) {
        auto game = reader.next();
        if (!game) break;
        if (*game) read.push_back(**std::move(game));
    }
    return read;
}

/// 2,000 positions from tournament games, every eleventh ply of each. Empty without the open data.
inline const std::vector<keysquare::Position>& tournament_positions() {
    static const std::vector<keysquare::Position> positions = [] {
        std::vector<keysquare::Position> read;
        const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
        std::ifstream file{std::string{folder ? folder : "../shared/data"} + "/pgn/masters.pgn", std::ios::binary};
        keysquare::PgnReader reader{file};
        keysquare::Game game;
        while (read.size() < 2000 && reader.next(game) != keysquare::Reading::end) {
            keysquare::Position position = game.start();
            int ply = 0;
            for (const keysquare::Move move : game.main_line()) {
                position = after(position, move);
                if (++ply % 11 == 0) read.push_back(position);
            }
        }
        return read;
    }();
    return positions;
}

/// Runs `work` on each of `inputs`, with the sum of what it returns as the number of items.
template <class Inputs, class Work> void run(benchmark::State& state, const Inputs& inputs, Work work) {
    if (inputs.empty()) {
        state.SkipWithError("no open data: set KEYSQUARE_OPEN_DATA");
        return;
    }
    std::int64_t items = 0;
    for ([[maybe_unused]] auto _ : state)
        for (const auto& input : inputs) items += static_cast<std::int64_t>(work(input));
    state.SetItemsProcessed(items);
}

} // namespace bench
