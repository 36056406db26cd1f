// The English words that templates are filled with.
#pragma once

#include <array>

#include "vocabulary.hpp"

namespace keysquare {

inline constexpr std::array english_men{
    ManForm{"",
            {"the pawn", "the knight", "the bishop", "the rook", "the queen", "the king"},
            {"the pawns", "the knights", "the bishops", "the rooks", "the queens", "the kings"},
            " on "},
    ManForm{"kind",
            {"pawn", "knight", "bishop", "rook", "queen", "king"},
            {"pawns", "knights", "bishops", "rooks", "queens", "kings"}},
};

inline constexpr std::array english_nouns{
    CountedNoun{"answer", "no answer", "one answer", "{count} answers"},
    CountedNoun{"attacker", "no attacker", "one attacker", "{count} attackers"},
    CountedNoun{"backward pawn", "no backward pawn", "one backward pawn", "{count} backward pawns"},
    CountedNoun{"defender", "no defender", "one defender", "{count} defenders"},
    CountedNoun{"doubled pawn", "no doubled pawn", "one doubled pawn", "{count} doubled pawns"},
    CountedNoun{"enemy pawn", "no enemy pawn", "one enemy pawn", "{count} enemy pawns"},
    CountedNoun{"further", "", "1 more", "{count} more"},
    CountedNoun{"guard", "no guard", "one guard", "{count} guards"},
    CountedNoun{"helper", "no helper", "one helper", "{count} helpers"},
    CountedNoun{"hole", "no hole", "one hole", "{count} holes"},
    CountedNoun{"isolated pawn", "no isolated pawn", "one isolated pawn", "{count} isolated pawns"},
    CountedNoun{"legal move", "no legal move", "one legal move", "{count} legal moves"},
    CountedNoun{"man", "no man", "one man", "{count} men"},
    CountedNoun{"minor piece", "no minor piece", "one minor piece", "{count} minor pieces"},
    CountedNoun{"more square", "no more square", "one more square", "{count} more squares"},
    CountedNoun{"move", "no move", "one move", "{count} moves"},
    CountedNoun{"outpost", "no outpost", "one outpost", "{count} outposts"},
    CountedNoun{"own pawn", "no own pawn", "one own pawn", "{count} own pawns"},
    CountedNoun{"passed pawn", "no passed pawn", "one passed pawn", "{count} passed pawns"},
    CountedNoun{"pawn", "no pawn", "a pawn", "{count} pawns"},
    CountedNoun{"pawn island", "no pawn island", "one pawn island", "{count} pawn islands"},
    CountedNoun{"safe move", "no safe move", "one safe move", "{count} safe moves"},
    CountedNoun{"shield pawn", "no shield pawn", "one shield pawn", "{count} shield pawns"},
    CountedNoun{"square", "no square", "one square", "{count} squares"},
    CountedNoun{"step", "no step", "one step", "{count} steps"},
    CountedNoun{"threat", "no threat", "one threat", "{count} threats"},
    CountedNoun{"useful move", "no useful move", "one useful move", "{count} useful moves"},
};

inline constexpr std::array english_worths{
    WorthForm{"worth", "a pawn", "material worth {count} pawns"},
};

inline constexpr std::array english_wins{
    WinForm{"win", "mate", "force mate", "win {worth}"},
    WinForm{"wins", "mates", "leads to mate", "wins {worth}"},
};

inline constexpr std::array english_losses{
    LossForm{"loses", "runs into mate", "wins nothing", "loses {worth}"},
};

inline constexpr std::array english_files{
    FileForm{"", "{letter}-file"},
};

inline constexpr Vocabulary english_vocabulary{
    .sides = {"White", "Black"},
    .move_letters = "NBRQKO",
    .last_comma = " and ",
    .alternative = " or ",
    .no_man = "it",
    .colours = {"light", "dark"},
    .level = "the count of material is level",
    .ahead = "{Side} is {count:pawn} ahead by the count of material",
    .ledger =
        {
            .pawns = "{count:pawn}",
            .bishop_pair = "the bishop pair",
            .outposts = "{count:outpost}",
            .passed_pawns = "{count:passed pawn}",
            .exposed_king = "a less sheltered enemy king",
            .bearing_men = "{count:man} bearing on the king",
            .no_rook_file = "no file for the enemy rooks",
            .weak_pawns = "damaged enemy pawns",
            .points = "by the points of the ledger",
        },
    .men = english_men,
    .nouns = english_nouns,
    .worths = english_worths,
    .wins = english_wins,
    .losses = english_losses,
    .files = english_files,
};

} // namespace keysquare
