// Material: who has which men, and the names that players give to the differences.
#pragma once

#include <array>
#include <optional>
#include <string>

#include <keysquare/features/board_view.hpp>

namespace keysquare {

/// The counts of every kind on both sides.
struct MaterialSignature {
    std::array<std::array<std::uint8_t, 6>, 2> counts{}; ///< by side and kind, pawn first, king last

    /// How many men of the kind `side` has.
    [[nodiscard]] int count(Side side, Kind kind) const noexcept { return counts[index(side)][index(kind)]; }
    /// How many more men of the kind `side` has than the other side; negative when it has fewer.
    [[nodiscard]] int more(Side side, Kind kind) const noexcept { return count(side, kind) - count(other(side), kind); }
    /// How many more knights and bishops together `side` has; negative when it has fewer.
    [[nodiscard]] int more_minors(Side side) const noexcept {
        return more(side, Kind::knight) + more(side, Kind::bishop);
    }
    /// Whether all of it is equal.
    friend bool operator==(const MaterialSignature&, const MaterialSignature&) noexcept = default;
};

/// O(kinds).
[[nodiscard]] MaterialSignature material_signature(const Position& position) noexcept;
/// The men of White, then of Black, each as letters in the order KQRBNP: "KQRRBNPPPPP v KQRRBBPPPP".
[[nodiscard]] std::string text(const MaterialSignature& signature);

/// One side has `times` rooks more, the other one `times` minor pieces more, and the queens are equal in number.
struct ExchangeUp {
    Side side = Side::white; ///< the side with the rooks
    int times = 0;           ///< how often: 1 for a rook for a minor piece
};
/// The side that is the exchange up, and how often; nothing when none is by the definition of `ExchangeUp`.
[[nodiscard]] std::optional<ExchangeUp> exchange_up(const MaterialSignature& signature) noexcept;

/// A named imbalance: what it is called, whom it is good for, and the men that it consists of.
struct Imbalance {
    Detail name = Detail::even; ///< what it is called
    Side side = Side::white;    ///< whom it is good for
    Squares men;                ///< the men that it consists of
};

/// The name of the difference as a whole, then those that go beside it.
using Imbalances = BoundedList<Imbalance, 2>;

/// The named imbalances. With Q, R, M, P for how many queens, rooks, minor pieces (knights and bishops alike) and pawns
/// one side has more than the other, exactly one of these names goes to the difference as a whole; the first row that
/// fits:
///
/// | name                            | fits when one of the sides has                    |
/// |---------------------------------|---------------------------------------------------|
/// | `even`                          | Q = R = M = P = 0                                 |
/// | `pawns_up`                      | Q = R = M = 0, P > 0                              |
/// | `the_exchange`                  | Q = 0, R = 1, M = -1, P >= 0                      |
/// | `the_exchange_for_pawns`        | Q = 0, R = 1, M = -1, P < 0                       |
/// | `two_exchanges`                 | Q = 0, R = -M >= 2 (Measure::exchanges says R)    |
/// | `two_minors_for_rook`           | Q = 0, M = 2, R = -1, P >= 0                      |
/// | `two_minors_for_rook_and_pawns` | Q = 0, M = 2, R = -1, P < 0                       |
/// | `minor_for_pawns`               | Q = R = 0, M = 1, P < 0                           |
/// | `piece_up`                      | Q, R, M >= 0, not all 0, P >= 0                   |
/// | `piece_for_pawns`               | Q, R, M >= 0, not all 0, P < 0                    |
/// | `queen_for_pieces`              | Q = 1, R <= 0, M <= 0, not both 0                 |
/// | `mixed`                         | none of the above                                 |
///
/// It is good for the side that is ahead by `values`; when that is level, for the side that the name speaks of (the
/// side in the table; for `mixed` the one with more of the dearest kind that differs); for `even` the mover stands in,
/// and nothing is meant by it. The men are, of each of the four classes, those of the side that has more of them.
///
/// Beside it:
/// - `bishop_pair`: a side has a light-squared and a dark-squared bishop and the other side does not. The men: its
/// bishops;
/// - `opposite_bishops`: each side has exactly one bishop, and they run on different colours, whatever else is on the
///   board. The men: both. It has the side of the first name.
[[nodiscard]] Imbalances named_imbalances(const Position& position, const Values& values = {}) noexcept;

/// Whether `side` has bishops on both colours.
[[nodiscard]] inline bool has_bishop_pair(const Position& position, Side side) noexcept {
    const Squares bishops = position.men(side, Kind::bishop);
    return (bishops & light_squares) && (bishops & dark_squares);
}

/// One finding of `Theme::material` for each named imbalance, `detail` its name. `squares`: its men; `pieces`: the same
/// without pawns, those of `side` first, no more than eight. Numbers, all for `side` and negative when it has fewer:
/// `material`, `queens`, `rooks`, `minors`, `pawns`; and `exchanges` where an exchange is named.
void find_material(const BoardView& view, Findings& findings);

} // namespace keysquare

#include <keysquare/features/material_impl.hpp>
