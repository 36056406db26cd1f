#include <keysquare/research/scan.hpp>

#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>

#include "scan_threads.hpp"

namespace keysquare {

std::uint64_t ScanCounts::refused_games() const noexcept {
    std::uint64_t sum = 0;
    for (const auto& [reason, count] : refused_by_reason) sum += count;
    return sum;
}

ScanCounts& ScanCounts::operator+=(const ScanCounts& later) {
    games += later.games;
    left_out += later.left_out;
    positions += later.positions;
    for (const auto& [reason, count] : later.refused_by_reason) refused_by_reason[reason] += count;
    const std::size_t room = most_described - refused.size();
    refused.insert(refused.end(), later.refused.begin(),
                   later.refused.begin() + static_cast<std::ptrdiff_t>((std::min)(room, later.refused.size())));
    return *this;
}

namespace {

/// What the threads made of the pieces, on its way to the consumer, in the order of the pieces.
class Output {
  public:
    using Batch = std::shared_ptr<const RowBatch>;

    explicit Output(int threads) : most_ahead_(static_cast<std::uint64_t>(threads) + 1) {}

    /// Waits until the consumer is near enough for work on that piece to begin. False once it is stopped.
    bool admit(std::uint64_t piece) {
        std::unique_lock lock{mutex_};
        room_.wait(lock, [&] { return stopped_ || piece < head_ + most_ahead_; });
        return !stopped_;
    }
    /// Adds a batch of a piece. Waits while too many of them wait. False once it is stopped.
    bool push(std::uint64_t piece, Batch batch) {
        std::unique_lock lock{mutex_};
        room_.wait(lock, [&] { return stopped_ || slots_[piece].batches.size() < most_waiting; });
        if (stopped_) return false;
        slots_[piece].batches.push_back(std::move(batch));
        news_.notify_one();
        return true;
    }
    void finish(std::uint64_t piece, ScanCounts counts) {
        const std::lock_guard lock{mutex_};
        slots_[piece].counts = std::move(counts);
        news_.notify_one();
    }
    /// Says how many pieces there are.
    void end(std::uint64_t pieces) {
        const std::lock_guard lock{mutex_};
        pieces_ = pieces;
        news_.notify_one();
    }
    void fail(std::exception_ptr error) noexcept {
        const std::lock_guard lock{mutex_};
        if (!error_) error_ = std::move(error);
        news_.notify_one();
    }
    void stop() noexcept {
        const std::lock_guard lock{mutex_};
        stopped_ = true;
        slots_.clear();
        room_.notify_all();
    }

    Scan::Event next(Batch& batch, std::optional<std::chrono::milliseconds> patience) {
        std::unique_lock lock{mutex_};
        const auto has_news = [&] { return take_finished() || stopped_ || error_; };
        if (!patience)
            news_.wait(lock, has_news);
        else if (!news_.wait_for(lock, *patience, has_news))
            return Scan::Event::timeout;
        if (error_) std::rethrow_exception(error_);
        if (stopped_ || head_ == pieces_) return Scan::Event::end;
        auto& waiting = slots_[head_].batches;
        batch = std::move(waiting.front());
        waiting.pop_front();
        room_.notify_all();
        return Scan::Event::batch;
    }
    /// Touched by the consumer alone.
    [[nodiscard]] const ScanCounts& counts() const noexcept { return counts_; }

  private:
    static constexpr std::size_t most_waiting = 2;

    struct Slot {
        std::deque<Batch> batches;
        std::optional<ScanCounts> counts; // once the piece is finished
    };

    /// Goes past the pieces of which everything was taken. Whether there is a batch, or the end, to be taken now.
    bool take_finished() {
        for (;;) {
            if (head_ == pieces_) return true;
            const auto slot = slots_.find(head_);
            if (slot == slots_.end()) return false;
            if (!slot->second.batches.empty()) return true;
            if (!slot->second.counts) return false;
            counts_ += *slot->second.counts;
            slots_.erase(slot);
            ++head_;
            room_.notify_all();
        }
    }

    std::mutex mutex_;
    std::condition_variable news_; // for the consumer
    std::condition_variable room_; // for the threads
    std::map<std::uint64_t, Slot> slots_;
    std::uint64_t head_ = 0; // the piece whose batches are taken now
    std::uint64_t pieces_ = Shard::to_the_end;
    std::uint64_t most_ahead_;
    std::exception_ptr error_;
    bool stopped_ = false;
    ScanCounts counts_;
};

/// Batches that were let go of, to be filled again: with fresh memory for each, threads wait for the system.
class BatchPool : public std::enable_shared_from_this<BatchPool> {
  public:
    BatchPool(std::shared_ptr<const ScanColumns> columns, std::size_t most)
        : columns_(std::move(columns)), most_(most) {
        free_.reserve(most_);
    }

    std::shared_ptr<RowBatch> take() {
        std::unique_ptr<RowBatch> batch = take_free();
        if (!batch) batch = std::make_unique<RowBatch>(columns_, batch_rows);
        return {batch.release(), [pool = shared_from_this()](RowBatch* done) { pool->give_back(done); }};
    }

