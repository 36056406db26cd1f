// game_effects: what the moves of a game did about what could be won. (Part of keysquare::keysquare, as games are.)
#pragma once

#include <vector>

#include <keysquare/notation/game.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// The effects of the moves of the main line, in order; a null move ends it. The part of a game report that statistics
/// need, at half the cost.
[[nodiscard]] std::vector<MoveEffects> game_effects(const Game& game, const Options& options = {});

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The moves of the main line with their nodes, up to a null move.
struct PlayedLine {
    std::vector<StepIndex> steps;
    std::vector<Move> moves;
    std::vector<Prospects> positions; ///< one more than moves

    PlayedLine(const Game& game, const Options& options) {
        positions.emplace_back(game.start(), options);
        for (StepIndex at = game.step(root_step).first_child; at != root_step; at = game.step(at).first_child) {
            const Move move = game.step(at).move;
            if (!move) break;
            steps.push_back(at);
            moves.push_back(move);
            positions.emplace_back(after(positions.back().position(), move), options);
        }
    }
};

} // namespace detail

inline std::vector<MoveEffects> game_effects(const Game& game, const Options& options) {
    const detail::PlayedLine line{game, options};
    return move_effects(line.positions, line.moves, options);
}

} // namespace keysquare
