// What the program prints, and writes as JSON: tables, and bars that figures have to reach.
#pragma once

#include <concepts>
#include <string>
#include <string_view>
#include <vector>

namespace accuracy {

/// How many of some cases.
struct Share {
    int of = 0;
    int hits = 0;

    void add(bool hit) noexcept {
        ++of;
        hits += hit ? 1 : 0;
    }
    [[nodiscard]] double percent() const noexcept { return of == 0 ? 0 : 100.0 * hits / of; }
};

/// The mean of whole numbers.
struct Mean {
    int of = 0;
    int sum = 0;

    void add(int number) noexcept {
        ++of;
        sum += number;
    }
    [[nodiscard]] double value() const noexcept { return of == 0 ? 0 : static_cast<double>(sum) / of; }
};

/// The text between quotes, as JSON has it.
[[nodiscard]] std::string quoted(std::string_view text);

/// A cell of a table, as people and as programs read it.
struct Cell {
    std::string shown;
    std::string json;

    template <std::convertible_to<std::string_view> Text>
    Cell(const Text& text) : shown{std::string_view{text}}, json{quoted(shown)} {}
    Cell(int count) : shown{std::to_string(count)}, json{shown} {}
    Cell(double number);
    Cell(Share share);
    Cell(Mean mean) : Cell{mean.value()} {}
};

struct Table {
    std::string name; ///< its key in the JSON, where it is a list of objects
    std::string title;
    std::vector<std::string> columns; ///< in the JSON with "_" for spaces
    std::vector<std::vector<Cell>> rows;
};

/// A figure and what it has to reach.
struct Bar {
    std::string what;
    double figure = 0;
    double wanted = 0;
    bool at_most = false; ///< otherwise at least

    [[nodiscard]] bool is_met() const noexcept { return at_most ? figure <= wanted : figure >= wanted; }
};

struct Report {
    std::vector<Table> tables;
    std::vector<Bar> bars;

    [[nodiscard]] bool every_bar_is_met() const noexcept;
};

void print(const Report& report);
/// Throws `std::runtime_error` when the file can't be written.
void write_json(const Report& report, const std::string& file_name);

} // namespace accuracy
