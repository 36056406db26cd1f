// What the library sees, held to what others found in the same positions.
//
// usage: accuracy [--json FILE]        data: the folder KEYSQUARE_OPEN_DATA, or ../shared/data
//
// Each question stands in a file of its own. Status 0 when every bar is met, 1 when one is missed or something can't be
// read or written, 2 for wrong arguments, 77 without the data.
#include <exception>
#include <iostream>

#include "questions.hpp"

namespace {

accuracy::Report ask_everything() {
    const auto puzzles = accuracy::read_puzzles();
    accuracy::Report report;
    accuracy::ask_themes(puzzles, report);
    accuracy::ask_candidates(puzzles, report);
    accuracy::ask_threats(puzzles, report);
    return report;
}

} // namespace

int main(int argument_count, char** arguments) {
    const std::vector<std::string> given{arguments + 1, arguments + argument_count};
    if (!given.empty() && (given.size() != 2 || given[0] != "--json")) {
        std::cerr << "usage: accuracy [--json FILE]\n";
        return 2;
    }
    try {
        const accuracy::Report report = ask_everything();
        accuracy::print(report);
        if (!given.empty()) accuracy::write_json(report, given[1]);
        return report.every_bar_is_met() ? 0 : 1;
    } catch (const accuracy::NoData& missing) {
        std::cerr << "skipped: " << missing.what() << '\n';
        return 77;
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
