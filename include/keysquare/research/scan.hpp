// scan: the positions of any number of games as a table, batch after batch, on several threads.
#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <keysquare/research/arrow_interface.hpp>
#include <keysquare/research/row_batch.hpp>
#include <keysquare/research/shard.hpp>

namespace keysquare {

/// Which rows are wanted.
struct RowFilter {
    GameFilter games{}; ///< which games
    PlyFilter plies{};  ///< which of their positions
};

/// A game that could not be read.
struct RefusedGame {
    std::string file;              ///< as it was named
    std::uint64_t game_offset = 0; ///< bytes of the text before the game
    InputError error;              ///< `offset` counts from the start of the text, `line` from that of the game
};

/// What became of the games of a scan. The numbers of parts can be added.
struct ScanCounts {
    std::uint64_t games = 0;                             ///< games whose positions were looked at
    std::uint64_t left_out = 0;                          ///< games that the filter left out
    std::uint64_t positions = 0;                         ///< rows
    std::map<Reason, std::uint64_t> refused_by_reason{}; ///< how many games were refused, by reason
    /// The first `most_described` refused games, in the order of the files and in them.
    std::vector<RefusedGame> refused{};

    static constexpr std::size_t most_described = 100; ///< No more refused games than these are described.

    /// How many games were refused in all.
    [[nodiscard]] std::uint64_t refused_games() const noexcept;
    /// All games that there are: `games + left_out + refused_games()`.
    [[nodiscard]] std::uint64_t seen() const noexcept { return games + left_out + refused_games(); }
    /// Adds those of a later part.
    ScanCounts& operator+=(const ScanCounts& later);
};

/// How far a scan is. Can be asked at any time.
struct ScanProgress {
    std::uint64_t bytes = 0;               ///< bytes of the files gone through, as they are on the disc
    std::optional<std::uint64_t> of_bytes; ///< all there are; nothing when a file does not tell its length
    std::uint64_t games = 0;               ///< seen so far
    std::uint64_t positions = 0;           ///< rows so far
};

/// Reads shards on several threads and gives what they hold as batches, in the order of the shards and of the games in
/// them. The rows, and where they are cut into batches, do not depend on the number of threads. Memory is bounded: about
/// 30 MB a thread with all columns, whatever the files hold; the threads wait for a consumer that is slower.
///
/// A file that breaks off or can't be decompressed counts as one refused game, as with `PgnReader`. `next`, `counts` and
/// `stop` belong to one thread at a time.
class Scan {
  public:
    /// What a call of `next` that waits no longer than told came to.
    enum class Event : std::uint8_t {
        batch,  ///< a batch was given
        end,    ///< there is no further one
        timeout ///< none came in time
    };

    /// Precondition: `threads >= 1`.
    Scan(std::vector<Shard> shards, std::vector<ChosenColumn> columns, RowFilter filter, int threads,
         const Options& options = {});
    Scan(const Scan&) = delete;
    Scan& operator=(const Scan&) = delete;
    /// Stops.
    ~Scan();

    /// The next batch, never an empty one; null at the end. Throws what a thread threw, `std::bad_alloc` for example.
    [[nodiscard]] std::shared_ptr<const RowBatch> next();
    /// The same, but waits no longer than that. Puts the batch into `batch`.
    [[nodiscard]] Event next(std::shared_ptr<const RowBatch>& batch, std::chrono::milliseconds patience);
    /// Ends it early: the threads finish their present position (or game, when a column asks what moves missed or allowed)
    /// and are gone when this returns. `next` then gives the end.
    void stop() noexcept;

    /// Of the pieces of text whose batches were all given; of everything at the end.
    [[nodiscard]] const ScanCounts& counts() const noexcept;
    /// How far it is. From any thread.
    [[nodiscard]] ScanProgress progress() const noexcept;
    /// What the columns of its batches are.
    [[nodiscard]] const ScanColumns& columns() const noexcept;

  private:
    class Work;
    std::unique_ptr<Work> work_;
};

/// Rows in a batch at most; fewer at the end of a piece of text.
inline constexpr std::size_t batch_rows = 8192;

/// The schema of the batches of a scan: a struct with a field for each column. The caller releases it.
[[nodiscard]] ArrowSchema arrow_schema(const ScanColumns& columns);
/// The batch as such a struct, whose buffers are those of the batch. The caller releases it.
[[nodiscard]] ArrowArray arrow_array(const std::shared_ptr<const RowBatch>& batch);

} // namespace keysquare
