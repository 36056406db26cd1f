// What operations are measured on. All inputs come from games; see `Purpose` for where they are read.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/pgn.hpp>

#include "operations.hpp"

namespace bench {

/// A file of the open data; it need not be there.
inline std::filesystem::path open_data(const std::string& name) {
    const char* const folder = std::getenv("KEYSQUARE_OPEN_DATA");
    return std::filesystem::path{folder ? folder : "../shared/data"} / name;
}

/// A file of this folder.
inline std::filesystem::path kept_file(const std::string& name) {
    return std::filesystem::path{KEYSQUARE_BENCH_DIR} / name;
}

/// The games of the invented club.
inline std::filesystem::path season() { return kept_file("../examples/data/season.pgn"); }

/// Empty when the file is missing.
inline std::string text_of(const std::filesystem::path& path) {
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

inline std::vector<std::string> lines_of(const std::filesystem::path& path) {
    std::vector<std::string> lines;
    std::ifstream file{path};
    for (std::string line; std::getline(file, line);) lines.push_back(line);
    return lines;
}

/// A line of positions.epd: a published position with the leaf count of one of its listed depths.
struct PerftCase {
    std::string name;
    keysquare::Position position;
    int depth = 0;
    std::uint64_t leaves = 0;
};

/// The deepest listed depth for timing, the shallowest for counting.
inline std::vector<PerftCase> perft_cases(Purpose purpose) {
    std::vector<PerftCase> cases;
    for (const std::string& line : lines_of(kept_file("positions.epd"))) {
        const auto name_at = line.find("id \"") + 4;
        const auto depth_at = (purpose == Purpose::timing ? line.rfind(" D") : line.find(" D")) + 2;
        const auto leaves_at = line.find(' ', depth_at);
        cases.push_back({line.substr(name_at, line.find('"', name_at) - name_at),
                         keysquare::read_fen(line.substr(0, name_at - 5)).value(),
                         std::stoi(line.substr(depth_at, leaves_at - depth_at)), std::stoull(line.substr(leaves_at))});
    }
    if (cases.empty()) throw std::runtime_error{"bench/positions.epd can't be read"};
    return cases;
}

/// The FENs of the open puzzles, 1,024 positions from rated games; for counting, positions of the invented club in
/// which something can be won.
inline std::vector<std::string> tactical_fens(Purpose purpose) {
    if (purpose == Purpose::counting) return lines_of(kept_file("tactical_positions.fen"));
    std::vector<std::string> fens = lines_of(open_data("open-puzzles.csv"));
    if (!fens.empty()) fens.erase(fens.begin()); // the column names
    for (std::string& line : fens) {
        const auto fen_at = line.find(',') + 1;
        line = line.substr(fen_at, line.find(',', fen_at) - fen_at);
    }
    return fens;
}

inline std::vector<keysquare::Position> positions_of(const std::vector<std::string>& fens) {
    std::vector<keysquare::Position> positions;
    for (const std::string& fen : fens) positions.push_back(keysquare::read_fen(fen).value());
    return positions;
}

inline std::vector<keysquare::Position> tactical_positions(Purpose purpose) {
    return positions_of(tactical_fens(purpose));
}

/// The first games of a file that can be read.
inline std::vector<keysquare::Game> first_games(const std::filesystem::path& path, std::size_t count) {
    std::vector<keysquare::Game> games;
    std::ifstream file{path, std::ios::binary};
    keysquare::PgnReader reader{file};
    while (games.size() < count) {
        auto game = reader.next();
        if (!game) break;
        if (*game) games.push_back(**std::move(game));
    }
    return games;
}

/// 2,000 positions from tournament games, every eleventh ply of each; for counting, positions of the invented club.
inline std::vector<keysquare::Position> game_positions(Purpose purpose) {
    if (purpose == Purpose::counting) return positions_of(lines_of(kept_file("game_positions.fen")));
    constexpr std::size_t wanted = 2000;
    std::vector<keysquare::Position> positions;
    for (const keysquare::Game& game : first_games(open_data("pgn/masters.pgn"), wanted / 4)) {
        keysquare::Position position = game.start();
        int ply = 0;
        for (const keysquare::Move move : game.main_line()) {
            position = after(position, move);
            if (++ply % 11 == 0) positions.push_back(position);
        }
        if (positions.size() >= wanted) break;
    }
    return positions;
}

} // namespace bench
