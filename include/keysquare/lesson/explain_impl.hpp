// Bodies of lesson/explain.hpp.
#pragma once

#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/template_text.hpp>

namespace keysquare {

namespace detail {

/// "a1", "a1 and e1", "a1, d1 and e1" from a list of words.
template <class Words> std::string listed(const Words& words) {
    std::string text;
    std::size_t at = 0;
    for (const auto& word : words) {
        if (at > 0) text += at + 1 == words.size() ? " and " : ", ";
        text += word;
        ++at;
    }
    return text;
}

/// "no guard", "one guard", "3 guards".
inline std::string counted(int count, std::string_view thing) {
    if (count == 0) return "no " + std::string{thing};
    if (count == 1) return (thing == "pawn" ? "a " : "one ") + std::string{thing};
    return std::to_string(count) + " " + std::string{thing} + "s";
}

inline std::string worth(int pawns) {
    return pawns == 1 ? std::string{"a pawn"} : "material worth " + std::to_string(pawns) + " pawns";
}

inline std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

inline std::string side_name(Side side) { return side == Side::white ? "White" : "Black"; }

inline std::string piece_name(Placed placed) {
    return "the " + std::string{name(placed.piece.kind)} + " on " + std::string{name(placed.square)};
}

/// "the rooks on a1 and e1", "the rook on d8 and the bishop on d5".
template <class Pieces> std::string piece_names(const Pieces& pieces) {
    std::vector<std::string> words;
    bool one_kind = pieces.size() > 1;
    for (const Placed& placed : pieces) one_kind = one_kind && placed.piece.kind == pieces.front().piece.kind;
    for (const Placed& placed : pieces)
        words.push_back(one_kind ? std::string{name(placed.square)} : piece_name(placed));
    return (one_kind ? "the " + std::string{name(pieces.front().piece.kind)} + "s on " : std::string{}) + listed(words);
}

inline std::string square_names(Squares squares) {
    BoundedList<std::string_view, 64> words;
    for (const Square square : squares) words.push_back(name(square));
    return listed(words);
}

inline std::string file_names(Squares squares) {
    std::vector<std::string> words;
    for (int file = 0; file < 8; ++file)
        if (squares & file_squares(file)) words.push_back(std::string(1, static_cast<char>('a' + file)) + "-file");
    return listed(words);
}

/// Fills the placeholders of one template for one finding.
class SentenceWriter {
  public:
    SentenceWriter(const Position& position, const Finding& finding) noexcept
        : from_(start_of_line(position, finding)), finding_(finding) {}

    [[nodiscard]] std::string fill(std::string_view pattern) const {
        return filled(pattern, [this](std::string_view key) { return value_of(key); });
    }

    /// What a placeholder stands for, without its brackets; empty when it is none.
    [[nodiscard]] std::string value_of(std::string_view key) const {
        const Finding& f = finding_;
        if (key == "Side") return side_name(f.side);
        if (key == "Other") return side_name(other(f.side));
        if (key == "man") return piece(0);
        if (key == "Man") return capitalised(piece(0));
        if (key == "second") return piece(1);
        if (key == "third") return piece(2);
        if (key == "pieces") return piece_names(f.pieces);
        if (key == "Pieces") return capitalised(piece_names(f.pieces));
        if (key == "others") return other_pieces();
        if (key == "squares") return square_names(f.squares);
        if (key == "file") return file_names(f.squares);
        if (key == "colour") return std::string{name(f.detail)};
        if (key == "move") return f.line.empty() ? std::string{} : san(from_, f.line.front());
        if (key == "line") return line_text(from_, f.line);
        if (key == "point") return line_text(from_, f.point);
        if (key == "punish") return punishment();
        if (key == "win") return f.mate ? f.line.size() == 1 ? "mate" : "force mate" : "win " + worth(f.gain);
        if (key == "wins") return f.mate ? f.line.size() == 1 ? "mates" : "leads to mate" : "wins " + worth(f.gain);
        if (key == "loses") return loses();
        if (key == "count") return who_is_ahead();
        if (key == "ledger") return ledger();
        return count_of(key);
    }

