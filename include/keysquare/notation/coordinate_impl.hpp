// Bodies of notation/coordinate.hpp.
#pragma once

#include <keysquare/notation/coordinate.hpp>

namespace keysquare {

namespace detail {

/// The castling that king square and `target` mean, `MoveType::plain` for none. A neighbouring square without the
/// right's own rook is a step of the king.
[[nodiscard]] inline MoveType castling_meant_by(const Position& position, Square target) noexcept {
    const Square king = position.king(position.mover());
    for (const Wing wing : all_wings) {
        const Square rook = position.castling_rook(position.mover(), wing);
        if (rook == Square::none) continue;
        const MoveType type = wing == Wing::short_ ? MoveType::castle_short : MoveType::castle_long;
        if (target == rook || (target == Move{king, rook, type}.target() && king_distance(king, target) > 1))
            return type;
    }
    return MoveType::plain;
}

/// The number of leading characters of `text` that spell squares, at most four.
[[nodiscard]] inline std::size_t spelled_squares(std::string_view text) noexcept {
    std::size_t at = 0;
    for (; at < 4 && at < text.size(); ++at) {
        const char first = at % 2 == 0 ? 'a' : '1';
        if (text[at] < first || text[at] > first + 7) break;
    }
    return at;
}

[[nodiscard]] inline FoundMove find_coordinate(const Position& position, std::string_view text) noexcept {
    if (const std::size_t at = spelled_squares(text); at < 4) return {{}, Reason::not_a_move, at};
    const Kind promotion = text.size() > 4 ? promotion_named(text[4]) : Kind::none;
    if (text.size() > 4 && promotion == Kind::none) return {{}, Reason::not_a_move, 4};
    if (text.size() > 5) return {{}, Reason::not_a_move, 5};

    const Square origin = square_named(text.substr(0, 2));
    const Square target = square_named(text.substr(2, 2));
    if (!position.men(position.mover()).has(origin)) return {{}, Reason::no_such_piece};
    const Kind kind = position.kind_at(origin);
    const bool promotes = kind == Kind::pawn && rank_for(position.mover(), target) == 7;
    if (promotion != Kind::none && !promotes) return {{}, Reason::illegal_move, 4};
    if (kind == Kind::king)
        if (const MoveType type = castling_meant_by(position, target); type != MoveType::plain)
            return find_castling(position, type);
    if (!men_reaching(position, kind, target).has(origin)) return {{}, Reason::illegal_move, 2};
    if (!keeps_king_safe(position, origin, target)) return {{}, Reason::king_left_in_check};
    if (promotes && promotion == Kind::none) return {{}, Reason::missing_promotion, 4};
    return {move_of(position, origin, target, promotion)};
}

} // namespace detail

inline std::string coordinate(Move move) {
    if (!move) return "--";
    const bool is_classical =
        file_of(move.origin()) == 4 && (file_of(move.raw_target()) == 0 || file_of(move.raw_target()) == 7);
    std::string text{name(move.origin())};
    text += name(move.castles() && is_classical ? move.target() : move.raw_target());
    if (move.promotes()) text += static_cast<char>(letter(move.promotion()) - 'A' + 'a');
    return text;
}

inline Result<Move> read_coordinate(const Position& position, std::string_view text) {
    return detail::as_result(detail::find_coordinate(position, text), text);
}

inline Result<Move> read_move(const Position& position, std::string_view text) {
    if (detail::spelled_squares(text) < 4) return read_san(position, text);
    const detail::FoundMove by_squares = detail::find_coordinate(position, text);
    if (by_squares.reason == Reason::none) return by_squares.move;
    const detail::FoundMove by_san = detail::find_san(position, text); // "e2e4!" is a long form of SAN
    return detail::as_result(by_san.reason == Reason::none ? by_san : by_squares, text);
}

} // namespace keysquare
