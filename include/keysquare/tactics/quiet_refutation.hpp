// quiet_refutation: the quiet answer that captures and checks do not see.
#pragma once

#include <keysquare/tactics/shut_in.hpp>

namespace keysquare {

/// The strongest quiet answer to the arrival of a man on `to`: one that attacks it or is about to promote
/// (`quiet_attack`), or one that shuts it in (`shut_in`); of equals an attack. After it the side that arrived keeps at
/// most `ceiling`, whatever it replies. A lower ceiling gives the same answer, or none.
///
/// `gain`, `mate` and `mated` are those of the side that arrived, with its best reply; the line starts with the answer.
/// No line when there is no such answer.
[[nodiscard]] inline Outcome quiet_refutation(const Position& arrived, Square to, int ceiling, int least_gain = 1,
                                              const Bound& bound = {}, const Values& values = {}) noexcept {
    const Outcome attacked = quiet_attack(arrived, to, ceiling, least_gain, bound, values);
    if (attacked.mated) return attacked;
    const int below = attacked.line.empty() ? ceiling : attacked.gain - 1;
    const Outcome shut = shut_in(arrived, to, below, least_gain, bound, values);
    return shut.line.empty() ? attacked : shut;
}

} // namespace keysquare
