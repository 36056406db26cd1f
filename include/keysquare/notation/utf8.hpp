// UTF-8, and the Latin-1 that old game files hold instead.
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace keysquare::detail {

/// How many ASCII characters the text begins with, looked at eight at a time: so up to seven of them may be left.
[[nodiscard]] inline std::size_t skip_ascii(std::string_view text) noexcept {
    std::size_t at = 0;
    for (std::uint64_t eight = 0; at + sizeof eight <= text.size(); at += sizeof eight) {
        std::memcpy(&eight, text.data() + at, sizeof eight);
        if ((eight & 0x8080808080808080U) != 0) break;
    }
    return at;
}

/// Whether the bytes are well-formed UTF-8: no overlong forms, no surrogates, nothing above U+10FFFF.
[[nodiscard]] inline bool is_utf8(std::string_view text) noexcept {
    for (std::size_t at = skip_ascii(text); at < text.size();) {
        const auto byte = [&](std::size_t ahead) {
            return at + ahead < text.size() ? static_cast<unsigned char>(text[at + ahead]) : 0U;
        };
        const unsigned lead = byte(0);
        const std::size_t length = lead < 0x80 ? 1U : lead < 0xC2 ? 0U : lead < 0xE0 ? 2U : lead < 0xF0 ? 3U : 4U;
        if (length == 0 || lead > 0xF4) return false;
        for (std::size_t ahead = 1; ahead < length; ++ahead)
            if ((byte(ahead) & 0xC0U) != 0x80U) return false;
        if ((lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F)) return false;
        if ((lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F)) return false;
        at += length;
    }
    return true;
}

/// Leaves UTF-8 as it is and takes anything else for Latin-1, where every byte is the code point of its number.
inline void make_utf8(std::string& text) {
    if (is_utf8(text)) return;
    std::string converted;
    converted.reserve(text.size() + text.size() / 4);
    for (const char c : text) {
        const auto code = static_cast<unsigned char>(c);
        if (code < 0x80) {
            converted += c;
        } else {
            converted += static_cast<char>(0xC0U | code >> 6U);
            converted += static_cast<char>(0x80U | (code & 0x3FU));
        }
    }
    text = std::move(converted);
}

} // namespace keysquare::detail
