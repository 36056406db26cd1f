// The German sentences about routes and plans.
#pragma once

#include "../plan_words.hpp"

namespace keysquare {

inline constexpr PlanTemplates german_plan_templates{
    .no_turn = "{Other} steht im Schach und kann nicht passen, daher ist {man} nicht am Zug.",
    .there_already = "{Man} steht schon dort.",
    .no_way = "{Man} kommt in {longest} Zügen auf keinem sicheren Weg {targets}, auch wenn {Other} nur passt.",
    .way = "{Man} kommt in {moves:safe move:dat} {targets}, wenn {Other} nur passt: {ways}.",
    .one_target = "nach {squares}",
    .one_of_targets = "zu einem der Felder {squares}",
    .no_target = "zu keinem Feld",
    .more_ways = "{ways} und {more:further}",
    .steps = "{Side} plant {steps}: {tempi:move:acc}, während {Other} passt.",
    .all_safe = " Jeder Schritt ist sicher.",
    .falls = " {step} ist nicht sicher: Das Schlagen auf {square} kostet {worth} ({line}).",
    .loses = " {step} ist nicht sicher: Es verliert {worth} ({line}).",
    .mated = " {step} ist nicht sicher: Es lässt das Matt zu ({line}).",
    .undecided = " Ob {step} sicher ist, wurde innerhalb der Suchgrenze nicht entschieden.",
    .wins = " Nach {step} gewinnt {Other} {worth} mit {line}.",
    .mates = " Nach {step} setzt {Other} matt mit {line}.",
    .punishes = " Nach {step} durchkreuzt {reply} den Plan: Dann würde {next} {worth} kosten ({line}).",
    .punishes_by_mate = " Nach {step} durchkreuzt {reply} den Plan: Dann würde {next} das Matt zulassen ({line}).",
    .prevents = " Nach {step} macht {reply} {next} unmöglich.",
    .defuses = " Nach {step} nimmt {reply} dem Zug {next} den Sinn.",
    .checks = " Nach {step} lässt das Schach {reply} keine Zeit für {next}.",
    .unspoiled = " Keine Antwort innerhalb der Suchgrenze durchkreuzt einen Schritt.",
    .ends_in_mate = " Er endet mit Matt.",
    .won = " Unterwegs erobert er {worth}.",
    .new_at_the_end = "Neu am Ende: ",
    .squares = " {Side} gewinnt die Kontrolle über {gained:square} und gibt {lost:square} auf.",
    .free_gain = " Ließe man {Other} {free:move:acc} lang gewähren, könnte {Other} mit {moves} {worth} gewinnen.",
    .free_mate = " Ließe man {Other} {free:move:acc} lang gewähren, könnte {Other} mit {moves} mattsetzen.",
    .free_nothing = " Ließe man {Other} {free:move:acc} lang gewähren, gewänne {Other} nichts.",
};

} // namespace keysquare
