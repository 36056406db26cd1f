// How often the tactical themes are found where a label names them, and how often where no label does.
//
// usage: accuracy [--json FILE]        data: the folder KEYSQUARE_OPEN_DATA, or ../shared/data
//
// - open-puzzles.csv: the solution is walked; a theme is found when a position of it, the solver to move, has a finding
//   of the theme for the solver. Recall counts the puzzles with the label, the claim rate those without it, each for
//   all findings and for those that win something.
// - epd/strategic-test-suite-a.epd: quiet positions; the mean number of tactical findings that win something, for both
//   sides together.
// Status 0 when every bar is met, 1 when one is missed, 77 without the data.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
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

constexpr double most_findings_per_quiet_position = 1.5;

struct Label {
    std::string_view label;
    Theme theme;
    double least_recall; ///< the bar, in percent
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

/// Themes that speak of winning something by force from the position itself.
constexpr std::array tactical{Theme::hanging,
                              Theme::overloaded,
                              Theme::pin,
                              Theme::skewer,
                              Theme::fork,
                              Theme::double_attack,
                              Theme::back_rank,
                              Theme::mate_in_one,
                              Theme::mate_in_two,
                              Theme::removable_guard,
                              Theme::trapped_piece,
                              Theme::discovered_attack,
                              Theme::promotion_threat,
                              Theme::intermediate_move};

/// Labels that we do not follow, and why.
struct Disagreement {
    std::string_view puzzle;
    std::string_view label;
    std::string_view reason;
};

constexpr std::array disagreements{
    Disagreement{"eN1Ve", "pin", "10.Rg1 pins the bishop, but 10...h5 guards it; what wins is h2-h3 a move later"},
    Disagreement{"AxobF", "pin", "Nxe5+ wins the pawn and Qxh5 the bishop; the pin only forbids a capture on the way"},
    Disagreement{"dpJqe", "discoveredAttack", "the line opens when the other side takes back"},
    Disagreement{"4kcky", "discoveredAttack", "the uncovered pawn falls only after a check has drawn its guard away"},
    Disagreement{"003wQ", "discoveredAttack", "the line opens when the other side takes back"},
    Disagreement{"009FS", "discoveredAttack", "the line opens when the other side's knight leaves it"},
    Disagreement{"00RtC", "discoveredAttack", "the uncovered rook is guarded; the point is that its guard is pinned"},
    Disagreement{"5W6fw", "fork", "the move is part of a forced mate and wins nothing else"},
    Disagreement{"ZJKXL", "fork", "the move is part of a forced mate and wins nothing else"},
    Disagreement{"f0qcA", "fork", "the move is part of a forced mate and wins nothing else"},
    Disagreement{"fTNyA", "fork", "the move is part of a forced mate and wins nothing else"},
    Disagreement{"007XE", "fork", "the move is part of a forced mate and wins nothing else"},
    Disagreement{"rvjDt", "fork",
                 "28.e5 answers the fork by a counter-attack on the queen, which the bound can't settle"},
};

struct Puzzle {
    std::string id;
    std::string labels;
    Side solver = Side::white;
    std::vector<Position> to_solve; ///< the positions of the solution in which the solver moves
};

struct Row {
    int labelled = 0;
    int found = 0;
    int found_with_gain = 0;
    int others = 0;
    int claimed = 0;
    int claimed_with_gain = 0;
    std::vector<std::string> missed; ///< puzzles

    [[nodiscard]] double recall() const { return 100.0 * found / std::max(labelled, 1); }
    [[nodiscard]] double recall_with_gain() const { return 100.0 * found_with_gain / std::max(labelled, 1); }
    [[nodiscard]] double claims() const { return 100.0 * claimed / std::max(others, 1); }
    [[nodiscard]] double claims_with_gain() const { return 100.0 * claimed_with_gain / std::max(others, 1); }
};

using Rows = std::array<Row, labels.size()>;

struct Quiet {
    int positions = 0;
    int findings = 0;

