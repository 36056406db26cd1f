// Development: knights and bishops that have not left their first squares.
#pragma once

#include <keysquare/features/endgame.hpp>

namespace keysquare {

/// The undeveloped pieces of `side`: its knights on b1 and g1 and its bishops on c1 and f1 (b8, g8, c8 and f8 for
/// Black), the first squares of the usual start position. A piece that must have moved is left out: those on f1 and g1
/// when the king stands on g1 or h1, and those on b1 and c1 when it stands on a1 or b1 (for Black on the eighth rank).
/// In an endgame (`is_endgame`) nothing is undeveloped. A piece that came back to its first square counts like one that
/// never left, as a position does not tell them apart; a game from another start position (Chess960) is not foreseen.
/// Constant time.
[[nodiscard]] inline Squares undeveloped_of(const Position& position, Side side) noexcept {
    if (is_endgame(position)) return {};
    const auto on_first_rank = [side](Squares squares) { return side == Side::white ? squares : squares.moved(56); };
    Squares knights = on_first_rank({Square::b1, Square::g1});
    Squares bishops = on_first_rank({Square::c1, Square::f1});
    const Squares king = position.men(side, Kind::king);
    const Squares left_wing = on_first_rank({Square::a1, Square::b1, Square::c1});
    const Squares right_wing = on_first_rank({Square::f1, Square::g1, Square::h1});
    const Squares corners = on_first_rank({Square::a1, Square::b1, Square::g1, Square::h1});
    Squares moved;
    if (king & corners & left_wing) moved = left_wing;
    if (king & corners & right_wing) moved = right_wing;
    knights = knights & position.men(side, Kind::knight);
    bishops = bishops & position.men(side, Kind::bishop);
    return (knights | bishops) & ~moved;
}

} // namespace keysquare
