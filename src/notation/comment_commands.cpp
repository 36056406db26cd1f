#include <keysquare/notation/comment_commands.hpp>

#include <cstdint>
#include <utility>

#include <keysquare/notation/characters.hpp>

namespace keysquare {

namespace {

/// The next command of a comment, brackets included; empty when there is none.
std::string_view next_command(std::string_view comment, std::size_t from) noexcept {
    const auto open = comment.find("[%", from);
    const auto close = open == std::string_view::npos ? open : comment.find(']', open);
    return close == std::string_view::npos ? std::string_view{} : comment.substr(open, close - open + 1);
}

/// The name of a command with its brackets.
std::string_view name_of_command(std::string_view bracketed) noexcept {
    const std::string_view inside = bracketed.substr(2, bracketed.size() - 3);
    return inside.substr(0, inside.find(' '));
}

/// The comment with each command of that name taken out, but the first one replaced by `replacement`, if there is one.
std::string with_commands_replaced(std::string_view comment, std::string_view name, std::string_view replacement) {
    std::string result;
    std::size_t from = 0;
    for (std::size_t search = 0;;) {
        const std::string_view found = next_command(comment, search);
        if (found.empty()) break;
        const auto at = static_cast<std::size_t>(found.data() - comment.data());
        search = at + found.size();
        if (name_of_command(found) != name) continue;
        result.append(comment, from, at - from);
        from = search;
        if (replacement.empty()) { // one of the spaces around it goes with it
            if (comment.substr(from).starts_with(' '))
                ++from;
            else if (from == comment.size() && result.ends_with(' '))
                result.pop_back();
        }
        result.append(std::exchange(replacement, {}));
    }
    return result.append(comment, from);
}

/// A number without sign from the front of a text, which is cut off: at most nine digits, and if `with_fraction`, a
/// point and at most nine more. Nothing, and nothing cut off, when the text begins otherwise.
std::optional<double> cut_number(std::string_view& text, bool with_fraction) noexcept {
    constexpr std::size_t most_digits = 9;
    const auto digits = [&text](std::size_t from) {
        std::size_t count = 0;
        while (from + count < text.size() && detail::is_digit(text[from + count])) ++count;
        return count;
    };
    const auto value = [&text](std::size_t from, std::size_t count) {
        double number = 0;
        for (std::size_t at = from; at < from + count; ++at) number = number * 10 + (text[at] - '0');
        return number;
    };
    const std::size_t whole = digits(0);
    if (whole == 0 || whole > most_digits) return std::nullopt;
    double number = value(0, whole);
    std::size_t size = whole;
    if (with_fraction && whole < text.size() && text[whole] == '.') {
        const std::size_t parts = digits(whole + 1);
        if (parts == 0 || parts > most_digits) return std::nullopt;
        double unit = 1;
        for (std::size_t at = 0; at < parts; ++at) unit *= 10;
        // one division of whole numbers, so that the result is the number nearest to what is written
        number = (number * unit + value(whole + 1, parts)) / unit;
        size += 1 + parts;
    }
    text.remove_prefix(size);
    return number;
}

/// Cuts off a prefix and tells whether it was there.
bool cut(std::string_view& text, char prefix) noexcept {
    const bool is_there = text.starts_with(prefix);
    if (is_there) text.remove_prefix(1);
    return is_there;
}

} // namespace

std::optional<std::string_view> command(std::string_view comment, std::string_view name) noexcept {
    for (std::size_t from = 0;;) {
        const std::string_view found = next_command(comment, from);
        if (found.empty()) return std::nullopt;
        if (name_of_command(found) == name)
            return detail::trimmed(found.substr(2 + name.size(), found.size() - name.size() - 3));
        from = static_cast<std::size_t>(found.data() - comment.data()) + found.size();
    }
}

std::string without_commands(std::string_view comment) {
    std::string prose;
    const auto add = [&](std::string_view part) {
        part = detail::trimmed(part);
        if (!part.empty()) prose.append(prose.empty() ? "" : " ").append(part);
    };
    for (std::size_t from = 0;;) {
        const std::string_view found = next_command(comment, from);
        if (found.empty()) {
            add(comment.substr(from));
            return prose;
        }
        const auto at = static_cast<std::size_t>(found.data() - comment.data());
        add(comment.substr(from, at - from));
        from = at + found.size();
    }
}

std::string with_command(std::string_view comment, std::string_view name, std::string_view value) {
    const std::string written =
        std::string{"[%"}.append(name).append(value.empty() ? "" : " ").append(value).append("]");
    if (command(comment, name)) return with_commands_replaced(comment, name, written);
    return std::string{written}.append(comment.empty() ? "" : " ").append(comment);
}

std::string without_command(std::string_view comment, std::string_view name) {
    return with_commands_replaced(comment, name, {});
}

std::optional<double> seconds_in(std::string_view text) noexcept {
    double seconds = 0;
    for (int units = 1; units <= 3; ++units) {
        const std::optional<double> number = cut_number(text, true);
        if (!number || (units > 1 && *number >= 60)) return std::nullopt;
        seconds = seconds * 60 + *number;
        if (text.empty()) return seconds;
        const bool was_whole = *number == static_cast<double>(static_cast<std::int64_t>(*number));
        if (!was_whole || !cut(text, ':')) return std::nullopt;
    }
    return std::nullopt;
}

std::optional<Evaluation> evaluation_in(std::string_view text) noexcept {
    Evaluation evaluation;
    const bool is_mate = cut(text, '#');
    const bool is_negative = cut(text, '-');
    if (!is_negative) (void)cut(text, '+');
    const std::optional<double> number = cut_number(text, !is_mate);
    if (!number) return std::nullopt;
    if (is_mate)
        evaluation.mate_in = static_cast<int>(is_negative ? -*number : *number);
    else
        evaluation.pawns = is_negative ? -*number : *number;
    if (text.empty()) return evaluation;
    if (!cut(text, ',')) return std::nullopt;
    const std::optional<double> depth = cut_number(text, false);
    if (!depth || !text.empty()) return std::nullopt;
    evaluation.depth = static_cast<int>(*depth);
    return evaluation;
}

} // namespace keysquare
