// Near the king: who attacks and who guards the squares round it, where it could go, and whether it is in the centre.
#pragma once

#include <keysquare/features/king_shelter.hpp>

namespace keysquare {

/// The king's square and those next to it, with the men of both sides that reach them. Pins are not looked at.
struct NearKing {
    Squares squares;   ///< the king's square and those next to it
    Squares attackers; ///< men of the other side, its king excepted, that attack one of these squares
    Squares attacked;  ///< those of the squares that these men attack
    Squares defenders; ///< men of the king's side, the king excepted, that guard one of these squares
};

/// Where a king could go.
struct KingEscape {
    /// The squares to which the king could step if it were its side's turn: next to it, not held by a man of its side,
    /// and not attacked by the other side once the king has left its place (so that a slider looks through it). Taking
    /// is a step, castling is not.
    Squares squares;
    Squares luft; ///< those of them on its second rank, while the king is on its first
};

/// O(men on the board).
[[nodiscard]] NearKing near_king(const Position& position, Side side) noexcept;
/// O(men of the other side).
[[nodiscard]] KingEscape king_escape(const Position& position, Side side) noexcept;

/// Whether the king stands on the d- or e-file, on the first or second rank as its side counts, whatever its rights to
/// castle.
[[nodiscard]] inline bool is_king_in_centre(const Position& position, Side side) noexcept {
    const Square king = position.king(side);
    return (file_of(king) == 3 || file_of(king) == 4) && rank_for(side, king) <= 1;
}

/// Whether the side still has a right to castle, on either wing.
[[nodiscard]] inline bool may_castle_later(const Position& position, Side side) noexcept {
    return position.castling_rook(side, Wing::short_) != Square::none ||
           position.castling_rook(side, Wing::long_) != Square::none;
}

// ---------------------------------------------------------------------------------------------------------------------

inline NearKing near_king(const Position& position, Side side) noexcept {
    NearKing found;
    const Square king = position.king(side);
    const Squares occupied = position.occupied();
    found.squares = king_attacks(king).with(king);
    for (const Square man : position.men(other(side)) & ~position.men(Kind::king)) {
        const Squares seen = attacks_of(position.piece_at(man), man, occupied) & found.squares;
        if (seen) found.attackers |= Squares{man};
        found.attacked |= seen;
    }
    for (const Square man : position.men(side).without(king))
        if (attacks_of(position.piece_at(man), man, occupied) & found.squares) found.defenders |= Squares{man};
    return found;
}

inline KingEscape king_escape(const Position& position, Side side) noexcept {
    const Square king = position.king(side);
    const Squares without_king = position.occupied().without(king);
    const Squares enemy_pawns = position.men(other(side), Kind::pawn);
    Squares attacked = pawn_attacks(other(side), enemy_pawns);
    for (const Square man : position.men(other(side)) & ~enemy_pawns)
        attacked |= attacks_of(position.piece_at(man), man, without_king);
    KingEscape found;
    found.squares = king_attacks(king) & ~position.men(side) & ~attacked;
    const int first_rank = side == Side::white ? 0 : 7;
    if (rank_of(king) == first_rank) found.luft = found.squares & ~rank_squares(first_rank);
    return found;
}

} // namespace keysquare
