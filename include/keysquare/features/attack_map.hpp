// AttackMap: which squares each side attacks, with which kinds of men and how often.
#pragma once

#include <array>

#include <keysquare/board/position.hpp>

namespace keysquare {

/// The attacked squares of both sides. A man attacks the squares that `attacks_of` names on the occupied board: a pawn
/// its two capture squares, a slider everything up to and including the first man, of either side. So a man that is
/// guarded is attacked by its own side. Pins are not looked at, and a man behind another one on a line adds nothing.
struct AttackMap {
    std::array<std::array<Squares, 6>, 2> by_kind; ///< squares that at least one man of the side and kind attacks
    std::array<Squares, 2> once;                   ///< attacked by at least one man of the side
    std::array<Squares, 2> twice;                  ///< attacked by at least two
    std::array<Squares, 2> thrice;                 ///< attacked by at least three

    /// What the men of a kind on one side attack.
    [[nodiscard]] Squares by(Side side, Kind kind) const noexcept { return by_kind[index(side)][index(kind)]; }
    /// What the knights and bishops of `side` attack.
    [[nodiscard]] Squares by_minors(Side side) const noexcept {
        return by(side, Kind::knight) | by(side, Kind::bishop);
    }
};

/// One pass over the men, some hundred nanoseconds.
[[nodiscard]] AttackMap attack_map(const Position& position) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Adds the squares that one more man of `side` attacks.
inline void add_attacks(AttackMap& map, Side side, Kind kind, Squares attacks) noexcept {
    const std::size_t at = index(side);
    map.by_kind[at][index(kind)] |= attacks;
    map.thrice[at] |= map.twice[at] & attacks;
    map.twice[at] |= map.once[at] & attacks;
    map.once[at] |= attacks;
}

} // namespace detail

inline AttackMap attack_map(const Position& position) noexcept {
    AttackMap map{};
    const Squares occupied = position.occupied();
    for (const Side side : all_sides) {
        const Squares pawns = position.men(side, Kind::pawn);
        // All pawns in two steps: no square is attacked twice by the captures to one hand.
        const int advance = advance_of(side);
        const Squares to_the_left = (pawns & ~file_squares(0)).moved(advance - 1);
        const Squares to_the_right = (pawns & ~file_squares(7)).moved(advance + 1);
        detail::add_attacks(map, side, Kind::pawn, to_the_left);
        detail::add_attacks(map, side, Kind::pawn, to_the_right);
        for (const Kind kind : {Kind::knight, Kind::bishop, Kind::rook, Kind::queen, Kind::king})
            for (const Square from : position.men(side, kind))
                detail::add_attacks(map, side, kind, attacks_of({side, kind}, from, occupied));
    }
    return map;
}

} // namespace keysquare
