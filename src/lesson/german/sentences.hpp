// The German sentences about the safety of men, squares of one colour, rooks and material.
#pragma once

#include <array>

#include "../sentence_row.hpp"

namespace keysquare {

inline constexpr std::array german_sentences{
    SentenceRow{Theme::hanging, Detail::unguarded, "{Side} kann mit {move} {win}: {Man} ist ungedeckt.",
                "{Side} droht, mit {move} {win:zu}: {Man} ist ungedeckt."},
    SentenceRow{Theme::hanging, Detail::guard_pinned,
                "{Side} kann mit {move} {win}: Kein Verteidiger {man:gen} darf zurückschlagen.",
                "{Side} droht, mit {move} {win:zu}: Kein Verteidiger {man:gen} darf zurückschlagen."},
    SentenceRow{
        Theme::hanging, Detail::cheaper_attacker,
        "{Side} kann mit {move} {win}: {Man} wird von einem weniger wertvollen Stein angegriffen, {second:dat}.",
        "{Side} droht, mit {move} {win:zu}: {Man} wird von einem weniger wertvollen Stein angegriffen, "
        "{second:dat}."},
    SentenceRow{Theme::hanging, Detail::en_passant,
                "{Side} kann mit {move} {win}: {Man} lässt sich en passant schlagen.", ""},
    SentenceRow{Theme::hanging, Detail::none,
                "{Side} kann mit {move} {win}: Das Schlagen auf {squares} geht zugunsten von {Side} aus "
                "({attackers:attacker}, {guards:guard}).",
                "{Side} droht, mit {move} {win:zu}: Das Schlagen auf {squares} geht zugunsten von {Side} aus "
                "({attackers:attacker}, {guards:guard})."},
    SentenceRow{Theme::poisoned, Detail::none, "{Man} scheint zu hängen, aber das Schlagen {loses}: {line}.",
                "{Man} scheint zu hängen, doch wäre {Side} am Zug, würde das Schlagen {loses:last}: {line}."},
    SentenceRow{Theme::loose, Detail::none, "{Man} steht ungedeckt, wird aber noch nicht angegriffen.", ""},
    SentenceRow{Theme::guard_duty, Detail::guards_man,
                "{Man} muss {second:acc} decken: Fehlt {man:er}, kommt {move} und {wins}.", ""},
    SentenceRow{Theme::guard_duty, Detail::blocks_line,
                "{Man} schirmt {second:acc} ab: Fehlt {man:er}, kommt {move} und {wins}.", ""},
    SentenceRow{Theme::guard_duty, Detail::hinders_attacker,
                "{Man} wehrt den Angriff auf {second:acc} ab: Fehlt {man:er}, kommt {move} und {wins}.", ""},
    SentenceRow{Theme::guard_duty, Detail::stops_mate,
                "{Man} muss das Matt auf {squares} verhindern: Fehlt {man:er}, kommt {move}.", ""},
    SentenceRow{Theme::guard_duty, Detail::stops_promotion,
                "{Man} hält den Bauern auf dem Weg nach {squares} auf: Fehlt {man:er}, kommt {move} und {wins}.", ""},
    SentenceRow{Theme::overloaded, Detail::none,
                "{Man} ist überlastet ({squares}): {move} {wins}, denn schlägt {man:er} dort, vernachlässigt {man:er} "
                "die andere Aufgabe: {point}.",
                "{Man} ist überlastet ({squares}): {Side} droht {move}, was {wins:last}, denn schlägt {man:er} dort, "
                "vernachlässigt {man:er} die andere Aufgabe: {point}."},
    SentenceRow{Theme::tied, Detail::none,
                "{Man} ist an {man:sein}e Aufgabe gebunden ({squares}): Jeder {man:sein}er Züge gibt etwas auf; das "
                "kleinste Übel, {move}, {loses}{punish}.",
                "{Man} ist an {man:sein}e Aufgabe gebunden ({squares}): Jeder {man:sein}er Züge würde etwas aufgeben; "
                "das kleinste Übel, {move}, {loses}{punish}."},
    SentenceRow{Theme::mutual_guards, Detail::locked,
                "{Pieces} sind aneinander gebunden: Sie brauchen einander, und jeder ihrer Züge verliert etwas; das "
                "kleinste Übel, {move}, {loses}{punish}.",
                ""},
    SentenceRow{Theme::mutual_guards, Detail::pressured, "{Pieces} decken einander und werden angegriffen.", ""},
    SentenceRow{Theme::mutual_guards, Detail::only_each_other, "{Pieces} sind nur durch einander gedeckt.", ""},
    SentenceRow{Theme::shield_pair, Detail::locked,
                "{Man} deckt {second:acc}, {second:der} {man:ihn} abschirmt: Beide können nicht ohne Verlust ziehen; "
                "das kleinste Übel, {move}, {loses}{punish}.",
                ""},
    SentenceRow{Theme::shield_pair, Detail::none,
                "{Man} deckt {second:acc}, {second:der} {man:ihn} {second:sein}erseits abschirmt.", ""},
    SentenceRow{Theme::square_control, Detail::none,
                "{Side} beherrscht {held:square} des Bretts, {Other} {held_by_other}.", ""},
    SentenceRow{Theme::colour_complex, Detail::none,
                "{Side} beherrscht die {colour} Felder ({held} davon, {Other} {held_by_other}): {Other} hat dafür "
                "keinen Läufer, und {fixed_pawns:pawn} {fixed_pawns?ist|sind} auf der anderen Farbe festgelegt.",
                ""},
    SentenceRow{Theme::guardian, Detail::none,
                "{Man} bewacht die {colour} Felder in der Hälfte von {Side}: Ohne {man:ihn} "
                "{change?geht|gehen} {change:square} verloren ({squares}).",
                ""},
    SentenceRow{Theme::denied_square, Detail::none, "{Man} darf nicht nach {squares} ziehen: {move} {loses}{punish}.",
                "{Man} könnte nicht gefahrlos nach {squares} ziehen: {move} {loses}{punish}."},
    SentenceRow{Theme::rook_scope, Detail::none, "{Man} hat {safe_moves:safe move:acc}.", ""},
    SentenceRow{Theme::stuffed_rooks, Detail::none,
                "{Side} hat keinen sicheren Turmzug ({pieces}); das kleinste Übel, {move}, {loses}{punish}.", ""},
    SentenceRow{Theme::open_file, Detail::on_open_file, "{Man} steht auf der offenen {file}.", ""},
    SentenceRow{Theme::open_file, Detail::on_half_open_file, "{Man} steht auf der halboffenen {file}.", ""},
    SentenceRow{Theme::open_file, Detail::can_take_open_file, "{Man} kann eine offene Linie besetzen ({squares}).", ""},
    SentenceRow{Theme::open_file, Detail::can_take_half_open_file,
                "{Man} kann eine halboffene Linie besetzen ({squares}).", ""},
    SentenceRow{Theme::seventh_rank, Detail::none, "{Man} hat {man:sein}e siebte Reihe erreicht.", ""},
    SentenceRow{Theme::doubled_rooks, Detail::none, "{Pieces} sind auf der {file} verdoppelt.", ""},
    SentenceRow{Theme::connected_rooks, Detail::none, "{Pieces} sind verbunden.", ""},
    SentenceRow{Theme::entry_square, Detail::none, "{Man} kann ins gegnerische Lager eindringen ({squares}).", ""},
    SentenceRow{Theme::material, Detail::even, "Das Material ist ausgeglichen.", ""},
    SentenceRow{Theme::material, Detail::pawns_up, "{Side} hat {pawns:pawn:acc} mehr.", ""},
    SentenceRow{Theme::material, Detail::the_exchange, "{Side} hat die Qualität mehr; {count}.", ""},
    SentenceRow{Theme::material, Detail::the_exchange_for_pawns, "Die Qualität steht gegen Bauern; {count}.", ""},
    SentenceRow{Theme::material, Detail::two_exchanges,
                "Türme stehen gegen Leichtfiguren, je {exchanges} davon; {count}.", ""},
    SentenceRow{Theme::material, Detail::two_minors_for_rook, "Zwei Leichtfiguren stehen gegen einen Turm; {count}.",
                ""},
    SentenceRow{Theme::material, Detail::two_minors_for_rook_and_pawns,
                "Zwei Leichtfiguren stehen gegen Turm und Bauern; {count}.", ""},
    SentenceRow{Theme::material, Detail::queen_for_pieces, "Eine Dame steht gegen mehrere Figuren; {count}.", ""},
    SentenceRow{Theme::material, Detail::minor_for_pawns, "Eine Leichtfigur steht gegen Bauern; {count}.", ""},
    SentenceRow{Theme::material, Detail::piece_up, "{Side} hat mehr Figuren; {count}.", ""},
    SentenceRow{Theme::material, Detail::piece_for_pawns, "Figuren stehen gegen Bauern; {count}.", ""},
    SentenceRow{Theme::material, Detail::bishop_pair, "{Side} hat das Läuferpaar.", ""},
    SentenceRow{Theme::material, Detail::opposite_bishops, "Es sind ungleichfarbige Läufer auf dem Brett.", ""},
    SentenceRow{Theme::material, Detail::none, "Das Material ist ungleich verteilt; {count}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::no_compensation,
                "{Side} hat die Qualität mehr, und die Bilanz weist dafür keine Kompensation aus.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::some_compensation,
                "{Side} hat die Qualität mehr; {Other} hat dafür etwas vorzuweisen: {ledger}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::enough_compensation,
                "{Side} hat die Qualität weniger und dafür genug vorzuweisen: {ledger}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::none,
                "{Side} hat die Qualität weniger und dafür mehr als genug vorzuweisen: {ledger}.", ""},
};

} // namespace keysquare
