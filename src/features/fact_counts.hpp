// What both the numeric vector and the facts about moves count.
#pragma once

#include <keysquare/features/feature_facts.hpp>

namespace keysquare::detail {

/// Knights, bishops, rooks and queens.
inline Squares pieces_but_king(const Position& position, Side side) noexcept {
    return position.men(side) & ~(position.men(Kind::pawn) | position.men(Kind::king));
}

inline int scope_of_all(const SideFacts& side) noexcept {
    return side.scope[index(Kind::knight)] + side.scope[index(Kind::bishop)] + side.scope[index(Kind::rook)] +
           side.scope[index(Kind::queen)];
}

/// Rooks on the seventh rank with something to do there, as theme `seventh_rank` has it.
inline Squares rooks_on_seventh(const Position& position, Side side) noexcept {
    const Squares seventh = rank_squares(side == Side::white ? 6 : 1);
    const bool confines = rank_for(side, position.king(other(side))) == 7;
    if (!confines && !(position.men(other(side), Kind::pawn) & seventh)) return {};
    return position.men(side, Kind::rook) & seventh;
}

inline Squares outnumbered(const FeatureFacts& at, Side side) noexcept {
    const Side enemy = other(side);
    return at.men_but_king(side) &
           ((at.attacked(enemy) & ~at.attacked(side)) | (at.attacked_twice(enemy) & ~at.attacked_twice(side)) |
            (at.attacked_thrice(enemy) & ~at.attacked_thrice(side)));
}

} // namespace keysquare::detail