  private:
    [[nodiscard]] std::string piece(std::size_t at) const {
        return at < finding_.pieces.size() ? piece_name(finding_.pieces[at]) : std::string{"it"};
    }

    /// All pieces but the first.
    [[nodiscard]] std::string other_pieces() const {
        const auto& pieces = finding_.pieces;
        return piece_names(BoundedList<Placed, 8>(pieces.begin() + (pieces.empty() ? 0 : 1), pieces.end()));
    }

    [[nodiscard]] std::string loses() const {
        if (finding_.mated) return "runs into mate";
        return finding_.gain == 0 ? std::string{"wins nothing"} : "loses " + worth(-finding_.gain);
    }

    /// " (12...Rxd5)": what follows on the first move.
    [[nodiscard]] std::string punishment() const {
        if (finding_.line.size() < 2) return {};
        const Line rest(finding_.line.begin() + 1, finding_.line.end());
        return " (" + line_text(after(from_, finding_.line.front()), rest) + ")";
    }

    [[nodiscard]] std::string who_is_ahead() const {
        const int lead = finding_.number(Measure::material);
        if (lead == 0) return "the count of material is level";
        const Side leader = lead > 0 ? finding_.side : other(finding_.side);
        return side_name(leader) + " is " + counted(lead > 0 ? lead : -lead, "pawn") +
               " ahead by the count of material";
    }

    /// The items of the exchange ledger that speak for the side that is the exchange down.
    [[nodiscard]] std::string ledger() const {
        const Finding& f = finding_;
        const bool for_giver =
            f.detail == Detail::enough_compensation || f.detail == Detail::more_than_enough_compensation;
        std::vector<std::string> items;
        const auto add = [&](std::string text) { items.push_back(std::move(text)); };
        if (const int pawns = for_giver ? f.number(Measure::pawns) : -f.number(Measure::pawns); pawns > 0)
            add(counted(pawns, "pawn"));
        if (f.number(Measure::bishop_pairs) > 0) add("the bishop pair");
        if (const int outposts = f.number(Measure::outposts); outposts > 0) add(counted(outposts, "outpost"));
        if (const int passed = f.number(Measure::passed_pawns); passed > 0) add(counted(passed, "passed pawn"));
        if (f.number(Measure::missing_shield) > 0) add("a less sheltered enemy king");
        if (const int men = f.number(Measure::bearing_men); men > 0)
            add((men == 1 ? "one man" : std::to_string(men) + " men") + std::string{" bearing on the king"});
        if (f.number(Measure::rook_files, 1) == 0) add("no file for the enemy rooks");
        if (f.number(Measure::weak_pawns) > 0) add("damaged enemy pawns");
        return items.empty() ? std::string{"by the points of the ledger"} : listed(items);
    }

    [[nodiscard]] std::string count_of(std::string_view key) const {
        const auto colon = key.find(':');
        for (const Number& number : finding_.numbers)
            if (name(number.measure) == key.substr(0, colon))
                return colon == std::string_view::npos ? std::to_string(number.value)
                                                       : counted(number.value, key.substr(colon + 1));
        return {};
    }

    Position from_;
    const Finding& finding_;
};

} // namespace detail

inline Position start_of_line(const Position& position, const Finding& finding) noexcept {
    const Position start = finding.after_pass ? turned(position) : position;
    return finding.removed == Square::none ? start : without(start, finding.removed);
}

inline std::string line_text(const Position& from, const Line& line) {
    std::string text;
    Position position = from;
    for (const Move move : line) {
        if (!text.empty()) text += ' ';
        if (position.mover() == Side::white)
            text += std::to_string(position.move_number()) + '.';
        else if (text.empty())
            text += std::to_string(position.move_number()) + "...";
        text += san(position, move);
        position = after(position, move);
    }
    return text;
}

inline std::string sentence(const Position& position, const Finding& finding) {
    const SentenceRow* row = sentence_row(finding);
    if (!row) return {};
    const detail::SentenceWriter writer{position, finding};
    if (finding.line.empty() && !row->idle.empty()) return writer.fill(row->idle);
    return writer.fill(finding.after_pass && !row->after_pass.empty() ? row->after_pass : row->now);
}

} // namespace keysquare
