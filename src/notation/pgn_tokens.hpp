// PgnTokens: the tokens of a PGN text, one after another, and the way to the next game after a broken one.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include <keysquare/notation/characters.hpp>
#include <keysquare/notation/game.hpp>
#include <keysquare/notation/san.hpp>

#include "text_window.hpp"

namespace keysquare::detail {

/// No symbol is longer by the standard (section 7); every lookahead of a `TextWindow` holds one whole.
inline constexpr std::size_t longest_symbol = 255;

/// The characters that symbols go on with; "/" is for "1/2-1/2" and "." for "e.p.".
inline constexpr auto goes_on_symbol = [] {
    std::array<bool, 256> table{};
    for (int c = 0; c < 256; ++c)
        table[static_cast<std::size_t>(c)] =
            c < 128 && (is_digit(static_cast<char>(c)) || is_letter(static_cast<char>(c)) ||
                        std::string_view{"_+#=:-/@."}.find(static_cast<char>(c)) != std::string_view::npos);
    return table;
}();

[[nodiscard]] inline std::size_t symbol_length(const char* text) noexcept {
    std::size_t length = 0;
    while (length <= longest_symbol && goes_on_symbol[static_cast<unsigned char>(text[length])]) ++length;
    return length;
}

enum class PgnTokenType : std::uint8_t {
    end,
    tag,          ///< "[", not yet gone over: `take_tag` reads the pair
    comment,      ///< "{", gone over: `take_comment` reads the rest
    line_comment, ///< ";", gone over: `take_line_comment` reads the rest
    open,
    close,
    nag,
    number, ///< a move number with its dots
    move,   ///< anything that could be a move
    result,
    unknown
};

/// A token and its place. The view lives until the next call.
struct PgnToken {
    PgnTokenType type = PgnTokenType::end;
    std::string_view text;
    TextPlace place;
    int nag = -1; ///< of a `nag` token; -1 when it is none that the standard knows
    GameResult result = GameResult::unknown;
    bool starts_line = false;
    bool follows_blank_line = false;
    bool follows_dots = false; ///< dots or "e.p.", which are no tokens, were gone over
};

/// A plain move as it stands in the text.
struct PlainMove {
    PlainSan san;
    std::size_t bytes = 0;       ///< from here to its end; 0 when what stands here is something else
    std::size_t new_line_at = 0; ///< the bytes up to the start of its line, 0 when it is on this one
};

class PgnTokens {
  public:
    explicit PgnTokens(std::unique_ptr<ByteSource> source) : window_(std::move(source)) {}

    /// The next token; white space, "%" lines, dots and "e.p." are no tokens.
    PgnToken next();

    /// The move that stands next, if it is plain, with the white space and the number before it. Nothing is gone over.
    [[nodiscard]] PlainMove peek_plain() const noexcept;
    /// Goes over what `peek_plain` gave, and makes ready for the next.
    void go_over(const PlainMove& move);

    /// Goes over the comment that stands next, if it ends on this line and in the window; whether it did.
    bool go_over_comment();

    /// Reads a tag pair from its bracket on. An unescaped quote inside a value is taken as text.
    /// Errors: `bad_tag`, `too_long` (a value of more than `bound` bytes); the window then stands at the fault.
    Reason take_tag(std::string& name, std::string& value, std::size_t bound);
    /// Reads a comment to its closing brace. A tag pair at the start of a line after a blank one ends it: a brace that
    /// was never closed must not swallow the games that follow. Errors: `unterminated_comment`, `too_long`.
    Reason take_comment(std::string& text, std::size_t bound);
    Reason take_line_comment(std::string& text, std::size_t bound);
    /// Whether a comment begins on the rest of this line; goes over the spaces before it.
    [[nodiscard]] bool comment_follows_on_line();

    /// Goes to the next line that begins a tag section: a tag pair that follows a blank line or a line that is none.
    /// `in_tags`: the present line belongs to a tag section.
    void skip_to_tag_section(bool in_tags);
    /// Goes to the next `game_border`; false when there is none, at the end then.
    [[nodiscard]] bool skip_to_border();
    /// The name of the tag pair that begins here, empty when none does.
    [[nodiscard]] std::string_view tag_name() const noexcept;

    void ensure() { window_.ensure(); }
    [[nodiscard]] const TextWindow& window() const noexcept { return window_; }

  private:
    int skip_space();
    void skip_line();
    void skip_to_next_line() {
        skip_line();
        if (!window_.at_end()) window_.advance_line();
        window_.ensure();
    }
    [[nodiscard]] std::size_t padding_length() const noexcept;
    void skip_blanks() noexcept;
    void take_symbol(PgnToken& token) noexcept;
    void take_digits(PgnToken& token) noexcept;
    void take_glyph(PgnToken& token) noexcept;
    void take_marks(PgnToken& token) noexcept;
    void take_unknown(PgnToken& token) noexcept;
    void take(PgnToken& token, PgnTokenType type, std::size_t length) noexcept {
        token.type = type;
        token.text = window_.rest().substr(0, length);
        window_.advance(length);
    }

    TextWindow window_;
};

} // namespace keysquare::detail

#include "pgn_tokens_impl.hpp"
