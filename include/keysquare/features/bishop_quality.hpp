// Good and bad bishops: how a bishop goes with the fixed pawns of its own side.
#pragma once

#include <keysquare/features/fixed_pawns.hpp>
#include <keysquare/features/scope.hpp>

namespace keysquare {

/// What the pawns of its own side leave a bishop.
enum class BishopQuality : std::uint8_t {
    good,   ///< see `bishop_standing`
    bad,    ///< see `bishop_standing`
    neither ///< all other bishops
};

/// A bishop with the pawns of its own side and what it still sees.
struct BishopStanding {
    BishopQuality quality = BishopQuality::neither; ///< what its pawns leave it
    Squares fixed_on;  ///< fixed pawns of its side (`fixed_pawns_of`) on the colour of the bishop
    Squares fixed_off; ///< fixed pawns of its side on the other colour
    Squares pawns_on;  ///< all pawns of its side on the colour of the bishop, fixed or not
    Squares scope;     ///< `scope_of` the bishop
};

/// A bishop that has at least this many squares of scope in the other side's half is not bad: it is outside its pawns.
inline constexpr int active_squares = 2;

/// How the bishop on `square` stands; `fixed_pawns` are those of its side. (The idea is common practice, no source; the
/// numbers are ours.)
/// - bad: at least two fixed pawns on its colour, one of them on the files c to f, more of them than on the other
///   colour, no fewer pawns in all on its colour than on the other one, and fewer than `active_squares` squares of its
///   scope in the half of the other side;
/// - good: at least two fixed pawns on the other colour, at least three times as many of them as on its own, and at
///   least the usual scope of a bishop (`usual_scope`);
/// - neither: all others.
/// Precondition: a bishop stands there. Constant time.
[[nodiscard]] inline BishopStanding bishop_standing(const Position& position, Square square,
                                                    Squares fixed_pawns) noexcept {
    const Side side = position.piece_at(square).side;
    const Squares colour = colour_of(square);
    const Squares middle_files = file_squares(2) | file_squares(3) | file_squares(4) | file_squares(5);
    BishopStanding standing;
    standing.fixed_on = fixed_pawns & colour;
    standing.fixed_off = fixed_pawns & ~colour;
    standing.pawns_on = position.men(side, Kind::pawn) & colour;
    standing.scope = scope_of(position, square);
    const int on = standing.fixed_on.count();
    const int off = standing.fixed_off.count();
    const bool is_active = (standing.scope & half_of(other(side))).count() >= active_squares;
    const bool has_most_pawns = 2 * standing.pawns_on.count() >= position.men(side, Kind::pawn).count();
    if (on >= 2 && on > off && (standing.fixed_on & middle_files) && has_most_pawns && !is_active)
        standing.quality = BishopQuality::bad;
    else if (off >= 2 && off >= 3 * on && standing.scope.count() >= usual_scope(Kind::bishop))
        standing.quality = BishopQuality::good;
    return standing;
}

} // namespace keysquare
