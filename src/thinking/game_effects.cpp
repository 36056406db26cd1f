#include <keysquare/thinking/game_effects.hpp>

#include "played_line.hpp"

namespace keysquare {

std::vector<MoveEffects> game_effects(const Game& game, const Options& options) {
    const detail::PlayedLine line{game, options};
    return move_effects(line.positions, line.moves, options);
}

} // namespace keysquare
