// Move.
#include <pybind11/operators.h>

#include "bindings.hpp"

#include <keysquare/notation/coordinate.hpp>

namespace keysquare::python {

void register_moves(py::module_& module) {
    py::class_<Move> type(module, "Move",
                          "A move of one position; it means something only together with that position.\n\n"
                          "Moves come from a position (`Position.moves`, `Position.move`) or from a line. "
                          "`str(move)` is coordinate notation: origin, target and the letter of a promotion "
                          "(\"e2e4\", \"e7e8q\"). Immutable, hashable, equal by origin, target and type.");

    type.def_property_readonly("origin", &Move::origin, "The square that the piece (the king, in castling) leaves.")
        .def_property_readonly("target", &Move::target, "The square where the piece (the king, in castling) arrives.")
        .def_property_readonly(
            "promotion",
            [](Move move) -> std::optional<std::string_view> {
                if (!move.promotes()) return std::nullopt;
                return name(move.promotion());
            },
            "\"knight\", \"bishop\", \"rook\" or \"queen\", None for moves that promote nothing.")
        .def_property_readonly("castles", &Move::castles, "Whether the move is castling.")
        .def_property_readonly(
            "is_null", [](Move move) { return !move; },
            "Whether it is the null move \"--\", which stands in some variations of games.");

    type.def(
        "san", [](Move move, const Position& position) { return san(position, move_in(position, move)); },
        py::arg("position"),
        "The move as SAN in export format (\"Nbd7\", \"exd6\", \"e8=Q+\", \"Qh7#\"), by the 1994 PGN standard, "
        "8.2.3.\n\n"
        "Raises InputError (`illegal_move`) when the move is not legal in the position.");

    type.def(py::self == py::self)
        .def("__hash__", [](Move move) { return static_cast<int>(move.bits()); })
        .def("__str__", &coordinate)
        .def("__repr__", [](Move move) { return "<keysquare.Move " + coordinate(move) + ">"; })
        .def(py::pickle([](Move move) { return py::make_tuple(move.bits()); },
                        [](const py::tuple& state) { return move_from_bits(state[0].cast<std::uint16_t>()); }));
}

} // namespace keysquare::python
