// Columns of the numeric vector: material and squares.
#pragma once

#include <array>

#include <keysquare/features/space.hpp>
#include <keysquare/tactics/values.hpp>

#include "feature_quantity.hpp"

namespace keysquare::detail {

using Facts = FeatureFacts;

/// The squares on the files c to f, on the ranks three to six.
inline constexpr Squares wide_centre{std::uint64_t{0x00003C3C3C3C0000}};

inline int material_of(const Position& position, Side side) noexcept {
    int sum = 0;
    for (const Kind kind : {Kind::pawn, Kind::knight, Kind::bishop, Kind::rook, Kind::queen})
        sum += Values{}[kind] * position.men(side, kind).count();
    return sum;
}

inline bool has_bishop_pair(Squares bishops) noexcept { return (bishops & light_squares) && (bishops & dark_squares); }

inline constexpr std::array material_quantities{
    Quantity{"pawns", FeatureUnit::men, Spread::sides_and_difference, "Pawns of the side.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn); }},
    Quantity{"knights", FeatureUnit::men, Spread::sides_and_difference, "Knights of the side.",
             [](const Facts& at, Side side) { return at.men(side, Kind::knight); }},
    Quantity{"bishops", FeatureUnit::men, Spread::sides_and_difference, "Bishops of the side.",
             [](const Facts& at, Side side) { return at.men(side, Kind::bishop); }},
    Quantity{"rooks", FeatureUnit::men, Spread::sides_and_difference, "Rooks of the side.",
             [](const Facts& at, Side side) { return at.men(side, Kind::rook); }},
    Quantity{"queens", FeatureUnit::men, Spread::sides_and_difference, "Queens of the side.",
             [](const Facts& at, Side side) { return at.men(side, Kind::queen); }},
    Quantity{"material", FeatureUnit::pawns, Spread::sides_and_difference,
             "Sum of pawn 1, knight 3, bishop 3, rook 5, queen 9 over the side's men.",
             [](const Facts& at, Side side) { return material_of(at.position, side); }},
    Quantity{"light_bishops", FeatureUnit::men, Spread::sides, "Bishops of the side on light squares.",
             [](const Facts& at, Side side) { return at.men(side, Kind::bishop) & light_squares; }},
    Quantity{"dark_bishops", FeatureUnit::men, Spread::sides, "Bishops of the side on dark squares.",
             [](const Facts& at, Side side) { return at.men(side, Kind::bishop) & dark_squares; }},
    Quantity{"light_pawns", FeatureUnit::men, Spread::sides, "Pawns of the side on light squares.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn) & light_squares; }},
    Quantity{"dark_pawns", FeatureUnit::men, Spread::sides, "Pawns of the side on dark squares.",
             [](const Facts& at, Side side) { return at.men(side, Kind::pawn) & dark_squares; }},
    Quantity{"light_men", FeatureUnit::men, Spread::sides, "Men of the side, its king included, on light squares.",
             [](const Facts& at, Side side) { return at.position.men(side) & light_squares; }},
    Quantity{"dark_men", FeatureUnit::men, Spread::sides, "Men of the side, its king included, on dark squares.",
             [](const Facts& at, Side side) { return at.position.men(side) & dark_squares; }},
    Quantity{"bishop_pair", FeatureUnit::yes_or_no, Spread::sides,
             "Whether the side has a bishop on a light square and one on a dark square.",
             [](const Facts& at, Side side) { return has_bishop_pair(at.men(side, Kind::bishop)); }},
};

inline constexpr std::array square_quantities{
    Quantity{"attacked_squares", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares that at least one man of the side attacks.",
             [](const Facts& at, Side side) { return at.attacked(side); }},
    Quantity{"attacked_twice", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares that at least two men of the side attack.",
             [](const Facts& at, Side side) { return at.attacked_twice(side); }},
    Quantity{"attacked_thrice", FeatureUnit::squares, Spread::sides,
             "Squares that at least three men of the side attack.",
             [](const Facts& at, Side side) { return at.attacked_thrice(side); }},
    Quantity{"attacked_own_half", FeatureUnit::squares, Spread::sides,
             "Squares on the side's ranks 1 to 4 that it attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & half_of(side); }},
    Quantity{"attacked_other_half", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares on the side's ranks 5 to 8 that it attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & half_of(other(side)); }},
    Quantity{"attacked_twice_other_half", FeatureUnit::squares, Spread::sides,
             "Squares on the side's ranks 5 to 8 that at least two of its men attack.",
             [](const Facts& at, Side side) { return at.attacked_twice(side) & half_of(other(side)); }},
    Quantity{"attacked_centre", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares out of d4, e4, d5, e5 that the side attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & centre_squares; }},
    Quantity{"attacked_twice_centre", FeatureUnit::squares, Spread::sides,
             "Squares out of d4, e4, d5, e5 that at least two men of the side attack.",
             [](const Facts& at, Side side) { return at.attacked_twice(side) & centre_squares; }},
    Quantity{"attacked_wide_centre", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares on the files c to f and the ranks 3 to 6 that the side attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & wide_centre; }},
    Quantity{"attacked_light", FeatureUnit::squares, Spread::sides, "Light squares that the side attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & light_squares; }},
    Quantity{"attacked_dark", FeatureUnit::squares, Spread::sides, "Dark squares that the side attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & dark_squares; }},
    Quantity{"attacked_light_other_half", FeatureUnit::squares, Spread::sides,
             "Light squares on the side's ranks 5 to 8 that it attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & light_squares & half_of(other(side)); }},
    Quantity{"attacked_dark_other_half", FeatureUnit::squares, Spread::sides,
             "Dark squares on the side's ranks 5 to 8 that it attacks.",
             [](const Facts& at, Side side) { return at.attacked(side) & dark_squares & half_of(other(side)); }},
    Quantity{"attacked_by_pawns", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares that at least one pawn of the side attacks.",
             [](const Facts& at, Side side) { return at.map.by(side, Kind::pawn); }},
    Quantity{"uncontested_squares", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares that the side attacks and the other side does not.",
             [](const Facts& at, Side side) { return at.uncontested(side); }},
    Quantity{"uncontested_light", FeatureUnit::squares, Spread::sides,
             "Light squares that the side attacks and the other side does not.",
             [](const Facts& at, Side side) { return at.uncontested(side) & light_squares; }},
    Quantity{"uncontested_dark", FeatureUnit::squares, Spread::sides,
             "Dark squares that the side attacks and the other side does not.",
             [](const Facts& at, Side side) { return at.uncontested(side) & dark_squares; }},
    Quantity{"space", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares on the files c to f and the side's ranks 1 to 4, without a pawn on them, that no pawn of the "
             "other side attacks, with a pawn of the side on the same or a neighbouring file on a higher rank.",
             [](const Facts& at, Side side) { return space_of(at.position, side); }},
    Quantity{"holes", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares on the side's ranks 2 to 4 without a pawn of the side on a neighbouring file on a lower rank.",
             [](const Facts& at, Side side) { return at.of(side).holes; }},
    Quantity{"usable_holes", FeatureUnit::squares, Spread::sides_and_difference,
             "Holes of the side on its ranks 3 and 4 where a knight or bishop of the other side stands, attacked by "
             "another man of that side; or which a knight or bishop of the other side attacks together with another "
             "man of that side, no man of that side standing there.",
             [](const Facts& at, Side side) { return usable_holes_of(at.position, side, at.map); }},
    Quantity{"outposts", FeatureUnit::squares, Spread::sides_and_difference,
             "Squares on the side's ranks 5 to 7 that a pawn of the side attacks and that no pawn of the other side "
             "stands beside (on a neighbouring file) on a higher rank of the side.",
             [](const Facts& at, Side side) { return at.of(side).outposts.squares; }},
    Quantity{"taken_outposts", FeatureUnit::squares, Spread::sides_and_difference,
             "Outposts of the side on which one of its knights or bishops stands.",
             [](const Facts& at, Side side) { return at.of(side).outposts.taken; }},
    Quantity{"men_in_other_half", FeatureUnit::men, Spread::sides_and_difference,
             "Men of the side, its king included, on its ranks 5 to 8.",
             [](const Facts& at, Side side) { return at.position.men(side) & half_of(other(side)); }},
};

} // namespace keysquare::detail
