// The sentences about the outlook of both sides. They say nothing that the result does not hold.
#pragma once

#include <cstddef>
#include <string>

#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/exchange_outlook.hpp>

namespace keysquare {

/// No more kinds of useful moves than this are named, and no more moves of each.
inline constexpr std::size_t most_useful_kinds = 3;
inline constexpr std::size_t most_useful_of_a_kind = 3; ///< How many moves of a kind are named.

/// What one side can do, in a few sentences. `position` is the one that the outlook was asked for.
[[nodiscard]] std::string paragraph(const Position& position, const SideOutlook& side,
                                    Language language = Language::english);

/// What both sides can do, the mover first, in a paragraph that can be read out.
[[nodiscard]] std::string paragraph(const Position& position, const Outlook& outlook,
                                    Language language = Language::english);

/// What there is to show for the exchange, the guardian that left, and who has threats and useful moves.
[[nodiscard]] std::string paragraph(const Position& position, const ExchangeOutlook& exchange,
                                    Language language = Language::english);

} // namespace keysquare
