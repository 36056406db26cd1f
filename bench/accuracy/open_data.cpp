#include "open_data.hpp"

#include <cstdlib>
#include <fstream>
#include <sstream>

#include <keysquare/notation/coordinate.hpp>

namespace accuracy {

using namespace keysquare;

namespace {

std::vector<std::string> lines_of(const std::string& name) {
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    std::ifstream file{std::string{folder ? folder : "../shared/data"} + "/" + name};
    std::vector<std::string> lines;
    for (std::string line; std::getline(file, line);) {
        if (line.ends_with('\r')) line.pop_back();
        lines.push_back(line);
    }
    if (lines.empty()) throw NoData{"no open data (" + name + "), set KEYSQUARE_OPEN_DATA"};
    return lines;
}

/// The columns are id, FEN before the other side's last move, that move and the solution, rating, labels.
Puzzle puzzle_in(const std::string& line) {
    const auto fields = split(line, ',');
    Puzzle puzzle{fields.at(0), split(fields.at(4), ' '), {}, {}};
    Position position = read_fen(fields.at(1)).value();
    for (const std::string& text : split(fields.at(2), ' ')) {
        puzzle.positions.push_back(position);
        puzzle.moves.push_back(read_move(position, text).value());
        position = after(position, puzzle.moves.back());
    }
    puzzle.positions.erase(puzzle.positions.begin());
    puzzle.moves.erase(puzzle.moves.begin());
    return puzzle;
}

} // namespace

std::vector<Puzzle> read_puzzles() {
    auto lines = lines_of("open-puzzles.csv");
    lines.erase(lines.begin()); // the names of the columns
    std::vector<Puzzle> puzzles;
    puzzles.reserve(lines.size());
    for (const std::string& line : lines) puzzles.push_back(puzzle_in(line));
    return puzzles;
}

std::vector<EpdRecord> read_records(const std::string& name) {
    std::vector<EpdRecord> records;
    for (const std::string& line : lines_of("epd/" + name + ".epd")) records.push_back(read_epd(line).value());
    return records;
}

std::vector<std::string> split(const std::string& text, char separator) {
    std::vector<std::string> fields;
    std::istringstream stream{text};
    for (std::string field; std::getline(stream, field, separator);) fields.push_back(field);
    return fields;
}

} // namespace accuracy
