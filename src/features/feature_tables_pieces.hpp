// Columns of the numeric vector: what the pieces do, and which men stand badly guarded.
#pragma once

#include <array>

#include <keysquare/features/scope.hpp>

#include "fact_counts.hpp"
#include "feature_quantity.hpp"

namespace keysquare::detail {

using Facts = FeatureFacts;

inline Squares attacked_by_cheaper(const Facts& at, Side side) noexcept {
    const Side enemy = other(side);
    const Squares queens = at.men(side, Kind::queen);
    const Squares majors = at.men(side, Kind::rook) | queens;
    const Squares pieces = at.men(side, Kind::knight) | at.men(side, Kind::bishop) | majors;
    return (pieces & at.map.by(enemy, Kind::pawn)) | (majors & at.map.by_minors(enemy)) |
           (queens & at.map.by(enemy, Kind::rook));
}

inline constexpr std::array piece_quantities{
    Quantity{"piece_scope", FeatureUnit::squares, Spread::sides_and_difference,
             "Sum over the side's knights, bishops, rooks and queens of their scope: squares that the piece attacks, "
             "on which no man of the side stands and which no pawn of the other side attacks.",
             [](const Facts& at, Side side) { return scope_of_all(at.of(side)); }},
    Quantity{"knight_scope", FeatureUnit::squares, Spread::sides, "The part of piece_scope that the knights have.",
             [](const Facts& at, Side side) { return at.of(side).scope[index(Kind::knight)]; }},
    Quantity{"bishop_scope", FeatureUnit::squares, Spread::sides, "The part of piece_scope that the bishops have.",
             [](const Facts& at, Side side) { return at.of(side).scope[index(Kind::bishop)]; }},
    Quantity{"rook_scope", FeatureUnit::squares, Spread::sides, "The part of piece_scope that the rooks have.",
             [](const Facts& at, Side side) { return at.of(side).scope[index(Kind::rook)]; }},
    Quantity{"queen_scope", FeatureUnit::squares, Spread::sides, "The part of piece_scope that the queens have.",
             [](const Facts& at, Side side) { return at.of(side).scope[index(Kind::queen)]; }},
    Quantity{"stuck_pieces", FeatureUnit::men, Spread::sides_and_difference,
             "Knights, bishops, rooks and queens of the side with no square of scope.",
             [](const Facts& at, Side side) { return at.of(side).stuck; }},
    Quantity{"passive_piece", FeatureUnit::yes_or_no, Spread::sides,
             "Whether one piece of the side is passive: it has the least scope in proportion to the usual one (knight "
             "4, bishop 4, rook 5, queen 9), and less than half of it; of several with the same proportion the one "
             "with the larger usual scope counts, and with two such there is none; nor is there one while two or more "
             "pieces of the side are undeveloped.",
             [](const Facts& at, Side side) { return passive_piece_of(at.position, side) != Square::none; }},
    Quantity{"rim_knights", FeatureUnit::men, Spread::sides, "Knights of the side on the a-file or the h-file.",
             [](const Facts& at, Side side) { return rim_knights_of(at.position, side); }},
    Quantity{"undeveloped_pieces", FeatureUnit::men, Spread::sides_and_difference,
             "Knights of the side on the files b and g and bishops on c and f of its rank 1, without those on f and g "
             "when its king stands on g or h of that rank and those on b and c when it stands on a or b; none in an "
             "endgame.",
             [](const Facts& at, Side side) { return undeveloped_of(at.position, side); }},
    Quantity{"pinned_men", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side that stand alone between its king and a bishop, rook or queen of the other side that "
             "would attack the king without them.",
             [](const Facts& at, Side side) { return pinned_men(at.position, side); }},
    Quantity{"batteries", FeatureUnit::pairs, Spread::sides,
             "Pairs of men of the side with nothing between them: rooks and queens on a rank or file, bishops and "
             "queens on a diagonal.",
             [](const Facts& at, Side side) { return at.of(side).batteries / 2; }},
    Quantity{"rooks_on_open_files", FeatureUnit::men, Spread::sides_and_difference,
             "Rooks of the side on files without any pawn.",
             [](const Facts& at, Side side) { return at.men(side, Kind::rook) & at.pawns.open_files; }},
    Quantity{"rooks_on_half_open_files", FeatureUnit::men, Spread::sides_and_difference,
             "Rooks of the side on files with pawns of the other side only.",
             [](const Facts& at, Side side) { return at.men(side, Kind::rook) & at.pawns.of(side).half_open_files; }},
    Quantity{
        "rooks_on_seventh", FeatureUnit::men, Spread::sides,
        "Rooks of the side on its rank 7, while the other king stands on its rank 8 or a pawn of the other side on "
        "its rank 7.",
        [](const Facts& at, Side side) { return rooks_on_seventh(at.position, side); }},
    Quantity{"connected_rooks", FeatureUnit::pairs, Spread::sides,
             "Pairs of rooks of the side on a rank with nothing between them.",
             [](const Facts& at, Side side) { return at.of(side).connected_rooks / 2; }},
    Quantity{"doubled_rooks", FeatureUnit::pairs, Spread::sides,
             "Pairs of rooks of the side on a file with nothing between them.",
             [](const Facts& at, Side side) { return at.of(side).doubled_rooks / 2; }},
};

inline constexpr std::array safety_quantities{
    Quantity{"attacked_men", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king excepted, that the other side attacks.",
             [](const Facts& at, Side side) { return at.men_but_king(side) & at.attacked(other(side)); }},
    Quantity{"attacked_unguarded_men", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king excepted, that the other side attacks and no man of the side does.",
             [](const Facts& at, Side side) { return at.men_but_king(side) & at.uncontested(other(side)); }},
    Quantity{"men_attacked_by_cheaper", FeatureUnit::men, Spread::sides_and_difference,
             "Knights and bishops of the side that a pawn of the other side attacks, rooks that a pawn, knight or "
             "bishop attacks, queens that a pawn, knight, bishop or rook attacks.",
             [](const Facts& at, Side side) { return attacked_by_cheaper(at, side); }},
    Quantity{"outnumbered_men", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king excepted, that more men of the other side attack than men of the side do, four "
             "and more counted as three.",
             [](const Facts& at, Side side) { return outnumbered(at, side); }},
    Quantity{"loose_men", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king excepted, that no man of either side attacks.",
             [](const Facts& at, Side side) {
                 return at.men_but_king(side) & ~at.attacked(side) & ~at.attacked(other(side));
             }},
};

} // namespace keysquare::detail
