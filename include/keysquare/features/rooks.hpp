// What the rooks can really do: scope, files, the seventh rank, each other.
#pragma once

#include <keysquare/features/mobility.hpp>
#include <keysquare/features/pawn_structure.hpp>

namespace keysquare {

/// The mobility of every rook of one side.
using RookMobilities = BoundedList<Mobility, 10>;

/// The themes of the rooks of `side`, from their mobilities (common practice, no source, where no definition is
/// quoted):
///
/// - rook_scope, one a rook: squares = its `Mobility::scope()`; numbers: moves (legal), safe_moves.
/// - stuffed_rooks: every rook that has a legal move has no square in its scope, there is one with a move, and the
///   least bad of these moves loses. A warning; line = that move with its punishment; pieces = these rooks; squares
///   = where they could go; numbers: moves, rooks, least_loss.
/// - open_file, one a rook, the first that holds: `on_open_file`, `on_half_open_file`, `can_take_open_file`,
///   `can_take_half_open_file` (a square of its scope lies on such a file); squares = that file, or those squares.
/// - seventh_rank: a rook on its seventh rank while the other king stands on the eighth, or a pawn of the other
///   side on the seventh; squares = the rank.
/// - doubled_rooks: two rooks on a file, connected_rooks: on a rank, nothing between them; squares = between and on
/// them.
/// - entry_square: squares of its scope on the last three ranks, on an open or half-open file.
/// side = the rooks' side, pieces = the rooks.
void find_rook_themes(const BoardView& view, Side side, const RookMobilities& rooks, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline Finding rook_finding(Theme theme, Side side, const Mobility& rook, Squares squares,
                            Detail detail = Detail::none) {
    Finding finding;
    finding.theme = theme;
    finding.detail = detail;
    finding.side = side;
    finding.squares = squares;
    finding.pieces.push_back(rook.piece);
    return finding;
}

[[nodiscard]] inline int legal_count(const Mobility& mobility) noexcept {
    return count_if(mobility.destinations, [](const Destination& to) {
        return to.verdict != SquareVerdict::own_man && to.verdict != SquareVerdict::pinned &&
               to.verdict != SquareVerdict::unanswered_check;
    });
}

inline void add_scope(Side side, const Mobility& rook, Findings& findings) {
    Finding finding = rook_finding(Theme::rook_scope, side, rook, rook.scope());
    finding.count(Measure::moves, legal_count(rook));
    finding.count(Measure::safe_moves, rook.scope().count());
    findings.push_back(finding);
}

/// What the least bad move to one of these squares comes to; for a held square more may happen than the captures there.
inline Outcome least_bad_arrival(const BoardView& view, Side side, const Mobility& rook) {
    Outcome best;
    for (const Destination& to : rook.destinations) {
        if (to.outcome.line.empty()) continue;
        const bool held = to.verdict != SquareVerdict::gives_up_duty && to.verdict != SquareVerdict::denied_by_tactics;
        const Outcome outcome = held ? value_of_move(view.turn(side).position, to.outcome.line.front(),
                                                     view.options().bound, view.options().values)
                                     : to.outcome;
        if (!outcome.complete) return {};
        if (is_better(outcome, best)) best = outcome;
    }
    return best;
}

inline void add_if_stuffed(const BoardView& view, Side side, const RookMobilities& rooks, Findings& findings) {
    Finding finding;
    finding.theme = Theme::stuffed_rooks;
    Outcome least_bad;
    int moves = 0;
    for (const Mobility& rook : rooks) {
        const int legal = legal_count(rook);
        if (legal == 0) continue;
        if (rook.scope() || rook.squares(SquareVerdict::undecided)) return;
        const Outcome outcome = least_bad_arrival(view, side, rook);
        if (outcome.line.empty()) return;
        if (is_better(outcome, least_bad)) least_bad = outcome;
        moves += legal;
        if (finding.pieces.size() < finding.pieces.capacity()) finding.pieces.push_back(rook.piece);
        for (const Destination& to : rook.destinations)
            if (!to.outcome.line.empty()) finding.squares |= Squares{to.square};
    }
    const bool loses = !least_bad.line.empty() && (least_bad.mated || least_bad.gain < view.judged(side).baseline());
    if (!loses) return;
    set_warning(view, side, least_bad, finding);
    finding.count(Measure::rooks, static_cast<int>(finding.pieces.size()));
    finding.count(Measure::moves, moves);
    findings.push_back(finding);
}

inline void add_open_file(const PawnStructure& pawns, Side side, const Mobility& rook, Findings& findings) {
    const Squares file = file_squares(file_of(rook.piece.square));
    const Squares open = pawns.open_files;
    const Squares half_open = pawns.of(side).half_open_files;
    const Squares elsewhere = rook.scope() & ~file;
    const auto add = [&](Squares squares, Detail detail) {
        if (squares) findings.push_back(rook_finding(Theme::open_file, side, rook, squares, detail));
        return squares.bits() != 0;
    };
    (void)(add(open & file, Detail::on_open_file) || add(half_open & file, Detail::on_half_open_file) ||
           add(open & elsewhere, Detail::can_take_open_file) ||
           add(half_open & elsewhere, Detail::can_take_half_open_file));
}

inline void add_seventh_rank(const Position& position, Side side, const Mobility& rook, Findings& findings) {
    const Square square = rook.piece.square;
    if (rank_for(side, square) != 6) return;
    const Squares rank = rank_squares(rank_of(square));
    if (rank_for(side, position.king(other(side))) != 7 && !(position.men(other(side), Kind::pawn) & rank)) return;
    findings.push_back(rook_finding(Theme::seventh_rank, side, rook, rank));
}

inline void add_entry_squares(const PawnStructure& pawns, Side side, const Mobility& rook, Findings& findings) {
    Squares camp;
    for (int rank = 5; rank < 8; ++rank) camp |= rank_squares(side == Side::white ? rank : 7 - rank);
    if (const Squares entries = rook.scope() & camp & pawns.files_for(side))
        findings.push_back(rook_finding(Theme::entry_square, side, rook, entries));
}

inline void add_rook_pairs(const Position& position, Side side, const RookMobilities& rooks, Findings& findings) {
    for (const Mobility& first : rooks)
        for (const Mobility& second : rooks) {
            const Square a = first.piece.square;
            const Square b = second.piece.square;
            if (index(a) >= index(b) || !rook_attacks(a, position.occupied()).has(b)) continue;
            const Theme theme = file_of(a) == file_of(b) ? Theme::doubled_rooks : Theme::connected_rooks;
            Finding finding = rook_finding(theme, side, first, squares_between(a, b).with(a).with(b));
            finding.pieces.push_back(second.piece);
            findings.push_back(finding);
        }
}

} // namespace detail

inline void find_rook_themes(const BoardView& view, Side side, const RookMobilities& rooks, Findings& findings) {
    const Position& position = view.position();
    detail::add_rook_pairs(position, side, rooks, findings);
    for (const Mobility& rook : rooks) {
        detail::add_seventh_rank(position, side, rook, findings);
        detail::add_open_file(view.pawns(), side, rook, findings);
        if (!rook.known) continue;
        detail::add_scope(side, rook, findings);
        detail::add_entry_squares(view.pawns(), side, rook, findings);
    }
    if (!rooks.empty() && rooks.front().known) detail::add_if_stuffed(view, side, rooks, findings);
}

} // namespace keysquare
