// How often the tactical themes are found where a teacher would name them, and where nobody does.
//
// usage: accuracy [--json FILE] [--misses]      (data: KEYSQUARE_OPEN_DATA, default ../shared/data)
//
// - open-puzzles.csv: the solution is walked; a theme counts as found when some position of it, the solver to move, has a
//   finding of the theme for the solver. Recall is over the puzzles with the label, the claim rate over those without it.
// - strategic-test-suite-a.epd: quiet positions; the mean number of tactical findings that win something, both sides.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include <keysquare/features/findings.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/epd.hpp>
#include <keysquare/notation/fen.hpp>

namespace {

using namespace keysquare;

struct Label {
    std::string_view label;
    Theme theme;
    int least_recall; ///< the bar, in percent
};

constexpr std::array labels{
    Label{"fork", Theme::fork, 90},
    Label{"pin", Theme::pin, 90},
    Label{"skewer", Theme::skewer, 90},
    Label{"discoveredAttack", Theme::discovered_attack, 90},
    Label{"hangingPiece", Theme::hanging, 90},
    Label{"trappedPiece", Theme::trapped_piece, 90},
    Label{"capturingDefender", Theme::removable_guard, 90},
    Label{"backRankMate", Theme::back_rank, 90},
    Label{"mateIn1", Theme::mate_in_one, 100},
    Label{"mateIn2", Theme::mate_in_two, 100},
};

/// The themes that speak of winning something by force from the position itself.
constexpr std::array tactical{Theme::hanging,
                              Theme::overloaded,
                              Theme::pin,
                              Theme::skewer,
                              Theme::fork,
                              Theme::double_attack,
                              Theme::back_rank,
                              Theme::mate_in_one,
                              Theme::removable_guard,
                              Theme::mate_in_two,
                              Theme::trapped_piece,
                              Theme::discovered_attack,
                              Theme::promotion_threat,
                              Theme::intermediate_move};

struct Puzzle {
    std::string id;
    std::string themes;
    Side solver = Side::white;
    std::vector<Position> to_solve; ///< the positions of the solution in which the solver moves
};

std::string data_folder() {
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    return folder ? folder : "../shared/data";
}

bool has_word(std::string_view words, std::string_view word) {
    return (" " + std::string{words} + " ").find(" " + std::string{word} + " ") != std::string::npos;
}

std::vector<std::string> split(const std::string& line, char separator) {
    std::vector<std::string> fields;
    std::istringstream stream{line};
    for (std::string field; std::getline(stream, field, separator);) fields.push_back(field);
    return fields;
}

std::vector<Puzzle> read_puzzles() {
    std::vector<Puzzle> puzzles;
    std::ifstream file{data_folder() + "/open-puzzles.csv"};
    std::string line;
    std::getline(file, line); // the column names
    while (std::getline(file, line)) {
        if (line.ends_with('\r')) line.pop_back();
        const auto fields = split(line, ',');
        Puzzle puzzle{fields.at(0), fields.at(4), Side::white, {}};
        Position position = read_fen(fields.at(1)).value();
        puzzle.solver = position.waiter();
        for (const std::string& text : split(fields.at(2), ' ')) {
            if (position.mover() == puzzle.solver) puzzle.to_solve.push_back(position);
            position = after(position, read_move(position, text).value());
        }
        puzzles.push_back(puzzle);
    }
    return puzzles;
}

/// For each label, whether its theme is found for the solver at all, and with a gain.
struct Seen {
    std::array<bool, labels.size()> at_all{};
    std::array<bool, labels.size()> with_gain{};
};

Seen look(const Puzzle& puzzle) {
    Seen seen;
    Findings found;
    for (const Position& position : puzzle.to_solve) {
        findings(position, found);
        for (const Finding& finding : found)
            for (std::size_t at = 0; at < labels.size(); ++at)
                if (finding.theme == labels[at].theme && finding.side == puzzle.solver) {
                    seen.at_all[at] = true;
                    seen.with_gain[at] |= finding.gain > 0 || finding.mate;
                }
    }
    return seen;
}

struct Row {
    int labelled = 0;
    int found = 0;
    int found_with_gain = 0;
    int others = 0;
    int claimed = 0;
    int claimed_with_gain = 0;
};

double percent(int part, int whole) { return whole == 0 ? 0.0 : 100.0 * part / whole; }

struct Quiet {
    int positions = 0;
    int findings = 0;
    std::array<int, static_cast<std::size_t>(Theme::end_)> by_theme{};
};

Quiet look_at_quiet_positions() {
    Quiet quiet;
    std::ifstream file{data_folder() + "/epd/strategic-test-suite-a.epd"};
    Findings found;
    for (std::string line; std::getline(file, line);) {
        if (line.ends_with('\r')) line.pop_back();
        const auto epd = read_epd(line);
        if (!epd) continue;
        ++quiet.positions;
        findings(epd.value().position, found);
        for (const Finding& finding : found) {
            if (finding.gain <= 0 && !finding.mate) continue;
            if (std::ranges::find(tactical, finding.theme) == tactical.end()) continue;
            ++quiet.findings;
            ++quiet.by_theme[static_cast<std::size_t>(finding.theme)];
        }
    }
    return quiet;
}

} // namespace

