#include "report.hpp"

#include <algorithm>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <sstream>
#include <stdexcept>

namespace accuracy {

namespace {

std::string with_decimals(double number, int decimals) {
    std::ostringstream stream;
    stream << std::fixed << std::setprecision(decimals) << number;
    return stream.str();
}

/// The bars as one more table.
Table table_of(const std::vector<Bar>& bars) {
    Table table{"bars", "Bars", {"figure", "measured", "bar", "wanted", "met"}, {}};
    for (const Bar& bar : bars)
        table.rows.push_back(
            {bar.what, bar.figure, bar.at_most ? "at most" : "at least", bar.wanted, bar.is_met() ? "yes" : "NO"});
    return table;
}

std::vector<Table> all_tables(const Report& report) {
    std::vector<Table> tables = report.tables;
    tables.push_back(table_of(report.bars));
    return tables;
}

std::size_t width_of(const Table& table, std::size_t column) {
    std::size_t width = table.columns[column].size();
    for (const auto& row : table.rows) width = std::max(width, row[column].shown.size());
    return width;
}

bool holds_words(const Table& table, std::size_t column) {
    return !table.rows.empty() && table.rows.front()[column].json.starts_with('"');
}

/// Words stand on the left of their column, numbers on the right. `text_of` gives the text of each column.
template <class TextOf> void print_row(const Table& table, TextOf text_of) {
    std::ostringstream row;
    for (std::size_t column = 0; column < table.columns.size(); ++column)
        row << "  " << (holds_words(table, column) ? std::left : std::right)
            << std::setw(static_cast<int>(width_of(table, column))) << text_of(column);
    std::string text = row.str();
    text.erase(text.find_last_not_of(' ') + 1);
    std::cout << text << '\n';
}

void print(const Table& table) {
    std::cout << table.title << '\n';
    print_row(table, [&](std::size_t column) { return table.columns[column]; });
    for (const auto& row : table.rows) print_row(table, [&](std::size_t column) { return row[column].shown; });
    std::cout << '\n';
}

void write_json(const Table& table, std::ostream& out) {
    out << "  " << quoted(table.name) << ": [";
    for (std::size_t at = 0; at < table.rows.size(); ++at) {
        out << (at == 0 ? "\n    {" : ",\n    {");
        for (std::size_t column = 0; column < table.columns.size(); ++column) {
            std::string key = table.columns[column];
            std::ranges::replace(key, ' ', '_');
            out << (column == 0 ? "" : ", ") << quoted(key) << ": " << table.rows[at][column].json;
        }
        out << '}';
    }
    out << "\n  ]";
}

} // namespace

std::string quoted(std::string_view text) {
    std::ostringstream stream;
    stream << std::quoted(text);
    return stream.str();
}

Cell::Cell(double number) : shown{with_decimals(number, 2)}, json{with_decimals(number, 3)} {}
Cell::Cell(Share share) : shown{with_decimals(share.percent(), 1) + " %"}, json{with_decimals(share.percent(), 3)} {}

bool Report::every_bar_is_met() const noexcept { return std::ranges::all_of(bars, &Bar::is_met); }

void print(const Report& report) {
    for (const Table& table : all_tables(report)) print(table);
}

void write_json(const Report& report, const std::string& file_name) {
    std::ofstream file{file_name};
    file << "{\n";
    const std::vector<Table> tables = all_tables(report);
    for (std::size_t at = 0; at < tables.size(); ++at) {
        write_json(tables[at], file);
        file << (at + 1 < tables.size() ? ",\n" : "\n}\n");
    }
    if (!file.flush()) throw std::runtime_error{"can't write " + file_name};
}

} // namespace accuracy
