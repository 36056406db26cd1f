// Pawn levers: advances after which a pawn attacks an enemy pawn, and the files that an exchange there opens.
#pragma once

#include <keysquare/board/attacks.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// One lever.
struct PawnLever {
    Square pawn = Square::none;    ///< the pawn that advances
    Square arrival = Square::none; ///< where it arrives
    Squares targets;               ///< the enemy pawns that it attacks from there, one or two
    /// What happens to the pawn's file when the pawn takes a target: `open` when no pawn of either side is left on it,
    /// `half_open` when only pawns of the other side are. When the other side takes instead, a pawn of its own comes to
    /// the file, so that it is half-open in both cases.
    bool opens_file = false;
    bool half_opens_file = false; ///< see above
};

/// The arrival squares of all levers of `side`, had it the move: squares that one of its pawns can reach by a single
/// step or by the double step from its second rank, all squares on the way and the arrival square being empty, and from
/// which it would attack a pawn of the other side. The pawn may attack an enemy pawn already. Pins and checks are not
/// looked at, and whether the lever is any good is not said. No two levers share an arrival square. Constant time.
/// Common practice, no source.
[[nodiscard]] inline Squares pawn_lever_arrivals(const Position& position, Side side) noexcept {
    const Squares pawns = position.men(side, Kind::pawn);
    const Squares empty = ~position.occupied();
    const Squares second_rank = rank_squares(side == Side::white ? 1 : 6);
    const int advance = advance_of(side);
    const Squares one_step = pawns.moved(advance) & empty;
    const Squares two_steps = (pawns & second_rank).moved(advance) & empty;
    const Squares contact = pawn_attacks(other(side), position.men(other(side), Kind::pawn));
    return (one_step | (two_steps.moved(advance) & empty)) & contact;
}

/// The pawns of `side` that attack an enemy pawn now: the tension that levers have made. Constant time.
[[nodiscard]] inline Squares pawns_in_contact(const Position& position, Side side) noexcept {
    return position.men(side, Kind::pawn) & pawn_attacks(other(side), position.men(other(side), Kind::pawn));
}

/// The lever that ends on a square. Precondition: it is one of `pawn_lever_arrivals(position, side)`. Constant time.
[[nodiscard]] inline PawnLever pawn_lever_to(const Position& position, Side side, Square arrival) noexcept {
    const Squares own = position.men(side, Kind::pawn);
    const Squares enemy = position.men(other(side), Kind::pawn);
    PawnLever lever;
    lever.pawn = square_at(index(arrival) - advance_of(side));
    if (!own.has(lever.pawn)) lever.pawn = square_at(index(lever.pawn) - advance_of(side));
    lever.arrival = arrival;
    lever.targets = pawn_attacks(side, arrival) & enemy;
    const Squares file = file_squares(file_of(arrival));
    const bool alone = !(own & file).several();
    lever.opens_file = alone && !(enemy & file);
    lever.half_opens_file = alone && !lever.opens_file;
    return lever;
}

} // namespace keysquare
