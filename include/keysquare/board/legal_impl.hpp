// Bodies of board/legal.hpp.
#pragma once

#include <keysquare/board/legal.hpp>

namespace keysquare {

namespace detail {

/// Which of `squares` `side` attacks with the given squares occupied.
[[nodiscard]] inline Squares attacked_by(const Position& position, Side side, Squares occupied,
                                         Squares squares) noexcept {
    const Squares men = position.men(side);
    const Squares queens = men & position.men(Kind::queen);
    Squares attacked = pawn_attacks(side, men & position.men(Kind::pawn)) | king_attacks(position.king(side));
    for (const Square from : men& position.men(Kind::knight)) attacked |= knight_attacks(from);
    for (const Square from : (men & position.men(Kind::bishop)) | queens)
        if (bishop_lines(from) & squares) attacked |= bishop_attacks(from, occupied);
    for (const Square from : (men & position.men(Kind::rook)) | queens)
        if (rook_lines(from) & squares) attacked |= rook_attacks(from, occupied);
    return attacked & squares;
}

/// What the sliders of one side do on the lines through a king: those that attack it, and the men of either side that
/// stand alone between it and one of them.
struct SlidersOnKing {
    Squares attackers;
    Squares lone_blockers;
};

[[nodiscard]] inline SlidersOnKing sliders_on(const Position& position, Square king, Side attacker) noexcept {
    const Squares queens = position.men(Kind::queen);
    const Squares occupied = position.occupied();
    const Squares aligned = (rook_lines(king) & (position.men(Kind::rook) | queens)) |
                            (bishop_lines(king) & (position.men(Kind::bishop) | queens));
    SlidersOnKing found;
    for (const Square slider : aligned& position.men(attacker)) {
        const Squares men = squares_between(king, slider) & occupied;
        if (!men)
            found.attackers |= Squares{slider};
        else if (!men.several())
            found.lone_blockers |= men;
    }
    return found;
}

/// The men of either side that stand alone between `king` and a slider of `attacker`.
[[nodiscard]] inline Squares lone_blockers(const Position& position, Square king, Side attacker) noexcept {
    return sliders_on(position, king, attacker).lone_blockers;
}

/// Which of `squares` the waiter attacks when the mover's king is lifted off the board.
[[nodiscard]] inline Squares dangerous(const Position& position, Squares squares) noexcept {
    const Side waiter = position.waiter();
    const Squares occupied = position.occupied().without(position.king(position.mover()));
    if (squares.count() > 2)
        return attacked_by(position, waiter, occupied, squares); // one map is cheaper than many looks
    Squares danger;
    for (const Square square : squares)
        if (attackers_of(position, square, waiter, occupied)) danger |= Squares{square};
    return danger;
}

struct ListReceiver {
    MoveList& list;

    void piece(Square origin, Squares targets) {
        for (const Square target : targets) list.push_back(Move{origin, target});
    }
    void pawns(Squares targets, int step, MoveType type) {
        for (const Square target : targets) list.push_back(Move{square_at(index(target) - step), target, type});
    }
    void promotions(Squares targets, int step) {
        for (const Square target : targets)
            for (const Kind kind : promotion_kinds)
                list.push_back(Move{square_at(index(target) - step), target, promotion_to(kind)});
    }
    void single(Move move) { list.push_back(move); }
};

struct CountReceiver {
    int count = 0;

