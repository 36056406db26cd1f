// MoveWins: what each legal move of the side to move wins, if anything, whatever the other side answers.
#pragma once

#include <optional>

#include <keysquare/features/options.hpp>
#include <keysquare/tactics/forcing_moves.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// What the legal moves of the side to move win, each worked out when it is asked about. `least`, at least 1, is what a
/// move has to win to be worth speaking of.
///
/// A move *takes* when it captures or promotes; `won` is what it takes by itself. 1. A move that takes or gives check
/// has the gain of `value_of_move`, when that is complete and is a mate or at least `least`. With a mate, that is the
/// answer. 2. A taking move that has such a gain may be met by a quiet answer (`quiet_refutation` on the square of
/// arrival, with a ceiling that leaves less than the gain). Then what that leaves is the answer, when it is at least
/// `least`; otherwise the move wins nothing. 3. A move that presses has the gain of `gain_against_every_reply`, checks
/// and captures being delays, asked with `more`: `least`, or one more than the gain of 1. When there is one, a mate or
/// at least `more`, it is the answer. A move *presses* when it gives check, or when its side, with the move handed back
/// to it, would win at least `more - won` by `resolve` (0 or less it always does); a move that does not take must then
/// win more than `at_once`, too. 4. Otherwise the gain of 1. is the answer, if there is one. `at_once` is what
/// `resolve` wins in the position as it stands, at least 0: a quiet move is a threat only when it adds something to
/// what could be taken at once. Nothing quiet does when that is a mate.
///
/// A move that neither takes nor gives check costs one `resolve_wins` when it adds nothing; one that wins costs a
/// `move_keeps` for each reply. It refers to the position, copies the options, and belongs to one thread.
class MoveWins {
  public:
    /// Makes the list of legal moves; searches nothing yet. `least` is in pawns.
    MoveWins(const Position& position, int least, const Options& options) noexcept
        : position_(position), options_(options), moves_(legal_moves(position)), finder_(position), least_(least) {}
    MoveWins(const Position&& position, int least, const Options& options) = delete;

    /// In the order of `legal_moves`.
    [[nodiscard]] const MoveList& moves() const noexcept { return moves_; }

    /// What a legal move wins and the line that shows it; no line when it wins nothing.
    [[nodiscard]] Outcome win(Move move) const noexcept { return judge(move, true); }
    /// Whether `win(move)` has a line, without the line.
    [[nodiscard]] bool wins(Move move) const noexcept { return !judge(move, false).line.empty(); }

    /// Whether any move wins. Moves that take are looked at first, then checks, then the others.
    [[nodiscard]] bool any() const noexcept;

    /// Whether the move gives check, or threatens at least `least` (a mate does) and more than could be won at once.
    [[nodiscard]] bool threatens(Move move, int least) const noexcept;

  private:
    /// Of an answer that is not `exact`, only whether it has a line means something.
    [[nodiscard]] Outcome judge(Move move, bool exact) const noexcept;

    [[nodiscard]] bool is_enough(const Outcome& outcome) const noexcept;

    [[nodiscard]] Outcome refutation(Move move, int ceiling) const noexcept;

    /// Whether a move without check leaves its side at least `threshold` to win if it could move again.
    [[nodiscard]] bool again(Move move, int threshold) const noexcept;

    [[nodiscard]] int at_once() const noexcept;

    const Position& position_;
    Options options_;
    MoveList moves_;
    CheckFinder finder_;
    int least_;
    mutable std::optional<int> at_once_;
};

/// Whether a reply to a legal move is a mate or wins at least `Options::least_gain` more than the move takes: exactly when
/// one of the `threats` after the move does.
[[nodiscard]] bool reply_wins(const Position& position, Move move, const Options& options) noexcept;

/// The best such reply and its line; no line when there is none.
[[nodiscard]] Outcome winning_reply(const Position& position, Move move, const Options& options) noexcept;

} // namespace keysquare
