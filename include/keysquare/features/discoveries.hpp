// Discoveries and batteries: two men of one side on a line.
#pragma once

#include <keysquare/features/alignments.hpp>
#include <keysquare/features/forks.hpp>

namespace keysquare {

/// Theme `discovered_attack`, for both sides: an alignment of a slider of `side`, a man of the same side in front of
/// it and a man of the other side behind.
/// - With line and gain: of the moves of the front man off the line after which the man behind is in check or, with
///   another move at once, would fall by `exchange`, the one that wins most (`WinningMoves`). detail, the first that
///   holds: `with_double_check` (by the slider and the moved man), `with_check` (by either; it is the slider's where
///   the man behind is the king), `with_capture`, `quiet`.
/// - With no gain where none wins, provided that the man behind is the king or worth more than the slider; detail =
///   `with_check` for the king, else `quiet`.
/// pieces = the front man, the slider, the man behind; squares = the line between slider and target, and the target.
///
/// Theme `battery`, for both sides: two sliders of `side` on a line with nothing between them that both move along it,
/// and beyond the front one, up to the first man on the line, a man of the other side that is no pawn, or its king's
/// square or one next to it that holds no man of `side`. No gain; pieces = the front man, the man behind it, then the
/// man of the other side at the end of the line, if there is one; squares = the line beyond the front man, the first
/// man included.
void find_discoveries(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline Detail kind_of_discovery(const Position& position, const CheckFinder& finder, Move move, bool slider_checks) {
    if (slider_checks) {
        const Squares occupied = occupied_after(position, move);
        const Square king = position.king(position.waiter());
        const bool also = attacks_of(arriving_man(position, move), move.target(), occupied).has(king);
        return also ? Detail::with_double_check : Detail::with_check;
    }
    return how_it_starts(position, finder, move);
}

/// Whether the man behind is threatened once the front man has made this move.
inline bool discovers(const Position& position, Move move, Square back, const Options& options) noexcept {
    if (position.kind_at(back) == Kind::king) return true;
    return exchange_wins(turned(after(position, move)), back, options.least_gain, options.values);
}

inline const Outcome* best_discovery(const BoardView& view, Side side, const Alignment& line, Detail& detail) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Options& options = view.options();
    const bool opens_check = position.kind_at(line.back) == Kind::king;
    const Squares on_line = line_through(line.slider, line.back);
    const Outcome* best = nullptr;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.origin() != line.front || on_line.has(move.target()) || move.castles()) continue;
        if (!discovers(position, move, line.back, options)) continue;
        const Outcome* outcome = winning.win(at, Squares{line.back});
        if (!outcome || (best && !is_better(*outcome, *best))) continue;
        best = outcome;
        detail = kind_of_discovery(position, winning.finder(), move, opens_check);
    }
    return best;
}

inline void add_discovery(const BoardView& view, Side side, const Alignment& line, Findings& findings) {
    const Position& position = view.position();
    const Values& values = view.options().values;
    const Kind target = position.kind_at(line.back);
    const bool opens_check = target == Kind::king;
    Detail detail = opens_check ? Detail::with_check : Detail::quiet;
    const Outcome* best = view.turn(side).exists ? best_discovery(view, side, line, detail) : nullptr;
    if (!best && !opens_check && values[target] <= values[position.kind_at(line.slider)]) return;
    Finding& finding =
        findings.emplace_back(winning_finding(view, Theme::discovered_attack, detail, side, best ? *best : Outcome{}));
    if (!best) finding.after_pass = false;
    for (const Square square : {line.front, line.slider, line.back})
        finding.pieces.push_back({square, position.piece_at(square)});
    finding.squares = squares_between(line.slider, line.back).with(line.back);
}

inline void add_discoveries(const BoardView& view, Side side, Findings& findings) {
    const Position& position = view.position();
    each_alignment(position, side, [&](const Alignment& line) {
        if (position.men(side).has(line.front) && position.men(other(side)).has(line.back))
            add_discovery(view, side, line, findings);
    });
}

inline void add_batteries(const BoardView& view, Side side, Findings& findings) {
    const Position& position = view.position();
    const Squares occupied = position.occupied();
    const Squares sliders = position.sliders(side);
    const Square king = position.king(other(side));
    const Squares by_king = king_attacks(king).with(king);
    for (const Square rear : sliders) {
        const Piece slider = position.piece_at(rear);
        const Squares seen = attacks_of(slider, rear, occupied);
        for (const Square front : seen& sliders) {
            if (!attacks_of(position.piece_at(front), front, {}).has(rear)) continue; // it does not move on the line
            const Squares beyond = attacks_of(slider, rear, occupied.without(front)) & ~seen;
            const Squares target = beyond & position.men(other(side));
            const bool aims = (target & ~position.men(Kind::pawn)) || (beyond & by_king & ~position.men(side));
            if (!aims) continue;
            Finding& finding = add_count(findings, Theme::battery, Detail::none, side, beyond);
            for (const Square square : {front, rear}) finding.pieces.push_back({square, position.piece_at(square)});
            if (target) finding.pieces.push_back({target.first(), position.piece_at(target.first())});
        }
    }
}

} // namespace detail

inline void find_discoveries(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        detail::add_discoveries(view, side, findings);
        detail::add_batteries(view, side, findings);
    }
}

} // namespace keysquare
