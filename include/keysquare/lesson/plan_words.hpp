// PlanTemplates: the sentences about routes and plans; and the English ones.
#pragma once

#include <string_view>

namespace keysquare {

/// {Side}, {Other}: the planner and the other side; {man}: the man that goes; {targets}: where it goes, {ways}: how,
/// {longest}: moves that were tried at most; {step}, {next}, {reply}: moves; {line}: the moves that show it; {tempi},
/// {moves}, {gained}, {lost}, {free}: counts; {worth}: an amount in pawns. What follows on another sentence begins with a
/// space.
struct PlanTemplates {
    std::string_view no_turn;
    std::string_view there_already;
    std::string_view no_way;
    std::string_view way;
    std::string_view one_target;
    std::string_view one_of_targets;
    std::string_view no_target;
    std::string_view more_ways;
    std::string_view steps;
    std::string_view all_safe;
    std::string_view falls;
    std::string_view loses;
    std::string_view mated;
    std::string_view undecided;
    std::string_view wins;
    std::string_view mates;
    std::string_view punishes;
    std::string_view punishes_by_mate;
    std::string_view prevents;
    std::string_view defuses;
    std::string_view checks;
    std::string_view unspoiled;
    std::string_view ends_in_mate;
    std::string_view won;
    std::string_view new_at_the_end;
    std::string_view squares;
    std::string_view free_gain;
    std::string_view free_mate;
    std::string_view free_nothing;
};

inline constexpr PlanTemplates english_plan_templates{
    .no_turn = "{Other} stands in check and can't pass, so {man} has no turn.",
    .there_already = "{Man} stands there already.",
    .no_way = "{Man} has no safe way to {targets} in {longest} moves, even if {Other} only "
              "passes.",
    .way = "{Man} gets to {targets} in {moves:safe move} if {Other} only passes: {ways}.",
    .one_target = "{squares}",
    .one_of_targets = "one of {squares}",
    .no_target = "no square",
    .more_ways = "{ways}, and {more:further}",
    .steps = "{Side} plans {steps}: {tempi:move}, with {Other} passing.",
    .all_safe = " Every stop is safe.",
    .falls = " The stop after {step} is not safe: captures on {square} cost {worth} "
             "({line}).",
    .loses = " {step} is not safe: it loses {worth} ({line}).",
    .mated = " {step} is not safe: it runs into mate ({line}).",
    .undecided = " Whether {step} is safe was not decided inside the bound.",
    .wins = " After {step}, {Other} wins {worth} with {line}.",
    .mates = " After {step}, {Other} mates with {line}.",
    .punishes = " After {step}, {reply} spoils it: then {next} would cost {worth} ({line}).",
    .punishes_by_mate = " After {step}, {reply} spoils it: then {next} would run into mate ({line}).",
    .prevents = " After {step}, {reply} makes {next} impossible.",
    .defuses = " After {step}, {reply} takes the point out of {next}.",
    .checks = " After {step}, the check {reply} does not leave time for {next}.",
    .unspoiled = " No reply inside the bound spoils a step.",
    .ends_in_mate = " It ends in mate.",
    .won = " On the way it takes {worth}.",
    .new_at_the_end = "New at the end: ",
    .squares = " {Side} gains hold of {gained:square} and gives up {lost:square}.",
    .free_gain = " Left alone for {free:move}, {Other} could win {worth} with {moves}.",
    .free_mate = " Left alone for {free:move}, {Other} could mate with {moves}.",
    .free_nothing = " Left alone for {free:move}, {Other} wins nothing.",
};

} // namespace keysquare
