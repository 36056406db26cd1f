// EPD in and out: a position and operations on it (section 16.2 of the 1994 PGN standard).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <keysquare/notation/fen.hpp>

namespace keysquare {

/// A move, a number or a string, as text. Moves are left as text because several opcodes take moves of later positions.
struct EpdOperand {
    std::string text;    ///< without the quotes
    bool quoted = false; ///< a string, which stands between quotes
    /// Whether all of it is equal.
    friend bool operator==(const EpdOperand&, const EpdOperand&) = default;
};

/// An opcode ("bm", "id", "c0") with its operands.
struct EpdOperation {
    std::string name;                 ///< the opcode
    std::vector<EpdOperand> operands; ///< in their order
    /// Whether all of it is equal.
    friend bool operator==(const EpdOperation&, const EpdOperation&) = default;
};

/// A line of EPD: a position and what is said about it.
struct EpdRecord {
    Position position;                    ///< clocks come from "hmvc" and "fmvn", where they are there
    std::vector<EpdOperation> operations; ///< in their order

    /// The first operation of that name, null when there is none.
    [[nodiscard]] const EpdOperation* operation(std::string_view name) const noexcept;
    /// Whether all of it is equal.
    friend bool operator==(const EpdRecord&, const EpdRecord&) = default;
};

/// Reads one record, without its line end. The clocks come from the operations `hmvc` and `fmvn`; the two numbers of a
/// FEN before the operations are taken as those. The last semicolon may be missing. Errors, with the column (from 1):
/// those of `read_fen` for the four fields; `bad_operation` for a text that is no opcode, a string that does not end
/// and text that goes on right after one; `bad_number` for a clock that is none.
[[nodiscard]] Result<EpdRecord> read_epd(std::string_view text, Strictness strictness = Strictness::strict);

/// The record as one line: the four fields and the operations in their order. The format has no way to write a quote
/// inside a string; it becomes an apostrophe.
[[nodiscard]] std::string epd(const EpdRecord& record);

} // namespace keysquare

#include <keysquare/notation/epd_impl.hpp>
