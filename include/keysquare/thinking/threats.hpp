// threats: what a side would do if it were to move.
#pragma once

#include <utility>
#include <vector>

#include <keysquare/thinking/move_wins.hpp>

namespace keysquare {

/// One thing that a side would win if it were to move, with the move that wins most of it.
struct Threat {
    Side side = Side::white;      ///< the side that threatens
    bool after_pass = false;      ///< the line starts from the position with the move handed over
    bool mate = false;            ///< the line ends in checkmate by `side`
    int gain = 0;                 ///< what the line wins for `side`, in pawns
    Square target = Square::none; ///< see `target_of`
    Squares squares;              ///< where the men stand that `side` takes on the line, and the king that is mated
    Line line;                    ///< the move and the best replies

    /// Whether all of it is equal.
    friend bool operator==(const Threat&, const Threat&) noexcept = default;
};

/// Threats of one side. Keeps its room when cleared and used again.
using Threats = std::vector<Threat>;

/// The threats of `side`: of the waiter after a pass, none while the mover is in check; of the mover, what it can do at
/// once. Every legal move that wins at least `Options::least_gain` (`MoveWins`) is one, except that
/// - with a mate, only the shortest lines that mate are left of those that mate;
/// - of threats that are the same (`is_same_threat`), only the strongest is left.
/// Strongest first: mates before other gains; of mates the shorter line, then more gain; of other gains the larger,
/// then the shorter line; then the order of `legal_moves`.
void threats(const Position& position, Side side, Threats& found, const Options& options = {});
/// The same as a value of its own.
[[nodiscard]] Threats threats(const Position& position, Side side, const Options& options = {});
/// Those of the waiter.
[[nodiscard]] Threats threats(const Position& position, const Options& options = {});

/// What a line that starts in `start` is aimed at: the square of the first man that the side of the first move takes,
/// or on which it promotes without taking; for a mate, the square where the last move arrives.
[[nodiscard]] Square target_of(const Position& start, const Line& line, bool mate) noexcept;

/// Whether two threats of one side in one position are the same: both mate or neither, and they have the same target,
/// or the moves of their side are the same ones in another order.
[[nodiscard]] bool is_same_threat(const Threat& a, const Threat& b) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The square of the man that a capture takes.
inline Square taken_on(const Position& position, Move move) noexcept {
    const int back = move.type() == MoveType::en_passant ? advance_of(position.mover()) : 0;
    return square_at(index(move.target()) - back);
}

/// Where the men stand that the first mover of the line takes, and the king that it mates.
inline Squares taken_by_line(const Position& start, const Line& line, bool mate) noexcept {
    Squares taken;
    Position position = start;
    for (const Move move : line) {
        if (position.mover() == start.mover() && captured_by(position, move) != Kind::none)
            taken |= Squares{taken_on(position, move)};
        position = after(position, move);
    }
    return mate ? taken.with(position.king(position.mover())) : taken;
}

inline bool is_stronger(const Threat& a, const Threat& b) noexcept {
    if (a.mate != b.mate) return a.mate;
    if (!a.mate && a.gain != b.gain) return a.gain > b.gain;
    if (a.line.size() != b.line.size()) return a.line.size() < b.line.size();
    return a.gain > b.gain;
}

/// Puts the threat before the weaker ones, behind its equals.
inline void insert_in_order(const Threat& threat, Threats& found) {
    found.push_back(threat);
    for (std::size_t at = found.size(); --at > 0 && is_stronger(found[at], found[at - 1]);)
        std::swap(found[at], found[at - 1]);
}

/// Leaves the shortest mates and, of threats that are the same, the first.
inline void leave_different_ones(Threats& found) {
    std::size_t kept = 0;
    for (std::size_t at = 0; at < found.size(); ++at) {
        const Threat& threat = found[at];
        bool known = threat.mate && threat.line.size() > found.front().line.size();
        for (std::size_t before = 0; before < kept && !known; ++before) known = is_same_threat(found[before], threat);
        if (known) continue;
        if (kept != at) found[kept] = found[at];
        ++kept;
    }
    found.erase(found.begin() + static_cast<std::ptrdiff_t>(kept), found.end());
}

/// What the mover of `turn` wins, as a threat.
inline Threat threat_in(const Position& turn, bool after_pass, const Outcome& won) noexcept {
    return {turn.mover(),
            after_pass,
            won.mate,
            won.gain,
            target_of(turn, won.line, won.mate),
            taken_by_line(turn, won.line, won.mate),
            won.line};
}

/// The threats of the mover of `turn`, which is the position as it stands or after a pass.
inline void threats_in(const Position& turn, bool after_pass, Threats& found, const Options& options) {
    found.clear();
    const MoveWins wins{turn, options.least_gain, options};
    for (const Move move : wins.moves()) {
        const Outcome outcome = wins.win(move);
        if (outcome.line.empty()) continue;
        insert_in_order(threat_in(turn, after_pass, outcome), found);
    }
    leave_different_ones(found);
}

} // namespace detail

inline void threats(const Position& position, Side side, Threats& found, const Options& options) {
    found.clear();
    if (side == position.mover())
        detail::threats_in(position, false, found, options);
    else if (const auto handed_over = passed(position))
        detail::threats_in(*handed_over, true, found, options);
}

inline Threats threats(const Position& position, Side side, const Options& options) {
    Threats found;
    threats(position, side, found, options);
    return found;
}

inline Threats threats(const Position& position, const Options& options) {
    return threats(position, position.waiter(), options);
}

inline Square target_of(const Position& start, const Line& line, bool mate) noexcept {
    Position position = start;
    Square arrived = Square::none;
    for (const Move move : line) {
        if (!mate && position.mover() == start.mover()) {
            if (captured_by(position, move) != Kind::none) return detail::taken_on(position, move);
            if (move.promotes()) return move.target();
        }
        position = after(position, move);
        arrived = move.target();
    }
    return mate ? arrived : Square::none;
}

inline bool is_same_threat(const Threat& a, const Threat& b) noexcept {
    if (a.mate != b.mate) return false;
    if (a.target == b.target) return true;
    const auto own_moves = [](const Line& line) {
        BoundedList<std::uint16_t, longest_line> own;
        for (std::size_t at = 0; at < line.size(); at += 2) own.push_back(line[at].bits());
        detail::sort_few(own, [](std::uint16_t one, std::uint16_t next) { return one < next; });
        return own;
    };
    return own_moves(a.line) == own_moves(b.line);
}

} // namespace keysquare
