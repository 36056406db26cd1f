// Threats, held to the solutions of open puzzles: after the solver's first move the solution goes on either with one of
// the solver's further threats, or after a reply that was forced.
//
// - A further threat is one of `threats(position, solver)` in the position after the solver's first move: what the
//   solver would do next if the other side passed. There is none when the other side is in check. The next solution
//   move counts when it is the first move of one of them. As the list holds each threat only once, another row counts
//   also the moves that carry out the same threat (`is_same_threat`).
// - The reply is forced when the other side is in check, or when it is the only one that comes out best by
//   `value_of_move`: with any other legal move that side has at least a pawn less, or is mated.
#include <keysquare/thinking/move_wins.hpp>
#include <keysquare/thinking/threats.hpp>

#include "questions.hpp"

namespace accuracy {

using namespace keysquare;

namespace {

/// What is so in one puzzle, after the solver's first move.
struct Case {
    bool first_move = false;  ///< the next solution move is the first move of a listed threat
    bool same_threat = false; ///< or carries out a listed threat
    bool check = false;       ///< the other side is in check
    bool only_reply = false;  ///< the reply is the only one that comes out best
};

bool begins_threat(const Threats& listed, Move move) {
    return std::ranges::any_of(listed, [&](const Threat& threat) { return threat.line.front() == move; });
}

/// Whether the move, made after a pass, would carry out one of the threats. Not while the mover is in check.
bool carries_out_threat(const Position& position, const Threats& listed, Move move) {
    const Position turn = turned(position);
    if (listed.empty() || !is_legal(turn, move)) return false;
    const Options options;
    const Outcome won = MoveWins{turn, options.least_gain, options}.win(move);
    if (won.line.empty()) return false;
    Threat threat = listed.front();
    threat.mate = won.mate;
    threat.target = target_of(turn, won.line, won.mate);
    threat.line = won.line;
    return std::ranges::any_of(listed, [&](const Threat& other) { return is_same_threat(other, threat); });
}

bool is_only_reply(const Position& position, Move reply) {
    MoveList others;
    for (const Move move : legal_moves(position))
        if (move != reply) others.push_back(move);
    const Outcome kept = value_of_move(position, reply);
    const Outcome elsewhere = best_of(position, others);
    return kept.complete && elsewhere.complete && is_better(kept, elsewhere);
}

Case look_at(const Position& position, Move reply, Move next) {
    const Threats listed = threats(position);
    Case seen;
    seen.first_move = begins_threat(listed, next);
    seen.same_threat = seen.first_move || carries_out_threat(position, listed, next);
    seen.check = in_check(position);
    seen.only_reply = is_only_reply(position, reply);
    return seen;
}

struct Statement {
    const char* text;
    bool (*holds)(const Case&);
    double least_share = 0; ///< the bar, in percent; 0 without one
};

constexpr Statement statements[]{
    {"the next solution move is the first move of a listed threat", [](const Case& seen) { return seen.first_move; }},
    {"it carries out a listed threat", [](const Case& seen) { return seen.same_threat; }},
    {"the reply is forced: check", [](const Case& seen) { return seen.check; }},
    {"the reply is forced: no check, the only reply", [](const Case& seen) { return !seen.check && seen.only_reply; }},
    {"first move of a threat, check or only reply",
     [](const Case& seen) { return seen.first_move || seen.check || seen.only_reply; }, 80},
    {"threat carried out, check or only reply",
     [](const Case& seen) { return seen.same_threat || seen.check || seen.only_reply; }},
    {"first move of a threat, or only reply (check or not)",
     [](const Case& seen) { return seen.first_move || seen.only_reply; }},
};

std::vector<Case> look_at_all(const std::vector<Puzzle>& puzzles) {
    std::vector<Case> cases;
    for (const Puzzle& puzzle : puzzles)
        if (puzzle.moves.size() >= 3) cases.push_back(look_at(puzzle.positions[1], puzzle.moves[1], puzzle.moves[2]));
    return cases;
}

} // namespace

void ask_threats(const std::vector<Puzzle>& puzzles, Report& report) {
    const std::vector<Case> cases = look_at_all(puzzles);
    Table table{"threats",
                "Threats on open-puzzles.csv, after the solver's first move (puzzles where the solver moves again)",
                {"statement", "puzzles", "true of", "share"},
                {}};
    for (const auto& [text, holds, least_share] : statements) {
        Share share;
        for (const Case& seen : cases) share.add(holds(seen));
        table.rows.push_back({text, share.of, share.hits, share});
        if (least_share > 0)
            report.bars.push_back({"threats: " + std::string{text} + " (%)", share.percent(), least_share});
    }
    report.tables.push_back(std::move(table));
}

} // namespace accuracy
