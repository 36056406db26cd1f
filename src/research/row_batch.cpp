#include <keysquare/research/row_batch.hpp>

namespace keysquare {

ScanColumns::ScanColumns(std::vector<ChosenColumn> columns) : all(std::move(columns)) {
    for (std::size_t at = 0; at < all.size(); ++at)
        (all[at].group == ColumnGroup::vector ? vector : others).push_back(at);
}

RowBatch::RowBatch(std::shared_ptr<const ScanColumns> columns, std::size_t capacity)
    : columns_(std::move(columns)), data_(columns_->all.size()), capacity_(capacity) {
    for (std::size_t at = 0; at < data_.size(); ++at) {
        const ColumnType type = columns_->all[at].type;
        data_[at].numbers.resize((capacity + (type == ColumnType::utf8 ? 1 : 0)) * detail::width_of(type));
    }
    for (const std::size_t at : columns_->vector) vector_numbers_.push_back(data_[at].numbers.data());
}

void RowBatch::add(const GameRows& rows) {
    if (!vector_numbers_.empty()) {
        std::array<std::int16_t, feature_count> numbers;
        feature_vector(rows.position(), numbers);
        for (std::size_t at = 0; at < vector_numbers_.size(); ++at)
            std::memcpy(vector_numbers_[at] + size_ * sizeof(std::int16_t),
                        &numbers[columns_->all[columns_->vector[at]].place], sizeof(std::int16_t));
    }
    for (const std::size_t at : columns_->others) put(columns_->all[at], columns_->all[at].value(rows), data_[at]);
    ++size_;
}

void RowBatch::clear() noexcept {
    for (BatchColumn& data : data_) {
        data.text.clear();
        data.valid.clear();
        data.missing = 0;
    }
    size_ = text_ = 0;
}

void RowBatch::put_missing(BatchColumn& data) {
    if (data.valid.empty()) data.valid.assign((capacity_ + 7) / 8, 0xFF);
    data.valid[size_ / 8] = static_cast<std::uint8_t>(data.valid[size_ / 8] & ~(1U << size_ % 8));
    ++data.missing;
}

void RowBatch::put(const ChosenColumn& column, const CellValue& value, BatchColumn& data) {
    if (value.index() == 0) put_missing(data);
    const auto* const number = std::get_if<std::int64_t>(&value);
    const std::int64_t whole = number ? *number : 0;
    switch (column.type) {
    case ColumnType::utf8: {
        const auto* const text = std::get_if<std::string_view>(&value);
        if (text) data.text.append(*text);
        if (text) text_ += text->size();
        const auto end = static_cast<std::int32_t>(data.text.size());
        std::memcpy(&data.numbers[(size_ + 1) * sizeof end], &end, sizeof end);
        break;
    }
    case ColumnType::float64: {
        const auto* const real = std::get_if<double>(&value);
        put_number(data, real ? *real : 0.0);
        break;
    }
    case ColumnType::int16: put_number(data, static_cast<std::int16_t>(whole)); break;
    case ColumnType::int32: put_number(data, static_cast<std::int32_t>(whole)); break;
    case ColumnType::int64:
    case ColumnType::uint64: put_number(data, whole); break;
    }
}

} // namespace keysquare
