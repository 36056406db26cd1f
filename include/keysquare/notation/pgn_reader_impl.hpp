// Bodies of PgnReader in notation/pgn.hpp.
#pragma once

#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/utf8.hpp>

namespace keysquare {

namespace detail {

/// Whether a Variant tag names the rules of chess, from whatever start position.
[[nodiscard]] inline bool is_chess_variant(std::string_view value) {
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

} // namespace detail

inline InputError PgnReader::fault(Reason reason, Field field, const detail::TextPlace& place,
                                   std::string_view text) const {
    std::string token{text.substr(0, 40)};
    detail::make_utf8(token);
    return InputError{reason, field, place.column, token, place.line}.in_game(options_.file, game_number() + 1,
                                                                              place.offset);
}

inline Reading PgnReader::next(Game& game) {
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

inline std::optional<Result<Game>> PgnReader::next() {
    Game game;
    for (;;) switch (next(game)) {
        case Reading::game: return Result<Game>{std::move(game)};
        case Reading::refused: return Result<Game>{error_};
        case Reading::left_out: break;
        case Reading::end: return std::nullopt;
        }
}

inline PgnReader::Step PgnReader::read_one(Game& game) {
    game.clear();
    notices_.clear();
    lines_.clear();
    early_comment_.clear();
    early_nags_.clear();
    text_follows_tags_ = false;
    bool is_first = true;
    for (;;) {
        const detail::PgnToken token = tokens_.next();
        if (is_first || (token.type == detail::PgnTokenType::tag && lines_.empty() && game.tag_count() == 0))
            game_place_ = token.place;
        is_first = false;
        const Step step = take(game, token);
        if (step == Step::go_on) {
            if (token.type == detail::PgnTokenType::move || token.type == detail::PgnTokenType::comment)
                take_plain_moves(game);
            continue;
        }
        const bool is_whole = step == Step::done && notices_.empty();
        if (!tokens_.window().at_end() || !tokens_.window().fault() || source_fault_told_ || is_whole) return step;
        source_fault_told_ = true; // the text goes on out of reach, so its end here is no fault of the game
        const InputError& broke_off = *tokens_.window().fault();
        return refuse(broke_off.reason, broke_off.field, tokens_.window().place(), broke_off.token);
    }
}

inline PgnReader::Step PgnReader::take(Game& game, const detail::PgnToken& token) {
    using enum detail::PgnTokenType;
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

inline PgnReader::Step PgnReader::take_tag(Game& game, const detail::PgnToken& token) {
    const Reason reason = tokens_.take_tag(text_, value_, options_.most_text);
    const detail::TextPlace end = tokens_.window().place();
    if (reason != Reason::none) return refuse(reason, Field::tag, end, text_);
    const std::size_t length = value_.size() + 2;
    detail::make_utf8(value_);
    if (game.tag_count() == options_.most_tags || game.text_.size() + value_.size() > options_.most_text)
        return refuse(Reason::too_long, Field::tag, token.place, text_);
    // The place of the value's first byte, if nothing in it was escaped.
    const detail::TextPlace place = end.column > length
                                        ? detail::TextPlace{token.place.line, end.column - length, end.offset - length}
                                        : token.place;
    if (text_ == "FEN") fen_place_ = place;
    if (text_ == "Variant") variant_place_ = place;
    game.set_tag(text_, value_);
    return Step::go_on;
}

inline PgnReader::Step PgnReader::begin_moves(Game& game) {
    if (const std::string_view variant = game.tag("Variant"); !detail::is_chess_variant(variant))
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
inline PgnReader::Step PgnReader::go_over_moves(detail::PgnToken token) {
    using enum detail::PgnTokenType;
    const auto take_comment = [&](const detail::PgnToken& begin) {
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

inline PgnReader::Step PgnReader::take_comment(Game& game, const detail::PgnToken& token) {
    const bool to_line_end = token.type == detail::PgnTokenType::line_comment;
    const Reason reason = to_line_end ? tokens_.take_line_comment(text_, options_.most_text)
                                      : tokens_.take_comment(text_, options_.most_text);
    const bool fits = game.text_.size() + early_comment_.size() + text_.size() <= options_.most_text;
    if (reason != Reason::none || !fits) // the token's view has gone with the comment's bytes
        return refuse(fits ? reason : Reason::too_long, Field::comment, token.place, to_line_end ? ";" : "{");
    if (!options_.keep_comments) return Step::go_on;
    detail::make_utf8(text_);
    if (lines_.empty()) {
        game.add_comment(root_step, text_);
    } else if (const Line& line = lines_.back(); line.closed != root_step) {
        game.add_comment(line.closed, text_, CommentPlace::beyond);
    } else if (line.first == root_step && lines_.size() > 1) {
        early_comment_.append(early_comment_.empty() ? "" : " ").append(detail::trimmed(text_));
    } else {
        game.add_comment(line.node, text_);
    }
    return Step::go_on;
}

inline PgnReader::Step PgnReader::take_move(Game& game, const detail::PgnToken& token) {
    Line& line = lines_.back();
    Move move;
    if (token.text == "--" || token.text == "Z0") {
        if (lines_.size() == 1) return refuse(Reason::illegal_move, Field::move, token);
        if (in_check(line.now())) return refuse(Reason::king_left_in_check, Field::move, token);
    } else {
        const detail::FoundMove found = detail::find_san(line.now(), token.text);
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
inline void PgnReader::take_plain_moves(Game& game) {
    if (lines_.empty() || lines_.back().first == root_step) return;
    Line& line = lines_.back();
    tokens_.ensure();
    while (game.steps().size() <= options_.most_moves) {
        while (!options_.keep_comments && tokens_.go_over_comment()) {
        }
        const detail::PlainMove next = tokens_.peek_plain();
        if (next.bytes == 0) return;
        const Move move = detail::find_plain(line.now(), next.san);
        if (!move) return;
        tokens_.go_over(next);
        line.play(move);
        line.node = game.add_move(line.node, move);
        line.closed = root_step;
    }
}

inline PgnReader::Step PgnReader::take_nag(Game& game, const detail::PgnToken& token) {
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

inline PgnReader::Step PgnReader::open_variation(Game& game, const detail::PgnToken& token) {
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

inline PgnReader::Step PgnReader::close_variation(Game& game, const detail::PgnToken& token) {
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

inline PgnReader::Step PgnReader::take_result(Game& game, const detail::PgnToken& token) {
    if (lines_.size() > 1) return Step::go_on; // some programs end variations so
    game.set_result(token.result);
    while (tokens_.comment_follows_on_line()) // "1-0 {White resigned}"
        if (const Step step = take_comment(game, tokens_.next()); step != Step::go_on) return step;
    return Step::done;
}

inline PgnReader::Step PgnReader::end_without_result(const detail::PgnToken& token) {
    if (const Line& line = lines_.back(); lines_.size() > 1)
        return refuse(Reason::unterminated_variation, Field::variation, line.opened, "(");
    notices_.push_back(fault(Reason::missing_result, Field::result, token.place, {}));
    return Step::done;
}

inline Result<Game> read_pgn(std::string_view text, PgnOptions options) {
    PgnReader reader{std::make_unique<TextSource>(text), std::move(options)};
    if (std::optional<Result<Game>> game = reader.next()) return *std::move(game);
    return InputError{Reason::missing_field, Field::movetext, 1, {}};
}

} // namespace keysquare
