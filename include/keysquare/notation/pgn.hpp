// PGN in and out: the import and export formats of the 1994 standard. (Part of keysquare::keysquare.)
#pragma once

#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <keysquare/notation/byte_source.hpp>
#include <keysquare/notation/game.hpp>

namespace keysquare {

/// What one call of `PgnReader::next` gave.
enum class Reading : std::uint8_t {
    game,     ///< a game was read
    refused,  ///< one could not be read
    left_out, ///< one was not wanted
    end       ///< there is no further one
};

/// How games are read.
struct PgnOptions {
    /// A game with a fault in its movetext is then given with the moves before the fault, the fault among the notices
    /// and an unknown result, instead of being refused.
    bool keep_moves_before_fault = false;
    /// Whether the games get their comments; otherwise they are only gone over, which is quicker, and count for
    /// `most_text` only each by itself.
    bool keep_comments = true;
    // Bounds on one game, so that no text can take all memory; beyond them a game is refused as `too_long`.
    std::size_t most_text = std::size_t{16} << 20U; ///< bytes of tags and comments together; also the most glyphs
    std::size_t most_tags = 1000;                   ///< tag pairs of one game
    std::size_t most_moves = 1'000'000;             ///< variations included
    std::size_t deepest_variation = 50'000;         ///< variations in variations
    std::string file{};                             ///< what errors call the text; empty when it has no name
    /// Asked of every game once its tags have been read. One that is not wanted is left out: its moves are gone over
    /// without being replayed, so that nobody learns whether they are legal. Empty: all games are wanted.
    std::function<bool(const Game&)> wanted{};
};

/// What a reader has seen so far.
struct PgnCounts {
    std::uint64_t read = 0;         ///< games given
    std::uint64_t refused = 0;      ///< games refused with an error
    std::uint64_t left_out = 0;     ///< games that were not wanted
    std::uint64_t with_notices = 0; ///< games given that have notices
};

/// Reads the games of a PGN text one at a time, in memory that does not grow with the text, and replays every move.
///
/// Accepted beyond export format: everything that `read_san` accepts; tags in any order, several on a line, with
/// unescaped quotes in a value, or none at all; ";" comments, "%" lines, CRLF, a byte order mark; comments and tags in
/// Latin-1; "!", "?" and their pairs as glyphs 1 to 6; a missing result; null moves ("--", "Z0") in variations, where
/// the mover is not in check (in the game itself they are refused: nobody passes). Comments that stand at the same
/// place become one. Variations in any depth; an empty one is dropped, and one inside the first move of another
/// becomes its sibling, as both replace the same move.
///
/// After a fault the reading goes on at the next tag section, so a broken game costs no other. A text can be cut in two
/// where `game_border` says, and the parts read apart: they give the games that the whole gives. The start position
/// comes from the FEN tag (read leniently); a Variant tag that names other rules is refused.
class PgnReader {
  public:
    /// Reads from this source to its end.
    explicit PgnReader(std::unique_ptr<ByteSource> source, PgnOptions options = {});
    /// Reads from a stream that the caller keeps alive.
    explicit PgnReader(std::istream& stream, PgnOptions options = {});
    PgnReader(const PgnReader&) = delete;
    PgnReader& operator=(const PgnReader&) = delete;
    /// Takes the reading over; the other one can only be assigned to or destroyed then.
    PgnReader(PgnReader&&) noexcept;
    /// Takes the reading over; the other one can only be assigned to or destroyed then.
    PgnReader& operator=(PgnReader&&) noexcept;
    ~PgnReader();

    /// Reads the next game into `game`, whose buffers are used again: no allocation a move once they have grown.
    /// After `refused`, `error()` tells why and `game` holds what was read before the fault.
    Reading next(Game& game);
    /// The next game, or the error that it was refused with; nothing at the end.
    [[nodiscard]] std::optional<Result<Game>> next();

    /// Why the last refused game was refused. Reasons: those of `read_san`, and `bad_tag`, `bad_start_position`,
    /// `unknown_variant`, `unterminated_comment`, `unterminated_variation`, `variation_without_move`, `stray_bracket`,
    /// `bad_nag`, `bad_token`, `too_long`, and when the source broke off, `cannot_read`, `truncated_file`,
    /// `bad_compression`, `window_too_large` or `expands_too_much`. Line, column and offset count from the start of the text; file and
    /// number of the game are given, too.
    [[nodiscard]] const InputError& error() const noexcept;
    /// What was odd about the last game though it was given: `missing_result`, and faults that were cut off.
    [[nodiscard]] const std::vector<InputError>& notices() const noexcept;
    /// The number of the last game, from 1, refused ones included.
    [[nodiscard]] std::uint64_t game_number() const noexcept;
    /// The offset in the text where the last game begins: with its first tag or, when it has none, its first token.
    [[nodiscard]] std::uint64_t game_offset() const noexcept;
    /// The line of that place, from 1.
    [[nodiscard]] std::size_t game_line() const noexcept;
    /// The offset where the reading stands.
    [[nodiscard]] std::uint64_t offset() const noexcept;
    /// What was read, refused and left out so far.
    [[nodiscard]] const PgnCounts& counts() const noexcept;

  private:
    std::unique_ptr<detail::GameReading> reading_;
};

/// The first game of a text. Errors: as `PgnReader`, or `missing_field` when the text holds no game.
[[nodiscard]] Result<Game> read_pgn(std::string_view text, PgnOptions options = {});

/// The game in export format, with an empty line at its end: the seven tags of the roster, the other tags by name,
/// lines of less than 80 columns (longer words and comments with a closing brace, written to the end of a line, apart).
/// A game that was read comes out equal to itself when the text is read again.
[[nodiscard]] std::string write_pgn(const Game& game);
/// Adds the same to the end of `text`.
void write_pgn(const Game& game, std::string& text);

} // namespace keysquare
