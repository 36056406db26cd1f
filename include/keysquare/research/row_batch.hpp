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
    std::vector<ChosenColumn> all;   ///< as chosen
    std::vector<std::size_t> vector; ///< places in `all` of those of the numeric vector ...
    std::vector<std::size_t> others; ///< ... and of the others

    /// Sorts them by where they come from.
    explicit ScanColumns(std::vector<ChosenColumn> columns);
};

/// Up to `capacity` rows.
class RowBatch {
  public:
    /// Without rows yet; makes room for `capacity` of them.
    RowBatch(std::shared_ptr<const ScanColumns> columns, std::size_t capacity);

    /// Adds the row that `rows` stands at. Precondition: `!full()`.
    void add(const GameRows& rows);
    /// Back to no rows; keeps the room.
    void clear() noexcept;
    /// The bytes of texts that fit in a batch; it counts as full with more.
    static constexpr std::size_t most_text = std::size_t{1} << 24U;

    /// How many rows it has.
    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    /// Whether no further row fits.
    [[nodiscard]] bool full() const noexcept { return size_ == capacity_ || text_ > most_text; }
    /// What its columns are.
    [[nodiscard]] const ScanColumns& columns() const noexcept { return *columns_; }
    /// The values of a column. Precondition: `column` is less than the number of columns.
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

namespace detail {

[[nodiscard]] constexpr std::size_t width_of(ColumnType type) noexcept {
    constexpr std::array<std::size_t, 6> widths{2, 4, 8, 8, 8, 4};
    return widths[static_cast<std::size_t>(type)];
}

} // namespace detail

} // namespace keysquare
