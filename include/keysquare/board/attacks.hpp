// Attacks of every kind on any occupancy, and the lines between squares.
//
// Sliders look up each of their lines: the men on its six inner squares, gathered by one multiplication, are the index
// into a table of 4 kB for ranks and diagonals, or one for files; with the lines themselves 10 kB. (Kindergarten
// bitboards, published by U. Koistinen and G. Isenberg; from memory.) Tables of 840 kB for whole boards are faster
// where they have the cache to themselves (the benchmarks `sliders/*`); when the method was chosen, findings gained
// nothing by them, so there is one method for all targets.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <cstdlib>

#include <keysquare/board/inlining.hpp>
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

/// Each line through each square, the square itself left out.
constexpr std::array<std::array<std::uint64_t, 64>, 4> make_line_squares() noexcept {
    std::array<std::array<std::uint64_t, 64>, 4> squares{};
    for (std::size_t square = 0; square < 64; ++square)
        for (std::size_t kind = 0; kind < 4; ++kind)
            squares[kind][square] = lines[square][kind].below | lines[square][kind].above;
    return squares;
}

inline constexpr auto line_squares = make_line_squares();

/// What a slider attacks on a line of eight squares, as bits; square and men are given in the same way.
constexpr unsigned attacks_on_eight(int from, unsigned occupied) noexcept {
    unsigned attacks = 0;
    for (const int step : {-1, 1})
        for (int at = from + step; at >= 0 && at < 8; at += step) {
            attacks |= 1U << at;
            if (occupied >> at & 1) break;
        }
    return attacks;
}

/// The squares of the first rank as squares of the a-file.
constexpr std::uint64_t turned_to_file(std::uint64_t rank) noexcept {
    return ((rank & 0x7F) * 0x0002040810204081 & 0x0101010101010101) | rank >> 7 << 56;
}

/// By the slider's place on its line, and by the men on the line's six inner squares.
struct LineAttacks {
    using Table = std::array<std::array<std::uint64_t, 64>, 8>;

    Table on_rank{}; ///< repeated on every rank
    Table on_file{}; ///< of the a-file
};

constexpr LineAttacks make_line_attacks() noexcept {
    LineAttacks attacks;
    for (std::size_t at = 0; at < 8; ++at)
        for (unsigned inner = 0; inner < 64; ++inner) {
            const std::uint64_t attacked = attacks_on_eight(static_cast<int>(at), inner << 1);
            attacks.on_rank[at][inner] = attacked * 0x0101010101010101;
            attacks.on_file[at][inner] = turned_to_file(attacked);
        }
    return attacks;
}

inline constexpr LineAttacks line_attack_tables = make_line_attacks();

/// The squares that a slider on `from` attacks on one line, which is no file.
[[nodiscard]] KEYSQUARE_INLINED constexpr std::uint64_t line_attacks(LineKind kind, std::size_t from,
                                                                     std::uint64_t occupied) noexcept {
    constexpr std::uint64_t gather = 0x0202020202020202; // brings files b to g to the top
    const std::uint64_t line = line_squares[kind][from];
    return line_attack_tables.on_rank[from & 7][(line & occupied) * gather >> 58] & line;
}
/// The same on its file.
[[nodiscard]] KEYSQUARE_INLINED constexpr std::uint64_t attacks_on_file(std::size_t from,
                                                                        std::uint64_t occupied) noexcept {
    constexpr std::uint64_t gather = 0x0004081020408000; // brings ranks 2 to 7 of the a-file to the top
    const std::uint64_t on_file = occupied >> (from & 7) & 0x0101010101010101;
    return line_attack_tables.on_file[from >> 3][on_file * gather >> 58] << (from & 7);
}

} // namespace detail

/// The squares that a knight attacks from there.
[[nodiscard]] constexpr Squares knight_attacks(Square from) noexcept {
    return Squares{detail::knight_leaps[static_cast<std::size_t>(from)]};
}
/// The squares that a king attacks from there.
[[nodiscard]] constexpr Squares king_attacks(Square from) noexcept {
    return Squares{detail::king_leaps[static_cast<std::size_t>(from)]};
}
/// The squares that a pawn of `side` attacks from there, one or two; none from the side's last rank.
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
    const auto at = static_cast<std::size_t>(from);
    return Squares{detail::line_squares[detail::rank_line][at] | detail::line_squares[detail::file_line][at]};
}
/// The same for a bishop: its two diagonals on an empty board, without its own square.
[[nodiscard]] constexpr Squares bishop_lines(Square from) noexcept {
    const auto at = static_cast<std::size_t>(from);
    return Squares{detail::line_squares[detail::diagonal_line][at] |
                   detail::line_squares[detail::antidiagonal_line][at]};
}

/// Squares that a slider attacks, the first man in each direction included.
[[nodiscard]] KEYSQUARE_INLINED constexpr Squares rook_attacks(Square from, Squares occupied) noexcept {
    const auto at = static_cast<std::size_t>(from);
    return Squares{detail::line_attacks(detail::rank_line, at, occupied.bits()) |
                   detail::attacks_on_file(at, occupied.bits())};
}
/// The squares that a bishop attacks with these squares occupied, the first occupied one in each direction included.
[[nodiscard]] KEYSQUARE_INLINED constexpr Squares bishop_attacks(Square from, Squares occupied) noexcept {
    const auto at = static_cast<std::size_t>(from);
    return Squares{detail::line_attacks(detail::diagonal_line, at, occupied.bits()) |
                   detail::line_attacks(detail::antidiagonal_line, at, occupied.bits())};
}
/// The squares that a queen attacks with these squares occupied, the first occupied one in each direction included.
[[nodiscard]] KEYSQUARE_INLINED constexpr Squares queen_attacks(Square from, Squares occupied) noexcept {
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
