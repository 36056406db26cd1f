// RowBatch: rows of a scan, column by column, in the memory layout of Apache Arrow.
#pragma once

#include <cstddef>
#include <cstring>
#include <memory>

#include <keysquare/research/scan_column.hpp>

namespace keysquare {

/// One column of a batch. Buffers are laid out as "Arrow columnar format" has them: numbers side by side, texts as
/// offsets into their bytes, and a bit a row that says whether there is a value.
struct BatchColumn {
    std::vector<std::byte> numbers;  ///< of the column's type; for texts the offsets, int32, one more than rows
    std::string text;                ///< the bytes of all texts; empty for numbers
    std::vector<std::uint8_t> valid; ///< bit `row % 8` of byte `row / 8`; empty when no row is without a value
    std::int64_t missing = 0;        ///< rows without a value
};

/// The columns of a scan, in order.
struct ScanColumns {
    std::vector<ChosenColumn> all;
    std::vector<std::size_t> vector; ///< places in `all` of those of the numeric vector ...
    std::vector<std::size_t> others; ///< ... and of the others

    explicit ScanColumns(std::vector<ChosenColumn> columns);
};

/// Up to `capacity` rows.
class RowBatch {
  public:
    RowBatch(std::shared_ptr<const ScanColumns> columns, std::size_t capacity);

    /// Adds the row that `rows` stands at. Precondition: `!full()`.
    void add(const GameRows& rows);
    /// Back to no rows; keeps the room.
    void clear() noexcept;
    /// The bytes of texts that fit in a batch; it counts as full with more.
    static constexpr std::size_t most_text = std::size_t{1} << 24U;

    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    [[nodiscard]] bool full() const noexcept { return size_ == capacity_ || text_ > most_text; }
    [[nodiscard]] const ScanColumns& columns() const noexcept { return *columns_; }
    [[nodiscard]] const BatchColumn& data(std::size_t column) const noexcept { return data_[column]; }

  private:
    void put(const ChosenColumn& column, const CellValue& value, BatchColumn& data);
    template <class Number> void put_number(BatchColumn& data, Number number) noexcept {
        std::memcpy(&data.numbers[size_ * sizeof(Number)], &number, sizeof number);
    }
    void put_missing(BatchColumn& data);

    std::shared_ptr<const ScanColumns> columns_;
    std::vector<BatchColumn> data_;
    std::vector<std::byte*> vector_numbers_; // of the columns of the vector, in order
    std::size_t capacity_;
    std::size_t size_ = 0;
    std::size_t text_ = 0;
};

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

[[nodiscard]] constexpr std::size_t width_of(ColumnType type) noexcept {
    constexpr std::array<std::size_t, 6> widths{2, 4, 8, 8, 8, 4};
    return widths[static_cast<std::size_t>(type)];
}

} // namespace detail

inline ScanColumns::ScanColumns(std::vector<ChosenColumn> columns) : all(std::move(columns)) {
    for (std::size_t at = 0; at < all.size(); ++at)
        (all[at].group == ColumnGroup::vector ? vector : others).push_back(at);
}

inline RowBatch::RowBatch(std::shared_ptr<const ScanColumns> columns, std::size_t capacity)
    : columns_(std::move(columns)), data_(columns_->all.size()), capacity_(capacity) {
    for (std::size_t at = 0; at < data_.size(); ++at) {
        const ColumnType type = columns_->all[at].type;
        data_[at].numbers.resize((capacity + (type == ColumnType::utf8 ? 1 : 0)) * detail::width_of(type));
    }
    for (const std::size_t at : columns_->vector) vector_numbers_.push_back(data_[at].numbers.data());
}

inline void RowBatch::add(const GameRows& rows) {
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

inline void RowBatch::clear() noexcept {
    for (BatchColumn& data : data_) {
        data.text.clear();
        data.valid.clear();
        data.missing = 0;
    }
    size_ = text_ = 0;
}

inline void RowBatch::put_missing(BatchColumn& data) {
    if (data.valid.empty()) data.valid.assign((capacity_ + 7) / 8, 0xFF);
    data.valid[size_ / 8] = static_cast<std::uint8_t>(data.valid[size_ / 8] & ~(1U << size_ % 8));
    ++data.missing;
}

inline void RowBatch::put(const ChosenColumn& column, const CellValue& value, BatchColumn& data) {
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
