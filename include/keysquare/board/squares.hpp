// Squares: a set of squares held as one 64-bit bitboard.
#pragma once

#include <bit>
#include <cstdint>
#include <initializer_list>
#include <iterator>

#include <keysquare/board/types.hpp>

namespace keysquare {

namespace detail {

/// The number of set bits. x86-64 has an instruction for it only beyond its baseline, and compilers then call a function
/// that takes longer than these sums (SWAR; H. S. Warren, Hacker's Delight, 5-1; from memory).
[[nodiscard]] constexpr int count_bits(std::uint64_t bits) noexcept {
#if defined(__x86_64__) && !defined(__POPCNT__)
    bits -= bits >> 1 & 0x5555555555555555;
    bits = (bits & 0x3333333333333333) + (bits >> 2 & 0x3333333333333333);
    bits = (bits + (bits >> 4)) & 0x0F0F0F0F0F0F0F0F;
    return static_cast<int>(bits * 0x0101010101010101 >> 56);
#else
    return std::popcount(bits);
#endif
}

} // namespace detail

/// A set of squares. Bit i is the square with index i. Iterates in the order a1, b1, ..., h8.
class Squares {
  public:
    /// Goes through the squares of a set, from the lowest index to the highest.
    class Iterator {
      public:
        /// The names of types that standard algorithms ask for.
        /// @{
        using value_type = Square;
        using difference_type = std::ptrdiff_t;
        /// @}
        constexpr Iterator() noexcept = default;
        /// At the lowest of these squares; with 0 past the last one.
        constexpr explicit Iterator(std::uint64_t bits) noexcept : bits_(bits) {}
        /// The square. Precondition: not past the last one.
        [[nodiscard]] constexpr Square operator*() const noexcept { return square_at(std::countr_zero(bits_)); }
        /// Goes on to the next square.
        constexpr Iterator& operator++() noexcept {
            bits_ &= bits_ - 1;
            return *this;
        }
        /// The same; gives the place before.
        constexpr Iterator operator++(int) noexcept {
            const Iterator before = *this;
            ++*this;
            return before;
        }
        /// Whether the same squares are left.
        friend constexpr bool operator==(Iterator, Iterator) noexcept = default;

      private:
        std::uint64_t bits_ = 0;
    };

    constexpr Squares() noexcept = default;
    /// The squares whose bits are set.
    constexpr explicit Squares(std::uint64_t bits) noexcept : bits_(bits) {}
    /// Just this square. Precondition: not `Square::none`.
    constexpr explicit Squares(Square square) noexcept : bits_(std::uint64_t{1} << index(square)) {}
    /// These squares. Precondition: none is `Square::none`.
    constexpr Squares(std::initializer_list<Square> squares) noexcept {
        for (const Square square : squares) *this |= Squares{std::uint64_t{1} << index(square)};
    }

    /// As a number: bit i is the square with index i.
    [[nodiscard]] constexpr std::uint64_t bits() const noexcept { return bits_; }
    /// Whether it holds no square.
    [[nodiscard]] constexpr bool empty() const noexcept { return bits_ == 0; }
    /// Whether it holds any square.
    [[nodiscard]] constexpr explicit operator bool() const noexcept { return bits_ != 0; }
    /// How many squares it holds.
    [[nodiscard]] constexpr int count() const noexcept { return detail::count_bits(bits_); }
    /// Whether it holds the square. Precondition: not `Square::none`.
    [[nodiscard]] constexpr bool has(Square square) const noexcept { return (bits_ >> index(square) & 1) != 0; }
    /// Whether it holds at least two squares.
    [[nodiscard]] constexpr bool several() const noexcept { return (bits_ & (bits_ - 1)) != 0; }

    /// The lowest square. Precondition: not empty.
    [[nodiscard]] constexpr Square first() const noexcept { return square_at(std::countr_zero(bits_)); }
    /// The highest square. Precondition: not empty.
    [[nodiscard]] constexpr Square last() const noexcept { return square_at(63 - std::countl_zero(bits_)); }

    /// The same squares and this one.
    [[nodiscard]] constexpr Squares with(Square square) const noexcept { return *this | bit(square); }
    /// The same squares without this one.
    [[nodiscard]] constexpr Squares without(Square square) const noexcept { return *this & ~bit(square); }

    /// Every square moved by `steps` indices (8 = one rank up), squares that leave the board at either end dropped.
    /// Files wrap: mask with `~files` where that matters.
    [[nodiscard]] constexpr Squares moved(int steps) const noexcept {
        return Squares{steps >= 0 ? bits_ << steps : bits_ >> -steps};
    }

    /// The lowest square.
    [[nodiscard]] constexpr Iterator begin() const noexcept { return Iterator{bits_}; }
    /// Past the last square.
    [[nodiscard]] constexpr Iterator end() const noexcept { return Iterator{}; }

    /// The squares in both.
    friend constexpr Squares operator&(Squares a, Squares b) noexcept { return Squares{a.bits_ & b.bits_}; }
    /// The squares in at least one of the two.
    friend constexpr Squares operator|(Squares a, Squares b) noexcept { return Squares{a.bits_ | b.bits_}; }
    /// The squares in just one of the two.
    friend constexpr Squares operator^(Squares a, Squares b) noexcept { return Squares{a.bits_ ^ b.bits_}; }
    /// The squares of the board that are not in it.
    friend constexpr Squares operator~(Squares a) noexcept { return Squares{~a.bits_}; }
    /// Keeps the squares that are in `b` as well.
    constexpr Squares& operator&=(Squares b) noexcept { return *this = *this & b; }
    /// Adds the squares of `b`.
    constexpr Squares& operator|=(Squares b) noexcept { return *this = *this | b; }
    /// Keeps the squares that are in just one of the two.
    constexpr Squares& operator^=(Squares b) noexcept { return *this = *this ^ b; }
    /// Whether they hold the same squares.
    friend constexpr bool operator==(Squares, Squares) noexcept = default;

  private:
    [[nodiscard]] static constexpr Squares bit(Square square) noexcept {
        return Squares{std::uint64_t{1} << index(square)};
    }

    std::uint64_t bits_ = 0;
};

inline constexpr Squares no_squares{};                   ///< None.
inline constexpr Squares all_squares{~std::uint64_t{0}}; ///< All 64.
/// The dark squares: a1 and those of its colour.
inline constexpr Squares dark_squares{std::uint64_t{0xAA55AA55AA55AA55}};
/// The light squares: h1 and those of its colour.
inline constexpr Squares light_squares{~std::uint64_t{0xAA55AA55AA55AA55}};
inline constexpr Squares centre_squares{Square::d4, Square::e4, Square::d5, Square::e5}; ///< d4, e4, d5 and e5.

/// The squares of a file; 0 is the a-file. Precondition: from 0 to 7.
[[nodiscard]] constexpr Squares file_squares(int file) noexcept {
    return Squares{std::uint64_t{0x0101010101010101} << file};
}
/// The squares of a rank; 0 is White's first rank. Precondition: from 0 to 7.
[[nodiscard]] constexpr Squares rank_squares(int rank) noexcept { return Squares{std::uint64_t{0xFF} << (8 * rank)}; }

/// The four ranks nearest to `side`.
[[nodiscard]] constexpr Squares half_of(Side side) noexcept {
    return Squares{side == Side::white ? std::uint64_t{0x00000000FFFFFFFF} : std::uint64_t{0xFFFFFFFF00000000}};
}
/// The 32 squares that have the colour of this one.
[[nodiscard]] constexpr Squares colour_of(Square square) noexcept {
    return is_light(square) ? light_squares : dark_squares;
}

} // namespace keysquare
