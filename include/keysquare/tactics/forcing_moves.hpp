// Forcing moves: captures and checks, found without making a list of all legal moves.
#pragma once

#include <keysquare/board/legal.hpp>

namespace keysquare {

/// Stands for a `CheckFinder` where checks are not asked for.
struct NoChecks {
    /// No move gives check.
    [[nodiscard]] static constexpr Squares checking(Square, Squares) noexcept { return {}; }
    /// No square does.
    [[nodiscard]] static constexpr Squares reach() noexcept { return {}; }
};

/// Hands to `receiver` the legal moves that arrive in `always`, or that arrive in `with_check` and give check, apart
/// from promotions, en passant and castling. The mover must not be in check. O(men of the mover), in a fixed order.
template <class Finder, MoveReceiver Receiver>
void each_forcing_move(const Position& position, const Limits& limits, const Finder& finder, Squares always,
                       Squares with_check, Receiver&& receiver);

/// Hands the legal promotions to `receiver`.
template <MoveReceiver Receiver>
void each_promotion(const Position& position, const Limits& limits, Receiver&& receiver);

/// All legal moves that give check, in a fixed order.
[[nodiscard]] MoveList checking_moves(const Position& position) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The moves of pawns by `step` to `targets`; `pawns` says which of them may be on their way there.
template <MoveReceiver Receiver, class Wanted>
void each_forcing_pawn_move(const Limits& limits, Squares targets, int step, MoveType type, Wanted wanted,
                            Receiver& receiver) {
    for (const Square target : targets) {
        const Square from = square_at(index(target) - step);
        if (!wanted(from, Squares{target})) continue;
        if (limits.pinned.has(from) && !line_through(limits.king, from).has(target)) continue;
        receiver.pawns(Squares{target}, step, type);
    }
}

} // namespace detail

template <class Finder, MoveReceiver Receiver>
void each_forcing_move(const Position& position, const Limits& limits, const Finder& finder, Squares always,
                       Squares with_check, Receiver&& receiver) {
    const Side side = position.mover();
    const Squares own = position.men(side);
    const Squares occupied = position.occupied();
    with_check &= finder.reach();
    const Squares wanted = (always | with_check) & ~own;
    if (!wanted) return;
    const auto wanted_of = [&](Square from, Squares targets) {
        return (targets & always) | finder.checking(from, targets & with_check);
    };

    const int advance = advance_of(side);
    const Squares pawns = own & position.men(Kind::pawn) & ~rank_squares(side == Side::white ? 6 : 1);
    const Squares single = pawns.moved(advance) & ~occupied;
    const Squares leaps = single.moved(advance) & ~occupied & rank_squares(side == Side::white ? 3 : 4);
    const auto pawn_moves = [&](Squares targets, int step, MoveType type) {
        detail::each_forcing_pawn_move(limits, targets & wanted, step, type, wanted_of, receiver);
    };
    pawn_moves((pawns & ~file_squares(0)).moved(advance - 1) & occupied, advance - 1, MoveType::plain);
    pawn_moves((pawns & ~file_squares(7)).moved(advance + 1) & occupied, advance + 1, MoveType::plain);
    pawn_moves(single, advance, MoveType::plain);
    pawn_moves(leaps, 2 * advance, MoveType::double_step);

    const auto piece_moves = [&](Square from, Squares attacks) {
        Squares targets = attacks & wanted;
        if (targets) targets = wanted_of(from, targets);
        if (limits.pinned.has(from)) targets &= line_through(limits.king, from);
        if (targets) receiver.piece(from, targets);
    };
    for (const Square from : own& position.men(Kind::knight)) piece_moves(from, knight_attacks(from));
    const Squares queens = own & position.men(Kind::queen);
    for (const Square from : (own & position.men(Kind::bishop)) | queens)
        if (bishop_lines(from) & wanted) piece_moves(from, bishop_attacks(from, occupied));
    for (const Square from : (own & position.men(Kind::rook)) | queens)
        if (rook_lines(from) & wanted) piece_moves(from, rook_attacks(from, occupied));
    if (Squares targets = king_attacks(limits.king) & wanted; targets && (targets = wanted_of(limits.king, targets)))
        if (targets &= ~detail::dangerous(position, targets)) receiver.piece(limits.king, targets);
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
        each_forcing_move(position, limits, finder, {}, all_squares, detail::ListReceiver{checks});
        each_promotion(position, limits, detail::ListReceiver{others});
        detail::each_en_passant(position, limits, all_squares, detail::ListReceiver{others});
        detail::each_castling(position, limits, all_squares, detail::ListReceiver{others});
    }
    for (const Move move : others)
        if (finder.gives_check(move)) checks.push_back(move);
    return checks;
}

} // namespace keysquare
