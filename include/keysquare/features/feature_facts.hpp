// FeatureFacts: what the columns of the numeric vector are read from, worked out once a position in one pass.
// (Part of keysquare::keysquare.)
#pragma once

#include <array>

#include <keysquare/board/legal.hpp>
#include <keysquare/features/attack_map.hpp>
#include <keysquare/features/blocked_pawns.hpp>
#include <keysquare/features/holes.hpp>
#include <keysquare/features/king_lines.hpp>
#include <keysquare/features/near_king.hpp>
#include <keysquare/features/outpost.hpp>
#include <keysquare/features/passed_pawns.hpp>

namespace keysquare {

/// The legal moves of the mover by what they do. A promotion counts four times, once for each piece.
struct MoveCounts {
    int moves = 0;      ///< all legal moves
    int captures = 0;   ///< moves that take a man, en passant included
    int checks = 0;     ///< moves that give check
    int en_passant = 0; ///< en passant captures
};

/// What one side has. Everything here equals what the function named beside it gives; it is made in one go because the
/// vector needs all of it for every position.
struct SideFacts {
    std::array<int, 6> scope{};   ///< the sum of `scope_of` over the men of each kind; nothing for pawns and kings
    Squares stuck;                ///< knights, bishops, rooks and queens without any scope
    int batteries = 0;            ///< pairs of men on a line that both move along, nothing between them, counted twice
    int doubled_rooks = 0;        ///< pairs of rooks on a file, nothing between them, counted twice
    int connected_rooks = 0;      ///< pairs of rooks on a rank, nothing between them, counted twice
    NearKing near;                ///< `near_king`
    Squares escapes;              ///< `king_escape().squares`
    Squares shield;               ///< `king_shelter().shield`
    Squares king_open_files;      ///< `king_lines().open_files`
    Squares king_half_open_files; ///< `king_lines().half_open_files`
    int king_diagonals = 0;       ///< the number of `king_lines().diagonals`
    PassedPawns passed;           ///< `passed_pawns`
    BlockedPawns blocked;         ///< `blocked_pawns`
    Outposts outposts;            ///< `outposts`
    Squares holes;                ///< `holes_of`
};

/// The facts of one position, which must outlive them. Precondition: both sides have a king.
struct FeatureFacts {
    const Position& position;         ///< the one that the facts are of
    AttackMap map{};                  ///< `attack_map`
    PawnStructure pawns;              ///< `pawn_structure`
    MoveCounts moves;                 ///< of the mover
    std::array<SideFacts, 2> sides{}; ///< by side

    /// Some microseconds at most, without allocation.
    explicit FeatureFacts(const Position& of) noexcept;

    /// The facts of a side.
    [[nodiscard]] const SideFacts& of(Side side) const noexcept { return sides[index(side)]; }
    /// The men of a kind on one side.
    [[nodiscard]] Squares men(Side side, Kind kind) const noexcept { return position.men(side, kind); }
    /// The men of `side` without its king.
    [[nodiscard]] Squares men_but_king(Side side) const noexcept {
        return position.men(side) & ~position.men(Kind::king);
    }
    /// Squares that at least one man of `side` attacks.
    [[nodiscard]] Squares attacked(Side side) const noexcept { return map.once[index(side)]; }
    /// Squares that at least two men of `side` attack.
    [[nodiscard]] Squares attacked_twice(Side side) const noexcept { return map.twice[index(side)]; }
    /// Squares that at least three men of `side` attack.
    [[nodiscard]] Squares attacked_thrice(Side side) const noexcept { return map.thrice[index(side)]; }
    /// Squares that `side` attacks and the other side does not.
    [[nodiscard]] Squares uncontested(Side side) const noexcept { return attacked(side) & ~attacked(other(side)); }
};

/// Cheaper than making the moves; only promotions, en passant and castling are looked at one by one.
[[nodiscard]] MoveCounts count_moves(const Position& position) noexcept;

} // namespace keysquare
