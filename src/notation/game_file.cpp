#include <keysquare/notation/game_file.hpp>

#include <array>
#include <fstream>
#include <limits>
#include <system_error>

#include "compression.hpp"
#include "game_source.hpp"

namespace keysquare {

namespace {

constexpr std::size_t head_size = 64;
static_assert(head_size >= magic_size);

class FileSource final : public ByteSource {
  public:
    FileSource(std::ifstream file, std::uint64_t size, ByteCount* taken)
        : file_(std::move(file)), source_(file_), left_(size), taken_(taken) {}

    std::size_t read(char* to, std::size_t size) override {
        const std::size_t count = source_.read(to, size);
        if (count == 0 && left_ > 0) throw InputError{Reason::truncated_file, Field::file, 1, {}};
        left_ -= (std::min<std::uint64_t>)(count, left_);
        if (taken_) taken_->fetch_add(count, std::memory_order_relaxed);
        return count;
    }

  private:
    std::ifstream file_;
    StreamSource source_;
    std::uint64_t left_; // of what the file held when it was opened
    ByteCount* taken_;
};

/// A part of a file.
class RangeSource final : public ByteSource {
  public:
    RangeSource(std::ifstream file, std::uint64_t size) : file_(std::move(file)), source_(file_), left_(size) {}

    std::size_t read(char* to, std::size_t size) override {
        if (left_ == 0) return 0;
        const std::size_t count = source_.read(to, static_cast<std::size_t>((std::min<std::uint64_t>)(size, left_)));
        if (left_ == without_end) return count;
        if (count == 0) throw InputError{Reason::truncated_file, Field::file, 1, {}};
        left_ -= count;
        return count;
    }

    static constexpr std::uint64_t without_end = (std::numeric_limits<std::uint64_t>::max)();

  private:
    std::ifstream file_;
    StreamSource source_;
    std::uint64_t left_;
};

std::ifstream open_file(const std::filesystem::path& path) {
    std::error_code ignored;
    std::ifstream file;
    // A folder opens like a file on some systems, and only reading it fails.
    if (!std::filesystem::is_directory(path, ignored)) file.open(path, std::ios::binary);
    if (!file.is_open())
        throw InputError{Reason::cannot_open, Field::file, 1, path.filename().string()}.in_file(path.string());
    return file;
}

/// A source whose first bytes have been read already.
class SourceWithHead final : public ByteSource {
  public:
    explicit SourceWithHead(std::unique_ptr<ByteSource> rest) : rest_(std::move(rest)) {
        while (size_ < head_.size()) {
            const std::size_t count = rest_->read(&head_[size_], head_.size() - size_);
            if (count == 0) break;
            size_ += count;
        }
    }

    [[nodiscard]] std::string_view head() const noexcept { return {head_.data(), size_}; }

    std::size_t read(char* to, std::size_t size) override {
        if (at_ == size_) return rest_->read(to, size);
        const std::size_t count = (std::min)(size, size_ - at_);
        std::copy_n(&head_[at_], count, to);
        at_ += count;
        return count;
    }

  private:
    std::unique_ptr<ByteSource> rest_;
    std::array<char, head_size> head_{};
    std::size_t size_ = 0;
    std::size_t at_ = 0;
};

/// Unpacks the members of a compressed source, one after another.
class UnpackingSource final : public ByteSource {
  public:
    UnpackingSource(std::unique_ptr<ByteSource> packed, std::unique_ptr<ByteTransform> transform)
        : packed_(std::move(packed)), transform_(std::move(transform)) {}

    std::size_t read(char* to, std::size_t size) override {
        for (;;) {
            if (fault_ != Reason::none) throw InputError{fault_, Field::file, 1, {}};
            if (rest_.empty()) fetch();
            if (between_members_ && !begin_member()) {
                if (is_last_) return 0;
                continue;
            }
            const ByteTransform::Progress progress = transform_->go_on(rest_, {to, size}, is_last_);
            rest_.remove_prefix(progress.taken);
            between_members_ = progress.ended;
            fault_ = progress.fault;
            given_ += progress.given;
            if (fault_ == Reason::none && given_ > free_expansion && given_ / most_expansion > taken_)
                fault_ = Reason::expands_too_much;
            if (progress.given > 0) return progress.given;
            if (fault_ == Reason::none && !progress.ended && progress.taken == 0 && is_last_)
                fault_ = Reason::truncated_file;
        }
    }

