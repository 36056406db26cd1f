#include <keysquare/thinking/plan.hpp>

#include <utility>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/features/same_claim.hpp>
#include <keysquare/features/square_control.hpp>
#include <keysquare/tactics/exchange.hpp>

#include "steps.hpp"

namespace keysquare {

namespace {

/// Plays the steps one after the other; nothing else is worked out yet.
template <class Step>
[[nodiscard]] Result<PlanCheck> played(const Position& position, Side side, std::span<const Step> steps) {
    if (steps.empty()) return detail::step_error(Reason::empty_plan, 1, {});
    if (steps.size() > longest_plan)
        return detail::step_error(Reason::plan_too_long, longest_plan + 1, detail::text_of_step(steps[longest_plan]));
    PlanCheck plan;
    plan.side = side;
    plan.after_pass = position.mover() != side;
    plan.end = position;
    for (std::size_t at = 0; at < steps.size(); ++at) {
        const auto here = turn_of(plan.end, side);
        if (!here) return detail::step_error(Reason::pass_in_check, at + 1, detail::text_of_step(steps[at]));
        const Result<Move> move = detail::step_in(*here, steps[at], at + 1);
        if (!move) return move.error();
        if (at == 0) plan.start = *here;
        PlanStep& step = plan.steps.emplace_back();
        step.before = *here;
        step.move = *move;
        plan.end = keysquare::after(*here, *move);
        step.check = in_check(plan.end);
    }
    return plan;
}

void judge_steps(PlanCheck& plan, const Options& options) {
    for (std::size_t at = 0; at < plan.steps.size(); ++at) {
        PlanStep& step = plan.steps[at];
        const Position stepped = keysquare::after(step.before, step.move);
        const Move next = at + 1 < plan.steps.size() ? plan.steps[at + 1].move : Move{};
        step.won = immediate_gain(step.before, step.move, options.values);
        step.safety = stop_safety(step.before, step.move, baseline_of(step.before, options), options);
        step.taken = exchange(stepped, step.move.target(), options.values);
        step.kept = value_of_move(step.before, step.move, options.bound, options.values);
        step.spoiler = spoiler_of(stepped, step.won, next, options);
        plan.won += step.won;
    }
}

/// Those of `some` that are not among `others`, in their order.
void keep_difference(const Findings& some, const Findings& others, Findings& difference) {
    for (const Finding& one : some)
        if (!makes_claim(others, one)) difference.push_back(one);
}

void compare_boards(PlanCheck& plan, const Options& options) {
    const auto handed_over = passed(plan.start);
    const Position& first = handed_over ? *handed_over : plan.start;
    feature_vector(first, plan.before);
    feature_vector(plan.end, plan.after);
    plan.compared = handed_over && !in_check(plan.end);
    if (!plan.compared) return;
    const Findings before = findings(first, options);
    const Findings after = findings(plan.end, options);
    keep_difference(after, before, plan.created);
    keep_difference(before, after, plan.removed);
    const Squares held = square_control(first, options).held[index(plan.side)];
    const Squares held_after = square_control(plan.end, options).held[index(plan.side)];
    plan.gained = held_after & ~held;
    plan.lost = held & ~held_after;
}

template <class Step>
[[nodiscard]] Result<PlanCheck> checked_plan(const Position& position, Side side, std::span<const Step> steps,
                                             const Options& options) {
    Result<PlanCheck> result = played(position, side, steps);
    if (!result) return result;
    PlanCheck plan = *std::move(result);
    judge_steps(plan, options);
    plan.mates = is_mated(plan.end);
    compare_boards(plan, options);
    if (const auto others_turn = passed(plan.start)) {
        plan.other_may_play = true;
        plan.other = free_play(*others_turn, plan.tempi(), options);
    }
    return plan;
}

} // namespace

Result<PlanCheck> check_plan(const Position& position, Side side, std::span<const std::string_view> steps,
                             const Options& options) {
    return checked_plan(position, side, steps, options);
}

Result<PlanCheck> check_plan(const Position& position, Side side, std::span<const Move> steps, const Options& options) {
    return checked_plan(position, side, steps, options);
}

} // namespace keysquare
