#include <keysquare/notation/pgn.hpp>

#include <array>
#include <utility>

#include <keysquare/notation/characters.hpp>
#include <keysquare/notation/utf8.hpp>

#include "pgn_tokens.hpp"

namespace keysquare {

namespace detail {

namespace {

/// Whether a Variant tag names the rules of chess, from whatever start position.
bool is_chess_variant(std::string_view value) {
    std::string plain;
    for (const char c : value) {
        if (is_digit(c) || (c >= 'a' && c <= 'z')) plain += c;
        if (c >= 'A' && c <= 'Z') plain += static_cast<char>(c - 'A' + 'a');
    }
    constexpr std::array<std::string_view, 13> names{
        "",         "standard", "chess",        "normal",        "orthodox",           "fromposition",
        "chess960", "960",      "fischerandom", "fischerrandom", "fischerrandomchess", "fischerandomchess",
        "freestyle"};
    return contains(names, plain);
}

} // namespace

/// The work of a PgnReader.
class GameReading {
  public:
    GameReading(std::unique_ptr<ByteSource> source, PgnOptions options)
        : tokens_(std::move(source)), options_(std::move(options)) {}

    Reading next(Game& game);

    [[nodiscard]] const InputError& error() const noexcept { return error_; }
    [[nodiscard]] const std::vector<InputError>& notices() const noexcept { return notices_; }
    [[nodiscard]] std::uint64_t game_number() const noexcept {
        return counts_.read + counts_.refused + counts_.left_out;
    }
    [[nodiscard]] const TextPlace& game_place() const noexcept { return game_place_; }
    [[nodiscard]] std::uint64_t offset() const noexcept { return tokens_.window().offset(); }
    [[nodiscard]] const PgnCounts& counts() const noexcept { return counts_; }

  private:
    /// A line of moves that is being read: the game itself or a variation.
    struct Line {
        std::array<Position, 2> positions; // in turns before and after the last move, so that playing copies once
        std::size_t present = 0;
        StepIndex node = root_step;   ///< the last move
        StepIndex first = root_step;  ///< the first move, none yet when it is the root
        StepIndex closed = root_step; ///< the first move of the variation that was closed just now
        TextPlace opened;

        [[nodiscard]] const Position& now() const noexcept { return positions[present]; }
        [[nodiscard]] const Position& before() const noexcept { return positions[1 - present]; }
        void play(Move move) noexcept {
            positions[1 - present] = after_in_game(now(), move);
            present = 1 - present;
        }
    };

    enum class Step : std::uint8_t { go_on, done, refuse, leave_out, nothing };

    Step read_one(Game& game);
    Step take(Game& game, const PgnToken& token);
    Step take_tag(Game& game, const PgnToken& token);
    Step take_comment(Game& game, const PgnToken& token);
    Step take_move(Game& game, const PgnToken& token);
    void take_plain_moves(Game& game);
    Step take_nag(Game& game, const PgnToken& token);
    Step open_variation(Game& game, const PgnToken& token);
    Step close_variation(Game& game, const PgnToken& token);
    Step take_result(Game& game, const PgnToken& token);
    Step begin_moves(Game& game);
    Step go_over_moves(PgnToken token);
    Step end_without_result(const PgnToken& token);
    [[nodiscard]] InputError fault(Reason reason, Field field, const TextPlace& place, std::string_view text) const;
    Step refuse(Reason reason, Field field, const TextPlace& place, std::string_view text) {
        error_ = fault(reason, field, place, text);
        return Step::refuse;
    }
    Step refuse(Reason reason, Field field, const PgnToken& token) {
        return refuse(reason, field, token.place, token.text);
    }

    PgnTokens tokens_;
    PgnOptions options_;
    PgnCounts counts_;
    InputError error_;
    std::vector<InputError> notices_;
    TextPlace game_place_;
    bool source_fault_told_ = false;
    bool text_follows_tags_ = false; // a comment, say; then tags after a blank line begin another game

