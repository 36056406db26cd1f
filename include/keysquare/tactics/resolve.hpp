// resolve: a bounded, deterministic search that says what a position wins by force. A referee for claims.
#pragma once

#include <span>

#include <keysquare/tactics/values.hpp>

namespace keysquare {

namespace detail {

/// A mate at ply n counts `mate_score - n`; every score above `mate_line` is a mate.
inline constexpr int mate_score = 1'000'000;
inline constexpr int mate_line = mate_score - 1'000;

} // namespace detail

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

/// What is known of what the mover has after one move. Mates count more than any material. Each answer to a question
/// about the move makes it narrower, and the next question then costs less or nothing.
struct Kept {
    int least = -detail::mate_score; ///< at least this much
    int most = detail::mate_score;   ///< at most this much
};

/// What is known of each move of a list.
using KeptList = BoundedList<Kept, most_moves>;
/// Nothing, of that many moves.
[[nodiscard]] inline KeptList nothing_known(std::size_t moves) noexcept {
    KeptList known;
    while (known.size() < moves) known.push_back({});
    return known;
}

/// What the mover has after `move`: its immediate gain minus what the other side then wins by `resolve`. The bound
/// counts from the position after the move, the line starts with the move. `known` must be known of this move, with
/// the same bound and values; it changes nothing in a complete outcome, but lets more outcomes be complete.
/// @{
[[nodiscard]] Outcome value_of_move(const Position& position, Move move, const Bound& bound, const Values& values,
                                    Kept& known) noexcept;
[[nodiscard]] Outcome value_of_move(const Position& position, Move move, const Bound& bound = {},
                                    const Values& values = {}) noexcept;
/// @}

/// Whether `a` is better than `b` for the side to move: a mate, then material, then anything but being mated. An
/// outcome without a line is worse than any other.
[[nodiscard]] bool is_better(const Outcome& a, const Outcome& b) noexcept;

/// The best of `moves` by `value_of_move`, the first of equals; of mates the first, and where all are mated the first.
/// `complete` only when every one that had to be looked at was. `Moves`: a list of at most `most_moves`.
/// @{
template <class Moves>
[[nodiscard]] Outcome best_of(const Position& position, const Moves& moves, const Bound& bound = {},
                              const Values& values = {}) noexcept;
/// `known`: of each of the moves, in the same order.
template <class Moves>
[[nodiscard]] Outcome best_of(const Position& position, const Moves& moves, const Bound& bound, const Values& values,
                              std::span<Kept> known) noexcept;
/// @}

/// Whether the mover keeps at least `threshold` by `value_of_move`. `known` as there.
/// @{
[[nodiscard]] Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound,
                                 const Values& values, Kept& known) noexcept;
[[nodiscard]] Verdict move_keeps(const Position& position, Move move, int threshold, const Bound& bound = {},
                                 const Values& values = {}) noexcept;
/// @}

} // namespace keysquare

#include <keysquare/tactics/resolve_impl.hpp>
