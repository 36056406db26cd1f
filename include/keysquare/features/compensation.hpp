// Compensation: the published formula that weighs what a side has for the exchange that it gave.
#pragma once

#include <array>
#include <string_view>

#include <keysquare/features/finding.hpp>

namespace keysquare {

/// What may count for the side that gave the exchange. Append only.
enum class CompensationItem : std::uint8_t {
    pawns,         ///< pawns more than the other side (fewer count against it)
    bishop_pair,   ///< full: only it has bishops on both colours; part: both sides have
    outpost,       ///< full: more minor pieces on outposts than the other side; part: some, but not more
    passed_pawn,   ///< full: more passed pawns than the other side; part: some, but not more
    exposed_king,  ///< full: the other king has fewer shield pawns and it has a queen; part: it has no queen
    men_at_king,   ///< full: three men or more bear on the other king; part: two
    no_rook_file,  ///< full: the rooks of the other side have neither an open nor a half-open file
    damaged_pawns, ///< full: the other side has at least two weak pawns more; part: one
    end_           ///< one past the last item
};

/// How many items there are.
inline constexpr std::size_t compensation_items = static_cast<std::size_t>(CompensationItem::end_);

/// Every weight and threshold of the formula. Points are half pawns in the usual values, so that `enough` is the price
/// of the exchange (a rook for a minor piece, two pawns) and can be paid in pawns or in items.
///
///     points = pawn * (own pawns - other pawns) + the sum of the items, each in full, in part or not at all
///     level  = more_than_enough, enough or some, the highest whose threshold, times the number of exchanges given, is
///              reached; none otherwise
///
/// So one item is some compensation, two are enough, and a missing pawn takes part of an item away. Weights and
/// thresholds are a convention that fits positions worked through by hand (tests), no measurement. They say how much
/// there is to show for the exchange and nothing about who stands better: threats and everything else on the board are
/// not looked at.
struct CompensationTable {
    int pawn = 2;              ///< for each pawn
    int full = 3;              ///< an item in full
    int part = 1;              ///< an item in part
    int men_in_full = 3;       ///< men at the king that make the item full ...
    int men_in_part = 2;       ///< ... and that make a part of it
    int weak_in_full = 2;      ///< weak pawns more that make damaged pawns full ...
    int weak_in_part = 1;      ///< ... and that make a part of them
    int some = 2;              ///< thresholds of the levels
    int enough = 4;            ///< points from which the compensation is enough
    int more_than_enough = 10; ///< points from which it is more than enough
};
inline constexpr CompensationTable compensation_table{}; ///< The published weights.

/// How much the side that gave the exchange has for it.
enum class CompensationLevel : std::uint8_t {
    none,            ///< fewer points than for `some`
    some,            ///< from `CompensationTable::some` points on
    enough,          ///< from `CompensationTable::enough` on
    more_than_enough ///< from `CompensationTable::more_than_enough` on
};

/// What the formula is given: the counts, seen from the side that gave the exchange ("own").
struct CompensationCounts {
    int exchanges = 1;       ///< how many were given, at least 1
    int own_pawns = 0;       ///< pawns of the own side
    int other_pawns = 0;     ///< pawns of the other side
    bool own_pair = false;   ///< own bishop pair
    bool other_pair = false; ///< bishop pair of the other side
    int own_outposts = 0;    ///< minor pieces on outposts
    int other_outposts = 0;  ///< minor pieces of the other side on outposts
    int own_passed = 0;      ///< own passed pawns
    int other_passed = 0;    ///< passed pawns of the other side
    bool own_queen = false;  ///< the own side still has a queen
    int own_shield = 0;      ///< pawns that shield the own king
    int other_shield = 0;    ///< pawns that shield the other king
    int bearing_men = 0;     ///< own men that bear on the other king
    int rook_files = 0;      ///< open and half-open files for the rooks of the other side
    int own_weak = 0;        ///< isolated pawns plus files with doubled pawns
    int other_weak = 0;      ///< the same of the other side
};

/// What the formula says, with the points that each item brought.
struct Compensation {
    CompensationLevel level = CompensationLevel::none; ///< what the points come to by the table
    int points = 0;                                    ///< the sum over all items
    std::array<int, compensation_items> by_item{};     ///< points of each item, in their order

