// Language: the languages that sentences come in.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace keysquare {

/// The language of a sentence. Append only.
enum class Language : std::uint8_t {
    english, ///< the default
    german,  ///< moves with German letters (K D T L S)
    end_     ///< one past the last: no language, and no function that writes takes it
};

inline constexpr std::size_t language_count = static_cast<std::size_t>(Language::end_); ///< how many there are

/// The two-letter code of ISO 639-1: "en", "de".
[[nodiscard]] constexpr std::string_view name(Language language) noexcept {
    constexpr std::string_view names[] = {"en", "de", ""};
    return names[static_cast<std::size_t>(language)];
}

/// The language of that code, or `Language::end_`.
[[nodiscard]] constexpr Language language_named(std::string_view code) noexcept {
    for (std::size_t at = 0; at < language_count; ++at)
        if (name(static_cast<Language>(at)) == code) return static_cast<Language>(at);
    return Language::end_;
}

/// What there is to say of a code that `language_named` does not know; names those that it does.
[[nodiscard]] inline std::string unknown_language(std::string_view code) {
    std::string text = "no language is called \"";
    text.append(code).append("\"; there are ");
    for (std::size_t at = 0; at < language_count; ++at)
        text.append(at ? ", \"" : "\"").append(name(static_cast<Language>(at))).append("\"");
    return text;
}

} // namespace keysquare
