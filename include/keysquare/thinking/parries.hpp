// parries: what the mover can do about a threat of the waiter.
#pragma once

#include <vector>

#include <keysquare/thinking/threats.hpp>

namespace keysquare {

/// What one move of the mover does about a threat, and what else it does.
struct Parry {
    Move move; ///< the move
    /// The threat is gone: after the move neither its first move nor, if that takes a man which still stands there,
    /// another capture of that man wins anything (`MoveWins`); for a mate, none of them mates by force. A move that is
    /// not legal then, as in most cases after a check, wins nothing.
    bool stops = false;
    /// The other side has nothing at all: no move of it wins at least `least_gain` more than the move itself took.
    bool ends_all = false;
    /// It `ends_all`, and it gives check or threatens at least as much as the threat wins (mate for a mate).
    bool counters = false;
    // What it is also good for.
    bool wins = false;      ///< it keeps at least `least_gain` by `value_of_move`
    bool takes = false;     ///< it captures or promotes
    bool threatens = false; ///< it gives check, or threatens to win something by captures and checks that adds to what
                            ///< could be won at once (`MoveWins::threatens`)
    bool castles = false;   ///< it castles
    bool develops = false;  ///< it moves one of `undeveloped_of`

    /// Whether it does something else than to parry.
    [[nodiscard]] bool is_useful() const noexcept { return wins || takes || threatens || castles || develops; }
    /// Whether all of it is equal.
    friend bool operator==(const Parry&, const Parry&) noexcept = default;
};

/// The moves that do something about a threat, and how many of the natural replies do.
struct Parries {
    std::vector<Parry> moves; ///< those that stop it or end all, in the order of `legal_moves`
    int legal = 0;            ///< legal moves of the mover
    int natural = 0;          ///< its natural replies: the legal moves that do not lose something by themselves
                              ///< (`JudgedMoves::loses`)
    int natural_stopping = 0; ///< those of them that stop the threat

    /// Whether the threat leaves the mover free: every natural reply stops it.
    [[nodiscard]] bool every_natural_reply_stops() const noexcept { return natural > 0 && natural_stopping == natural; }
    /// Whether at least half of the natural replies stop it.
    [[nodiscard]] bool most_natural_replies_stop() const noexcept {
        return natural > 0 && 2 * natural_stopping >= natural;
    }
};

/// What every legal move of the mover does about `threat`. Precondition: it is a threat of the waiter in this position
/// (`threats`). Costs `reply_wins` for each legal move: some milliseconds.
[[nodiscard]] Parries parries(const Position& position, const Threat& threat, const Options& options = {});

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// One threat, and what is left of it after a move.
class ThreatAfterMoves {
  public:
    ThreatAfterMoves(const Position& position, const Threat& threat, const Options& options) noexcept;

    /// Whether the threat still works in `moved`, the position after `move`.
    [[nodiscard]] bool is_on(const Position& moved, Move move) const noexcept;

  private:
    Options options_;
    bool mate_;
    Move first_;
    Square man_ = Square::none; ///< the man that the first move takes
};

} // namespace detail

} // namespace keysquare
