// Men that only have each other: mutual guards, and guard and shield.
#pragma once

#include <keysquare/features/duties.hpp>

namespace keysquare {

/// Themes `mutual_guards` and `shield_pair`, for both sides.
///
/// mutual_guards: two men other than the king attack each other's square. Detail:
/// - `locked`: each is needed (with either removed, the other hangs) and every legal move of either loses
///   (`JudgedMoves`); there is at least one. A warning to their owner: the line is the least bad of these moves.
/// - `pressured`: the other side attacks at least one of them, and they are not locked. The moves that do not lose
///   (those that capture with profit or keep the guard, mostly) are counted in safe_moves and their arrival squares
///   listed.
/// - `only_each_other`: two pieces (no pawns) that are not attacked and have no other guard.
/// Pairs that are not attacked and have other guards are not reported, nor pairs of pawn and piece that are not
/// attacked.
///
/// shield_pair: A has the duty to guard B, and B the duty to block a line to A (the relation of kinds that can't guard
/// each other). Detail `locked` or `pressured` as above.
///
/// side = the owner; pieces = the two, guard before shield, else in square order; numbers: moves, safe_moves, attackers
/// (of both together), and least_loss when locked; squares = the arrival squares of the moves that do not lose.
void find_mutual_guards(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

inline bool has_duty(const Duties& duties, Square guard, Square target) noexcept {
    return any_of(duties, [&](const Duty& duty) { return duty.guard == guard && duty.target == target; });
}
inline bool has_duty(const Duties& duties, Square guard, Square target, Detail kind) noexcept {
    return any_of(duties,
                  [&](const Duty& duty) { return duty.guard == guard && duty.target == target && duty.kind == kind; });
}

/// Adds the pair with the detail that its moves give it. `needed`: each holds the other up.
inline void add_pair(const BoardView& view, Theme theme, Square a, Square b, bool needed, Findings& findings) {
    const Position& position = view.position();
    const Side owner = position.piece_at(a).side;
    const Squares pair = Squares{a} | Squares{b};
    const Squares attackers = attackers_of(position, a, other(owner)) | attackers_of(position, b, other(owner));
    Finding finding;
    finding.theme = theme;
    finding.detail = attackers || theme == Theme::shield_pair ? Detail::pressured : Detail::only_each_other;
    finding.side = owner;
    finding.pieces.push_back({a, position.piece_at(a)});
    finding.pieces.push_back({b, position.piece_at(b)});
    finding.count(Measure::attackers, attackers.count());
    if (view.turn(owner).exists) {
        const JudgedMoves& judged = view.judged(owner);
        int moves = 0;
        int kept = 0;
        for (std::size_t at = 0; at < judged.moves().size(); ++at)
            if (pair.has(judged.moves()[at].origin())) {
                ++moves;
                if (judged.loses(at)) continue;
                ++kept;
                finding.squares |= Squares{judged.moves()[at].target()};
            }
        if (needed && kept == 0) {
            int losing = 0;
            const Outcome least_bad = least_bad_move(view, owner, pair, losing);
            if (!least_bad.line.empty()) {
                finding.detail = Detail::locked;
                set_warning(view, owner, least_bad, finding);
            }
        }
        finding.count(Measure::moves, moves);
        finding.count(Measure::safe_moves, kept);
    }
    findings.push_back(finding);
}

inline bool is_worth_telling(const Position& position, Square a, Square b) noexcept {
    const Side owner = position.piece_at(a).side;
    if (attackers_of(position, a, other(owner)) || attackers_of(position, b, other(owner))) return true;
    const auto only = [&](Square guarded, Square guard) {
        return attackers_of(position, guarded, owner) == Squares{guard} && position.kind_at(guarded) != Kind::pawn;
    };
    return only(a, b) && only(b, a);
}

} // namespace detail

inline void find_mutual_guards(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    for (const Side owner : all_sides) {
        const Duties& own = view.duties(owner);
        const Squares men = position.men(owner) & ~position.men(Kind::king);
        for (const Square a : men) {
            const Squares partners =
                attacks_of(position.piece_at(a), a, position.occupied()) & attackers_of(position, a, owner) & men;
            for (const Square b : partners) {
                if (index(b) < index(a) || !detail::is_worth_telling(position, a, b)) continue;
                const bool needed = detail::has_duty(own, a, b) && detail::has_duty(own, b, a);
                detail::add_pair(view, Theme::mutual_guards, a, b, needed, findings);
            }
        }
        for (const Duty& duty : own)
            if (duty.kind == Detail::guards_man && detail::has_duty(own, duty.target, duty.guard, Detail::blocks_line))
                detail::add_pair(view, Theme::shield_pair, duty.guard, duty.target, true, findings);
    }
}

} // namespace keysquare
