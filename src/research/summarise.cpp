#include <condition_variable>
#include <exception>
#include <mutex>

#include <keysquare/research/summary.hpp>

#include "scan_threads.hpp"

namespace keysquare {

namespace {

std::vector<ChosenColumn> all_columns(const Summary& summary) {
    std::vector<ChosenColumn> all = summary.by();
    all.insert(all.end(), summary.columns().begin(), summary.columns().end());
    return all;
}

} // namespace

class Summarising::Work {
  public:
    Work(std::vector<Shard> shards, const Summary& empty, RowFilter filter, int threads, const Options& options)
        : whole_(empty), working_(threads),
          threads_(std::move(shards), std::move(filter), all_columns(empty), options) {
        threads_.start(threads, [this, empty] { work(empty); });
    }

    void stop() noexcept { threads_.stop(); }

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

    [[nodiscard]] ScanProgress progress() const noexcept { return threads_.progress(); }

  private:
    void work(Summary part) noexcept {
        try {
            RowReader reader = threads_.reader();
            while (std::optional<TextPiece> piece = threads_.pieces().next()) {
                ScanCounts counts = reader.read(*piece, [&](const GameRows& rows) {
                    part.add(rows);
                    threads_.count_row();
                    return true;
                });
                threads_.count_piece(*piece, counts.seen());
                keep_descriptions(piece->number, std::exchange(counts.refused, {}));
                part.add(counts);
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

    std::mutex mutex_; // of what stands below, until `working_`
    std::condition_variable done_;
    Summary whole_;
    std::map<std::uint64_t, std::vector<RefusedGame>> refused_; // by piece
    std::exception_ptr error_;
    int working_;
    ScanThreads threads_; // last, so that they are gone before what they use
};

Summarising::Summarising(std::vector<Shard> shards, const Summary& empty, RowFilter filter, int threads,
                         const Options& options)
    : work_(std::make_unique<Work>(std::move(shards), empty, std::move(filter), threads, options)) {}

Summarising::~Summarising() = default;

bool Summarising::wait(std::chrono::milliseconds patience) { return work_->wait(patience); }
Summary Summarising::result() { return work_->result(); }
void Summarising::stop() noexcept { work_->stop(); }
ScanProgress Summarising::progress() const noexcept { return work_->progress(); }

} // namespace keysquare
