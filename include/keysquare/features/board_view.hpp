// BoardView: one position seen by both sides, with the work that several features share done once: pins, attacks, pawns,
// guards, control of squares, judged and winning moves.
#pragma once

#include <array>
#include <optional>

#include <keysquare/features/attack_map.hpp>
#include <keysquare/features/duty.hpp>
#include <keysquare/features/finding.hpp>
#include <keysquare/features/judged_moves.hpp>
#include <keysquare/features/man_safety.hpp>
#include <keysquare/features/pawn_structure.hpp>
#include <keysquare/features/square_control.hpp>
#include <keysquare/features/winning_moves.hpp>
#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

namespace detail {

/// What is worked out for each side when it is asked for. No array: GCC 12 sets all bytes of an array of optionals to 0.
template <class T> struct BySide {
    std::optional<T> of_white;
    std::optional<T> of_black;

    [[nodiscard]] std::optional<T>& operator[](Side side) noexcept { return side == Side::white ? of_white : of_black; }
};

} // namespace detail

/// One side's turn in the position: as it is for the mover, after a pass for the waiter.
struct Turn {
    bool exists = false;     ///< false for the waiter when the mover is in check: a pass would be illegal
    bool after_pass = false; ///< the mover passes first: it is the waiter's turn
    Position position;       ///< with the side to move
};

/// A position, its two turns, and what features share about it. Cheap to make; everything else is worked out when it is
/// first asked for, and kept, so one view belongs to one thread. It does not move: judged moves refer to it.
class BoardView {
  public:
    /// Looks for pins and the turns of both sides. Position and options are copied. Precondition: both sides have a
    /// king.
    explicit BoardView(const Position& position, const Options& options = {}) noexcept
        : position_(position), options_(options) {
        turns_[index(position.mover())] = {true, false, position};
        if (const auto handed_over = passed(position)) turns_[index(position.waiter())] = {true, true, *handed_over};
    }
    BoardView(const BoardView&) = delete;
    BoardView& operator=(const BoardView&) = delete;
    ~BoardView() = default;

    /// The position as it is.
    [[nodiscard]] const Position& position() const noexcept { return position_; }
    /// What it was told when it was made.
    [[nodiscard]] const Options& options() const noexcept { return options_; }
    /// The turn of a side; look at `Turn::exists` first.
    [[nodiscard]] const Turn& turn(Side side) const noexcept { return turns_[index(side)]; }

    /// The men of `side` that are pinned to their king.
    [[nodiscard]] Squares pinned(Side side) const noexcept { return pinned_[index(side)]; }

    /// The pawns of both sides.
    [[nodiscard]] const PawnStructure& pawns() const noexcept {
        if (!pawns_) pawns_ = pawn_structure(position_);
        return *pawns_;
    }
    /// What both sides attack.
    [[nodiscard]] const AttackMap& attacks() const noexcept {
        if (!attacks_) attacks_ = attack_map(position_);
        return *attacks_;
    }
    /// Who holds and who denies which squares.
    [[nodiscard]] const SquareControl& control() const noexcept {
        if (!control_) control_ = square_control(position_, options_);
        return *control_;
    }

    /// The duties of the men of `owner`; none where the other side has no turn.
    [[nodiscard]] const Duties& duties(Side owner) const {
        auto& duties = duties_[owner];
        if (!duties) {
            duties.emplace();
            if (const Turn& taker = turn(other(owner)); taker.exists) find_duties_of(taker.position, *duties, options_);
        }
        return *duties;
    }

    /// Precondition: `turn(side).exists`.
    [[nodiscard]] const JudgedMoves& judged(Side side) const noexcept {
        auto& judged = judged_[side];
        if (!judged) judged.emplace(turn(side).position, options_);
        return *judged;
    }

    /// Precondition: `turn(side).exists`.
    [[nodiscard]] const WinningMoves& winning(Side side) const noexcept {
        auto& winning = winning_[side];
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
    std::array<Squares, 2> pinned_{pinned_men(position_, Side::white), pinned_men(position_, Side::black)};
    mutable std::optional<PawnStructure> pawns_;
    mutable std::optional<AttackMap> attacks_;
    mutable std::optional<SquareControl> control_;
    mutable detail::BySide<Duties> duties_;
    mutable detail::BySide<JudgedMoves> judged_;
    mutable detail::BySide<WinningMoves> winning_;
    mutable BoundedList<KnownSafety, 32> safeties_;
};

} // namespace keysquare
