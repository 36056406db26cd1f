// Tactical themes, held to the labels of open puzzles and to quiet positions.
//
// - open-puzzles.csv: the solution is walked; a theme is found when a position of it, the solver to move, has a finding
//   of the theme for the solver. Recall counts the puzzles with the label, the claims those without it, each for all
//   findings and for those that win something.
// - epd/strategic-test-suite-a.epd: quiet positions; the mean number of tactical findings that win something, for both
//   sides together.
#include <algorithm>
#include <array>

#include <keysquare/features/findings.hpp>

#include "questions.hpp"

namespace accuracy {

using namespace keysquare;

namespace {

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

/// In how many puzzles a theme is found.
struct Claims {
    Share all;
    Share winning; ///< with a gain or a mate

    void add(bool found, bool with_gain) noexcept {
        all.add(found);
        winning.add(with_gain);
    }
};

struct Row {
    Claims labelled;
    Claims others;
    std::vector<std::string> missed; ///< puzzles with the label
};

using Rows = std::array<Row, labels.size()>;

bool wins(const Finding& finding) { return finding.gain > 0 || finding.mate; }

/// What is found for the solver in the positions where it moves.
Findings findings_for_solver(const Puzzle& puzzle) {
    const Side solver = puzzle.positions.front().mover();
    Findings found;
    for (std::size_t at = 0; at < puzzle.positions.size(); at += 2)
        for (const Finding& finding : findings(puzzle.positions[at]))
            if (finding.side == solver) found.push_back(finding);
    return found;
}

/// Adds one puzzle to the row of a label.
void count(const Puzzle& puzzle, const Findings& found, const Label& label, Row& row) {
    const auto is_it = [&](const Finding& finding) { return finding.theme == label.theme; };
    const bool claimed = std::ranges::any_of(found, is_it);
    const bool with_gain =
        std::ranges::any_of(found, [&](const Finding& finding) { return is_it(finding) && wins(finding); });
    const bool labelled = std::ranges::find(puzzle.labels, label.label) != puzzle.labels.end();
    (labelled ? row.labelled : row.others).add(claimed, with_gain);
    if (labelled && !claimed) row.missed.push_back(puzzle.id);
}

Rows count_all(const std::vector<Puzzle>& puzzles) {
    Rows rows;
    for (const Puzzle& puzzle : puzzles) {
        const Findings found = findings_for_solver(puzzle);
        for (std::size_t at = 0; at < labels.size(); ++at) count(puzzle, found, labels[at], rows[at]);
    }
    return rows;
}

std::string_view reason_for(std::string_view puzzle, std::string_view label) {
    for (const Disagreement& known : disagreements)
        if (known.puzzle == puzzle && known.label == label) return known.reason;
    return "not looked into";
}

void report_labels(const Rows& rows, Report& report) {
    Table table{"themes",
                "Tactical themes on open-puzzles.csv: found in puzzles with the label, claimed in the others",
                {"theme", "labelled", "recall", "with gain", "others", "claims", "claims with gain"},
                {}};
    Table missed{"labels_not_followed", "Labels that are not followed", {"puzzle", "label", "reason"}, {}};
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const auto& [labelled, others, puzzles] = rows[at];
        const std::string_view theme = name(labels[at].theme);
        table.rows.push_back(
            {theme, labelled.all.of, labelled.all, labelled.winning, others.all.of, others.all, others.winning});
        for (const std::string& puzzle : puzzles)
            missed.rows.push_back({puzzle, labels[at].label, reason_for(puzzle, labels[at].label)});
        report.bars.push_back(
            {"themes: recall of " + std::string{theme} + " (%)", labelled.all.percent(), labels[at].least_recall});
    }
    report.tables.push_back(std::move(table));
    report.tables.push_back(std::move(missed));
}

void report_quiet_positions(Report& report) {
    Mean winning;
    for (const EpdRecord& record : read_records(suite))
        winning.add(static_cast<int>(std::ranges::count_if(findings(record.position), [](const Finding& finding) {
            return wins(finding) && std::ranges::find(tactical, finding.theme) != tactical.end();
        })));
    report.tables.push_back({"quiet",
                             "Quiet positions of epd/strategic-test-suite-a.epd",
                             {"positions", "tactical findings with gain", "a position"},
                             {{winning.of, winning.sum, winning}}});
    report.bars.push_back({"themes: tactical findings with gain in a quiet position", winning.value(),
                           most_findings_per_quiet_position, true});
}

} // namespace

void ask_themes(const std::vector<Puzzle>& puzzles, Report& report) {
    report_labels(count_all(puzzles), report);
    report_quiet_positions(report);
}

} // namespace accuracy
