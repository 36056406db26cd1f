// ThemeWords: what one theme is called. The tables of rows stand in theme_words.hpp and beside it.
#pragma once

#include <cstddef>
#include <string_view>

#include <keysquare/board/literal.hpp>
#include <keysquare/features/finding.hpp>

namespace keysquare {

/// The words for one theme.
struct ThemeWords {
    Theme theme;              ///< which theme
    std::string_view heading; ///< over one of them: "Fork"
    std::string_view several; ///< as a heading and after a count: "forks"
    std::string_view means; ///< how it wins something, {means} beside {win}: " by a fork"; empty when that says nothing
    /// What to ask where it is to be seen; {Side} is the side that it is good for, {Other} the other one. Empty for
    /// themes that are no question by themselves.
    std::string_view question;

    /// In the order of the members.
    constexpr ThemeWords(Theme theme_, Literal heading_, Literal several_, Literal means_, Literal question_) noexcept
        : theme(theme_), heading(heading_), several(several_), means(means_), question(question_) {}
};

/// Whether the rows stand in the order of `Theme`, one for each.
template <class Rows> [[nodiscard]] constexpr bool is_in_order_of_themes(const Rows& rows) noexcept {
    if (rows.size() != static_cast<std::size_t>(Theme::end_)) return false;
    for (std::size_t at = 0; at < rows.size(); ++at)
        if (rows[at].theme != static_cast<Theme>(at)) return false;
    return true;
}

} // namespace keysquare
