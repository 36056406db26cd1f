// The calculations that claims rest on: exchange, resolve, perft.
#include "bindings.hpp"

#include <keysquare/board/perft.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace keysquare::python {

py::object python_outcome(const Outcome& outcome) {
    return result_class("Outcome")(outcome.gain, outcome.mate, outcome.mated, outcome.complete, outcome.line);
}

void register_calculations(py::module_& module) {
    constexpr Bound usual;

    module.def(
        "exchange",
        [](const Position& position, Square square, const ValuesArgument& values) {
            const Values worth = values_of(values);
            Outcome outcome;
            {
                const py::gil_scoped_release released;
                outcome = exchange(position, square, worth);
            }
            return python_outcome(outcome);
        },
        py::arg("position"), py::arg("square"), py::kw_only(), py::arg("values") = py::none(),
        "What captures on one square win for the mover, by legal moves, either side free to stop: an Outcome.\n\n"
        "The gain (pawns) is 0 with an empty line when taking wins nothing. `values`: what a pawn, knight, bishop, "
        "rook and queen are worth, as a mapping from the kind; those that are not named keep 1, 3, 3, 5 and 9.");

    module.def(
        "resolve",
        [](const Position& position, int plies, int check_plies, int nodes, const ValuesArgument& values) {
            const Values worth = values_of(values);
            const Bound bound = bound_of(plies, check_plies, nodes);
            Outcome outcome;
            {
                const py::gil_scoped_release released;
                outcome = resolve(position, bound, worth);
            }
            return python_outcome(outcome);
        },
        py::arg("position"), py::kw_only(), py::arg("plies") = usual.plies, py::arg("check_plies") = usual.check_plies,
        py::arg("nodes") = usual.nodes, py::arg("values") = py::none(),
        "What the mover wins by force (or, in check, loses) inside a bound: an Outcome.\n\n"
        "A deterministic search of captures, promotions, quiet checks on the first `check_plies` plies and all "
        "answers to check, `plies` deep (at most 31); a side that is not in check may stop. A referee for claims, not "
        "an engine to play with: nothing but material and mate counts. When more than `nodes` positions would be "
        "needed, `complete` is False and the rest means nothing. `values` as in `exchange`.");

    module.def(
        "perft",
        [](const Position& position, int depth) {
            if (depth < 0) throw py::value_error("depth must not be negative");
            const py::gil_scoped_release released;
            return perft(position, depth);
        },
        py::arg("position"), py::arg("depth"),
        "The number of leaves of the tree of legal moves of the given depth (plies); depth 0 counts 1.\n\n"
        "The trade's check of a move generator. The time grows about thirtyfold with every ply.");
}

} // namespace keysquare::python
