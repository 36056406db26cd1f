// What makes a position fit to compute on, and what makes it one that a game could give.
#pragma once

#include <cstdint>
#include <optional>

#include <keysquare/board/legal.hpp>

namespace keysquare {

/// Why a position is refused. The first group can never be computed on; the second is refused only by the strict test.
enum class PositionFault : std::uint8_t {
    no_king,              ///< a side has no king
    several_kings,        ///< a side has more than one king
    too_many_men,         ///< a side has more than sixteen men
    waiter_in_check,      ///< the side that is not to move stands in check
    too_many_pawns,       ///< strict: more than eight pawns
    too_many_promoted,    ///< strict: more promoted men than missing pawns
    pawn_on_last_rank,    ///< strict: a pawn on the first or eighth rank
    too_many_checks,      ///< strict: more than two men give check
    impossible_castling,  ///< strict: a right without its king and rook at home
    impossible_en_passant ///< strict: no pawn can just have made that double step
};

/// What is wrong with a position, and where.
struct FaultyPosition {
    PositionFault fault;          ///< what is wrong
    Side side;                    ///< whose men are at fault
    Square square = Square::none; ///< one square that shows the fault, where there is one
};

/// Whether the position can't be computed on at all: kings, more than sixteen men, waiter in check.
[[nodiscard]] std::optional<FaultyPosition> fault_for_computing(const Position& position) noexcept;

/// Whether no legal game could give this position, as far as the simple counts tell; includes `fault_for_computing`.
/// (Retrograde questions beyond the listed ones are not asked.)
[[nodiscard]] std::optional<FaultyPosition> fault_for_a_game(const Position& position) noexcept;

/// The castling right stands on a king on its first rank with the rook on the right side of it.
[[nodiscard]] inline bool is_possible_right(const Position& position, Side side, Wing wing) noexcept {
    const Square rook = position.castling_rook(side, wing);
    const Square king = position.king(side);
    return position.piece_at(rook) == Piece{side, Kind::rook} && rank_for(side, king) == 0 &&
           rank_for(side, rook) == 0 && (wing == Wing::short_) == (file_of(rook) > file_of(king));
}

/// A pawn of the waiter stands before the square, and the squares that it came over are empty.
[[nodiscard]] inline bool is_possible_en_passant(const Position& position, Square square) noexcept {
    const Side mover = position.mover();
    if (rank_for(mover, square) != 5) return false;
    const Square pawn = square_at(index(square) - advance_of(mover));
    const Square home = square_at(index(square) + advance_of(mover));
    return position.piece_at(pawn) == Piece{other(mover), Kind::pawn} && !position.piece_at(square) &&
           !position.piece_at(home);
}

inline std::optional<FaultyPosition> fault_for_computing(const Position& position) noexcept {
    for (const Side side : all_sides) {
        const Squares kings = position.men(side, Kind::king);
        if (!kings) return FaultyPosition{PositionFault::no_king, side};
        if (kings.several()) return FaultyPosition{PositionFault::several_kings, side, kings.last()};
        if (position.men(side).count() > 16) return FaultyPosition{PositionFault::too_many_men, side};
    }
    const Side waiter = position.waiter();
    if (attackers_of(position, position.king(waiter), position.mover()))
        return FaultyPosition{PositionFault::waiter_in_check, waiter, position.king(waiter)};
    return std::nullopt;
}

inline std::optional<FaultyPosition> fault_for_a_game(const Position& position) noexcept {
    if (const auto fault = fault_for_computing(position)) return fault;
    for (const Side side : all_sides) {
        const int pawns = position.men(side, Kind::pawn).count();
        if (pawns > 8) return FaultyPosition{PositionFault::too_many_pawns, side};
        if (const Squares stray = position.men(side, Kind::pawn) & (rank_squares(0) | rank_squares(7)))
            return FaultyPosition{PositionFault::pawn_on_last_rank, side, stray.first()};
        const auto surplus = [&](Squares men, int at_start) { return (std::max)(0, men.count() - at_start); };
        const Squares bishops = position.men(side, Kind::bishop);
        const int promoted = surplus(position.men(side, Kind::knight), 2) + surplus(bishops & light_squares, 1) +
                             surplus(bishops & dark_squares, 1) + surplus(position.men(side, Kind::rook), 2) +
                             surplus(position.men(side, Kind::queen), 1);
        if (promoted > 8 - pawns) return FaultyPosition{PositionFault::too_many_promoted, side};
        for (const Wing wing : all_wings)
            if (position.castling_rook(side, wing) != Square::none && !is_possible_right(position, side, wing))
                return FaultyPosition{PositionFault::impossible_castling, side, position.castling_rook(side, wing)};
    }
    if (checkers_of(position).count() > 2)
        return FaultyPosition{PositionFault::too_many_checks, position.mover(), position.king(position.mover())};
    if (position.en_passant() != Square::none && !is_possible_en_passant(position, position.en_passant()))
        return FaultyPosition{PositionFault::impossible_en_passant, position.waiter(), position.en_passant()};
    return std::nullopt;
}

} // namespace keysquare
