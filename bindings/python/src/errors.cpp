// InputError and the other values whose classes are written in Python: fetched here, raised and handed out from C++.
#include "bindings.hpp"
#include "standard_errors.hpp"

#include <pybind11/gil_safe_call_once.h>

#include <keysquare/notation/coordinate.hpp>

namespace keysquare::python {

const ValueTypes& ValueTypes::get() {
    PYBIND11_CONSTINIT static py::gil_safe_call_once_and_store<ValueTypes> storage;
    return storage
        .call_once_and_store_result([] {
            const py::module_ values = py::module_::import("keysquare._values");
            ValueTypes types;
            types.input_error = values.attr("InputError");
            types.placed = values.attr("Placed");
            for (std::size_t at = 0; at < types.squares.size(); ++at)
                types.squares[at] = values.attr("Square")(text_from(name(square_at(static_cast<int>(at)))));
            for (const Side side : all_sides) {
                types.sides[index(side)] = values.attr("Side")(text_from(name(side)));
                for (const Kind kind : all_kinds)
                    types.pieces[index(side)][index(kind)] =
                        values.attr("Piece")(text_from(joined_text(name(side), " ", name(kind))));
            }
            return types;
        })
        .get_stored();
}

py::object result_class(const char* name) { return py::module_::import("keysquare._results").attr(name); }

py::str text_from(std::string_view bytes) {
    return py::reinterpret_steal<py::str>(
        PyUnicode_DecodeUTF8(bytes.data(), static_cast<Py_ssize_t>(bytes.size()), "replace"));
}

py::object python_error(const InputError& error) {
    return ValueTypes::get().input_error(text_from(error.what()), text_from(name(error.reason)),
                                         text_from(name(error.field)), error.line, error.column, text_from(error.token),
                                         text_from(error.file), error.game, error.offset);
}

Move move_in(const Position& position, const MoveArgument& argument) {
    if (const auto* text = std::get_if<Text>(&argument)) return read_move(position, text->view).value();
    const Move move = std::get<Move>(argument);
    if (!move || !is_legal(position, move)) throw InputError{Reason::illegal_move, Field::move, 1, coordinate(move)};
    return move;
}

std::vector<std::string> texts_of(const std::vector<MoveArgument>& steps) {
    std::vector<std::string> texts;
    for (const MoveArgument& step : steps) {
        const auto* const text = std::get_if<Text>(&step);
        texts.push_back(text ? std::string{text->view} : coordinate(std::get<Move>(step)));
    }
    return texts;
}

Values values_of(const ValuesArgument& argument) {
    Values values;
    if (!argument) return values;
    for (const auto& [text, value] : *argument) {
        const auto* const kind =
            std::ranges::find_if(all_kinds, [&](Kind one) { return name(one) == text && one != Kind::king; });
        if (kind == all_kinds.end()) throw py::value_error("values: no value can be given to \"" + text + "\"");
        if (value < 0 || value > 1000) throw py::value_error("values: " + text + " must be between 0 and 1000");
        values.of[index(*kind)] = value;
    }
    return values;
}

Bound bound_of(int plies, int check_plies, int nodes) {
    if (plies < 0 || plies >= static_cast<int>(longest_line))
        throw py::value_error("plies must be between 0 and " + std::to_string(longest_line - 1));
    if (check_plies < 0) throw py::value_error("check_plies must not be negative");
    if (nodes < 1) throw py::value_error("nodes must be at least 1");
    return {plies, check_plies, nodes};
}

Options options_of(int least_gain, int plies, int check_plies, int nodes, const ValuesArgument& values) {
    if (least_gain < 1) throw py::value_error("least_gain must be at least 1");
    return {values_of(values), bound_of(plies, check_plies, nodes), least_gain};
}

Language language_of(std::string_view code) {
    const Language language = language_named(code);
    if (language != Language::end_) return language;
    throw py::value_error(unknown_language(code));
}

void register_errors(py::module_& module) {
    module.attr("InputError") = ValueTypes::get().input_error;
    register_standard_errors(); // before the next one: the last that was registered is asked first
    py::register_local_exception_translator([](std::exception_ptr pointer) {
        try {
            if (pointer) std::rethrow_exception(pointer);
        } catch (const InputError& error) {
            const py::object raised = python_error(error);
            PyErr_SetObject(ValueTypes::get().input_error.ptr(), raised.ptr());
        }
    });
}

} // namespace keysquare::python