int main(int count, char** arguments) {
    std::string json_file;
    bool misses = false;
    for (int at = 1; at < count; ++at) {
        const std::string_view argument = arguments[at];
        if (argument == "--json" && at + 1 < count)
            json_file = arguments[++at];
        else if (argument == "--misses")
            misses = true;
        else {
            std::fprintf(stderr, "usage: accuracy [--json FILE] [--misses]\n");
            return 2;
        }
    }
    const std::vector<Puzzle> puzzles = read_puzzles();
    if (puzzles.empty()) {
        std::fprintf(stderr, "no open data: set KEYSQUARE_OPEN_DATA\n");
        return 1;
    }
    std::array<Row, labels.size()> rows{};
    for (const Puzzle& puzzle : puzzles) {
        const Seen seen = look(puzzle);
        for (std::size_t at = 0; at < labels.size(); ++at) {
            Row& row = rows[at];
            if (has_word(puzzle.themes, labels[at].label)) {
                ++row.labelled;
                row.found += seen.at_all[at];
                row.found_with_gain += seen.with_gain[at];
                if (misses && !seen.at_all[at])
                    std::printf("missed %s: puzzle %s (%s)\n", labels[at].label.data(), puzzle.id.c_str(),
                                puzzle.themes.c_str());
                else if (misses && !seen.with_gain[at])
                    std::printf("no gain %s: puzzle %s (%s)\n", labels[at].label.data(), puzzle.id.c_str(),
                                puzzle.themes.c_str());
            } else {
                ++row.others;
                row.claimed += seen.at_all[at];
                row.claimed_with_gain += seen.with_gain[at];
            }
        }
    }
    std::printf("%-18s %8s %8s %10s %10s %12s\n", "theme", "labelled", "recall", "with gain", "claimed",
                "claimed/gain");
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const Row& row = rows[at];
        std::printf("%-18s %8d %7.1f%% %9.1f%% %9.1f%% %11.1f%%\n", std::string{name(labels[at].theme)}.c_str(),
                    row.labelled, percent(row.found, row.labelled), percent(row.found_with_gain, row.labelled),
                    percent(row.claimed, row.others), percent(row.claimed_with_gain, row.others));
    }
    const Quiet quiet = look_at_quiet_positions();
    std::printf("quiet positions: %d, tactical findings with gain per position %.2f\n", quiet.positions,
                quiet.positions ? double(quiet.findings) / quiet.positions : 0.0);
    for (const Theme theme : tactical)
        std::printf("  %-18s %.3f\n", std::string{name(theme)}.c_str(),
                    double(quiet.by_theme[static_cast<std::size_t>(theme)]) / quiet.positions);
}
