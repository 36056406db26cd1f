// outlook: what each side can usefully do. Where the material is equal but one side has nothing to do, this says so.
#pragma once

#include <array>
#include <span>
#include <utility>
#include <vector>

#include <keysquare/thinking/move_study.hpp>
#include <keysquare/thinking/route.hpp>
#include <keysquare/thinking/threats.hpp>

namespace keysquare {

/// A counted fact (`counted_facts`) that says whether a move improves something, and the least amount that matters.
struct Yardstick {
    MoveFact fact; ///< which fact
    int least;     ///< less than this amount does not count
};

/// The facts that decide whether a move improves something, what a teacher would name first at the top.
///
/// A move *improves* something when the first of these facts that it changes by at least `least` gets better, and makes
/// things *worse* when that one gets worse. What stands above outweighs what stands below: a rook may leave a half-open
/// file for an open one, not the other way round. Each fact is the difference between two boards, or tells of something
/// that can't be taken back (castling, a pawn move); so of a move and the move back, the other side passing, one at
/// most improves something.
///
/// Order and amounts are a convention, fitted to one measurement: of the quiet safe moves in games between masters the
/// players chose those that improve something 1.7 times as often as chance would have it.
[[nodiscard]] std::span<const Yardstick> yardsticks() noexcept;

/// Positive, negative, or 0 when no yardstick changes: whether the facts tell of an improvement. They are in the order
/// of `MoveFact`, those that are missing are 0.
[[nodiscard]] int improvement(const ReasonList& facts) noexcept;

/// The facts that are better by at least what matters, in the order of the yardsticks.
[[nodiscard]] ReasonList improvements(const ReasonList& facts) noexcept;

/// Whether the facts `a` are better than the facts `b`: they are by the first yardstick in which they differ, where
/// less than `least`, up or down, is nothing.
[[nodiscard]] bool gains_more(const ReasonList& a, const ReasonList& b) noexcept;

/// A useful move and why it is one.
struct UsefulMove {
    Move move;          ///< the move
    Outcome won;        ///< what it wins, whatever the reply, and the line; no line when it wins nothing
    Outcome threat;     ///< what it threatens (`MoveStudy::threat`); no line when that is nothing
    ReasonList reasons; ///< `mates`, `wins`, `meets_threat`, `threatens_mate`, `threatens`, and the improvements
};

/// The best square of a piece.
struct BestSquare {
    Placed piece;                 ///< the piece, where it stands now
    Square square = Square::none; ///< where it is best placed
    Route route;                  ///< one or two moves: the first of the shortest safe routes (`keysquare::route`)
    ReasonList facts; ///< what changes, for better or worse, when the piece stands there and nothing else has changed
    ReasonList gains; ///< the improvements among them
};

/// What one side can do: the mover in the position as it is, the waiter when the mover passes.
struct SideOutlook {
    Side side = Side::white;        ///< whose it is
    bool exists = false;            ///< false when it has no turn: the other side is to move and stands in check
    bool after_pass = false;        ///< the other side passes first
    bool in_check = false;          ///< it stands in check: nothing is said about plans and best squares then
    int legal = 0;                  ///< its legal moves
    std::vector<UsefulMove> useful; ///< in the order of `legal_moves`
    std::vector<Move> merely_safe;  ///< the safe moves that are not useful, in the same order
    Move only_move;                 ///< the one move that keeps the material; no move (`Move{}`) when there is none
    Threats threats;                ///< as the function `threats` gives them
    std::vector<BestSquare> best_squares; ///< of the pieces that have one, from a1, b1, ... to h8
    bool no_plan = false; ///< it has legal moves, is not in check, and has neither a useful move nor a better square
};

/// What both sides can do.
struct Outlook {
    std::array<SideOutlook, 2> sides; ///< by side
    bool equilibrium = false;         ///< neither side has a plan: no threats, no useful moves, no better squares

    /// What a side can do. Of an outlook that is not kept, a value of its own.
    /// @{
    [[nodiscard]] const SideOutlook& of(Side side) const& noexcept { return sides[index(side)]; }
    [[nodiscard]] SideOutlook of(Side side) && noexcept { return std::move(sides[index(side)]); }
    [[nodiscard]] const SideOutlook& of(Side side) const&& = delete;
    /// @}
};

/// The outlook of both sides.
///
/// A legal move is *useful* when it wins something (`MoveWins`), or when it is safe (`JudgedMoves::is_safe`) and
/// - it keeps more than doing nothing would (`meets_threat`), or
/// - it improves something, or
/// - it makes nothing worse and threatens something that could not be had at once (`threatens`, `threatens_mate`).
///
/// The other safe moves are merely safe. Of a move that takes or promotes and wins nothing only `meets_threat` counts:
/// it trades, and what it seems to change stands only when the exchange is over.
///
/// The *only move*: of several legal moves exactly one keeps what the side has (`JudgedMoves::is_safe` with `best` 0),
/// and of all others it is known that they do not.
///
/// The *best square* is looked for on behalf of each knight, bishop, rook and queen, and in an endgame of the king,
/// among the empty squares to which it has a safe route of one or two moves: of those where it would improve something
/// the best by the yardsticks (`gains_more`). Of equals the nearer one, then the one nearer to the side's first rank,
/// then to the a-file.
///
/// One to two milliseconds.
[[nodiscard]] Outlook outlook(const Position& position, const Options& options = {});

} // namespace keysquare
