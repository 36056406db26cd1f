// Colour complexes: what each side has of the light and of the dark squares.
#pragma once

#include <keysquare/features/board_view.hpp>
#include <keysquare/features/finding_parts.hpp>
#include <keysquare/features/fixed_pawns.hpp>
#include <keysquare/features/holes.hpp>

namespace keysquare {

/// The squares of one colour.
enum class Complex : std::uint8_t {
    light, ///< squares of the colour of h1
    dark   ///< squares of the colour of a1
};

inline constexpr std::array all_complexes{Complex::light, Complex::dark}; ///< Both complexes, for loops.
/// The place of a complex in arrays: 0 for light, 1 for dark.
[[nodiscard]] constexpr std::size_t index(Complex complex) noexcept { return static_cast<std::size_t>(complex); }
/// Its 32 squares.
[[nodiscard]] constexpr Squares squares_of(Complex complex) noexcept {
    return complex == Complex::light ? light_squares : dark_squares;
}

/// A part of the board as `side` sees it. Halves are four ranks; around a king are the up to eight squares next to it.
enum class Region : std::uint8_t {
    board,      ///< all of it
    own_half,   ///< four ranks
    other_half, ///< four ranks
    centre,     ///< d4, e4, d5 and e5
    own_king,   ///< next to the king of the side
    other_king  ///< next to the king of the other side
};

/// All regions, for loops.
inline constexpr std::array all_regions{Region::board,  Region::own_half, Region::other_half,
                                        Region::centre, Region::own_king, Region::other_king};
/// The squares of a region. Precondition: the king that it is about is on the board.
[[nodiscard]] Squares region_squares(const Position& position, Side side, Region region) noexcept;

/// Whether the pawns of `side` have left the complex to the pieces: at least 70 % of them stand on the other colour, at
/// least three of these fixed.
[[nodiscard]] bool left_by_pawns(const Position& position, Side side, Complex complex,
                                 const Values& values = {}) noexcept;

/// The side to which the complex is a weakness, if it is: its pawns have left it, it has no bishop on it and the other
/// side has one.
[[nodiscard]] std::optional<Side> weak_side(const Position& position, Complex complex,
                                            const Values& values = {}) noexcept;

/// What one side has of one complex; every set but the last two lies on it.
struct ComplexSide {
    Squares held;            ///< squares that the side holds (`SquareControl`)
    Squares attacked;        ///< squares that it attacks at least once
    Squares holes;           ///< `holes_of` the side
    Squares bishops;         ///< its bishops
    Squares pawns;           ///< its pawns
    Squares fixed_pawns;     ///< those of them that are fixed
    Squares pawns_off;       ///< its pawns on the other colour
    Squares fixed_pawns_off; ///< those of them that are fixed
};

/// Both complexes of a position, from both sides. Counts over a `Region` are intersections.
struct ColourComplexes {
    std::array<std::array<ComplexSide, 2>, 2> sides; ///< by side and complex

