// Candidates, held to moves that others call best. The weights that order candidates were fitted on tournament games
// and on the puzzles and the records of the suite in even places (from 0), so only those in odd places are looked at.
//
// - epd/strategic-test-suite-a.epd: quiet positions in which several moves have points, the best move 10. A move
//   without points has 0. The best of the candidates counts.
// - open-puzzles.csv: the first move of the solution.
// - Four lists of test positions that nothing was fitted on: the best moves (bm), and the moves to avoid (am).
#include <algorithm>
#include <stdexcept>

#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/candidates.hpp>

#include "questions.hpp"

namespace accuracy {

using namespace keysquare;

namespace {

constexpr int full_points = 10;
constexpr double least_with_full_points = 70;
constexpr double least_mean_points = 8;
constexpr double least_among = 95;
constexpr double least_first = 80;

using Moves = std::vector<Move>;

bool holds(const Moves& moves, Move move) { return std::ranges::find(moves, move) != moves.end(); }

/// Where the moves that are wanted stand among the candidates.
struct Places {
    Share among;
    Share first;
    Mean offered;

    void add(const Candidates& found, const Moves& wanted) {
        const auto is_wanted = [&](const Candidate& candidate) { return holds(wanted, candidate.move); };
        among.add(std::ranges::any_of(found, is_wanted));
        first.add(!found.empty() && is_wanted(found.front()));
        offered.add(static_cast<int>(found.size()));
    }
};

// The suite ----------------------------------------------------------------------------------------------------------

struct Graded {
    Move move;
    int points = 0;
};

/// The moves with points, from `c0 "f5=10, Be5+=2"`.
std::vector<Graded> graded_moves(const EpdRecord& record) {
    std::vector<Graded> graded;
    for (const std::string& text : split(record.operation("c0")->operands.front().text, ',')) {
        const auto move_at = text.find_first_not_of(' ');
        const auto points_at = text.rfind('=');
        graded.push_back({read_san(record.position, text.substr(move_at, points_at - move_at)).value(),
                          std::stoi(text.substr(points_at + 1))});
    }
    return graded;
}

struct SuiteTheme {
    std::string tag; ///< what its positions have in common: `STS(v1.0)`
    std::string name;
    Places places;
    Mean points;
};

/// The theme of a record, from `id "STS(v1.0) Undermine.001"`; one of those that are there, or a new one.
SuiteTheme& theme_of(const EpdRecord& record, std::vector<SuiteTheme>& themes) {
    const std::string& id = record.operation("id")->operands.front().text;
    const auto tag_end = id.find(' ');
    const std::string tag = id.substr(0, tag_end);
    const auto known = std::ranges::find(themes, tag, &SuiteTheme::tag);
    if (known != themes.end()) return *known;
    const auto name_at = tag_end + 1;
    return themes.emplace_back(SuiteTheme{tag, id.substr(name_at, id.rfind('.') - name_at), {}, {}});
}

void add(const Candidates& found, const std::vector<Graded>& graded, SuiteTheme& theme) {
    Moves wanted;
    int most = 0;
    for (const auto& [move, points] : graded) {
        if (points == full_points) wanted.push_back(move);
        if (std::ranges::find(found, move, &Candidate::move) != found.end()) most = std::max(most, points);
    }
    theme.places.add(found, wanted);
    theme.points.add(most);
}

void ask_suite(Report& report) {
    std::vector<SuiteTheme> themes;
    SuiteTheme all{"", "all", {}, {}};
    const auto records = read_records(suite);
    for (std::size_t at = 0; at < records.size(); ++at) {
        if (!is_held_out(at)) continue;
        const Candidates found = candidates(records[at].position);
        const auto graded = graded_moves(records[at]);
        add(found, graded, theme_of(records[at], themes));
        add(found, graded, all);
    }
    themes.push_back(all);
    Table table{"candidates_suite",
                "Candidates on epd/strategic-test-suite-a.epd (odd places only: nothing was fitted on them)",
                {"theme", "positions", "with a 10", "first a 10", "mean points", "candidates"},
                {}};
    for (const SuiteTheme& theme : themes)
        table.rows.push_back(
            {theme.name, theme.points.of, theme.places.among, theme.places.first, theme.points, theme.places.offered});
    report.tables.push_back(std::move(table));
    report.bars.push_back({"candidates, suite: with a 10 (%)", all.places.among.percent(), least_with_full_points});
    report.bars.push_back({"candidates, suite: mean points", all.points.value(), least_mean_points});
}

// Puzzles and lists --------------------------------------------------------------------------------------------------

/// What a list says of its positions: moves that are best, or moves to avoid.
struct Listed {
    std::string name;
    Places best;
    Share avoided; ///< a move to avoid is not the first candidate
};

/// The moves of an operation. Other operands are left out: one record lacks the semicolon after its moves.
Moves moves_of(const EpdRecord& record, std::string_view name) {
    Moves moves;
    const EpdOperation* const operation = record.operation(name);
    if (operation == nullptr) return moves;
    for (const EpdOperand& operand : operation->operands)
        if (const auto move = read_san(record.position, operand.text)) moves.push_back(*move);
    if (moves.empty()) throw std::runtime_error{"no legal move in " + epd(record)};
    return moves;
}

Listed look_at_list(const std::string& name) {
    Listed listed{name + ".epd", {}, {}};
    for (const EpdRecord& record : read_records(name)) {
        const Candidates found = candidates(record.position);
        if (const Moves best = moves_of(record, "bm"); !best.empty()) listed.best.add(found, best);
        if (const Moves avoid = moves_of(record, "am"); !avoid.empty())
            listed.avoided.add(found.empty() || !holds(avoid, found.front().move));
    }
    return listed;
}

Listed look_at_puzzles(const std::vector<Puzzle>& puzzles) {
    Listed listed{"open-puzzles.csv, odd places", {}, {}};
    for (std::size_t at = 0; at < puzzles.size(); ++at)
        if (is_held_out(at)) listed.best.add(candidates(puzzles[at].positions.front()), {puzzles[at].moves.front()});
    return listed;
}

} // namespace

void ask_candidates(const std::vector<Puzzle>& puzzles, Report& report) {
    ask_suite(report);
    Table table{"candidates",
                "Candidates on positions with best moves, or with moves to avoid (nothing was fitted on them)",
                {"file", "positions", "among", "first", "candidates", "to avoid", "not first"},
                {}};
    const Listed solved = look_at_puzzles(puzzles);
    std::vector<Listed> rows{solved};
    for (const char* const name : {"bratko-kopec", "win-at-chess", "silent-but-deadly", "kaufman"})
        rows.push_back(look_at_list(name));
    for (const Listed& row : rows)
        table.rows.push_back({row.name, row.best.among.of, row.best.among, row.best.first, row.best.offered,
                              row.avoided.of, row.avoided.hits});
    report.tables.push_back(std::move(table));
    report.bars.push_back({"candidates, puzzles: solution among them (%)", solved.best.among.percent(), least_among});
    report.bars.push_back({"candidates, puzzles: solution first (%)", solved.best.first.percent(), least_first});
}

} // namespace accuracy
