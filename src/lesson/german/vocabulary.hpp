// The German words that templates are filled with. Forms of men: "" is the nominative, acc, dat and gen the other
// cases, zum and vom the dative with its preposition; er, ihn, ihm, sein (without its ending) stand for the man, der, den, dem
// begin a clause about it.
#pragma once

#include <array>

#include "../vocabulary.hpp"

namespace keysquare {

inline constexpr std::array german_men{
    ManForm{"",
            {"der Bauer", "der Springer", "der Läufer", "der Turm", "die Dame", "der König"},
            {"die Bauern", "die Springer", "die Läufer", "die Türme", "die Damen", "die Könige"},
            " auf "},
    ManForm{"acc",
            {"den Bauern", "den Springer", "den Läufer", "den Turm", "die Dame", "den König"},
            {"die Bauern", "die Springer", "die Läufer", "die Türme", "die Damen", "die Könige"},
            " auf "},
    ManForm{"dat",
            {"dem Bauern", "dem Springer", "dem Läufer", "dem Turm", "der Dame", "dem König"},
            {"den Bauern", "den Springern", "den Läufern", "den Türmen", "den Damen", "den Königen"},
            " auf "},
    ManForm{"gen",
            {"des Bauern", "des Springers", "des Läufers", "des Turms", "der Dame", "des Königs"},
            {"der Bauern", "der Springer", "der Läufer", "der Türme", "der Damen", "der Könige"},
            " auf "},
    ManForm{"zum",
            {"zum Bauern", "zum Springer", "zum Läufer", "zum Turm", "zur Dame", "zum König"},
            {"zu den Bauern", "zu den Springern", "zu den Läufern", "zu den Türmen", "zu den Damen", "zu den Königen"},
            " auf "},
    ManForm{"vom",
            {"vom Bauern", "vom Springer", "vom Läufer", "vom Turm", "von der Dame", "vom König"},
            {"von den Bauern", "von den Springern", "von den Läufern", "von den Türmen", "von den Damen",
             "von den Königen"},
            " auf "},
    ManForm{"kind",
            {"Bauer", "Springer", "Läufer", "Turm", "Dame", "König"},
            {"Bauern", "Springer", "Läufer", "Türme", "Damen", "Könige"}},
    ManForm{"kind acc",
            {"den Bauern", "den Springer", "den Läufer", "den Turm", "die Dame", "den König"},
            {"die Bauern", "die Springer", "die Läufer", "die Türme", "die Damen", "die Könige"}},
    ManForm{"attacked acc",
            {"den angegriffenen Bauern", "den angegriffenen Springer", "den angegriffenen Läufer",
             "den angegriffenen Turm", "die angegriffene Dame", "den angegriffenen König"},
            {}},
    ManForm{"er", {"er", "er", "er", "er", "sie", "er"}, {"sie", "sie", "sie", "sie", "sie", "sie"}},
    ManForm{"ihn", {"ihn", "ihn", "ihn", "ihn", "sie", "ihn"}, {"sie", "sie", "sie", "sie", "sie", "sie"}},
    ManForm{"ihm", {"ihm", "ihm", "ihm", "ihm", "ihr", "ihm"}, {"ihnen", "ihnen", "ihnen", "ihnen", "ihnen", "ihnen"}},
    ManForm{"sein", {"sein", "sein", "sein", "sein", "ihr", "sein"}, {"ihr", "ihr", "ihr", "ihr", "ihr", "ihr"}},
    ManForm{"der", {"der", "der", "der", "der", "die", "der"}, {"die", "die", "die", "die", "die", "die"}},
    ManForm{"den", {"den", "den", "den", "den", "die", "den"}, {"die", "die", "die", "die", "die", "die"}},
    ManForm{"dem", {"dem", "dem", "dem", "dem", "der", "dem"}, {"denen", "denen", "denen", "denen", "denen", "denen"}},
};

/// Where the case shows, it stands behind the noun; the others are the same in nominative and accusative.
inline constexpr std::array german_nouns{
    CountedNoun{"answer:acc", "keine Antwort", "eine Antwort", "{count} Antworten"},
    CountedNoun{"attacker", "kein Angreifer", "ein Angreifer", "{count} Angreifer"},
    CountedNoun{"attacker:acc", "keinen Angreifer", "einen Angreifer", "{count} Angreifer"},
    CountedNoun{"backward pawn:acc", "keinen rückständigen Bauern", "einen rückständigen Bauern",
                "{count} rückständige Bauern"},
    CountedNoun{"defender:acc", "keinen Verteidiger", "einen Verteidiger", "{count} Verteidiger"},
    CountedNoun{"doubled pawn:acc", "keinen verdoppelten Bauern", "einen verdoppelten Bauern",
                "{count} verdoppelte Bauern"},
    CountedNoun{"enemy pawn:acc", "keinen gegnerischen Bauern", "einen gegnerischen Bauern",
                "{count} gegnerische Bauern"},
    CountedNoun{"further", "", "1 weiterer", "{count} weitere"},
    CountedNoun{"guard", "kein Verteidiger", "ein Verteidiger", "{count} Verteidiger"},
    CountedNoun{"helper:acc", "keinen Helfer", "einen Helfer", "{count} Helfer"},
    CountedNoun{"hole", "kein schwaches Feld", "ein schwaches Feld", "{count} schwache Felder"},
    CountedNoun{"isolated pawn:acc", "keinen vereinzelten Bauern", "einen vereinzelten Bauern",
                "{count} vereinzelte Bauern"},
    CountedNoun{"legal move:acc", "keinen legalen Zug", "einen legalen Zug", "{count} legale Züge"},
    CountedNoun{"legal move:dat", "keinem legalen Zug", "einem legalen Zug", "{count} legalen Zügen"},
    CountedNoun{"man:acc", "keinen Stein", "einen Stein", "{count} Steine"},
    CountedNoun{"minor piece", "keine Leichtfigur", "eine Leichtfigur", "{count} Leichtfiguren"},
    CountedNoun{"more square", "kein Feld mehr", "ein Feld mehr", "{count} Felder mehr"},
    CountedNoun{"move:acc", "keinen Zug", "einen Zug", "{count} Züge"},
    CountedNoun{"move:dat", "keinem Zug", "einem Zug", "{count} Zügen"},
    CountedNoun{"outpost:acc", "keinen Vorposten", "einen Vorposten", "{count} Vorposten"},
    CountedNoun{"own pawn", "kein eigener Bauer", "ein eigener Bauer", "{count} eigene Bauern"},
    CountedNoun{"passed pawn:acc", "keinen Freibauern", "einen Freibauern", "{count} Freibauern"},
    CountedNoun{"pawn", "kein Bauer", "ein Bauer", "{count} Bauern"},
    CountedNoun{"pawn:acc", "keinen Bauern", "einen Bauern", "{count} Bauern"},
    CountedNoun{"pawn:dat", "keinem Bauern", "einem Bauern", "{count} Bauern"},
    CountedNoun{"pawn island", "keine Bauerninsel", "eine Bauerninsel", "{count} Bauerninseln"},
    CountedNoun{"safe move:acc", "keinen sicheren Zug", "einen sicheren Zug", "{count} sichere Züge"},
    CountedNoun{"safe move:dat", "keinem sicheren Zug", "einem sicheren Zug", "{count} sicheren Zügen"},
    CountedNoun{"shield pawn:acc", "keinen Schutzbauern", "einen Schutzbauern", "{count} Schutzbauern"},
    CountedNoun{"square", "kein Feld", "ein Feld", "{count} Felder"},
    CountedNoun{"step", "kein Schritt", "ein Schritt", "{count} Schritte"},
    CountedNoun{"threat", "keine Drohung", "eine Drohung", "{count} Drohungen"},
    CountedNoun{"useful move:acc", "keinen nützlichen Zug", "einen nützlichen Zug", "{count} nützliche Züge"},
};

inline constexpr std::array german_worths{
    WorthForm{"worth", "einen Bauern", "Material im Wert von {count} Bauern"},
    WorthForm{"worth:nom", "ein Bauer", "Material im Wert von {count} Bauern"},
};

inline constexpr std::array german_wins{
    WinForm{"win", "mattsetzen", "das Matt erzwingen", "{worth} gewinnen"},
    WinForm{"win:zu", "mattzusetzen", "das Matt zu erzwingen", "{worth} zu gewinnen"},
    WinForm{"wins", "setzt matt", "führt zum Matt", "gewinnt {worth}"},
    WinForm{"wins:last", "mattsetzt", "zum Matt führt", "{worth} gewinnt"},
};

inline constexpr std::array german_losses{
    LossForm{"loses", "lässt das Matt zu", "gewinnt nichts", "verliert {worth}"},
    LossForm{"loses:last", "das Matt zulassen", "nichts gewinnen", "{worth} verlieren"},
};

inline constexpr std::array german_files{
    FileForm{"", "{letter}-Linie"},
    FileForm{"acc", "die {letter}-Linie"},
};

inline constexpr Vocabulary german_vocabulary{
    .sides = {"Weiß", "Schwarz"},
    .move_letters = "SLTDK0",
    .last_comma = " und ",
    .alternative = " oder ",
    .no_man = "der Stein",
    .colours = {"weißen", "schwarzen"},
    .level = "rechnerisch ist das Material ausgeglichen",
    .ahead = "rechnerisch liegt {Side} um {count:pawn:acc} vorn",
    .ledger =
        {
            .pawns = "{count:pawn:acc}",
            .bishop_pair = "das Läuferpaar",
            .outposts = "{count:outpost:acc}",
            .passed_pawns = "{count:passed pawn:acc}",
            .exposed_king = "einen schlechter geschützten gegnerischen König",
            .bearing_men = "{count:man:acc} mit Druck auf den König",
            .no_rook_file = "keine Linie für die gegnerischen Türme",
            .weak_pawns = "geschwächte gegnerische Bauern",
            .points = "nach den Punkten der Bilanz",
        },
    .men = german_men,
    .nouns = german_nouns,
    .worths = german_worths,
    .wins = german_wins,
    .losses = german_losses,
    .files = german_files,
};

} // namespace keysquare
