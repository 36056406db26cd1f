// ScanThreads: threads that read the pieces of shards, and how far they are.
#pragma once

#include <thread>
#include <vector>

#include "row_reader.hpp"

namespace keysquare {

class ScanThreads {
  public:
    /// `columns`: those that will be asked for.
    ScanThreads(std::vector<Shard> shards, RowFilter filter, std::span<const ChosenColumn> columns,
                const Options& options)
        : pieces_(std::move(shards)), filter_(std::move(filter)),
          keep_comments_(std::ranges::any_of(columns, reads_comments)), options_(options) {}
    ScanThreads(const ScanThreads&) = delete;
    ScanThreads& operator=(const ScanThreads&) = delete;
    ~ScanThreads() { stop(); }

    /// Has so many threads call `work()`. What it uses must live until `stop` has returned. Throws `std::system_error`
    /// when the system gives no more threads; those that there are go on until then.
    template <class Work> void start(int count, Work work) {
        for (; count > 0; --count) threads_.emplace_back(work);
    }
    /// Ends the threads early and waits for them. Not to be called by one of them.
    void stop() noexcept {
        pieces_.stop();
        for (std::thread& thread : threads_)
            if (thread.joinable()) thread.join();
    }

    /// What each thread reads pieces with.
    [[nodiscard]] RowReader reader() { return {pieces_, filter_, keep_comments_, options_}; }
    [[nodiscard]] TextPieces& pieces() noexcept { return pieces_; }
    /// Says that a row was made.
    void count_row() noexcept { positions_.fetch_add(1, std::memory_order_relaxed); }
    /// Says that a piece with so many games was worked on.
    void count_piece(const TextPiece& piece, std::uint64_t games) noexcept {
        pieces_.done(piece);
        games_.fetch_add(games, std::memory_order_relaxed);
    }
    [[nodiscard]] ScanProgress progress() const noexcept {
        return {pieces_.bytes_taken(), pieces_.bytes_in_all(), games_.load(std::memory_order_relaxed),
                positions_.load(std::memory_order_relaxed)};
    }

  private:
    TextPieces pieces_;
    RowFilter filter_;
    bool keep_comments_;
    Options options_;
    std::atomic<std::uint64_t> games_ = 0;
    std::atomic<std::uint64_t> positions_ = 0;
    std::vector<std::thread> threads_;
};

} // namespace keysquare
