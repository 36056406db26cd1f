// BoardView: one position seen by both sides, with the work that several features share done once.
#pragma once

#include <array>
#include <optional>

#include <keysquare/features/finding.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare {

/// What every feature may be told.
struct Options {
    Values values{};
    Bound bound{};
    int least_gain = 1; ///< claims that win less are not made
};

/// One side's turn in the position: as it is for the mover, after a pass for the waiter.
struct Turn {
    bool exists = false; ///< false for the waiter when the mover is in check: a pass would be illegal
    bool after_pass = false;
    Position position; ///< with the side to move
};

/// The legal moves of one side, and which of them keep what the side has.
///
/// `best` is the most that any move keeps, at most 0 (`value_of_move`); a move is *safe* when it keeps at least `best`. So
/// where something is lost anyway, the moves that lose least are the safe ones, and a quiet move is not unsafe just because
/// a capture was there to be made. A move whose search hit the node bound counts as unsafe and is not claimed to lose.
struct JudgedMoves {
    MoveList moves;
    std::array<bool, most_moves> safe{};
    std::array<bool, most_moves> decided{};
    int best = 0;

    [[nodiscard]] bool loses(std::size_t at) const noexcept { return decided[at] && !safe[at]; }
};

/// A position, its two turns and its judged moves. Cheap to make; the judged moves are worked out on first use, so one
/// view belongs to one thread.
class BoardView {
  public:
    explicit BoardView(const Position& position, const Options& options = {}) noexcept
        : position_(position), options_(options) {
        Turn& now = turns_[index(position.mover())];
        now = {true, false, position};
        if (const auto handed_over = passed(position)) turns_[index(position.waiter())] = {true, true, *handed_over};
    }

    [[nodiscard]] const Position& position() const noexcept { return position_; }
    [[nodiscard]] const Options& options() const noexcept { return options_; }
    [[nodiscard]] const Turn& turn(Side side) const noexcept { return turns_[index(side)]; }

    /// Precondition: `turn(side).exists`.
    [[nodiscard]] const JudgedMoves& judged(Side side) const noexcept {
        auto& judged = judged_[index(side)];
        if (!judged) judge(turn(side).position, judged.emplace());
        return *judged;
    }

  private:
    void judge(const Position& position, JudgedMoves& judged) const noexcept {
        judged.moves = legal_moves(position);
        bool any = false;
        const auto ask_all = [&](int threshold) {
            for (std::size_t at = 0; at < judged.moves.size(); ++at) {
                const Verdict verdict =
                    move_keeps(position, judged.moves[at], threshold, options_.bound, options_.values);
                judged.safe[at] = verdict.holds;
                judged.decided[at] = verdict.complete;
                any = any || verdict.holds;
            }
        };
        ask_all(0);
        if (any || judged.moves.empty()) return;
        // Something is lost whatever is played: find the least loss. Every mate counts alike here.
        judged.best = -detail::mate_score;
        for (const Move move : judged.moves) {
            const Outcome outcome = value_of_move(position, move, options_.bound, options_.values);
            if (outcome.complete && !outcome.mated) judged.best = std::max(judged.best, outcome.gain);
        }
        ask_all(judged.best);
    }

    Position position_;
    Options options_;
    std::array<Turn, 2> turns_;
    mutable std::array<std::optional<JudgedMoves>, 2> judged_;
};

} // namespace keysquare
