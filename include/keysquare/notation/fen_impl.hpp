// Bodies of notation/fen.hpp.
#pragma once

#include <keysquare/notation/fen.hpp>

namespace keysquare {

namespace detail {

/// Cuts a text into fields at spaces and remembers where each began.
class FieldCutter {
  public:
    explicit FieldCutter(std::string_view text) noexcept : text_(text) {}

    std::string_view next() noexcept {
        skip_spaces();
        start_ = at_;
        while (at_ < text_.size() && !is_space(text_[at_])) ++at_;
        return text_.substr(start_, at_ - start_);
    }
    [[nodiscard]] std::size_t column() const noexcept { return start_ + 1; }
    [[nodiscard]] std::size_t offset() const noexcept { return at_; }

  private:
    static bool is_space(char c) noexcept { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }
    void skip_spaces() noexcept {
        while (at_ < text_.size() && is_space(text_[at_])) ++at_;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::size_t start_ = 0;
};

inline InputError read_placement(std::string_view text, std::size_t column, PositionParts& parts) {
    const auto error = [&](Reason reason, std::size_t at) {
        return InputError{reason, Field::placement, column + at, text.substr((std::min)(at, text.size()), 1)};
    };
    int rank = 7;
    int file = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '/') {
            if (file != 8) return error(Reason::bad_rank_length, at);
            if (rank == 0) return error(Reason::bad_rank_count, at);
            --rank;
            file = 0;
        } else if (c >= '1' && c <= '8') {
            file += c - '0';
            if (file > 8) return error(Reason::bad_rank_length, at);
        } else {
            const bool black = c >= 'a' && c <= 'z';
            const Kind kind = kind_of_letter(black ? static_cast<char>(c - 'a' + 'A') : c);
            if (kind == Kind::none) return error(Reason::bad_piece_letter, at);
            if (file == 8) return error(Reason::bad_rank_length, at);
            parts.pieces[static_cast<std::size_t>(square_at(file, rank))] = {black ? Side::black : Side::white, kind};
            ++file;
        }
    }
    if (file != 8) return error(Reason::bad_rank_length, text.size());
    if (rank != 0) return error(Reason::bad_rank_count, text.size());
    return {};
}

/// The rook that a castling letter means, or `Square::none`. K and Q mean the outermost rook beyond the king.
inline Square rook_meant_by(char upper, Side side, const PositionParts& parts) noexcept {
    const int rank = side == Side::white ? 0 : 7;
    const auto piece_on = [&](int file) { return parts.pieces[static_cast<std::size_t>(square_at(file, rank))]; };
    int king = -1;
    for (int file = 0; file < 8; ++file)
        if (piece_on(file) == Piece{side, Kind::king}) king = file;
    if (king < 0) return Square::none;
    const Piece rook{side, Kind::rook};
    if (upper == 'K') {
        for (int file = 7; file > king; --file)
            if (piece_on(file) == rook) return square_at(file, rank);
    } else if (upper == 'Q') {
        for (int file = 0; file < king; ++file)
            if (piece_on(file) == rook) return square_at(file, rank);
    } else if (const int file = upper - 'A'; piece_on(file) == rook) {
        return square_at(file, rank);
    }
    return Square::none;
}

inline InputError read_castling(std::string_view text, std::size_t column, Strictness strictness,
                                PositionParts& parts) {
    if (text == "-") return {};
    if (text.empty()) return {Reason::missing_field, Field::castling, column, text};
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        const bool black = c >= 'a' && c <= 'z';
        const char upper = black ? static_cast<char>(c - 'a' + 'A') : c;
        if (upper != 'K' && upper != 'Q' && (upper < 'A' || upper > 'H'))
            return {Reason::bad_castling, Field::castling, column + at, text.substr(at, 1)};
        const Side side = black ? Side::black : Side::white;
        const Square rook = rook_meant_by(upper, side, parts);
        if (rook == Square::none) {
            if (strictness == Strictness::lenient) continue;
            return {Reason::impossible_castling, Field::castling, column + at, text.substr(at, 1)};
        }
        bool king_is_left = false;
        for (int file = 0; file < file_of(rook); ++file)
            king_is_left |=
                parts.pieces[static_cast<std::size_t>(square_at(file, rank_of(rook)))] == Piece{side, Kind::king};
        Square& right = parts.castling_rooks[index(side)][index(king_is_left ? Wing::short_ : Wing::long_)];
        if (right != Square::none) return {Reason::bad_castling, Field::castling, column + at, text.substr(at, 1)};
        right = rook;
    }
    return {};
}

