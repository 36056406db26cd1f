// Passed pawns: what kind each of them is, and which pawns are candidates to pass.
#pragma once

#include <keysquare/board/attacks.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The passed pawns of one side by kind; one pawn may be of several kinds. Only pawns are looked at. Common practice,
/// no source.
struct PassedPawns {
    Squares passed;    ///< as in `SidePawns::passed`
    Squares guarded;   ///< those that a pawn of their side guards
    Squares connected; ///< those with another passed pawn of their side on a neighbouring file, on whatever rank
    /// Those on the files a to c or f to h, while the other side has pawns and every one of them stands at least three
    /// files away.
    Squares outside;
};

/// What speaks for and against a pawn that is not passed yet.
struct PawnRace {
    Squares helpers;  ///< pawns of its side on the neighbouring files, level with it or behind it
    Squares sentries; ///< pawns of the other side on the neighbouring files, ahead of it
};

/// Constant time.
[[nodiscard]] constexpr PassedPawns passed_pawns(const PawnStructure& pawns, Side side) noexcept;
/// The same, from a position.
[[nodiscard]] inline PassedPawns passed_pawns(const Position& position, Side side) noexcept {
    return passed_pawns(pawn_structure(position), side);
}

/// The helpers and sentries of any square, as if a pawn of `side` stood on it.
[[nodiscard]] constexpr PawnRace pawn_race(const PawnStructure& pawns, Side side, Square square) noexcept;

/// The candidates to pass: pawns of `side` that are not passed, with no pawn of either side ahead of them on their own
/// file, and with at least as many helpers as sentries (the counting rule is common practice, no source).
/// O(pawns of the side).
[[nodiscard]] constexpr Squares candidates_to_pass(const PawnStructure& pawns, Side side) noexcept;
/// The same, from a position.
[[nodiscard]] inline Squares candidates_to_pass(const Position& position, Side side) noexcept {
    return candidates_to_pass(pawn_structure(position), side);
}

/// The squares strictly ahead of a square on its file, as `side` advances.
[[nodiscard]] constexpr Squares path_ahead(Side side, Square square) noexcept {
    return with_all_ahead(side, Squares{square}).without(square);
}

// ---------------------------------------------------------------------------------------------------------------------

constexpr PassedPawns passed_pawns(const PawnStructure& pawns, Side side) noexcept {
    const SidePawns& own = pawns.of(side);
    const Squares enemy_files = files_of(pawns.of(other(side)).pawns);
    const Squares within_one = enemy_files | beside(enemy_files);
    const Squares within_two = within_one | beside(within_one);
    PassedPawns found;
    found.passed = own.passed;
    found.guarded = own.passed & pawn_attacks(side, own.pawns);
    found.connected = own.passed & beside(files_of(own.passed));
    if (enemy_files) found.outside = own.passed & ~(within_two | file_squares(3) | file_squares(4));
    return found;
}

constexpr PawnRace pawn_race(const PawnStructure& pawns, Side side, Square square) noexcept {
    const Squares neighbours = beside(Squares{square});
    const Squares ahead = with_all_ahead(side, neighbours.moved(advance_of(side)));
    return {pawns.of(side).pawns & files_of(neighbours) & ~ahead, pawns.of(other(side)).pawns & ahead};
}

constexpr Squares candidates_to_pass(const PawnStructure& pawns, Side side) noexcept {
    const SidePawns& own = pawns.of(side);
    const Squares all = own.pawns | pawns.of(other(side)).pawns;
    const Squares behind_another = with_all_ahead(other(side), all.moved(advance_of(other(side))));
    Squares found;
    for (const Square pawn : own.pawns & ~own.passed & ~behind_another) {
        const PawnRace race = pawn_race(pawns, side, pawn);
        if (race.helpers.count() >= race.sentries.count()) found |= Squares{pawn};
    }
    return found;
}

} // namespace keysquare
