// The module keysquare._core: registers every class and function, in order of dependence.
#include "bindings.hpp"

#include <keysquare/version.hpp>

PYBIND11_MODULE(_core, module) {
    using namespace keysquare::python;
    module.doc() = "The compiled part of keysquare; use the package keysquare.";
    module.attr("__version__") = keysquare::version;
    register_errors(module);
    register_moves(module);
    register_position(module);
    register_calculations(module);
    register_findings(module);
    register_features(module);
    register_feature_table(module);
    register_plans(module);
    register_threats(module);
    register_candidates(module);
    register_difficulty(module);
    register_outlook(module);
    register_diagrams(module);
    register_games(module);
    register_theme_scan(module);
    register_game_report(module);
    register_json(module);
    register_scan(module);
}
