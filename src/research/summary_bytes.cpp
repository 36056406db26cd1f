// A summary as bytes: numbers as 64 bits, the lowest byte first; texts after their lengths.
#include <keysquare/research/summary.hpp>

#include <limits>
#include <utility>

namespace keysquare {

namespace {

constexpr std::string_view first_bytes = "keysquare summary 1";

class Writer {
  public:
    void number(std::uint64_t value) {
        for (unsigned shift = 0; shift < 64; shift += 8) bytes_ += static_cast<char>(value >> shift & 0xFFU);
    }
    void whole(std::int64_t value) { number(static_cast<std::uint64_t>(value)); }
    void text(std::string_view value) {
        number(value.size());
        bytes_ += value;
    }

    void write(const std::vector<ChosenColumn>& columns) {
        number(columns.size());
        for (const ChosenColumn& column : columns) text(column.name);
    }
    void write(const Statistics& statistics) {
        const Sums& sums = statistics.sums();
        number(sums.count);
        number(sums.missing);
        whole(sums.sum);
        number(sums.squares.low);
        number(sums.squares.high);
        whole(sums.least);
        whole(sums.greatest);
        whole(statistics.histogram().begin());
        number(statistics.histogram().counts().size());
        for (const std::uint64_t count : statistics.histogram().counts()) number(count);
    }
    void write(const GroupKey& key, const SummaryGroup& group) {
        for (const std::optional<std::string>& value : key) {
            number(value ? 1 : 0);
            if (value) text(*value);
        }
        number(group.positions);
        number(group.games);
        for (const std::uint64_t games : group.results) number(games);
        for (const Statistics& statistics : group.columns) write(statistics);
    }
    void write(const ScanCounts& counts) {
        number(counts.games);
        number(counts.left_out);
        number(counts.positions);
        number(counts.refused_by_reason.size());
        for (const auto& [reason, games] : counts.refused_by_reason) {
            number(static_cast<std::uint64_t>(reason));
            number(games);
        }
        number(counts.refused.size());
        for (const RefusedGame& game : counts.refused) write(game);
    }
    void write(const RefusedGame& game) {
        text(game.file);
        number(game.game_offset);
        number(static_cast<std::uint64_t>(game.error.reason));
        number(static_cast<std::uint64_t>(game.error.field));
        number(game.error.line);
        number(game.error.column);
        text(game.error.token);
        number(game.error.offset);
    }

    [[nodiscard]] std::string take() { return std::move(bytes_); }

  private:
    std::string bytes_;
};

/// Gives zeros and empty texts once something does not fit, and says so at the end.
class Reader {
  public:
    explicit Reader(std::string_view bytes) : rest_(bytes) {}

    std::uint64_t number() {
        const std::string_view bytes = take(8);
        std::uint64_t value = 0;
        for (unsigned at = 0; at < bytes.size(); ++at)
            value |= std::uint64_t{static_cast<unsigned char>(bytes[at])} << 8 * at;
        return value;
    }
    std::int64_t whole() { return static_cast<std::int64_t>(number()); }
    /// A number of things in memory, of which 32-bit platforms hold fewer than those that may have written the bytes.
    std::size_t number_in_memory() {
        const std::uint64_t size = number();
        if (size <= (std::numeric_limits<std::size_t>::max)()) return static_cast<std::size_t>(size);
        is_broken_ = true;
        return 0;
    }
    std::string_view text() { return take(number_in_memory()); }
    /// Reads as many things as a number says, each of which takes eight bytes or more.
    template <class Read> void many(Read read) {
        const std::uint64_t count = number();
        if (count > rest_.size() / 8) is_broken_ = true;
        for (std::uint64_t at = 0; at < count && !is_broken_; ++at) read();
    }

    std::vector<ChosenColumn> columns() {
        std::vector<ChosenColumn> chosen;
        many([&] {
            if (const auto column = scan_column(text()))
                chosen.push_back(*column);
            else
                is_broken_ = true;
        });
        return chosen;
    }
    Statistics statistics(std::int64_t bin_width) {
        Sums sums;
        sums.count = number();
        sums.missing = number();
        sums.sum = whole();
        sums.squares.low = number();
        sums.squares.high = number();
        sums.least = whole();
        sums.greatest = whole();
        const std::int64_t begin = whole();
        std::vector<std::uint64_t> counts;
        many([&] { counts.push_back(number()); });
        return {sums, Histogram{bin_width, begin, std::move(counts)}};
    }
    GroupKey key(std::size_t size) {
        GroupKey values(size);
        for (std::optional<std::string>& value : values)
            if (number() != 0) value = std::string{text()};
        return values;
    }
    ScanCounts counts() {
        ScanCounts counts;
        counts.games = number();
        counts.left_out = number();
        counts.positions = number();
        many([&] {
            const auto reason = static_cast<Reason>(number());
            counts.refused_by_reason[reason] = number();
        });
        many([&] { counts.refused.push_back(refused_game()); });
        return counts;
    }
    RefusedGame refused_game() {
        RefusedGame game;
        game.file = text();
        game.game_offset = number();
        const auto reason = static_cast<Reason>(number());
        const auto field = static_cast<Field>(number());
        const std::size_t line = number_in_memory();
        const std::size_t column = number_in_memory();
        const std::string_view token = text();
        game.error = InputError{reason, field, column, token, line}.in_game(game.file, 0, number());
        return game;
    }

    [[nodiscard]] bool is_read() const noexcept { return rest_.empty() && !is_broken_; }

  private:
    std::string_view take(std::size_t size) {
        if (size > rest_.size()) {
            is_broken_ = true;
            rest_ = {};
            return {};
        }
        const std::string_view taken = rest_.substr(0, size);
        rest_.remove_prefix(size);
        return taken;
    }

    std::string_view rest_;
    bool is_broken_ = false;
};

} // namespace

std::string Summary::bytes() const {
    Writer writer;
    writer.text(first_bytes);
    writer.whole(feature_schema_version);
    writer.write(by_);
    writer.write(columns_);
    writer.number(groups_.size());
    for (const auto& [key, group] : groups_) writer.write(key, group);
    writer.write(counts_);
    return writer.take();
}

std::optional<Summary> Summary::from_bytes(std::string_view bytes) {
    Reader reader{bytes};
    if (reader.text() != first_bytes || reader.whole() != feature_schema_version) return std::nullopt;
    std::vector<ChosenColumn> by = reader.columns();
    Summary summary{std::move(by), reader.columns()};
    reader.many([&] {
        SummaryGroup& group = summary.group_named(reader.key(summary.by_.size()));
        group.positions = reader.number();
        group.games = reader.number();
        for (std::uint64_t& games : group.results) games = reader.number();
        for (std::size_t at = 0; at < group.columns.size(); ++at)
            group.columns[at] = reader.statistics(summary.columns_[at].grain.bin);
    });
    summary.counts_ = reader.counts();
    return reader.is_read() ? std::optional{std::move(summary)} : std::nullopt;
}

} // namespace keysquare