    /// The points that the item brought; 0 when it does not count.
    [[nodiscard]] int of(CompensationItem item) const noexcept { return by_item[static_cast<std::size_t>(item)]; }
    /// Whether the item speaks for the side that gave the exchange.
    [[nodiscard]] bool counts(CompensationItem item) const noexcept { return of(item) > 0; }
};

/// What the formula says of these counts. Constant time.
[[nodiscard]] constexpr Compensation compensation(const CompensationCounts& counts,
                                                  const CompensationTable& table = compensation_table) noexcept;

/// "bishop_pair"; empty for `end_`.
[[nodiscard]] constexpr std::string_view name(CompensationItem item) noexcept;
/// "more_than_enough".
[[nodiscard]] constexpr std::string_view name(CompensationLevel level) noexcept;
/// The same level as the detail of a finding.
[[nodiscard]] constexpr Detail detail_of(CompensationLevel level) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

constexpr Compensation compensation(const CompensationCounts& counts, const CompensationTable& table) noexcept {
    Compensation result;
    const auto add = [&](CompensationItem item, int points) {
        result.by_item[static_cast<std::size_t>(item)] = points;
        result.points += points;
    };
    const auto weigh = [&](CompensationItem item, bool in_full, bool in_part) {
        add(item, in_full ? table.full : in_part ? table.part : 0);
    };
    add(CompensationItem::pawns, table.pawn * (counts.own_pawns - counts.other_pawns));
    weigh(CompensationItem::bishop_pair, counts.own_pair && !counts.other_pair, counts.own_pair);
    weigh(CompensationItem::outpost, counts.own_outposts > counts.other_outposts, counts.own_outposts > 0);
    weigh(CompensationItem::passed_pawn, counts.own_passed > counts.other_passed, counts.own_passed > 0);
    const bool more_exposed = counts.other_shield < counts.own_shield;
    weigh(CompensationItem::exposed_king, more_exposed && counts.own_queen, more_exposed);
    weigh(CompensationItem::men_at_king, counts.bearing_men >= table.men_in_full,
          counts.bearing_men >= table.men_in_part);
    weigh(CompensationItem::no_rook_file, counts.rook_files == 0, false);
    const int weaker = counts.other_weak - counts.own_weak;
    weigh(CompensationItem::damaged_pawns, weaker >= table.weak_in_full, weaker >= table.weak_in_part);

    const int per_exchange = counts.exchanges > 1 ? counts.exchanges : 1;
    result.level = result.points >= per_exchange * table.more_than_enough ? CompensationLevel::more_than_enough
                   : result.points >= per_exchange * table.enough         ? CompensationLevel::enough
                   : result.points >= per_exchange * table.some           ? CompensationLevel::some
                                                                          : CompensationLevel::none;
    return result;
}

constexpr std::string_view name(CompensationItem item) noexcept {
    constexpr std::string_view names[] = {"pawns",        "bishop_pair", "outpost",      "passed_pawn",
                                          "exposed_king", "men_at_king", "no_rook_file", "damaged_pawns"};
    static_assert(std::size(names) == compensation_items);
    return item < CompensationItem::end_ ? names[static_cast<std::size_t>(item)] : std::string_view{};
}

constexpr std::string_view name(CompensationLevel level) noexcept {
    constexpr std::string_view names[] = {"none", "some", "enough", "more_than_enough"};
    return names[static_cast<std::size_t>(level)];
}

constexpr Detail detail_of(CompensationLevel level) noexcept {
    constexpr Detail details[] = {Detail::no_compensation, Detail::some_compensation, Detail::enough_compensation,
                                  Detail::more_than_enough_compensation};
    return details[static_cast<std::size_t>(level)];
}

} // namespace keysquare
