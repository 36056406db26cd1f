// Move: sixteen bits that name a move; and the list that holds the moves of a position.
#pragma once

#include <cstdint>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/board/list_algorithms.hpp>
#include <keysquare/board/types.hpp>

namespace keysquare {

/// What is special about a move.
enum class MoveType : std::uint8_t {
    plain,          ///< none of the following
    double_step,    ///< a pawn's first move over two squares
    en_passant,     ///< a pawn takes a pawn that has just made a double step
    castle_short,   ///< towards the h-file
    castle_long,    ///< towards the a-file
    promote_knight, ///< a pawn becomes a knight
    promote_bishop, ///< a pawn becomes a bishop
    promote_rook,   ///< a pawn becomes a rook
    promote_queen   ///< a pawn becomes a queen
};

/// A move of one position. It means something only together with the position that it was made for.
///
/// Castling is held as "king takes own rook", so that every Chess960 castling is distinct from a king's step;
/// `target()` is then the square where the king arrives.
class Move {
  public:
    /// The null move: no move at all.
    constexpr Move() noexcept = default;
    /// From `origin` to `raw_target`, which in castling is the square of the rook. Nothing is checked.
    constexpr Move(Square origin, Square raw_target, MoveType type = MoveType::plain) noexcept
        : bits_(static_cast<std::uint16_t>(index(origin) | index(raw_target) << 6 | static_cast<int>(type) << 12)) {}

    /// Where the man stands that moves; in castling the king.
    [[nodiscard]] constexpr Square origin() const noexcept { return square_at(bits_ & 63); }
    /// What is special about it.
    [[nodiscard]] constexpr MoveType type() const noexcept { return static_cast<MoveType>(bits_ >> 12); }

    /// Whether it is castling, to either wing.
    [[nodiscard]] constexpr bool castles() const noexcept {
        return type() == MoveType::castle_short || type() == MoveType::castle_long;
    }
    /// Whether a pawn becomes a piece.
    [[nodiscard]] constexpr bool promotes() const noexcept { return type() >= MoveType::promote_knight; }

    /// The kind that a promotion turns the pawn into, `Kind::none` for other moves.
    [[nodiscard]] constexpr Kind promotion() const noexcept {
        return promotes() ? static_cast<Kind>(static_cast<int>(type()) - static_cast<int>(MoveType::promote_knight) +
                                              static_cast<int>(Kind::knight))
                          : Kind::none;
    }

    /// The square where the moving piece (the king, in castling) arrives.
    [[nodiscard]] constexpr Square target() const noexcept {
        const Square raw = raw_target();
        switch (type()) {
        case MoveType::castle_short: return square_at(6, rank_of(raw));
        case MoveType::castle_long: return square_at(2, rank_of(raw));
        default: return raw;
        }
    }
    /// As held: in castling the square of the rook, otherwise the same as `target()`.
    [[nodiscard]] constexpr Square raw_target() const noexcept { return square_at(bits_ >> 6 & 63); }

    /// Whether it is a move, and not the null move.
    [[nodiscard]] constexpr explicit operator bool() const noexcept { return bits_ != 0; }
    /// The move as a number, and back.
    [[nodiscard]] constexpr std::uint16_t bits() const noexcept { return bits_; }
    /// The move that `bits()` gave this number.
    [[nodiscard]] static constexpr Move from_bits(std::uint16_t bits) noexcept {
        Move move;
        move.bits_ = bits;
        return move;
    }
    /// Whether origin, target and type are the same. Of what else is on the board a move knows nothing.
    friend constexpr bool operator==(Move, Move) noexcept = default;

  private:
    std::uint16_t bits_ = 0;
};

/// The move type that promotes to `kind`. Precondition: knight, bishop, rook or queen.
[[nodiscard]] constexpr MoveType promotion_to(Kind kind) noexcept {
    return static_cast<MoveType>(static_cast<int>(MoveType::promote_knight) + static_cast<int>(kind) -
                                 static_cast<int>(Kind::knight));
}

/// A side has at most sixteen men, none of which has more than 27 moves on the board, so no list can overflow
/// (15 * 27 + 8 + 2 castlings). The record of a position from a legal game is 218.
inline constexpr std::size_t most_moves = 416;

using MoveList = BoundedList<Move, most_moves>; ///< A list of moves without allocation.

} // namespace keysquare
