// The German words for the reasons for a move.
#pragma once

#include <array>

#include "../candidate_words.hpp"

namespace keysquare {

inline constexpr std::array german_fact_words{
    FactWords{MoveFact::mates, "setzt matt ({win})", ""},
    FactWords{MoveFact::wins, "gewinnt {worth} ({win})", ""},
    FactWords{MoveFact::meets_threat, "rettet {saved}", ""},
    FactWords{MoveFact::costs, "", "bringt aber {worth} weniger ein als der beste Zug"},
    FactWords{MoveFact::threatens_mate, "droht matt mit {threat}", ""},
    FactWords{MoveFact::threatens, "droht {threat}", ""},
    FactWords{MoveFact::trades, "tauscht auf {squares} ab", ""},
    FactWords{MoveFact::parries, "pariert {parried}", ""},
    FactWords{MoveFact::allows, "", "erlaubt aber {allowed}"},
    FactWords{MoveFact::checks, "gibt Schach", ""},
    FactWords{MoveFact::castles, "rochiert", ""},
    FactWords{MoveFact::develops, "entwickelt eine Figur", ""},
    FactWords{MoveFact::moves_attacked_queen, "bringt die Dame aus dem Angriff", ""},
    FactWords{MoveFact::moves_attacked_piece, "zieht {man:attacked acc} weg", ""},
    FactWords{MoveFact::attacks_pieces, "greift {men:acc} an", ""},
    FactWords{MoveFact::attacks_pawns, "greift {men:acc} an", ""},
    FactWords{MoveFact::advances_pawn, "", ""},
    FactWords{MoveFact::pawn_under_attack, "", ""},
    FactWords{MoveFact::pawn_lever, "setzt einen Hebel gegen {men:acc} an", ""},
    FactWords{MoveFact::pushes_passer, "schiebt einen Freibauern vor", ""},
    FactWords{MoveFact::loosens_own_king, "", "lockert aber die Bauern vor dem eigenen König"},
    FactWords{MoveFact::nearer_centre, "bringt {man:kind acc} näher ans Zentrum", ""},
    FactWords{MoveFact::king_to_centre, "bringt den König ins Spiel", ""},
    FactWords{MoveFact::chained_pawns, "lässt Bauern einander decken", "löst aber eine Bauernkette auf"},
    FactWords{MoveFact::piece_scope, "verschafft den Figuren {amount:more square}",
              "nimmt aber den eigenen Figuren {amount:square}"},
    FactWords{MoveFact::rook_scope, "", ""},
    FactWords{MoveFact::outnumbered_men, "verringert die Zahl der Steine, die öfter angegriffen als gedeckt sind",
              "lässt aber {men:acc} öfter angegriffen als gedeckt"},
    FactWords{MoveFact::rook_on_open_file, "stellt einen Turm auf eine offene Linie", "verlässt aber die offene Linie"},
    FactWords{MoveFact::rook_on_half_open_file, "stellt einen Turm auf eine halboffene Linie", ""},
    FactWords{MoveFact::loose_men, "lässt weniger Steine ungedeckt", "lässt aber {men:acc} ungedeckt"},
    FactWords{MoveFact::own_king_squares, "verschafft dem eigenen König {amount:more square}", ""},
    FactWords{MoveFact::their_king_squares, "nimmt dem gegnerischen König {squares}", ""},
    FactWords{MoveFact::levers_at_hand, "bereitet einen Bauernhebel auf {squares} vor", ""},
    FactWords{MoveFact::stuck_pieces, "befreit eine Figur, die kein Feld hatte", "sperrt aber {men:acc} ein"},
    FactWords{MoveFact::men_in_other_half, "dringt in die andere Bretthälfte vor", ""},
    FactWords{MoveFact::rook_on_seventh, "bringt einen Turm auf die siebte Reihe", "verlässt aber die siebte Reihe"},
    FactWords{MoveFact::attacked_men, "verringert die Zahl der angegriffenen Steine", ""},
    FactWords{MoveFact::outpost, "besetzt den Vorposten {squares}", "gibt aber den Vorposten {squares} auf"},
    FactWords{MoveFact::frees_pawns, "macht einem Bauern den Weg frei", ""},
    FactWords{MoveFact::battery, "bringt zwei Figuren auf eine gemeinsame Linie", ""},
    FactWords{MoveFact::rim_knights, "holt den Springer vom Rand zurück", "stellt aber den Springer an den Rand"},
    FactWords{MoveFact::takes_bishop, "schlägt einen Läufer", ""},
    FactWords{MoveFact::holes, "beseitigt {amount?das schwache Feld|die schwachen Felder} {squares}",
              "hinterlässt aber {amount?das schwache Feld|die schwachen Felder} {squares}"},
    FactWords{MoveFact::squares_held_twice, "greift {amount:more square} doppelt an", ""},
    FactWords{MoveFact::doubled_pawns, "löst einen Doppelbauern auf", "verdoppelt aber die eigenen Bauern"},
    FactWords{MoveFact::pins, "fesselt {men:acc}", ""},
    FactWords{MoveFact::centre_pawns, "stellt einen Bauern ins Zentrum", "zieht aber einen Bauern aus dem Zentrum ab"},
    FactWords{MoveFact::uses_hole, "zielt auf {amount?das schwache Feld|die schwachen Felder} {squares}", ""},
    FactWords{MoveFact::fewer_checks, "lässt der anderen Seite weniger Schachgebote",
              "lässt aber der anderen Seite mehr Schachgebote"},
    FactWords{MoveFact::uses_king, "setzt den König ein", ""},
    FactWords{MoveFact::blocks_passer, "hält {men:acc} auf", "lässt aber einen Freibauern laufen"},
};
static_assert(german_fact_words.size() == static_cast<std::size_t>(MoveFact::end_));
static_assert(detail::is_in_order_of_facts(german_fact_words));

inline constexpr CandidateWords german_candidate_words{
    .facts = german_fact_words,
    .but = ", ",
    .saved_king = "den König vor dem Matt",
    .allowed = "{Side}, {worth} zu gewinnen ({line})",
    .allowed_mate = "{Side}, mattzusetzen ({line})",
};

} // namespace keysquare
