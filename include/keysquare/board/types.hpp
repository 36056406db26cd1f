// Squares, sides, kinds and pieces: the small value types that everything else is made of.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace keysquare {

/// The two sides. "Mover" is the side to move in a position, "waiter" the other one.
enum class Side : std::uint8_t {
    white, ///< moves first
    black  ///< moves second
};

/// What a piece is. `none` stands for an empty square.
enum class Kind : std::uint8_t {
    pawn,   ///< pawn
    knight, ///< knight
    bishop, ///< bishop
    rook,   ///< rook
    queen,  ///< queen
    king,   ///< king
    none    ///< an empty square
};

inline constexpr std::array all_sides{Side::white, Side::black}; ///< Both sides, White first, for loops.
/// The six kinds in the order of `Kind`, for loops.
inline constexpr std::array all_kinds{Kind::pawn, Kind::knight, Kind::bishop, Kind::rook, Kind::queen, Kind::king};
/// What a pawn can become, the most useful one first.
inline constexpr std::array promotion_kinds{Kind::queen, Kind::rook, Kind::bishop, Kind::knight};

/// The opponent of a side.
[[nodiscard]] constexpr Side other(Side side) noexcept { return side == Side::white ? Side::black : Side::white; }
/// The place of a side in arrays: 0 for White, 1 for Black.
[[nodiscard]] constexpr std::size_t index(Side side) noexcept { return static_cast<std::size_t>(side); }
/// The place of a kind in arrays: 0 for the pawn, 5 for the king, 6 for `none`.
[[nodiscard]] constexpr std::size_t index(Kind kind) noexcept { return static_cast<std::size_t>(kind); }
/// Whether it is a knight or a bishop.
[[nodiscard]] constexpr bool is_minor(Kind kind) noexcept { return kind == Kind::knight || kind == Kind::bishop; }
/// Whether it moves along lines: a bishop, rook or queen.
[[nodiscard]] constexpr bool is_slider(Kind kind) noexcept {
    return kind == Kind::bishop || kind == Kind::rook || kind == Kind::queen;
}

/// A kind with its side. The default piece is no piece (`Kind::none`).
struct Piece {
    Side side = Side::white; ///< means nothing where `kind` is `none`
    Kind kind = Kind::none;  ///< what it is

    /// Whether it is a piece, and not an empty square.
    [[nodiscard]] constexpr explicit operator bool() const noexcept { return kind != Kind::none; }
    /// Whether side and kind are the same.
    friend constexpr bool operator==(Piece, Piece) noexcept = default;
};

/// A square of the board, a1 = 0, b1 = 1, ..., h8 = 63, and `none`.
enum class Square : std::uint8_t {
    a1,
    b1,
    c1,
    d1,
    e1,
    f1,
    g1,
    h1, // clang-format off
    a2, b2, c2, d2, e2, f2, g2, h2,
    a3, b3, c3, d3, e3, f3, g3, h3,
    a4, b4, c4, d4, e4, f4, g4, h4,
    a5, b5, c5, d5, e5, f5, g5, h5,
    a6, b6, c6, d6, e6, f6, g6, h6,
    a7, b7, c7, d7, e7, f7, g7, h7,
    a8, b8, c8, d8, e8, f8, g8, h8, none // clang-format on
};

/// From 0 for a1, along the ranks, to 63 for h8; 64 for `none`.
[[nodiscard]] constexpr int index(Square square) noexcept { return static_cast<int>(square); }
/// The square with this index. Precondition: from 0 to 64.
[[nodiscard]] constexpr Square square_at(int index) noexcept { return static_cast<Square>(index); }

/// File and rank count from 0: file 0 is the a-file, rank 0 is White's first rank.
[[nodiscard]] constexpr Square square_at(int file, int rank) noexcept { return square_at(rank * 8 + file); }
/// From 0 for the a-file to 7.
[[nodiscard]] constexpr int file_of(Square square) noexcept { return index(square) & 7; }
/// From 0 for White's first rank to 7.
[[nodiscard]] constexpr int rank_of(Square square) noexcept { return index(square) >> 3; }

/// The rank as `side` counts it: 0 is the side's own first rank, 7 the rank where its pawns promote.
[[nodiscard]] constexpr int rank_for(Side side, Square square) noexcept {
    return side == Side::white ? rank_of(square) : 7 - rank_of(square);
}
/// Whether it has the colour of h1.
[[nodiscard]] constexpr bool is_light(Square square) noexcept { return ((file_of(square) + rank_of(square)) & 1) != 0; }

/// The direction in which the pawns of `side` advance, in square indices.
[[nodiscard]] constexpr int advance_of(Side side) noexcept { return side == Side::white ? 8 : -8; }

/// "e4" for `Square::e4`, "-" for `Square::none`, as FEN writes it. The view points at static storage.
[[nodiscard]] constexpr std::string_view name(Square square) noexcept {
    constexpr std::string_view names = "a1b1c1d1e1f1g1h1a2b2c2d2e2f2g2h2a3b3c3d3e3f3g3h3a4b4c4d4e4f4g4h4"
                                       "a5b5c5d5e5f5g5h5a6b6c6d6e6f6g6h6a7b7c7d7e7f7g7h7a8b8c8d8e8f8g8h8";
    return square == Square::none ? std::string_view{"-"}
                                  : names.substr(static_cast<std::size_t>(index(square)) * 2, 2);
}

/// The square that `text` names, or `Square::none` when it names none.
[[nodiscard]] constexpr Square square_named(std::string_view text) noexcept {
    if (text.size() != 2 || text[0] < 'a' || text[0] > 'h' || text[1] < '1' || text[1] > '8') return Square::none;
    return square_at(text[0] - 'a', text[1] - '1');
}

/// "white" or "black".
[[nodiscard]] constexpr std::string_view name(Side side) noexcept { return side == Side::white ? "white" : "black"; }
/// "pawn" to "king"; "none" for an empty square.
[[nodiscard]] constexpr std::string_view name(Kind kind) noexcept {
    constexpr std::array<std::string_view, 7> names{"pawn", "knight", "bishop", "rook", "queen", "king", "none"};
    return names[index(kind)];
}

/// The English letter of a kind (PNBRQK, and '.' for none), upper case.
[[nodiscard]] constexpr char letter(Kind kind) noexcept { return "PNBRQK."[index(kind)]; }

/// The kind of an upper-case English letter; `Kind::none` for any other character.
[[nodiscard]] constexpr Kind kind_of_letter(char c) noexcept {
    constexpr std::string_view letters = "PNBRQK";
    const auto at = letters.find(c);
    return at == std::string_view::npos ? Kind::none : static_cast<Kind>(at);
}

/// The FEN letter of a piece: upper case for White, lower case for Black.
[[nodiscard]] constexpr char letter(Piece piece) noexcept {
    const char upper = letter(piece.kind);
    return piece && piece.side == Side::black ? static_cast<char>(upper - 'A' + 'a') : upper;
}

} // namespace keysquare
