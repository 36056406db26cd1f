// Bodies of pgn_tokens.hpp: tag pairs, comments, and the way to the next tag section.
#include <algorithm>

#include "pgn_tokens.hpp"
#include "text_run.hpp"

namespace keysquare::detail {

Reason PgnTokens::take_tag(std::string& name, std::string& value, std::size_t bound) {
    window_.advance(1);
    skip_blanks();
    window_.ensure();
    const std::size_t length = symbol_length(window_.data());
    name.assign(window_.data(), length);
    value.clear();
    window_.advance(length);
    skip_blanks();
    window_.ensure();
    if (length == 0 || length > longest_symbol || window_.peek() != '"') return Reason::bad_tag;
    window_.advance(1);
    for (;; window_.ensure()) {
        const std::string_view rest = window_.rest();
        const std::size_t run = run_before<'"', '\\', '\r', '\n'>(rest);
        if (value.size() + run > bound) return Reason::too_long;
        value.append(rest, 0, run);
        window_.advance(run);
        if (run == rest.size() && run > 0) continue;
        window_.ensure();
        const std::string_view from_here = window_.rest();
        if (from_here.starts_with("\\\"") || from_here.starts_with("\\\\")) {
            value += from_here[1];
            window_.advance(2);
        } else if (from_here.starts_with('\\')) {
            value += '\\';
            window_.advance(1);
        } else if (from_here.starts_with('"')) {
            const std::size_t after = from_here.find_first_not_of(" \t", 1);
            if (after < from_here.size() && from_here[after] == ']') {
                window_.advance(after + 1);
                return Reason::none;
            }
            value += '"';
            window_.advance(1);
        } else {
            return Reason::bad_tag; // the line or the text ends inside the value
        }
    }
}

Reason PgnTokens::take_comment(std::string& text, std::size_t bound) {
    text.clear();
    bool line_is_blank = false;
    for (;;) {
        window_.ensure();
        const std::string_view rest = window_.rest();
        const std::size_t run = run_before<'}', '\n'>(rest);
        if (text.size() + run > bound) return Reason::too_long;
        text.append(rest, 0, run);
        line_is_blank = line_is_blank && trimmed(rest.substr(0, run)).empty();
        window_.advance(run);
        if (run == rest.size()) {
            window_.ensure();
            if (window_.at_end()) return Reason::unterminated_comment;
        } else if (rest[run] == '}') {
            window_.advance(1);
            return Reason::none;
        } else {
            text += '\n';
            window_.advance_line();
            window_.ensure();
            if (line_is_blank && !tag_name().empty()) return Reason::unterminated_comment;
            line_is_blank = true;
        }
    }
}

Reason PgnTokens::take_line_comment(std::string& text, std::size_t bound) {
    text.clear();
    for (;;) {
        window_.ensure();
        const std::string_view rest = window_.rest();
        const std::size_t run = (std::min)(rest.find('\n'), rest.size());
        if (text.size() + run > bound) return Reason::too_long;
        text.append(rest, 0, run);
        window_.advance(run);
        if (run < rest.size() || run == 0) return Reason::none;
    }
}

bool PgnTokens::comment_follows_on_line() {
    window_.ensure();
    skip_blanks();
    window_.ensure();
    return window_.peek() == '{' || window_.peek() == ';';
}

void PgnTokens::skip_to_tag_section(bool in_tags) {
    bool follows_blank_line = !in_tags;
    if (!window_.at_line_start()) {
        skip_to_next_line();
        follows_blank_line = false;
    }
    bool follows_tag = in_tags;
    for (;;) {
        window_.ensure();
        if (window_.at_end()) return;
        const bool is_tag = !tag_name().empty();
        if (is_tag && (follows_blank_line || !follows_tag)) return;
        skip_blanks();
        window_.ensure();
        follows_blank_line = window_.peek() == '\n';
        if (!follows_blank_line) follows_tag = is_tag;
        skip_to_next_line();
    }
}

/// How many bytes of white space, control characters and byte order marks stand here, as far as it looks ahead.
std::size_t PgnTokens::padding_length() const noexcept {
    const std::string_view rest = window_.rest().substr(0, TextWindow::lookahead);
    std::size_t length = 0;
    for (;;) {
        while (length < rest.size() && rest[length] != '\n' && static_cast<unsigned char>(rest[length]) <= ' ')
            ++length;
        if (!rest.substr(length).starts_with("\xEF\xBB\xBF")) return length;
        length += 3;
    }
}

bool PgnTokens::skip_to_border() {
    skip_to_next_line(); // nothing is known of how this one begins
    bool follows_movetext = false;
    bool follows_blank_line = false;
    for (; !window_.at_end(); skip_to_next_line()) {
        if (follows_movetext && follows_blank_line && !tag_name().empty()) return true;
        follows_blank_line = false;
        if (window_.peek() == '%') continue; // neither movetext nor tags, for a reader
        bool is_blank = true;
        for (std::size_t length = padding_length(); length > 0; length = padding_length()) {
            is_blank =
                is_blank && window_.rest().substr(0, length).find_first_not_of(" \t\r") == std::string_view::npos;
            window_.advance(length);
            window_.ensure();
        }
        const bool is_empty = window_.peek() == '\n';
        follows_blank_line = is_empty && is_blank;
        if (!is_empty) follows_movetext = tag_name().empty();
    }
    return false;
}

} // namespace keysquare::detail
