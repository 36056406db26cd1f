// Removable guards: a man that holds something, and the move that takes it away from its duty.
#pragma once

#include <keysquare/features/overloaded.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `removable_guard`, for both sides: a man D, no king, that guards or holds something, and a move of the other
/// side that wins (`WinningMoves`) because D is removed. detail says how, the first that holds:
/// - `by_capture`: the move takes D, which does not hang by `exchange` on its square; the targets are the men,
///   the king apart, that D guarded (attacked) and on whose square `exchange` would win with another move at once;
/// - `by_blocking`: D attacks its target along a line, the move arrives between the two, and with another move at once
///   `exchange` on the target would win;
/// - `by_luring`: a capture or a check; D may take the man that moved where it arrives, and if it does, the moving side
///   goes on to win at least `least_gain` in all, or mates, with a move to another target of D on the way (`point`);
/// - `by_driving_off`: the moved man threatens D, which does not hang (`threatened_from`: D is worth more than the
///   attacker or has no guard).
/// For the last three the targets are those of the duties of D (`duties.hpp`), and the move wins more than it takes or
/// mates, a lure apart.
/// One finding a guard, the move that wins most. Where a side has none, `by_capture` is reported with no gain when a
/// man X, no king, that the side attacks is guarded by D alone, and D, no king, does not hang but may be taken;
/// `point` is the cheapest capture. One a side, the most valuable X, the first in square order of equals.
///
/// side = the moving side; pieces = D, then the men among its targets; squares = its targets and where the move
/// arrives; line and gain = the move and the best replies; number: targets.
void find_removable_guards(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How one move, captures of the guard apart, removes one guard, `Detail::none` when it does not; fills `point` when
/// the guard is lured.
class GuardRemoval {
  public:
    GuardRemoval(const BoardView& view, Side side, Square guard, Squares targets) noexcept
        : options_(view.options()), position_(view.turn(side).position), finder_(view.winning(side).finder()),
          guard_(guard), targets_(targets),
          hangs_(exchange_wins(position_, guard, options_.least_gain, options_.values)) {}

    /// Whether a look at the board allows it: the move threatens the guard, may be taken by it or gets into its way.
    [[nodiscard]] bool may_remove(Move move) const noexcept {
        if (move.castles() || move.target() == guard_) return false;
        return (!hangs_ && drives_off(move)) || may_be_taken(move) || gets_between(move);
    }

    [[nodiscard]] Detail of(Move move, Line& point) const {
        if (blocks(move)) return Detail::by_blocking;
        if (may_be_taken(move)) {
            point = failed_duty(position_, move, guard_, targets_.without(move.target()), options_);
            if (!point.empty()) return Detail::by_luring;
        }
        return !hangs_ && drives_off(move) ? Detail::by_driving_off : Detail::none;
    }

  private:
    [[nodiscard]] bool drives_off(Move move) const noexcept {
        return threatened_from(position_, arriving_man(position_, move), move.target(), occupied_after(position_, move),
                               options_.values, move.target())
            .has(guard_);
    }

    [[nodiscard]] bool may_be_taken(Move move) const noexcept {
        if (captured_by(position_, move) == Kind::none && !finder_.gives_check(move)) return false;
        return attacks_of(position_.piece_at(guard_), guard_, occupied_after(position_, move)).has(move.target());
    }

    [[nodiscard]] bool gets_between(Move move) const noexcept {
        return detail::any_of(targets_,
                              [&](Square target) { return squares_between(guard_, target).has(move.target()); });
    }

    [[nodiscard]] bool blocks(Move move) const noexcept {
        const Piece guard = position_.piece_at(guard_);
        for (const Square target : targets_) {
            if (!squares_between(guard_, target).has(move.target())) continue;
            if (!attacks_of(guard, guard_, position_.occupied()).has(target)) continue;
            if (exchange_wins(turned(after(position_, move)), target, options_.least_gain, options_.values))
                return true;
        }
        return false;
    }

    const Options& options_;
    const Position& position_;
    const CheckFinder& finder_;
    Square guard_;
    Squares targets_;
    bool hangs_;
};

/// One way to remove one guard.
struct Removal {
    const Outcome* outcome = nullptr;
    Detail how = Detail::none;
    Squares targets;
    Line point;
};

/// Keeps the better of the two; of equals the earlier.
inline void keep_better(Removal& best, const Removal& other) noexcept {
    if (other.outcome && (!best.outcome || is_better(*other.outcome, *best.outcome))) best = other;
}

inline Removal best_without_capture(const BoardView& view, Side side, Square guard, Squares targets) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const GuardRemoval removal{view, side, guard, targets};
    Removal best;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (!removal.may_remove(move)) continue;
        Removal found{winning.win(at, targets.with(guard)), Detail::none, targets, {}};
        if (!found.outcome) continue;
        found.how = removal.of(move, found.point);
        const int won = immediate_gain(position, move, view.options().values);
        const bool more = found.outcome->mate || found.outcome->gain > won || found.how == Detail::by_luring;
        if (more && found.how != Detail::none) keep_better(best, found);
    }
    return best;
}

