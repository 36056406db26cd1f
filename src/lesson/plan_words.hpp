// PlanTemplates: the sentences about routes and plans; and the English ones.
#pragma once

#include <keysquare/board/literal.hpp>

namespace keysquare {

/// {Side}, {Other}: the planner and the other side; {man}: the man that goes; {targets}: where it goes, {ways}: how,
/// {longest}: moves that were tried at most; {step}, {next}, {reply}: moves; {line}: the moves that show it; {tempi},
/// {moves}, {gained}, {lost}, {free}: counts; {worth}: an amount in pawns. What follows on another sentence begins with a
/// space.
struct PlanTemplates {
    Literal no_turn;
    Literal there_already;
    Literal no_way;
    Literal way;
    Literal one_target;
    Literal one_of_targets;
    Literal no_target;
    Literal more_ways;
    Literal steps;
    Literal all_safe;
    Literal falls;
    Literal loses;
    Literal mated;
    Literal undecided;
    Literal wins;
    Literal mates;
    Literal punishes;
    Literal punishes_by_mate;
    Literal prevents;
    Literal defuses;
    Literal checks;
    Literal unspoiled;
    Literal ends_in_mate;
    Literal won;
    Literal new_at_the_end;
    Literal squares;
    Literal free_gain;
    Literal free_mate;
    Literal free_nothing;
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
