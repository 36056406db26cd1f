// A FEN on the first line, moves on the second: as a plan, as a line to be seen, and as a route, for both sides.
#pragma once

#include <vector>

#include "witness.hpp"

namespace keysquare::fuzz {

inline std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const auto end = (std::min)(text.find(' '), text.size());
        words.push_back(text.substr(0, end));
        text.remove_prefix((std::min)(end + 1, text.size()));
    }
    return words;
}

inline void require_sound(const PlanCheck& plan) {
    int won = 0;
    for (const PlanStep& step : plan.steps) {
        require(step.before.mover() == plan.side && is_legal(step.before, step.move), "plan: a step that is not legal");
        const Position next = after(step.before, step.move);
        require(material(next, plan.side) - material(step.before, plan.side) == step.won,
                "plan: a step wins otherwise");
        require(step.check == in_check(next), "plan: a check");
        require_line(next, other(plan.side), step.taken.line, step.taken.gain, step.taken.mate, step.taken.mated,
                     "plan: what is taken");
        won += step.won;
    }
    require(plan.won == won, "plan: what it wins in all");
    require_sentence([&](Language language) { return paragraph(plan, language); }, "plan");
    const Position handed_over = turned(plan.start);
    for (const Finding& finding : plan.created) require_witness(plan.end, finding);
    for (const Finding& finding : plan.removed) require_witness(handed_over, finding);
}

inline void try_plan(std::string_view text) {
    const auto end = text.find('\n');
    const Result<Position> read = read_fen(text.substr(0, end), Strictness::lenient);
    if (!read) return;
    const Position& position = *read;
    const std::vector<std::string_view> steps =
        words_of(end == std::string_view::npos ? std::string_view{} : text.substr(end + 1));
    for (const Side side : all_sides) {
        const Result<PlanCheck> plan = check_plan(position, side, steps);
        if (plan)
            require_sound(*plan);
        else
            require(plan.error().line <= longest_plan + 1, "plan: an error behind the steps");
        if (const auto seen = difficulty(position, side, steps)) require_witness(*seen);
    }
    for (const Square from : position.men(position.mover())) {
        const Routes found = route(position, from, ~Squares{} & ~position.men(position.mover())).value();
        for (const Route& way : found.routes) require_route(position, way, way.back().target(), "route");
        require_sentence([&](Language language) { return sentence(found, language); }, "route");
        break; // one man is enough; another input has another man first
    }
}

} // namespace keysquare::fuzz
