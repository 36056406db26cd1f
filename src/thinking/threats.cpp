#include <keysquare/thinking/threats.hpp>

#include <cstdint>

#include <keysquare/thinking/move_wins.hpp>

#include "threat_parts.hpp"

namespace keysquare {

namespace {

/// The threats of the mover of `turn`, which is the position as it stands or after a pass.
void threats_in(const Position& turn, bool after_pass, Threats& found, const Options& options) {
    found.clear();
    const MoveWins wins{turn, options.least_gain, options};
    for (const Move move : wins.moves()) {
        const Outcome outcome = wins.win(move);
        if (outcome.line.empty()) continue;
        detail::insert_in_order(detail::threat_in(turn, after_pass, outcome), found);
    }
    detail::leave_different_ones(found);
}

} // namespace

void threats(const Position& position, Side side, Threats& found, const Options& options) {
    found.clear();
    if (side == position.mover())
        threats_in(position, false, found, options);
    else if (const auto handed_over = passed(position))
        threats_in(*handed_over, true, found, options);
}

Threats threats(const Position& position, Side side, const Options& options) {
    Threats found;
    threats(position, side, found, options);
    return found;
}

Threats threats(const Position& position, const Options& options) {
    return threats(position, position.waiter(), options);
}

Square target_of(const Position& start, const Line& line, bool mate) noexcept {
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

bool is_same_threat(const Threat& a, const Threat& b) noexcept {
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