  private:
    std::unique_ptr<RowBatch> take_free() {
        const std::lock_guard lock{mutex_};
        if (free_.empty()) return nullptr;
        std::unique_ptr<RowBatch> batch = std::move(free_.back());
        free_.pop_back();
        return batch;
    }
    void give_back(RowBatch* done) noexcept {
        std::unique_ptr<RowBatch> batch{done};
        batch->clear();
        const std::lock_guard lock{mutex_};
        if (free_.size() < most_) free_.push_back(std::move(batch)); // there is room for it
    }

    std::shared_ptr<const ScanColumns> columns_;
    std::size_t most_;
    std::mutex mutex_;
    std::vector<std::unique_ptr<RowBatch>> free_;
};

} // namespace

class Scan::Work {
  public:
    Work(std::vector<Shard> shards, std::vector<ChosenColumn> columns, RowFilter filter, int threads,
         const Options& options)
        : columns_(std::make_shared<const ScanColumns>(std::move(columns))),
          pool_(std::make_shared<BatchPool>(columns_, 2 * static_cast<std::size_t>(threads))), output_(threads),
          working_(threads), threads_(std::move(shards), std::move(filter), columns_->all, options) {
        try {
            threads_.start(threads, [this] { work(); });
        } catch (...) {
            stop();
            throw;
        }
    }
    Work(const Work&) = delete;
    Work& operator=(const Work&) = delete;
    ~Work() { stop(); }

    void stop() noexcept {
        threads_.pieces().stop();
        output_.stop();
        threads_.stop();
    }

    Output& output() noexcept { return output_; }
    [[nodiscard]] const ScanColumns& columns() const noexcept { return *columns_; }
    [[nodiscard]] ScanProgress progress() const noexcept { return threads_.progress(); }

  private:
    void work() noexcept {
        try {
            TextPieces& pieces = threads_.pieces();
            RowReader reader = threads_.reader();
            while (std::optional<TextPiece> piece = pieces.next())
                if (!output_.admit(piece->number) || !work_on(*piece, reader)) return;
            if (!pieces.is_stopped() && working_.fetch_sub(1) == 1) output_.end(pieces.count());
        } catch (...) {
            output_.fail(std::current_exception());
        }
    }

    /// False once it is stopped.
    bool work_on(TextPiece& piece, RowReader& reader) {
        std::shared_ptr<RowBatch> batch;
        const auto give = [&] { return !batch || output_.push(piece.number, std::exchange(batch, nullptr)); };
        bool goes_on = true;
        ScanCounts counts = reader.read(piece, [&](const GameRows& rows) {
            if (!batch) batch = pool_->take();
            batch->add(rows);
            threads_.count_row();
            return !batch->full() || (goes_on = give());
        });
        if (!goes_on || threads_.pieces().is_stopped() || !give()) return false;
        threads_.count_piece(piece, counts.seen());
        output_.finish(piece.number, std::move(counts));
        return true;
    }

    std::shared_ptr<const ScanColumns> columns_;
    std::shared_ptr<BatchPool> pool_;
    Output output_;
    std::atomic<int> working_; // threads that may still find a piece
    ScanThreads threads_;
};

Scan::Scan(std::vector<Shard> shards, std::vector<ChosenColumn> columns, RowFilter filter, int threads,
           const Options& options)
    : work_(std::make_unique<Work>(std::move(shards), std::move(columns), std::move(filter), threads, options)) {}

Scan::~Scan() = default;

std::shared_ptr<const RowBatch> Scan::next() {
    std::shared_ptr<const RowBatch> batch;
    (void)work_->output().next(batch, std::nullopt);
    return batch;
}

Scan::Event Scan::next(std::shared_ptr<const RowBatch>& batch, std::chrono::milliseconds patience) {
    return work_->output().next(batch, patience);
}

void Scan::stop() noexcept { work_->stop(); }
const ScanCounts& Scan::counts() const noexcept { return work_->output().counts(); }
ScanProgress Scan::progress() const noexcept { return work_->progress(); }
const ScanColumns& Scan::columns() const noexcept { return work_->columns(); }

ArrowSchema arrow_schema(const ScanColumns& columns) {
    constexpr std::array<const char*, 6> formats{"s", "i", "l", "L", "g", "u"}; // in the order of ColumnType
    std::vector<ArrowField> fields;
    for (const ChosenColumn& column : columns.all)
        fields.push_back({column.name, formats[static_cast<std::size_t>(column.type)], column.may_be_missing});
    return arrow_schema(fields, "keysquare.feature_schema_version", std::to_string(feature_schema_version));
}

ArrowArray arrow_array(const std::shared_ptr<const RowBatch>& batch) {
    std::vector<ArrowBuffers> columns;
    for (std::size_t at = 0; at < batch->columns().all.size(); ++at) {
        const BatchColumn& data = batch->data(at);
        ArrowBuffers& column = columns.emplace_back();
        column.missing = data.missing;
        column.buffers = {data.valid.empty() ? nullptr : data.valid.data(), data.numbers.data(), nullptr};
        if (batch->columns().all[at].type != ColumnType::utf8) continue;
        column.buffers[2] = data.text.data();
        column.count = 3;
    }
    return arrow_array(static_cast<std::int64_t>(batch->size()), std::move(columns), batch);
}

} // namespace keysquare
