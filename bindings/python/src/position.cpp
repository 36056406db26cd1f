// Position.
#include <pybind11/operators.h>

#include "bindings.hpp"

#include <keysquare/board/perft.hpp>
#include <keysquare/lesson/diagram.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

namespace keysquare::python {

namespace {

py::dict pieces_of(const Position& position) {
    py::dict pieces;
    for (const Square square : position.occupied()) pieces[py::cast(square)] = position.piece_at(square);
    return pieces;
}

Squares castling_rooks_of(const Position& position, Side side) {
    Squares rooks;
    for (const Wing wing : all_wings)
        if (const Square rook = position.castling_rook(side, wing); rook != Square::none) rooks |= Squares{rook};
    return rooks;
}

Position position_without(const Position& position, Square square) {
    const auto refuse = [&](Reason reason) { return InputError{reason, Field::none, 1, name(square)}; };
    if (position.kind_at(square) == Kind::king) throw refuse(Reason::no_king);
    const Position left = without(position, square);
    if (fault_for_computing(left)) throw refuse(Reason::waiter_in_check);
    return left;
}

} // namespace

void register_position(py::module_& module) {
    py::class_<Position> type(
        module, "Position",
        "One chess position: men, side to move, castling rights, en passant square and clocks. A value that never "
        "changes; `after` gives the next one.\n\n"
        "Equal positions have all of these in common; the hash is the key. Pickles as FEN, and draws itself in "
        "notebooks.");

    type.def(py::init([](Text fen, bool lenient) {
                 return read_fen(fen.view, lenient ? Strictness::lenient : Strictness::strict).value();
             }),
             py::arg("fen") = Text{start_fen}, py::arg("lenient") = false,
             "Reads a FEN of four to six fields (1994 PGN standard, 16.1; the castling field of X-FEN and of rook-file "
             "letters too); without one, the start position of chess.\n\n"
             "`lenient` accepts every position that can be computed on, for composed ones; impossible castling rights "
             "and en passant squares are then dropped. Raises InputError with the reason, the field and the column.")
        .def_static("start", &start_position, "The start position of chess.");

    type.def_property_readonly("fen", &fen, "The position as FEN with all six fields.")
        .def_property_readonly("mover", &Position::mover, "The side to move.")
        .def_property_readonly("waiter", &Position::waiter, "The side that is not to move.")
        .def_property_readonly("pieces", &pieces_of, "All men as a dict from Square to Piece, in the order a1 to h8.")
        .def_property_readonly("en_passant", &Position::en_passant,
                               "The square behind a pawn that has just made a double step, or None.")
        .def_property_readonly("halfmove_clock", &Position::halfmove_clock,
                               "Plies since the last capture or pawn move.")
        .def_property_readonly("move_number", &Position::move_number, "The number of the move, from 1.")
        .def_property_readonly(
            "key", &Position::key,
            "A 64-bit number, the same for positions that are the same for repetition by the Laws of "
            "Chess (9.2.2), and different for others up to a collision.")
        .def_property_readonly(
            "in_check", [](const Position& position) { return in_check(position); },
            "Whether the mover stands in check.")
        .def_property_readonly("checkers", &checkers_of, "The squares of the men that give check.")
        .def_property_readonly("is_mated", &is_mated, "Check, and no legal move.")
        .def_property_readonly("is_stalemated", &is_stalemated, "No check, and no legal move.");

    type.def("piece_at", &Position::piece_at, py::arg("square"), "The piece on a square, None when it is empty.")
        .def("castling_rooks", &castling_rooks_of, py::arg("side"),
             "The squares of the rooks with which the side has kept the right to castle.")
        .def(
            "attackers_of",
            [](const Position& position, Square square, Side side) { return attackers_of(position, square, side); },
            py::arg("square"), py::arg("side"),
            "The squares of the men of a side that attack a square; pins are not looked at.")
        .def("pinned_men", &pinned_men, py::arg("side"), "The squares of the men that are pinned to their own king.")
        .def(
            "moves", [](const Position& position) { return legal_moves(position); },
            "All legal moves, in an order that depends on the position alone.")
        .def(
            "move", [](const Position& position, Text text) { return read_move(position, text.view).value(); },
            py::arg("text"),
            "The legal move that a text in SAN (as loosely written as PGN's import format allows) or coordinate "
            "notation means.\n\nRaises InputError with the reason and the column.")
        .def(
            "after",
            [](const Position& position, const MoveArgument& move) { return after(position, move_in(position, move)); },
            py::arg("move"),
            "The position after a move, given as SAN, as coordinate text or as a Move.\n\n"
            "Raises InputError, whose reason says why the move is refused: `not_a_move`, `no_such_piece`, "
            "`illegal_move`, `king_left_in_check`, `ambiguous_move`, `missing_promotion`.")
        .def(
            "passed", [](const Position& position) { return passed(position); },
            "The same position with the move handed over; None when the mover is in check.")
        .def("without", &position_without, py::arg("square"),
             "The same position with the man on a square taken off the board, the claim behind \"without this piece "
             "...\".\n\nRaises InputError for a king (`no_king`), and when the waiter would then be in check "
             "(`waiter_in_check`).");

    type.def(py::self == py::self)
        .def("__hash__", &Position::key)
        .def("__str__", &fen)
        .def("__repr__", [](const Position& position) { return "keysquare.Position(\"" + fen(position) + "\")"; })
        .def("_repr_svg_", [](const Position& position) { return diagram(position); })
        .def(py::pickle([](const Position& position) { return py::make_tuple(fen(position)); },
                        [](const py::tuple& state) {
                            return read_fen(state[0].cast<std::string>(), Strictness::lenient).value();
                        }));
}

} // namespace keysquare::python
