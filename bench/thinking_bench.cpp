// The teacher's questions. `threats` are the waiter's; `parries` asks about the strongest of them and leaves positions
// without one out; `difficulty` is that of both sides.
#include <keysquare/thinking/answers.hpp>
#include <keysquare/thinking/candidates.hpp>
#include <keysquare/thinking/difficulty.hpp>
#include <keysquare/thinking/outlook.hpp>
#include <keysquare/thinking/parries.hpp>
#include <keysquare/thinking/plan.hpp>
#include <keysquare/thinking/route.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::game_positions;
using bench::Operations;
using bench::Purpose;
using bench::tactical_positions;

/// The same question about positions of both sorts.
template <class Ask> void add_question(Operations& operations, const std::string& name, Ask ask) {
    operations.add(name + "/puzzles", "position", tactical_positions, ask);
    operations.add(name + "/tournament_games", "position", game_positions, ask);
}

void add_questions(Operations& operations) {
    add_question(operations, "threats", [found = Threats{}](const Position& position) mutable {
        threats(position, position.waiter(), found);
        benchmark::DoNotOptimize(found.data());
    });
    add_question(operations, "difficulty", [](const Position& position) {
        for (const Side side : all_sides) benchmark::DoNotOptimize(difficulty(position, side).keeping);
    });
    add_question(operations, "candidates",
                 [](const Position& position) { benchmark::DoNotOptimize(candidates(position).size()); });
    add_question(operations, "outlook",
                 [](const Position& position) { benchmark::DoNotOptimize(outlook(position).equilibrium); });
}

using Threatened = std::pair<Position, Threat>;

std::vector<Threatened> threatened(Purpose purpose) {
    std::vector<Threatened> found;
    for (const Position& position : tactical_positions(purpose))
        if (const Threats all = threats(position); !all.empty()) found.emplace_back(position, all.front());
    return found;
}

void add_replies(Operations& operations) {
    operations.add("parries", "position", threatened,
                   [](const Threatened& one) { benchmark::DoNotOptimize(parries(one.first, one.second).natural); });
    operations.add("answers", "move", tactical_positions, [](const Position& position) {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) benchmark::DoNotOptimize(answers(position, move).cost);
        return moves.size();
    });
}

/// From every knight, bishop and rook of both sides to the centre.
int find_routes(const Position& position) {
    const Squares pieces = position.men(Kind::knight) | position.men(Kind::bishop) | position.men(Kind::rook);
    for (const Square square : pieces & ~centre_squares)
        benchmark::DoNotOptimize(route(position, square, centre_squares));
    return (pieces & ~centre_squares).count();
}

/// Three steps of the mover: each time the legal move in the middle of the list, no checks.
std::vector<Move> three_steps(const Position& position) {
    std::vector<Move> steps;
    Position at = position;
    while (steps.size() < 3) {
        const MoveList moves = legal_moves(at);
        if (moves.empty()) break;
        steps.push_back(moves[moves.size() / 2]);
        const auto onward = passed(after(at, steps.back()));
        if (!onward) break;
        at = *onward;
    }
    return steps;
}

void add_plans(Operations& operations) {
    operations.add("route", "route", game_positions, find_routes);
    operations.add("check_plan", "plan", game_positions, [](const Position& position) {
        const std::vector<Move> steps = three_steps(position);
        if (steps.empty()) return 0;
        benchmark::DoNotOptimize(check_plan(position, position.mover(), steps));
        return 1;
    });
}

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    add_questions(operations);
    add_replies(operations);
    add_plans(operations);
}
