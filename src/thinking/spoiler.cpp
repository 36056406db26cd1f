#include <keysquare/thinking/spoiler.hpp>

#include <algorithm>
#include <cstdint>

#include <keysquare/features/judged_moves.hpp>

namespace keysquare {

namespace {

/// What the next step was worth: the least that it has to come to after a reply, if it is not to be defused.
enum class Aim : std::uint8_t { none, gain, mate };

[[nodiscard]] Aim aim_of(const Position& stepped, Move next, const Options& options) noexcept {
    const Outcome outcome = value_of_move(turned(stepped), next, options.bound, options.values);
    if (!outcome.complete || outcome.mated) return Aim::none;
    if (outcome.mate) return Aim::mate;
    return outcome.gain >= options.least_gain ? Aim::gain : Aim::none;
}

/// The reply with what comes of the next step after it, if that step is punished or defused.
std::optional<Spoiler> answer_to(const Position& stepped, int won, Move reply, Move next, Aim aim,
                                 const Options& options) noexcept {
    const Position replied = after(stepped, reply);
    const int taken = immediate_gain(stepped, reply, options.values);
    const int least = taken - won - options.least_gain + 1; // or else the step is punished
    const int aimed = aim == Aim::mate ? detail::mate_line : taken + options.least_gain;
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
bool spoils_more(const Spoiler& a, const Spoiler& b) noexcept {
    if (a.how != b.how) return a.how < b.how;
    if (a.how != Spoil::punishes && a.how != Spoil::defuses) return false;
    return a.mate != b.mate ? a.mate : !a.mate && a.gain > b.gain;
}

} // namespace

std::optional<Spoiler> spoiler_of(const Position& stepped, int won, Move next, const Options& wanted) noexcept {
    Options options = wanted; // two moves more than what is searched must fit into a line
    options.bound.plies = (std::min)(options.bound.plies, static_cast<int>(longest_line) - 2);
    const Outcome forced = resolve(stepped, options.bound, options.values);
    if (forced.complete && !forced.mated && (forced.mate || forced.gain - won >= options.least_gain))
        return Spoiler{Spoil::wins, forced.mate, forced.gain - won, forced.line};
    if (!next || forced.mated) return std::nullopt;
    const JudgedMoves judged{stepped, options};
    const Aim aim = aim_of(stepped, next, options);
    std::optional<Spoiler> best;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) {
        const Move reply = judged.moves()[at];
        const Position replied = after(stepped, reply);
        std::optional<Spoiler> spoiler;
        if (is_legal(replied, next))
            spoiler = answer_to(stepped, won, reply, next, aim, options);
        else
            spoiler = Spoiler{in_check(replied) ? Spoil::checks : Spoil::prevents, false, 0, Line{reply}};
        if (spoiler && (!best || spoils_more(*spoiler, *best)) && judged.is_safe(at)) best = spoiler;
    }
    return best;
}

} // namespace keysquare