    [[nodiscard]] double mean() const { return static_cast<double>(findings) / std::max(positions, 1); }
};

std::string data_folder() {
    const char* folder = std::getenv("KEYSQUARE_OPEN_DATA");
    return folder ? folder : "../shared/data";
}

std::vector<std::string> split(const std::string& line, char separator) {
    std::vector<std::string> fields;
    std::istringstream stream{line};
    for (std::string field; std::getline(stream, field, separator);) fields.push_back(field);
    return fields;
}

bool has_label(const Puzzle& puzzle, std::string_view label) {
    return std::ranges::any_of(split(puzzle.labels, ' '), [&](const std::string& word) { return word == label; });
}

template <class Read> void each_line(const std::string& file_name, Read read) {
    std::ifstream file{data_folder() + file_name};
    for (std::string line; std::getline(file, line);) {
        if (line.ends_with('\r')) line.pop_back();
        read(line);
    }
}

/// The columns are id, FEN before the other side's last move, moves, rating, labels; the first line names them.
std::vector<Puzzle> read_puzzles() {
    std::vector<Puzzle> puzzles;
    bool names = true;
    each_line("/open-puzzles.csv", [&](const std::string& line) {
        if (std::exchange(names, false)) return;
        const auto fields = split(line, ',');
        Position position = read_fen(fields.at(1)).value();
        Puzzle puzzle{fields.at(0), fields.at(4), position.waiter(), {}};
        for (const std::string& text : split(fields.at(2), ' ')) {
            if (position.mover() == puzzle.solver) puzzle.to_solve.push_back(position);
            position = after(position, read_move(position, text).value());
        }
        puzzles.push_back(std::move(puzzle));
    });
    return puzzles;
}

bool wins(const Finding& finding) { return finding.gain > 0 || finding.mate; }

/// Adds what is found for the solver of one puzzle to every row.
void count(const Puzzle& puzzle, Rows& rows) {
    std::array<bool, labels.size()> found{};
    std::array<bool, labels.size()> with_gain{};
    for (const Position& position : puzzle.to_solve)
        for (const Finding& finding : findings(position))
            for (std::size_t at = 0; at < labels.size(); ++at)
                if (finding.theme == labels[at].theme && finding.side == puzzle.solver) {
                    found[at] = true;
                    with_gain[at] = with_gain[at] || wins(finding);
                }
    for (std::size_t at = 0; at < labels.size(); ++at) {
        Row& row = rows[at];
        const bool labelled = has_label(puzzle, labels[at].label);
        ++(labelled ? row.labelled : row.others);
        (labelled ? row.found : row.claimed) += found[at];
        (labelled ? row.found_with_gain : row.claimed_with_gain) += with_gain[at];
        if (labelled && !found[at]) row.missed.push_back(puzzle.id);
    }
}

Quiet look_at_quiet_positions() {
    Quiet quiet;
    each_line("/epd/strategic-test-suite-a.epd", [&](const std::string& line) {
        const auto record = read_epd(line);
        if (!record) return;
        ++quiet.positions;
        for (const Finding& finding : findings(record.value().position))
            quiet.findings += wins(finding) && std::ranges::find(tactical, finding.theme) != tactical.end();
    });
    return quiet;
}

std::string_view reason_for(std::string_view puzzle, std::string_view label) {
    for (const Disagreement& known : disagreements)
        if (known.puzzle == puzzle && known.label == label) return known.reason;
    return "not looked into";
}

void print_table(const Rows& rows, const Quiet& quiet) {
    std::printf("%-18s %8s %8s %5s %10s %16s %10s\n", "", "with the", "", "", "", "claimed without", "");
    std::printf("%-18s %8s %8s %5s %10s %16s %10s\n", "theme", "label", "recall", "bar", "with gain", "the label",
                "with gain");
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const Row& row = rows[at];
        std::printf("%-18s %8d %7.1f%% %4.0f%% %9.1f%% %15.1f%% %9.1f%%\n", std::string{name(labels[at].theme)}.c_str(),
                    row.labelled, row.recall(), labels[at].least_recall, row.recall_with_gain(), row.claims(),
                    row.claims_with_gain());
    }
    std::printf("\nTactical findings with gain per quiet position (%d positions): %.2f, at most %.1f wanted\n",
                quiet.positions, quiet.mean(), most_findings_per_quiet_position);
    std::printf("\nLabels that are not followed:\n");
    for (std::size_t at = 0; at < labels.size(); ++at)
        for (const std::string& puzzle : rows[at].missed)
            std::printf("  %s %s: %s\n", puzzle.c_str(), std::string{labels[at].label}.c_str(),
                        std::string{reason_for(puzzle, labels[at].label)}.c_str());
}

void write_json(const Rows& rows, const Quiet& quiet, const std::string& file_name) {
    std::ofstream file{file_name};
    file << "{\n  \"themes\": [\n";
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const Row& row = rows[at];
        file << "    {\"theme\": \"" << name(labels[at].theme) << "\", \"labelled\": " << row.labelled
             << ", \"found\": " << row.found << ", \"found_with_gain\": " << row.found_with_gain
             << ", \"least_recall\": " << labels[at].least_recall << ", \"others\": " << row.others
             << ", \"claimed\": " << row.claimed << ", \"claimed_with_gain\": " << row.claimed_with_gain
             << ", \"missed\": [";
        for (std::size_t i = 0; i < row.missed.size(); ++i) file << (i ? ", " : "") << '"' << row.missed[i] << '"';
        file << "]}" << (at + 1 < labels.size() ? "," : "") << '\n';
    }
    file << "  ],\n  \"quiet\": {\"positions\": " << quiet.positions
         << ", \"tactical_findings_with_gain\": " << quiet.findings << "}\n}\n";
    if (!file.flush()) throw std::runtime_error{"can't write " + file_name};
}

bool every_bar_is_met(const Rows& rows, const Quiet& quiet) {
    bool met = quiet.mean() <= most_findings_per_quiet_position;
    for (std::size_t at = 0; at < labels.size(); ++at) met = met && rows[at].recall() >= labels[at].least_recall;
    return met;
}

} // namespace

int main(int argument_count, char** arguments) {
    const std::vector<std::string> given{arguments + 1, arguments + argument_count};
    if (!given.empty() && (given.size() != 2 || given[0] != "--json")) {
        std::fprintf(stderr, "usage: accuracy [--json FILE]\n");
        return 2;
    }
    const std::vector<Puzzle> puzzles = read_puzzles();
    const Quiet quiet = look_at_quiet_positions();
    if (puzzles.empty() || quiet.positions == 0) {
        std::fprintf(stderr, "skipped: no open data, set KEYSQUARE_OPEN_DATA\n");
        return 77;
    }
    Rows rows;
    for (const Puzzle& puzzle : puzzles) count(puzzle, rows);
    print_table(rows, quiet);
    if (!given.empty()) write_json(rows, quiet, given[1]);
    return every_bar_is_met(rows, quiet) ? 0 : 1;
}