  private:
    void fetch() {
        if (is_last_) return;
        const std::size_t count = packed_->read(bytes_.data(), bytes_.size());
        rest_ = {bytes_.data(), count};
        taken_ += count;
        is_last_ = count == 0;
    }

    /// Goes over zero bytes, which pad files in whole blocks, and tells whether a member follows.
    bool begin_member() {
        rest_.remove_prefix((std::min)(rest_.find_first_not_of('\0'), rest_.size()));
        if (rest_.empty()) return false;
        transform_->begin_member();
        return true;
    }

    std::unique_ptr<ByteSource> packed_;
    std::unique_ptr<ByteTransform> transform_;
    std::array<char, std::size_t{1} << 16U> bytes_{};
    std::string_view rest_; // of `bytes_`
    std::uint64_t taken_ = 0;
    std::uint64_t given_ = 0;
    Reason fault_ = Reason::none; // behind what was given
    bool between_members_ = false;
    bool is_last_ = false; // nothing follows `rest_`
};

/// Whether these can be the first bytes of a game file that is not compressed.
bool is_text(std::string_view bytes) noexcept {
    return std::ranges::all_of(
        bytes, [](char c) { return static_cast<unsigned char>(c) >= 0x20 || (c >= '\t' && c <= '\r'); });
}

Result<std::unique_ptr<ByteSource>> decompressed_as_promised(std::unique_ptr<ByteSource> source, Compression promised) {
    try {
        auto with_head = std::make_unique<SourceWithHead>(std::move(source));
        Compression format = compression_told_by(with_head->head());
        if (format == Compression::none && promised != Compression::none) {
            if (can_begin(promised, with_head->head())) return InputError{Reason::truncated_file, Field::file, 1, {}};
            if (!is_text(with_head->head())) return InputError{Reason::bad_compression, Field::file, 1, {}};
        }
        if (format == Compression::none) return std::unique_ptr<ByteSource>{std::move(with_head)};
        std::unique_ptr<ByteTransform> transform = unpacking(format);
        if (!transform) return InputError{Reason::compression_left_out, Field::file, 1, {}};
        return std::unique_ptr<ByteSource>{
            std::make_unique<UnpackingSource>(std::move(with_head), std::move(transform))};
    } catch (const InputError& error) {
        return error;
    }
}

/// The size of a file; 0 for what has none, such as a pipe.
std::uint64_t size_of_file(const std::filesystem::path& path) {
    std::error_code fault;
    const std::uintmax_t size = std::filesystem::file_size(path, fault);
    return fault ? 0 : size;
}

Result<std::unique_ptr<ByteSource>> open_counted(const std::filesystem::path& path, ByteCount* taken) {
    try {
        Result<std::unique_ptr<ByteSource>> source = decompressed_as_promised(
            std::make_unique<FileSource>(open_file(path), size_of_file(path), taken), compression_promised_by(path));
        if (!source) return source.error().in_file(path.string());
        return source;
    } catch (const InputError& error) {
        return error;
    }
}

} // namespace

Result<std::unique_ptr<ByteSource>> decompressed(std::unique_ptr<ByteSource> source) {
    return decompressed_as_promised(std::move(source), Compression::none);
}

Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path) {
    return open_counted(path, nullptr);
}

Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path, ByteCount& taken) {
    return open_counted(path, &taken);
}

std::unique_ptr<ByteSource> open_range(const std::filesystem::path& path, std::uint64_t begin, std::uint64_t end) {
    std::ifstream file = open_file(path);
    file.seekg(static_cast<std::streamoff>(begin));
    const bool has_end = end != RangeSource::without_end;
    return std::make_unique<RangeSource>(std::move(file), has_end ? end - begin : RangeSource::without_end);
}

bool is_plain_text(const std::filesystem::path& path) {
    std::error_code error;
    const bool is_regular = std::filesystem::is_regular_file(path, error);
    if (!is_regular && !error && !std::filesystem::is_directory(path, error))
        return false; // opening a pipe takes from it
    std::ifstream file = open_file(path);
    std::array<char, magic_size> head{};
    file.read(head.data(), head.size());
    const std::string_view first_bytes{head.data(), static_cast<std::size_t>(file.gcount())};
    return compression_told_by(first_bytes) == Compression::none && compression_promised_by(path) == Compression::none;
}

Result<PgnReader> read_games(const std::filesystem::path& path, PgnOptions options) {
    Result<std::unique_ptr<ByteSource>> source = open_game_file(path);
    if (!source) return source.error();
    if (options.file.empty()) options.file = path.string();
    return PgnReader{*std::move(source), std::move(options)};
}

} // namespace keysquare
