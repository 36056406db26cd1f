// The rules and FEN.
#include <stdexcept>

#include <keysquare/board/perft.hpp>

#include "inputs.hpp"
#include "slider_methods.hpp"

namespace {

using namespace keysquare;
using bench::Purpose;

std::uint64_t count_leaves(const bench::PerftCase& test) {
    if (perft(test.position, test.depth) != test.leaves) throw std::runtime_error{"wrong leaf count for " + test.name};
    return test.leaves;
}

/// What all sliders of a position attack, by one of the methods.
template <class Rook, class Bishop> int attack_all(const Position& position, Rook rook, Bishop bishop) {
    const Squares queens = position.men(Kind::queen);
    const Squares straight = position.men(Kind::rook) | queens;
    const Squares slanting = position.men(Kind::bishop) | queens;
    Squares attacked;
    for (const Square from : straight) attacked ^= rook(from, position.occupied());
    for (const Square from : slanting) attacked ^= bishop(from, position.occupied());
    benchmark::DoNotOptimize(attacked);
    return straight.count() + slanting.count();
}

/// Which of them is used is decided by board/attacks.hpp; bench/slider_methods.hpp has the others.
void add_sliders(bench::Operations& operations) {
    using bench::ObstructionDifference;
    operations.add("sliders/4_kB", "slider", bench::tactical_positions, [](const Position& position) {
        return attack_all(position, ObstructionDifference::rook, ObstructionDifference::bishop);
    });
    operations.add("sliders/10_kB_in_use", "slider", bench::tactical_positions, [](const Position& position) {
        return attack_all(
            position, [](Square from, Squares occupied) { return rook_attacks(from, occupied); },
            [](Square from, Squares occupied) { return bishop_attacks(from, occupied); });
    });
    operations.add("sliders/840_kB", "slider", bench::tactical_positions, [](const Position& position) {
        static const bench::WholeBoardTables tables;
        return attack_all(
            position, [](Square from, Squares occupied) { return tables.rook(from, occupied); },
            [](Square from, Squares occupied) { return tables.bishop(from, occupied); });
    });
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
    add_sliders(operations);
}
