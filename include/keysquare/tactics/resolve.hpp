// resolve: a bounded, deterministic search that says what a position wins by force. A referee for claims.
#pragma once

#include <limits>

#include <keysquare/tactics/values.hpp>

namespace keysquare {

/// The material that the side to move wins (or, in check, loses) by force inside `bound`, with the line.
///
/// The game that is searched, exactly (anybody can write it again and must get the same numbers):
/// - in check: every legal move; with none it is checkmate;
/// - not in check: the side may stop, and the balance of that moment counts; or it may make a capture, a promotion, or,
///   on the first `check_plies` plies, a quiet move that gives check;
/// - after `plies` plies the balance of that moment counts;
/// - a mate counts more than any material, an earlier one more than a later one. Stalemate is not looked at.
///
/// A reported mate is a real one: the mated side was in check at each of its moves and had all its moves tried.
/// Material is what captures and checks force. Minimax value and line are exact for this game; when more than `nodes`
/// positions would be needed, `complete` is false.
[[nodiscard]] Outcome resolve(const Position& position, const Bound& bound = {}, const Values& values = {}) noexcept;

/// Whether the side to move wins at least `threshold` by `resolve` (a mate does). With `complete` false: not shown.
struct Verdict {
    bool holds = false;   ///< the side to move wins that much
    bool complete = true; ///< false: the node bound stopped the search
};
/// Narrower than `resolve`, and quicker, for it stops once the answer is known. Errors: none; see `Verdict::complete`.
[[nodiscard]] Verdict resolve_wins(const Position& position, int threshold, const Bound& bound = {},
                                   const Values& values = {}) noexcept;

/// What the mover has after `move`: its immediate gain minus what the other side then wins by `resolve`. The bound
/// counts from the position after the move, the line starts with the move.
[[nodiscard]] Outcome value_of_move(const Position& position, Move move, const Bound& bound = {},
                                    const Values& values = {}) noexcept;

/// Whether `a` is better than `b` for the side to move: a mate, then material, then anything but being mated. An
/// outcome without a line is worse than any other.
[[nodiscard]] bool is_better(const Outcome& a, const Outcome& b) noexcept;

/// The best of `moves` by `value_of_move`, the first of equals. `complete` only when every one that had to be looked at
/// was. `most`: what no move is known to exceed, if anything is known; the first that reaches it is the best.
template <class Moves>
[[nodiscard]] Outcome best_of(const Position& position, const Moves& moves, const Bound& bound = {},
                              const Values& values = {}, int most = (std::numeric_limits<int>::max)()) noexcept;

/// Whether the mover keeps at least `threshold` by `value_of_move`.
[[nodiscard]] Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound = {},
                                 const Values& values = {}) noexcept;

} // namespace keysquare

#include <keysquare/tactics/resolve_impl.hpp>
