// Removable guards: a man that holds something, and the move that takes it away from its duty.
#pragma once

#include <keysquare/features/overloaded.hpp>
#include <keysquare/features/tactical_finding.hpp>

namespace keysquare {

/// Theme `removable_guard`, for both sides: a man D with duties (`duties.hpp`), and a move of the other side that wins
/// (`WinningMoves`) because D is removed. detail says how, the first that holds:
/// - `by_capture`: the move takes D, which does not hang by `exchange` on its square;
/// - `by_driving_off`: the moved man threatens D (`fork`), which did not hang, and D has a move;
/// - `by_luring`: D may take the man that moved where it arrives, and if it does, the moving side goes on to win at
///   least `least_gain` in all, or mates, with a move to a target of D on the way (`point`);
/// - `by_blocking`: D guards along a line, the move arrives between D and its target, and were the other side to pass,
///   `exchange` on the target would win.
/// The move wins more than it takes, unless it takes D.
///
/// side = the moving side; pieces = D, then the men among its targets; squares = its targets and where the move arrives;
/// line and gain = the move and the best replies; number: duties. One finding a guard, the move that wins most.
void find_removable_guards(const BoardView& view, const std::array<Duties, 2>& duties, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How one move removes one guard, `Detail::none` when it does not; fills `point` when the guard is lured.
class GuardRemoval {
  public:
    GuardRemoval(const BoardView& view, Side side, Square guard, Squares targets) noexcept
        : options_(view.options()), position_(view.turn(side).position), guard_(guard), targets_(targets),
          hangs_(exchange_wins(position_, guard, options_.least_gain, options_.values)) {}

    [[nodiscard]] Detail of(Move move, Line& point) const {
        if (move.castles()) return Detail::none;
        if (move.target() == guard_) return hangs_ ? Detail::none : Detail::by_capture;
        if (!hangs_ && drives_off(move)) return Detail::by_driving_off;
        if (lures(move, point)) return Detail::by_luring;
        return blocks(move) ? Detail::by_blocking : Detail::none;
    }

  private:
    [[nodiscard]] bool drives_off(Move move) const noexcept {
        return threatened_from(position_, arriving_man(position_, move), move.target(), occupied_after(position_, move),
                               options_.values)
            .has(guard_);
    }

    [[nodiscard]] bool lures(Move move, Line& point) const {
        const Piece guard = position_.piece_at(guard_);
        if (!attacks_of(guard, guard_, occupied_after(position_, move)).has(move.target())) return false;
        point = failed_duty(position_, move, guard_, targets_.without(move.target()), options_);
        return !point.empty();
    }

    [[nodiscard]] bool blocks(Move move) const noexcept {
        const Piece guard = position_.piece_at(guard_);
        for (const Square target : targets_) {
            if (!squares_between(guard_, target).has(move.target())) continue;
            if (!attacks_of(guard, guard_, position_.occupied()).has(target)) continue;
            if (exchange_wins(turned(after(position_, move)), target, options_.least_gain, options_.values)) return true;
        }
        return false;
    }

    const Options& options_;
    const Position& position_;
    Square guard_;
    Squares targets_;
    bool hangs_;
};

inline void add_if_removable(const BoardView& view, Side side, Square guard, Squares targets, Findings& findings) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    const GuardRemoval removal{view, side, guard, targets};
    const Outcome* best = nullptr;
    Detail how = Detail::none;
    Line shown;
    for (std::size_t at = 0; at < winning.moves().size(); ++at) {
        const Move move = winning.moves()[at];
        Line point;
        const Detail detail = removal.of(move, point);
        if (detail == Detail::none) continue;
        const Outcome* outcome = winning.win(at, targets.with(guard));
        if (!outcome || (best && !is_better(*outcome, *best))) continue;
        if (detail != Detail::by_capture && !outcome->mate &&
            outcome->gain <= immediate_gain(position, move, view.options().values))
            continue;
        best = outcome;
        how = detail;
        shown = point;
    }
    if (!best) return;
    Finding& finding = findings.emplace_back(winning_finding(view, Theme::removable_guard, how, side, *best));
    finding.point = shown;
    finding.squares = targets.with(best->line.front().target());
    finding.pieces.push_back({guard, position.piece_at(guard)});
    for (const Square target : targets & position.men(other(side)))
        if (finding.pieces.size() < finding.pieces.capacity())
            finding.pieces.push_back({target, position.piece_at(target)});
    finding.count(Measure::duties, targets.count());
}

} // namespace detail

inline void find_removable_guards(const BoardView& view, const std::array<Duties, 2>& duties, Findings& findings) {
    for (const Side side : all_sides) {
        if (!view.turn(side).exists) continue;
        const Duties& theirs = duties[index(other(side))];
        Squares guards;
        for (const Duty& duty : theirs) guards |= Squares{duty.guard};
        for (const Square guard : guards)
            detail::add_if_removable(view, side, guard, detail::targets_of(guard, theirs), findings);
    }
}

} // namespace keysquare
