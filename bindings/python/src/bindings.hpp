// What the binding files share: how the small values cross the border between C++ and Python, and who registers what.
//
// Squares, sides and pieces are text on the Python side (`keysquare._values`), so they are converted, not wrapped: any
// argument of these types reads text, and an `InputError` is raised where the text names nothing. Objects of C++ types
// are immutable unless their class says otherwise; that is why functions may work on them with the GIL released.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <keysquare/features/board_view.hpp>
#include <keysquare/notation/error.hpp>

namespace keysquare::python {

namespace py = pybind11;

// One file each; the module calls them in this order.
void register_errors(py::module_& module);
void register_moves(py::module_& module);
void register_position(py::module_& module);
void register_calculations(py::module_& module);
void register_findings(py::module_& module);
void register_features(py::module_& module);
void register_feature_table(py::module_& module);
void register_plans(py::module_& module);
void register_threats(py::module_& module);
void register_candidates(py::module_& module);
void register_difficulty(py::module_& module);
void register_outlook(py::module_& module);
void register_diagrams(py::module_& module);
void register_games(py::module_& module);
void register_theme_scan(py::module_& module);
void register_game_report(py::module_& module);
void register_json(py::module_& module);
void register_scan(py::module_& module);

/// The Python classes of the small values, and the values themselves: they are made once and handed out again.
struct ValueTypes {
    py::object input_error;
    py::object placed;
    std::array<py::object, 64> squares;
    std::array<py::object, 2> sides;
    std::array<std::array<py::object, 6>, 2> pieces;

    /// Imports them on first use. Needs the GIL.
    static const ValueTypes& get();
};

/// A class of `keysquare._results`, which holds the plain records that answers are made of.
py::object result_class(const char* name);

/// An outcome of a calculation.
py::object python_outcome(const Outcome& outcome);

/// The error as an instance of the Python class, not raised.
py::object python_error(const InputError& error);

/// Bytes that should be UTF-8, what is not replaced.
py::str text_from(std::string_view bytes);

/// The text of a `str` argument; bytes are refused with a TypeError. Lives as long as the argument.
struct Text {
    std::string_view view;
};

template <class... Parts> std::string joined_text(const Parts&... parts) {
    std::string text;
    (text.append(std::string_view{parts}), ...);
    return text;
}

/// A move given as an object or as text.
using MoveArgument = std::variant<Text, Move>;
/// The legal move that is meant. Throws InputError.
Move move_in(const Position& position, const MoveArgument& argument);
/// Moves that are read one after the other, all of them as text, so that both kinds are read and refused alike.
std::vector<std::string> texts_of(const std::vector<MoveArgument>& steps);
[[nodiscard]] constexpr Move move_from_bits(std::uint16_t bits) noexcept {
    return {square_at(bits & 63), square_at(bits >> 6 & 63), static_cast<MoveType>(bits >> 12)};
}

using ValuesArgument = std::optional<std::map<std::string, int, std::less<>>>;
/// Checked parameters. All throw `py::value_error`.
Values values_of(const ValuesArgument& argument);
Bound bound_of(int plies, int check_plies, int nodes);
Options options_of(int least_gain, int plies, int check_plies, int nodes, const ValuesArgument& values);

/// The text of a `str` object, nothing for other objects.
inline std::optional<std::string_view> text_in(py::handle object) {
    if (!PyUnicode_Check(object.ptr())) return std::nullopt;
    Py_ssize_t size = 0;
    const char* text = PyUnicode_AsUTF8AndSize(object.ptr(), &size);
    if (!text) throw py::error_already_set();
    return std::string_view{text, static_cast<std::size_t>(size)};
}

} // namespace keysquare::python

namespace pybind11::detail {

template <> struct type_caster<keysquare::python::Text> {
    PYBIND11_TYPE_CASTER(keysquare::python::Text, const_name("str"));

    bool load(handle source, bool) {
        const auto text = keysquare::python::text_in(source);
        if (text) value.view = *text;
        return text.has_value();
    }
    static handle cast(keysquare::python::Text text, return_value_policy, handle) {
        return keysquare::python::text_from(text.view).release();
    }
};

template <> struct type_caster<keysquare::Square> {
    PYBIND11_TYPE_CASTER(keysquare::Square, const_name("Square"));

    bool load(handle source, bool) {
        const auto text = keysquare::python::text_in(source);
        if (!text) return false;
        value = keysquare::square_named(*text);
        if (value == keysquare::Square::none)
            throw keysquare::InputError{keysquare::Reason::not_a_square, keysquare::Field::none, 1, *text};
        return true;
    }
    /// None for `Square::none`.
    static handle cast(keysquare::Square square, return_value_policy, handle) {
        if (square == keysquare::Square::none) return none().release();
        return object{keysquare::python::ValueTypes::get().squares[static_cast<std::size_t>(square)]}.release();
    }
};

template <> struct type_caster<keysquare::Side> {
    PYBIND11_TYPE_CASTER(keysquare::Side, const_name("Side"));

    bool load(handle source, bool) {
        const auto text = keysquare::python::text_in(source);
        if (!text) return false;
        for (const keysquare::Side side : keysquare::all_sides) {
            value = side;
            if (keysquare::name(side) == *text) return true;
        }
        throw keysquare::InputError{keysquare::Reason::not_a_side, keysquare::Field::none, 1, *text};
    }
    static handle cast(keysquare::Side side, return_value_policy, handle) {
        return object{keysquare::python::ValueTypes::get().sides[index(side)]}.release();
    }
};

/// Pieces are only given to Python. None for no piece.
template <> struct type_caster<keysquare::Piece> {
    PYBIND11_TYPE_CASTER(keysquare::Piece, const_name("Piece"));

    bool load(handle, bool) { return false; }
    static handle cast(keysquare::Piece piece, return_value_policy, handle) {
        if (!piece) return none().release();
        return object{keysquare::python::ValueTypes::get().pieces[index(piece.side)][index(piece.kind)]}.release();
    }
};

template <> struct type_caster<keysquare::Placed> {
    PYBIND11_TYPE_CASTER(keysquare::Placed, const_name("Placed"));

    bool load(handle, bool) { return false; }
    static handle cast(const keysquare::Placed& placed, return_value_policy, handle) {
        return keysquare::python::ValueTypes::get()
            .placed(pybind11::cast(placed.square), pybind11::cast(placed.piece))
            .release();
    }
};

/// A list of squares in the order a1, b1, ..., h8.
template <> struct type_caster<keysquare::Squares> {
    PYBIND11_TYPE_CASTER(keysquare::Squares, const_name("list[Square]"));

    bool load(handle source, bool) {
        // A text is a sequence too, but "e4" is not a set of squares.
        if (PyUnicode_Check(source.ptr()) || !isinstance<iterable>(source)) return false;
        for (const handle item : reinterpret_borrow<iterable>(source)) {
            make_caster<keysquare::Square> one;
            if (!one.load(item, false)) return false;
            value |= keysquare::Squares{cast_op<keysquare::Square>(one)};
        }
        return true;
    }
    static handle cast(keysquare::Squares squares, return_value_policy, handle) {
        list result(static_cast<std::size_t>(squares.count()));
        std::size_t at = 0;
        for (const keysquare::Square square : squares) result[at++] = pybind11::cast(square);
        return result.release();
    }
};

template <> struct type_caster<keysquare::Line> : list_caster<keysquare::Line, keysquare::Move> {};
template <> struct type_caster<keysquare::MoveList> : list_caster<keysquare::MoveList, keysquare::Move> {};

} // namespace pybind11::detail
