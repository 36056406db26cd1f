// Vocabulary: the words of a language that templates are filled with. One table of them is all that a language brings
// beside its templates.
#pragma once

#include <array>

#include <keysquare/board/literal.hpp>
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
    Literal form;
    std::array<Literal, 6> one;
    std::array<Literal, 6> several;
    Literal where = {};
};

/// A count with its noun: `{guards:guard}` takes the row "guard". {count} in `several` is the number.
struct CountedNoun {
    Literal noun;
    Literal none;
    Literal one;
    Literal several;
};

/// An amount in pawns: `{worth}`, `{worth:nom}`; the row is found by the whole placeholder. {count} is the number.
struct WorthForm {
    Literal placeholder;
    Literal one;
    Literal several;
};

/// What a line brings: `{win}`, `{wins}`, `{win:zu}`; the row is found by the whole placeholder. {worth} as above.
struct WinForm {
    Literal placeholder;
    Literal mates;       ///< with its first move
    Literal forces_mate; ///< later
    Literal gains;
};

/// What a mistake costs: `{loses}`; the row is found by the whole placeholder.
struct LossForm {
    Literal placeholder;
    Literal mated;
    Literal nothing; ///< it only wins nothing
    Literal loses;
};

/// A file: `{file}`, `{file:acc}`. {letter} is its letter.
struct FileForm {
    Literal form;
    Literal one;
};

/// What the ledger of the exchange holds for the side that gave it. {count}, with its noun, counts each item.
struct LedgerWords {
    Literal pawns;
    Literal bishop_pair;
    Literal outposts;
    Literal passed_pawns;
    Literal exposed_king;
    Literal bearing_men;
    Literal no_rook_file;
    Literal weak_pawns;
    Literal points; ///< none of these
};

struct Vocabulary {
    std::array<Literal, 2> sides; ///< in the order of `Side`
    /// What stands for the letters "NBRQKO" in the moves of sentences. PGN, EPD and `san` have the English letters.
    Literal move_letters;
    Literal last_comma;             ///< before the last word of a list, " and "
    Literal alternative;            ///< " or "
    Literal no_man;                 ///< for a man that is none
    std::array<Literal, 2> colours; ///< of squares: light, dark
    Literal level;                  ///< who is ahead by the count of material: nobody
    Literal ahead;                  ///< {Side} is, by {count} pawns
    LedgerWords ledger;
    TableOf<ManForm> men;
    TableOf<CountedNoun> nouns;
    TableOf<WorthForm> worths;
    TableOf<WinForm> wins;
    TableOf<LossForm> losses;
    TableOf<FileForm> files;
};

} // namespace keysquare
