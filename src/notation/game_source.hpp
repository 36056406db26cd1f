// The bytes of files, with a count of what was taken from the disc.
#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <memory>

#include <keysquare/notation/byte_source.hpp>

namespace keysquare {

using ByteCount = std::atomic<std::uint64_t>;

/// `open_game_file`, where `taken`, which the caller keeps, counts the bytes of the file that were read.
[[nodiscard]] Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path, ByteCount& taken);

/// The bytes of a file from `begin` up to `end`. Throws InputError `cannot_open`; when read, `truncated_file` if the file
/// ends before `end`, unless that is the greatest number.
[[nodiscard]] std::unique_ptr<ByteSource> open_range(const std::filesystem::path& path, std::uint64_t begin,
                                                     std::uint64_t end);

/// Whether it is a regular file of plain text, which can be entered anywhere. Throws InputError `cannot_open`.
[[nodiscard]] bool is_plain_text(const std::filesystem::path& path);

} // namespace keysquare
