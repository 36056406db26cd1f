// Attacks of every kind on any occupancy, and the lines between squares.
//
// Sliders use obstruction difference on four lines a square: the nearest man below and above on a line bound the
// attacked stretch, and one subtraction of two bits marks it. The tables are 7 kB, so the library stays small, and
// there are no magic numbers to trust. (Method: published by M. van Kervinck and G. Isenberg; from memory.)
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <cstdlib>

#include <keysquare/board/squares.hpp>

namespace keysquare {

namespace detail {

/// One line through a square: the part below it (lower indices) and the part above it, the square itself in neither.
struct LineParts {
    std::uint64_t below = 0;
    std::uint64_t above = 0;
};

enum LineKind : std::uint8_t { rank_line, file_line, diagonal_line, antidiagonal_line };

constexpr std::array<std::array<int, 2>, 4> line_steps{{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};

constexpr std::uint64_t ray(int file, int rank, int file_step, int rank_step) noexcept {
    std::uint64_t squares = 0;
    for (file += file_step, rank += rank_step; file >= 0 && file < 8 && rank >= 0 && rank < 8;
         file += file_step, rank += rank_step)
        squares |= std::uint64_t{1} << (rank * 8 + file);
    return squares;
}

constexpr std::array<std::array<LineParts, 4>, 64> make_lines() noexcept {
    std::array<std::array<LineParts, 4>, 64> lines{};
    for (int square = 0; square < 64; ++square)
        for (std::size_t kind = 0; kind < 4; ++kind) {
            const auto [file_step, rank_step] = line_steps[kind];
            lines[static_cast<std::size_t>(square)][kind] = {ray(square & 7, square >> 3, -file_step, -rank_step),
                                                             ray(square & 7, square >> 3, file_step, rank_step)};
        }
    return lines;
}

constexpr std::array<std::uint64_t, 64> make_leaps(std::initializer_list<std::array<int, 2>> steps) noexcept {
    std::array<std::uint64_t, 64> leaps{};
    for (int square = 0; square < 64; ++square)
        for (const auto& [file_step, rank_step] : steps) {
            const int file = (square & 7) + file_step;
            const int rank = (square >> 3) + rank_step;
            if (file >= 0 && file < 8 && rank >= 0 && rank < 8)
                leaps[static_cast<std::size_t>(square)] |= std::uint64_t{1} << (rank * 8 + file);
        }
    return leaps;
}

inline constexpr auto lines = make_lines();
inline constexpr auto knight_leaps =
    make_leaps({{1, 2}, {2, 1}, {2, -1}, {1, -2}, {-1, -2}, {-2, -1}, {-2, 1}, {-1, 2}});
inline constexpr auto king_leaps = make_leaps({{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}});
inline constexpr std::array pawn_leaps{make_leaps({{-1, 1}, {1, 1}}), make_leaps({{-1, -1}, {1, -1}})};

/// The union of two of the lines through each square.
constexpr std::array<std::uint64_t, 64> make_crosses(LineKind one, LineKind other) noexcept {
    std::array<std::uint64_t, 64> crosses{};
    for (std::size_t square = 0; square < 64; ++square)
        for (const LineKind kind : {one, other})
            crosses[square] |= lines[square][kind].below | lines[square][kind].above;
    return crosses;
}

inline constexpr auto rook_crosses = make_crosses(rank_line, file_line);
inline constexpr auto bishop_crosses = make_crosses(diagonal_line, antidiagonal_line);

constexpr std::uint64_t line_attacks(const LineParts& line, std::uint64_t occupied) noexcept {
    const std::uint64_t nearest_below = line.below & occupied;
    const std::uint64_t nearest_above = line.above & occupied;
    const std::uint64_t from_blocker = ~std::uint64_t{0} << (63 - std::countl_zero(nearest_below | 1));
    const std::uint64_t upto_blocker = nearest_above ^ (nearest_above - 1); // all ones when nothing stands above
    return (line.below | line.above) & from_blocker & upto_blocker;
}

} // namespace detail

[[nodiscard]] constexpr Squares knight_attacks(Square from) noexcept {
    return Squares{detail::knight_leaps[static_cast<std::size_t>(from)]};
}
[[nodiscard]] constexpr Squares king_attacks(Square from) noexcept {
    return Squares{detail::king_leaps[static_cast<std::size_t>(from)]};
}
[[nodiscard]] constexpr Squares pawn_attacks(Side side, Square from) noexcept {
    return Squares{detail::pawn_leaps[index(side)][static_cast<std::size_t>(from)]};
}

/// The squares that a set of pawns of `side` attacks, all at once.
[[nodiscard]] constexpr Squares pawn_attacks(Side side, Squares pawns) noexcept {
    const Squares to_the_left = pawns & ~file_squares(0);
    const Squares to_the_right = pawns & ~file_squares(7);
    const int advance = advance_of(side);
    return to_the_left.moved(advance - 1) | to_the_right.moved(advance + 1);
}

/// What a slider would attack on an empty board: a cheap test before the real attacks are worked out.
[[nodiscard]] constexpr Squares rook_lines(Square from) noexcept {
    return Squares{detail::rook_crosses[static_cast<std::size_t>(from)]};
}
[[nodiscard]] constexpr Squares bishop_lines(Square from) noexcept {
    return Squares{detail::bishop_crosses[static_cast<std::size_t>(from)]};
}

/// Squares that a slider attacks, the first man in each direction included.
[[nodiscard]] constexpr Squares rook_attacks(Square from, Squares occupied) noexcept {
    const auto& lines = detail::lines[static_cast<std::size_t>(from)];
    return Squares{detail::line_attacks(lines[detail::rank_line], occupied.bits()) |
                   detail::line_attacks(lines[detail::file_line], occupied.bits())};
}
[[nodiscard]] constexpr Squares bishop_attacks(Square from, Squares occupied) noexcept {
    const auto& lines = detail::lines[static_cast<std::size_t>(from)];
    return Squares{detail::line_attacks(lines[detail::diagonal_line], occupied.bits()) |
                   detail::line_attacks(lines[detail::antidiagonal_line], occupied.bits())};
}
[[nodiscard]] constexpr Squares queen_attacks(Square from, Squares occupied) noexcept {
    return rook_attacks(from, occupied) | bishop_attacks(from, occupied);
}

/// The squares that `piece` standing on `from` attacks. A pawn attacks its two capture squares.
[[nodiscard]] constexpr Squares attacks_of(Piece piece, Square from, Squares occupied) noexcept {
    switch (piece.kind) {
    case Kind::pawn: return pawn_attacks(piece.side, from);
    case Kind::knight: return knight_attacks(from);
    case Kind::bishop: return bishop_attacks(from, occupied);
    case Kind::rook: return rook_attacks(from, occupied);
    case Kind::queen: return queen_attacks(from, occupied);
    case Kind::king: return king_attacks(from);
    case Kind::none: break;
    }
    return {};
}

namespace detail {

constexpr std::array<std::array<std::uint64_t, 64>, 64> make_between() noexcept {
    std::array<std::array<std::uint64_t, 64>, 64> between{};
    for (std::size_t from = 0; from < 64; ++from)
        for (const LineParts& line : lines[from]) {
            for (std::uint64_t rest = line.above; rest != 0; rest &= rest - 1) {
                const auto to = static_cast<std::size_t>(std::countr_zero(rest));
                between[from][to] = between[to][from] = line.above & ((std::uint64_t{1} << to) - 1);
            }
        }
    return between;
}

inline constexpr auto between_table = make_between();

} // namespace detail

/// The squares strictly between two squares of one rank, file or diagonal; empty when there is no such line.
[[nodiscard]] constexpr Squares squares_between(Square a, Square b) noexcept {
    return Squares{detail::between_table[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)]};
}

/// The whole rank, file or diagonal through two different squares, both included; empty when they share none.
[[nodiscard]] constexpr Squares line_through(Square a, Square b) noexcept {
    for (const auto& line : detail::lines[static_cast<std::size_t>(a)]) {
        const Squares squares{line.below | line.above};
        if (squares.has(b)) return squares.with(a);
    }
    return {};
}

/// The number of king moves between two squares on an empty board.
[[nodiscard]] constexpr int king_distance(Square a, Square b) noexcept {
    const int files = file_of(a) > file_of(b) ? file_of(a) - file_of(b) : file_of(b) - file_of(a);
    const int ranks = rank_of(a) > rank_of(b) ? rank_of(a) - rank_of(b) : rank_of(b) - rank_of(a);
    return files > ranks ? files : ranks;
}

} // namespace keysquare