inline InputError read_number(std::string_view text, std::size_t column, Field field, std::uint16_t& number) {
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (code != std::errc{} || end != text.data() + text.size()) return {Reason::bad_number, field, column, text};
    return {};
}

/// Where in a FEN a fault of the position shows: the field, and the column where it is a single character.
inline InputError as_input_error(const FaultyPosition& faulty, std::string_view placement, std::size_t placement_column,
                                 std::size_t castling_column, std::size_t en_passant_column) {
    const auto reason = static_cast<Reason>(static_cast<int>(Reason::no_king) + static_cast<int>(faulty.fault));
    static_assert(static_cast<int>(Reason::impossible_en_passant) - static_cast<int>(Reason::no_king) ==
                  static_cast<int>(PositionFault::impossible_en_passant));
    if (faulty.fault == PositionFault::impossible_castling) return {reason, Field::castling, castling_column, {}};
    if (faulty.fault == PositionFault::impossible_en_passant)
        return {reason, Field::en_passant, en_passant_column, name(faulty.square)};
    if (faulty.square == Square::none) return {reason, Field::placement, placement_column, {}};
    int rank = 7;
    int file = 0;
    for (std::size_t at = 0; at < placement.size(); ++at) {
        if (rank == rank_of(faulty.square) && file == file_of(faulty.square))
            return {reason, Field::placement, placement_column + at, name(faulty.square)};
        const char c = placement[at];
        if (c == '/') {
            --rank;
            file = 0;
        } else {
            file += c >= '1' && c <= '8' ? c - '0' : 1;
        }
    }
    return {reason, Field::placement, placement_column, name(faulty.square)};
}

/// Drops the rights and the en passant square that the men on the board do not bear out.
inline void drop_impossible(PositionParts& parts) {
    const Position as_read{parts};
    for (const Side side : all_sides)
        for (const Wing wing : all_wings)
            if (as_read.castling_rook(side, wing) != Square::none && !is_possible_right(as_read, side, wing))
                parts.castling_rooks[index(side)][index(wing)] = Square::none;
    if (parts.en_passant != Square::none && !is_possible_en_passant(as_read, parts.en_passant))
        parts.en_passant = Square::none;
}

