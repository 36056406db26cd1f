// Attacks of every kind on any occupancy, and the lines between squares.
//
// Sliders look up each of their lines: the men on its six inner squares, gathered by one multiplication, are the index
// into a table of 4 kB for ranks and diagonals, or one for files; with the lines themselves 10 kB. (Kindergarten
// bitboards, published by U. Koistinen and G. Isenberg; from memory.) Tables of 840 kB for whole boards are faster
// where they have the cache to themselves (the benchmarks `sliders/*`); when the method was chosen, findings gained
// nothing by them, so there is one method for all targets.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>

#include <keysquare/board/inlining.hpp>
#include <keysquare/board/squares.hpp>

namespace keysquare {

namespace detail {

// The tables are made while the user's program is compiled, so by arithmetic on whole lines and in plain arrays: steps
// from square to square and calls, those of operator[] too, are slow for compilers.

/// One line through a square: the part below it (lower indices) and the part above it, the square itself in neither.
struct LineParts {
    std::uint64_t below;
    std::uint64_t above;
};

enum LineKind : std::uint8_t { rank_line, file_line, diagonal_line, antidiagonal_line };

inline constexpr std::uint64_t a_file = 0x0101010101010101;

constexpr std::uint64_t moved_up(std::uint64_t squares, int ranks) noexcept {
    return ranks >= 0 ? squares << 8 * ranks : squares >> -8 * ranks;
}

/// The whole line of that kind through a square.
constexpr std::uint64_t line_with(int kind, int square) noexcept {
    const int file = square & 7;
    const int rank = square >> 3;
    if (kind == rank_line) return moved_up(0xFF, rank);
    if (kind == file_line) return a_file << file;
    return kind == diagonal_line ? moved_up(0x8040201008040201, rank - file)
                                 : moved_up(0x0102040810204080, rank + file - 7);
}

struct Lines {
    std::uint64_t squares[4][64]{};  ///< each line through each square, the square itself left out
    LineParts parts[64][4]{};        ///< the same, in two parts
    std::uint64_t between[64][64]{}; ///< the squares strictly between two of one line
};

constexpr Lines make_lines() noexcept {
    Lines lines;
    constexpr int steps[4]{1, 8, 9, 7}; // by LineKind, upwards
    for (int square = 0; square < 64; ++square)
        for (int kind = 0; kind < 4; ++kind) {
            const std::uint64_t from = std::uint64_t{1} << square;
            const std::uint64_t line = line_with(kind, square) & ~from;
            const std::uint64_t above = line & ~(from - 1);
            lines.squares[kind][square] = line;
            lines.parts[square][kind] = {line & (from - 1), above};
            std::uint64_t passed = 0;
            for (int to = square + steps[kind]; passed != above; to += steps[kind]) {
                lines.between[square][to] = passed;
                lines.between[to][square] = passed;
                passed |= std::uint64_t{1} << to;
            }
        }
    return lines;
}

inline constexpr Lines lines = make_lines();

constexpr std::uint64_t one_to_the_left(std::uint64_t squares) noexcept { return squares >> 1 & ~(a_file << 7); }
constexpr std::uint64_t one_to_the_right(std::uint64_t squares) noexcept { return squares << 1 & ~a_file; }

/// What pawns of both sides, knights and kings attack from each square.
struct Leaps {
    std::uint64_t of_pawn[2][64]{}; ///< by side
    std::uint64_t of_knight[64]{};
    std::uint64_t of_king[64]{};
};

constexpr Leaps make_leaps() noexcept {
    Leaps leaps;
    for (int square = 0; square < 64; ++square) {
        const std::uint64_t from = std::uint64_t{1} << square;
        const std::uint64_t left = one_to_the_left(from);
        const std::uint64_t right = one_to_the_right(from);
        const std::uint64_t beside = left | right;
        const std::uint64_t two_beside = one_to_the_left(left) | one_to_the_right(right);
        leaps.of_pawn[0][square] = beside << 8;
        leaps.of_pawn[1][square] = beside >> 8;
        leaps.of_knight[square] = beside << 16 | beside >> 16 | two_beside << 8 | two_beside >> 8;
        leaps.of_king[square] = beside | (beside | from) << 8 | (beside | from) >> 8;
    }
    return leaps;
}

inline constexpr Leaps leaps = make_leaps();

/// What a slider attacks on a line of eight squares, as bits; square and men are given in the same way.
constexpr unsigned attacks_on_eight(unsigned from, unsigned occupied) noexcept {
    const unsigned all_below = (1U << from) - 1;
    const unsigned all_above = 0xFE << from & 0xFF;
    const unsigned men_above = occupied & all_above;
    const unsigned nearest_above = men_above & (0 - men_above);
    const unsigned below = all_below & ~(std::bit_floor((occupied & all_below) | 1) - 1);
    const unsigned above = all_above & (2 * nearest_above - 1); // all of them when nobody stands there
    return below | above;
}

/// The squares of the first rank as squares of the a-file.
constexpr std::uint64_t turned_to_file(std::uint64_t rank) noexcept {
    return ((rank & 0x7F) * 0x0002040810204081 & a_file) | rank >> 7 << 56;
}

/// By the slider's place on its line, and by the men on the line's six inner squares.
struct LineAttacks {
    std::uint64_t on_rank[8][64]{}; ///< repeated on every rank
    std::uint64_t on_file[8][64]{}; ///< of the a-file
};

constexpr LineAttacks make_line_attacks() noexcept {
    LineAttacks attacks;
    for (unsigned at = 0; at < 8; ++at)
        for (unsigned inner = 0; inner < 64; ++inner) {
            const std::uint64_t attacked = attacks_on_eight(at, inner << 1);
            attacks.on_rank[at][inner] = attacked * a_file;
            attacks.on_file[at][inner] = turned_to_file(attacked);
        }
    return attacks;
}

inline constexpr LineAttacks line_attack_tables = make_line_attacks();

/// The squares that a slider on `from` attacks on one line, which is no file.
[[nodiscard]] KEYSQUARE_INLINED constexpr std::uint64_t line_attacks(LineKind kind, std::size_t from,
                                                                     std::uint64_t occupied) noexcept {
    constexpr std::uint64_t gather = 0x0202020202020202; // brings files b to g to the top
    const std::uint64_t line = lines.squares[kind][from];
    return line_attack_tables.on_rank[from & 7][(line & occupied) * gather >> 58] & line;
}
/// The same on its file.
[[nodiscard]] KEYSQUARE_INLINED constexpr std::uint64_t attacks_on_file(std::size_t from,
                                                                        std::uint64_t occupied) noexcept {
    constexpr std::uint64_t gather = 0x0004081020408000; // brings ranks 2 to 7 of the a-file to the top
    const std::uint64_t on_file = occupied >> (from & 7) & a_file;
    return line_attack_tables.on_file[from >> 3][on_file * gather >> 58] << (from & 7);
}

} // namespace detail

/// The squares that a knight attacks from there.
[[nodiscard]] constexpr Squares knight_attacks(Square from) noexcept {
    return Squares{detail::leaps.of_knight[static_cast<std::size_t>(from)]};
}
/// The squares that a king attacks from there.
[[nodiscard]] constexpr Squares king_attacks(Square from) noexcept {
    return Squares{detail::leaps.of_king[static_cast<std::size_t>(from)]};
}
/// The squares that a pawn of `side` attacks from there, one or two; none from the side's last rank.
[[nodiscard]] constexpr Squares pawn_attacks(Side side, Square from) noexcept {
    return Squares{detail::leaps.of_pawn[index(side)][static_cast<std::size_t>(from)]};
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
    return Squares{detail::lines.squares[detail::rank_line][at] | detail::lines.squares[detail::file_line][at]};
}
/// The same for a bishop: its two diagonals on an empty board, without its own square.
[[nodiscard]] constexpr Squares bishop_lines(Square from) noexcept {
    const auto at = static_cast<std::size_t>(from);
    return Squares{detail::lines.squares[detail::diagonal_line][at] |
                   detail::lines.squares[detail::antidiagonal_line][at]};
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

/// The squares strictly between two squares of one rank, file or diagonal; empty when there is no such line.
[[nodiscard]] constexpr Squares squares_between(Square a, Square b) noexcept {
    return Squares{detail::lines.between[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)]};
}

/// The whole rank, file or diagonal through two different squares, both included; empty when they share none.
[[nodiscard]] constexpr Squares line_through(Square a, Square b) noexcept {
    for (const auto& line : detail::lines.parts[static_cast<std::size_t>(a)]) {
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
