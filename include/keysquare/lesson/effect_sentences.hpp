// The sentences for what a move did, and the questions that go with it.
#pragma once

#include <string>

#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// One sentence about what `move`, played in `position`, did; it says nothing that the effect does not hold.
[[nodiscard]] std::string sentence(const Position& position, Move move, const MoveEffect& effect,
                                   Language language = Language::english);

/// What follows on a sentence that says what is won, its finding's or its threat's.
[[nodiscard]] std::string verdict(const Position& position, Move move, const MoveEffect& effect,
                                  Language language = Language::english);

/// The question to ask about it in `position`.
[[nodiscard]] std::string question(const Position& position, Move move, const MoveEffect& effect,
                                   Language language = Language::english);

/// The question to ask about a finding; empty when its theme is none by itself.
[[nodiscard]] std::string question(const Finding& finding, Language language = Language::english);

} // namespace keysquare
