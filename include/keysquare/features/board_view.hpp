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

/// The legal moves of one side, and which of them keep what the side has, by `value_of_move`.
///
/// - `best`: the most that any move keeps, at most 0. A move is *safe* when it keeps at least `best`. So where
/// something is
///   lost anyway, the moves that lose least are the safe ones, and a quiet move is not unsafe just because a capture
///   was there to be made.
/// - `standing`: what the side keeps when it does nothing (minus `resolve` with the move handed over), at most 0; 0
/// where
///   it is in check. A move *loses* when it keeps less than both: a move that merely leaves an existing threat
///   unanswered is unsafe, but does not lose anything by itself.
/// A move whose search hit the node bound is neither safe nor losing.
struct JudgedMoves {
    MoveList moves;
    int best = 0;
    int standing = 0;

    /// What a losing move falls short of.
    [[nodiscard]] int baseline() const noexcept { return (std::min)(best, standing); }
    [[nodiscard]] bool is_safe(std::size_t at) const noexcept { return verdicts[at] == safe; }
    [[nodiscard]] bool loses(std::size_t at) const noexcept { return verdicts[at] == losing; }

    enum Judgement : std::uint8_t { undecided, safe, neglecting, losing };
    std::array<Judgement, most_moves> verdicts{};
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
        judged.best = least_loss(position, judged.moves);
        if (!in_check(position)) {
            const Outcome taken = resolve(turned(position), options_.bound, options_.values);
            if (taken.complete) judged.standing = taken.mate ? -detail::mate_line : (std::min)(0, -taken.gain);
        }
        for (std::size_t at = 0; at < judged.moves.size(); ++at)
            judged.verdicts[at] = judgement(position, judged.moves[at], judged);
    }

    /// The most that any move keeps, at most 0; the mated side's moves count alike.
    [[nodiscard]] int least_loss(const Position& position, const MoveList& moves) const noexcept {
        for (const Move move : moves)
            if (move_keeps(position, move, 0, options_.bound, options_.values).holds) return 0;
        int best = -detail::mate_line;
        for (const Move move : moves) {
            const Outcome outcome = value_of_move(position, move, options_.bound, options_.values);
            if (outcome.complete && !outcome.mated) best = (std::max)(best, outcome.gain);
        }
        return best;
    }

    [[nodiscard]] JudgedMoves::Judgement judgement(const Position& position, Move move,
                                                   const JudgedMoves& judged) const noexcept {
        if (judged.best <= -detail::mate_line) return JudgedMoves::safe; // mated whatever is played
        const Verdict kept = move_keeps(position, move, judged.best, options_.bound, options_.values);
        if (kept.holds) return JudgedMoves::safe;
        if (!kept.complete) return JudgedMoves::undecided;
        if (judged.standing >= judged.best) return JudgedMoves::losing;
        if (judged.standing <= -detail::mate_line) return JudgedMoves::neglecting; // nothing is worse than that mate
        const Verdict stands = move_keeps(position, move, judged.standing, options_.bound, options_.values);
        if (!stands.complete) return JudgedMoves::undecided;
        return stands.holds ? JudgedMoves::neglecting : JudgedMoves::losing;
    }

    Position position_;
    Options options_;
    std::array<Turn, 2> turns_;
    mutable std::array<std::optional<JudgedMoves>, 2> judged_;
};

} // namespace keysquare
