// GameState: what the Laws of Chess say of a position because of the moves that led to it. (Part of
// keysquare::keysquare, as games are.)
#pragma once

#include <vector>

#include <keysquare/board/legal.hpp>
#include <keysquare/notation/game.hpp>

namespace keysquare {

/// Whether two positions are the same by the Laws of Chess (9.2.3): the same men on the same squares, the same mover,
/// and the same possible moves: castling rights count, an en passant square only when a capture there is legal.
[[nodiscard]] bool is_same_by_laws(const Position& a, const Position& b) noexcept;

/// Whether neither side can mate by any moves, in the cases that are sure (Laws 5.2.2): bare kings, one knight or bishop
/// beside them, or any number of bishops that all go on squares of one colour. Others, such as walls of pawns, are not
/// looked for.
[[nodiscard]] bool is_dead_by_material(const Position& position) noexcept;

/// How the game stands at a position. Article numbers are those of the FIDE Laws of Chess of 2023.
struct GameState {
    Side mover = Side::white;         ///< the side to move
    int occurrences = 1;              ///< of the position, this one included (9.2.3); not those before a null move
    int quiet_plies = 0;              ///< since the last pawn move or capture, those before the start position included
    bool mover_is_mated = false;      ///< (5.1.1)
    bool mover_is_stalemated = false; ///< (5.2.1)
    bool has_occurred_five_times = false; ///< the game is drawn: the position has occurred five times (9.6.1)
    bool is_quiet_for_75_moves = false;   ///< the game is drawn: 150 quiet plies, the last one no checkmate (9.6.2)
    bool is_dead = false;                 ///< the game is drawn: `is_dead_by_material`
    /// The mover may claim a draw as the position has occurred three times (9.2.2), or has a move to claim it with, after
    /// which one will have (9.2.1): these moves are `repeating_moves`.
    bool claimable_by_repetition = false;
    /// The mover may claim a draw by 100 quiet plies (9.3.2), or has a move to claim it with that makes them 100 (9.3.1).
    bool claimable_by_quiet_moves = false;
    std::vector<Move> repeating_moves; ///< moves by which the mover may claim a repetition

    /// Whether the game has ended here by the Laws, claimed or not.
    [[nodiscard]] bool is_over() const noexcept {
        return mover_is_mated || mover_is_stalemated || has_occurred_five_times || is_quiet_for_75_moves || is_dead;
    }
    /// Whether all of it is equal.
    friend bool operator==(const GameState&, const GameState&) = default;
};

/// The state at a node, by its own path from the root. Takes time for that path.
[[nodiscard]] GameState game_state(const Game& game, StepIndex at);
/// The states along the game as it was played: of the start position, then after each move. One pass: the time grows
/// with the number of moves.
[[nodiscard]] std::vector<GameState> game_states(const Game& game);

} // namespace keysquare
