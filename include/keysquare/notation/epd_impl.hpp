// Bodies of notation/epd.hpp.
#pragma once

#include <keysquare/notation/characters.hpp>
#include <keysquare/notation/epd.hpp>

namespace keysquare {

namespace detail {

class EpdCutter {
  public:
    EpdCutter(std::string_view text, std::size_t at) noexcept : text_(text), at_(at) {}

    /// Goes over spaces; false at the end of the text.
    bool skip_spaces() noexcept {
        while (at_ < text_.size() && std::isspace(static_cast<unsigned char>(text_[at_])) != 0) ++at_;
        return at_ < text_.size();
    }
    [[nodiscard]] char peek() const noexcept { return text_[at_]; }
    void advance() noexcept { ++at_; }
    [[nodiscard]] std::size_t column() const noexcept { return at_ + 1; }

    /// The text up to the next space or semicolon.
    std::string_view word() noexcept {
        const std::size_t end = (std::min)(text_.find_first_of(" \t\r\n\v\f;", at_), text_.size());
        return cut(end);
    }
    /// The text between the quote here and the next one, which must exist and end the operand.
    bool string(std::string_view& inside) noexcept {
        const std::size_t end = text_.find('"', at_ + 1);
        if (end == std::string_view::npos) return false;
        if (end + 1 < text_.size() && std::string_view{" \t\r\n\v\f;"}.find(text_[end + 1]) == std::string_view::npos)
            return false;
        inside = cut(end + 1);
        inside = inside.substr(1, inside.size() - 2);
        return true;
    }
    [[nodiscard]] std::string_view rest() const noexcept { return text_.substr(at_); }

  private:
    std::string_view cut(std::size_t end) noexcept {
        const std::string_view part = text_.substr(at_, end - at_);
        at_ = end;
        return part;
    }

    std::string_view text_;
    std::size_t at_;
};

[[nodiscard]] inline bool is_opcode(std::string_view text) noexcept {
    return !text.empty() && text.size() <= 15 && is_letter(text[0]) &&
           all_of(text, [](char c) { return is_letter(c) || is_digit(c) || c == '_'; });
}

/// The clock that an opcode sets in `parts`; null for other opcodes.
[[nodiscard]] inline std::uint16_t* clock_named(std::string_view opcode, PositionParts& parts) noexcept {
    return opcode == "hmvc" ? &parts.halfmove_clock : opcode == "fmvn" ? &parts.move_number : nullptr;
}

inline InputError read_operand(EpdCutter& cutter, EpdOperation& operation, PositionParts& parts) {
    const std::size_t column = cutter.column();
    if (cutter.peek() == '"') {
        std::string_view inside;
        if (!cutter.string(inside)) return {Reason::bad_operation, Field::operation, column, cutter.rest()};
        operation.operands.push_back({std::string{inside}, true});
        return {};
    }
    const std::string_view word = cutter.word();
    if (std::uint16_t* const clock = clock_named(operation.name, parts); clock != nullptr) {
        const Field field = operation.name == "hmvc" ? Field::halfmove_clock : Field::move_number;
        if (InputError error = read_number(word, column, field, *clock); error.reason != Reason::none) return error;
    }
    operation.operands.push_back({std::string{word}, false});
    return {};
}

inline InputError read_operation(EpdCutter& cutter, EpdOperation& operation, PositionParts& parts) {
    const std::size_t column = cutter.column();
    operation.name = cutter.word();
    if (!is_opcode(operation.name)) return {Reason::bad_operation, Field::operation, column, operation.name};
    while (cutter.skip_spaces() && cutter.peek() != ';')
        if (InputError error = read_operand(cutter, operation, parts); error.reason != Reason::none) return error;
    if (cutter.skip_spaces()) cutter.advance(); // the semicolon
    return {};
}

} // namespace detail

inline const EpdOperation* EpdRecord::operation(std::string_view name) const noexcept {
    for (const EpdOperation& operation : operations)
        if (operation.name == name) return &operation;
    return nullptr;
}

inline Result<EpdRecord> read_epd(std::string_view text, Strictness strictness) {
    std::size_t rest_at = 0;
    Result<Position> position = read_fen_fields(text, strictness, rest_at);
    if (!position) return position.error();
    EpdRecord record;
    PositionParts parts = position->parts();
    detail::EpdCutter cutter{text, rest_at};
    for (const char* const clock : {"hmvc", "fmvn"})
        if (cutter.skip_spaces() && detail::is_digit(cutter.peek()))
            if (InputError error =
                    detail::read_operand(cutter, record.operations.emplace_back(EpdOperation{clock, {}}), parts);
                error.reason != Reason::none)
                return error;
    while (cutter.skip_spaces())
        if (InputError error = detail::read_operation(cutter, record.operations.emplace_back(), parts);
            error.reason != Reason::none)
            return error;
    record.position = Position{parts};
    return record;
}

inline std::string epd(const EpdRecord& record) {
    std::string text = fen(record.position);
    for (int clock = 0; clock < 2; ++clock) text.resize(text.rfind(' '));
    for (const EpdOperation& operation : record.operations) {
        text.append(" ").append(operation.name);
        for (const EpdOperand& operand : operation.operands) {
            if (!operand.quoted) {
                text.append(" ").append(operand.text);
                continue;
            }
            std::string inside = operand.text;
            for (char& c : inside)
                if (c == '"') c = '\'';
            text.append(" \"").append(inside).append("\"");
        }
        text += ';';
    }
    return text;
}

} // namespace keysquare
