// Characters that texts of every notation are made of, and texts without the white space around them.
#pragma once

#include <string_view>

namespace keysquare::detail {

[[nodiscard]] constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }
[[nodiscard]] constexpr bool is_letter(char c) noexcept { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// The text without the white space around it.
[[nodiscard]] inline std::string_view trimmed(std::string_view text) noexcept {
    constexpr std::string_view spaces = " \t\r\n\v\f";
    const auto first = text.find_first_not_of(spaces);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(spaces) - first + 1);
}

} // namespace keysquare::detail
