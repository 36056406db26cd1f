#include "threat_parts.hpp"

#include <utility>

namespace keysquare::detail {

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

} // namespace keysquare::detail
