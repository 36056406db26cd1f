// What the tactical themes share: how a winning move becomes a finding, and what a man threatens.
#pragma once

#include <keysquare/features/board_view.hpp>
#include <keysquare/features/finding_parts.hpp>

namespace keysquare::detail {

/// A finding of `theme` that wins what `outcome` says.
inline Finding winning_finding(const BoardView& view, Theme theme, Detail detail, Side side, const Outcome& outcome) {
    Finding finding;
    finding.theme = theme;
    finding.detail = detail;
    finding.side = side;
    finding.after_pass = view.turn(side).after_pass;
    finding.gain = outcome.gain;
    finding.mate = outcome.mate;
    finding.line = outcome.line;
    return finding;
}

/// The men of the other side that `attacker`, attacking from `from` with these squares occupied, threatens as far as a
/// look at the board tells: the king, a man worth more than the attacker, or one that none of its own side guards. The
/// king is worth more than any man, so as an attacker it threatens only what nobody guards. What stands on `from` or on
/// `arrival`, where the man that moved has arrived, has been taken and guards nothing.
inline Squares threatened_from(const Position& position, Piece attacker, Square from, Squares occupied,
                               const Values& values, Square arrival) noexcept {
    const Side enemy = other(attacker.side);
    Squares threatened;
    for (const Square target : attacks_of(attacker, from, occupied) & position.men(enemy) & occupied) {
        const Kind kind = position.kind_at(target);
        const bool worth_more = attacker.kind != Kind::king && values[kind] > values[attacker.kind];
        const bool counts =
            kind == Kind::king || worth_more ||
            !(attackers_of(position, target, enemy, occupied) & occupied).without(from).without(arrival);
        if (counts) threatened |= Squares{target};
    }
    return threatened;
}

/// The man that a move brings to its target.
inline Piece arriving_man(const Position& position, Move move) noexcept {
    return {position.mover(), move.promotes() ? move.promotion() : position.kind_at(move.origin())};
}

/// Whether the move takes or promotes.
inline bool takes(const Position& position, Move move) noexcept {
    return captured_by(position, move) != Kind::none || move.promotes();
}

/// The squares that are occupied after the move, castling apart.
inline Squares occupied_after(const Position& position, Move move) noexcept {
    Squares occupied = position.occupied().without(move.origin()).with(move.target());
    if (move.type() == MoveType::en_passant)
        occupied = occupied.without(square_at(index(move.target()) - advance_of(position.mover())));
    return occupied;
}

/// Whether the mover attacks `target` after the move with the man that moved, or with another one that did not attack
/// it before.
inline bool adds_attacker(const Position& position, Move move, Square target) noexcept {
    const Side side = position.mover();
    const Squares occupied = occupied_after(position, move);
    if (attacks_of(arriving_man(position, move), move.target(), occupied).has(target)) return true;
    const Squares before = attackers_of(position, target, side);
    return ((attackers_of(position, target, side, occupied) & occupied & ~before).without(move.origin())).bits() != 0;
}

} // namespace keysquare::detail