    /// What `side` has of the complex.
    [[nodiscard]] const ComplexSide& of(Side side, Complex complex) const noexcept {
        return sides[index(side)][index(complex)];
    }
};

/// Cost: `square_control` and some microseconds for the pawns.
[[nodiscard]] ColourComplexes colour_complexes(const Position& position, const Options& options = {}) noexcept;
/// The same with a control that is known already. Cost: some microseconds.
[[nodiscard]] ColourComplexes colour_complexes(const Position& position, const SquareControl& control,
                                               const Options& options = {}) noexcept;

/// Who rules a complex holds at least this many of its sixteen squares in the weak side's half: a quarter.
inline constexpr int least_ruled = 4;

/// `Theme::colour_complex` with `Detail::light` or `Detail::dark`, for the side that rules a complex: it is a weakness
/// of the other side (`weak_side`), `side` holds more squares of it and `least_ruled` of them in the other half, and no
/// king is in check. No line. With locked pawns each side may rule one complex.
/// - `squares`: those of the complex in the weak side's half that `side` holds, and the holes there that the weak side
///   does not hold;
/// - `pieces`: the bishops of `side` on the complex, then the weak side's fixed pawns on the other colour (as fit in);
/// - numbers, on the whole board: held, held_by_other, attacked, attacked_by_other, bishops, bishops_of_other; of the
///   weak side: holes, fixed_pawns (on the other colour), pawns_on_colour.
void find_colour_complex(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

inline Squares region_squares(const Position& position, Side side, Region region) noexcept {
    switch (region) {
    case Region::board: return all_squares;
    case Region::own_half: return half_of(side);
    case Region::other_half: return half_of(other(side));
    case Region::centre: return centre_squares;
    case Region::own_king: return king_attacks(position.king(side));
    case Region::other_king: return king_attacks(position.king(other(side)));
    }
    return {};
}

inline bool left_by_pawns(const Position& position, Side side, Complex complex, const Values& values) noexcept {
    const Squares pawns = position.men(side, Kind::pawn);
    const Squares off = pawns & ~squares_of(complex);
    if (off.count() < 3 || 10 * off.count() < 7 * pawns.count()) return false;
    return (fixed_pawns_of(position, side, values) & off).count() >= 3;
}

inline std::optional<Side> weak_side(const Position& position, Complex complex, const Values& values) noexcept {
    const Squares bishops = position.men(Kind::bishop) & squares_of(complex);
    for (const Side side : all_sides)
        if (!(bishops & position.men(side)) && (bishops & position.men(other(side))) &&
            left_by_pawns(position, side, complex, values))
            return side;
    return std::nullopt;
}

inline ColourComplexes colour_complexes(const Position& position, const SquareControl& control,
                                        const Options& options) noexcept {
    ColourComplexes complexes;
    for (const Side side : all_sides) {
        const Squares pawns = position.men(side, Kind::pawn);
        const Squares fixed = fixed_pawns_of(position, side, options.values);
        const Squares holes = holes_of(position, side);
        for (const Complex complex : all_complexes) {
            const Squares colour = squares_of(complex);
            complexes.sides[index(side)][index(complex)] = {
                .held = control.held[index(side)] & colour,
                .attacked = control.attacked[index(side)] & colour,
                .holes = holes & colour,
                .bishops = position.men(side, Kind::bishop) & colour,
                .pawns = pawns & colour,
                .fixed_pawns = fixed & colour,
                .pawns_off = pawns & ~colour,
                .fixed_pawns_off = fixed & ~colour,
            };
        }
    }
    return complexes;
}

inline ColourComplexes colour_complexes(const Position& position, const Options& options) noexcept {
    return colour_complexes(position, square_control(position, options), options);
}

inline void find_colour_complex(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    if (!view.turn(position.waiter()).exists) return;
    std::optional<ColourComplexes> complexes;
    for (const Complex complex : all_complexes) {
        const auto loser = weak_side(position, complex, view.options().values);
        if (!loser) continue;
        if (!complexes) complexes = colour_complexes(position, view.control(), view.options());
        const ComplexSide& weak = complexes->of(*loser, complex);
        const ComplexSide& strong = complexes->of(other(*loser), complex);
        const Squares entered = strong.held & half_of(*loser);
        if (strong.held.count() <= weak.held.count() || entered.count() < least_ruled) continue;
        Finding& finding = findings.emplace_back();
        finding.theme = Theme::colour_complex;
        finding.detail = complex == Complex::light ? Detail::light : Detail::dark;
        finding.side = other(*loser);
        finding.squares = entered | (weak.holes & ~weak.held);
        detail::name_men(view.position(), strong.bishops, finding);
        detail::name_men(view.position(), weak.fixed_pawns_off, finding);
        finding.count(Measure::held, strong.held.count());
        finding.count(Measure::held_by_other, weak.held.count());
        finding.count(Measure::attacked, strong.attacked.count());
        finding.count(Measure::attacked_by_other, weak.attacked.count());
        finding.count(Measure::holes, weak.holes.count());
        finding.count(Measure::fixed_pawns, weak.fixed_pawns_off.count());
        finding.count(Measure::pawns_on_colour, weak.pawns.count());
        finding.count(Measure::bishops, strong.bishops.count());
        finding.count(Measure::bishops_of_other, weak.bishops.count());
    }
}

} // namespace keysquare
