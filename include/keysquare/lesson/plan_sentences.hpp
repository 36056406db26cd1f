// The sentences about routes and plans. They say nothing that the result does not hold.
#pragma once

#include <cstddef>
#include <string>

#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/plan.hpp>
#include <keysquare/thinking/route.hpp>

namespace keysquare {

/// No more findings that a plan creates are told in its paragraph.
inline constexpr std::size_t most_told_findings = 2;

/// One sentence for the routes of a piece.
[[nodiscard]] std::string sentence(const Routes& routes, Language language = Language::english);

/// One short paragraph for a plan: its steps; the first stop that is not safe; the first reply that spoils it;
/// what is won, the strongest findings that it creates for the planner, and the squares; what the other side could do.
[[nodiscard]] std::string paragraph(const PlanCheck& plan, Language language = Language::english);

} // namespace keysquare
