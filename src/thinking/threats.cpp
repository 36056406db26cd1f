#include <keysquare/thinking/threats.hpp>

#include <utility>

#include <keysquare/thinking/move_wins.hpp>

#include "threat_parts.hpp"

namespace keysquare {

namespace detail {

Square taken_on(const Position& position, Move move) noexcept {
    const int back = move.type() == MoveType::en_passant ? advance_of(position.mover()) : 0;
    return square_at(index(move.target()) - back);
}

Squares taken_by_line(const Position& start, const Line& line, bool mate) noexcept {
    Squares taken;
    Position position = start;
    for (const Move move : line) {
        if (position.mover() == start.mover() && captured_by(position, move) != Kind::none)
            taken |= Squares{taken_on(position, move)};
        position = after(position, move);
    }
    return mate ? taken.with(position.king(position.mover())) : taken;
}

bool is_stronger(const Threat& a, const Threat& b) noexcept {
    if (a.mate != b.mate) return a.mate;
    if (!a.mate && a.gain != b.gain) return a.gain > b.gain;
    if (a.line.size() != b.line.size()) return a.line.size() < b.line.size();
    return a.gain > b.gain;
}

void insert_in_order(const Threat& threat, Threats& found) {
    found.push_back(threat);
    for (std::size_t at = found.size(); --at > 0 && is_stronger(found[at], found[at - 1]);)
        std::swap(found[at], found[at - 1]);
}

void leave_different_ones(Threats& found) {
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

Threat threat_in(const Position& turn, bool after_pass, const Outcome& won) noexcept {
    return {turn.mover(),
            after_pass,
            won.mate,
            won.gain,
            target_of(turn, won.line, won.mate),
            taken_by_line(turn, won.line, won.mate),
            won.line};
}

namespace {

/// The threats of the mover of `turn`, which is the position as it stands or after a pass.
void threats_in(const Position& turn, bool after_pass, Threats& found, const Options& options) {
    found.clear();
    const MoveWins wins{turn, options.least_gain, options};
    for (const Move move : wins.moves()) {
        const Outcome outcome = wins.win(move);
        if (outcome.line.empty()) continue;
        insert_in_order(threat_in(turn, after_pass, outcome), found);
    }
    leave_different_ones(found);
}

} // namespace
} // namespace detail

void threats(const Position& position, Side side, Threats& found, const Options& options) {
    found.clear();
    if (side == position.mover())
        detail::threats_in(position, false, found, options);
    else if (const auto handed_over = passed(position))
        detail::threats_in(*handed_over, true, found, options);
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
