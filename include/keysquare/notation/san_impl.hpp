// Bodies of notation/san.hpp.
#pragma once

#include <keysquare/notation/san.hpp>

namespace keysquare {

namespace detail {

/// The mover's men of `kind` that reach `target` by the way they move; pins and checks are not looked at, castling is
/// no part of it. A pawn reaches an empty square straight on, and an enemy or the en passant square slantwise.
[[nodiscard]] inline Squares men_reaching(const Position& position, Kind kind, Square target) noexcept {
    const Side side = position.mover();
    const Squares men = position.men(side, kind);
    if (position.men(side).has(target)) return {};
    if (kind != Kind::pawn) return men & attacks_of({side, kind}, target, position.occupied());
    if (position.occupied().has(target) || target == position.en_passant())
        return men & pawn_attacks(other(side), target);
    if (rank_for(side, target) == 0) return {};
    const Square single = square_at(index(target) - advance_of(side));
    if (position.occupied().has(single)) return men & Squares{single};
    return rank_for(side, target) == 3 ? men & Squares{square_at(index(single) - advance_of(side))} : no_squares;
}

/// Whether the mover's king is safe once the man on `origin` has gone to `target`. Precondition: the man reaches it.
[[nodiscard]] inline bool keeps_king_safe(const Position& position, Square origin, Square target) noexcept {
    const Side waiter = position.waiter();
    const Square king = position.king(position.mover());
    Squares occupied = position.occupied().without(origin);
    if (origin == king) return !attackers_of(position, target, waiter, occupied);
    Squares taken{target};
    if (target == position.en_passant() && position.kind_at(origin) == Kind::pawn) {
        taken = Squares{square_at(index(target) - advance_of(position.mover()))};
        occupied = occupied & ~taken;
    }
    return !(attackers_of(position, king, waiter, occupied.with(target)) & ~taken);
}

/// The move of a man that reaches `target`, with its type; `promotion` counts for pawns on the last rank alone.
[[nodiscard]] inline Move move_of(const Position& position, Square origin, Square target, Kind promotion) noexcept {
    if (position.kind_at(origin) != Kind::pawn) return {origin, target};
    if (rank_for(position.mover(), target) == 7) return {origin, target, promotion_to(promotion)};
    if (target == position.en_passant()) return {origin, target, MoveType::en_passant};
    const bool doubles = index(target) - index(origin) == 2 * advance_of(position.mover());
    return {origin, target, doubles ? MoveType::double_step : MoveType::plain};
}

/// What a SAN text says, before any position is asked.
struct SanText {
    Kind kind = Kind::pawn;
    MoveType castling = MoveType::plain;
    Squares from = all_squares; ///< where the text allows the man to come from
    Square target = Square::none;
    Kind promotion = Kind::none;
    bool from_file_known = false;
    bool takes = false;
    std::size_t promotion_at = 0;
    std::size_t fault_at = std::string_view::npos; ///< the first character that fits no move text
};

/// Marks after the move itself: the offset of the first character that is none, or the text's length.
[[nodiscard]] inline std::size_t skip_marks(std::string_view text, std::size_t at) noexcept {
    const auto is_mark = [](char c) { return c == '+' || c == '#' || c == '!' || c == '?' || c == ' '; };
    for (;;) {
        while (at < text.size() && is_mark(text[at])) ++at;
        if (!text.substr(at).starts_with("e.p.")) break;
        at += 4;
    }
    return at;
}

/// The length of "O-O" or "O-O-O" at the start of `text`, written with any of the letters and digits in use; 0 for
/// none.
[[nodiscard]] inline std::size_t castling_length(std::string_view text) noexcept {
    const char o = text.empty() ? '\0' : text[0];
    if (o != 'O' && o != '0' && o != 'o') return 0;
    const auto goes_on = [&](std::size_t at) { return text.size() > at + 1 && text[at] == '-' && text[at + 1] == o; };
    return !goes_on(1) ? 0U : goes_on(3) ? 5U : 3U;
}

[[nodiscard]] inline Kind promotion_named(char c) noexcept {
    const Kind kind = kind_of_letter(c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c);
    return kind == Kind::pawn || kind == Kind::king ? Kind::none : kind;
}

[[nodiscard]] inline SanText take_apart(std::string_view text) noexcept {
    SanText san;
    if (const std::size_t length = castling_length(text); length > 0) {
        san.castling = length == 3 ? MoveType::castle_short : MoveType::castle_long;
        if (const std::size_t end = skip_marks(text, length); end < text.size()) san.fault_at = end;
        return san;
    }
    std::size_t at = 0;
    if (!text.empty() && text[0] <= 'Z') // most texts of pawn moves need no look at the letters
        if (const Kind kind = kind_of_letter(text[0]); kind != Kind::none) {
            san.kind = kind;
            at = 1;
        }
    // The last file and rank are the target; what came before them is the origin, as far as it was told.
    int file = -1;
    int rank = -1;
    bool divided = false;
    const auto take_as_origin = [&] {
        if (san.from_file_known) return false;
        san.from_file_known = true;
        san.from &= file_squares(file);
        if (rank >= 0) san.from &= rank_squares(rank);
        file = rank = -1;
        return true;
    };
    for (; at < text.size(); ++at) {
        const char c = text[at];
        if (c >= 'a' && c <= 'h') {
            if (file >= 0 && !take_as_origin()) break;
            file = c - 'a';
        } else if (c >= '1' && c <= '8') {
            if (rank >= 0 || (file < 0 && san.from != all_squares)) break;
            if (file < 0)
                san.from = rank_squares(c - '1');
            else
                rank = c - '1';
        } else if (!divided && (c == 'x' || c == ':' || (c == '-' && file >= 0))) {
            if (file >= 0 && !take_as_origin()) break;
            divided = true;
            san.takes = c != '-';
        } else {
            break;
        }
    }
    if (file < 0 || rank < 0) {
        san.fault_at = at;
        return san;
    }
    san.target = square_at(file, rank);
    san.promotion_at = at;
    if (at < text.size()) {
        const char opening = text[at];
        if (opening == '=' || opening == '(') ++at;
        if (at < text.size()) san.promotion = promotion_named(text[at]);
        if (san.promotion != Kind::none) ++at;
        const bool lacks_letter = at > san.promotion_at && san.promotion == Kind::none;
        const bool lacks_bracket = opening == '(' && (at == text.size() || text[at] != ')');
        if (opening == '(' && !lacks_bracket) ++at;
        if (lacks_letter || lacks_bracket) {
            san.fault_at = at;
            return san;
        }
    }
    if (const std::size_t end = skip_marks(text, at); end < text.size()) san.fault_at = end;
    return san;
}

/// A move, or why there is none and the offset in the text that shows it. (An `InputError` is too big for a hot path.)
struct FoundMove {
    Move move;
    Reason reason = Reason::none;
    std::size_t at = 0;
};

[[nodiscard]] inline FoundMove find_castling(const Position& position, MoveType type) noexcept {
    const Wing wing = type == MoveType::castle_short ? Wing::short_ : Wing::long_;
    const Square rook = position.castling_rook(position.mover(), wing);
    if (rook == Square::none) return {{}, Reason::illegal_move};
    const Move move{position.king(position.mover()), rook, type};
    return is_legal(position, move) ? FoundMove{move} : FoundMove{{}, Reason::illegal_move};
}

[[nodiscard]] inline FoundMove find_san(const Position& position, std::string_view text) noexcept {
    const SanText san = take_apart(text);
    if (san.fault_at != std::string_view::npos) return {{}, Reason::not_a_move, san.fault_at};
    if (san.castling != MoveType::plain) return find_castling(position, san.castling);

    const bool is_last_rank = rank_for(position.mover(), san.target) == 7;
    if (san.promotion != Kind::none && !(san.kind == Kind::pawn && is_last_rank))
        return {{}, Reason::illegal_move, san.promotion_at};
    if (position.men(position.mover()).has(san.target)) return {{}, Reason::illegal_move};

    Squares origins = men_reaching(position, san.kind, san.target) & san.from;
    // "d5" is a step; a capture by a pawn says so, or says where the pawn comes from.
    if (san.kind == Kind::pawn && !san.takes && !san.from_file_known) origins &= file_squares(file_of(san.target));
    if (san.kind == Kind::pawn && san.takes) origins &= ~file_squares(file_of(san.target));
    if (!origins) return {{}, Reason::no_such_piece};
    Squares able;
    for (const Square origin : origins)
        if (keeps_king_safe(position, origin, san.target)) able |= Squares{origin};
    if (!able) return {{}, Reason::king_left_in_check};
    if (able.several()) return {{}, Reason::ambiguous_move};
    if (san.kind == Kind::pawn && is_last_rank && san.promotion == Kind::none)
        return {{}, Reason::missing_promotion, san.promotion_at};
    return {move_of(position, able.first(), san.target, san.promotion)};
}

/// The parts of a move in export format that is no castling, no promotion and no capture en passant.
struct PlainSan {
    Kind kind = Kind::pawn;
    Squares from = all_squares; ///< where the text allows the man to come from
    Square target = Square::none;
    bool takes = false;
};

/// Reads such a text, with the sign of a check or mate, and returns where it ends; null when there is none.
/// Precondition: a zero byte or another character that fits no move follows somewhere.
[[nodiscard]] inline const char* read_plain(const char* text, PlainSan& san) noexcept {
    const auto is_file = [](char c) { return c >= 'a' && c <= 'h'; };
    const auto is_rank = [](char c) { return c >= '1' && c <= '8'; };
    if (is_file(*text)) {
        if (text[1] == 'x') {
            san.from = file_squares(*text - 'a');
            san.takes = true;
            text += 2;
        }
    } else {
        san.kind = kind_of_letter(*text);
        if (san.kind == Kind::none || san.kind == Kind::pawn) return nullptr;
        ++text;
        if (is_file(text[0]) && !is_rank(text[1])) // it says from which file
            san.from = file_squares(*text++ - 'a');
        else if (is_rank(*text)) // or from which rank
            san.from = rank_squares(*text++ - '1');
        if (*text == 'x') {
            san.takes = true;
            ++text;
        }
    }
    if (!is_file(text[0]) || !is_rank(text[1])) return nullptr;
    san.target = square_at(text[0] - 'a', text[1] - '1');
    text += 2;
    return *text == '+' || *text == '#' ? text + 1 : text;
}

/// The legal move that is meant; null when it is none, or not just of this kind: `find_san` then tells.
[[nodiscard]] inline Move find_plain(const Position& position, const PlainSan& san) noexcept {
    const Side mover = position.mover();
    const Squares occupied = position.occupied();
    if (position.men(mover).has(san.target) || occupied.has(san.target) != san.takes) return {};
    Squares origins = position.men(mover, san.kind) & san.from;
    MoveType type = MoveType::plain;
    if (san.kind != Kind::pawn) {
        origins &= attacks_of({mover, san.kind}, san.target, occupied);
    } else if (rank_for(mover, san.target) == 0 || rank_for(mover, san.target) == 7) {
        return {};
    } else if (san.takes) {
        origins &= pawn_attacks(other(mover), san.target);
    } else {
        Square origin = square_at(index(san.target) - advance_of(mover));
        if (!occupied.has(origin)) {
            if (rank_for(mover, san.target) != 3) return {};
            origin = square_at(index(origin) - advance_of(mover));
            type = MoveType::double_step;
        }
        origins &= Squares{origin};
    }
    Move found;
    for (const Square origin : origins)
        if (keeps_king_safe(position, origin, san.target)) {
            if (found) return {};
            found = {origin, san.target, type};
        }
    return found;
}

[[nodiscard]] inline Result<Move> as_result(const FoundMove& found, std::string_view text) {
    if (found.reason == Reason::none) return found.move;
    return InputError{found.reason, Field::move, found.at + 1, text};
}

} // namespace detail

inline void write_san(const Position& position, Move move, std::string& text) {
    if (!move) {
        text += "--";
        return;
    }
    const Square origin = move.origin();
    const Square target = move.target();
    const Kind kind = position.kind_at(origin);
    const bool takes = captured_by(position, move) != Kind::none;
    if (move.castles()) {
        text += move.type() == MoveType::castle_short ? "O-O" : "O-O-O";
    } else if (kind == Kind::pawn) {
        if (takes) text += name(origin)[0];
    } else {
        text += letter(kind);
        Squares rivals;
        for (const Square rival : detail::men_reaching(position, kind, target).without(origin))
            if (detail::keeps_king_safe(position, rival, target)) rivals |= Squares{rival};
        const bool shares_file = !(rivals & file_squares(file_of(origin))).empty();
        const bool shares_rank = !(rivals & rank_squares(rank_of(origin))).empty();
        if (rivals && (!shares_file || shares_rank)) text += name(origin)[0];
        if (shares_file) text += name(origin)[1];
    }
    if (!move.castles()) {
        if (takes) text += 'x';
        text += name(target);
    }
    if (move.promotes()) {
        text += '=';
        text += letter(move.promotion());
    }
    const Position next = after(position, move);
    if (in_check(next)) text += has_legal_move(next) ? '+' : '#';
}

inline std::string numbered_san(const Position& position, Move move) {
    return std::to_string(position.move_number()) + (position.mover() == Side::white ? "." : "...") +
           san(position, move);
}

inline std::string san(const Position& position, Move move) {
    std::string text;
    write_san(position, move, text);
    return text;
}

inline Result<Move> read_san(const Position& position, std::string_view text) {
    return detail::as_result(detail::find_san(position, text), text);
}

} // namespace keysquare
