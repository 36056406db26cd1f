// King shelter: the pawns before a king, the files that lead to it, and the enemy men that bear on it.
#pragma once

#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// What stands before the king of one side and what points at it. "On the king" means the king's file and its
/// neighbours.
struct KingShelter {
    Square king = Square::none; ///< where it stands
    /// At most one pawn a file: on each file on the king, the nearest own pawn one or two ranks ahead of the king.
    /// Pawns farther away or level with the king give no shelter. The count is the number of shielded files.
    Squares shield;
    Squares open_files;      ///< whole files on the king without any pawn
    Squares half_open_files; ///< whole files on the king that are half-open for the other side: its rooks meet our pawn
    /// Men of the other side, its king excepted, that attack the king's square or one next to it. Pins are not looked
    /// at, and a man that only looks through another one does not count.
    Squares bearing_men;
};

/// O(men of the other side).
[[nodiscard]] KingShelter king_shelter(const Position& position, Side side, const PawnStructure& pawns) noexcept;
/// The same, from a position.
[[nodiscard]] inline KingShelter king_shelter(const Position& position, Side side) noexcept {
    return king_shelter(position, side, pawn_structure(position));
}

/// `KingShelter::shield` alone. Constant time.
[[nodiscard]] inline Squares shield_of(const Position& position, Side side) noexcept {
    const Squares king = position.men(side, Kind::king);
    const Squares pawns = position.men(side, Kind::pawn);
    const int advance = advance_of(side);
    const Squares before_king = (king | beside(king)).moved(advance);
    const Squares nearest = before_king & pawns;
    const Squares second = before_king.moved(advance) & pawns;
    return nearest | (second & ~nearest.moved(advance));
}

// ---------------------------------------------------------------------------------------------------------------------

inline KingShelter king_shelter(const Position& position, Side side, const PawnStructure& pawns) noexcept {
    KingShelter shelter;
    shelter.king = position.king(side);
    const Squares king{shelter.king};
    const Squares files = files_of(king | beside(king));
    shelter.shield = shield_of(position, side);
    shelter.open_files = files & pawns.open_files;
    shelter.half_open_files = files & pawns.of(other(side)).half_open_files;

    const Squares zone = king_attacks(shelter.king) | king;
    for (const Square man : position.men(other(side)) & ~position.men(Kind::king))
        if (attacks_of(position.piece_at(man), man, position.occupied()) & zone) shelter.bearing_men |= Squares{man};
    return shelter;
}

} // namespace keysquare
