// Holes: squares in a side's camp that its pawns can never guard, and those of them where the other side can settle.
#pragma once

#include <keysquare/features/attack_map.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// Squares that the pawns of `side` can't guard any more, on the second to fourth rank as the side counts: no pawn of
/// it stands on a neighbouring file on a lower rank (again as the side counts). A pawn can step past anything here and
/// never changes file, so every square of the second rank is one.
[[nodiscard]] Squares holes_of(const Position& position, Side side) noexcept;

/// The holes of `side` (`holes_of`) on its third and fourth rank where a minor piece of the other side can settle:
/// - one of its knights or bishops stands there and another of its men attacks (guards) the square, or
/// - one of its knights or bishops attacks the square, another of its men attacks it too, and no man of its own stands
///   there.
/// Attacks as in `AttackMap`: pins are not looked at, and pawns and the king are men like others. A man of `side` on
/// the square does not matter, nor does how often `side` guards it with pieces.
[[nodiscard]] Squares usable_holes_of(const Position& position, Side side, const AttackMap& map) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

inline Squares holes_of(const Position& position, Side side) noexcept {
    const Squares ranks = side == Side::white ? rank_squares(1) | rank_squares(2) | rank_squares(3)
                                              : rank_squares(6) | rank_squares(5) | rank_squares(4);
    return ranks & ~pawn_attacks(side, with_all_ahead(side, position.men(side, Kind::pawn)));
}

inline Squares usable_holes_of(const Position& position, Side side, const AttackMap& map) noexcept {
    const Side user = other(side);
    const Squares second_rank = rank_squares(side == Side::white ? 1 : 6);
    const Squares minors = position.men(user) & (position.men(Kind::knight) | position.men(Kind::bishop));
    const Squares settled = minors & map.once[index(user)];
    const Squares open_to_them = map.by_minors(user) & map.twice[index(user)] & ~position.men(user);
    return holes_of(position, side) & ~second_rank & (settled | open_to_them);
}

} // namespace keysquare
