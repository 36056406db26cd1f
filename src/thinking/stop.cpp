#include <keysquare/thinking/stop.hpp>

#include <keysquare/features/judged_moves.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

int baseline_of(const Position& position, const Options& options) noexcept {
    return JudgedMoves{position, options}.baseline();
}

StopSafety stop_safety(const Position& position, Move move, int baseline, const Options& options) noexcept {
    const int won = immediate_gain(position, move, options.values);
    if (exchange_wins(after(position, move), move.target(), won + 1, options.values)) return StopSafety::falls;
    if (baseline <= -detail::mate_line) return StopSafety::safe;
    const Verdict kept = move_keeps(position, move, baseline, options.bound, options.values);
    if (!kept.complete) return StopSafety::undecided;
    return kept.holds ? StopSafety::safe : StopSafety::loses;
}

} // namespace keysquare
