// Trapped pieces: attacked, or about to be, with nowhere to go.
#pragma once

#include <keysquare/features/piece_safety.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `trapped_piece`, for both sides: a knight, bishop, rook or queen X of the other side that falls where it
/// stands and wherever it goes: for each of its legal moves, `exchange` on the square where it arrives wins at least
/// `least_gain` more than that move took.
/// - `attackable`: X does not fall now (by `exchange`); a move that gives no check attacks it with the moved man, or
///   with another one that did not attack it before, so that `exchange` on its square would win with another move at
///   once, X is trapped in the position after the move, and the move wins (`WinningMoves`) without mating. line and
///   gain = that move and the best replies; the move that wins most, one finding a piece.
/// - `attacked_already`: the other side is to move, `exchange` on the square of X wins with the move handed over, X is
///   trapped, and whatever the other side plays, it loses something (`JudgedMoves::best`). line and gain = the capture
///   and the best replies (`safety_of`), after the pass.
/// pieces = X, then the man that moves first in the line, where it stands now; squares = where X could go (after that
/// move, if X is `attackable`); number: moves (how many squares these are).
void find_trapped_pieces(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Whether every legal move of the man on `square` loses it; its owner is to move. `to` collects where it could go.
inline bool has_no_safe_move(const Position& position, Square square, const Options& options, Squares& to) noexcept {
    to = {};
    for (const Move move : legal_moves(position)) {
        if (move.origin() != square) continue;
        const int least = immediate_gain(position, move, options.values) + options.least_gain;
        if (!exchange_wins(after(position, move), move.target(), least, options.values)) return false;
        to |= Squares{move.target()};
    }
    return true;
}

inline void show_trapped(const BoardView& view, Square trapped, Square attacker, Squares to, Finding& finding) {
    for (const Square square : {trapped, attacker})
        finding.pieces.push_back({square, view.position().piece_at(square)});
    finding.squares = to;
    finding.count(Measure::moves, to.count());
}

inline void add_if_attackable(const BoardView& view, Side side, Square piece, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Options& options = view.options();
    const Outcome* best = nullptr;
    Squares escapes;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.castles() || move.target() == piece || !adds_attacker(position, move, piece)) continue;
        if (winning.finder().gives_check(move)) continue;
        const Position moved = after(position, move);
        Squares to;
        if (!exchange_wins(turned(moved), piece, options.least_gain, options.values) ||
            !has_no_safe_move(moved, piece, options, to))
            continue;
        const Outcome* outcome = winning.win(at, Squares{piece});
        if (!outcome || outcome->mate || (best && !is_better(*outcome, *best))) continue;
        best = outcome;
        escapes = to;
    }
    if (!best) return;
    Finding& finding =
        findings.emplace_back(winning_finding(view, Theme::trapped_piece, Detail::attackable, side, *best));
    show_trapped(view, piece, best->line.front().origin(), escapes, finding);
}

inline void add_if_attacked(const BoardView& view, Side side, Square piece, Findings& findings) {
    Squares to;
    if (view.judged(other(side)).best() > -view.options().least_gain) return;
    if (!has_no_safe_move(view.position(), piece, view.options(), to)) return;
    const SafetyOfMan safety = view.safety(piece);
    if (safety.safety != Safety::hanging || safety.capture.mate) return;
    Finding& finding = findings.emplace_back(
        winning_finding(view, Theme::trapped_piece, Detail::attacked_already, side, safety.capture));
    show_trapped(view, piece, safety.capture.line.front().origin(), to, finding);
}

} // namespace detail

inline void find_trapped_pieces(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    const Options& options = view.options();
    for (const Side side : all_sides) {
        const Turn& turn = view.turn(side);
        if (!turn.exists) continue;
        for (const Square piece : position.men(other(side)) & ~(position.men(Kind::pawn) | position.men(Kind::king))) {
            const bool falls = exchange_wins(turn.position, piece, options.least_gain, options.values);
            if (!falls)
                detail::add_if_attackable(view, side, piece, findings);
            else if (turn.after_pass)
                detail::add_if_attacked(view, side, piece, findings);
        }
    }
}

} // namespace keysquare
