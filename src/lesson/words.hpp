// Words: men, squares, counts and moves as words of a language. No word of a language stands in code: what is put
// together here comes from the tables of its vocabulary.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/board/literal.hpp>
#include <keysquare/features/finding.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/san.hpp>

#include "english_vocabulary.hpp"
#include "german/vocabulary.hpp"
#include "template_text.hpp"

namespace keysquare {

[[nodiscard]] constexpr const Vocabulary& vocabulary_of(Language language) noexcept {
    return language == Language::german ? german_vocabulary : english_vocabulary;
}

namespace detail {

inline std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

/// SAN has no capital letters but those of pieces and castling.
inline std::string with_letters_of(Language language, std::string san) {
    constexpr std::string_view english = "NBRQKO";
    const std::string_view letters = vocabulary_of(language).move_letters;
    for (char& c : san)
        if (const auto at = english.find(c); at != std::string_view::npos) c = letters[at];
    return san;
}

/// The row whose first member is the key. Precondition: there is one, which the tests make sure of.
template <class Row>
[[nodiscard]] const Row& row_of(const TableOf<Row>& rows, Literal Row::*key, std::string_view wanted) noexcept {
    for (const Row& row : rows)
        if (row.*key == wanted) return row;
    return *rows.begin();
}

class Words {
  public:
    explicit Words(Language language) noexcept : language_(language), words_(vocabulary_of(language)) {}

    [[nodiscard]] Language language() const noexcept { return language_; }
    [[nodiscard]] const Vocabulary& vocabulary() const noexcept { return words_; }

    [[nodiscard]] std::string side(Side side) const { return std::string{words_.sides[index(side)]}; }

    /// "a1", "a1 and e1", "a1, d1 and e1" from a list of words.
    template <class List> [[nodiscard]] std::string listed(const List& list) const {
        return joined(list, words_.last_comma);
    }
    template <class List> [[nodiscard]] std::string joined(const List& list, std::string_view last) const {
        std::string text;
        std::size_t at = 0;
        for (const auto& word : list) {
            if (at > 0) text += at + 1 == list.size() ? last : std::string_view{", "};
            text += word;
            ++at;
        }
        return text;
    }

    /// A number; with its noun; or the word that goes with it.
    [[nodiscard]] std::string count(int count, const Placeholder& placeholder) const {
        if (placeholder.chooses) return std::string{placeholder.chosen(count)};
        if (placeholder.form.empty()) return std::to_string(count);
        const CountedNoun& row = row_of(words_.nouns, &CountedNoun::noun, placeholder.form);
        return with_count(count == 0 ? row.none : count == 1 ? row.one : row.several, count);
    }

    [[nodiscard]] std::string worth(int pawns, std::string_view placeholder) const {
        const WorthForm& row = row_of(words_.worths, &WorthForm::placeholder, placeholder);
        return with_count(pawns == 1 ? row.one : row.several, pawns);
    }

    /// `placeholder` is "win", "wins" or another form of it.
    [[nodiscard]] std::string win(int gain, bool mate, std::size_t plies, std::string_view placeholder) const {
        const WinForm& row = row_of(words_.wins, &WinForm::placeholder, placeholder);
        return with_worth(mate ? (plies == 1 ? row.mates : row.forces_mate) : row.gains, gain);
    }

    [[nodiscard]] std::string loss(int loss, bool mated, std::string_view placeholder) const {
        const LossForm& row = row_of(words_.losses, &LossForm::placeholder, placeholder);
        return with_worth(mated ? row.mated : loss == 0 ? row.nothing : row.loses, loss);
    }

    /// "the knight on d6".
    [[nodiscard]] std::string man(const Placed& placed, std::string_view form = {}) const {
        const ManForm& row = row_of(words_.men, &ManForm::form, form);
        std::string text{row.one[index(placed.piece.kind)]};
        if (!row.where.empty()) text.append(row.where).append(name(placed.square));
        return text;
    }

    /// "the rooks on a1 and e1", "the rook on d8 and the bishop on d5".
    template <class Men> [[nodiscard]] std::string men(const Men& men, std::string_view form = {}) const {
        if (men.size() == 0) return {};
        if (men.size() == 1) return man(*men.begin(), form);
        const ManForm& row = row_of(words_.men, &ManForm::form, form);
        const std::size_t kind = index((*men.begin()).piece.kind);
        bool one_kind = true;
        for (const Placed& placed : men) one_kind = one_kind && index(placed.piece.kind) == kind;
        if (row.where.empty()) return std::string{row.several[kind]};
        std::vector<std::string> list;
        list.reserve(men.size());
        for (const Placed& placed : men)
            list.push_back(one_kind ? std::string{name(placed.square)} : man(placed, form));
        return one_kind ? std::string{row.several[kind]}.append(row.where) + listed(list) : listed(list);
    }

    [[nodiscard]] std::string squares(Squares squares) const {
        BoundedList<std::string_view, 64> list;
        for (const Square square : squares) list.push_back(name(square));
        return listed(list);
    }

    /// The files that the squares are on: "c-file".
    [[nodiscard]] std::string files(Squares squares, std::string_view form = {}) const {
        const FileForm& row = row_of(words_.files, &FileForm::form, form);
        std::vector<std::string> list;
        for (int file = 0; file < 8; ++file)
            if (squares & file_squares(file))
                list.push_back(filled(row.one, [file](std::string_view) { return static_cast<char>('a' + file); }));
        return listed(list);
    }

    [[nodiscard]] std::string colour(bool dark) const { return std::string{words_.colours[dark ? 1 : 0]}; }

    [[nodiscard]] std::string move(const Position& position, Move move) const {
        return move_text(position, move, language_);
    }
    [[nodiscard]] std::string numbered(const Position& position, Move move) const {
        return with_letters_of(language_, numbered_san(position, move));
    }
    [[nodiscard]] std::string line(const Position& from, const Line& line) const {
        return line_text(from, line, language_);
    }

  private:
    [[nodiscard]] static std::string with_count(std::string_view pattern, int count) {
        return filled(pattern, [count](std::string_view) { return std::to_string(count); });
    }
    [[nodiscard]] std::string with_worth(std::string_view pattern, int pawns) const {
        return filled(pattern, [&](std::string_view key) { return worth(pawns, key); });
    }

    Language language_;
    const Vocabulary& words_;
};

} // namespace detail

} // namespace keysquare
