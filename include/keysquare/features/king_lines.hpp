// King lines: the open files and the diagonals on which the other side can get at a king.
#pragma once

#include <keysquare/features/king_shelter.hpp>

namespace keysquare {

/// A diagonal on the king: an enemy bishop or queen and the squares that it attacks along that one diagonal, in both
/// directions, the first man in each direction included.
struct KingDiagonal {
    Square man = Square::none; ///< the bishop or queen
    Squares squares;           ///< what it attacks along that diagonal
};

/// Fifteen men with two diagonals each are the most.
using KingDiagonals = BoundedList<KingDiagonal, 30>;

/// The lines on the king of one side. The files are those of `KingShelter`: the king's file and its neighbours, without
/// any pawn, or half-open for the other side.
struct KingLines {
    Squares open_files;      ///< files on the king without any pawn
    Squares half_open_files; ///< files on the king without pawns of the other side
    /// One for each enemy bishop or queen and each of its two diagonals on which it attacks the king's square or one
    /// next to it, whatever stands there. Pins are not looked at, and a man that only looks through another one does
    /// not count. In the order of the men's squares, the diagonal that rises towards the h-file first.
    KingDiagonals diagonals;

    /// How many files there are of both kinds.
    [[nodiscard]] int files() const noexcept { return count_files(open_files) + count_files(half_open_files); }
};

/// O(bishops and queens of the other side).
[[nodiscard]] KingLines king_lines(const Position& position, Side side, const PawnStructure& pawns) noexcept;
/// The same, from a position.
[[nodiscard]] inline KingLines king_lines(const Position& position, Side side) noexcept {
    return king_lines(position, side, pawn_structure(position));
}

// ---------------------------------------------------------------------------------------------------------------------

inline KingLines king_lines(const Position& position, Side side, const PawnStructure& pawns) noexcept {
    const Square king = position.king(side);
    const Squares zone = king_attacks(king).with(king);
    const Squares files = files_of(zone);
    KingLines found;
    found.open_files = files & pawns.open_files;
    found.half_open_files = files & pawns.of(other(side)).half_open_files;
    const Squares occupied = position.occupied();
    const Squares men = position.men(other(side)) & (position.men(Kind::bishop) | position.men(Kind::queen));
    for (const Square man : men) {
        for (const auto kind : {detail::diagonal_line, detail::antidiagonal_line}) {
            const Squares seen{detail::line_attacks(kind, static_cast<std::size_t>(man), occupied.bits())};
            if (seen & zone) found.diagonals.push_back({man, seen});
        }
    }
    return found;
}

} // namespace keysquare
