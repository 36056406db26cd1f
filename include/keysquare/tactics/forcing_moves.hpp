// Forcing moves: captures and checks, found without making a list of all legal moves.
#pragma once

#include <keysquare/board/legal.hpp>

namespace keysquare {

/// Hands the legal captures of the men on `victims` to `receiver`, apart from promotions and en passant. Preconditions:
/// the mover is not in check; on all of `victims` stand men of the other side. O(men of the mover), in a fixed order.
template <MoveReceiver Receiver>
void each_capture(const Position& position, const Limits& limits, Squares victims, Receiver&& receiver);

/// Hands the legal moves that arrive in `targets` and give check to `receiver`, apart from promotions, en passant and
/// castling. Precondition: the mover is not in check. O(men of the mover), in a fixed order.
template <MoveReceiver Receiver>
void each_check(const Position& position, const Limits& limits, const CheckFinder& finder, Squares targets,
                Receiver&& receiver);

/// Hands the legal promotions to `receiver`.
template <MoveReceiver Receiver>
void each_promotion(const Position& position, const Limits& limits, Receiver&& receiver);

/// All legal moves that give check, in a fixed order.
[[nodiscard]] MoveList checking_moves(const Position& position) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The mover's pawns whose next step is no promotion.
[[nodiscard]] inline Squares pawns_before_promotion(const Position& position) noexcept {
    return position.men(position.mover(), Kind::pawn) & ~rank_squares(position.mover() == Side::white ? 6 : 1);
}

} // namespace detail

template <MoveReceiver Receiver>
void each_capture(const Position& position, const Limits& limits, Squares victims, Receiver&& receiver) {
    if (!victims) return;
    const Squares own = position.men(position.mover());
    const Squares occupied = position.occupied();
    const auto moves = [&](Square from, Squares targets) {
        targets &= victims;
        if (limits.pinned.has(from)) targets &= line_through(limits.king, from);
        if (targets) receiver.piece(from, targets);
    };
    for (const Square from : detail::pawns_before_promotion(position) & pawn_attacks(position.waiter(), victims))
        moves(from, pawn_attacks(position.mover(), from));
    for (const Square from : own& position.men(Kind::knight)) moves(from, knight_attacks(from));
    const Squares queens = own & position.men(Kind::queen);
    for (const Square from : (own & position.men(Kind::bishop)) | queens)
        if (bishop_lines(from) & victims) moves(from, bishop_attacks(from, occupied));
    for (const Square from : (own & position.men(Kind::rook)) | queens)
        if (rook_lines(from) & victims) moves(from, rook_attacks(from, occupied));
    if (const Squares targets = king_attacks(limits.king) & victims)
        if (const Squares safe = targets & ~detail::dangerous(position, targets)) receiver.piece(limits.king, safe);
}

template <MoveReceiver Receiver>
void each_check(const Position& position, const Limits& limits, const CheckFinder& finder, Squares targets,
                Receiver&& receiver) {
    const Side side = position.mover();
    const Squares own = position.men(side);
    const Squares occupied = position.occupied();
    const auto wanted_by = [&](Kind kind) { return targets & finder.reach(kind) & ~own; };
    const auto checks = [&](Square from, Squares arrivals) {
        if (arrivals) arrivals = finder.checking(from, arrivals);
        if (limits.pinned.has(from)) arrivals &= line_through(limits.king, from);
        return arrivals;
    };

    if (const Squares wanted = wanted_by(Kind::pawn)) {
        const int advance = advance_of(side);
        const Squares pawns = detail::pawns_before_promotion(position);
        const Squares single = pawns.moved(advance) & ~occupied;
        const Squares leaps = single.moved(advance) & ~occupied & rank_squares(side == Side::white ? 3 : 4);
        const auto pawn_moves = [&](Squares arrivals, int step, MoveType type) {
            for (const Square target : arrivals& wanted)
                if (checks(square_at(index(target) - step), Squares{target}))
                    receiver.pawns(Squares{target}, step, type);
        };
        pawn_moves((pawns & ~file_squares(0)).moved(advance - 1) & occupied, advance - 1, MoveType::plain);
        pawn_moves((pawns & ~file_squares(7)).moved(advance + 1) & occupied, advance + 1, MoveType::plain);
        pawn_moves(single, advance, MoveType::plain);
        pawn_moves(leaps, 2 * advance, MoveType::double_step);
    }

    const auto piece_moves = [&](Square from, Squares arrivals) {
        if (const Squares checking = checks(from, arrivals)) receiver.piece(from, checking);
    };
    if (const Squares wanted = wanted_by(Kind::knight))
        for (const Square from : own& position.men(Kind::knight)) piece_moves(from, knight_attacks(from) & wanted);
    const Squares queens = own & position.men(Kind::queen);
    const Squares wanted_by_queens = queens ? wanted_by(Kind::queen) : Squares{};
    if (const Squares wanted = wanted_by(Kind::bishop) | wanted_by_queens)
        for (const Square from : (own & position.men(Kind::bishop)) | queens)
            if (bishop_lines(from) & wanted) piece_moves(from, bishop_attacks(from, occupied) & wanted);
    if (const Squares wanted = wanted_by(Kind::rook) | wanted_by_queens)
        for (const Square from : (own & position.men(Kind::rook)) | queens)
            if (rook_lines(from) & wanted) piece_moves(from, rook_attacks(from, occupied) & wanted);
    if (Squares steps = checks(limits.king, king_attacks(limits.king) & wanted_by(Kind::king)))
        if (steps &= ~detail::dangerous(position, steps)) receiver.piece(limits.king, steps);
}

namespace detail {

/// Hands on the promotions alone.
template <class Receiver> struct PromotionReceiver {
    Receiver& receiver;

    void piece(Square, Squares) {}
    void pawns(Squares, int, MoveType) {}
    void promotions(Squares targets, int step) { receiver.promotions(targets, step); }
    void single(Move) {}
};

} // namespace detail

template <MoveReceiver Receiver>
void each_promotion(const Position& position, const Limits& limits, Receiver&& receiver) {
    const bool white = position.mover() == Side::white;
    if (position.men(position.mover(), Kind::pawn) & rank_squares(white ? 6 : 1))
        each_legal_move(position, limits, rank_squares(white ? 7 : 0),
                        detail::PromotionReceiver<std::remove_reference_t<Receiver>>{receiver});
}

inline MoveList checking_moves(const Position& position) noexcept {
    const Limits limits{position};
    const CheckFinder finder{position};
    MoveList checks;
    MoveList others; // to be looked at one by one
    if (limits.checkers) {
        each_legal_move(position, limits, all_squares, detail::ListReceiver{others});
    } else {
        each_check(position, limits, finder, all_squares, detail::ListReceiver{checks});
        each_promotion(position, limits, detail::ListReceiver{others});
        detail::each_en_passant(position, limits, all_squares, detail::ListReceiver{others});
        detail::each_castling(position, limits, all_squares, detail::ListReceiver{others});
    }
    for (const Move move : others)
        if (finder.gives_check(move)) checks.push_back(move);
    return checks;
}

} // namespace keysquare
