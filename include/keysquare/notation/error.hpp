// InputError: what was wrong with a text, and where. Result: a value or such an error.
#pragma once

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <string_view>
#include <utility>

#include <keysquare/board/inlining.hpp>
#include <keysquare/board/literal.hpp>

namespace keysquare {

/// Why a text was refused. Append only: the numbers are part of the interface.
enum class Reason : std::uint8_t {
    none = 0, ///< no error
    // FEN
    bad_piece_letter = 1,       ///< a character that is no piece letter and no digit from 1 to 8
    bad_rank_length = 2,        ///< a rank that does not hold eight squares
    bad_rank_count = 3,         ///< a board that does not have eight ranks
    bad_mover = 4,              ///< the side to move is neither w nor b
    bad_castling = 5,           ///< not a castling field
    bad_en_passant = 6,         ///< not an en passant square
    bad_number = 7,             ///< not a number
    missing_field = 8,          ///< a field is missing
    trailing_text = 9,          ///< text after the last field
    no_king = 10,               ///< a side has no king
    several_kings = 11,         ///< a side has more than one king
    too_many_men = 12,          ///< a side has more than sixteen men
    waiter_in_check = 13,       ///< the side that is not to move stands in check
    too_many_pawns = 14,        ///< a side has more than eight pawns
    too_many_promoted = 15,     ///< a side has more promoted men than missing pawns
    pawn_on_last_rank = 16,     ///< a pawn on the first or last rank
    too_many_checks = 17,       ///< more than two men give check
    impossible_castling = 18,   ///< a castling right without its king and rook at home
    impossible_en_passant = 19, ///< no pawn can just have made that double step
    // moves
    not_a_move = 20,         ///< not a move in this notation
    illegal_move = 21,       ///< the move is not legal here
    ambiguous_move = 22,     ///< more than one piece can make the move
    no_such_piece = 23,      ///< no piece of that kind can go there
    king_left_in_check = 24, ///< the move would leave the king in check
    missing_promotion = 25,  ///< the pawn's promotion piece is missing
    // squares and sides
    not_a_square = 26, ///< not the name of a square
    not_a_side = 27,   ///< not the name of a side
    // EPD
    bad_operation = 28, ///< not an EPD operation
    // PGN
    bad_tag = 29,                ///< not a tag pair
    unterminated_comment = 30,   ///< a comment that never ends
    unterminated_variation = 31, ///< a variation that never ends
    stray_bracket = 32,          ///< a closing bracket without its opening one
    bad_nag = 33,                ///< not a numeric annotation glyph
    bad_token = 34,              ///< a token that PGN does not know
    bad_start_position = 35,     ///< the start position can't be read
    unknown_variant = 36,        ///< a variant of chess with other rules
    variation_without_move = 37, ///< a variation before any move
    missing_result = 38,         ///< the game ends without a result
    // files
    cannot_open = 39, ///< the file can't be opened
    cannot_read = 40, ///< the file can't be read any further
    // PGN
    too_long = 41, ///< a game larger than the reader's bounds
    // plans
    empty_plan = 42,    ///< a plan without a step
    plan_too_long = 43, ///< a plan of more than eight steps
    pass_in_check = 44, ///< a side that stands in check can't pass
    // lines
    line_too_long = 45, ///< a line of more than thirty-two moves
    // files
    bad_compression = 46,      ///< the compressed data is damaged
    truncated_file = 47,       ///< the file breaks off before its end
    window_too_large = 48,     ///< the compressed data needs more memory than is allowed
    compression_left_out = 49, ///< this build can't read or write files compressed in this way
    cannot_write = 50,         ///< the file can't be written
    expands_too_much = 51,     ///< the compressed data give far more text than games can
    end_ = 52                  ///< one past the last reason
};

/// Which part of a text is meant.
enum class Field : std::uint8_t {
    none,           ///< no field in particular
    placement,      ///< the men on the board, in a FEN or EPD
    mover,          ///< the side to move
    castling,       ///< the rights to castle
    en_passant,     ///< the en passant square
    halfmove_clock, ///< plies since the last capture or pawn move
    move_number,    ///< the number of the move
    move,           ///< a move by itself
    operation,      ///< an EPD operation
    tag,            ///< a PGN tag pair
    movetext,       ///< the moves of a PGN game
    comment,        ///< a PGN comment
    variation,      ///< a PGN variation
    result,         ///< the result of a PGN game
    file,           ///< a file as a whole
    step            ///< a step of a plan or a move of a line; `line` is its number
};

/// One English sentence part for a reason, without a full stop.
[[nodiscard]] constexpr std::string_view describe(Reason reason) noexcept {
    constexpr Literal texts[] = {
        "no error",
        "a character that is no piece letter and no digit from 1 to 8",
        "a rank that does not hold eight squares",
        "a board that does not have eight ranks",
        "the side to move is neither w nor b",
        "not a castling field",
        "not an en passant square",
        "not a number",
        "a field is missing",
        "text after the last field",
        "a side has no king",
        "a side has more than one king",
        "a side has more than sixteen men",
        "the side that is not to move stands in check",
        "a side has more than eight pawns",
        "a side has more promoted men than missing pawns",
        "a pawn on the first or last rank",
        "more than two men give check",
        "a castling right without its king and rook at home",
        "no pawn can just have made that double step",
        "not a move in this notation",
        "the move is not legal here",
        "more than one piece can make the move",
        "no piece of that kind can go there",
        "the move would leave the king in check",
        "the pawn's promotion piece is missing",
        "not the name of a square",
        "not the name of a side",
        "not an EPD operation",
        "not a tag pair",
        "a comment that never ends",
        "a variation that never ends",
        "a closing bracket without its opening one",
        "not a numeric annotation glyph",
        "a token that PGN does not know",
        "the start position can't be read",
        "a variant of chess with other rules",
        "a variation before any move",
        "the game ends without a result",
        "the file can't be opened",
        "the file can't be read any further",
        "a game larger than the reader's bounds",
        "a plan without a step",
        "a plan of more than eight steps",
        "a side that stands in check can't pass",
        "a line of more than thirty-two moves",
        "the compressed data is damaged",
        "the file breaks off before its end",
        "the compressed data needs more memory than is allowed",
        "this build can't read or write files compressed in this way",
        "the file can't be written",
        "the compressed data give far more text than games can",
    };
    static_assert(std::size(texts) == static_cast<std::size_t>(Reason::end_));
    return reason < Reason::end_ ? std::string_view{texts[static_cast<std::size_t>(reason)]} : "unknown error";
}

/// The reason in snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(Reason reason) noexcept {
    constexpr Literal names[] = {"none",
                                 "bad_piece_letter",
                                 "bad_rank_length",
                                 "bad_rank_count",
                                 "bad_mover",
                                 "bad_castling",
                                 "bad_en_passant",
                                 "bad_number",
                                 "missing_field",
                                 "trailing_text",
                                 "no_king",
                                 "several_kings",
                                 "too_many_men",
                                 "waiter_in_check",
                                 "too_many_pawns",
                                 "too_many_promoted",
                                 "pawn_on_last_rank",
                                 "too_many_checks",
                                 "impossible_castling",
                                 "impossible_en_passant",
                                 "not_a_move",
                                 "illegal_move",
                                 "ambiguous_move",
                                 "no_such_piece",
                                 "king_left_in_check",
                                 "missing_promotion",
                                 "not_a_square",
                                 "not_a_side",
                                 "bad_operation",
                                 "bad_tag",
                                 "unterminated_comment",
                                 "unterminated_variation",
                                 "stray_bracket",
                                 "bad_nag",
                                 "bad_token",
                                 "bad_start_position",
                                 "unknown_variant",
                                 "variation_without_move",
                                 "missing_result",
                                 "cannot_open",
                                 "cannot_read",
                                 "too_long",
                                 "empty_plan",
                                 "plan_too_long",
                                 "pass_in_check",
                                 "line_too_long",
                                 "bad_compression",
                                 "truncated_file",
                                 "window_too_large",
                                 "compression_left_out",
                                 "cannot_write",
                                 "expands_too_much"};
    static_assert(std::size(names) == static_cast<std::size_t>(Reason::end_));
    return reason < Reason::end_ ? std::string_view{names[static_cast<std::size_t>(reason)]} : "unknown";
}

