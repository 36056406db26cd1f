// Literal: a string literal as a table of ours holds it.
#pragma once

#include <cstddef>
#include <string_view>

namespace keysquare {

/// A string literal. Made of the whole array, so that nobody counts its characters: compilers that evaluate our tables
/// would spend more time on that than on all else in them. What is handed out is a `std::string_view`, which hashes,
/// formats and converts.
struct Literal : std::string_view {
    /// The empty text.
    constexpr Literal() noexcept = default;
    /// Without the null character at its end. Not consteval: clang 14 breaks down over it, with sanitizers.
    template <std::size_t Size>
    constexpr Literal(const char (&text)[Size]) noexcept // NOLINT(google-explicit-constructor): a literal is one
        : std::string_view{text, Size - 1} {}
};

} // namespace keysquare
