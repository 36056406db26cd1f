// TextWindow: a few kilobytes of a byte source at a time, with the place in it.
#pragma once

#include <cstdint>
#include <cstring>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>

#include <keysquare/notation/byte_source.hpp>

namespace keysquare::detail {

/// A place in a text: line and column from 1, the column in bytes, and the number of bytes before it.
struct TextPlace {
    std::size_t line = 1;
    std::size_t column = 1;
    std::uint64_t offset = 0;

    /// The place so many bytes further on in the same line.
    [[nodiscard]] TextPlace ahead(std::size_t bytes) const noexcept { return {line, column + bytes, offset + bytes}; }
};

/// Shows the next bytes of a source. After `ensure()` at least `lookahead` of them, or all that are left, stand in one
/// piece; a zero byte follows the last one, so that scans need no test for the end.
class TextWindow {
  public:
    static constexpr std::size_t lookahead = 512;
    static constexpr std::size_t capacity = std::size_t{1} << 16U;

    explicit TextWindow(std::unique_ptr<ByteSource> source)
        : source_(std::move(source)), bytes_(std::make_unique<char[]>(capacity + 1)) {
        bytes_[0] = '\0';
        ensure();
        if (rest().starts_with("\xEF\xBB\xBF")) at_ = line_start_ = 3;
    }

    void ensure() {
        if (end_ - at_ < lookahead && source_) refill();
    }

    /// The next byte, 0 at the end (and for a zero byte).
    [[nodiscard]] char peek() const noexcept { return bytes_[at_]; }
    [[nodiscard]] const char* data() const noexcept { return &bytes_[at_]; }
    [[nodiscard]] std::string_view rest() const noexcept { return {data(), end_ - at_}; }
    [[nodiscard]] bool at_end() const noexcept { return at_ == end_; }
    void advance(std::size_t count) noexcept { at_ += count; }
    /// Goes over a line feed. Precondition: it is the next byte.
    void advance_line() noexcept {
        ++at_;
        ++line_;
        line_start_ = offset();
    }

    [[nodiscard]] std::uint64_t offset() const noexcept { return base_ + at_; }
    [[nodiscard]] TextPlace place() const noexcept {
        return {line_, static_cast<std::size_t>(offset() - line_start_) + 1, offset()};
    }
    [[nodiscard]] bool at_line_start() const noexcept { return offset() == line_start_; }

    /// What broke the source off, when it did not just end.
    [[nodiscard]] const std::optional<InputError>& fault() const noexcept { return fault_; }

  private:
    void refill() {
        std::memmove(bytes_.get(), &bytes_[at_], end_ - at_);
        base_ += at_;
        end_ -= at_;
        at_ = 0;
        while (source_ && end_ < lookahead) {
            const std::size_t count = read_some();
            if (count == 0) source_.reset();
            end_ += count;
        }
        bytes_[end_] = '\0';
    }

    /// Reads behind the bytes held; a source that breaks off counts as one that ends.
    std::size_t read_some() {
        try {
            return source_->read(&bytes_[end_], capacity - end_);
        } catch (const InputError& error) {
            fault_ = error;
            return 0;
        }
    }

    std::unique_ptr<ByteSource> source_; // none once it has ended
    std::unique_ptr<char[]> bytes_;
    std::size_t at_ = 0;
    std::size_t end_ = 0;
    std::uint64_t base_ = 0; // offset of the first byte held
    std::uint64_t line_start_ = 0;
    std::size_t line_ = 1;
    std::optional<InputError> fault_;
};

} // namespace keysquare::detail
