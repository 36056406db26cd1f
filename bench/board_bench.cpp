// The rules and FEN.
#include <stdexcept>

#include <keysquare/board/perft.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::Purpose;

std::uint64_t count_leaves(const bench::PerftCase& test) {
    if (perft(test.position, test.depth) != test.leaves) throw std::runtime_error{"wrong leaf count for " + test.name};
    return test.leaves;
}

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    for (std::size_t at = 0; at < perft_cases(Purpose::timing).size(); ++at) {
        const auto one = [at](Purpose purpose) { return std::vector{perft_cases(purpose)[at]}; };
        operations.add("perft/" + one(Purpose::timing).front().name, "leaf", one, count_leaves);
    }
    operations.add("perft/game_positions", "leaf", game_positions,
                   [](const Position& position) { return perft(position, 3); });

    operations.unit = benchmark::kMicrosecond;
    operations.add("legal_moves", "move", tactical_positions, [](const Position& position) {
        const MoveList moves = legal_moves(position);
        benchmark::DoNotOptimize(moves);
        return moves.size();
    });
    operations.add("is_mated", "position", tactical_positions,
                   [](const Position& position) { benchmark::DoNotOptimize(is_mated(position)); });
    operations.add("read_fen", "position", tactical_fens,
                   [](const std::string& text) { benchmark::DoNotOptimize(read_fen(text)); });
    operations.add("write_fen", "position", tactical_positions,
                   [](const Position& position) { benchmark::DoNotOptimize(fen(position)); });
}
