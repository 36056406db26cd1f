// Mobility: every square that a piece could go to, and why it can or can't.
#pragma once

#include <keysquare/features/duties.hpp>
#include <keysquare/tactics/quiet_refutation.hpp>

namespace keysquare {

/// What a square is for a piece that would go there.
enum class SquareVerdict : std::uint8_t {
    open,              ///< legal, and nothing is lost by it
    neglects,          ///< nothing is wrong with the square, but something else that is attacked would be left to fall
    own_man,           ///< a man of the same side stands there
    pinned,            ///< leaving the line would expose the king
    unanswered_check,  ///< the move would not answer the check
    held_by_pawn,      ///< the other side wins by captures there; the cheapest taker is a pawn
    held_by_minor,     ///< the same, the cheapest taker a knight or bishop
    held,              ///< the same, the cheapest taker a rook, queen or king; or a king may not step there
    gives_up_duty,     ///< something that the piece holds falls; `duty` says which square
    denied_by_tactics, ///< the other side wins material by a tactical point: `line` shows it
    undecided          ///< the search bound was too small to say
};

/// In snake case, as Python shows it.
[[nodiscard]] std::string_view name(SquareVerdict verdict) noexcept;

/// One square that a piece could reach.
struct Destination {
    Square square = Square::none;                ///< where the piece could go
    SquareVerdict verdict = SquareVerdict::open; ///< what awaits it there
    Square duty = Square::none;                  ///< for `gives_up_duty`
    /// What happens, with its gain for the piece's side. For a held square the captures on it (`exchange`); for the two
    /// verdicts after these the move and the best replies. Empty where the move is illegal or nothing is lost.
    Outcome outcome;
};

/// The mobility of one piece. It goes with the turn of the piece's side (`BoardView::turn`).
struct Mobility {
    bool known = false;                        ///< false when that side has no turn: the mover is in check
    Placed piece;                              ///< the piece
    BoundedList<Destination, 28> destinations; ///< in square order

    /// The squares with that verdict.
    [[nodiscard]] Squares squares(SquareVerdict verdict) const noexcept {
        Squares squares;
        for (const Destination& to : destinations)
            if (to.verdict == verdict) squares |= Squares{to.square};
        return squares;
    }
    /// Where the piece may safely go: open squares, and those that only neglect something else.
    [[nodiscard]] Squares scope() const noexcept {
        return squares(SquareVerdict::open) | squares(SquareVerdict::neglects);
    }
};

/// The mobility of the piece on `square`.
///
/// Verdicts in order: own man; illegal (pinned, unanswered check, attacked square for a king); held, when the captures
/// that follow on the arrival square (`exchange` after the move) win at least `least_gain` more than the move took;
/// then the move is judged by `resolve` (`JudgedMoves`):
/// - when it loses, it gives up a duty if a reply that wins enough arrives on a target of the piece's duties, or on
///   a man that it guarded, and no longer guards; otherwise the square is denied by tactics;
/// - when it is safe and the side is really to move, the square is denied by tactics all the same if a quiet answer
///   (`quiet_refutation`) leaves the side at least `least_gain` below its baseline (a fork, pin, skewer or trap, or
///   one that shuts it in; what teachers call indirect control). After a pass that would be a threat of a threat, and
///   it is not looked for;
/// - a move that is neither only neglects something else. What is left is open. Promotions are judged as queens.
[[nodiscard]] Mobility mobility(const BoardView& view, Square square);

/// Convenience for a single question; works the view out first.
[[nodiscard]] Mobility mobility(const Position& position, Square square, const Options& options = {});

/// Theme `denied_square`, for a knight, bishop, rook or queen: a square denied to it by tactics, one finding a square.
/// A warning to the piece's side; pieces = the piece; squares = the square; number: least_loss.
void find_denied_square(const BoardView& view, const Mobility& mobility, Findings& findings);

} // namespace keysquare

#include <keysquare/features/mobility_impl.hpp>
