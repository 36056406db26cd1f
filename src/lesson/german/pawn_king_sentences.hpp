// The German sentences for pawns and kings.
#pragma once

#include <array>

#include "../sentence_row.hpp"

namespace keysquare {

inline constexpr std::array german_pawn_king_sentences{
    SentenceRow{Theme::isolated_pawn, Detail::none, "{Other} hat {pieces:isolated pawn:acc} ({squares}).", ""},
    SentenceRow{Theme::doubled_pawns, Detail::none, "{Other} hat {pieces:doubled pawn:acc} ({squares}).", ""},
    SentenceRow{Theme::backward_pawn, Detail::none, "{Other} hat {pieces:backward pawn:acc} ({squares}).", ""},
    SentenceRow{Theme::passed_pawn, Detail::guarded_by_pawn,
                "{Man} ist ein gedeckter Freibauer, gestützt {second:vom}; bis zur Umwandlung "
                "{steps?fehlt|fehlen} {steps:step}.",
                ""},
    SentenceRow{Theme::passed_pawn, Detail::connected,
                "{Man} ist ein Freibauer, verbunden mit {second:dat}; bis zur Umwandlung {steps?fehlt|fehlen} "
                "{steps:step}.",
                ""},
    SentenceRow{Theme::passed_pawn, Detail::outside,
                "{Man} ist ein entfernter Freibauer; bis zur Umwandlung {steps?fehlt|fehlen} {steps:step}.", ""},
    SentenceRow{Theme::passed_pawn, Detail::none,
                "{Man} ist ein Freibauer; bis zur Umwandlung {steps?fehlt|fehlen} {steps:step}.", ""},
    SentenceRow{Theme::candidate_to_pass, Detail::none,
                "{Man} ist ein Freibauernkandidat: Auf seiner Linie steht kein Bauer vor ihm, und neben seinem Weg hat "
                "er {squares:helper:acc} gegen {squares_of_other:enemy pawn:acc}.",
                ""},
    SentenceRow{Theme::pawn_chain, Detail::attacked_already,
                "Die Bauern auf {squares} bilden eine Kette, und ein Bauer von {Side} greift ihre Basis an, {man:acc}.",
                ""},
    SentenceRow{Theme::pawn_chain, Detail::attackable,
                "Die Bauern auf {squares} bilden eine Kette; ein Bauer von {Side} kann vorrücken und ihre Basis "
                "angreifen, {man:acc}.",
                ""},
    SentenceRow{Theme::pawn_chain, Detail::none, "{Side} hat eine Kette aus {pieces:pawn:dat} ({squares}).", ""},
    SentenceRow{Theme::pawn_islands, Detail::none, "{Side} hat {islands:pawn island}, {Other} {islands_of_other}.", ""},
    SentenceRow{Theme::pawn_majority, Detail::queenside,
                "{Side} hat die Mehrheit am Damenflügel: {squares:pawn} gegen {squares_of_other}.", ""},
    SentenceRow{Theme::pawn_majority, Detail::kingside,
                "{Side} hat die Mehrheit am Königsflügel: {squares:pawn} gegen {squares_of_other}.", ""},
    SentenceRow{Theme::pawn_lever, Detail::on_open_file,
                "{Side} hat einen Hebel: {Man} kann nach {squares} vorrücken und {second:acc} angreifen; schlüge man "
                "ihn, öffnete sich die {file}.",
                ""},
    SentenceRow{Theme::pawn_lever, Detail::on_half_open_file,
                "{Side} hat einen Hebel: {Man} kann nach {squares} vorrücken und {second:acc} angreifen; ein Abtausch "
                "dort würde die {file} für {Side} halb öffnen.",
                ""},
    SentenceRow{Theme::pawn_lever, Detail::none,
                "{Side} hat einen Hebel: {Man} kann nach {squares} vorrücken und {second:acc} angreifen.", ""},
    SentenceRow{Theme::blocked_pawns, Detail::fixed_by_pawn, "Die Bauern auf {squares} blockieren einander.", ""},
    SentenceRow{Theme::blocked_pawns, Detail::blocked_by_piece, "{Side} blockiert {pieces:pawn:acc} von {squares} aus.",
                ""},
    SentenceRow{Theme::king_shelter, Detail::none,
                "Der Bauernschutz {man:gen} hat Lücken: Er hat {shield_pawns:shield pawn:acc}.", ""},
    SentenceRow{Theme::king_lines, Detail::on_open_file, "Die offene {file} führt {man:zum} oder an {man:ihm} vorbei.",
                ""},
    SentenceRow{Theme::king_lines, Detail::on_half_open_file,
                "{Side} hat {second:acc} auf der halboffenen {file}, die {man:zum} oder an {man:ihm} vorbei führt.",
                ""},
    SentenceRow{Theme::king_lines, Detail::on_diagonal,
                "{Side} hat eine Diagonale gegen {man:acc}, besetzt {second:vom}.", ""},
    SentenceRow{Theme::near_king, Detail::none,
                "{Side} hat {attackers:attacker:acc} in der Nähe {man:gen}, {Other} {defenders:defender:acc}.", ""},
    SentenceRow{Theme::king_escape, Detail::no_luft,
                "{Man} hat kein Luftloch und kann {man:sein}e Grundreihe nicht verlassen.", ""},
    SentenceRow{Theme::king_escape, Detail::none, "{Man} hat kein Feld, auf das {man:er} ziehen könnte.", ""},
    SentenceRow{Theme::king_in_centre, Detail::may_castle,
                "{Man} steht im Zentrum, wo {Side} {file:acc} für einen Angriff hat, darf aber noch rochieren.", ""},
    SentenceRow{Theme::king_in_centre, Detail::may_not_castle, "{Man} steht im Zentrum und kann nicht mehr rochieren.",
                ""},
};

} // namespace keysquare
