// explain: one clear sentence for a finding, and its moves as a person writes them.
#pragma once

#include <string>
#include <string_view>

#include <keysquare/features/finding.hpp>
#include <keysquare/lesson/language.hpp>

namespace keysquare {

/// What stands for the letters "NBRQKO" of SAN in the moves of sentences, in that order.
[[nodiscard]] std::string_view move_letters(Language language = Language::english) noexcept;

/// The move as sentences of the language write it: SAN with the letters that its readers know, "Sf3" for "Nf3".
[[nodiscard]] std::string move_text(const Position& position, Move move, Language language = Language::english);

/// Moves with move numbers, "12.Nxd6 Bxd6 13.Rxd6", from the position that the first of them belongs to.
[[nodiscard]] std::string line_text(const Position& from, const Line& line, Language language = Language::english);

/// The position that a finding's line starts from: the position, with the move handed over, or without the removed man.
[[nodiscard]] Position start_of_line(const Position& position, const Finding& finding) noexcept;

/// One sentence for the finding; it says nothing that the finding does not hold. `position` is the one that the
/// finding was made for; it is needed to write the moves.
[[nodiscard]] std::string sentence(const Position& position, const Finding& finding,
                                   Language language = Language::english);

} // namespace keysquare
