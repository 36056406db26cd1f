// The open data that accuracy is measured on. Where it is published: see the README.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include <keysquare/notation/epd.hpp>

namespace accuracy {

/// A file of the open data is not there, or holds nothing.
struct NoData : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A line of open-puzzles.csv. The solver makes the first, third, ... move of the solution.
struct Puzzle {
    std::string id;
    std::vector<std::string> labels;
    std::vector<keysquare::Position> positions; ///< before each move of the solution
    std::vector<keysquare::Move> moves;         ///< the solution
};

/// In the order of the file. Throws `NoData`, and `InputError` for what can't be read.
[[nodiscard]] std::vector<Puzzle> read_puzzles();

/// The records of a file in the folder epd/ ("kaufman"), in its order. Throws like `read_puzzles`.
[[nodiscard]] std::vector<keysquare::EpdRecord> read_records(const std::string& name);

inline constexpr const char* suite = "strategic-test-suite-a";

/// Whether a puzzle or a record of the suite is one that the weights in `thinking/fact_weights.hpp` were not fitted to.
/// `place` counts from 0.
[[nodiscard]] constexpr bool is_held_out(std::size_t place) noexcept { return place % 2 == 1; }

[[nodiscard]] std::vector<std::string> split(const std::string& text, char separator);

} // namespace accuracy
