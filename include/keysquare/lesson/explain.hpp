// explain: one clear sentence for a finding, and its moves as a person writes them.
#pragma once

#include <string>

#include <keysquare/lesson/sentences.hpp>
#include <keysquare/lesson/words.hpp>

namespace keysquare {

/// The position that a finding's line starts from: the position, with the move handed over, or without the removed man.
[[nodiscard]] Position start_of_line(const Position& position, const Finding& finding) noexcept;

/// One sentence for the finding; it says nothing that the finding does not hold. `position` is the one that the
/// finding was made for; it is needed to write the moves.
[[nodiscard]] std::string sentence(const Position& position, const Finding& finding,
                                   Language language = Language::english);

} // namespace keysquare

#include <keysquare/lesson/explain_impl.hpp>
