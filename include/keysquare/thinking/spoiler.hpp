// Spoilers: the reply that upsets a plan after one of its steps.
#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string_view>

#include <keysquare/features/options.hpp>
#include <keysquare/tactics/resolve.hpp>

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

} // namespace keysquare
