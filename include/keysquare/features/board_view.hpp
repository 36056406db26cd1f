// BoardView: one position seen by both sides, with the work that several features share done once.
#pragma once

#include <array>
#include <optional>

#include <keysquare/features/finding.hpp>
#include <keysquare/features/judged_moves.hpp>
#include <keysquare/features/man_safety.hpp>
#include <keysquare/features/winning_moves.hpp>
#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

/// One side's turn in the position: as it is for the mover, after a pass for the waiter.
struct Turn {
    bool exists = false; ///< false for the waiter when the mover is in check: a pass would be illegal
    bool after_pass = false;
    Position position; ///< with the side to move
};

/// A position, its two turns and its judged moves. Cheap to make; the judged moves are worked out when they are asked
/// for, so one view belongs to one thread. It does not move: judged moves refer to it.
class BoardView {
  public:
    explicit BoardView(const Position& position, const Options& options = {}) noexcept
        : position_(position), options_(options) {
        turns_[index(position.mover())] = {true, false, position};
        if (const auto handed_over = passed(position)) turns_[index(position.waiter())] = {true, true, *handed_over};
    }
    BoardView(const BoardView&) = delete;
    BoardView& operator=(const BoardView&) = delete;
    ~BoardView() = default;

    [[nodiscard]] const Position& position() const noexcept { return position_; }
    [[nodiscard]] const Options& options() const noexcept { return options_; }
    [[nodiscard]] const Turn& turn(Side side) const noexcept { return turns_[index(side)]; }

    /// Precondition: `turn(side).exists`.
    [[nodiscard]] const JudgedMoves& judged(Side side) const noexcept {
        auto& judged = judged_[index(side)];
        if (!judged) judged.emplace(turn(side).position, options_);
        return *judged;
    }

    /// Precondition: `turn(side).exists`.
    [[nodiscard]] const WinningMoves& winning(Side side) const noexcept {
        auto& winning = winning_[index(side)];
        if (!winning) winning.emplace(turn(side).position, gained_anyway(side), options_);
        return *winning;
    }

    /// The safety of a man other than a king. Precondition: the other side's turn exists.
    [[nodiscard]] SafetyOfMan safety(Square square) const {
        const Position& taker_to_move = turn(other(position_.piece_at(square).side)).position;
        if (!exchange_wins(taker_to_move, square, options_.least_gain, options_.values)) return {};
        for (const auto& [known, safety] : safeties_)
            if (known == square) return safety;
        safeties_.push_back({square, safety_of(taker_to_move, square, options_)});
        return safeties_.back().safety;
    }

  private:
    struct KnownSafety {
        Square square = Square::none;
        SafetyOfMan safety;
    };

    /// What `side` gains whatever it plays: the other side, if it were to move, could not keep more.
    [[nodiscard]] int gained_anyway(Side side) const noexcept {
        return turn(other(side)).exists ? -judged(other(side)).best() : 0;
    }

    Position position_;
    Options options_;
    std::array<Turn, 2> turns_;
    mutable std::array<std::optional<JudgedMoves>, 2> judged_;
    mutable std::array<std::optional<WinningMoves>, 2> winning_;
    mutable BoundedList<KnownSafety, 32> safeties_;
};

} // namespace keysquare
