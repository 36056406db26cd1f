// ByteSource: where a reader's bytes come from, chunk by chunk. (`StreamSource` is part of keysquare::keysquare.)
#pragma once

#include <algorithm>
#include <cstring>
#include <iosfwd>
#include <string_view>

#include <keysquare/notation/error.hpp>

namespace keysquare {

/// A stream of bytes, already decompressed.
class ByteSource {
  public:
    ByteSource() = default;
    ByteSource(const ByteSource&) = delete;
    ByteSource& operator=(const ByteSource&) = delete;
    virtual ~ByteSource() = default;

    /// Puts up to `size` (at least 1) next bytes at `to` and returns how many; 0 only at the end.
    /// Throws InputError (`cannot_read`) when there should be more and it can't be had.
    virtual std::size_t read(char* to, std::size_t size) = 0;
};

/// The bytes of a text that the caller keeps alive.
class TextSource final : public ByteSource {
  public:
    /// Reads this text, which must outlive it.
    explicit TextSource(std::string_view text) noexcept : rest_(text) {}

    std::size_t read(char* to, std::size_t size) override {
        const std::size_t count = (std::min)(size, rest_.size());
        if (count > 0) std::memcpy(to, rest_.data(), count);
        rest_.remove_prefix(count);
        return count;
    }

  private:
    std::string_view rest_;
};

/// The bytes of a stream that the caller keeps alive.
class StreamSource final : public ByteSource {
  public:
    /// Reads this stream, which must outlive it.
    explicit StreamSource(std::istream& stream) noexcept : stream_(stream) {}

    std::size_t read(char* to, std::size_t size) override;

  private:
    std::istream& stream_;
};

} // namespace keysquare
