// Legal moves, exactly: pins and checks are worked out first, so no move is tried and taken back.
#pragma once

#include <algorithm>
#include <concepts>

#include <keysquare/board/position.hpp>

namespace keysquare {

/// What limits the mover's moves: checks and pins.
struct Limits {
    Square king = Square::none; ///< the mover's king
    Squares checkers;           ///< waiter's men that give check
    Squares pinned;             ///< mover's men that may only move on the line through their king
    Squares answers; ///< where a man other than the king may go: every square, or those that answer the check

    /// Works them out for the mover. Precondition: both sides have a king.
    explicit Limits(const Position& position) noexcept;
};

/// Receives moves in groups. `piece`: one man, many squares. `pawns` and `promotions`: many pawns, each from
/// `target - step`. `single`: en passant captures and castling.
template <class T>
concept MoveReceiver = requires(T& receiver, Square origin, Squares targets, int step, MoveType type, Move move) {
    receiver.piece(origin, targets);
    receiver.pawns(targets, step, type);
    receiver.promotions(targets, step);
    receiver.single(move);
};

/// Hands every legal move of `position` whose arrival square lies in `wanted` to `receiver`, in a fixed order.
/// For castling the arrival square is the king's.
template <MoveReceiver Receiver>
void each_legal_move(const Position& position, const Limits& limits, Squares wanted, Receiver&& receiver);

/// All legal moves, in a fixed order that depends on the position alone.
[[nodiscard]] MoveList legal_moves(const Position& position) noexcept;
/// The legal moves whose arrival square lies in `wanted`.
[[nodiscard]] MoveList legal_moves(const Position& position, Squares wanted) noexcept;
/// The number of legal moves, without making a list.
[[nodiscard]] int count_legal_moves(const Position& position) noexcept;
/// Whether the mover has any legal move, without making a list; in check the king is asked last.
[[nodiscard]] bool has_legal_move(const Position& position) noexcept;
/// Whether the move is legal in the position, its type (castling, en passant, promotion) included.
[[nodiscard]] bool is_legal(const Position& position, Move move) noexcept;

/// Check and no legal move.
[[nodiscard]] inline bool is_mated(const Position& position) noexcept {
    return in_check(position) && !has_legal_move(position);
}
/// No check and no legal move.
[[nodiscard]] inline bool is_stalemated(const Position& position) noexcept {
    return !in_check(position) && !has_legal_move(position);
}

/// The men of `side` that are pinned to their own king by a slider of the other side.
[[nodiscard]] Squares pinned_men(const Position& position, Side side) noexcept;

/// The man that a move takes, `Kind::none` when it takes nothing.
[[nodiscard]] inline Kind captured_by(const Position& position, Move move) noexcept {
    if (move.type() == MoveType::en_passant) return Kind::pawn;
    return move.castles() ? Kind::none : position.kind_at(move.raw_target());
}

/// Whether the mover's moves give check, worked out without making them.
class CheckFinder {
  public:
    /// Precondition: both sides have a king. It refers to the position.
    explicit CheckFinder(const Position& position) noexcept;
    /// Precondition: the move is legal in the position that the finder was made for.
    [[nodiscard]] bool gives_check(Move move) const noexcept;
    /// Those of `targets` in which the man on `origin` gives check when it moves there; promotions, en passant and
    /// castling apart.
    [[nodiscard]] Squares checking(Square origin, Squares targets) const noexcept;
    /// A set that every checking move of a man of this kind (promotions, en passant and castling apart) arrives in.
    /// Precondition: not `Kind::none`.
    [[nodiscard]] Squares reach(Kind kind) const noexcept;

  private:
    const Position& position_;
    Square king_;
    std::array<Squares, 6> direct_;
    Squares discoverers_;
};

} // namespace keysquare

#include <keysquare/board/legal_impl.hpp>
