// The calculations that claims rest on.
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;

Squares targets(const Position& position) { return position.men(position.waiter()) & ~position.men(Kind::king); }

} // namespace

void bench::describe(Operations& operations) {
    operations.add("exchange", "man", tactical_positions, [](const Position& position) {
        for (const Square square : targets(position)) benchmark::DoNotOptimize(exchange(position, square));
        return targets(position).count();
    });
    operations.add("exchange_wins", "man", tactical_positions, [](const Position& position) {
        for (const Square square : targets(position)) benchmark::DoNotOptimize(exchange_wins(position, square, 1));
        return targets(position).count();
    });
    operations.add("resolve", "position", tactical_positions,
                   [](const Position& position) { benchmark::DoNotOptimize(resolve(position)); });
    operations.add("resolve_wins", "position", tactical_positions,
                   [](const Position& position) { benchmark::DoNotOptimize(resolve_wins(position, 1)); });
    operations.add("move_keeps", "move", tactical_positions, [](const Position& position) {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) benchmark::DoNotOptimize(move_keeps(position, move, 0));
        return moves.size();
    });
}
