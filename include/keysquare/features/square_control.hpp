// SquareControl: who attacks each square, with what, and which side holds it.
#pragma once

#include <array>
#include <optional>

#include <keysquare/features/options.hpp>

namespace keysquare {

/// Whether `side` denies `square` to the other side: a knight of the other side put there (what else stands there is
/// taken off first), with `side` to move, is lost: `exchange` on the square then wins at least 1 for `side`.
///
/// This is the plain definition, and `square_control` agrees with it on every square. The rest of the position stays as
/// it is, but castling rights and the en passant square lapse. What follows from "by legal moves":
/// - a knight that gives check must be answered, and taking it is an answer;
/// - the square ends up occupied, so the knight never opens a line; it may close one;
/// - a check from elsewhere counts: a side in check denies only where taking the knight answers the check, and takes
///   back only where that does. So the numbers of a position with a king in check are exact, but they are about the
///   moment; findings about squares are not made there.
///
/// Precondition: both sides have a king, and none stands on `square`.
[[nodiscard]] bool denies(const Position& position, Side side, Square square, const Values& values = {}) noexcept;

/// One side's grip on one square. Attackers are counted by geometry: a king and pinned men attack too.
struct Grip {
    std::uint8_t attackers = 0; ///< men that attack the square
    std::uint8_t support = 0;   ///< sliders that join when the attackers before them, of either side, are gone (X-ray)
    Kind cheapest = Kind::none; ///< the cheapest of the attackers; the king counts as the dearest
    bool denies = false;        ///< `denies`; on a king's square: it is one's own king
};

/// Every square of the board. A side *holds* a square when it denies it to the other side and the other side does not
/// deny it to that side; other squares are contested. A king's square is held by its side.
struct SquareControl {
    std::array<std::array<Grip, 64>, 2> grips{}; ///< by side and square
    std::array<Squares, 2> attacked{};           ///< by side: squares attacked at least once
    std::array<Squares, 2> denied{};             ///< by side: squares that it denies to the other side
    std::array<Squares, 2> held{};               ///< by side: squares that it holds; no square is in both

    /// What `side` has on the square.
    [[nodiscard]] const Grip& grip(Side side, Square square) const noexcept {
        return grips[index(side)][static_cast<std::size_t>(square)];
    }
    /// The side that holds the square; nothing when it is contested.
    [[nodiscard]] std::optional<Side> holder(Square square) const noexcept {
        for (const Side side : all_sides)
            if (held[index(side)].has(square)) return side;
        return std::nullopt;
    }
};

/// The control of all 64 squares. Cost: some microseconds; more while a king is in check.
[[nodiscard]] SquareControl square_control(const Position& position, const Options& options = {}) noexcept;

} // namespace keysquare

#include <keysquare/features/square_control_impl.hpp>
