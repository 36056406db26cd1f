#include <keysquare/research/summary.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace keysquare {

namespace {

std::optional<std::int64_t> whole_number(const CellValue& value, int scale) noexcept {
    if (const auto* const whole = std::get_if<std::int64_t>(&value)) return *whole;
    if (const auto* const real = std::get_if<double>(&value)) return std::llround(*real * scale);
    return std::nullopt;
}

/// A value as the text that names a group.
void write_text(const ChosenColumn& column, const CellValue& value, std::optional<std::string>& text) {
    if (value.index() == 0) {
        text.reset();
        return;
    }
    if (!text) text.emplace();
    if (const auto* const words = std::get_if<std::string_view>(&value))
        text->assign(*words);
    else if (const auto* const real = std::get_if<double>(&value))
        text->assign(std::to_string(*real));
    else if (column.type == ColumnType::uint64)
        text->assign(std::to_string(static_cast<std::uint64_t>(std::get<std::int64_t>(value))));
    else
        text->assign(std::to_string(std::get<std::int64_t>(value)));
}

} // namespace

double SummaryGroup::white_points() const noexcept {
    return static_cast<double>(results[static_cast<std::size_t>(GameResult::white_wins)]) +
           0.5 * static_cast<double>(results[static_cast<std::size_t>(GameResult::draw)]);
}

std::uint64_t SummaryGroup::games_with_result() const noexcept {
    return games - results[static_cast<std::size_t>(GameResult::unknown)];
}

bool is_summable(const ChosenColumn& column) noexcept {
    return column.type != ColumnType::utf8 && column.name != "key" && column.name != "game_offset";
}

Summary::Summary(std::vector<ChosenColumn> by, std::vector<ChosenColumn> columns)
    : by_(std::move(by)), columns_(std::move(columns)), key_(by_.size()) {
    for (std::size_t at = 0; at < columns_.size(); ++at)
        (columns_[at].group == ColumnGroup::vector ? vector_ : others_).push_back(at);
}

SummaryGroup& Summary::group_named(const GroupKey& key) {
    if (const auto known = groups_.find(key); known != groups_.end()) return known->second;
    SummaryGroup& group = groups_[key];
    for (const ChosenColumn& column : columns_) group.columns.emplace_back(column.grain.bin);
    return group;
}

void Summary::add(const GameRows& rows) {
    for (std::size_t at = 0; at < by_.size(); ++at) write_text(by_[at], by_[at].value(rows), key_[at]);
    SummaryGroup& group = group_named(key_);
    ++group.positions;
    if (group.last_game_ != rows.number()) {
        group.last_game_ = rows.number();
        ++group.games;
        ++group.results[static_cast<std::size_t>(rows.game().result())];
    }
    if (!vector_.empty()) {
        std::array<std::int16_t, feature_count> numbers;
        feature_vector(rows.position(), numbers);
        for (const std::size_t at : vector_) group.columns[at].add(numbers[columns_[at].place]);
    }
    for (const std::size_t at : others_) {
        const auto number = whole_number(columns_[at].value(rows), columns_[at].grain.scale);
        if (number)
            group.columns[at].add(*number);
        else
            group.columns[at].add_missing();
    }
}

Summary& Summary::operator+=(const Summary& other) {
    for (const auto& [key, theirs] : other.groups_) {
        SummaryGroup& ours = group_named(key);
        ours.positions += theirs.positions;
        ours.games += theirs.games;
        for (std::size_t at = 0; at < ours.results.size(); ++at) ours.results[at] += theirs.results[at];
        for (std::size_t at = 0; at < ours.columns.size(); ++at) ours.columns[at] += theirs.columns[at];
    }
    counts_ += other.counts_;
    return *this;
}

bool Summary::is_like(const Summary& other) const noexcept {
    const auto same_names = [](const auto& a, const auto& b) {
        return std::ranges::equal(a, b, {}, &ChosenColumn::name, &ChosenColumn::name);
    };
    return same_names(by_, other.by_) && same_names(columns_, other.columns_);
}

bool operator==(const Summary& a, const Summary& b) {
    const ScanCounts& left = a.counts_;
    const ScanCounts& right = b.counts_;
    return a.is_like(b) && a.groups_ == b.groups_ && left.games == right.games && left.left_out == right.left_out &&
           left.positions == right.positions && left.refused_by_reason == right.refused_by_reason;
}

} // namespace keysquare
