// The German sentences about tactical themes.
#pragma once

#include <array>

#include "../sentence_row.hpp"

namespace keysquare {

inline constexpr std::array german_tactics_sentences{
    SentenceRow{Theme::pin, Detail::absolute,
                "{Man} ist durch {second:acc} an den König gefesselt; {Side} kann mit {move} {win}{punish}.",
                "{Man} ist durch {second:acc} an den König gefesselt; {Side} droht, mit {move} {win:zu}{punish}.",
                "{Man} ist durch {second:acc} an den König gefesselt."},
    SentenceRow{Theme::pin, Detail::relative,
                "{Man} ist durch {second:acc} an {third:acc} gefesselt; {Side} kann mit {move} {win}{punish}.",
                "{Man} ist durch {second:acc} an {third:acc} gefesselt; {Side} droht, mit {move} {win:zu}{punish}.",
                "{Man} ist durch {second:acc} gefesselt: Verlässt {man:er} die Linie, geht {third} verloren."},
    SentenceRow{Theme::pin, Detail::absolute_next,
                "{Side} kann mit {move} {man:acc} an den König fesseln und {win}{punish}.",
                "{Side} droht, mit {move} {man:acc} an den König zu fesseln und {win:zu}{punish}."},
    SentenceRow{Theme::pin, Detail::relative_next,
                "{Side} kann mit {move} {man:acc} an {third:acc} fesseln und {win}{punish}.",
                "{Side} droht, mit {move} {man:acc} an {third:acc} zu fesseln und {win:zu}{punish}."},
    SentenceRow{Theme::skewer, Detail::none,
                "{Side} kann mit dem Spieß {move} gegen {second:acc} und dahinter {third:acc} {win}{punish}.",
                "{Side} droht, mit dem Spieß {move} gegen {second:acc} und dahinter {third:acc} {win:zu}{punish}.",
                "Der Spieß {point} gegen {second:acc} und dahinter {third:acc} würde keinen Gewinn erzwingen."},
    SentenceRow{Theme::fork, Detail::none, "{Side} kann mit der Gabel {move} gegen {others:acc} {win}{punish}.",
                "{Side} droht, mit der Gabel {move} gegen {others:acc} {win:zu}{punish}.",
                "Die Gabel {point} gegen {others:acc} würde keinen Gewinn erzwingen."},
    SentenceRow{Theme::double_attack, Detail::none,
                "{Side} kann mit dem Doppelangriff {move} {win}: Er droht matt und greift zugleich {second:acc} "
                "an{punish}.",
                "{Side} würde mit dem Doppelangriff {move} {win}: Er droht matt und greift zugleich {second:acc} "
                "an{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_double_check,
                "{Side} kann mit dem Doppelschach {move} durch {man:acc} und {second:acc} {win}{punish}.",
                "{Side} droht, mit dem Doppelschach {move} durch {man:acc} und {second:acc} {win:zu}{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_check,
                "{Side} kann mit dem Schach {move} {second:dat} die Linie öffnen und {win}{punish}.",
                "{Side} droht, mit dem Schach {move} {second:dat} die Linie zu öffnen und {win:zu}{punish}.",
                "{Man} steht zwischen {second:dat} und dem gegnerischen König: Verlässt {man:er} die Linie, entsteht "
                "ein Abzugsschach."},
    SentenceRow{Theme::discovered_attack, Detail::none,
                "{Side} kann mit dem Abzug {move} den Angriff {second:gen} auf {third:acc} freilegen und "
                "{win}{punish}.",
                "{Side} droht, mit dem Abzug {move} den Angriff {second:gen} auf {third:acc} freizulegen und "
                "{win:zu}{punish}.",
                "{Man} steht zwischen {second:dat} und {third:dat}: Verlässt {man:er} die Linie, entsteht ein "
                "Abzugsangriff."},
    SentenceRow{Theme::battery, Detail::none, "{Man} und {second} bilden eine Batterie, die auf {squares} wirkt.", ""},
    SentenceRow{Theme::removable_guard, Detail::by_capture,
                "{Side} kann mit {move} {man:acc} beseitigen, {man:der} {others:acc} deckt, und {win}{punish}.",
                "{Side} droht, mit {move} {man:acc} zu beseitigen, {man:der} {others:acc} deckt, und "
                "{win:zu}{punish}.",
                "Nur {man} deckt {second:acc}, und {Side} kann {man:ihn} schlagen ({point}); das erzwingt aber keinen "
                "Gewinn."},
    SentenceRow{Theme::removable_guard, Detail::by_blocking,
                "{Side} kann mit {move} {man:acc} von {man:sein}er Deckungsaufgabe abschneiden und {win}{punish}.",
                "{Side} droht, mit {move} {man:acc} von {man:sein}er Deckungsaufgabe abzuschneiden und "
                "{win:zu}{punish}."},
    SentenceRow{Theme::removable_guard, Detail::by_luring,
                "{Side} kann mit {move} {man:acc} von {man:sein}er Aufgabe ablenken und {win}; wenn {man:er} schlägt: "
                "{point}.",
                "{Side} droht, mit {move} {man:acc} von {man:sein}er Aufgabe abzulenken und {win:zu}; wenn {man:er} "
                "schlägt: {point}."},
    SentenceRow{Theme::removable_guard, Detail::by_driving_off,
                "{Side} kann mit {move} {man:acc} angreifen, {man:der} auf {man:sein}em Platz gebraucht wird, und "
                "{win}{punish}.",
                "{Side} droht, mit {move} {man:acc} anzugreifen, {man:der} auf {man:sein}em Platz gebraucht wird, und "
                "{win:zu}{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attackable,
                "{Man} hat kein sicheres Feld mehr, sobald {man:er} angegriffen wird: {Side} kann mit {move} "
                "{win}{punish}.",
                "{Man} hat kein sicheres Feld mehr, sobald {man:er} angegriffen wird: {Side} droht, mit {move} "
                "{win:zu}{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attacked_already, "",
                "{Man} ist gefangen: {Side} droht, mit {move} {win:zu}, und jeder {man:sein}er Züge verliert ebenfalls "
                "Material."},
    SentenceRow{Theme::mate_in_one, Detail::none, "{Side} setzt mit {move} matt.", "{Side} droht mit {move} matt."},
    SentenceRow{Theme::mate_in_two, Detail::none, "{Side} setzt in zwei Zügen matt: {line}.",
                "{Side} droht Matt in zwei Zügen: {line}."},
    SentenceRow{Theme::back_rank, Detail::none, "{Man} ist auf der Grundreihe eingesperrt, und {line} setzt dort matt.",
                "{Man} ist auf der Grundreihe eingesperrt, und {Side} droht dort matt: {line}.",
                "{Man} ist auf der Grundreihe eingesperrt; {Side} hat {others:acc}, um das auszunutzen."},
    SentenceRow{Theme::promotion_threat, Detail::none, "{Man} kommt durch: {line} {wins}.",
                "{Side} droht, {man:acc} durchzubringen: {line} {wins}."},
    SentenceRow{Theme::intermediate_move, Detail::none,
                "Bevor {second} geschlagen wird, kommt der Zwischenzug {move}: Er {wins}{punish}; sofortiges Schlagen "
                "bringt, in Bauern gerechnet, nur {at_once}.",
                "Bevor {second} geschlagen wird, droht {Side} den Zwischenzug {move}: Er {wins}{punish}; sofortiges "
                "Schlagen bringt, in Bauern gerechnet, nur {at_once}."},
};

} // namespace keysquare
