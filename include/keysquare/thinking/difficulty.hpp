// difficulty: what a person has to see in a position, as counts.
#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <span>
#include <string_view>

#include <keysquare/board/bounded_list.hpp>
#include <keysquare/board/list_algorithms.hpp>
#include <keysquare/features/options.hpp>
#include <keysquare/notation/error.hpp>
#include <keysquare/thinking/threats.hpp>

namespace keysquare {

/// Where the line to be seen comes from. Append only.
enum class LineSource : std::uint8_t {
    none,  ///< nothing is to be won, and nothing is lost by doing nothing
    given, ///< the caller gave it
    wins,  ///< the strongest of the side's `threats`
    holds, ///< there is none, but something has to be met
    end_   ///< one past the last
};

/// In snake case, as Python shows it.
[[nodiscard]] constexpr std::string_view name(LineSource source) noexcept {
    constexpr std::string_view names[] = {"none", "given", "wins", "holds"};
    static_assert(std::size(names) == static_cast<std::size_t>(LineSource::end_));
    return names[static_cast<std::size_t>(source)];
}

/// A move is *forcing* when it captures, promotes or gives check, and *quiet* otherwise. No move is longer than seven
/// squares, by the steps of a king; one of four or more is *long*.
inline constexpr int long_distance = 4;

/// One move of the side in the line to be seen, and what there is besides it at that moment.
///
/// *At first sight* a move brings what it takes by itself (`immediate_gain`) minus what the other side then wins by
/// `exchange` on the square of arrival; a mate at once brings more than anything else.
struct LineStep {
    Move move;               ///< the move
    Kind man = Kind::none;   ///< the kind of the man that moves; the king in castling
    bool captures = false;   ///< it takes a man
    bool promotes = false;   ///< a pawn becomes a piece
    bool checks = false;     ///< it gives check
    bool backward = false;   ///< it arrives on a rank nearer to the side's own first rank
    bool recaptures = false; ///< it takes a man where the other side's last move of the line arrived
    bool gives_up = false;   ///< at first sight it brings less than nothing: the man that moves is lost there for less
    int distance = 0;        ///< in steps of a king; 0 in castling
    int legal = 0;           ///< legal moves of the side
    int forcing = 0;         ///< those of them that are forcing
    int tempting = 0;        ///< the others that bring at least as much at first sight
    int replies = 0;         ///< legal moves of the other side after the move
    int forcing_replies = 0; ///< those of them that are forcing

    /// Whether it neither takes, promotes nor checks.
    [[nodiscard]] constexpr bool is_quiet() const noexcept { return !captures && !promotes && !checks; }
    /// Whether it goes far: `long_distance` steps or more.
    [[nodiscard]] constexpr bool is_long() const noexcept { return distance >= long_distance; }
};

/// What one side has to see, all of it counts. See `difficulty`; `difficulty_numbers` lists the counts by name.
struct Difficulty {
    Side side = Side::white; ///< the side that has to see it
    bool has_turn = false;   ///< false when the other side is to move and stands in check: all else is empty then
    bool after_pass = false; ///< the other side is to move, and passes
    Position start;          ///< with `side` to move

    bool checked = false; ///< the side stands in check
    int legal = 0;        ///< its legal moves
    int keeping = 0;      ///< those that keep the material: the safe ones of `JudgedMoves`
    int loss = 0;         ///< what even these lose, in pawns; 0 with `mated`
    bool mated = false;   ///< every move is mated by force; then all of them count as keeping
    int at_stake = 0;     ///< what the other side would win by `resolve` if this one did nothing, in pawns; 0 in check
    bool mate_at_stake = false; ///< it would mate; `at_stake` is 0 then
    int forcing = 0;            ///< legal moves that are forcing
    int winning = 0;            ///< legal moves that win something by `MoveWins`
    int winning_most = 0;       ///< those of them that win the most; every mate counts alike

