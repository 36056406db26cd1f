// Compression: what compressed bytes begin with, and one interface for packing and unpacking in each format.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string_view>

#include <keysquare/notation/error.hpp>

namespace keysquare {

enum class Compression : std::uint8_t { none, gzip, bzip2, zstd };

/// So many first bytes decide.
inline constexpr std::size_t magic_size = 10;
/// The format that the first bytes of some data tell.
[[nodiscard]] Compression compression_told_by(std::string_view first_bytes) noexcept;
/// Whether some data that are too short to tell can be the beginning of that format. Precondition: not `none`.
[[nodiscard]] bool can_begin(Compression format, std::string_view first_bytes) noexcept;
/// The format that the name of a file promises: ".gz", ".bz2", ".zst".
[[nodiscard]] Compression compression_promised_by(const std::filesystem::path& path);

/// Turns bytes into other bytes, some at a time: packs them or unpacks them.
class ByteTransform {
  public:
    struct Progress {
        std::size_t taken = 0; ///< bytes of the input that were used up
        std::size_t given = 0; ///< bytes that were put out
        bool ended = false;    ///< unpacking: a member is complete; packing: everything has been put out
        /// Unpacking: why nothing follows what was put out, `bad_compression` or `window_too_large`.
        Reason fault = Reason::none;
    };

    ByteTransform() = default;
    ByteTransform(const ByteTransform&) = delete;
    ByteTransform& operator=(const ByteTransform&) = delete;
    virtual ~ByteTransform() = default;

    /// Neither part of the progress need be the whole. `last`: no input follows this one. What comes before a fault is
    /// put out, whatever the sizes of the parts. Precondition: no fault before.
    virtual Progress go_on(std::string_view in, std::span<char> out, bool last) = 0;
    /// Makes ready for another member. Precondition: unpacking, and the last one has ended.
    virtual void begin_member() = 0;
};

/// Unpacks or packs a format; none when this build was made without its library. Precondition: not `none`.
[[nodiscard]] std::unique_ptr<ByteTransform> unpacking(Compression format);
[[nodiscard]] std::unique_ptr<ByteTransform> packing(Compression format);

} // namespace keysquare
