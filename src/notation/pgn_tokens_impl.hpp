// Bodies of pgn_tokens.hpp: those that are to be inlined.
#pragma once

#include <algorithm>

#include "pgn_tokens.hpp"

namespace keysquare::detail {

inline void PgnTokens::skip_line() {
    while (!window_.at_end() && window_.peek() != '\n') {
        const std::string_view rest = window_.rest();
        window_.advance((std::min)(rest.find('\n'), rest.size()));
        window_.ensure();
    }
}

inline void PgnTokens::skip_blanks() noexcept {
    while (window_.peek() == ' ' || window_.peek() == '\t' || window_.peek() == '\r') window_.advance(1);
}

inline std::string_view PgnTokens::tag_name() const noexcept {
    const std::string_view rest = window_.rest().substr(0, TextWindow::lookahead);
    if (!rest.starts_with('[')) return {};
    const std::size_t begin = (std::min)(rest.find_first_not_of(" \t\r", 1), rest.size());
    const std::size_t length = symbol_length(rest.data() + begin);
    const std::size_t quote = rest.find_first_not_of(" \t\r", begin + length);
    return quote < rest.size() && rest[quote] == '"' ? rest.substr(begin, length) : std::string_view{};
}

/// Goes over white space and "%" lines, and returns the number of line ends among it.
inline int PgnTokens::skip_space() {
    int line_ends = 0;
    for (;;) {
        switch (window_.peek()) {
        case ' ': window_.advance(1); break;
        case '\n':
            window_.advance_line();
            ++line_ends;
            break;
        case '%':
            if (!window_.at_line_start()) return line_ends;
            skip_line();
            break;
        case '\xEF': // a byte order mark where files were joined
            if (!window_.rest().starts_with("\xEF\xBB\xBF")) return line_ends;
            window_.advance(3);
            break;
        default: // zero bytes and control characters pad the ends of old files
            if (static_cast<unsigned char>(window_.peek()) >= 0x20 || window_.at_end()) return line_ends;
            window_.advance(1);
        }
        window_.ensure();
    }
}

inline void PgnTokens::take_symbol(PgnToken& token) noexcept {
    const std::size_t length = symbol_length(window_.data());
    take(token, length > longest_symbol ? PgnTokenType::unknown : PgnTokenType::move, length);
}

/// A move number, a result, or castling with zeros.
inline void PgnTokens::take_digits(PgnToken& token) noexcept {
    const char* const text = window_.data();
    std::size_t length = 0;
    while (length <= longest_symbol && is_digit(text[length])) ++length;
    if (length > longest_symbol || text[length] == '.' || !goes_on_symbol[static_cast<unsigned char>(text[length])]) {
        take(token, length > longest_symbol ? PgnTokenType::unknown : PgnTokenType::number, length);
        return;
    }
    take_symbol(token);
    const auto is_result = [&](GameResult result, std::string_view spelling) {
        if (token.text != spelling) return;
        token.type = PgnTokenType::result;
        token.result = result;
    };
    is_result(GameResult::white_wins, "1-0");
    is_result(GameResult::black_wins, "0-1");
    is_result(GameResult::draw, "1/2-1/2");
    is_result(GameResult::draw, "1/2");
}

inline void PgnTokens::take_glyph(PgnToken& token) noexcept {
    const char* const text = window_.data();
    std::size_t length = 1;
    int nag = 0;
    for (; length < 5 && is_digit(text[length]); ++length) nag = nag * 10 + (text[length] - '0');
    take(token, PgnTokenType::nag, length);
    if (length > 1 && nag <= 255) token.nag = nag;
}

/// The six marks of the standard (section 10); of longer runs the first two characters count.
inline void PgnTokens::take_marks(PgnToken& token) noexcept {
    const char* const text = window_.data();
    std::size_t length = 0;
    while (length <= longest_symbol && (text[length] == '!' || text[length] == '?')) ++length;
    take(token, PgnTokenType::nag, length);
    constexpr std::array<std::string_view, 6> marks{"!", "?", "!!", "??", "!?", "?!"};
    const std::string_view mark = token.text.substr(0, 2);
    token.nag = static_cast<int>(place_of(marks, [&](std::string_view other) { return other == mark; })) + 1;
}

inline void PgnTokens::take_unknown(PgnToken& token) noexcept {
    const std::string_view rest = window_.rest();
    take(token, PgnTokenType::unknown,
         std::clamp<std::size_t>(rest.find_first_of(" \t\r\n"), 1, (std::min<std::size_t>)(rest.size(), 40)));
}

inline PlainMove PgnTokens::peek_plain() const noexcept {
    const char* const begin = window_.data();
    const char* text = begin;
    PlainMove move;
    while (*text == ' ') ++text;
    if (*text == '\r') ++text;
    if (*text == '\n')
        move.new_line_at = static_cast<std::size_t>(++text - begin); // not a second one: a blank line may end it all
    if (is_digit(*text)) {
        do ++text;
        while (is_digit(*text));
        if (*text != '.') return {};
        do ++text;
        while (*text == '.');
        if (*text == ' ') ++text;
    }
    text = read_plain(text, move.san);
    if (text && !goes_on_symbol[static_cast<unsigned char>(*text)]) move.bytes = static_cast<std::size_t>(text - begin);
    return move;
}

inline void PgnTokens::go_over(const PlainMove& move) {
    if (move.new_line_at > 0) {
        window_.advance(move.new_line_at - 1);
        window_.advance_line();
    }
    window_.advance(move.bytes - move.new_line_at);
    window_.ensure();
}

inline bool PgnTokens::go_over_comment() {
    const std::string_view rest = window_.rest();
    const std::size_t begin = rest.starts_with(' ') ? 1 : 0;
    if (!rest.substr(begin).starts_with('{')) return false;
    const std::size_t end = rest.find('}', begin);
    if (end == std::string_view::npos || rest.substr(0, end).find('\n') != std::string_view::npos) return false;
    window_.advance(end + 1);
    window_.ensure();
    return true;
}

inline PgnToken PgnTokens::next() {
    bool starts_line = window_.at_line_start();
    bool follows_dots = false;
    int line_ends = 0;
    for (;; follows_dots = true) {
        window_.ensure();
        line_ends += skip_space();
        starts_line = starts_line || line_ends > 0;
        if (window_.peek() == '.')
            window_.advance(1);
        else if (window_.peek() == 'e' && window_.rest().starts_with("e.p."))
            window_.advance(4);
        else
            break;
    }
    PgnToken token;
    token.follows_dots = follows_dots;
    token.place = window_.place();
    token.starts_line = starts_line;
    token.follows_blank_line = line_ends > 1;
    const char c = window_.peek();
    if (is_letter(c) || c == '-')
        take_symbol(token);
    else if (is_digit(c))
        take_digits(token);
    else if (c == '{')
        take(token, PgnTokenType::comment, 1);
    else if (c == ';')
        take(token, PgnTokenType::line_comment, 1);
    else if (c == '(')
        take(token, PgnTokenType::open, 1);
    else if (c == ')' || c == '}' || c == ']')
        take(token, PgnTokenType::close, 1);
    else if (c == '$')
        take_glyph(token);
    else if (c == '!' || c == '?')
        take_marks(token);
    else if (c == '[')
        token.type = PgnTokenType::tag;
    else if (c == '*')
        take(token, PgnTokenType::result, 1);
    else if (!window_.at_end())
        take_unknown(token);
    return token;
}

} // namespace keysquare::detail
