// quiet_refutation: the quiet answer that captures and checks do not see.
#pragma once

#include <keysquare/tactics/shut_in.hpp>

namespace keysquare {

/// The strongest quiet answer to the arrival of a man on `to`: one that attacks it or is about to promote
/// (`quiet_attack`); where there is none, one that shuts it in (`shut_in`). After it the side that arrived keeps at
/// most `ceiling`, whatever it replies.
///
/// `gain`, `mate` and `mated` are those of the side that arrived, with its best reply; the line starts with the answer.
/// No line when there is no such answer.
[[nodiscard]] inline Outcome quiet_refutation(const Position& arrived, Square to, int ceiling, int least_gain = 1,
                                              const Bound& bound = {}, const Values& values = {}) noexcept {
    const Outcome attacked = quiet_attack(arrived, to, ceiling, least_gain, bound, values);
    return attacked.line.empty() ? shut_in(arrived, to, ceiling, least_gain, bound, values) : attacked;
}

} // namespace keysquare
