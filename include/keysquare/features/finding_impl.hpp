// Bodies of features/finding.hpp: the names.
#pragma once

#include <keysquare/features/finding.hpp>

namespace keysquare {

inline std::string_view name(Theme theme) noexcept {
    constexpr std::string_view names[] = {"hanging",        "poisoned",      "loose",
                                          "guard_duty",     "overloaded",    "tied",
                                          "mutual_guards",  "shield_pair",   "square_control",
                                          "colour_complex", "guardian",      "denied_square",
                                          "rook_scope",     "stuffed_rooks", "open_file",
                                          "seventh_rank",   "doubled_rooks", "connected_rooks",
                                          "entry_square",   "material",      "exchange_imbalance"};
    static_assert(std::size(names) == static_cast<std::size_t>(Theme::end_));
    return theme < Theme::end_ ? names[static_cast<std::size_t>(theme)] : std::string_view{};
}

inline std::string_view name(Detail detail) noexcept {
    constexpr std::string_view names[] = {"none",
                                          "unguarded",
                                          "guard_pinned",
                                          "outnumbered",
                                          "cheaper_attacker",
                                          "en_passant",
                                          "guards_man",
                                          "blocks_line",
                                          "hinders_attacker",
                                          "stops_mate",
                                          "stops_promotion",
                                          "only_each_other",
                                          "pressured",
                                          "locked",
                                          "light",
                                          "dark",
                                          "on_open_file",
                                          "on_half_open_file",
                                          "can_take_open_file",
                                          "can_take_half_open_file",
                                          "the_exchange",
                                          "the_exchange_for_pawns",
                                          "two_exchanges",
                                          "two_minors_for_rook",
                                          "two_minors_for_rook_and_pawns",
                                          "queen_for_pieces",
                                          "minor_for_pawns",
                                          "piece_up",
                                          "pawns_up",
                                          "bishop_pair",
                                          "opposite_bishops",
                                          "even",
                                          "no_compensation",
                                          "some_compensation",
                                          "enough_compensation",
                                          "more_than_enough_compensation",
                                          "piece_for_pawns",
                                          "mixed",
                                          "at_home",
                                          "in_play"};
    static_assert(std::size(names) == static_cast<std::size_t>(Detail::end_));
    return detail < Detail::end_ ? names[static_cast<std::size_t>(detail)] : std::string_view{};
}

inline std::string_view name(Measure measure) noexcept {
    constexpr std::string_view names[] = {"attackers",       "guards",          "duties",         "moves",
                                          "safe_moves",      "losing_moves",    "least_loss",     "held",
                                          "held_by_other",   "held_without",    "change",         "holes",
                                          "fixed_pawns",     "pawns_on_colour", "bishops",        "bishops_of_other",
                                          "rooks",           "minors",          "pawns",          "material",
                                          "compensation",    "queens",          "exchanges",      "bishop_pairs",
                                          "outposts",        "passed_pawns",    "missing_shield", "bearing_men",
                                          "weak_pawns",      "rook_files",      "attacked",       "attacked_by_other",
                                          "attacked_without"};
    static_assert(std::size(names) == static_cast<std::size_t>(Measure::end_));
    return measure < Measure::end_ ? names[static_cast<std::size_t>(measure)] : std::string_view{};
}

inline Theme theme_named(std::string_view text) noexcept {
    for (auto theme = Theme::hanging; theme < Theme::end_; theme = static_cast<Theme>(static_cast<int>(theme) + 1))
        if (name(theme) == text) return theme;
    return Theme::end_;
}

} // namespace keysquare
