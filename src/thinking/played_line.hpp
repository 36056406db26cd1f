// PlayedLine: the main line of a game with what could be won on the way.
#pragma once

#include <vector>

#include <keysquare/notation/game.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare::detail {

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

} // namespace keysquare::detail
