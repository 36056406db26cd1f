#include <keysquare/notation/pgn.hpp>

#include <algorithm>

#include <keysquare/notation/san.hpp>

namespace keysquare {

namespace {

/// Sets words left-justified on lines of less than 80 columns. A word is held back until the next one begins, so that
/// brackets can join it.
class MovetextWriter {
  public:
    explicit MovetextWriter(std::string& text) : text_(text) {}

    void put(std::string_view word) {
        if (!joins_next_) flush();
        joins_next_ = false;
        held_ += word;
        holds_ = true;
    }
    void open() {
        put("(");
        joins_next_ = true;
    }
    void close() {
        joins_next_ = false;
        if (!holds_)
            put(")");
        else
            held_ += ')';
    }
    void put_comment(std::string_view comment) {
        if (comment.empty()) return;
        if (comment.find('}') != std::string_view::npos) {
            put_to_line_end(comment);
            return;
        }
        put("{");
        joins_next_ = true;
        for (;;) {
            const std::size_t end = (std::min)(comment.find(' '), comment.size());
            put(comment.substr(0, end));
            if (end == comment.size()) break;
            comment.remove_prefix(end + 1);
        }
        held_ += '}';
    }
    void flush() {
        if (!holds_) return;
        constexpr std::size_t widest = 79;
        // A line that begins with "%" would be skipped by a reader, even inside a comment by some.
        const bool may_break = column_ > 0 && !held_.starts_with('%');
        if (!is_line_start_ && may_break && column_ + 1 + held_.size() > widest) {
            text_ += '\n';
            column_ = 0;
        } else if (!is_line_start_) {
            text_ += ' ';
            ++column_;
        }
        text_ += held_;
        column_ += held_.size();
        held_.clear();
        holds_ = is_line_start_ = false;
    }

  private:
    void put_to_line_end(std::string_view comment) {
        joins_next_ = false;
        put("; ");
        held_ += comment;
        flush();
        text_ += '\n';
        column_ = 0;
        is_line_start_ = true;
    }

    std::string& text_;
    std::string held_;
    std::size_t column_ = 0;
    bool holds_ = false;
    bool joins_next_ = false;
    bool is_line_start_ = true;
};

void write_tag(GameTag tag, std::string& text) {
    text.append("[").append(tag.name).append(" \"");
    for (const char c : tag.value) {
        if (c == '"' || c == '\\') text += '\\';
        text += c;
    }
    text += "\"]\n";
}

/// Writes the tree of a game as movetext, without recursion.
class TreeWriter {
  public:
    TreeWriter(const Game& game, MovetextWriter& words) : game_(game), words_(words) {}

    void write() {
        words_.put_comment(game_.comment(root_step));
        begin_line(game_.step(root_step).first_child, game_.start());
        while (!lines_.empty()) {
            Line& line = lines_.back();
            if (line.variation != root_step) {
                const StepIndex variation = line.variation;
                line.variation = game_.step(variation).next_sibling;
                words_.open();
                words_.put_comment(game_.comment(variation, CommentPlace::before));
                begin_line(variation, Position{line.before});
            } else if (line.next != root_step) {
                write_move(line);
            } else {
                end_line(line.first);
            }
        }
    }

  private:
    struct Line {
        StepIndex first;     ///< the line's first move
        StepIndex next;      ///< the move to write next
        StepIndex variation; ///< the next variation of the move written last
        Position before;
        Position now;
    };

    void begin_line(StepIndex first, const Position& start) {
        lines_.push_back({first, first, root_step, start, start});
        number_is_due_ = true;
    }

    void write_move(Line& line) {
        const StepIndex at = line.next;
        const GameStep& node = game_.step(at);
        const bool is_white = line.now.mover() == Side::white;
        if (is_white || number_is_due_) words_.put(std::to_string(line.now.move_number()) + (is_white ? "." : "..."));
        words_.put(san(line.now, node.move));
        for (const std::uint8_t nag : game_.nags(at)) words_.put("$" + std::to_string(nag));
        words_.put_comment(game_.comment(at));
        number_is_due_ = !game_.comment(at).empty();
        line.before = line.now;
        line.now = after_in_game(line.before, node.move);
        line.next = node.first_child;
        const bool goes_on_with_its_line = game_.step(node.parent).first_child == at;
        line.variation = goes_on_with_its_line ? node.next_sibling : root_step;
    }

    void end_line(StepIndex first) {
        lines_.pop_back();
        if (lines_.empty()) return;
        words_.close();
        words_.put_comment(game_.comment(first, CommentPlace::beyond));
        number_is_due_ = true;
    }

    const Game& game_;
    MovetextWriter& words_;
    std::vector<Line> lines_;
    bool number_is_due_ = true;
};

} // namespace

void write_pgn(const Game& game, std::string& text) {
    for (const GameTag tag : game.export_tags()) write_tag(tag, text);
    text += '\n';
    MovetextWriter words{text};
    TreeWriter{game, words}.write();
    words.put(name(game.result()));
    words.flush();
    text += "\n\n";
}

std::string write_pgn(const Game& game) {
    std::string text;
    write_pgn(game, text);
    return text;
}

} // namespace keysquare
