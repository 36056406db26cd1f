// Spoilers: the reply that upsets a plan after one of its steps.
#pragma once

#include <optional>

#include <keysquare/features/judged_moves.hpp>

namespace keysquare {

/// How a reply spoils a plan, the strongest way first. Append only.
enum class Spoil : std::uint8_t {
    wins,     ///< it wins material or mates by force, whatever the plan was
    punishes, ///< the next step, played all the same, loses material or runs into mate
    prevents, ///< the next step is not legal any more
    checks,   ///< the same, only because the reply gives check
    end_      ///< one past the last
};

[[nodiscard]] constexpr std::string_view name(Spoil spoil) noexcept {
    constexpr std::string_view names[] = {"wins", "punishes", "prevents", "checks"};
    static_assert(std::size(names) == static_cast<std::size_t>(Spoil::end_));
    return names[static_cast<std::size_t>(spoil)];
}

/// A reply that spoils a plan, with what follows. The line starts with the reply, in the position after the step.
struct Spoiler {
    Spoil how = Spoil::wins;
    bool mate = false; ///< the line mates
    int gain = 0;      ///< what the line wins for the side that replies, minus what the step won; 0 where it prevents
    Line line;
};

/// The reply that spoils a plan after one of its steps, or nothing. `stepped`: the position after the step, the other
/// side to move. `won`: what the step won by itself. `next`: the next step, no move after the last one.
///
/// - `wins`: `resolve(stepped)` wins at least `won + least_gain`, or mates. The line is that of `resolve`.
/// - The others need a next step and a *sound* reply: a legal one that costs the other side nothing, that is, a safe
///   move of `JudgedMoves{stepped}`. Where no reply `wins`:
///   `punishes`: the next step is legal after the reply, but `won`, minus what the reply wins by itself, plus the
///   step's `value_of_move` comes to `-least_gain` or less, or to being mated. The line goes on with the step and the
///   best replies to it. Of several replies the one that mates, else wins most.
///   `prevents`, else `checks`: the next step is not legal after the reply. The line is the reply alone.
/// Of equals the first in the order of `legal_moves` counts. What a search could not decide inside the bound is not
/// claimed. About one `move_keeps` for each legal reply, and a few more.
[[nodiscard]] std::optional<Spoiler> spoiler_of(const Position& stepped, int won, Move next,
                                                const Options& options = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The reply with what comes of the next step after it, if that step is punished.
inline std::optional<Spoiler> punishment(const Position& stepped, int won, Move reply, Move next,
                                         const Options& options) noexcept {
    const Position replied = after(stepped, reply);
    const int taken = immediate_gain(stepped, reply, options.values);
    const Verdict kept = move_keeps(replied, next, taken - won - options.least_gain + 1, options.bound, options.values);
    if (kept.holds || !kept.complete) return std::nullopt;
    const Outcome outcome = value_of_move(replied, next, options.bound, options.values);
    if (!outcome.complete) return std::nullopt;
    Spoiler spoiler{Spoil::punishes, outcome.mated, taken - won - outcome.gain, Line{reply}};
    spoiler.line.insert(spoiler.line.end(), outcome.line.begin(), outcome.line.end());
    return spoiler;
}

/// Whether `a` is shown rather than `b`, which comes earlier.
inline bool spoils_more(const Spoiler& a, const Spoiler& b) noexcept {
    if (a.how != b.how) return a.how < b.how;
    if (a.how != Spoil::punishes) return false;
    return a.mate != b.mate ? a.mate : !a.mate && a.gain > b.gain;
}

} // namespace detail

inline std::optional<Spoiler> spoiler_of(const Position& stepped, int won, Move next, const Options& wanted) noexcept {
    Options options = wanted; // two moves more than what is searched must fit into a line
    options.bound.plies = (std::min)(options.bound.plies, static_cast<int>(longest_line) - 2);
    const Outcome forced = resolve(stepped, options.bound, options.values);
    if (forced.complete && !forced.mated && (forced.mate || forced.gain - won >= options.least_gain))
        return Spoiler{Spoil::wins, forced.mate, forced.gain - won, forced.line};
    if (!next || forced.mated) return std::nullopt;
    const JudgedMoves judged{stepped, options};
    std::optional<Spoiler> best;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        const Move reply = judged.moves()[at];
        const Position replied = after(stepped, reply);
        std::optional<Spoiler> spoiler;
        if (is_legal(replied, next))
            spoiler = detail::punishment(stepped, won, reply, next, options);
        else
            spoiler = Spoiler{in_check(replied) ? Spoil::checks : Spoil::prevents, false, 0, Line{reply}};
        if (spoiler && (!best || detail::spoils_more(*spoiler, *best)) && judged.is_safe(at)) best = spoiler;
    }
    return best;
}

} // namespace keysquare