/// The men that the man on `guard` guards, kings apart.
inline Squares guarded_by(const Position& position, Square guard) noexcept {
    const Piece man = position.piece_at(guard);
    return attacks_of(man, guard, position.occupied()) & position.men(man.side) & ~position.men(Kind::king);
}

/// Those of `men` that would fall if the side that has just moved could move again.
inline Squares falling_after(const Position& position, Move move, Squares men, const Options& options) noexcept {
    const Position again = turned(after(position, move));
    Squares falling;
    for (const Square man : men)
        if (exchange_wins(again, man, options.least_gain, options.values)) falling |= Squares{man};
    return falling;
}

inline Removal best_capture_of_guard(const BoardView& view, Side side, Square guard) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const Options& options = view.options();
    const Squares guarded = guarded_by(position, guard);
    Removal best;
    if (!guarded || exchange_wins(position, guard, options.least_gain, options.values)) return best;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        if (move.castles() || move.target() != guard) continue;
        const Squares falling = falling_after(position, move, guarded, options);
        if (!falling) continue;
        if (const Outcome* outcome = winning.win(at, falling))
            keep_better(best, {outcome, Detail::by_capture, falling, {}});
    }
    return best;
}

inline void show_removal(const BoardView& view, Side side, Square guard, const Removal& removal, Square arrival,
                         Findings& findings) {
    const Position& position = view.position();
    Finding& finding = findings.emplace_back(winning_finding(view, Theme::removable_guard, removal.how, side,
                                                             removal.outcome ? *removal.outcome : Outcome{}));
    finding.point = removal.point;
    finding.squares = removal.targets.with(arrival);
    finding.pieces.push_back({guard, position.piece_at(guard)});
    name_men(position, removal.targets & position.men(other(side)), finding);
    finding.count(Measure::targets, removal.targets.count());
}

/// The capture of an only guard that wins nothing: the guard of the most valuable man.
inline void add_idle_capture(const BoardView& view, Side side, Findings& findings) {
    const Position& position = view.turn(side).position;
    const Options& options = view.options();
    const Side enemy = other(side);
    Removal idle{nullptr, Detail::by_capture, {}, {}};
    Square guard = Square::none;
    int worth = 0;
    for (const Square target : position.men(enemy) & ~position.men(Kind::king)) {
        const Squares guards = attackers_of(position, target, enemy);
        if (!guards || guards.several() || guards & position.men(Kind::king)) continue;
        if (options.values[position.kind_at(target)] <= worth || !attackers_of(position, target, side)) continue;
        const MoveList captures = captures_of(position, guards.first());
        if (captures.empty() || exchange_wins(position, guards.first(), options.least_gain, options.values)) continue;
        worth = options.values[position.kind_at(target)];
        guard = guards.first();
        idle.targets = Squares{target};
        idle.point = {captures.front()};
    }
    if (guard != Square::none) show_removal(view, side, guard, idle, guard, findings);
}

} // namespace detail

inline void find_removable_guards(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        if (!view.turn(side).exists) continue;
        const Position& position = view.turn(side).position;
        const Duties& theirs = view.duties(other(side));
        bool wins = false;
        for (const Square guard : position.men(other(side)) & ~position.men(Kind::king)) {
            detail::Removal best = detail::best_capture_of_guard(view, side, guard);
            if (const Squares targets = detail::targets_of(guard, theirs))
                detail::keep_better(best, detail::best_without_capture(view, side, guard, targets));
            if (!best.outcome) continue;
            wins = true;
            detail::show_removal(view, side, guard, best, best.outcome->line.front().target(), findings);
        }
        if (!wins) detail::add_idle_capture(view, side, findings);
    }
}

} // namespace keysquare
