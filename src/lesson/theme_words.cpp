#include <keysquare/lesson/theme_words.hpp>

#include "english_theme_words.hpp"
#include "german/theme_words.hpp"
#include "vocabulary.hpp"

namespace keysquare {

namespace {

/// Whether the rows stand in the order of `Theme`, one for each.
template <class Rows> [[nodiscard]] constexpr bool is_in_order_of_themes(const Rows& rows) noexcept {
    if (rows.size() != static_cast<std::size_t>(Theme::end_)) return false;
    for (std::size_t at = 0; at < rows.size(); ++at)
        if (rows[at].theme != static_cast<Theme>(at)) return false;
    return true;
}

static_assert(is_in_order_of_themes(english_theme_words) && is_in_order_of_themes(german_theme_words));

/// By language.
constexpr TableOf<ThemeWords> tables[language_count]{english_theme_words, german_theme_words};
constexpr std::string_view others[language_count]{"other ways", "andere Wege"};

} // namespace

const ThemeWords& words_of(Theme theme, Language language) noexcept {
    return tables[static_cast<std::size_t>(language)].first[static_cast<std::size_t>(theme)];
}

std::string_view other_themes(Language language) noexcept { return others[static_cast<std::size_t>(language)]; }

} // namespace keysquare
