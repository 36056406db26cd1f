// Stops: where a man arrives while the other side only passes, and whether it is safe there.
#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string_view>

#include <keysquare/board/position.hpp>
#include <keysquare/features/options.hpp>

namespace keysquare {

/// The position with `side` to move: as it is, or with the move handed over. Nothing when that pass is not legal,
/// because the mover stands in check.
[[nodiscard]] inline std::optional<Position> turn_of(const Position& position, Side side) noexcept {
    return position.mover() == side ? std::optional{position} : passed(position);
}

/// Whether a man is safe where a move has brought it. Append only.
enum class StopSafety : std::uint8_t {
    safe,      ///< nothing is lost there
    falls,     ///< `exchange` on its square wins for the other side more than the move itself has won
    loses,     ///< not that, but the move loses something by `resolve`, there or elsewhere
    undecided, ///< the search bound was too small to say
    end_       ///< one past the last
};

/// In snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(StopSafety safety) noexcept {
    constexpr std::string_view names[] = {"safe", "falls", "loses", "undecided"};
    static_assert(std::size(names) == static_cast<std::size_t>(StopSafety::end_));
    return names[static_cast<std::size_t>(safety)];
}

/// What a move must keep (`value_of_move`) so that it loses nothing: the smaller of what the side to move keeps when it
/// does nothing and of the most that any of its moves keeps, each at most 0 (`JudgedMoves::baseline`). Costs about two
/// resolves.
[[nodiscard]] int baseline_of(const Position& position, const Options& options = {}) noexcept;

/// The safety of the stop at the end of a legal move of the mover. It is `safe` when
/// - the `exchange` on its target square, with the other side to move, wins at most what the move wins by itself (the
///   man taken, the promotion), and
/// - the move keeps at least `baseline`, by `value_of_move`. Where the side is mated whatever it does, or if it does
///   nothing, every move does.
/// `Options::least_gain` plays no part. Costs one exchange and one `move_keeps`.
[[nodiscard]] StopSafety stop_safety(const Position& position, Move move, int baseline,
                                     const Options& options = {}) noexcept;

} // namespace keysquare
