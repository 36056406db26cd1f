// The German sentences about the outlook of both sides.
#pragma once

#include <array>

#include "../outlook_words.hpp"

namespace keysquare {

/// In the order of `english_outlook_words`. What is said of a best square ends a clause: "wo er ...".
inline constexpr std::array german_outlook_words{
    OutlookWords{MoveFact::mates, "Matt", ""},
    OutlookWords{MoveFact::wins, "gewinnt {worth}", ""},
    OutlookWords{MoveFact::meets_threat, "gegen eine Drohung", ""},
    OutlookWords{MoveFact::threatens_mate, "droht matt", ""},
    OutlookWords{MoveFact::threatens, "droht, {worth} zu gewinnen", ""},
    OutlookWords{MoveFact::castles, "Rochade", ""},
    OutlookWords{MoveFact::outpost, "Vorposten", "auf einem Vorposten steht"},
    OutlookWords{MoveFact::rook_on_seventh, "siebte Reihe", "auf der siebten Reihe steht"},
    OutlookWords{MoveFact::pushes_passer, "ein Freibauer rückt vor", ""},
    OutlookWords{MoveFact::develops, "Entwicklung", "entwickelt ist"},
    OutlookWords{MoveFact::rook_on_open_file, "offene Linie", "eine offene Linie hat"},
    OutlookWords{MoveFact::rook_on_half_open_file, "halboffene Linie", "eine halboffene Linie hat"},
    OutlookWords{MoveFact::stuck_pieces, "nicht mehr eingesperrt", "weniger Figuren eingesperrt lässt"},
    OutlookWords{MoveFact::rim_knights, "weg vom Rand", "nicht mehr am Rand steht"},
    OutlookWords{MoveFact::king_to_centre, "der König Richtung Zentrum", "näher am Zentrum steht"},
    OutlookWords{MoveFact::blocks_passer, "hält einen Freibauern auf", "einen Freibauern aufhält"},
    OutlookWords{MoveFact::uses_hole, "zielt auf {squares}",
                 "auf {count?das schwache Feld|die schwachen Felder} {squares} zielt"},
    OutlookWords{MoveFact::pawn_lever, "Bauernhebel", ""},
    OutlookWords{MoveFact::centre_pawns, "ein Bauer im Zentrum", ""},
    OutlookWords{MoveFact::their_king_squares, "weniger Raum für den gegnerischen König",
                 "dem gegnerischen König {squares} nimmt"},
    OutlookWords{MoveFact::holes, "weniger schwache Felder", "{count:hole} weniger hinterlässt"},
    OutlookWords{MoveFact::piece_scope, "mehr Felder für die Figuren", "den Figuren {count:more square} verschafft"},
    OutlookWords{MoveFact::chained_pawns, "Bauern, die einander decken", ""},
    OutlookWords{MoveFact::squares_held_twice, "mehr doppelt angegriffene Felder",
                 "{count:more square} doppelt anzugreifen hilft"},
};
static_assert(german_outlook_words.size() == english_outlook_words.size());

inline constexpr OutlookTemplates german_outlook_templates{
    .no_turn = "{Side} ist nicht am Zug, da {Other} im Schach steht.",
    .mated = "{Side} ist matt.",
    .no_move = "{Side} hat keinen legalen Zug.",
    .no_move_after_pass = "{Side} hätte keinen legalen Zug.",
    .in_check = "{Side} steht im Schach und hat {legal:legal move:acc}.",
    .only = "Nur {move} hält das Material zusammen.",
    .named = "{Side} hat {count:useful move:acc}: {moves}.",
    .named_after_pass = "Würde {Other} passen, hätte {Side} {count:useful move:acc}: {moves}.",
    .among = "{Side} hat {count:useful move:acc}, darunter {moves}.",
    .among_after_pass = "Würde {Other} passen, hätte {Side} {count:useful move:acc}, darunter {moves}.",
    .none_useful = "{Side} hat keinen nützlichen Zug, nur {safe:safe move:acc}.",
    .none_useful_after_pass = "Würde {Other} passen, hätte {Side} keinen nützlichen Zug, nur {safe:safe move:acc}.",
    .none_safe = "{Side} hat weder einen nützlichen noch einen sicheren Zug.",
    .none_safe_after_pass = "Würde {Other} passen, hätte {Side} weder einen nützlichen noch einen sicheren Zug.",
    .no_plan = "Keine Figur hat ein besseres Feld: {Side} kann nur abwarten.",
    .best_in_one = "Das beste Feld für {man:acc} ist {square}, einen Zug entfernt, wo {man:er} {gains}.",
    .best_in_two = "Das beste Feld für {man:acc} ist {square}, über {stop} zwei Züge entfernt, wo {man:er} {gains}.",
    .equilibrium = "Keine Seite hat eine Drohung und keine Figur ein besseres Feld: Wer am Zug ist, kann nur abwarten.",
    .guardian =
        "{Man} ist nicht mehr da: Von den {colour} Feldern beherrschte {Side} {before} und beherrscht jetzt {now}, {Other} beherrschte {other_before} und beherrscht jetzt {other_now}.",
    .has_turn = "{Side} hat {useful:useful move:acc} und {threats:threat}",
    .has_no_turn = "{Side} ist nicht am Zug, solange {Other} im Schach steht",
};

} // namespace keysquare
