// Shard: a part of a game file, small enough to hand to another process or machine.
#pragma once

#include <cstdint>
#include <filesystem>
#include <limits>
#include <span>
#include <vector>

namespace keysquare {

/// The games of a file that begin in a range of its bytes; a file that has become shorter than the range is `truncated_file`.
/// Where just the range is cut follows from the text alone
/// (`game_border`), so that shards that cover a file give all of its games, each of them once, wherever they are read.
struct Shard {
    /// The end of a whole file, however long it is.
    static constexpr std::uint64_t to_the_end = (std::numeric_limits<std::uint64_t>::max)();

    std::filesystem::path file;     ///< the file, as it was named
    std::uint64_t begin = 0;        ///< the first byte
    std::uint64_t end = to_the_end; ///< the byte after the last one

    /// Whether it is a whole file. Only of plain text there are other shards.
    [[nodiscard]] bool is_whole() const noexcept { return begin == 0 && end == to_the_end; }

    /// Whether all of it is equal.
    friend bool operator==(const Shard&, const Shard&) = default;
};

/// Shards that cover the files, in order, of about `size` bytes where a file is plain text. A compressed file is one
/// shard, as it can't be entered in the middle; so is a file that is no regular one (a pipe).
///
/// Throws InputError `cannot_open` for the first file that can't be opened. Precondition: `size > 0`. O(shards).
[[nodiscard]] std::vector<Shard> shards(std::span<const std::filesystem::path> files,
                                        std::uint64_t size = std::uint64_t{64} << 20U);

} // namespace keysquare
