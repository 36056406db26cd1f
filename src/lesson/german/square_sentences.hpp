// The German sentences about squares and pieces.
#pragma once

#include <array>

#include "../sentence_row.hpp"

namespace keysquare {

inline constexpr std::array german_square_sentences{
    SentenceRow{Theme::hole, Detail::none,
                "{Other} hat {squares:hole}, auf {squares?dem|denen} sich eine Leichtfigur von {Side} festsetzen kann "
                "({squares}).",
                ""},
    SentenceRow{Theme::outpost, Detail::held_by_piece,
                "{Man} steht auf einem Vorposten: Ein Bauer deckt {man:ihn}, und kein gegnerischer Bauer kann "
                "{man:ihn} vertreiben.",
                ""},
    SentenceRow{Theme::outpost, Detail::none,
                "{Pieces} {pieces?kann|können} in {moves_to_go:move:dat} einen Vorposten erreichen ({squares}).", ""},
    SentenceRow{Theme::space, Detail::none,
                "{Side} hat mehr Raum: {squares:square} hinter den Bauern gegen {squares_of_other}.", ""},
    SentenceRow{Theme::good_bishop, Detail::none,
                "{Man} ist ein guter Läufer: {fixed_pawns:own pawn} {fixed_pawns?ist|sind} auf der anderen Farbe "
                "festgelegt ({squares}).",
                ""},
    SentenceRow{Theme::bad_bishop, Detail::none,
                "{Man} ist ein schlechter Läufer: {fixed_pawns:own pawn} {fixed_pawns?ist|sind} auf seiner Farbe "
                "festgelegt ({squares}).",
                ""},
    SentenceRow{Theme::rim_knight, Detail::none, "{Man} steht am Rand und hat {scope:square} zur Verfügung.", ""},
    SentenceRow{Theme::undeveloped, Detail::none,
                "{Other} liegt in der Entwicklung zurück: {pieces:minor piece} {pieces?steht|stehen} noch auf dem "
                "Ausgangsfeld ({squares}).",
                ""},
    SentenceRow{Theme::passive_piece, Detail::none,
                "{Man} steht passiv: {scope:square} zur Verfügung, üblich sind {usual_scope}.", ""},
    SentenceRow{Theme::guarding_only, Detail::none,
                "{Man} erfüllt nur Deckungsaufgaben ({squares}) und greift weder einen gegnerischen Stein noch ein "
                "Feld der gegnerischen Hälfte an.",
                ""},
};

} // namespace keysquare
