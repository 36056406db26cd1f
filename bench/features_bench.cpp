// Each feature by itself, then all findings and their sentences, and the numeric vector. What a feature shares with
// others (the view, the guard duties) is part of it, as it is for somebody who asks for that feature alone.
#include <span>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/explain.hpp>

#include "inputs.hpp"

namespace {

using namespace keysquare;
using bench::game_positions;
using bench::Operations;
using bench::Purpose;
using bench::tactical_positions;

template <class Find> void add_feature(Operations& operations, const char* name, Find find) {
    operations.add(name, "position", tactical_positions, [find, found = Findings{}](const Position& position) mutable {
        found.clear();
        find(BoardView{position, {}}, found);
        benchmark::DoNotOptimize(found.data());
    });
}

void add_features(Operations& operations) {
    add_feature(operations, "piece_safety", find_piece_safety);
    add_feature(operations, "guard_duties", find_guard_duties);
    add_feature(operations, "overloaded", find_overloaded);
    add_feature(operations, "mutual_guards", find_mutual_guards);
    add_feature(operations, "mobility_and_rooks", [](const BoardView& view, Findings& found) {
        for (const Side side : all_sides) detail::find_by_mobility(view, side, found);
    });
    add_feature(operations, "forks", find_forks);
    add_feature(operations, "pins", find_pins);
    add_feature(operations, "discoveries", find_discoveries);
    add_feature(operations, "removable_guards", find_removable_guards);
    add_feature(operations, "trapped_pieces", find_trapped_pieces);
    add_feature(operations, "mates", find_mates);
    add_feature(operations, "promotions", find_promotions);
    add_feature(operations, "intermediate_moves", find_intermediate_moves);
    add_feature(operations, "pawn_themes", find_pawn_themes);
    add_feature(operations, "king_themes", find_king_themes);
    add_feature(operations, "square_themes", find_square_themes);
    add_feature(operations, "piece_themes", find_piece_themes);
    add_feature(operations, "square_control", find_square_control);
    add_feature(operations, "colour_complex", find_colour_complex);
    add_feature(operations, "guardian", find_guardian);
    add_feature(operations, "material", find_material);
    add_feature(operations, "exchange_imbalance", find_exchange_imbalance);
}

void add_all_findings(Operations& operations) {
    const auto all = [found = Findings{}](const Position& position) mutable {
        findings(position, found);
        benchmark::DoNotOptimize(found.data());
    };
    operations.add("findings/puzzles", "position", tactical_positions, all);
    operations.add("findings/tournament_games", "position", game_positions, all);
    operations.add("findings_and_sentences", "position", tactical_positions,
                   [found = Findings{}](const Position& position) mutable {
                       findings(position, found);
                       for (const Finding& finding : found) benchmark::DoNotOptimize(sentence(position, finding));
                   });
}

void add_vectors(Operations& operations) {
    operations.add("feature_vector", "position", tactical_positions, [](const Position& position) {
        std::array<std::int16_t, feature_count> row;
        feature_vector(position, row);
        benchmark::DoNotOptimize(row.data());
    });
    // The same as columns: all positions are one input.
    const auto batch = [](Purpose purpose) { return std::vector(1, tactical_positions(purpose)); };
    operations.add("feature_columns", "position", batch,
                   [numbers = std::vector<std::int16_t>{}](const std::vector<Position>& positions) mutable {
                       numbers.resize(feature_count * positions.size());
                       feature_columns(positions, numbers, positions.size());
                       benchmark::DoNotOptimize(numbers.data());
                       return positions.size();
                   });
}

} // namespace

void bench::describe(Operations& operations) {
    add_features(operations);
    add_all_findings(operations);
    add_vectors(operations);
}
