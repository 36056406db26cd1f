#include "position_source.hpp"
#include "signals.hpp"

#include <cerrno>
#include <cstring>

#include <keysquare/notation/fen.hpp>

#include "arrow_capsule.hpp"
#include "arrow_texts.hpp"

namespace keysquare::python {

namespace {

using Positions = std::vector<Position>;

/// What was wrong with one text among many. Thrown where the GIL is not held, and raised where it is.
struct RefusedText {
    std::size_t at;
    InputError error;
    std::string why;
};

[[noreturn]] void raise(const RefusedText& refused) {
    const InputError& error = refused.error;
    const py::object raised = ValueTypes::get().input_error(
        text_from(joined_text("at index ", std::to_string(refused.at), ": ", refused.why)),
        text_from(name(error.reason)), text_from(name(error.field)), error.line, error.column, text_from(error.token));
    PyErr_SetObject(ValueTypes::get().input_error.ptr(), raised.ptr());
    throw py::error_already_set();
}

void add_fen(Positions& positions, std::string_view text) {
    auto read = read_fen(text);
    if (!read) throw RefusedText{positions.size(), read.error(), read.error().what()};
    positions.push_back(*read);
}

// ---------------------------------------------------------------------------------------------------------------------
// Columns of Arrow

void add_column(Positions& positions, const ArrowTexts& texts) {
    for (std::int64_t row = 0; row < texts.size(); ++row) {
        const auto text = texts.at(row);
        if (!text)
            throw RefusedText{
                positions.size(), {Reason::missing_field, Field::none, 1, {}}, "a null stands where a FEN should"};
        add_fen(positions, *text);
    }
}

void check_stream(ArrowArrayStream& stream, int code) {
    if (code == 0) return;
    if (code == ENOMEM) throw std::bad_alloc();
    const char* const why = stream.get_last_error(&stream);
    throw std::runtime_error(joined_text("the Arrow stream broke off: ", why ? why : "it does not say why"));
}

std::optional<Positions> from_array(const py::object& capsules) {
    if (!PyTuple_Check(capsules.ptr()) || py::len(capsules) != 2)
        throw py::type_error("__arrow_c_array__ must give two capsules");
    const auto pair = py::reinterpret_borrow<py::tuple>(capsules);
    Imported<ArrowSchema> schema{pair[0], "arrow_schema"};
    Imported<ArrowArray> array{pair[1], "arrow_array"};
    const auto layout = text_layout(*schema);
    if (!layout) return std::nullopt;
    const py::gil_scoped_release released;
    const ArrowTexts texts{*layout, *array};
    Positions positions;
    positions.reserve(static_cast<std::size_t>(texts.size()));
    add_column(positions, texts);
    return positions;
}

std::optional<Positions> from_stream(const py::object& capsule) {
    Imported<ArrowArrayStream> stream{capsule, "arrow_array_stream"};
    Imported<ArrowSchema> schema;
    check_stream(*stream, stream->get_schema(stream.get(), schema.get()));
    const auto layout = text_layout(*schema);
    if (!layout) return std::nullopt;
    Positions positions;
    while (true) {
        Imported<ArrowArray> array;
        const py::gil_scoped_release released; // the next array may be made by a thread that waits for the GIL
        check_stream(*stream, stream->get_next(stream.get(), array.get()));
        if (!array->release) return positions; // the end, as the specification has it
        add_column(positions, {*layout, *array});
    }
}

/// What a method of the Arrow PyCapsule interface gives; None where there is no such method, and where it refuses to
/// export objects that it can only hand out one at a time.
py::object arrow_export(const py::object& source, const char* method) {
    if (PyType_Check(source.ptr()) || !py::hasattr(source, method)) return py::none();
    try {
        return source.attr(method)();
    } catch (const py::error_already_set& error) {
        if (!error.matches(PyExc_Exception) || !py::isinstance<py::iterable>(source)) throw;
        return py::none();
    }
}

/// Nothing for what is no column of text.
std::optional<Positions> from_arrow(const py::object& source) {
    if (const auto capsules = arrow_export(source, "__arrow_c_array__"); !capsules.is_none())
        return from_array(capsules);
    if (const auto capsule = arrow_export(source, "__arrow_c_stream__"); !capsule.is_none())
        return from_stream(capsule);
    return std::nullopt;
}

// ---------------------------------------------------------------------------------------------------------------------
// Arrays of numpy

/// The buffer of an array of texts of one width, whose codes are padded with zeros.
struct PaddedTexts {
    py::buffer_info buffer;
    bool is_wide = false; ///< 32-bit codes, otherwise bytes
};

/// Whether a format of the buffer protocol is a text in native byte order: "70s" or "70w", as numpy has it.
bool is_text_format(std::string_view format) {
    const std::size_t kind = format.find_first_not_of("0123456789");
    return kind != format.npos && kind + 1 == format.size() && (format[kind] == 's' || format[kind] == 'w');
}

std::optional<PaddedTexts> padded_texts(const py::object& source) {
    if (!PyObject_CheckBuffer(source.ptr())) return std::nullopt;
    if (py::hasattr(source, "mask")) return std::nullopt; // a masked array, whose buffer does not tell what is masked
    try {
        PaddedTexts texts{py::reinterpret_borrow<py::buffer>(source).request()};
        if (!is_text_format(texts.buffer.format)) return std::nullopt;
        texts.is_wide = texts.buffer.format.back() == 'w';
        return texts;
    } catch (const py::error_already_set& error) {
        if (!error.matches(PyExc_Exception)) throw;
        return std::nullopt; // numpy has no format for dates, for instance
    }
}

void append_utf8(std::string& text, std::uint32_t code) {
    constexpr std::uint32_t replacement = 0xfffd;
    if (code > 0x10ffff || (0xd800 <= code && code <= 0xdfff)) code = replacement;
    const auto append = [&](std::uint32_t byte) { text.push_back(static_cast<char>(byte)); };
    const auto append_tail = [&](int shift) { append(0x80 | (code >> shift & 0x3f)); };
    if (code < 0x80) return append(code);
    if (code < 0x800) {
        append(0xc0 | code >> 6);
    } else if (code < 0x10000) {
        append(0xe0 | code >> 12);
        append_tail(6);
    } else {
        append(0xf0 | code >> 18);
        append_tail(12);
        append_tail(6);
    }
    append_tail(0);
}

/// Writes the text over `text`. The codes need not be aligned.
void read_padded(std::string& text, const char* codes, std::size_t bytes, bool is_wide) {
    text.clear();
    if (is_wide) {
        for (std::size_t at = 0; at < bytes; at += sizeof(std::uint32_t)) {
            std::uint32_t code = 0;
            std::memcpy(&code, codes + at, sizeof code);
            append_utf8(text, code);
        }
    } else {
        text.assign(codes, bytes);
    }
    text.erase(text.find_last_not_of('\0') + 1);
}

Positions from_padded(const PaddedTexts& texts) {
    const py::buffer_info& buffer = texts.buffer;
    if (buffer.ndim != 1)
        throw py::type_error(joined_text("features() takes an array of FENs with one dimension, not with ",
                                         std::to_string(buffer.ndim)));
    const py::gil_scoped_release released;
    const auto* codes = static_cast<const char*>(buffer.ptr);
    Positions positions;
    positions.reserve(static_cast<std::size_t>(buffer.shape[0]));
    std::string text;
    for (py::ssize_t at = 0; at < buffer.shape[0]; ++at, codes += buffer.strides[0]) {
        read_padded(text, codes, static_cast<std::size_t>(buffer.itemsize), texts.is_wide);
        add_fen(positions, text);
    }
    return positions;
}

// ---------------------------------------------------------------------------------------------------------------------
// Objects one at a time

void add_object(Positions& positions, py::handle item) {
    if (const auto text = text_in(item)) return add_fen(positions, *text);
    if (!py::isinstance<Position>(item))
        throw py::type_error(joined_text("at index ", std::to_string(positions.size()),
                                         ": a Position or a FEN is wanted, not ", Py_TYPE(item.ptr())->tp_name));
    positions.push_back(item.cast<const Position&>());
}

Positions from_objects(const py::object& source) {
    // A text is iterable too, but its letters are no positions.
    if (PyUnicode_Check(source.ptr()) || !py::isinstance<py::iterable>(source))
        throw py::type_error("features() takes an iterable of positions: [position], game.positions()");
    Positions positions;
    for (const py::handle item : source) {
        heed_signals(); // a list runs no Python code
        add_object(positions, item);
    }
    return positions;
}

} // namespace

std::vector<Position> positions_in(const py::object& source) {
    try {
        if (const auto texts = padded_texts(source)) return from_padded(*texts);
        if (auto positions = from_arrow(source)) return *std::move(positions);
        return from_objects(source);
    } catch (const RefusedText& refused) {
        raise(refused);
    }
}

} // namespace keysquare::python
