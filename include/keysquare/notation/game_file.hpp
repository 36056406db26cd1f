// Game files: PGN from a path and to a path, compressed or not. (Part of keysquare::keysquare, as it needs files.)
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string_view>

#include <keysquare/notation/byte_source.hpp>
#include <keysquare/notation/pgn.hpp>

namespace keysquare {

/// Compressed data give no more than so many times their own size, or `free_expansion` bytes if that is more. (Games
/// shrink to a fifth or a tenth; no text that is worth reading comes near.)
inline constexpr std::uint64_t most_expansion = 1000;
inline constexpr std::uint64_t free_expansion = std::uint64_t{64} << 20U; ///< in bytes

/// The bytes of a source, decompressed when its first bytes say that they are gzip, bzip2 or zstd: as a stream, member
/// after member, in bounded memory (zstd windows of up to 128 MiB) and up to `most_expansion`. Damage never passes for
/// an end: after the last good byte reading throws InputError `bad_compression`, `truncated_file`, `window_too_large` or
/// `expands_too_much`. Of gzip and zstd, whose check sums stand at the end, bytes that the damage changed may come before.
/// Error: `compression_left_out` when the library was built without that format.
[[nodiscard]] Result<std::unique_ptr<ByteSource>> decompressed(std::unique_ptr<ByteSource> source);

/// The bytes of a file, decompressed as above. A file that gets shorter while it is read is a `truncated_file`, too; of
/// one that grows, what is there when its end is reached is read; of one that is overwritten in place, some of both. A
/// name that ends with ".gz", ".bz2" or ".zst" must not hold anything else than that or text. Errors: `cannot_open`, with
/// the file's name as token; `compression_left_out`; `bad_compression`; `truncated_file` (too little in a file of such a
/// name); `cannot_read`.
[[nodiscard]] Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path);

/// A reader of the games in a file, whose errors name it. Error: as `open_game_file`.
[[nodiscard]] Result<PgnReader> read_games(const std::filesystem::path& path, PgnOptions options = {});

/// Writes games one after another, in memory that does not grow with them. A name that ends with ".gz", ".bz2" or ".zst"
/// has them compressed. Until `close` they are in a file of another name in the same folder, so that nothing
/// half-written is ever found under the name, and what was there before stays until then. Without `close` that other
/// file is removed.
///
/// Everything throws InputError: `cannot_write`, with what the system says as token, and `compression_left_out`.
class GameFileWriter {
  public:
    /// The folder must exist; what has the name already must be a file, which is replaced.
    explicit GameFileWriter(const std::filesystem::path& path);
    GameFileWriter(const GameFileWriter&) = delete;
    GameFileWriter& operator=(const GameFileWriter&) = delete;
    /// Takes the file over.
    GameFileWriter(GameFileWriter&&) noexcept;
    /// Takes the file over; what this one wrote and did not finish is given up.
    GameFileWriter& operator=(GameFileWriter&&) noexcept;
    ~GameFileWriter();

    /// Adds a game in export format. Precondition: not closed.
    void write(const Game& game);
    /// Adds a game that is text already, as `write_pgn` gives it. Precondition: not closed.
    void write_text(std::string_view pgn);
    /// Puts the file in its place. Precondition: not closed.
    void close();

    /// How many games were written.
    [[nodiscard]] std::uint64_t count() const noexcept { return count_; }

  private:
    class File;
    std::unique_ptr<File> file_; // none once it is closed
    std::string text_;           // of the game that is being written
    std::uint64_t count_ = 0;
};

} // namespace keysquare
