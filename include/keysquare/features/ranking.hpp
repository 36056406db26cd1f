// Ranking: which finding is mentioned first. The whole rule stands in one table and a few numbers.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include <keysquare/features/finding.hpp>

namespace keysquare {

/// One row of the ranking, for a theme (and detail, unless that is `none`). A finding weighs
/// - `idle` when nothing is at stake in it: no gain, no loss, no mate;
/// - otherwise `base`, plus `per_pawn` for each pawn at stake, a mate counting as `pawns_for_mate`, plus
///   `per_hidden_ply` for each ply of the line after the first (what can be seen at once needs no teacher), plus
///   `per_piece` for each further piece that takes part; both are capped.
struct RankingRow {
    Theme theme;   ///< which findings
    Detail detail; ///< `Detail::none`: whatever the detail
    int base;      ///< where the line wins something or mates
    int per_pawn;  ///< added for each pawn of the gain; a mate counts as `pawns_for_mate`
    int idle;      ///< the weight where nothing is won
};

inline constexpr int pawns_for_mate = 12;     ///< A mate is worth this many pawns.
inline constexpr int per_hidden_ply = 1;      ///< For each ply of the line after the first.
inline constexpr int most_hidden_plies = 5;   ///< No more plies than these count.
inline constexpr int per_piece = 1;           ///< For each piece after the first.
inline constexpr int most_further_pieces = 3; ///< No more further pieces than these count.
/// What happens only after a pass is less urgent than what the mover can do now, in percent.
inline constexpr int percent_after_pass = 70;

/// The first row that fits counts. What wins by force comes first, then what loses if touched, then what is true of the
/// position for longer, then plain counts (order: common practice, no source).
inline constexpr std::array ranking_table{
    // wins by force
    RankingRow{Theme::mate_in_one, Detail::none, 130, 20, 0},
    RankingRow{Theme::mate_in_two, Detail::none, 115, 20, 0},
    RankingRow{Theme::back_rank, Detail::none, 105, 20, 8},
    RankingRow{Theme::intermediate_move, Detail::none, 112, 20, 0},
    RankingRow{Theme::overloaded, Detail::none, 116, 20, 0},
    RankingRow{Theme::fork, Detail::none, 112, 20, 17},
    RankingRow{Theme::double_attack, Detail::none, 112, 20, 0},
    RankingRow{Theme::skewer, Detail::none, 112, 20, 15},
    RankingRow{Theme::trapped_piece, Detail::none, 112, 20, 0},
    RankingRow{Theme::discovered_attack, Detail::none, 110, 20, 16},
    RankingRow{Theme::pin, Detail::absolute, 110, 20, 25},
    RankingRow{Theme::pin, Detail::none, 110, 20, 22},
    RankingRow{Theme::removable_guard, Detail::none, 108, 20, 13},
    RankingRow{Theme::promotion_threat, Detail::none, 106, 20, 0},
    RankingRow{Theme::hanging, Detail::none, 100, 20, 0},
    // loses if touched
    RankingRow{Theme::mutual_guards, Detail::locked, 90, 12, 0},
    RankingRow{Theme::mutual_guards, Detail::pressured, 0, 0, 20},
    RankingRow{Theme::mutual_guards, Detail::only_each_other, 0, 0, 12},
    RankingRow{Theme::stuffed_rooks, Detail::none, 80, 6, 0},
    RankingRow{Theme::shield_pair, Detail::locked, 60, 8, 0},
    RankingRow{Theme::shield_pair, Detail::none, 0, 0, 14},
    RankingRow{Theme::poisoned, Detail::none, 55, 8, 55},
    RankingRow{Theme::denied_square, Detail::none, 18, 5, 0},
    RankingRow{Theme::tied, Detail::none, 12, 4, 0},
    RankingRow{Theme::guard_duty, Detail::none, 8, 3, 0},
    // true for longer
    RankingRow{Theme::exchange_imbalance, Detail::no_compensation, 0, 0, 50},
    RankingRow{Theme::exchange_imbalance, Detail::none, 0, 0, 75},
    RankingRow{Theme::colour_complex, Detail::none, 0, 0, 65},
    RankingRow{Theme::guardian, Detail::none, 0, 0, 60},
    RankingRow{Theme::passed_pawn, Detail::connected, 0, 0, 48},
    RankingRow{Theme::passed_pawn, Detail::guarded_by_pawn, 0, 0, 46},
    RankingRow{Theme::passed_pawn, Detail::outside, 0, 0, 44},
    RankingRow{Theme::passed_pawn, Detail::none, 0, 0, 36},
    RankingRow{Theme::seventh_rank, Detail::none, 0, 0, 42},
    RankingRow{Theme::king_in_centre, Detail::may_not_castle, 0, 0, 40},
    RankingRow{Theme::king_in_centre, Detail::none, 0, 0, 27},
    RankingRow{Theme::outpost, Detail::held_by_piece, 0, 0, 40},
    RankingRow{Theme::outpost, Detail::none, 0, 0, 19},
    RankingRow{Theme::undeveloped, Detail::none, 0, 0, 39},
    RankingRow{Theme::near_king, Detail::none, 0, 0, 34},
    RankingRow{Theme::doubled_rooks, Detail::none, 0, 0, 34},
    RankingRow{Theme::open_file, Detail::on_open_file, 0, 0, 32},
    RankingRow{Theme::open_file, Detail::on_half_open_file, 0, 0, 23},
    RankingRow{Theme::open_file, Detail::none, 0, 0, 16},
    RankingRow{Theme::king_shelter, Detail::none, 0, 0, 30},
    RankingRow{Theme::bad_bishop, Detail::none, 0, 0, 28},
    RankingRow{Theme::entry_square, Detail::none, 0, 0, 26},
    RankingRow{Theme::king_lines, Detail::on_half_open_file, 0, 0, 18},
    RankingRow{Theme::king_lines, Detail::none, 0, 0, 21},
    RankingRow{Theme::king_escape, Detail::no_luft, 0, 0, 9},
    RankingRow{Theme::king_escape, Detail::none, 0, 0, 24},
    RankingRow{Theme::space, Detail::none, 0, 0, 24},
    RankingRow{Theme::hole, Detail::none, 0, 0, 24},
    RankingRow{Theme::backward_pawn, Detail::none, 0, 0, 23},
    RankingRow{Theme::isolated_pawn, Detail::none, 0, 0, 22},
    RankingRow{Theme::pawn_chain, Detail::attacked_already, 0, 0, 20},
    RankingRow{Theme::battery, Detail::none, 0, 0, 20},
    RankingRow{Theme::rim_knight, Detail::none, 0, 0, 20},
    RankingRow{Theme::passive_piece, Detail::none, 0, 0, 20},
    RankingRow{Theme::pawn_lever, Detail::none, 0, 0, 18},
    RankingRow{Theme::candidate_to_pass, Detail::none, 0, 0, 18},
    RankingRow{Theme::loose, Detail::in_play, 0, 0, 17},
    RankingRow{Theme::good_bishop, Detail::none, 0, 0, 15},
    RankingRow{Theme::doubled_pawns, Detail::none, 0, 0, 15},
    RankingRow{Theme::pawn_majority, Detail::none, 0, 0, 14},
    RankingRow{Theme::pawn_chain, Detail::none, 0, 0, 11},
    RankingRow{Theme::guarding_only, Detail::none, 0, 0, 11},
    RankingRow{Theme::blocked_pawns, Detail::blocked_by_piece, 0, 0, 11},
    RankingRow{Theme::pawn_islands, Detail::none, 0, 0, 10},
    // plain counts
    RankingRow{Theme::material, Detail::even, 0, 0, 2},
    RankingRow{Theme::material, Detail::pawns_up, 0, 0, 21},
    RankingRow{Theme::material, Detail::bishop_pair, 0, 0, 30},
    RankingRow{Theme::material, Detail::opposite_bishops, 0, 0, 30},
    RankingRow{Theme::material, Detail::none, 0, 0, 38},
    RankingRow{Theme::rook_scope, Detail::none, 0, 0, 10},
    RankingRow{Theme::connected_rooks, Detail::none, 0, 0, 8},
    RankingRow{Theme::blocked_pawns, Detail::none, 0, 0, 6},
    RankingRow{Theme::square_control, Detail::none, 0, 0, 6},
    RankingRow{Theme::loose, Detail::at_home, 0, 0, 5},
};

/// The weight of a finding by the table. Depends on the finding alone.
[[nodiscard]] int weight_of(const Finding& finding) noexcept;

/// Fills in the weights and sorts, strongest first; equals keep the order in which they were found. What has been said
/// is worth less when it is said again: of the findings of one theme for one side in which `side` wins nothing, and of
/// those in which it wins by the same first move, the second weighs half, the third a third, and so on. No allocation
/// for up to 256 findings.
void rank(Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

inline int weight_of(const Finding& finding) noexcept {
    const bool mates = finding.mate || finding.mated;
    const int pawns = mates ? pawns_for_mate : finding.gain < 0 ? -finding.gain : finding.gain;
    const int hidden = (std::min)(static_cast<int>(finding.line.size()) - 1, most_hidden_plies);
    const int further = (std::min)(static_cast<int>(finding.pieces.size()) - 1, most_further_pieces);
    for (const RankingRow& row : ranking_table) {
        if (row.theme != finding.theme || (row.detail != Detail::none && row.detail != finding.detail)) continue;
        if (pawns == 0) return row.idle;
        const int weight = row.base + row.per_pawn * pawns + per_hidden_ply * (std::max)(hidden, 0) +
                           per_piece * (std::max)(further, 0);
        return finding.after_pass ? weight * percent_after_pass / 100 : weight;
    }
    return 0;
}

namespace detail {

/// Where each finding stood, in the order of their weights; equals keep their order.
class RankOrder {
  public:
    explicit RankOrder(std::size_t size)
        : more_(size > room_.size() ? size : 0), begin_(more_.empty() ? room_.data() : more_.data()),
          end_(begin_ + size) {
        for (std::size_t at = 0; at < size; ++at) begin_[at] = at;
    }
    RankOrder(const RankOrder&) = delete;
    RankOrder& operator=(const RankOrder&) = delete;
    ~RankOrder() = default;

    [[nodiscard]] std::size_t* begin() const noexcept { return begin_; }
    [[nodiscard]] std::size_t* end() const noexcept { return end_; }
    [[nodiscard]] std::size_t size() const noexcept { return static_cast<std::size_t>(end_ - begin_); }
    [[nodiscard]] std::size_t& operator[](std::size_t at) const noexcept { return begin_[at]; }

  private:
    std::array<std::size_t, 256> room_;
    std::vector<std::size_t> more_; ///< used instead when the findings are more than that
    std::size_t* begin_;
    std::size_t* end_;
};

inline void sort_by_weight(const Findings& findings, RankOrder& order) {
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return findings[a].weight != findings[b].weight ? findings[a].weight > findings[b].weight : a < b;
    });
}

/// Whether a second finding tells little that the first one has not told: the same theme for the same side with nothing
/// won, or a win by the same move.
inline bool says_the_same(const Finding& first, const Finding& second) noexcept {
    const auto wins = [](const Finding& finding) { return finding.mate || finding.gain > 0; };
    if (first.side != second.side || wins(first) != wins(second) || first.removed != second.removed) return false;
    if (!wins(first)) return first.theme == second.theme;
    return !first.line.empty() && !second.line.empty() && first.line.front() == second.line.front();
}

/// Brings the findings into that order, each moved once: they are large.
inline void put_in_order(Findings& findings, RankOrder& order) {
    for (std::size_t start = 0; start < order.size(); ++start) {
        if (order[start] == start) continue;
        const Finding first = findings[start];
        std::size_t to = start;
        for (std::size_t from = order[to]; from != start; from = order[to]) {
            findings[to] = findings[from];
            order[to] = to;
            to = from;
        }
        findings[to] = first;
        order[to] = to;
    }
}

} // namespace detail

inline void rank(Findings& findings) {
    detail::RankOrder order(findings.size());
    for (Finding& finding : findings) finding.weight = weight_of(finding);
    detail::sort_by_weight(findings, order);
    for (auto next = order.begin(); next != order.end(); ++next) {
        const auto again = std::count_if(order.begin(), next, [&](std::size_t earlier) {
            return detail::says_the_same(findings[earlier], findings[*next]);
        });
        findings[*next].weight /= static_cast<int>(again) + 1;
    }
    detail::sort_by_weight(findings, order);
    detail::put_in_order(findings, order);
}

} // namespace keysquare
