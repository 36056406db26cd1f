// Position: one chess position as a small trivially copyable value.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <type_traits>

#include <keysquare/board/attacks.hpp>
#include <keysquare/board/move.hpp>
#include <keysquare/board/squares.hpp>

namespace keysquare {

/// The two directions of castling: `short_` towards the h-file, `long_` towards the a-file.
enum class Wing : std::uint8_t {
    short_, ///< towards the h-file
    long_   ///< towards the a-file
};

inline constexpr std::array all_wings{Wing::short_, Wing::long_}; ///< Both wings, for loops.
/// The place of a wing in arrays: 0 for short, 1 for long.
[[nodiscard]] constexpr std::size_t index(Wing wing) noexcept { return static_cast<std::size_t>(wing); }

/// The plain contents of a position, to build one from. Nothing here is checked; see `notation/fen.hpp` for text and
/// `board/validity.hpp` for what makes a position fit to compute on.
struct PositionParts {
    std::array<Piece, 64> pieces{}; ///< by square, a1 first; empty squares hold `Kind::none`
    Side mover = Side::white;       ///< the side to move
    /// The rook of each right to castle, by side and wing; `Square::none` where there is no right.
    std::array<std::array<Square, 2>, 2> castling_rooks{{{Square::none, Square::none}, {Square::none, Square::none}}};
    /// The square behind a pawn that has just made a double step, whether or not it can be taken.
    Square en_passant = Square::none;
    std::uint16_t halfmove_clock = 0; ///< plies since the last capture or pawn move
    std::uint16_t move_number = 1;    ///< from 1, one more after each move of Black
};

/// One position: men, side to move, castling rights, en passant square, clocks and key.
///
/// A value: `after(position, move)` returns the next one, nothing is mutated and nothing is undone. Two positions with
/// the same `key()` are, by the Laws of Chess (9.2.2), the same position for repetition, up to a collision of 64-bit
/// random keys: men, mover, rights, and the en passant square only where that capture is legal.
class Position {
  public:
    /// The empty board, a placeholder only: it has no kings, so nothing can be computed on it.
    Position() noexcept = default;
    /// The position with these contents. Nothing is checked (`board/validity.hpp` does).
    explicit Position(const PositionParts& parts) noexcept;

    /// The side to move.
    [[nodiscard]] Side mover() const noexcept { return mover_; }
    /// The side that is not to move.
    [[nodiscard]] Side waiter() const noexcept { return other(mover_); }

    /// The piece on a square; an empty one has `Kind::none`, and then the side means nothing.
    [[nodiscard]] Piece piece_at(Square square) const noexcept {
        const std::uint8_t code = codes_[static_cast<std::size_t>(square)];
        return {static_cast<Side>(code >> 3), static_cast<Kind>(code & 7)};
    }
    /// The kind of the piece on a square; `Kind::none` where there is none.
    [[nodiscard]] Kind kind_at(Square square) const noexcept {
        return static_cast<Kind>(codes_[static_cast<std::size_t>(square)] & 7);
    }

    /// The squares on which a man stands.
    [[nodiscard]] Squares occupied() const noexcept { return by_side_[0] | by_side_[1]; }
    /// The squares of all men of a side.
    [[nodiscard]] Squares men(Side side) const noexcept { return by_side_[index(side)]; }
    /// The squares of all men of a kind, of both sides.
    [[nodiscard]] Squares men(Kind kind) const noexcept { return by_kind_[index(kind)]; }
    /// The squares of the men of a kind on one side.
    [[nodiscard]] Squares men(Side side, Kind kind) const noexcept { return men(side) & men(kind); }
    /// The bishops, rooks and queens of a side.
    [[nodiscard]] Squares sliders(Side side) const noexcept {
        return men(side) & (men(Kind::bishop) | men(Kind::rook) | men(Kind::queen));
    }
    /// The king's square. Precondition: the side has a king.
    [[nodiscard]] Square king(Side side) const noexcept { return men(side, Kind::king).first(); }

    /// The rook of a right to castle; `Square::none` when that right is lost.
    [[nodiscard]] Square castling_rook(Side side, Wing wing) const noexcept {
        return castling_rooks_[index(side)][index(wing)];
    }
    /// Whether a side has a right to castle left.
    [[nodiscard]] bool may_castle(Side side) const noexcept {
        return castling_rook(side, Wing::short_) != Square::none || castling_rook(side, Wing::long_) != Square::none;
    }
    /// The square behind a pawn that has just made a double step, whether or not it can be taken; else `Square::none`.
    [[nodiscard]] Square en_passant() const noexcept { return en_passant_; }
    /// Plies since the last capture or pawn move.
    [[nodiscard]] int halfmove_clock() const noexcept { return halfmove_clock_; }
    /// The number of the move that comes, from 1.
    [[nodiscard]] int move_number() const noexcept { return move_number_; }
    /// A hash of men, mover, castling rights and a capturable en passant square. Equal positions have equal keys.
    [[nodiscard]] std::uint64_t key() const noexcept { return key_; }

