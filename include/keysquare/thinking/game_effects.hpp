// game_effects: what the moves of a game did about what could be won.
#pragma once

#include <vector>

#include <keysquare/notation/game.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// The effects of the moves of the main line, in order; a null move ends it. The part of a game report that statistics
/// need, at half the cost.
[[nodiscard]] std::vector<MoveEffects> game_effects(const Game& game, const Options& options = {});

} // namespace keysquare
