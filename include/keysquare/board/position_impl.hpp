// Bodies of board/position.hpp: keys, and the one way a position changes.
#pragma once

#include <keysquare/board/position.hpp>

namespace keysquare {

namespace detail {

/// The random numbers behind `Position::key()`, made by SplitMix64 (S. Vigna, public domain) from a fixed seed.
struct Keys {
    std::array<std::array<std::uint64_t, 64>, 16> man{}; // by code of the man
    std::array<std::array<std::uint64_t, 8>, 2> right{}; // by side and file of the rook
    std::array<std::uint64_t, 8> en_passant{};           // by file
    std::uint64_t black_moves = 0;
};

constexpr Keys make_keys() noexcept {
    std::uint64_t state = 0x6b65797371756172; // "keysquar"
    const auto next = [&state] {
        std::uint64_t z = state += 0x9e3779b97f4a7c15;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
        z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
        return z ^ (z >> 31);
    };
    Keys keys;
    for (auto& squares : keys.man)
        for (auto& key : squares) key = next();
    for (auto& files : keys.right)
        for (auto& key : files) key = next();
    for (auto& key : keys.en_passant) key = next();
    keys.black_moves = next();
    return keys;
}

inline constexpr Keys keys = make_keys();

/// Where the rook arrives in a castling.
[[nodiscard]] inline Square castled_rook(Move castling) noexcept {
    return square_at(castling.type() == MoveType::castle_short ? 5 : 3, rank_of(castling.raw_target()));
}

/// Whether the mover has a legal en passant capture on `square`.
[[nodiscard]] inline bool en_passant_is_legal(const Position& position, Square square) noexcept {
    const Side mover = position.mover();
    const Square victim = square_at(index(square) - advance_of(mover));
    const Square king = position.king(mover);
    for (const Square pawn : pawn_attacks(other(mover), square) & position.men(mover, Kind::pawn)) {
        const Squares occupied = position.occupied().without(pawn).without(victim).with(square);
        if (!(attackers_of(position, king, other(mover), occupied).without(victim))) return true;
    }
    return false;
}

} // namespace detail

inline Position::Position(const PositionParts& parts) noexcept {
    for (int at = 0; at < 64; ++at)
        if (const Piece piece = parts.pieces[static_cast<std::size_t>(at)]) put(square_at(at), piece);
    for (const Side side : all_sides)
        for (const Wing wing : all_wings)
            if (const Square rook = parts.castling_rooks[index(side)][index(wing)]; rook != Square::none)
                give_right(side, wing, rook);
    if (parts.mover == Side::black) flip_mover();
    if (parts.en_passant != Square::none) set_en_passant(parts.en_passant);
    halfmove_clock_ = parts.halfmove_clock;
    move_number_ = parts.move_number;
}

inline PositionParts Position::parts() const noexcept {
    PositionParts parts;
    for (const Square square : occupied()) parts.pieces[static_cast<std::size_t>(square)] = piece_at(square);
    parts.mover = mover_;
    parts.castling_rooks = castling_rooks_;
    parts.en_passant = en_passant_;
    parts.halfmove_clock = halfmove_clock_;
    parts.move_number = move_number_;
    return parts;
}

inline void Position::put(Square square, Piece piece) noexcept {
    const auto code = static_cast<std::uint8_t>(index(piece.kind) | index(piece.side) << 3);
    const Squares bit{std::uint64_t{1} << index(square)};
    by_kind_[index(piece.kind)] |= bit;
    by_side_[index(piece.side)] |= bit;
    codes_[static_cast<std::size_t>(square)] = code;
    key_ ^= detail::keys.man[code][static_cast<std::size_t>(square)];
}

inline void Position::take(Square square) noexcept {
    const std::uint8_t code = codes_[static_cast<std::size_t>(square)];
    const Squares bit{std::uint64_t{1} << index(square)};
    by_kind_[code & 7U] ^= bit;
    by_side_[code >> 3U] ^= bit;
    codes_[static_cast<std::size_t>(square)] = no_piece;
    key_ ^= detail::keys.man[code][static_cast<std::size_t>(square)];
}

inline void Position::give_right(Side side, Wing wing, Square rook) noexcept {
    castling_rooks_[index(side)][index(wing)] = rook;
    key_ ^= detail::keys.right[index(side)][static_cast<std::size_t>(file_of(rook))];
}

inline void Position::drop_right(Side side, Wing wing) noexcept {
    Square& rook = castling_rooks_[index(side)][index(wing)];
    if (rook == Square::none) return;
    key_ ^= detail::keys.right[index(side)][static_cast<std::size_t>(file_of(rook))];
    rook = Square::none;
}

inline void Position::flip_mover() noexcept {
    mover_ = other(mover_);
    key_ ^= detail::keys.black_moves;
}

inline void Position::set_en_passant(Square square) noexcept {
    en_passant_ = square;
    en_passant_in_key_ = men(mover_, Kind::king) && detail::en_passant_is_legal(*this, square);
    if (en_passant_in_key_) key_ ^= detail::keys.en_passant[static_cast<std::size_t>(file_of(square))];
}

inline void Position::clear_en_passant() noexcept {
    if (en_passant_in_key_) key_ ^= detail::keys.en_passant[static_cast<std::size_t>(file_of(en_passant_))];
    en_passant_ = Square::none;
    en_passant_in_key_ = false;
}

inline void Position::shift(Square from, Square to) noexcept {
    const std::uint8_t code = codes_[static_cast<std::size_t>(from)];
    const Squares both = Squares{from} | Squares{to};
    by_kind_[code & 7U] ^= both;
    by_side_[code >> 3U] ^= both;
    codes_[static_cast<std::size_t>(from)] = no_piece;
    codes_[static_cast<std::size_t>(to)] = code;
    const auto& keys = detail::keys.man[code];
    key_ ^= keys[static_cast<std::size_t>(from)] ^ keys[static_cast<std::size_t>(to)];
}

inline void Position::castle(Move move, Side side) noexcept {
    take(move.origin());
    take(move.raw_target());
    put(move.target(), {side, Kind::king});
    put(detail::castled_rook(move), {side, Kind::rook});
}

inline void Position::drop_rights(Side side, Square origin, Square target) noexcept {
    if (castling_rooks_ == no_rights) return;
    for (const Wing wing : all_wings) {
        if (castling_rook(side, wing) == origin || kind_at(target) == Kind::king) drop_right(side, wing);
        if (castling_rook(other(side), wing) == target) drop_right(other(side), wing);
    }
}

inline Position after(const Position& before, Move move) noexcept {
    Position next = before;
    const Side side = before.mover();
    const Square origin = move.origin();
    const Square target = move.raw_target();
    bool irreversible = before.kind_at(origin) == Kind::pawn;

    if (before.en_passant_ != Square::none) next.clear_en_passant();
    if (move.castles()) {
        next.castle(move, side);
        for (const Wing wing : all_wings) next.drop_right(side, wing);
    } else {
        const Square victim =
            move.type() == MoveType::en_passant ? square_at(index(target) - advance_of(side)) : target;
        if (before.kind_at(victim) != Kind::none) {
            next.take(victim);
            irreversible = true;
        }
        next.shift(origin, target);
        if (move.promotes()) {
            next.take(target);
            next.put(target, {side, move.promotion()});
        }
        next.drop_rights(side, origin, target);
    }

    const auto one_more = [](std::uint16_t number) { return static_cast<std::uint16_t>(number + (number < 0xFFFF)); };
    next.halfmove_clock_ = irreversible ? std::uint16_t{0} : one_more(before.halfmove_clock_);
    next.move_number_ = side == Side::black ? one_more(before.move_number_) : before.move_number_;
    next.flip_mover();
    if (move.type() == MoveType::double_step) next.set_en_passant(square_at((index(origin) + index(target)) / 2));
    return next;
}

inline Position turned(const Position& position) noexcept {
    Position next = position;
    next.clear_en_passant();
    if (next.halfmove_clock_ < 0xFFFF) ++next.halfmove_clock_;
    if (next.mover_ == Side::black && next.move_number_ < 0xFFFF) ++next.move_number_;
    next.flip_mover();
    return next;
}

} // namespace keysquare
