// A column of text that came in by the Arrow C data interface, read where it lies (Apache Arrow, "Columnar format").
#pragma once

#include <cstdint>
#include <cstring>
#include <optional>
#include <stdexcept>
#include <string_view>

#include <keysquare/research/arrow_interface.hpp>

namespace keysquare::python {

/// How the values of a column of text are laid out.
enum class TextLayout : std::uint8_t {
    offsets,       ///< string: 32-bit offsets into one buffer
    large_offsets, ///< large_string: 64-bit ones
    views,         ///< string_view: the text itself when it is short, otherwise its place in one of many buffers
    nulls          ///< null: no values at all, as in an empty list
};

/// Nothing for a column of anything else, and for text that a dictionary encodes.
inline std::optional<TextLayout> text_layout(const ArrowSchema& schema) {
    const std::string_view format = schema.format;
    if (schema.dictionary) return std::nullopt;
    if (format == "u") return TextLayout::offsets;
    if (format == "U") return TextLayout::large_offsets;
    if (format == "vu") return TextLayout::views;
    if (format == "n") return TextLayout::nulls;
    return std::nullopt;
}

/// The texts of an array, which must outlive this. The interface does not say how long offsets and plain text are, so
/// what can be checked is that they agree with each other: `std::invalid_argument` where they don't.
class ArrowTexts {
  public:
    ArrowTexts(TextLayout layout, const ArrowArray& array) : layout_(layout), array_(array) {
        check(array.length >= 0 && array.offset >= 0);
        check(layout == TextLayout::nulls || array.n_buffers >= 3);
        check(layout == TextLayout::nulls || array.length == 0 || array.buffers[1] != nullptr);
    }

    [[nodiscard]] std::int64_t size() const noexcept { return array_.length; }

    /// Nothing for a null.
    [[nodiscard]] std::optional<std::string_view> at(std::int64_t row) const {
        if (is_null(array_.offset + row)) return std::nullopt;
        switch (layout_) {
        case TextLayout::offsets: return between<std::int32_t>(array_.offset + row);
        case TextLayout::large_offsets: return between<std::int64_t>(array_.offset + row);
        default: return viewed(array_.offset + row);
        }
    }

  private:
    static void check(bool is_sound) {
        if (!is_sound) throw std::invalid_argument("a damaged Arrow array: its buffers contradict each other");
    }
    /// A number of a buffer, which need not be aligned.
    template <class Number> static Number number_at(const void* buffer, std::int64_t at) {
        Number number;
        std::memcpy(&number, static_cast<const char*>(buffer) + at * static_cast<std::int64_t>(sizeof number),
                    sizeof number);
        return number;
    }
    static std::string_view piece(const void* text, std::int64_t begin, std::int64_t size) {
        if (size == 0) return {}; // there need not be a buffer then
        check(text != nullptr);
        return {static_cast<const char*>(text) + begin, static_cast<std::size_t>(size)};
    }

    [[nodiscard]] bool is_null(std::int64_t slot) const {
        if (layout_ == TextLayout::nulls) return true;
        const auto* const has_value = static_cast<const std::uint8_t*>(array_.buffers[0]);
        return has_value && !(has_value[slot / 8] >> (slot % 8) & 1);
    }
    template <class Offset> [[nodiscard]] std::string_view between(std::int64_t slot) const {
        const auto begin = number_at<Offset>(array_.buffers[1], slot);
        const auto end = number_at<Offset>(array_.buffers[1], slot + 1);
        check(0 <= begin && begin <= end);
        return piece(array_.buffers[2], begin, end - begin);
    }
    [[nodiscard]] std::string_view viewed(std::int64_t slot) const {
        constexpr std::int32_t longest_inline = 12;
        const auto part = [&](std::int64_t at) { return number_at<std::int32_t>(array_.buffers[1], slot * 4 + at); };
        const std::int32_t size = part(0);
        check(size >= 0);
        if (size <= longest_inline) return piece(array_.buffers[1], slot * 16 + 4, size);
        const std::int64_t buffers = array_.n_buffers - 3; // without the bits, the views and, at the end, the sizes
        const std::int32_t buffer = part(2);
        const std::int32_t begin = part(3);
        check(0 <= buffer && buffer < buffers && begin >= 0);
        const void* const sizes = array_.buffers[buffers + 2];
        check(sizes && std::int64_t{begin} + size <= number_at<std::int64_t>(sizes, buffer));
        return piece(array_.buffers[buffer + 2], begin, size);
    }

    TextLayout layout_;
    const ArrowArray& array_;
};

} // namespace keysquare::python
