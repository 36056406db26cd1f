// Game: tags, a start position, and a tree of moves with variations, comments and annotation glyphs. (Part of
// keysquare::keysquare.)
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <keysquare/notation/fen.hpp>

namespace keysquare {

namespace detail {
class GameReading;
}

/// How a game ended, as its result token says.
enum class GameResult : std::uint8_t {
    white_wins, ///< 1-0
    black_wins, ///< 0-1
    draw,       ///< 1/2-1/2
    unknown     ///< *, or no result at all
};

/// "1-0", "0-1", "1/2-1/2" or "*".
[[nodiscard]] constexpr std::string_view name(GameResult result) noexcept {
    constexpr std::array<std::string_view, 4> names{"1-0", "0-1", "1/2-1/2", "*"};
    return names[static_cast<std::size_t>(result)];
}

/// Names a node of a game's tree. Node 0 is the root: the start position, before any move.
using StepIndex = std::uint32_t;
inline constexpr StepIndex root_step = 0; ///< The root of every game.

/// Where a comment stands in the movetext.
enum class CommentPlace : std::uint8_t {
    before, ///< before the first move of a variation, inside its bracket
    after,  ///< after the move; at the root, before the first move of the game
    beyond  ///< after the closing bracket of the variation that the node begins
};

/// All places, in the order in which they are read, for loops.
inline constexpr std::array all_comment_places{CommentPlace::before, CommentPlace::after, CommentPlace::beyond};

/// A part of one of a game's buffers.
struct BufferSpan {
    std::uint32_t at = 0;   ///< where it begins
    std::uint32_t size = 0; ///< how long it is
};

/// One move of the tree. The first child goes on with the same line; its siblings are the variations that replace it.
/// Index 0 stands for "none" in the links, as the root is nobody's child.
struct GameStep {
    Move move;                            ///< null for the root, and for a null move inside a variation
    StepIndex parent = root_step;         ///< the node before
    StepIndex first_child = root_step;    ///< its main continuation; 0: none
    StepIndex last_child = root_step;     ///< its last variation; 0: none
    StepIndex next_sibling = root_step;   ///< the next variation beside it; 0: none
    std::array<BufferSpan, 3> comments{}; ///< by `CommentPlace`, texts of the game
    BufferSpan nags{};                    ///< numeric glyphs of the game
};

/// One tag pair. The views live as long as the game is not changed.
struct GameTag {
    std::string_view name;  ///< what it is called
    std::string_view value; ///< what it says, without quotes and escapes
    /// Whether all of it is equal.
    friend bool operator==(const GameTag&, const GameTag&) noexcept = default;
};

/// A game held in flat buffers, so that a reader can fill the same game again and again without allocating. Text is
/// UTF-8; comments and tag values hold no line breaks (they become spaces), as export format could not keep them.
class Game {
  public:
    Game() : steps_(1), start_(start_position()) {}

    /// Back to no tags, no moves, the usual start position and an unknown result; keeps the buffers.
    void clear();

    /// How many tag pairs there are.
    [[nodiscard]] std::size_t tag_count() const noexcept { return tags_.size(); }
    /// Tags in the order in which they were read or set. Precondition: `at < tag_count()`.
    [[nodiscard]] GameTag tag_at(std::size_t at) const noexcept;
    /// The value of a tag, empty when the game does not have it.
    [[nodiscard]] std::string_view tag(std::string_view name) const noexcept;
    /// Whether the game has the tag, be it with an empty value.
    [[nodiscard]] bool has_tag(std::string_view name) const noexcept;
    /// Gives a tag its value, whether or not it had one. Precondition: the name is letters, digits and underscores.
    void set_tag(std::string_view name, std::string_view value);
    /// The tags as export format orders them: the seven of the roster, unknown ones as "?", then the others by name.
    [[nodiscard]] std::vector<GameTag> export_tags() const;

    /// The position before the first move.
    [[nodiscard]] const Position& start() const noexcept { return start_; }
    /// Sets the start position and the tags that tell it. Precondition: no moves yet.
    void set_start(const Position& position);

    /// What the result token says.
    [[nodiscard]] GameResult result() const noexcept { return result_; }
    /// Sets what the result token says.
    void set_result(GameResult result) noexcept { result_ = result; }

    /// All nodes, the root first, every node after its parent.
    [[nodiscard]] std::span<const GameStep> steps() const noexcept { return {steps_.data(), steps_.size()}; }
    /// One node. Precondition: it belongs to the game.
    [[nodiscard]] const GameStep& step(StepIndex at) const noexcept { return steps_[at]; }
    /// The comment of a move at that place, empty when there is none. Precondition: the node belongs to the game.
    [[nodiscard]] std::string_view comment(StepIndex at, CommentPlace place = CommentPlace::after) const noexcept {
        return text_of(steps_[at].comments[static_cast<std::size_t>(place)]);
    }
    /// The numeric annotation glyphs of a move, in order.
    [[nodiscard]] std::span<const std::uint8_t> nags(StepIndex at) const noexcept {
        return {nags_.data() + steps_[at].nags.at, steps_[at].nags.size};
    }
    /// The nodes from the first move to `at`, both included; empty for the root.
    [[nodiscard]] std::vector<StepIndex> path_to(StepIndex at) const;
    /// The position after the move of `at`, replayed from the start.
    [[nodiscard]] Position position_at(StepIndex at) const;
    /// The moves of the game as played.
    [[nodiscard]] std::vector<Move> main_line() const;
    /// The nodes of these moves, in order.
    [[nodiscard]] std::vector<StepIndex> main_steps() const;

    /// Adds a move after `parent`: the first one goes on with the line, further ones are variations.
    /// Precondition: the move is legal there, or null in a variation with the mover not in check.
    StepIndex add_move(StepIndex parent, Move move);
    /// Adds a comment; one that already stands there is followed by a space and the new one.
    void add_comment(StepIndex at, std::string_view text, CommentPlace place = CommentPlace::after);
    /// Puts a comment in the place of the one that stands there; an empty one removes it.
    void set_comment(StepIndex at, std::string_view text, CommentPlace place = CommentPlace::after);
    /// Gives a command of the comment after a move its value, whether or not it was there (`with_command`).
    void set_command(StepIndex at, std::string_view name, std::string_view value);
    /// Adds a numeric glyph to a move. Precondition: the node belongs to the game.
    void add_nag(StepIndex at, std::uint8_t nag);

    /// The same start, result, tree, comments and glyphs, and the same tags as export format writes them.
    friend bool operator==(const Game& a, const Game& b);

  private:
    friend class detail::GameReading;
    struct TagSpans {
        BufferSpan name;
        BufferSpan value;
    };

    [[nodiscard]] std::string_view text_of(BufferSpan span) const noexcept {
        return std::string_view{text_}.substr(span.at, span.size);
    }
    BufferSpan store(std::string_view text);
    [[nodiscard]] bool has_same_nags(StepIndex at, const Game& other, StepIndex there) const noexcept;

    std::string text_; // of tags and comments, each part in one piece
    std::vector<TagSpans> tags_;
    std::vector<GameStep> steps_;
    std::vector<std::uint8_t> nags_;
    Position start_;
    GameResult result_ = GameResult::unknown;
};

/// The position after a move of a game's tree, where a null move hands the move over.
[[nodiscard]] inline Position after_in_game(const Position& position, Move move) noexcept {
    return move ? after(position, move) : turned(position);
}

} // namespace keysquare
