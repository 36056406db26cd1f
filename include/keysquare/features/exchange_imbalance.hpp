// The exchange-imbalance ledger: what each side has in a position where one of them is the exchange up.
#pragma once

#include <optional>
#include <utility>

#include <keysquare/features/compensation.hpp>
#include <keysquare/features/guardian.hpp>
#include <keysquare/features/king_shelter.hpp>
#include <keysquare/features/material.hpp>
#include <keysquare/features/mobility.hpp>
#include <keysquare/features/outpost.hpp>

namespace keysquare {

/// One rook and the squares that it can safely go to.
struct RookScope {
    Square rook = Square::none; ///< where it stands
    Squares safe;               ///< `Mobility::scope()`, as in the theme rook_scope
};

/// One side's page of the ledger. Every count is the count of a set of squares that is here.
struct LedgerPage {
    int more_pawns = 0;       ///< own pawns minus those of the other side
    Squares pair;             ///< the bishops when they run on both colours, otherwise empty
    bool scope_known = false; ///< false for the waiter while the mover is in check: it has no turn (`BoardView::turn`)
    BoundedList<RookScope, 16> rooks; ///< `safe` is empty while the scope is not known
    Squares open_files;               ///< whole files that its rooks can use, the same for both sides
    Squares half_open_files;          ///< whole files without an own pawn but with one of the other side
    Squares outposts;                 ///< its minor pieces on outposts
    KingShelter king;                 ///< its shelter, the files on it, and the enemy men that bear on it
    SidePawns pawns;                  ///< passed, isolated, doubled

    /// How many files the rooks can use: open and half-open ones.
    [[nodiscard]] int rook_files() const noexcept { return count_files(open_files | half_open_files); }
    /// Isolated pawns plus files with doubled pawns.
    [[nodiscard]] int weak_pawns() const noexcept { return pawns.isolated.count() + count_files(pawns.doubled); }
};

/// The minor piece that the side with the rooks no longer has, and what both sides had and have of its complex: for a
/// bishop the colour that it ran on, for a knight the colour of the squares that it attacked. The counts are over the
/// whole board; everything else that happened between the two positions is in them too.
struct GuardianGone {
    Placed piece;                     ///< where it stood in the earlier position
    Complex complex = Complex::light; ///< the colour of its squares
    Grasp before;                     ///< in the earlier position, on squares of the complex alone
    Grasp now;                        ///< in the position itself, on squares of the complex alone
};

/// What both sides have where one gave the exchange: counts with their squares, and what the published formula makes of
/// them.
struct ExchangeLedger {
    ExchangeUp up;                   ///< the side with the rooks, and how often it is the exchange up
    std::array<LedgerPage, 2> pages; ///< by side
    Compensation compensation;       ///< of the side that gave the exchange
    /// Only when an earlier position was given and it is clear which piece it was.
    std::optional<GuardianGone> guardian;

    /// The page of a side.
    [[nodiscard]] const LedgerPage& of(Side side) const noexcept { return pages[index(side)]; }
    /// The side that gave the exchange: the one with the minor pieces.
    [[nodiscard]] Side giver() const noexcept { return other(up.side); }
};

/// The ledger; nothing unless one side has n >= 1 rooks more and the other n minor pieces more, queens equal in number.
///
/// A single position does not tell what left the board. Given `earlier`, a position of the same game from before the
/// exchange was given, the ledger names the guardian: the one minor piece (a knight, or the bishop of one colour) by
/// which the side with the rooks has fewer than then, if that is its whole loss of pieces and the other side lost
/// exactly one rook (queens may have been traded), and if one square tells where the piece stood (two knights are told
/// apart by their squares alone).
///
/// The scope of the rooks is nearly all of the cost: the view's judged moves and `guard_duties`, when the view is new.
/// With `earlier` two square controls more.
[[nodiscard]] std::optional<ExchangeLedger> exchange_context(const BoardView& view, const Position* earlier = nullptr);
/// The same, from a position.
[[nodiscard]] inline std::optional<ExchangeLedger>
exchange_context(const Position& position, const Options& options = {}, const Position* earlier = nullptr) {
    return exchange_context(BoardView{position, options}, earlier);
}

/// `Theme::exchange_imbalance`, one finding at most; `detail` is the compensation level of the side that gave the
/// exchange.
///
/// `side` is the side with the rooks when the level is none or some, the giver when it is enough or more: the side that
/// the count speaks for, not a verdict on who stands better. `pieces`: the rooks of the one, then the minor pieces of
/// the other side. `squares`: these and the men behind every item that counts; where the other king is exposed, the
/// king too. There is no line. Numbers: `material` and `pawns` for `side`; `exchanges`; `compensation` (points);
/// `rook_files` of the side with the rooks; and of the giver those of `bishop_pairs`, `outposts`, `passed_pawns`,
/// `missing_shield`, `bearing_men` and `weak_pawns` whose item brought points.
void find_exchange_imbalance(const BoardView& view, Findings& findings);

} // namespace keysquare

#include <keysquare/features/exchange_imbalance_impl.hpp>