/// In snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(Field field) noexcept {
    constexpr Literal names[] = {"none",        "placement", "mover",     "castling", "en_passant", "halfmove_clock",
                                 "move_number", "move",      "operation", "tag",      "movetext",   "comment",
                                 "variation",   "result",    "file",      "step"};
    return names[static_cast<std::size_t>(field)];
}

/// A text that was refused: why, in which field, and where. An error value, and an exception where one is wanted.
struct InputError : std::exception {
    Reason reason = Reason::none; ///< why
    Field field = Field::none;    ///< in which part of the text
    std::size_t line = 1;         ///< from 1; for `Field::step` the number of the step
    std::size_t column = 1;       ///< from 1, in bytes
    std::string token;      ///< the text at fault, shortened to 40 bytes; for a file, its name or what the system says
    std::string file;       ///< the file as it was named; empty when the text came from elsewhere
    std::uint64_t game = 0; ///< the number of the game in its text, from 1; 0 when the text is no text of games
    std::uint64_t offset = 0; ///< in a text of games, the bytes before the fault (before compression)

    InputError() = default;
    /// With the first 40 bytes of the text as token; a column and a line count from 1.
    InputError(Reason why, Field part, std::size_t at_column, std::string_view text, std::size_t at_line = 1)
        : reason(why), field(part), line(at_line), column(at_column), token(text.substr(0, 40)) {
        write_message();
    }

