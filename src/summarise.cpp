#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>

#include <keysquare/research/summary.hpp>

#include "row_reader.hpp"

namespace keysquare {

class Summarising::Work {
  public:
    Work(std::vector<Shard> shards, const Summary& empty, RowFilter filter, int threads, Options options)
        : pieces_(std::move(shards)), filter_(std::move(filter)), options_(std::move(options)), whole_(empty),
          working_(threads) {
        for (int count = 0; count < threads; ++count) threads_.emplace_back([this, empty] { work(empty); });
    }
    Work(const Work&) = delete;
    Work& operator=(const Work&) = delete;
    ~Work() { stop(); }

    void stop() noexcept {
        pieces_.stop();
        for (std::thread& thread : threads_)
            if (thread.joinable()) thread.join();
    }

    bool wait(std::optional<std::chrono::milliseconds> patience) {
        std::unique_lock lock{mutex_};
        const auto is_done = [&] { return working_ == 0 || error_; };
        if (!patience)
            done_.wait(lock, is_done);
        else if (!done_.wait_for(lock, *patience, is_done))
            return false;
        if (error_) std::rethrow_exception(error_);
        return true;
    }

    Summary result() {
        (void)wait(std::nullopt);
        ScanCounts descriptions;
        for (auto& [piece, refused] : refused_) { // in the order of the pieces
            ScanCounts part;
            part.refused = std::move(refused);
            descriptions += part;
        }
        whole_.add(descriptions);
        return std::move(whole_);
    }

    [[nodiscard]] ScanProgress progress() const noexcept {
        return {pieces_.bytes_taken(), pieces_.bytes_in_all(), games_.load(std::memory_order_relaxed),
                positions_.load(std::memory_order_relaxed)};
    }

  private:
    void work(Summary part) noexcept {
        try {
            RowReader reader{pieces_, filter_, options_};
            while (std::optional<TextPiece> piece = pieces_.next()) {
                ScanCounts counts = reader.read(*piece, [&](const GameRows& rows) {
                    part.add(rows);
                    positions_.fetch_add(1, std::memory_order_relaxed);
                    return true;
                });
                games_.fetch_add(counts.seen(), std::memory_order_relaxed);
                keep_descriptions(piece->number, std::exchange(counts.refused, {}));
                part.add(counts);
                pieces_.done(*piece);
            }
            const std::lock_guard lock{mutex_};
            whole_ += part;
            --working_;
        } catch (...) {
            const std::lock_guard lock{mutex_};
            if (!error_) error_ = std::current_exception();
        }
        done_.notify_all();
    }

    /// Of the pieces that come first, since others are told only when these leave room.
    void keep_descriptions(std::uint64_t piece, std::vector<RefusedGame> refused) {
        if (refused.empty()) return;
        const std::lock_guard lock{mutex_};
        refused_[piece] = std::move(refused);
        if (refused_.size() > ScanCounts::most_described) refused_.erase(std::prev(refused_.end()));
    }

    TextPieces pieces_;
    RowFilter filter_;
    Options options_;
    std::mutex mutex_; // of what stands below, until `working_`
    std::condition_variable done_;
    Summary whole_;
    std::map<std::uint64_t, std::vector<RefusedGame>> refused_; // by piece
    std::exception_ptr error_;
    int working_;
    std::atomic<std::uint64_t> games_ = 0;
    std::atomic<std::uint64_t> positions_ = 0;
    std::vector<std::thread> threads_;
};

Summarising::Summarising(std::vector<Shard> shards, const Summary& empty, RowFilter filter, int threads,
                         Options options)
    : work_(std::make_unique<Work>(std::move(shards), empty, std::move(filter), threads, std::move(options))) {}

Summarising::~Summarising() = default;

bool Summarising::wait(std::chrono::milliseconds patience) { return work_->wait(patience); }
Summary Summarising::result() { return work_->result(); }
void Summarising::stop() noexcept { work_->stop(); }
ScanProgress Summarising::progress() const noexcept { return work_->progress(); }

} // namespace keysquare
