// Theme words: what a theme is called in a sentence, and the question that a teacher asks about it.
#pragma once

#include <array>
#include <string_view>

#include <keysquare/lesson/german/theme_words.hpp>
#include <keysquare/lesson/theme_words_row.hpp>
#include <keysquare/lesson/vocabulary.hpp>

namespace keysquare {

/// In the order of `Theme`.
inline constexpr std::array theme_words{
    ThemeWords{Theme::hanging, "Hanging", "hanging men", "", ""},
    ThemeWords{Theme::poisoned, "Poisoned", "poisoned men", "",
               "Something of {Other} looks free. What happens if {Side} takes it?"},
    ThemeWords{Theme::loose, "Loose", "loose pieces", "", ""},
    ThemeWords{Theme::guard_duty, "Guard duty", "guards", "", ""},
    ThemeWords{Theme::overloaded, "Overloaded", "overloaded guards", ", because a guard is overloaded", ""},
    ThemeWords{Theme::tied, "Tied", "tied men", "",
               "Which man of {Side} can't move without giving something up, and what?"},
    ThemeWords{Theme::mutual_guards, "Mutual guards", "men that guard each other", "",
               "Which two men of {Side} have only each other, and what happens when one of them moves?"},
    ThemeWords{Theme::shield_pair, "Shield pair", "guards and their shields", "",
               "Which man of {Side} shields the guard that it depends on?"},
    ThemeWords{Theme::square_control, "Square control", "controlled squares", "", ""},
    ThemeWords{Theme::colour_complex, "Colour complex", "squares of one colour", "",
               "Which side owns the squares of one colour? Count them, and name the piece that they depend on."},
    ThemeWords{Theme::guardian, "Guardian", "guardians of a colour", "",
               "Which piece should {Side} not trade, and why?"},
    ThemeWords{Theme::denied_square, "Denied square", "denied squares", "",
               "One square looks free for a piece of {Side} and is not. Which one, and what would follow?"},
    ThemeWords{Theme::rook_scope, "Rook scope", "rooks and their moves", "", ""},
    ThemeWords{Theme::stuffed_rooks, "Stuffed rooks", "rooks without a safe move", "",
               "What can the rooks of {Side} do?"},
    ThemeWords{Theme::open_file, "Open file", "rooks on open files", "", "Where do the rooks of {Side} belong?"},
    ThemeWords{Theme::seventh_rank, "Seventh rank", "rooks on the seventh rank", "",
               "What does the rook of {Side} do on the seventh rank?"},
    ThemeWords{Theme::doubled_rooks, "Doubled rooks", "doubled rooks", "", "What do the rooks of {Side} do together?"},
    ThemeWords{Theme::connected_rooks, "Connected rooks", "connected rooks", "", ""},
    ThemeWords{Theme::entry_square, "Entry square", "entry squares", "", "Where could a rook of {Side} enter?"},
    ThemeWords{Theme::material, "Material", "material", "", ""},
    ThemeWords{Theme::exchange_imbalance, "Exchange imbalance", "the exchange given", "",
               "One side is the exchange up. What does the other side have for it?"},
    ThemeWords{Theme::pin, "Pin", "pins", " by a pin", "Which man of {Other} is pinned, and what comes of it?"},
    ThemeWords{Theme::skewer, "Skewer", "skewers", " by a skewer", ""},
    ThemeWords{Theme::fork, "Fork", "forks", " by a fork", ""},
    ThemeWords{Theme::double_attack, "Double attack", "double attacks", " by a double attack", ""},
    ThemeWords{Theme::discovered_attack, "Discovered attack", "discovered attacks", " by a discovered attack", ""},
    ThemeWords{Theme::battery, "Battery", "batteries", "", ""},
    ThemeWords{Theme::removable_guard, "Removable guard", "guards that can be removed", " by removing a guard", ""},
    ThemeWords{Theme::trapped_piece, "Trapped piece", "trapped pieces", ", because a piece is trapped", ""},
    ThemeWords{Theme::back_rank, "Back rank", "back ranks", " on the back rank", ""},
    ThemeWords{Theme::mate_in_one, "Mate in one", "mates in one", "", ""},
    ThemeWords{Theme::mate_in_two, "Mate in two", "mates in two", "", ""},
    ThemeWords{Theme::promotion_threat, "Promotion threat", "pawns that get through", ", because a pawn gets through",
               ""},
    ThemeWords{Theme::intermediate_move, "Intermediate move", "intermediate moves", " by an intermediate move", ""},
    ThemeWords{Theme::hole, "Hole", "holes", "", "Which squares of {Other} can its pawns never guard again?"},
    ThemeWords{Theme::outpost, "Outpost", "outposts", "",
               "Where does a minor piece of {Side} stand so that no pawn ever drives it away?"},
    ThemeWords{Theme::space, "Space", "space", "", "Who has more room? Count it."},
    ThemeWords{Theme::good_bishop, "Good bishop", "good bishops", "", ""},
    ThemeWords{Theme::bad_bishop, "Bad bishop", "bad bishops", "", "Which bishop stands behind its own pawns?"},
    ThemeWords{Theme::rim_knight, "Rim knight", "knights on the rim", "", "Which knight sees little of the board?"},
    ThemeWords{Theme::undeveloped, "Undeveloped", "pieces that have not moved", "",
               "How many pieces of each side still stand on their first square?"},
    ThemeWords{Theme::passive_piece, "Passive piece", "passive pieces", "", "Which piece does the least?"},
    ThemeWords{Theme::guarding_only, "Guarding only", "pieces that only guard", "", ""},
    ThemeWords{Theme::isolated_pawn, "Isolated pawn", "isolated pawns", "",
               "Which pawn has no neighbour, and who can use that?"},
    ThemeWords{Theme::doubled_pawns, "Doubled pawns", "doubled pawns", "", ""},
    ThemeWords{Theme::backward_pawn, "Backward pawn", "backward pawns", "", "Which pawn has been left behind?"},
    ThemeWords{Theme::passed_pawn, "Passed pawn", "passed pawns", "",
               "Which pawn of {Side} can no longer be stopped by a pawn?"},
    ThemeWords{Theme::candidate_to_pass, "Candidate to pass", "pawns that can pass", "", ""},
    ThemeWords{Theme::pawn_chain, "Pawn chain", "pawn chains", "", ""},
    ThemeWords{Theme::pawn_islands, "Pawn islands", "pawn islands", "", ""},
    ThemeWords{Theme::pawn_majority, "Pawn majority", "pawn majorities", "",
               "On which wing does {Side} have more pawns, and what is that good for?"},
    ThemeWords{Theme::pawn_lever, "Pawn lever", "pawn levers", "", ""},
    ThemeWords{Theme::blocked_pawns, "Blocked pawns", "blocked pawns", "", ""},
    ThemeWords{Theme::king_shelter, "King shelter", "shelters of the king", "", "How safe is the king of {Other}?"},
    ThemeWords{Theme::king_lines, "King lines", "open lines on the king", "",
               "Which lines lead to the king of {Other}?"},
    ThemeWords{Theme::near_king, "Near king", "men near the king", "",
               "Who attacks and who defends near the king of {Other}? Count."},
    ThemeWords{Theme::king_escape, "King escape", "escape squares of the king", "", ""},
    ThemeWords{Theme::king_in_centre, "King in centre", "kings in the centre", "",
               "Which king still stands in the centre, and what should the other side do about it?"},
};

static_assert(is_in_order_of_themes(theme_words) && is_in_order_of_themes(german_theme_words));

inline constexpr TableOf<ThemeWords> theme_word_tables[language_count]{theme_words, german_theme_words}; ///< in order

/// What things of no theme are called, by language.
inline constexpr std::string_view other_themes[language_count]{"other ways", "andere Wege"};

/// The row of a theme. Precondition: not `Theme::end_`.
[[nodiscard]] constexpr const ThemeWords& words_of(Theme theme, Language language = Language::english) noexcept {
    return theme_word_tables[static_cast<std::size_t>(language)].first[static_cast<std::size_t>(theme)];
}

} // namespace keysquare