    /// The same error in a file, without a place in it.
    [[nodiscard]] InputError in_file(std::string_view file_name) const { return in_game(file_name, 0, 0); }
    /// The same error with its place in a text of many games.
    [[nodiscard]] InputError in_game(std::string_view file_name, std::uint64_t number, std::uint64_t at) const {
        InputError placed = *this;
        placed.file = file_name;
        placed.game = number;
        placed.offset = at;
        placed.write_message();
        return placed;
    }

    /// The whole error as one line of English.
    [[nodiscard]] const char* what() const noexcept override { return message_.c_str(); }

  private:
    void write_message() {
        message_ = std::string{describe(reason)} + " (";
        const bool is_of_file = field == Field::file && game == 0 && !file.empty(); // it has no other place
        if (!file.empty()) message_ += "file " + file + (is_of_file ? "" : ", ");
        if (game > 0) message_ += "game " + std::to_string(game) + ", ";
        if (!is_of_file) message_ += "field " + std::string{name(field)} + place_in_field();
        if (game > 0) message_ += ", byte " + std::to_string(offset);
        message_ += (token.empty() ? "" : ", at \"" + token + "\"") + ")";
    }
    [[nodiscard]] std::string place_in_field() const {
        return (field == Field::step ? " " + std::to_string(line)
                : line > 1           ? ", line " + std::to_string(line)
                                     : std::string{}) +
               ", column " + std::to_string(column);
    }

    std::string message_;
};

namespace detail {

// Two functions, not one with two bodies: files built with and without exceptions may meet in one program.
#ifdef __cpp_exceptions
inline namespace throwing {
/// Throws the error.
[[noreturn]] inline void raise(const InputError& error) { throw error; }
} // namespace throwing
#else
inline namespace ending {
/// Writes the error to the standard error stream and ends the program.
[[noreturn]] inline void raise(const InputError& error) {
    std::fputs(error.what(), stderr);
    std::abort();
}
} // namespace ending
#endif

} // namespace detail

/// A value, or the error that stood in its way.
template <class T> class [[nodiscard]] Result {
  public:
    /// Holds the value.
    Result(T value) : holds_value_(true), value_(std::move(value)) {}
    /// Holds the error.
    Result(InputError error) : holds_value_(false), error_(std::move(error)) {}
    /// Copies what the other one holds.
    Result(const Result& other) : holds_value_(other.holds_value_) {
        if (holds_value_)
            ::new (static_cast<void*>(&value_)) T(other.value_);
        else
            ::new (static_cast<void*>(&error_)) InputError(other.error_);
    }
    /// Takes over what the other one holds.
    Result(Result&& other) noexcept : holds_value_(other.holds_value_) { take(std::move(other)); }
    /// Copies what the other one holds.
    Result& operator=(const Result& other) {
        if (this != &other) *this = Result{other};
        return *this;
    }
    /// Takes over what the other one holds.
    Result& operator=(Result&& other) noexcept {
        if (this == &other) return *this;
        destroy();
        holds_value_ = other.holds_value_;
        take(std::move(other));
        return *this;
    }
    ~Result() { destroy(); }

    /// Whether it holds a value.
    [[nodiscard]] explicit operator bool() const noexcept { return holds_value_; }

    /// Precondition: holds a value.
    [[nodiscard]] const T& operator*() const& noexcept { return value_; }
    /// Precondition: holds a value.
    [[nodiscard]] T&& operator*() && noexcept { return std::move(value_); }
    /// Precondition: holds a value.
    [[nodiscard]] const T* operator->() const noexcept { return &value_; }

    /// Precondition: holds an error.
    [[nodiscard]] const InputError& error() const noexcept { return error_; }

    /// The value; throws the `InputError` when there is none. (Without exceptions the program ends: ask first.)
    [[nodiscard]] KEYSQUARE_INLINED const T& value() const& { // nowhere a function, for it would be one of two
        if (!*this) detail::raise(error());
        return **this;
    }
    /// The value; throws the error when there is none.
    [[nodiscard]] KEYSQUARE_INLINED T value() && {
        if (!*this) detail::raise(error());
        return std::move(value_);
    }

  private:
    void take(Result&& other) noexcept {
        if (holds_value_)
            ::new (static_cast<void*>(&value_)) T(std::move(other.value_));
        else
            ::new (static_cast<void*>(&error_)) InputError(std::move(other.error_));
    }
    void destroy() noexcept {
        if (holds_value_)
            value_.~T();
        else
            error_.~InputError();
    }

    // By hand what a variant would be: that costs whoever includes us twenty times the compile time for every type.
    bool holds_value_;
    union {
        T value_;
        InputError error_;
    };
};

} // namespace keysquare
