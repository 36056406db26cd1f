// Mates in one and in two, exactly.
#pragma once

#include <keysquare/tactics/forcing_moves.hpp>
#include <keysquare/tactics/values.hpp>

namespace keysquare {

/// The legal moves that mate at once, in the order of `checking_moves`. Some tenths of a microsecond.
[[nodiscard]] MoveList mating_moves(const Position& position) noexcept;

/// Whether some legal move mates at once.
[[nodiscard]] bool has_mating_move(const Position& position) noexcept;

/// The line of a mate in two that starts with `move`: the move, the first reply in the order of
/// `legal_moves`, the mate. No line when some reply is not mated at once, or when the other side has no reply.
[[nodiscard]] Line mate_in_two(const Position& position, Move move) noexcept;

// ---------------------------------------------------------------------------------------------------------------------

inline MoveList mating_moves(const Position& position) noexcept {
    MoveList mates;
    for (const Move move : checking_moves(position))
        if (!has_legal_move(after(position, move))) mates.push_back(move);
    return mates;
}

inline bool has_mating_move(const Position& position) noexcept {
    return detail::any_of(checking_moves(position), [&](Move move) { return !has_legal_move(after(position, move)); });
}

inline Line mate_in_two(const Position& position, Move move) noexcept {
    const Position moved = after(position, move);
    Line line;
    for (const Move reply : legal_moves(moved)) {
        const Position replied = after(moved, reply);
        if (!has_mating_move(replied)) return {};
        if (line.empty()) line = {move, reply, mating_moves(replied).front()};
    }
    return line;
}

} // namespace keysquare