    void piece(Square, Squares targets) noexcept { count += targets.count(); }
    void pawns(Squares targets, int, MoveType) noexcept { count += targets.count(); }
    void promotions(Squares targets, int) noexcept { count += 4 * targets.count(); }
    void single(Move) noexcept { ++count; }
};

template <Side side, MoveReceiver Receiver>
KEYSQUARE_INLINED void each_pawn_step(Squares targets, int step, Receiver& receiver) {
    constexpr Squares last_rank = rank_squares(side == Side::white ? 7 : 0);
    if (const Squares plain = targets & ~last_rank) receiver.pawns(plain, step, MoveType::plain);
    if (const Squares promoting = targets & last_rank) receiver.promotions(promoting, step);
}

template <Side side, MoveReceiver Receiver>
void each_pawn_move_of(const Position& position, Squares pawns, Squares allowed, Receiver& receiver) {
    constexpr int advance = advance_of(side);
    constexpr Squares double_rank = rank_squares(side == Side::white ? 3 : 4);
    const Squares empty = ~position.occupied();
    const Squares enemies = position.men(other(side)) & allowed;
    const Squares single = pawns.moved(advance) & empty;
    each_pawn_step<side>(single & allowed, advance, receiver);
    if (const Squares targets = single.moved(advance) & empty & double_rank & allowed)
        receiver.pawns(targets, 2 * advance, MoveType::double_step);
    each_pawn_step<side>((pawns & ~file_squares(0)).moved(advance - 1) & enemies, advance - 1, receiver);
    each_pawn_step<side>((pawns & ~file_squares(7)).moved(advance + 1) & enemies, advance + 1, receiver);
}

/// Moves of a set of pawns that share one limit `allowed` on where they may arrive; en passant apart.
template <MoveReceiver Receiver>
void each_pawn_move(const Position& position, Squares pawns, Squares allowed, Receiver& receiver) {
    if (position.mover() == Side::white)
        each_pawn_move_of<Side::white>(position, pawns, allowed, receiver);
    else
        each_pawn_move_of<Side::black>(position, pawns, allowed, receiver);
}

/// The moves of a bishop, rook or queen to those of `targets` that a pin leaves it.
template <MoveReceiver Receiver>
KEYSQUARE_INLINED void each_slide(const Limits& limits, Square from, Squares targets, Receiver& receiver) {
    if (limits.pinned.has(from)) targets &= line_through(limits.king, from);
    if (targets) receiver.piece(from, targets);
}

template <MoveReceiver Receiver>
void each_en_passant(const Position& position, const Limits& limits, Squares wanted, Receiver&& receiver) {
    const Square target = position.en_passant();
    if (target == Square::none || !wanted.has(target)) return;
    const Side side = position.mover();
    const Square victim = square_at(index(target) - advance_of(side));
    for (const Square pawn : pawn_attacks(other(side), target) & position.men(side, Kind::pawn)) {
        const Squares occupied = position.occupied().without(pawn).without(victim).with(target);
        if (!attackers_of(position, limits.king, other(side), occupied).without(victim))
            receiver.single(Move{pawn, target, MoveType::en_passant});
    }
}

/// A castling whose way is free of men, and the squares that the king crosses and arrives on.
struct FreeCastling {
    Move move;
    Squares king_path;
};

/// What the mover's rights and the men between allow, whatever the waiter attacks.
[[nodiscard]] inline BoundedList<FreeCastling, 2> free_castlings(const Position& position, const Limits& limits,
                                                                 Squares wanted) noexcept {
    BoundedList<FreeCastling, 2> free;
    if (limits.checkers) return free;
    for (const Wing wing : all_wings) {
        const Square rook = position.castling_rook(position.mover(), wing);
        if (rook == Square::none) continue;
        const Move move{limits.king, rook, wing == Wing::short_ ? MoveType::castle_short : MoveType::castle_long};
        const Square king_target = move.target();
        if (!wanted.has(king_target)) continue;
        const Squares king_path = squares_between(limits.king, king_target).with(king_target);
        const Square rook_target = castled_rook(move);
        const Squares rook_path = squares_between(rook, rook_target).with(rook_target);
        const Squares others = position.occupied().without(limits.king).without(rook);
        if (!((king_path | rook_path) & others)) free.push_back({move, king_path});
    }
    return free;
}

/// Whether in Chess960 the rook has shielded the king's arrival square; at the edge it shields nothing.
[[nodiscard]] inline bool rook_shields(const Position& position, const FreeCastling& castling) noexcept {
    const Square rook = castling.move.raw_target();
    if (file_of(rook) == 0 || file_of(rook) == 7) return false;
    const Square king_target = castling.move.target();
    const Squares others = position.occupied().without(castling.move.origin()).without(rook);
    return attackers_of(position, king_target, position.waiter(),
                        others.with(king_target).with(castled_rook(castling.move)))
               .bits() != 0;
}

template <MoveReceiver Receiver>
void each_castling(const Position& position, const Limits& limits, Squares wanted, Receiver&& receiver) {
    if (!position.may_castle(position.mover())) return;
    for (const FreeCastling& castling : free_castlings(position, limits, wanted))
        if (!dangerous(position, castling.king_path) && !rook_shields(position, castling))
            receiver.single(castling.move);
}

/// Steps of the king, then castlings: one look at what is dangerous for both.
template <MoveReceiver Receiver>
void each_king_move(const Position& position, const Limits& limits, Squares wanted, Receiver& receiver) {
    const Squares steps = king_attacks(limits.king) & ~position.men(position.mover()) & wanted;
    const auto castlings = free_castlings(position, limits, wanted);
    Squares visited = steps;
    for (const FreeCastling& castling : castlings) visited |= castling.king_path;
    if (!visited) return;
    const Squares danger = dangerous(position, visited);
    if (const Squares targets = steps & ~danger) receiver.piece(limits.king, targets);
    for (const FreeCastling& castling : castlings)
        if (!(castling.king_path & danger) && !rook_shields(position, castling)) receiver.single(castling.move);
}

} // namespace detail

inline Limits::Limits(const Position& position) noexcept {
    const Side side = position.mover();
    king = position.king(side);
    const detail::SlidersOnKing sliders = detail::sliders_on(position, king, other(side));
    checkers = sliders.attackers | (position.men(other(side)) & ((pawn_attacks(side, king) & position.men(Kind::pawn)) |
                                                                 (knight_attacks(king) & position.men(Kind::knight)) |
                                                                 (king_attacks(king) & position.men(Kind::king))));
    pinned = sliders.lone_blockers & position.men(side);
    if (!checkers)
        answers = all_squares;
    else if (!checkers.several())
        answers = squares_between(king, checkers.first()) | checkers;
}

template <MoveReceiver Receiver>
void each_legal_move(const Position& position, const Limits& limits, Squares wanted, Receiver&& receiver) {
    const Side side = position.mover();
    const Squares own = position.men(side);
    const Squares occupied = position.occupied();
    const Squares allowed = limits.answers & ~own & wanted;

    if (allowed) {
        const Squares free = own & ~limits.pinned;
        detail::each_pawn_move(position, free & position.men(Kind::pawn), allowed, receiver);
        for (const Square pawn : limits.pinned& position.men(Kind::pawn))
            detail::each_pawn_move(position, Squares{pawn}, allowed & line_through(limits.king, pawn), receiver);
        for (const Square from : free& position.men(Kind::knight))
            if (const Squares targets = knight_attacks(from) & allowed) receiver.piece(from, targets);
        for (const Square from : own& position.men(Kind::bishop))
            if (bishop_lines(from) & allowed)
                detail::each_slide(limits, from, bishop_attacks(from, occupied) & allowed, receiver);
        for (const Square from : own& position.men(Kind::rook))
            if (rook_lines(from) & allowed)
                detail::each_slide(limits, from, rook_attacks(from, occupied) & allowed, receiver);
        for (const Square from : own& position.men(Kind::queen))
            if ((bishop_lines(from) | rook_lines(from)) & allowed)
                detail::each_slide(limits, from, queen_attacks(from, occupied) & allowed, receiver);
    }
    detail::each_en_passant(position, limits, wanted, receiver);
    detail::each_king_move(position, limits, wanted, receiver);
}

inline MoveList legal_moves(const Position& position, Squares wanted) noexcept {
    MoveList list;
    each_legal_move(position, Limits{position}, wanted, detail::ListReceiver{list});
    return list;
}
inline MoveList legal_moves(const Position& position) noexcept { return legal_moves(position, all_squares); }

inline int count_legal_moves(const Position& position) noexcept {
    detail::CountReceiver counter;
    each_legal_move(position, Limits{position}, all_squares, counter);
    return counter.count;
}
inline bool has_legal_move(const Position& position) noexcept {
    const Limits limits{position};
    detail::CountReceiver counter;
    for (const Squares wanted : {limits.answers, ~limits.answers}) {
        each_legal_move(position, limits, wanted, counter);
        if (counter.count > 0) return true;
    }
    return false;
}

inline bool is_legal(const Position& position, Move move) noexcept {
    const MoveList moves = legal_moves(position, Squares{move.target()});
    return detail::contains(moves, move);
}

inline Squares pinned_men(const Position& position, Side side) noexcept {
    return detail::lone_blockers(position, position.king(side), other(side)) & position.men(side);
}

inline Squares CheckFinder::reach(Kind kind) const noexcept {
    return discoverers_ & position_.men(kind) ? all_squares : direct_[index(kind)];
}

inline CheckFinder::CheckFinder(const Position& position) noexcept
    : position_(position), king_(position.king(position.waiter())) {
    const Squares occupied = position.occupied();
    direct_[index(Kind::pawn)] = pawn_attacks(position.waiter(), king_);
    direct_[index(Kind::knight)] = knight_attacks(king_);
    direct_[index(Kind::bishop)] = bishop_attacks(king_, occupied);
    direct_[index(Kind::rook)] = rook_attacks(king_, occupied);
    direct_[index(Kind::queen)] = direct_[index(Kind::bishop)] | direct_[index(Kind::rook)];
    discoverers_ = detail::lone_blockers(position, king_, position.mover()) & position.men(position.mover());
}

inline bool CheckFinder::gives_check(Move move) const noexcept {
    const Square origin = move.origin();
    if (move.castles() || move.promotes() || move.type() == MoveType::en_passant)
        return in_check(after(position_, move)); // these change more than one line; rare enough to look
    return checking(origin, Squares{move.raw_target()}).bits() != 0;
}

inline Squares CheckFinder::checking(Square origin, Squares targets) const noexcept {
    const Squares direct = targets & direct_[index(position_.kind_at(origin))];
    return discoverers_.has(origin) ? direct | (targets & ~line_through(king_, origin)) : direct;
}

} // namespace keysquare