    LineSource source = LineSource::none; ///< where the line comes from
    Line line;                            ///< the line to be seen
    int gain = 0;                         ///< what it wins for the side, in pawns
    bool mate = false;                    ///< it ends with checkmate by the side
    int deficit = 0; ///< how far the side is behind the start of the line at the worst moment of it, in pawns
    int movers = 0;  ///< how many of its men move in the line
    BoundedList<LineStep, (longest_line + 1) / 2> steps; ///< the side's moves in the line

    /// What the first move of the line comes to by captures and checks alone (`value_of_move`), and how many other
    /// legal moves come to at least as much, to more, and, of the forcing ones, to less. All 0 without a line.
    int shown = 0;            ///< in pawns; 0 with a mate
    bool shown_mate = false;  ///< the side mates
    bool shown_mated = false; ///< the side is mated
    int as_good = 0;          ///< moves that come to at least as much as the first move of the line
    int better = 0;           ///< moves that come to more
    int failing = 0;          ///< forcing moves that come to less

    /// The number of moves of the side in the line for which `holds` is true.
    template <class Holds> [[nodiscard]] int count(Holds holds) const { return detail::count_if(steps, holds); }
    /// The number of moves of the side in the line for which this is true.
    [[nodiscard]] int count(bool LineStep::*holds) const noexcept {
        return detail::count_if(steps, [&](const LineStep& step) { return step.*holds; });
    }
    /// The number of moves of the side in the line for which this is true.
    [[nodiscard]] int count(bool (LineStep::*holds)() const noexcept) const noexcept {
        return detail::count_if(steps, [&](const LineStep& step) { return (step.*holds)(); });
    }
    /// The sum of a count over the moves of the side in the line.
    [[nodiscard]] int sum(int LineStep::*count) const noexcept {
        int total = 0;
        for (const LineStep& step : steps) total += step.*count;
        return total;
    }
    /// A count at the first move of the line; 0 without a line.
    [[nodiscard]] int first(int LineStep::*count) const noexcept { return steps.empty() ? 0 : steps.front().*count; }
};

/// What `side` has to see when it is to move: in the position as it stands, or after a pass of the other side.
///
/// The *line to be seen* is that of the strongest of its `threats`. Where it has none, but stands in check or would
/// lose something (`Options::least_gain`, by `resolve`) by doing nothing, it is that of the move that comes to most by
/// `value_of_move`, the first of equals, unless that is mated too. Either line is cut as soon as the balance is what it
/// is at the end and never falls below that again; a mate is not cut. In all other positions there is no line. What the
/// other side threatens by a quiet move (`threats`, `parries`) is not looked at.
///
/// Costs about one `threats`, one `JudgedMoves`, up to two `move_keeps` for each legal move, and an exchange for each
/// legal move at each turn of the side in the line: about a third of a millisecond.
[[nodiscard]] Difficulty difficulty(const Position& position, Side side, const Options& options = {});

/// The same with the line that is to be seen given: the solution of an exercise, say. It starts with a move of
/// `side`, the sides move in turn, and it is not cut. Without a move there is nothing to be seen.
///
/// Errors, with `Field::step`, the number of the move as `line` and the column in its text:
/// - `line_too_long`: more than `longest_line` moves (`line` is then the first one too many);
/// - `pass_in_check`: the other side would have to pass first, and stands in check;
/// - what `read_move` says of the text (`ambiguous_move`, `no_such_piece`, ...), or `illegal_move` for a `Move`.
[[nodiscard]] Result<Difficulty> difficulty(const Position& position, Side side, std::span<const Move> line,
                                            const Options& options = {});
/// The same with the line as text, in SAN or coordinates.
[[nodiscard]] Result<Difficulty> difficulty(const Position& position, Side side, std::span<const std::string_view> line,
                                            const Options& options = {});

/// One count of a `Difficulty`, for tables and statistics.
struct DifficultyNumber {
    std::string_view name;        ///< snake case, unique
    std::string_view definition;  ///< in words that two people would compute alike
    int (*of)(const Difficulty&); ///< gives the count
};

/// All counts, in a fixed order; new ones are appended. Yes is 1, no is 0.
[[nodiscard]] std::span<const DifficultyNumber> difficulty_numbers() noexcept;

} // namespace keysquare