inline Result<Position> read_fields(FieldCutter& fields, Strictness strictness, bool with_clocks) {
    PositionParts parts;
    const std::string_view placement = fields.next();
    const std::size_t placement_column = fields.column();
    if (placement.empty()) return InputError{Reason::missing_field, Field::placement, placement_column, {}};
    if (InputError error = read_placement(placement, placement_column, parts); error.reason != Reason::none)
        return error;

    // Kings first: everything else asks where they stand.
    for (const Side side : all_sides) {
        const Piece king{side, Kind::king};
        const int kings = detail::count_if(parts.pieces, [&](Piece piece) { return piece == king; });
        if (kings != 1)
            return InputError{
                kings == 0 ? Reason::no_king : Reason::several_kings, Field::placement, placement_column, {}};
    }

    const std::string_view mover = fields.next();
    if (mover.empty()) return InputError{Reason::missing_field, Field::mover, fields.column(), {}};
    if (mover != "w" && mover != "b") return InputError{Reason::bad_mover, Field::mover, fields.column(), mover};
    parts.mover = mover == "w" ? Side::white : Side::black;

    const std::string_view castling = fields.next();
    const std::size_t castling_column = fields.column();
    if (InputError error = read_castling(castling, castling_column, strictness, parts); error.reason != Reason::none)
        return error;

    const std::string_view en_passant = fields.next();
    const std::size_t en_passant_column = fields.column();
    if (en_passant.empty()) return InputError{Reason::missing_field, Field::en_passant, en_passant_column, {}};
    if (en_passant != "-") {
        parts.en_passant = square_named(en_passant);
        if (parts.en_passant == Square::none)
            return InputError{Reason::bad_en_passant, Field::en_passant, en_passant_column, en_passant};
        if (rank_for(parts.mover, parts.en_passant) != 5) {
            if (strictness == Strictness::strict)
                return InputError{Reason::impossible_en_passant, Field::en_passant, en_passant_column, en_passant};
            parts.en_passant = Square::none;
        }
    }
    if (with_clocks) {
        if (const std::string_view clock = fields.next(); !clock.empty())
            if (InputError error = read_number(clock, fields.column(), Field::halfmove_clock, parts.halfmove_clock);
                error.reason != Reason::none)
                return error;
        if (const std::string_view number = fields.next(); !number.empty())
            if (InputError error = read_number(number, fields.column(), Field::move_number, parts.move_number);
                error.reason != Reason::none)
                return error;
        parts.move_number = (std::max)(parts.move_number, std::uint16_t{1}); // "0" is common in the wild
    }
    if (strictness == Strictness::lenient) drop_impossible(parts);
    const Position position{parts};
    if (const auto faulty =
            strictness == Strictness::strict ? fault_for_a_game(position) : fault_for_computing(position))
        return as_input_error(*faulty, placement, placement_column, castling_column, en_passant_column);
    return position;
}

} // namespace detail

inline Result<Position> read_fen_fields(std::string_view text, Strictness strictness, std::size_t& rest_at) {
    detail::FieldCutter fields{text};
    Result<Position> position = detail::read_fields(fields, strictness, false);
    rest_at = fields.offset();
    return position;
}

inline Result<Position> read_fen(std::string_view text, Strictness strictness) {
    detail::FieldCutter fields{text};
    Result<Position> position = detail::read_fields(fields, strictness, true);
    if (!position) return position;
    if (const std::string_view rest = fields.next(); !rest.empty())
        return InputError{Reason::trailing_text, Field::none, fields.column(), rest};
    return position;
}

namespace detail {

inline void write_castling(const Position& position, std::string& text) {
    const std::size_t before = text.size();
    for (const Side side : all_sides)
        for (const Wing wing : all_wings) {
            const Square rook = position.castling_rook(side, wing);
            if (rook == Square::none) continue;
            const bool outermost = [&] {
                const int step = wing == Wing::short_ ? 1 : -1;
                for (int file = file_of(rook) + step; file >= 0 && file < 8; file += step)
                    if (position.piece_at(square_at(file, rank_of(rook))) == Piece{side, Kind::rook}) return false;
                return true;
            }();
            const char upper = !outermost ? static_cast<char>('A' + file_of(rook)) : wing == Wing::short_ ? 'K' : 'Q';
            text += side == Side::white ? upper : static_cast<char>(upper - 'A' + 'a');
        }
    if (text.size() == before) text += '-';
}

} // namespace detail

inline std::string fen(const Position& position) {
    std::string text;
    text.reserve(80);
    for (int rank = 7; rank >= 0; --rank) {
        int empty = 0;
        for (int file = 0; file < 8; ++file) {
            const Piece piece = position.piece_at(square_at(file, rank));
            if (piece) {
                if (empty > 0) text += static_cast<char>('0' + empty);
                empty = 0;
                text += letter(piece);
            } else {
                ++empty;
            }
        }
        if (empty > 0) text += static_cast<char>('0' + empty);
        if (rank > 0) text += '/';
    }
    text += position.mover() == Side::white ? " w " : " b ";
    detail::write_castling(position, text);
    text += ' ';
    text += name(position.en_passant());
    text += ' ';
    text += std::to_string(position.halfmove_clock());
    text += ' ';
    text += std::to_string(position.move_number());
    return text;
}

} // namespace keysquare
