// The German sentences about what a side has to see.
#pragma once

#include "../difficulty_words.hpp"

namespace keysquare {

inline constexpr DifficultyTemplates german_difficulty_templates{
    .no_turn = "{Other} steht im Schach und kann nicht passen, daher ist {Side} nicht am Zug.",
    .has = "{Side} hat",
    .has_after_pass = "Wenn {Other} passt, hat {Side}",
    .no_move = "{has} keinen legalen Zug.",
    .mated = "{has} {legal:legal move:acc} und wird auf jeden Fall mattgesetzt.",
    .one_move = "{has} einen legalen Zug.",
    .all_keep = "{has} {legal:legal move:acc}, und alle halten das Material.",
    .some_keep = "{has} {legal:legal move:acc}, und {count} halten das Material.",
    .one_keeps = "{has} {legal:legal move:acc}, und nur einer hält das Material.",
    .none_keeps = "{has} {legal:legal move:acc}, und von keinem ist bekannt, dass er das Material hält.",
    .one_move_loses = "{has} einen legalen Zug, der {worth} verliert.",
    .all_lose = "{has} {legal:legal move:acc}, und jeder davon verliert {worth}.",
    .some_lose_least = "{has} {legal:legal move:acc}, und {count} verlieren nicht mehr als {worth}.",
    .one_loses_least = "{has} {legal:legal move:acc}, und nur einer verliert nicht mehr als {worth}.",
    .checked = " {Side} steht im Schach.",
    .at_stake = " Täte {Side} nichts, würde {Other} {worth} gewinnen.",
    .mate_at_stake = " Täte {Side} nichts, würde {Other} mattsetzen.",
    .nothing = " Eine Variante, die {Side} sehen müsste, gibt es nicht.",
    .wins = " Um {worth} zu gewinnen, muss {Side} {moves:move:acc} weit rechnen: {line}.",
    .mates = " Um mattzusetzen, muss {Side} {moves:move:acc} weit rechnen: {line}.",
    .holds = " Um dem zu begegnen, muss {Side} {moves:move:acc} weit rechnen: {line}.",
    .holds_least = " Um nicht mehr als das zu verlieren, muss {Side} {moves:move:acc} weit rechnen: {line}.",
    .given_wins = " Die Variante, die {Side} sehen muss, gewinnt {worth} in {moves:move:dat}: {line}.",
    .given_mates = " Die Variante, die {Side} sehen muss, setzt in {moves:move:dat} matt: {line}.",
    .given_even = " Die Variante, die {Side} sehen muss, gewinnt in {moves:move:dat} nichts: {line}.",
    .given_loses = " Die Variante, die {Side} sehen muss, gibt in {moves:move:dat} {worth} auf: {line}.",
    .is_quiet = "ist still",
    .goes_back = "geht rückwärts",
    .goes_far = "geht {count} Felder weit",
    .gives_up = "stellt den Stein auf ein Feld, wo er geschlagen werden kann",
    .no_quiet_move = " Keiner der Züge ist still.",
    .deficit = " Unterwegs liegt {Side} um {worth} zurück.",
    .no_other = " Kein anderer Zug leistet dasselbe.",
    .one_other = " Ein anderer Zug leistet dasselbe.",
    .several_others = " {count} andere Züge leisten dasselbe.",
    .one_tempting = " Auf den ersten Blick bringt ein anderer Zug ebenso viel ein.",
    .tempting = " Auf den ersten Blick bringen {count} andere Züge ebenso viel ein.",
    .one_as_good = " Rechnet man nur Schlagzüge und Schachgebote, kommt ein anderer Zug auf ebenso viel.",
    .as_good = " Rechnet man nur Schlagzüge und Schachgebote, kommen {count} andere Züge auf ebenso viel.",
    .one_failing = " Ein anderer erzwingender Zug (Schlagen, Umwandlung oder Schach) bringt weniger ein.",
    .failing = " {count} andere erzwingende Züge (Schlagen, Umwandlung oder Schach) bringen weniger ein.",
    .answers =
        " {Other} hat {answers:answer:acc} auf {first}; Schlagzüge, Umwandlungen und Schachgebote darunter: {count}.",
    .answers_on_the_way =
        " {Other} hat {answers:answer:acc} auf {first}; Schlagzüge, Umwandlungen und Schachgebote darunter: {count}, und {more} weitere im späteren Verlauf.",
    .the_move = " Der Zug {traits}",
    .the_nth_move = " Der {nth} Zug {traits}",
    .another_move = ", der {nth} {traits}",
    .ordinals = {"erste", "zweite", "dritte", "vierte", "fünfte", "sechste", "siebte", "achte", "neunte", "zehnte",
                 "elfte", "zwölfte", "dreizehnte", "vierzehnte", "fünfzehnte", "sechzehnte"},
};

} // namespace keysquare
