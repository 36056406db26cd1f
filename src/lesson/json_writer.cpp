// The texts of a JSON document.
#include "json_writer.hpp"

#include <algorithm>

#include <keysquare/notation/utf8.hpp>

namespace keysquare {

void JsonWriter::text(std::string_view bytes) {
    separate();
    json_ += '"';
    while (!bytes.empty()) bytes.remove_prefix(add_character(bytes));
    json_ += '"';
}

std::size_t JsonWriter::add_character(std::string_view rest) {
    const char first = rest.front();
    const auto code = static_cast<unsigned char>(first);
    if (code >= 0x80) {
        for (std::size_t size = 2; size <= std::min<std::size_t>(rest.size(), 4); ++size) {
            if (!detail::is_utf8(rest.substr(0, size))) continue;
            json_ += rest.substr(0, size);
            return size;
        }
        json_ += "\xEF\xBF\xBD"; // U+FFFD
        return 1;
    }
    if (first == '"' || first == '\\') {
        json_ += '\\';
        json_ += first;
    } else if (code < 0x20 || code == 0x7F) {
        constexpr std::string_view digits = "0123456789abcdef";
        json_ += "\\u00";
        json_ += digits[code >> 4U];
        json_ += digits[code & 15U];
    } else {
        json_ += first;
    }
    return 1;
}

} // namespace keysquare
