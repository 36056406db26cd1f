// answers: what the other side does after a move, and whether the move walks into it.
#pragma once

#include <keysquare/thinking/threats.hpp>

namespace keysquare {

/// The best answer to a move, in the sense of threats: what the other side then wins.
struct Answer {
    Move move;          ///< the move that is asked about
    int taken = 0;      ///< what it takes by itself
    Threat reply;       ///< the strongest of the other side's `threats` after the move; no line when there is none
    int cost = 0;       ///< the gain of the reply minus `taken`; 0 when there is no reply
    bool loses = false; ///< the reply mates by force, or `cost` is at least `least_gain`
    /// It loses, and the other side's threat is new: after a pass it had none that is the same (`is_same_threat`) and
    /// mates or wins at least `cost`, or there is no pass because the mover is in check.
    bool walks_into = false;
    /// It loses, and does not walk into it: the threat was there before.
    bool leaves = false;
};

/// What the other side has after a legal move.
[[nodiscard]] Answer answers(const Position& position, Move move, const Options& options = {});

} // namespace keysquare
