#include <keysquare/notation/game.hpp>

#include <algorithm>
#include <array>

#include <keysquare/notation/characters.hpp>
#include <keysquare/notation/comment_commands.hpp>

#include "text_run.hpp"

namespace keysquare {

namespace {

constexpr std::array<std::string_view, 7> roster{"Event", "Site", "Date", "Round", "White", "Black", "Result"};

/// Adds `text` to `buffer` with each line break as one space.
void append_in_one_line(std::string& buffer, std::string_view text) {
    for (;;) {
        const std::size_t run = detail::run_before<'\r', '\n'>(text);
        buffer.append(text, 0, run);
        if (run == text.size()) return;
        text.remove_prefix(run);
        text.remove_prefix(text.starts_with("\r\n") ? 2U : 1U);
        buffer += ' ';
    }
}

} // namespace

void Game::clear() {
    text_.clear();
    tags_.clear();
    steps_.assign(1, {});
    nags_.clear();
    result_ = GameResult::unknown;
    start_ = start_position();
}

BufferSpan Game::store(std::string_view text) {
    const auto at = static_cast<std::uint32_t>(text_.size());
    append_in_one_line(text_, text);
    return {at, static_cast<std::uint32_t>(text_.size()) - at};
}

GameTag Game::tag_at(std::size_t at) const noexcept { return {text_of(tags_[at].name), text_of(tags_[at].value)}; }

std::string_view Game::tag(std::string_view name) const noexcept {
    for (const TagSpans& spans : tags_)
        if (text_of(spans.name) == name) return text_of(spans.value);
    return {};
}

bool Game::has_tag(std::string_view name) const noexcept {
    return detail::any_of(tags_, [&](const TagSpans& spans) { return text_of(spans.name) == name; });
}

void Game::set_tag(std::string_view name, std::string_view value) {
    for (TagSpans& spans : tags_)
        if (text_of(spans.name) == name) {
            spans.value = store(value);
            return;
        }
    const BufferSpan stored_name = store(name);
    tags_.push_back({stored_name, store(value)});
}

std::vector<GameTag> Game::export_tags() const {
    std::vector<GameTag> sorted;
    for (const std::string_view wanted : roster) {
        const std::string_view unknown = wanted == "Date"     ? std::string_view{"????.??.??"}
                                         : wanted == "Result" ? keysquare::name(result_)
                                                              : std::string_view{"?"};
        sorted.push_back({wanted, has_tag(wanted) ? tag(wanted) : unknown});
    }
    for (std::size_t at = 0; at < tags_.size(); ++at)
        if (!detail::contains(roster, tag_at(at).name)) sorted.push_back(tag_at(at));
    std::sort(sorted.begin() + roster.size(), sorted.end(),
              [](const GameTag& a, const GameTag& b) { return a.name < b.name; });
    return sorted;
}

void Game::set_start(const Position& position) {
    start_ = position;
    set_tag("SetUp", "1");
    set_tag("FEN", fen(position));
}

bool Game::has_same_nags(StepIndex at, const Game& other, StepIndex there) const noexcept {
    const auto own = nags(at);
    const auto theirs = other.nags(there);
    return std::equal(own.begin(), own.end(), theirs.begin(), theirs.end());
}

std::vector<StepIndex> Game::path_to(StepIndex at) const {
    std::vector<StepIndex> path;
    for (; at != root_step; at = steps_[at].parent) path.push_back(at);
    std::reverse(path.begin(), path.end());
    return path;
}

Position Game::position_at(StepIndex at) const {
    Position position = start_;
    for (const StepIndex step : path_to(at)) position = after_in_game(position, steps_[step].move);
    return position;
}

std::vector<StepIndex> Game::main_steps() const {
    std::vector<StepIndex> nodes;
    for (StepIndex at = steps_[root_step].first_child; at != root_step; at = steps_[at].first_child)
        nodes.push_back(at);
    return nodes;
}

std::vector<Move> Game::main_line() const {
    std::vector<Move> moves;
    for (const StepIndex at : main_steps()) moves.push_back(steps_[at].move);
    return moves;
}

StepIndex Game::add_move(StepIndex parent, Move move) {
    const auto added = static_cast<StepIndex>(steps_.size());
    GameStep& node = steps_.emplace_back();
    node.move = move;
    node.parent = parent;
    GameStep& before = steps_[parent];
    if (before.first_child == root_step)
        before.first_child = added;
    else
        steps_[before.last_child].next_sibling = added;
    before.last_child = added;
    return added;
}

void Game::add_comment(StepIndex at, std::string_view text, CommentPlace place) {
    text = detail::trimmed(text);
    if (text.empty()) return;
    BufferSpan& span = steps_[at].comments[static_cast<std::size_t>(place)];
    const BufferSpan old = span;
    if (old.size > 0 && old.at + old.size == text_.size()) { // the last part of the buffer: it can grow in place
        text_ += ' ';
        span.size += 1 + store(text).size;
        return;
    }
    span.at = static_cast<std::uint32_t>(text_.size());
    if (old.size > 0) {
        text_.append(text_, old.at, old.size);
        text_ += ' ';
    }
    store(text);
    span.size = static_cast<std::uint32_t>(text_.size()) - span.at;
}

void Game::set_comment(StepIndex at, std::string_view text, CommentPlace place) {
    const std::string kept{text}; // it may be a part of our own buffer
    steps_[at].comments[static_cast<std::size_t>(place)] = {};
    add_comment(at, kept, place);
}

void Game::set_command(StepIndex at, std::string_view name, std::string_view value) {
    set_comment(at, with_command(comment(at), name, value));
}

void Game::add_nag(StepIndex at, std::uint8_t nag) {
    BufferSpan& span = steps_[at].nags;
    if (span.at + span.size != nags_.size()) { // parts are in one piece, so a part that can't grow moves to the end
        const std::uint32_t old = span.at;
        span.at = static_cast<std::uint32_t>(nags_.size());
        for (std::uint32_t place = 0; place < span.size; ++place) {
            const std::uint8_t moved = nags_[old + place];
            nags_.push_back(moved);
        }
    }
    nags_.push_back(nag);
    ++span.size;
}

bool operator==(const Game& a, const Game& b) {
    if (a.start_ != b.start_ || a.result_ != b.result_ || a.steps_.size() != b.steps_.size()) return false;
    if (a.export_tags() != b.export_tags()) return false;
    std::vector<StepIndex> pairs(2, root_step); // a step of the one game, then the step of the other game
    while (!pairs.empty()) {
        const StepIndex in_b = pairs.back();
        pairs.pop_back();
        const StepIndex in_a = pairs.back();
        pairs.pop_back();
        if (a.steps_[in_a].move != b.steps_[in_b].move || !a.has_same_nags(in_a, b, in_b)) return false;
        for (const CommentPlace place : all_comment_places)
            if (a.comment(in_a, place) != b.comment(in_b, place)) return false;
        StepIndex child_a = a.steps_[in_a].first_child;
        StepIndex child_b = b.steps_[in_b].first_child;
        for (; child_a != root_step && child_b != root_step;
             child_a = a.steps_[child_a].next_sibling, child_b = b.steps_[child_b].next_sibling) {
            pairs.push_back(child_a);
            pairs.push_back(child_b);
        }
        if (child_a != child_b) return false;
    }
    return true;
}

} // namespace keysquare
