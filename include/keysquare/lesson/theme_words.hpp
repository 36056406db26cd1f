// Theme words: what a theme is called in a sentence, and the question that a teacher asks about it.
#pragma once

#include <string_view>

#include <keysquare/board/literal.hpp>
#include <keysquare/features/finding.hpp>
#include <keysquare/lesson/language.hpp>

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

/// The words for a theme. Precondition: not `Theme::end_`.
[[nodiscard]] const ThemeWords& words_of(Theme theme, Language language = Language::english) noexcept;

/// What things of no theme are called: "other ways".
[[nodiscard]] std::string_view other_themes(Language language = Language::english) noexcept;

} // namespace keysquare