    /// The contents as parts, to change and build from again.
    [[nodiscard]] PositionParts parts() const noexcept;

    /// Same men, mover, rights, en passant square and clocks.
    friend bool operator==(const Position&, const Position&) noexcept = default;

  private:
    friend Position after(const Position& before, Move move) noexcept;
    friend Position turned(const Position& position) noexcept;

    static constexpr std::uint8_t no_piece = static_cast<std::uint8_t>(Kind::none);
    static constexpr std::array<std::uint8_t, 64> empty_codes() noexcept {
        std::array<std::uint8_t, 64> codes{};
        codes.fill(no_piece);
        return codes;
    }

    static constexpr std::array<std::array<Square, 2>, 2> no_rights{
        {{Square::none, Square::none}, {Square::none, Square::none}}};

    void put(Square square, Piece piece) noexcept;
    void take(Square square) noexcept;
    /// Moves the man on `from` to the empty square `to`.
    void shift(Square from, Square to) noexcept;
    void castle(Move move, Side side) noexcept;
    void give_right(Side side, Wing wing, Square rook) noexcept;
    void drop_right(Side side, Wing wing) noexcept;
    /// After a man of `side` has moved from `origin` to `target`.
    void drop_rights(Side side, Square origin, Square target) noexcept;
    void flip_mover() noexcept;
    void set_en_passant(Square square) noexcept;
    void clear_en_passant() noexcept;

    std::array<Squares, 6> by_kind_{};
    std::array<Squares, 2> by_side_{};
    std::array<std::uint8_t, 64> codes_ = empty_codes();
    std::uint64_t key_ = 0;
    std::array<std::array<Square, 2>, 2> castling_rooks_ = no_rights;
    Side mover_ = Side::white;
    Square en_passant_ = Square::none;
    bool en_passant_in_key_ = false;
    std::uint16_t halfmove_clock_ = 0;
    std::uint16_t move_number_ = 1;
};

static_assert(std::is_trivially_copyable_v<Position>);

/// The men of `side` that attack `square`, with the given squares taken as occupied. Pins are not looked at.
[[nodiscard]] inline Squares attackers_of(const Position& position, Square square, Side side,
                                          Squares occupied) noexcept {
    const Squares men = position.men(side);
    const Squares queens = position.men(Kind::queen);
    Squares attackers = men & ((pawn_attacks(other(side), square) & position.men(Kind::pawn)) |
                               (knight_attacks(square) & position.men(Kind::knight)) |
                               (king_attacks(square) & position.men(Kind::king)));
    if (const Squares sliders = bishop_lines(square) & men & (position.men(Kind::bishop) | queens))
        attackers |= bishop_attacks(square, occupied) & sliders;
    if (const Squares sliders = rook_lines(square) & men & (position.men(Kind::rook) | queens))
        attackers |= rook_attacks(square, occupied) & sliders;
    return attackers;
}
/// The men of `side` that attack the square, with the board as it is.
[[nodiscard]] inline Squares attackers_of(const Position& position, Square square, Side side) noexcept {
    return attackers_of(position, square, side, position.occupied());
}

/// The waiter's men that give check to the mover.
[[nodiscard]] inline Squares checkers_of(const Position& position) noexcept {
    return attackers_of(position, position.king(position.mover()), position.waiter());
}
/// Whether the mover stands in check.
[[nodiscard]] inline bool in_check(const Position& position) noexcept { return checkers_of(position).bits() != 0; }

/// The position after a move. Precondition: the move is legal in `before` (`board/legal.hpp`).
[[nodiscard]] Position after(const Position& before, Move move) noexcept;

/// The same position with the move handed over, without asking whether that is allowed; en passant lapses.
[[nodiscard]] Position turned(const Position& position) noexcept;

/// The same position with the move handed over; nothing when the mover is in check (a pass would leave the king en
/// prise). Clocks and en passant behave as after a quiet move.
[[nodiscard]] inline std::optional<Position> passed(const Position& position) noexcept {
    if (in_check(position)) return std::nullopt;
    return turned(position);
}

/// The position with the man on `square` taken off the board, the claim behind "without this piece ...". A castling
/// right that needs the man goes with it. Precondition: not a king. The result may leave the waiter in check: test
/// before use.
[[nodiscard]] inline Position without(const Position& position, Square square) noexcept {
    PositionParts parts = position.parts();
    parts.pieces[static_cast<std::size_t>(square)] = {};
    for (auto& rooks : parts.castling_rooks)
        for (Square& rook : rooks)
            if (rook == square) rook = Square::none;
    if (parts.en_passant != Square::none && index(square) == index(parts.en_passant) - advance_of(position.mover()))
        parts.en_passant = Square::none;
    return Position{parts};
}

} // namespace keysquare

#include <keysquare/board/position_impl.hpp>
