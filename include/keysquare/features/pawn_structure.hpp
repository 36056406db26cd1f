// Pawn structure: which pawns are isolated, doubled or passed, and which files are open.
#pragma once

#include <array>

#include <keysquare/board/position.hpp>

namespace keysquare {

/// The pawns of one side. The definitions are common practice, no source; only pawns are looked at, never pieces.
struct SidePawns {
    Squares pawns;    ///< all of them
    Squares isolated; ///< no pawn of the same side on a neighbouring file
    Squares doubled;  ///< every pawn that shares its file with another pawn of the same side
    /// No pawn of the other side ahead of it on its own file or on a neighbouring one. Of two such pawns on one file
    /// both are passed: their own side's pawns do not matter.
    Squares passed;
    Squares half_open_files; ///< whole files without a pawn of this side but with one of the other side
    int islands = 0;         ///< groups of pawns on neighbouring files
};

/// The pawns of both sides.
struct PawnStructure {
    std::array<SidePawns, 2> sides; ///< by side
    Squares open_files;             ///< whole files without any pawn

    /// The pawns of a side.
    [[nodiscard]] constexpr const SidePawns& of(Side side) const noexcept { return sides[index(side)]; }
    /// Whole files on which no pawn of `side` stands in the way of its rooks: open ones and those half-open for it.
    [[nodiscard]] constexpr Squares files_for(Side side) const noexcept {
        return open_files | of(side).half_open_files;
    }
};

/// Constant time, some dozens of bit operations.
[[nodiscard]] constexpr PawnStructure pawn_structure(Squares white_pawns, Squares black_pawns) noexcept;
/// The same, from a position.
[[nodiscard]] inline PawnStructure pawn_structure(const Position& position) noexcept {
    return pawn_structure(position.men(Side::white, Kind::pawn), position.men(Side::black, Kind::pawn));
}

/// The squares and everything ahead of them, as `side` advances.
[[nodiscard]] constexpr Squares with_all_ahead(Side side, Squares squares) noexcept;
/// Every whole file on which one of the squares lies.
[[nodiscard]] constexpr Squares files_of(Squares squares) noexcept;
/// The number of files on which the squares lie.
[[nodiscard]] constexpr int count_files(Squares squares) noexcept;
/// The squares one file to the left and one to the right.
[[nodiscard]] constexpr Squares beside(Squares squares) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

constexpr Squares with_all_ahead(Side side, Squares squares) noexcept {
    const int advance = advance_of(side);
    squares |= squares.moved(advance);
    squares |= squares.moved(2 * advance);
    return squares | squares.moved(4 * advance);
}

constexpr Squares files_of(Squares squares) noexcept {
    return with_all_ahead(Side::white, squares) | with_all_ahead(Side::black, squares);
}

constexpr int count_files(Squares squares) noexcept { return (files_of(squares) & rank_squares(0)).count(); }

constexpr Squares beside(Squares squares) noexcept {
    return (squares & ~file_squares(0)).moved(-1) | (squares & ~file_squares(7)).moved(1);
}

constexpr PawnStructure pawn_structure(Squares white_pawns, Squares black_pawns) noexcept {
    PawnStructure structure;
    const std::array pawns{white_pawns, black_pawns};
    const std::array files{files_of(white_pawns), files_of(black_pawns)};
    structure.open_files = ~(files[0] | files[1]);
    for (const Side side : all_sides) {
        SidePawns& own = structure.sides[index(side)];
        const Side enemy = other(side);
        own.pawns = pawns[index(side)];
        own.isolated = own.pawns & ~beside(files[index(side)]);
        const Squares behind_another = with_all_ahead(enemy, own.pawns.moved(advance_of(enemy)));
        const Squares ahead_of_another = with_all_ahead(side, own.pawns.moved(advance_of(side)));
        own.doubled = own.pawns & (behind_another | ahead_of_another);
        const Squares stopped = with_all_ahead(enemy, pawns[index(enemy)].moved(advance_of(enemy)));
        own.passed = own.pawns & ~(stopped | beside(stopped));
        own.half_open_files = files[index(enemy)] & ~files[index(side)];
        const Squares taken = files[index(side)] & rank_squares(0);
        own.islands = (taken & ~taken.moved(1)).count();
    }
    return structure;
}

} // namespace keysquare
