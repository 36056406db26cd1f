// threats: what a side would do if it were to move.
#pragma once

#include <vector>

#include <keysquare/features/options.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// One thing that a side would win if it were to move, with the move that wins most of it.
struct Threat {
    Side side = Side::white;      ///< the side that threatens
    bool after_pass = false;      ///< the line starts from the position with the move handed over
    bool mate = false;            ///< the line ends in checkmate by `side`
    int gain = 0;                 ///< what the line wins for `side`, in pawns
    Square target = Square::none; ///< see `target_of`
    Squares squares;              ///< where the men stand that `side` takes on the line, and the king that is mated
    Line line;                    ///< the move and the best replies

    /// Whether all of it is equal.
    friend bool operator==(const Threat&, const Threat&) noexcept = default;
};

/// Threats of one side. Keeps its room when cleared and used again.
using Threats = std::vector<Threat>;

/// The threats of `side`: of the waiter after a pass, none while the mover is in check; of the mover, what it can do at
/// once. Every legal move that wins at least `Options::least_gain` (`MoveWins`) is one, except that
/// - with a mate, only the shortest lines that mate are left of those that mate;
/// - of threats that are the same (`is_same_threat`), only the strongest is left.
/// Strongest first: mates before other gains; of mates the shorter line, then more gain; of other gains the larger,
/// then the shorter line; then the order of `legal_moves`.
void threats(const Position& position, Side side, Threats& found, const Options& options = {});
/// The same as a value of its own.
[[nodiscard]] Threats threats(const Position& position, Side side, const Options& options = {});
/// Those of the waiter.
[[nodiscard]] Threats threats(const Position& position, const Options& options = {});

/// What a line that starts in `start` is aimed at: the square of the first man that the side of the first move takes,
/// or on which it promotes without taking; for a mate, the square where the last move arrives.
[[nodiscard]] Square target_of(const Position& start, const Line& line, bool mate) noexcept;

/// Whether two threats of one side in one position are the same: both mate or neither, and they have the same target,
/// or the moves of their side are the same ones in another order.
[[nodiscard]] bool is_same_threat(const Threat& a, const Threat& b) noexcept;

} // namespace keysquare
