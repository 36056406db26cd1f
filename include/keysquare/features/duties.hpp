// Themes of guard duties: men that hold something, and men that are tied to it.
#pragma once

#include <keysquare/features/board_view.hpp>

namespace keysquare {

/// Themes `guard_duty` and `tied`, for both sides.
///
/// - guard_duty: side = the other side, `removed` = the guard's square, line and gain hold in that counterfactual
///   position; pieces = the guard, then the man that falls (none for mates and promotions); squares = the target.
/// - tied: a knight, bishop, rook or queen with a duty and at least one legal move, every one of which loses
///   (`JudgedMoves`). A warning to its owner: the line is its least bad move with the punishment. pieces = it; squares
///   = its duties' targets; numbers: duties, moves, least_loss.
void find_guard_duties(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline void add_guard_duty(const BoardView& view, const Duty& duty, Findings& findings) {
    const Position& position = view.position();
    const Piece guard = position.piece_at(duty.guard);
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::guard_duty;
    finding.detail = duty.kind;
    finding.side = other(guard.side);
    finding.after_pass = view.turn(finding.side).after_pass;
    finding.removed = duty.guard;
    finding.gain = duty.fall.gain;
    finding.mate = duty.fall.mate;
    finding.line = duty.fall.line;
    finding.pieces.push_back({duty.guard, guard});
    if (const Piece man = position.piece_at(duty.target); man && man.side == guard.side && duty.target != duty.guard)
        finding.pieces.push_back({duty.target, man});
    finding.squares = Squares{duty.target};
}

/// The least bad of the moves of `men`, when every one of them loses (and there is one); no line otherwise.
inline Outcome least_bad_move(const BoardView& view, Side side, Squares men, int& moves) {
    const JudgedMoves& judged = view.judged(side);
    const auto is_theirs = [&](std::size_t at) { return men.has(judged.moves()[at].origin()); };
    moves = 0;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        if (!is_theirs(at)) continue;
        if (!judged.loses(at)) return {};
        ++moves;
    }
    const Outcome best = judged.best_of(men);
    return best.complete ? best : Outcome{};
}

/// Fills a warning: what happens when `side` makes the first move of the line.
inline void set_warning(const BoardView& view, Side side, const Outcome& outcome, Finding& finding) {
    finding.side = side;
    finding.after_pass = view.turn(side).after_pass;
    finding.gain = outcome.gain;
    finding.mated = outcome.mated;
    finding.line = outcome.line;
    if (!outcome.mated) finding.count(Measure::least_loss, view.judged(side).baseline() - outcome.gain);
}

inline void add_if_tied(const BoardView& view, Square square, const Duties& duties, Findings& findings) {
    const Piece man = view.position().piece_at(square);
    Squares targets;
    for (const Duty& duty : duties)
        if (duty.guard == square) targets |= Squares{duty.target};
    if (!targets || !view.turn(man.side).exists) return;
    int moves = 0;
    const Outcome least_bad = least_bad_move(view, man.side, Squares{square}, moves);
    if (least_bad.line.empty()) return;
    Finding& finding = findings.emplace_back();
    finding.theme = Theme::tied;
    set_warning(view, man.side, least_bad, finding);
    finding.pieces.push_back({square, man});
    finding.squares = targets;
    finding.count(Measure::duties, targets.count());
    finding.count(Measure::moves, moves);
}

} // namespace detail

inline void find_guard_duties(const BoardView& view, Findings& findings) {
    const Squares pawns_and_kings = view.position().men(Kind::pawn) | view.position().men(Kind::king);
    for (const Side owner : all_sides) {
        for (const Duty& duty : view.duties(owner)) detail::add_guard_duty(view, duty, findings);
        for (const Square square : view.position().men(owner) & ~pawns_and_kings)
            detail::add_if_tied(view, square, view.duties(owner), findings);
    }
}

} // namespace keysquare
