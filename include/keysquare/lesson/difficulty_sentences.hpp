// The paragraph about what a side has to see. It says nothing that the counts do not hold.
#pragma once

#include <string>

#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/difficulty.hpp>

namespace keysquare {

/// One short paragraph for one side: its choice, what is at stake, the line to be seen and its moves, what
/// looks as good, and the replies that have to be looked at.
[[nodiscard]] std::string paragraph(const Difficulty& difficulty, Language language = Language::english);

/// The paragraph for both sides, the mover first.
[[nodiscard]] std::string paragraph(const Difficulty& mover, const Difficulty& waiter,
                                    Language language = Language::english);

} // namespace keysquare
