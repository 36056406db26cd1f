// What threats are made of: the men that a line takes, and the order in which threats are listed.
#pragma once

#include <keysquare/thinking/threats.hpp>

namespace keysquare::detail {

/// The square of the man that a capture takes.
[[nodiscard]] Square taken_on(const Position& position, Move move) noexcept;

/// Where the men stand that the first mover of the line takes, and the king that it mates.
[[nodiscard]] Squares taken_by_line(const Position& start, const Line& line, bool mate) noexcept;

/// Whether `a` stands before `b` in a list of threats.
[[nodiscard]] bool is_stronger(const Threat& a, const Threat& b) noexcept;

/// Puts the threat before the weaker ones, behind its equals.
void insert_in_order(const Threat& threat, Threats& found);

/// Leaves the shortest mates and, of threats that are the same, the first.
void leave_different_ones(Threats& found);

/// What the mover of `turn` wins, as a threat.
[[nodiscard]] Threat threat_in(const Position& turn, bool after_pass, const Outcome& won) noexcept;

} // namespace keysquare::detail
