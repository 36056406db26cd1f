// Where the open data lies that some tests read, and how a test says that it is missing.
#pragma once

#include <boost/test/unit_test.hpp>

#include <cstdlib>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

namespace keysquare::test {

/// The lines of a file of the open data, without empty ones. When the data is missing the test says so and gets
/// nothing.
inline std::optional<std::vector<std::string>> open_data_lines(const std::string& file) {
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    std::ifstream in(std::string{folder ? folder : "../shared/data"} + "/" + file);
    if (!in) {
        BOOST_TEST_MESSAGE("skipped: " << file << " not found; set KEYSQUARE_OPEN_DATA to the folder of the open data");
        return std::nullopt;
    }
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);)
        if (!line.empty()) lines.push_back(line);
    return lines;
}

} // namespace keysquare::test
