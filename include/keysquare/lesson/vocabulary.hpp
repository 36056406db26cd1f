// Vocabulary: the words of a language that templates are filled with. One table of them is all that a language brings
// beside its templates.
#pragma once

#include <array>
#include <string_view>

#include <keysquare/lesson/language.hpp>

namespace keysquare {

/// A table of rows of any length.
template <class Row> struct TableOf {
    const Row* first = nullptr;
    const Row* last = nullptr;

    constexpr TableOf() noexcept = default;
    template <std::size_t count>
    constexpr TableOf(const std::array<Row, count>& rows) noexcept // NOLINT(google-explicit-constructor)
        : first(rows.data()), last(rows.data() + count) {}

    [[nodiscard]] constexpr const Row* begin() const noexcept { return first; }
    [[nodiscard]] constexpr const Row* end() const noexcept { return last; }
};

/// How men are called in a template: `{man:acc}` takes the row with the form "acc", `{man}` the one with the form "".
/// The words are in the order of `Kind`. A row with `where` is followed by the squares ("the knight", "on d6"); the
/// others are the names of kinds, and what stands for a man: "it", "its".
struct ManForm {
    std::string_view form;
    std::array<std::string_view, 6> one;
    std::array<std::string_view, 6> several;
    std::string_view where = {};
};

/// A count with its noun: `{guards:guard}` takes the row "guard". {count} in `several` is the number.
struct CountedNoun {
    std::string_view noun;
    std::string_view none;
    std::string_view one;
    std::string_view several;
};

/// An amount in pawns: `{worth}`, `{worth:nom}`; the row is found by the whole placeholder. {count} is the number.
struct WorthForm {
    std::string_view placeholder;
    std::string_view one;
    std::string_view several;
};

/// What a line brings: `{win}`, `{wins}`, `{win:zu}`; the row is found by the whole placeholder. {worth} as above.
struct WinForm {
    std::string_view placeholder;
    std::string_view mates;       ///< with its first move
    std::string_view forces_mate; ///< later
    std::string_view gains;
};

/// What a mistake costs: `{loses}`; the row is found by the whole placeholder.
struct LossForm {
    std::string_view placeholder;
    std::string_view mated;
    std::string_view nothing; ///< it only wins nothing
    std::string_view loses;
};

/// A file: `{file}`, `{file:acc}`. {letter} is its letter.
struct FileForm {
    std::string_view form;
    std::string_view one;
};

/// What the ledger of the exchange holds for the side that gave it. {count}, with its noun, counts each item.
struct LedgerWords {
    std::string_view pawns;
    std::string_view bishop_pair;
    std::string_view outposts;
    std::string_view passed_pawns;
    std::string_view exposed_king;
    std::string_view bearing_men;
    std::string_view no_rook_file;
    std::string_view weak_pawns;
    std::string_view points; ///< none of these
};

struct Vocabulary {
    std::array<std::string_view, 2> sides; ///< in the order of `Side`
    /// What stands for the letters "NBRQKO" in the moves of sentences. PGN, EPD and `san` have the English letters.
    std::string_view move_letters;
    std::string_view last_comma;             ///< before the last word of a list, " and "
    std::string_view alternative;            ///< " or "
    std::string_view no_man;                 ///< for a man that is none
    std::array<std::string_view, 2> colours; ///< of squares: light, dark
    std::string_view level;                  ///< who is ahead by the count of material: nobody
    std::string_view ahead;                  ///< {Side} is, by {count} pawns
    LedgerWords ledger;
    TableOf<ManForm> men;
    TableOf<CountedNoun> nouns;
    TableOf<WorthForm> worths;
    TableOf<WinForm> wins;
    TableOf<LossForm> losses;
    TableOf<FileForm> files;
};

} // namespace keysquare
