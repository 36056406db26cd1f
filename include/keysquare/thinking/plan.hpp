// check_plan: is this a plan? A string of moves of one side, looked at step by step.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/features/feature_schema.hpp>
#include <keysquare/features/finding.hpp>
#include <keysquare/notation/error.hpp>
#include <keysquare/thinking/free_play.hpp>
#include <keysquare/thinking/spoiler.hpp>
#include <keysquare/thinking/stop.hpp>

namespace keysquare {

inline constexpr std::size_t longest_plan = 8; ///< No plan has more steps than this.

/// One step of a plan.
struct PlanStep {
    Position before;                      ///< the position that the step is made in, the planner to move
    Move move;                            ///< the move of the step
    int won = 0;                          ///< what the step wins by itself (`immediate_gain`)
    bool check = false;                   ///< it gives check; only the last step may
    StopSafety safety = StopSafety::safe; ///< `stop_safety` with the `baseline_of(before)`
    Outcome taken;                        ///< `exchange` on the target for the other side
    Outcome kept;                         ///< `value_of_move`: what the planner has when the other side replies at once
    std::optional<Spoiler> spoiler;       ///< `spoiler_of` the step
};

/// What comes of a plan.
struct PlanCheck {
    Side side = Side::white;                   ///< the planner
    bool after_pass = false;                   ///< the other side is to move at first, and passes
    Position start;                            ///< with the planner to move
    Position end;                              ///< after the last step, the other side to move
    BoundedList<PlanStep, longest_plan> steps; ///< in their order, up to the first one that is not legal

    int won = 0;        ///< what all steps win by themselves
    bool mates = false; ///< the last step mates

    /// The board before the plan and after it is compared with the other side to move in both: `start` with the move
    /// handed over, and `end`. While a king is in check many claims are not made; then nothing is compared.
    bool compared = false;
    /// Findings of the end that were none before, and of before that are none at the end, strongest first. Two findings
    /// are the same when theme, side and pieces are (for those without a piece: theme, side and detail).
    Findings created;
    Findings removed; ///< as with `created`
    Squares gained;   ///< squares that the planner holds at the end and did not (`square_control`)
    Squares lost;     ///< squares that it held and does not hold at the end
    /// The numeric vectors (`feature_schema`) of both boards; when the planner starts in check, the first is of `start`
    /// itself.
    std::array<std::int16_t, feature_count> before{};
    std::array<std::int16_t, feature_count> after{}; ///< of the end

    /// What the other side achieves with as many free moves (`free_play`), from `start` with the move handed over. Only
    /// where the planner can pass: `other_may_play` is false when it starts in check.
    bool other_may_play = false;
    FreePlay other; ///< empty where it may not play

    /// The moves that the plan takes; so often the other side has not moved, or would have to let it happen.
    [[nodiscard]] int tempi() const noexcept { return static_cast<int>(steps.size()); }
    /// Every stop is safe.
    [[nodiscard]] bool is_safe() const noexcept {
        return detail::all_of(steps, [](const PlanStep& step) { return step.safety == StopSafety::safe; });
    }
    /// The first step that can be spoiled, `steps.size()` when none can.
    [[nodiscard]] std::size_t spoiled_at() const noexcept {
        return detail::place_of(steps, [](const PlanStep& step) { return step.spoiler.has_value(); });
    }
};

/// Looks at a plan of `side`, which may be the mover or the waiter: one to eight moves, each legal when the other side
/// passes in between (and before the first one, when it is to move). A side in check can't pass, so only the last step
/// may give check. En passant lapses with every pass.
///
/// Errors, with `Field::step`, the number of the step as `line` and the column in its text:
/// - `empty_plan`, `plan_too_long`: no step, or more than `longest_plan` (`line` is then the first one too many);
/// - `pass_in_check`: the other side would have to pass before this step, and stands in check;
/// - what `read_move` says of the text (`ambiguous_move`, `no_such_piece`, ...), or `illegal_move` for a `Move`.
///
/// `Options::least_gain` is the least that a spoiler or a finding must win. Bounded: about half a
/// millisecond a step, most of it for the spoilers, plus twice all findings and the free play of the other side.
[[nodiscard]] Result<PlanCheck> check_plan(const Position& position, Side side, std::span<const std::string_view> steps,
                                           const Options& options = {});
/// The same with moves instead of text. Errors: `illegal_move` instead of those of `read_move`.
[[nodiscard]] Result<PlanCheck> check_plan(const Position& position, Side side, std::span<const Move> steps,
                                           const Options& options = {});

} // namespace keysquare
