// Other ways to find what a slider attacks, which the one of board/attacks.hpp is held to: less table, and more.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <vector>

#include <keysquare/board/attacks.hpp>

namespace bench {

using keysquare::Square;
using keysquare::Squares;

/// Obstruction difference: the nearest men on both sides of a line bound what is attacked, and a subtraction marks it.
/// 4 kB. (Published by M. van Kervinck and G. Isenberg; from memory.)
class ObstructionDifference {
  public:
    [[nodiscard]] static Squares rook(Square from, Squares occupied) noexcept {
        return along(from, keysquare::detail::rank_line, occupied) |
               along(from, keysquare::detail::file_line, occupied);
    }
    [[nodiscard]] static Squares bishop(Square from, Squares occupied) noexcept {
        return along(from, keysquare::detail::diagonal_line, occupied) |
               along(from, keysquare::detail::antidiagonal_line, occupied);
    }

  private:
    [[nodiscard]] static Squares along(Square from, keysquare::detail::LineKind kind, Squares occupied) noexcept {
        const auto& line = keysquare::detail::lines.parts[static_cast<std::size_t>(from)][kind];
        const std::uint64_t below = line.below & occupied.bits();
        const std::uint64_t above = line.above & occupied.bits();
        const std::uint64_t from_blocker = ~std::uint64_t{0} << (63 - std::countl_zero(below | 1));
        return Squares{(line.below | line.above) & from_blocker & (above ^ (above - 1))};
    }
};

/// Every occupancy of the inner squares of both lines, gathered by a multiplication with a factor found by trial. 840 kB.
/// (Magic bitboards, published by L. Kannan; from memory.)
class WholeBoardTables {
  public:
    WholeBoardTables() {
        for (const Square square : keysquare::all_squares) {
            fill(rooks_[static_cast<std::size_t>(square)], square, ObstructionDifference::rook);
            fill(bishops_[static_cast<std::size_t>(square)], square, ObstructionDifference::bishop);
        }
    }

    [[nodiscard]] Squares rook(Square from, Squares occupied) const noexcept {
        return look_up(rooks_[static_cast<std::size_t>(from)], occupied);
    }
    [[nodiscard]] Squares bishop(Square from, Squares occupied) const noexcept {
        return look_up(bishops_[static_cast<std::size_t>(from)], occupied);
    }

  private:
    struct Entry {
        std::uint64_t inner = 0;
        std::uint64_t factor = 0;
        int shift = 0;
        std::vector<Squares> attacks;

        [[nodiscard]] std::size_t place(std::uint64_t men) const noexcept { return men * factor >> shift; }
    };

    [[nodiscard]] static Squares look_up(const Entry& entry, Squares occupied) noexcept {
        return entry.attacks[entry.place(occupied.bits() & entry.inner)];
    }

    /// The squares that matter: a man on the last square of a line hides nothing.
    [[nodiscard]] static std::uint64_t inner_squares(Square square, Squares attacked) noexcept {
        const auto edge = [&](Squares line) { return line.has(square) ? Squares{} : line; };
        using keysquare::file_squares;
        using keysquare::rank_squares;
        return (attacked & ~edge(file_squares(0)) & ~edge(file_squares(7)) & ~edge(rank_squares(0)) &
                ~edge(rank_squares(7)))
            .bits();
    }

    template <class Attacks> void fill(Entry& entry, Square square, Attacks attacks) {
        entry.inner = inner_squares(square, attacks(square, Squares{}));
        entry.shift = std::countl_zero(std::uint64_t{1} << std::popcount(entry.inner)) + 1;
        do {
            entry.factor = random() & random() & random();
            entry.attacks.assign(std::size_t{1} << std::popcount(entry.inner), Squares{});
        } while (!fits(entry, square, attacks));
    }

    template <class Attacks> [[nodiscard]] static bool fits(Entry& entry, Square square, Attacks attacks) {
        std::uint64_t men = 0;
        do {
            const Squares attacked = attacks(square, Squares{men});
            Squares& held = entry.attacks[entry.place(men)];
            if (held && held != attacked) return false;
            held = attacked;
            men = (men - entry.inner) & entry.inner;
        } while (men != 0);
        return true;
    }

    std::uint64_t random() noexcept { // xorshift (G. Marsaglia; from memory)
        state_ ^= state_ << 13;
        state_ ^= state_ >> 7;
        return state_ ^= state_ << 17;
    }

    std::uint64_t state_ = 88172645463325252U;
    std::array<Entry, 64> rooks_;
    std::array<Entry, 64> bishops_;
};

} // namespace bench
