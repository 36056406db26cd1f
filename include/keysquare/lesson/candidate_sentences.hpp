// The sentences for candidates: the reasons for a move in words. They say nothing that its facts do not hold.
#pragma once

#include <string>

#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/candidates.hpp>

namespace keysquare {

/// The reasons for one candidate, the weightiest first, and what speaks most against it. `position` is the one before
/// the move.
[[nodiscard]] std::string sentence(const Position& position, const Candidate& candidate,
                                   Language language = Language::english);

} // namespace keysquare
