// What a piece is worth, what a line wins, and how far a search may look.
#pragma once

#include <array>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/board/legal.hpp>

namespace keysquare {

/// Piece values in pawns (common practice, no source). A parameter everywhere; whoever wants finer steps scales all of
/// them, and reads every gain in the scaled unit.
struct Values {
    std::array<int, 7> of{1, 3, 3, 5, 9, 0, 0}; ///< by kind; the king and `none` have no value of their own

    /// The value of a kind.
    [[nodiscard]] constexpr int operator[](Kind kind) const noexcept { return of[index(kind)]; }
    /// Whether all of it is equal.
    friend constexpr bool operator==(const Values&, const Values&) noexcept = default;
};

/// How far `resolve` looks. The same numbers mean the same tree, on every machine.
struct Bound {
    int plies = 12;      ///< no line is longer
    int check_plies = 3; ///< quiet checks are tried on the first this many plies
    int nodes = 50'000;  ///< positions looked at before the search gives up and says so

    /// Whether all of it is equal.
    friend constexpr bool operator==(const Bound&, const Bound&) noexcept = default;
};

/// The longest line that an answer or a finding can hold; no sequence of captures is longer (30 men to take).
inline constexpr std::size_t longest_line = 32;

/// Legal moves in turn, from the position that they belong to.
using Line = BoundedList<Move, longest_line>;

/// What a calculation found for the side to move.
struct Outcome {
    int gain = 0;         ///< material balance at the end of the line minus the balance at its start
    bool mate = false;    ///< the line ends with checkmate by the side to move
    bool mated = false;   ///< the line ends with checkmate of the side to move
    bool complete = true; ///< false when the node bound stopped the search: then the rest means nothing
    Line line;            ///< the moves, the best reply to each
};

/// The outcome of the line that begins with `move`, which wins `won` by itself, for the side whose outcome the rest is.
[[nodiscard]] inline Outcome preceded_by(Move move, int won, Outcome rest) noexcept {
    if (rest.line.size() == rest.line.capacity()) rest.line.pop_back();
    rest.line.insert(rest.line.begin(), move);
    rest.gain += won;
    return rest;
}

/// What a move wins by itself: the captured man and the promotion.
[[nodiscard]] inline int immediate_gain(const Position& position, Move move, const Values& values) noexcept {
    const int promotion = move.promotes() ? values[move.promotion()] - values[Kind::pawn] : 0;
    return values[captured_by(position, move)] + promotion;
}

/// Material of `side` minus that of the other side.
[[nodiscard]] inline int balance(const Position& position, Side side, const Values& values) noexcept {
    int sum = 0;
    for (const Kind kind : all_kinds)
        sum += values[kind] * (position.men(side, kind).count() - position.men(other(side), kind).count());
    return sum;
}

} // namespace keysquare
