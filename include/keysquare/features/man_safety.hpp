// The safety of one man: whether it falls when the other side is to move.
#pragma once

#include <keysquare/features/options.hpp>
#include <keysquare/tactics/quiet_refutation.hpp>

namespace keysquare {

/// What can happen to one man when the other side is to move.
enum class Safety : std::uint8_t {
    safe,     ///< none of the below
    hanging,  ///< `exchange` on its square wins, and so does the best first capture by what follows on it
    poisoned, ///< `exchange` on its square wins, but no capture there wins anything by what follows on it, and the
              ///< taker has a better move elsewhere (an equally good one, where the capture costs nothing)
    unclear   ///< the search bound was too small to say
};

/// The safety of the man on `square`, with the best capture of it and what follows: `value_of_move`, unless that wins
/// and a quiet answer to the capture (`quiet_refutation`) leaves less than `least_gain`.
struct SafetyOfMan {
    Safety safety = Safety::safe; ///< whether it falls
    Outcome capture; ///< for the taker; its line starts with the best capture. Empty when `exchange` wins nothing
};

/// Looks at one man. `taker_to_move` is the position with the other side to move. Precondition: a man other than a king
/// stands on `square` and does not belong to the side to move.
[[nodiscard]] SafetyOfMan safety_of(const Position& taker_to_move, Square square, const Options& options = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The best capture of the man on `square` by what follows on it; the first of equals, cheapest taker first.
inline Outcome best_capture(const Position& position, Square square, const Options& options) noexcept {
    Outcome best;
    bool complete = true;
    for (const Move move : captures_of(position, square)) {
        Outcome outcome = value_of_move(position, move, options.bound, options.values);
        complete = complete && outcome.complete;
        if (outcome.complete && !outcome.mate && !outcome.mated && outcome.gain >= options.least_gain) {
            const int won = immediate_gain(position, move, options.values);
            const Outcome refuted = quiet_refutation(after(position, move), move.target(), options.least_gain - 1 - won,
                                                     options.least_gain, options.bound, options.values);
            if (!refuted.line.empty()) outcome = preceded_by(move, won, refuted);
        }
        if (is_better(outcome, best)) best = outcome;
    }
    best.complete = complete;
    return best;
}

/// Whether some move other than the captures of `square` keeps at least `threshold`.
inline bool has_other_move(const Position& position, Square square, int threshold, const Options& options) noexcept {
    const MoveList captures = captures_of(position, square);
    for (const Move move : legal_moves(position))
        if (!contains(captures, move) && move_keeps(position, move, threshold, options.bound, options.values).holds)
            return true;
    return false;
}

} // namespace detail

inline SafetyOfMan safety_of(const Position& taker_to_move, Square square, const Options& options) noexcept {
    SafetyOfMan result;
    if (!exchange_wins(taker_to_move, square, options.least_gain, options.values)) return result;
    result.capture = detail::best_capture(taker_to_move, square, options);
    const Outcome& capture = result.capture;
    if (!capture.complete)
        result.safety = Safety::unclear;
    else if (capture.mate || (!capture.mated && capture.gain >= options.least_gain))
        result.safety = Safety::hanging;
    else if (capture.mated || capture.gain <= 0) {
        // Where something is lost anyway, a capture that loses less than everything else is no mistake.
        const int better = capture.mated ? -detail::mate_line : (std::min)(0, capture.gain + 1);
        if (detail::has_other_move(taker_to_move, square, better, options)) result.safety = Safety::poisoned;
    }
    return result;
}

} // namespace keysquare
