#include "text_pieces.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

#include <keysquare/notation/game_border.hpp>

namespace keysquare {

namespace {

/// Enough that cutting costs little, and little enough that the rows of a piece do.
constexpr std::size_t piece_size = std::size_t{1} << 17U;
/// A text in which no border is found for so long is read in one piece.
constexpr std::size_t most_pending = std::size_t{1} << 22U;

/// A text in memory, then what follows it: the rest of a stream, or what broke it off.
class PieceSource final : public ByteSource {
  public:
    PieceSource(std::string text, std::unique_ptr<ByteSource> rest, std::optional<InputError> fault)
        : text_(std::move(text)), rest_(std::move(rest)), fault_(std::move(fault)) {}

    std::size_t read(char* to, std::size_t size) override {
        const std::size_t count = (std::min)(size, text_.size() - at_);
        if (count > 0) {
            std::memcpy(to, &text_[at_], count);
            at_ += count;
            return count;
        }
        if (rest_) return rest_->read(to, size);
        if (fault_) throw *fault_;
        return 0;
    }

  private:
    std::string text_;
    std::size_t at_ = 0;
    std::unique_ptr<ByteSource> rest_;
    std::optional<InputError> fault_;
};

/// Bytes of a part of a file on the disc; nothing when the file does not tell.
std::optional<std::uint64_t> bytes_between(const std::filesystem::path& file, std::uint64_t begin, std::uint64_t end) {
    std::error_code error;
    const std::uint64_t size = std::filesystem::file_size(file, error);
    if (error) return std::nullopt;
    return (std::min)(end, size) - (std::min)(begin, size);
}

/// The first border at or after that byte of a plain text; the greatest number when there is none.
std::uint64_t border_from(const std::filesystem::path& file, std::uint64_t byte) {
    const auto border = game_border(open_range(file, byte, Shard::to_the_end));
    return border ? byte + *border : Shard::to_the_end;
}

} // namespace

TextPieces::TextPieces(std::vector<Shard> shards) : shards_(std::move(shards)), in_all_(0) {
    for (const Shard& shard : shards_) {
        const auto length = bytes_between(shard.file, shard.begin, shard.end);
        in_all_ = in_all_ && length ? std::optional{*in_all_ + *length} : std::nullopt;
    }
}

std::optional<TextPiece> TextPieces::next() {
    const std::lock_guard lock{mutex_};
    while (present_ < shards_.size() && !is_stopped()) {
        try {
            if (!is_open_) open_shard();
            if (std::optional<TextPiece> cut = is_plain_ ? cut_plain() : cut_stream()) return cut;
            leave_shard();
        } catch (const InputError& error) { // the reader tells of it, as of any text that breaks off
            TextPiece broken = piece(at_, std::make_unique<PieceSource>(std::string{}, nullptr, error));
            leave_shard();
            return broken;
        }
    }
    return std::nullopt;
}

void TextPieces::open_shard() {
    const Shard& shard = shards_[present_];
    at_ = 0;
    is_open_ = true;
    is_plain_ = is_plain_text(shard.file);
    if (!is_plain_ && !shard.is_whole())
        throw InputError{Reason::cannot_read, Field::file, 1, "a compressed file is one shard"}.in_file(
            shard.file.string());
    if (!is_plain_) {
        stream_ = open_game_file(shard.file, taken_).value();
        return;
    }
    std::error_code ignored;
    const std::uint64_t size = std::filesystem::file_size(shard.file, ignored);
    if (size < shard.begin || (shard.end != Shard::to_the_end && size < shard.end)) // it was longer once
        throw InputError{Reason::truncated_file, Field::file, 1, {}}.in_file(shard.file.string());
    at_ = shard.begin == 0 ? 0 : border_from(shard.file, shard.begin);
    end_ = shard.end == Shard::to_the_end ? Shard::to_the_end : border_from(shard.file, shard.end);
}

void TextPieces::leave_shard() noexcept {
    ++present_;
    is_open_ = false;
    stream_.reset();
    pending_.clear();
}

TextPiece TextPieces::piece(std::uint64_t begin, std::unique_ptr<ByteSource> text) {
    return {number_++, shards_[present_].file.string(), begin, std::move(text), 0};
}

std::optional<TextPiece> TextPieces::cut_plain() {
    if (at_ >= end_) return std::nullopt;
    const std::filesystem::path& file = shards_[present_].file;
    const std::uint64_t next = end_ - at_ <= piece_size ? end_ : (std::min)(end_, border_from(file, at_ + piece_size));
    TextPiece cut = piece(at_, open_range(file, at_, next));
    cut.bytes = bytes_between(file, at_, next).value_or(0);
    at_ = next;
    return cut;
}

/// Adds to the pending text until there is so much of it or no more to come.
void TextPieces::fill(std::size_t wanted) {
    constexpr std::size_t chunk = std::size_t{1} << 16U;
    try {
        while (stream_ && pending_.size() < wanted) {
            const std::size_t before = pending_.size();
            pending_.resize(before + chunk);
            const std::size_t count = stream_->read(&pending_[before], chunk);
            pending_.resize(before + count);
            if (count == 0) stream_.reset();
        }
    } catch (const InputError& error) {
        pending_.resize(pending_.size() - chunk); // it throws instead of giving anything
        fault_ = error;
        stream_.reset();
    }
}

std::optional<TextPiece> TextPieces::cut_stream() {
    for (std::size_t wanted = 2 * piece_size;; wanted *= 2) {
        fill(wanted);
        std::string_view rest = pending_;
        rest.remove_prefix((std::min)(piece_size, rest.size()));
        const auto border = game_border(std::make_unique<TextSource>(rest));
        if (!border && stream_ && pending_.size() < most_pending) continue;
        if (pending_.empty() && !fault_) return std::nullopt;
        const std::size_t size = border ? piece_size + static_cast<std::size_t>(*border) : pending_.size();
        std::string text = pending_.substr(0, size);
        pending_.erase(0, size);
        std::unique_ptr<ByteSource> what_follows = border ? nullptr : std::move(stream_);
        const std::optional<InputError> fault = border ? std::nullopt : std::exchange(fault_, std::nullopt);
        TextPiece cut = piece(at_, std::make_unique<PieceSource>(std::move(text), std::move(what_follows), fault));
        at_ += size;
        return cut;
    }
}

} // namespace keysquare
