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
    defuses,  ///< the next step, which would have mated or won something, does neither any more
    checks,   ///< the same, only because the reply gives check
    end_      ///< one past the last
};

/// In snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(Spoil spoil) noexcept {
    constexpr std::string_view names[] = {"wins", "punishes", "prevents", "defuses", "checks"};
    static_assert(std::size(names) == static_cast<std::size_t>(Spoil::end_));
    return names[static_cast<std::size_t>(spoil)];
}

/// A reply that spoils a plan, with what follows. The line starts with the reply, in the position after the step.
struct Spoiler {
    Spoil how = Spoil::wins; ///< by what it spoils the plan
    bool mate = false;       ///< the line mates
    int gain =
        0;     ///< what the line wins for the side that replies, minus what the step won; 0 where it prevents or checks
    Line line; ///< the reply, and how it goes on
};

/// The reply that spoils a plan after one of its steps, or nothing. `stepped`: the position after the step, the other
/// side to move. `won`: what the step won by itself. `next`: the next step, no move after the last one.
///
/// - `wins`: `resolve(stepped)` wins at least `won + least_gain`, or mates. The line is that of `resolve`.
/// - The others need a next step and a *sound* reply: one that loses no more than any other, that is, a safe
///   move of `JudgedMoves{stepped}`. Where no reply `wins`:
///   `punishes`: the next step is legal after the reply, but `won`, minus what the reply wins by itself, plus the
///   step's `value_of_move` comes to `-least_gain` or less, or to being mated. The line goes on with the step and the
///   best replies to it. Of several replies the one that mates, else wins most.
///   `prevents`: the next step is not legal after the reply, which gives no check. The line is the reply alone.
///   `defuses`: if the other side passed, the next step would mate or be worth `least_gain` or more by `value_of_move`.
///   It is legal after the reply, but does not mate, and, minus what the reply wins by itself, is worth less than
///   `least_gain`; where it would have mated, that it does not is enough. The line as for `punishes`, and the choice.
///   `checks`: as `prevents`, by a check.
/// Of equals the first in the order of `legal_moves` counts. What a search could not decide inside the bound is not
/// claimed. About one or two `move_keeps` for each legal reply, and a few more.
[[nodiscard]] std::optional<Spoiler> spoiler_of(const Position& stepped, int won, Move next,
                                                const Options& options = {}) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// What the next step was worth: the least that it has to come to after a reply, if it is not to be defused.
enum class Aim : std::uint8_t { none, gain, mate };

[[nodiscard]] inline Aim aim_of(const Position& stepped, Move next, const Options& options) noexcept {
    const Outcome outcome = value_of_move(turned(stepped), next, options.bound, options.values);
    if (!outcome.complete || outcome.mated) return Aim::none;
    if (outcome.mate) return Aim::mate;
    return outcome.gain >= options.least_gain ? Aim::gain : Aim::none;
}

/// The reply with what comes of the next step after it, if that step is punished or defused.
inline std::optional<Spoiler> answer_to(const Position& stepped, int won, Move reply, Move next, Aim aim,
                                        const Options& options) noexcept {
    const Position replied = after(stepped, reply);
    const int taken = immediate_gain(stepped, reply, options.values);
    const int least = taken - won - options.least_gain + 1; // or else the step is punished
    const int aimed = aim == Aim::mate ? mate_line : taken + options.least_gain;
    const int wanted = aim == Aim::none ? least : (std::max)(least, aimed);
    Kept known;
    const Verdict kept = move_keeps(replied, next, wanted, options.bound, options.values, known);
    if (kept.holds || !kept.complete) return std::nullopt;
    const Outcome outcome = value_of_move(replied, next, options.bound, options.values, known);
    if (!outcome.complete) return std::nullopt;
    const bool punished = outcome.mated || outcome.gain < least;
    Spoiler spoiler{punished ? Spoil::punishes : Spoil::defuses, outcome.mated, taken - won - outcome.gain,
                    Line{reply}};
    spoiler.line.insert(spoiler.line.end(), outcome.line.begin(), outcome.line.end());
    return spoiler;
}

/// Whether `a` is shown rather than `b`, which comes earlier.
inline bool spoils_more(const Spoiler& a, const Spoiler& b) noexcept {
    if (a.how != b.how) return a.how < b.how;
    if (a.how != Spoil::punishes && a.how != Spoil::defuses) return false;
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
    const detail::Aim aim = detail::aim_of(stepped, next, options);
    std::optional<Spoiler> best;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        const Move reply = judged.moves()[at];
        const Position replied = after(stepped, reply);
        std::optional<Spoiler> spoiler;
        if (is_legal(replied, next))
            spoiler = detail::answer_to(stepped, won, reply, next, aim, options);
        else
            spoiler = Spoiler{in_check(replied) ? Spoil::checks : Spoil::prevents, false, 0, Line{reply}};
        if (spoiler && (!best || detail::spoils_more(*spoiler, *best)) && judged.is_safe(at)) best = spoiler;
    }
    return best;
}

} // namespace keysquare
