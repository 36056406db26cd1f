// Ranking: which finding is mentioned first. The whole rule stands in one table.
#pragma once

#include <algorithm>
#include <array>

#include <keysquare/features/finding.hpp>

namespace keysquare {

/// One row of the ranking: a finding of the theme (and detail, unless that is `none`) weighs `base` plus `per_pawn` for
/// each pawn at stake, a mate counting as `pawns_for_mate`.
struct RankingRow {
    Theme theme;
    Detail detail;
    int base;
    int per_pawn;
};

inline constexpr int pawns_for_mate = 12;
/// What happens only after a pass is less urgent than what the mover can do now, in percent.
inline constexpr int percent_after_pass = 70;

/// The first row that fits counts. What wins by force comes first, then what loses if touched, then what is true of the
/// position for longer, then plain counts (order: common practice, no source).
inline constexpr std::array ranking_table{
    RankingRow{Theme::overloaded, Detail::none, 110, 20},
    RankingRow{Theme::hanging, Detail::none, 100, 20},
    RankingRow{Theme::mutual_guards, Detail::locked, 90, 12},
    RankingRow{Theme::mutual_guards, Detail::pressured, 20, 0},
    RankingRow{Theme::mutual_guards, Detail::only_each_other, 12, 0},
    RankingRow{Theme::stuffed_rooks, Detail::none, 80, 6},
    RankingRow{Theme::shield_pair, Detail::locked, 60, 8},
    RankingRow{Theme::shield_pair, Detail::none, 20, 0},
    RankingRow{Theme::exchange_imbalance, Detail::no_compensation, 50, 0},
    RankingRow{Theme::exchange_imbalance, Detail::none, 75, 0},
    RankingRow{Theme::colour_complex, Detail::none, 65, 0},
    RankingRow{Theme::guardian, Detail::none, 60, 0},
    RankingRow{Theme::poisoned, Detail::none, 55, 8},
    RankingRow{Theme::seventh_rank, Detail::none, 42, 0},
    RankingRow{Theme::material, Detail::even, 2, 0},
    RankingRow{Theme::material, Detail::pawns_up, 20, 0},
    RankingRow{Theme::material, Detail::bishop_pair, 30, 0},
    RankingRow{Theme::material, Detail::opposite_bishops, 30, 0},
    RankingRow{Theme::material, Detail::none, 38, 0},
    RankingRow{Theme::doubled_rooks, Detail::none, 34, 0},
    RankingRow{Theme::open_file, Detail::on_open_file, 32, 0},
    RankingRow{Theme::denied_square, Detail::none, 28, 5},
    RankingRow{Theme::entry_square, Detail::none, 27, 0},
    RankingRow{Theme::tied, Detail::none, 26, 4},
    RankingRow{Theme::open_file, Detail::on_half_open_file, 24, 0},
    RankingRow{Theme::loose, Detail::in_play, 18, 0},
    RankingRow{Theme::open_file, Detail::none, 16, 0},
    RankingRow{Theme::guard_duty, Detail::none, 14, 4},
    RankingRow{Theme::rook_scope, Detail::none, 10, 0},
    RankingRow{Theme::connected_rooks, Detail::none, 8, 0},
    RankingRow{Theme::square_control, Detail::none, 6, 0},
    RankingRow{Theme::loose, Detail::at_home, 5, 0},
};

/// The weight of a finding by the table. Depends on the finding alone.
[[nodiscard]] constexpr int weight_of(const Finding& finding) noexcept {
    const int pawns = finding.mate || finding.mated ? pawns_for_mate : finding.gain < 0 ? -finding.gain : finding.gain;
    for (const RankingRow& row : ranking_table)
        if (row.theme == finding.theme && (row.detail == Detail::none || row.detail == finding.detail)) {
            const int weight = row.base + row.per_pawn * pawns;
            return finding.after_pass ? weight * percent_after_pass / 100 : weight;
        }
    return 0;
}

/// Fills in the weights and sorts, strongest first; equals keep the order in which they were found. No allocation,
/// unlike `std::stable_sort`; a position has a few dozen findings.
inline void rank(Findings& findings) {
    for (Finding& finding : findings) finding.weight = weight_of(finding);
    for (auto next = findings.begin(); next != findings.end(); ++next) {
        const auto place =
            std::ranges::upper_bound(findings.begin(), next, next->weight, std::ranges::greater{}, &Finding::weight);
        std::rotate(place, next, next + 1);
    }
}

} // namespace keysquare
