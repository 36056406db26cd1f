// Piece safety: which men hang, which only look as if they did, and which nobody looks after.
#pragma once

#include <keysquare/features/board_view.hpp>

namespace keysquare {

/// Themes `hanging`, `poisoned`, `loose`, for both sides.
///
/// - hanging: side = the taker; pieces = the man, its best taker; gain and line = the capture and the best replies;
///   detail = why it falls: `en_passant`; `unguarded` (no man guards it); `guard_pinned` (guards, but none may
///   recapture); `cheaper_attacker` (the taker is worth less than the man); `outnumbered` otherwise. Numbers:
///   attackers, guards.
/// - poisoned: side = the tempted taker, gain <= 0 or `mated`, line = the best capture and its refutation.
/// - loose: a knight, bishop, rook or queen that no man guards and none attacks (pins are not looked at); side = the
///   other side, for whom it is a target; detail: `at_home` on its side's first rank, else `in_play`. No line.
void find_piece_safety(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline Detail why_it_hangs(const Position& position, Square square, const Outcome& capture,
                           const Options& options) noexcept {
    const Move first = capture.line.front();
    if (first.type() == MoveType::en_passant) return Detail::en_passant;
    const Side owner = position.waiter();
    if (!attackers_of(position, square, owner)) return Detail::unguarded;
    if (captures_of(after(position, first), square).empty()) return Detail::guard_pinned;
    const Kind taker = position.kind_at(first.origin());
    return options.values[taker] < options.values[position.kind_at(square)] ? Detail::cheaper_attacker
                                                                            : Detail::outnumbered;
}

} // namespace detail

inline void find_piece_safety(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    for (const Side owner : all_sides) {
        const Side taker = other(owner);
        const Turn& turn = view.turn(taker);
        for (const Square square : position.men(owner) & ~position.men(Kind::king)) {
            const Piece man = position.piece_at(square);
            const Squares attackers = attackers_of(position, square, taker);
            const Squares guards = attackers_of(position, square, owner);
            if (!attackers && !guards && man.kind != Kind::pawn) {
                Finding& finding = findings.emplace_back();
                finding.theme = Theme::loose;
                finding.detail = rank_for(owner, square) == 0 ? Detail::at_home : Detail::in_play;
                finding.side = taker;
                finding.pieces.push_back({square, man});
                finding.squares = Squares{square};
                continue;
            }
            if (!turn.exists) continue;
            const SafetyOfMan safety = view.safety(square);
            if (safety.safety != Safety::hanging && safety.safety != Safety::poisoned) continue;
            const Move first = safety.capture.line.front();
            Finding& finding = findings.emplace_back();
            finding.theme = safety.safety == Safety::hanging ? Theme::hanging : Theme::poisoned;
            finding.side = taker;
            finding.after_pass = turn.after_pass;
            finding.gain = safety.capture.gain;
            finding.mate = safety.capture.mate;
            finding.mated = safety.capture.mated;
            finding.line = safety.capture.line;
            finding.pieces.push_back({square, man});
            finding.pieces.push_back({first.origin(), position.piece_at(first.origin())});
            finding.squares = Squares{square};
            finding.count(Measure::attackers, attackers.count());
            finding.count(Measure::guards, guards.count());
            if (finding.theme == Theme::hanging)
                finding.detail = detail::why_it_hangs(turn.position, square, safety.capture, view.options());
        }
    }
}

} // namespace keysquare