    // of the game that is being read
    std::vector<Line> lines_; // none before the first token of the movetext
    TextPlace fen_place_;
    TextPlace variant_place_;
    std::string text_;
    std::string value_;
    std::string early_comment_;            // in a variation, before its first move
    std::vector<std::uint8_t> early_nags_; // before the first move of a line
};

InputError GameReading::fault(Reason reason, Field field, const TextPlace& place, std::string_view text) const {
    std::string token{text.substr(0, 40)};
    make_utf8(token);
    return InputError{reason, field, place.column, token, place.line}.in_game(options_.file, game_number() + 1,
                                                                              place.offset);
}

Reading GameReading::next(Game& game) {
    const Step step = read_one(game);
    if (step == Step::nothing) return Reading::end;
    if (step == Step::leave_out) {
        ++counts_.left_out;
        return Reading::left_out;
    }
    if (step == Step::refuse) {
        const bool in_tag = error_.reason == Reason::bad_tag || error_.reason == Reason::too_long;
        tokens_.skip_to_tag_section(in_tag && error_.field == Field::tag);
        if (!options_.keep_moves_before_fault || lines_.empty()) {
            ++counts_.refused;
            return Reading::refused;
        }
        game.set_result(GameResult::unknown);
        notices_.push_back(error_);
    }
    ++counts_.read;
    if (!notices_.empty()) ++counts_.with_notices;
    return Reading::game;
}

GameReading::Step GameReading::read_one(Game& game) {
    game.clear();
    notices_.clear();
    lines_.clear();
    early_comment_.clear();
    early_nags_.clear();
    text_follows_tags_ = false;
    bool is_first = true;
    for (;;) {
        const PgnToken token = tokens_.next();
        if (is_first || (token.type == PgnTokenType::tag && lines_.empty() && game.tag_count() == 0))
            game_place_ = token.place;
        is_first = false;
        const Step step = take(game, token);
        if (step == Step::go_on) {
            if (token.type == PgnTokenType::move || token.type == PgnTokenType::comment) take_plain_moves(game);
            continue;
        }
        const bool is_whole = step == Step::done && notices_.empty();
        if (!tokens_.window().at_end() || !tokens_.window().fault() || source_fault_told_ || is_whole) return step;
        source_fault_told_ = true; // the text goes on out of reach, so its end here is no fault of the game
        const InputError& broke_off = *tokens_.window().fault();
        return refuse(broke_off.reason, broke_off.field, tokens_.window().place(), broke_off.token);
    }
}

GameReading::Step GameReading::take(Game& game, const PgnToken& token) {
    using enum PgnTokenType;
    const bool has_movetext = !lines_.empty();
    text_follows_tags_ = game.tag_count() > 0 && (text_follows_tags_ || token.follows_dots);
    if (token.type == comment || token.type == line_comment) {
        text_follows_tags_ = game.tag_count() > 0;
        return take_comment(game, token);
    }
    if (token.type == tag && !has_movetext) {
        const bool is_new_game = token.follows_blank_line && (text_follows_tags_ || game.has_tag(tokens_.tag_name()));
        // A tag on the line of a comment leaves that line what it was, see `game_border`.
        text_follows_tags_ = !token.starts_line && (game.tag_count() == 0 || text_follows_tags_);
        if (!is_new_game) return take_tag(game, token);
    }
    if (token.type == end && !has_movetext && game.tag_count() == 0) return Step::nothing;
    if (!has_movetext) {
        if (options_.wanted && !options_.wanted(game)) return go_over_moves(token);
        if (const Step step = begin_moves(game); step != Step::go_on) return step;
    }
    switch (token.type) {
    case move: return take_move(game, token);
    case nag: return take_nag(game, token);
    case open: return open_variation(game, token);
    case close: return close_variation(game, token);
    case result: return take_result(game, token);
    case number: return Step::go_on;
    case end: return end_without_result(token);
    case tag:
        return token.starts_line || !has_movetext ? end_without_result(token)
                                                  : refuse(Reason::bad_token, Field::movetext, token.place, "[");
    default: return refuse(Reason::bad_token, Field::movetext, token);
    }
}

GameReading::Step GameReading::take_tag(Game& game, const PgnToken& token) {
    const Reason reason = tokens_.take_tag(text_, value_, options_.most_text);
    const TextPlace end = tokens_.window().place();
    if (reason != Reason::none) return refuse(reason, Field::tag, end, text_);
    const std::size_t length = value_.size() + 2;
    make_utf8(value_);
    if (game.tag_count() == options_.most_tags || game.text_.size() + value_.size() > options_.most_text)
        return refuse(Reason::too_long, Field::tag, token.place, text_);
    // The place of the value's first byte, if nothing in it was escaped.
    const TextPlace place =
        end.column > length ? TextPlace{token.place.line, end.column - length, end.offset - length} : token.place;
    if (text_ == "FEN") fen_place_ = place;
    if (text_ == "Variant") variant_place_ = place;
    game.set_tag(text_, value_);
    return Step::go_on;
}

GameReading::Step GameReading::begin_moves(Game& game) {
    if (const std::string_view variant = game.tag("Variant"); !is_chess_variant(variant))
        return refuse(Reason::unknown_variant, Field::tag, variant_place_, variant);
    if (const std::string_view text = game.tag("FEN"); !text.empty()) {
        const Result<Position> start = read_fen(text, Strictness::lenient);
        if (!start)
            return refuse(Reason::bad_start_position, Field::tag, fen_place_.ahead(start.error().column - 1), text);
        game.start_ = *start;
    }
    lines_.emplace_back().positions[0] = game.start_;
    return Step::go_on;
}

/// Goes to the end of the movetext that begins with the token.
GameReading::Step GameReading::go_over_moves(PgnToken token) {
    using enum PgnTokenType;
    const auto take_comment = [&](const PgnToken& begin) {
        return begin.type == comment ? tokens_.take_comment(text_, options_.most_text)
                                     : tokens_.take_line_comment(text_, options_.most_text);
    };
    for (std::size_t depth = 0;; token = tokens_.next()) {
        bool is_broken = token.type == tag && !token.starts_line;
        if (token.type == end || (token.type == tag && token.starts_line)) return Step::leave_out;
        if (token.type == comment || token.type == line_comment) is_broken = take_comment(token) != Reason::none;
        if (token.type == open) ++depth;
        if (token.type == close && depth > 0) --depth;
        const bool ends = token.type == result && depth == 0;
        while (ends && !is_broken && tokens_.comment_follows_on_line())
            is_broken = take_comment(tokens_.next()) != Reason::none;
        if (is_broken) tokens_.skip_to_tag_section(false);
        if (ends || is_broken) return Step::leave_out;
    }
}

GameReading::Step GameReading::take_comment(Game& game, const PgnToken& token) {
    const bool to_line_end = token.type == PgnTokenType::line_comment;
    const Reason reason = to_line_end ? tokens_.take_line_comment(text_, options_.most_text)
                                      : tokens_.take_comment(text_, options_.most_text);
    const bool fits = game.text_.size() + early_comment_.size() + text_.size() <= options_.most_text;
    if (reason != Reason::none || !fits) // the token's view has gone with the comment's bytes
        return refuse(fits ? reason : Reason::too_long, Field::comment, token.place, to_line_end ? ";" : "{");
    if (!options_.keep_comments) return Step::go_on;
    make_utf8(text_);
    if (lines_.empty()) {
        game.add_comment(root_step, text_);
    } else if (const Line& line = lines_.back(); line.closed != root_step) {
        game.add_comment(line.closed, text_, CommentPlace::beyond);
    } else if (line.first == root_step && lines_.size() > 1) {
        early_comment_.append(early_comment_.empty() ? "" : " ").append(trimmed(text_));
    } else {
        game.add_comment(line.node, text_);
    }
    return Step::go_on;
}

GameReading::Step GameReading::take_move(Game& game, const PgnToken& token) {
    Line& line = lines_.back();
    Move move;
    if (token.text == "--" || token.text == "Z0") {
        if (lines_.size() == 1) return refuse(Reason::illegal_move, Field::move, token);
        if (in_check(line.now())) return refuse(Reason::king_left_in_check, Field::move, token);
    } else {
        const FoundMove found = find_san(line.now(), token.text);
        if (found.reason != Reason::none)
            return refuse(found.reason, Field::move, token.place.ahead(found.at), token.text);
        move = found.move;
    }
    if (game.steps().size() > options_.most_moves) return refuse(Reason::too_long, Field::movetext, token);
    line.play(move);
    line.node = game.add_move(line.node, move);
    line.closed = root_step;
    if (line.first == root_step) {
        line.first = line.node;
        for (const std::uint8_t nag : early_nags_) game.add_nag(line.node, nag);
        game.add_comment(line.node, early_comment_, CommentPlace::before);
        early_nags_.clear();
        early_comment_.clear();
    }
    return Step::go_on;
}

/// Plays the moves that stand next as export format writes most of them, which is quick, and leaves the rest to the
/// tokens: so it changes nothing but the speed.
void GameReading::take_plain_moves(Game& game) {
    if (lines_.empty() || lines_.back().first == root_step) return;
    Line& line = lines_.back();
    tokens_.ensure();
    while (game.steps().size() <= options_.most_moves) {
        while (!options_.keep_comments && tokens_.go_over_comment()) {
        }
        const PlainMove next = tokens_.peek_plain();
        if (next.bytes == 0) return;
        const Move move = find_plain(line.now(), next.san);
        if (!move) return;
        tokens_.go_over(next);
        line.play(move);
        line.node = game.add_move(line.node, move);
        line.closed = root_step;
    }
}

GameReading::Step GameReading::take_nag(Game& game, const PgnToken& token) {
    if (token.nag < 0) return refuse(Reason::bad_nag, Field::movetext, token);
    if (game.nags_.size() + early_nags_.size() >= options_.most_text)
        return refuse(Reason::too_long, Field::movetext, token);
    const auto nag = static_cast<std::uint8_t>(token.nag);
    if (const Line& line = lines_.back(); line.first == root_step)
        early_nags_.push_back(nag);
    else
        game.add_nag(line.node, nag);
    return Step::go_on;
}

GameReading::Step GameReading::open_variation(Game& game, const PgnToken& token) {
    const Line& line = lines_.back();
    if (line.first == root_step) return refuse(Reason::variation_without_move, Field::variation, token);
    if (lines_.size() > options_.deepest_variation) return refuse(Reason::too_long, Field::variation, token);
    Line variation;
    variation.positions[0] = line.before();
    variation.node = game.step(line.node).parent;
    variation.opened = token.place;
    lines_.push_back(variation);
    return Step::go_on;
}

GameReading::Step GameReading::close_variation(Game& game, const PgnToken& token) {
    if (lines_.size() == 1 || token.text != ")") return refuse(Reason::stray_bracket, Field::movetext, token);
    const StepIndex first = lines_.back().first;
    lines_.pop_back();
    early_nags_.clear();
    if (first != root_step) {
        lines_.back().closed = first;
    } else {
        game.add_comment(lines_.back().node, early_comment_);
        early_comment_.clear();
    }
    return Step::go_on;
}

GameReading::Step GameReading::take_result(Game& game, const PgnToken& token) {
    if (lines_.size() > 1) return Step::go_on; // some programs end variations so
    game.set_result(token.result);
    while (tokens_.comment_follows_on_line()) // "1-0 {White resigned}"
        if (const Step step = take_comment(game, tokens_.next()); step != Step::go_on) return step;
    return Step::done;
}

GameReading::Step GameReading::end_without_result(const PgnToken& token) {
    if (const Line& line = lines_.back(); lines_.size() > 1)
        return refuse(Reason::unterminated_variation, Field::variation, line.opened, "(");
    notices_.push_back(fault(Reason::missing_result, Field::result, token.place, {}));
    return Step::done;
}

} // namespace detail

PgnReader::PgnReader(std::unique_ptr<ByteSource> source, PgnOptions options)
    : reading_(std::make_unique<detail::GameReading>(std::move(source), std::move(options))) {}

PgnReader::PgnReader(std::istream& stream, PgnOptions options)
    : PgnReader(std::make_unique<StreamSource>(stream), std::move(options)) {}

PgnReader::PgnReader(PgnReader&& other) noexcept = default;
PgnReader& PgnReader::operator=(PgnReader&& other) noexcept = default;
PgnReader::~PgnReader() = default;

Reading PgnReader::next(Game& game) { return reading_->next(game); }

std::optional<Result<Game>> PgnReader::next() {
    Game game;
    for (;;) switch (next(game)) {
        case Reading::game: return Result<Game>{std::move(game)};
        case Reading::refused: return Result<Game>{error()};
        case Reading::left_out: break;
        case Reading::end: return std::nullopt;
        }
}

const InputError& PgnReader::error() const noexcept { return reading_->error(); }
const std::vector<InputError>& PgnReader::notices() const noexcept { return reading_->notices(); }
std::uint64_t PgnReader::game_number() const noexcept { return reading_->game_number(); }
std::uint64_t PgnReader::game_offset() const noexcept { return reading_->game_place().offset; }
std::size_t PgnReader::game_line() const noexcept { return reading_->game_place().line; }
std::uint64_t PgnReader::offset() const noexcept { return reading_->offset(); }
const PgnCounts& PgnReader::counts() const noexcept { return reading_->counts(); }

Result<Game> read_pgn(std::string_view text, PgnOptions options) {
    PgnReader reader{std::make_unique<TextSource>(text), std::move(options)};
    if (std::optional<Result<Game>> game = reader.next()) return *std::move(game);
    return InputError{Reason::missing_field, Field::movetext, 1, {}};
}

} // namespace keysquare
