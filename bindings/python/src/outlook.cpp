// The outlook: what each side can usefully do.
#include "outlook.hpp"
#include "reasons.hpp"
#include "threats.hpp"

#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/stop.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

/// None for an outcome without a line.
py::object optional_outcome(const Outcome& outcome) {
    return outcome.line.empty() ? py::object{py::none()} : python_outcome(outcome);
}

py::object python_best_square(const BestSquare& best) {
    py::list stops;
    for (const Move move : best.route) stops.append(move.target());
    const py::object route =
        result_class("Route")("squares"_a = stops, "moves"_a = std::vector<Move>(best.route.begin(), best.route.end()));
    return result_class("BestSquare")("piece"_a = best.piece, "square"_a = best.square, "route"_a = route,
                                      "gains"_a = python_reasons(best.gains));
}

py::object python_side(const Position& position, const SideOutlook& side) {
    py::list best;
    for (const BestSquare& square : side.best_squares) best.append(python_best_square(square));
    return result_class("SideOutlook")(
        "position"_a = position, "side"_a = side.side, "known"_a = side.exists, "after_pass"_a = side.after_pass,
        "in_check"_a = side.in_check, "legal"_a = side.legal, "useful"_a = python_useful_moves(position, side),
        "merely_safe"_a = side.merely_safe,
        "only_move"_a = side.only_move ? py::cast(side.only_move) : py::object{py::none()},
        "threats"_a = python_threats(position, side), "best_squares"_a = best, "no_plan"_a = side.no_plan,
        "paragraph"_a = text_from(paragraph(position, side)),
        "texts"_a = in_languages([&](Language language) { return paragraph(position, side, language); }));
}

py::object outlook_of(const Position& position, const Options& options) {
    Outlook both;
    {
        const py::gil_scoped_release released;
        both = outlook(position, options);
    }
    py::dict sides;
    for (const Side side : all_sides) sides[py::cast(side)] = python_side(position, both.of(side));
    return result_class("Outlook")(
        "position"_a = position, "sides"_a = sides, "equilibrium"_a = both.equilibrium,
        "paragraph"_a = text_from(paragraph(position, both)),
        "texts"_a = in_languages([&](Language language) { return paragraph(position, both, language); }));
}

} // namespace

py::list python_useful_moves(const Position& position, const SideOutlook& side) {
    py::list moves;
    const auto turn = turn_of(position, side.side);
    for (const UsefulMove& move : side.useful)
        moves.append(result_class("UsefulMove")(
            "move"_a = move.move, "san"_a = san(*turn, move.move), "reasons"_a = python_reasons(move.reasons),
            "won"_a = optional_outcome(move.won), "threat"_a = optional_outcome(move.threat)));
    return moves;
}

py::list python_threats(const Position& position, const SideOutlook& side) {
    py::list threats;
    for (const Threat& threat : side.threats) threats.append(ThreatIn{position, threat});
    return threats;
}

void register_outlook(py::module_& module) {
    constexpr Options usual;

    module.def(
        "outlook",
        [](const Position& position, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            return outlook_of(position, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("position"), py::kw_only(), py::arg("least_gain") = usual.least_gain,
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "What each side can usefully do: an Outlook.\n\n"
        "The mover in the position as it is, the waiter when the mover passes. For each side its useful moves with "
        "their reasons, its merely safe moves, its threats, the best square of each piece within two safe moves, the "
        "only move that keeps the material, and whether it has nothing to do at all. `least_gain`: what wins less is "
        "not said to win or threaten anything. The bound and `values` as in `resolve`.");

    module.def(
        "yardsticks",
        [] {
            py::dict rows;
            for (const Yardstick& yardstick : yardsticks()) rows[text_from(name(yardstick.fact))] = yardstick.least;
            return rows;
        },
        "The facts by which a move improves something or makes it worse, the weightiest first, each with the least "
        "amount that matters.\n\n"
        "The first one that a move changes by so much decides. A new dict at each call.");
}

} // namespace keysquare::python
