// TextPieces: shards cut into pieces of text that threads read apart.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include <keysquare/research/scan.hpp>

#include "notation/game_source.hpp"

namespace keysquare {

/// Some games of a shard, in one piece.
struct TextPiece {
    std::uint64_t number = 0;         ///< from 0, in the order of the shards and of the text
    std::string file;                 ///< as it was named
    std::uint64_t offset = 0;         ///< of the piece in the text of the file
    std::unique_ptr<ByteSource> text; ///< throws as `open_game_file` does
    std::uint64_t bytes = 0;          ///< taken from the disc for it, as far as they are not counted yet
};

/// Hands out pieces, from any thread. Plain text is read by whoever got the piece; compressed text is decompressed here,
/// by one thread at a time, and the other threads work on what they got meanwhile.
class TextPieces {
  public:
    explicit TextPieces(std::vector<Shard> shards);

    /// The next piece; nothing after the last one, or once it was stopped.
    [[nodiscard]] std::optional<TextPiece> next();
    /// Says that a piece was worked on.
    void done(const TextPiece& piece) noexcept { taken_.fetch_add(piece.bytes, std::memory_order_relaxed); }
    void stop() noexcept { stopped_.store(true, std::memory_order_relaxed); }
    /// How many pieces were handed out.
    [[nodiscard]] std::uint64_t count() noexcept {
        const std::lock_guard lock{mutex_};
        return number_;
    }
    [[nodiscard]] bool is_stopped() const noexcept { return stopped_.load(std::memory_order_relaxed); }

    [[nodiscard]] std::uint64_t bytes_taken() const noexcept { return taken_.load(std::memory_order_relaxed); }
    /// Of all shards; nothing when one does not tell.
    [[nodiscard]] std::optional<std::uint64_t> bytes_in_all() const noexcept { return in_all_; }

  private:
    void open_shard();
    void fill(std::size_t wanted);
    [[nodiscard]] std::optional<TextPiece> cut_plain();
    [[nodiscard]] std::optional<TextPiece> cut_stream();
    [[nodiscard]] TextPiece piece(std::uint64_t begin, std::unique_ptr<ByteSource> text);
    void leave_shard() noexcept;

    std::mutex mutex_;
    std::vector<Shard> shards_;
    std::size_t present_ = 0; // the shard that is being cut
    std::uint64_t number_ = 0;
    bool is_open_ = false;
    bool is_plain_ = false;
    std::uint64_t at_ = 0;               // where the next piece begins, in the text
    std::uint64_t end_ = 0;              // where the shard ends, in plain text
    std::unique_ptr<ByteSource> stream_; // of a compressed file
    std::string pending_;                // text of it that is in no piece yet
    std::optional<InputError> fault_;    // what broke the stream off
    ByteCount taken_ = 0;
    std::atomic<bool> stopped_ = false;
    std::optional<std::uint64_t> in_all_;
};

} // namespace keysquare
