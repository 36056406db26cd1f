// The numeric vector: its schema, and the numbers of many positions as a table.
#include "feature_table.hpp"

#include <cerrno>
#include <cstring>

#include "arrow_capsule.hpp"
#include "position_source.hpp"

namespace keysquare::python {

namespace {

/// One column, for the memoryview that is handed out.
struct ColumnBuffer {
    FeatureTable table;
    std::size_t column;
};

py::buffer_info buffer_of(const std::int16_t* numbers, std::vector<py::ssize_t> shape,
                          std::vector<py::ssize_t> strides) {
    const auto dimensions = static_cast<py::ssize_t>(shape.size());
    return {const_cast<std::int16_t*>(numbers),
            sizeof(std::int16_t), // read-only, as the last argument says
            py::format_descriptor<std::int16_t>::format(),
            dimensions,
            std::move(shape),
            std::move(strides),
            true};
}

std::shared_ptr<std::int16_t[]> room_for(std::size_t rows) {
    return std::make_shared<std::int16_t[]>(feature_count * rows);
}

FeatureTable table_of(std::span<const Position> positions) {
    const auto numbers = room_for(positions.size());
    feature_columns(positions, {numbers.get(), feature_count * positions.size()}, positions.size());
    return {positions.size(), numbers};
}

py::tuple column_names() {
    py::tuple names(feature_count);
    for (std::size_t at = 0; at < feature_count; ++at) names[at] = text_from(feature_schema()[at].name);
    return names;
}

py::object python_schema() {
    const py::object column_class = result_class("FeatureColumn");
    py::tuple columns(feature_count);
    for (std::size_t at = 0; at < feature_count; ++at) {
        const FeatureColumn& column = feature_schema()[at];
        columns[at] = column_class(column.name, column.type, name(column.unit), name(column.view), column.definition);
    }
    return result_class("FeatureSchema")(feature_schema_version, columns);
}

py::memoryview column_named(const FeatureTable& table, Text name) {
    const std::size_t at = feature_column(name.view);
    if (at == feature_count) throw py::key_error(std::string{name.view});
    return py::memoryview(py::cast(ColumnBuffer{table, at}));
}

py::object numpy_array(const py::object& table) {
    try {
        return py::module_::import("numpy").attr("asarray")(table);
    } catch (py::error_already_set& error) {
        if (!error.matches(PyExc_ModuleNotFoundError)) throw;
        throw py::import_error("to_numpy() needs the package numpy; without it, memoryview(table) gives the numbers");
    }
}

ArrowSchema schema_for_arrow() {
    std::vector<ArrowField> fields;
    for (const FeatureColumn& column : feature_schema()) fields.push_back({std::string{column.name}});
    return arrow_schema(fields, "keysquare.feature_schema_version", std::to_string(feature_schema_version));
}

ArrowArray array_for_arrow(const FeatureTable& table) {
    std::vector<ArrowBuffers> columns(feature_count);
    for (std::size_t at = 0; at < feature_count; ++at) columns[at].buffers[1] = table.column(at).data();
    return arrow_array(static_cast<std::int64_t>(table.rows), std::move(columns), table.numbers);
}

/// A stream of one batch.
struct OneBatch {
    FeatureTable table;
    bool is_given = false;
};

int no_memory_or(const auto& work) noexcept {
    try {
        work();
        return 0;
    } catch (const std::bad_alloc&) {
        return ENOMEM;
    }
}

ArrowArrayStream stream_for_arrow(const FeatureTable& table) {
    ArrowArrayStream made{};
    made.private_data = new OneBatch{table};
    made.get_schema = [](ArrowArrayStream*, ArrowSchema* out) {
        return no_memory_or([&] { *out = schema_for_arrow(); });
    };
    made.get_next = [](ArrowArrayStream* self, ArrowArray* out) {
        auto& batch = *static_cast<OneBatch*>(self->private_data);
        return no_memory_or([&] {
            *out = batch.is_given ? ArrowArray{} : array_for_arrow(batch.table);
            batch.is_given = true;
        });
    };
    made.get_last_error = [](ArrowArrayStream*) -> const char* { return nullptr; };
    made.release = [](ArrowArrayStream* self) {
        delete static_cast<OneBatch*>(self->private_data);
        self->release = nullptr;
    };
    return made;
}

py::tuple state_of(const FeatureTable& table) {
    const auto* bytes = reinterpret_cast<const char*>(table.numbers.get());
    return py::make_tuple(feature_schema_version, table.rows,
                          py::bytes(bytes, feature_count * table.rows * sizeof(std::int16_t)));
}

FeatureTable table_from(const py::tuple& state) {
    const auto rows = state[1].cast<std::size_t>();
    const auto bytes = state[2].cast<std::string_view>();
    if (state[0].cast<int>() != feature_schema_version || bytes.size() != feature_count * rows * sizeof(std::int16_t))
        throw py::value_error("a table of another version of the schema");
    const auto numbers = room_for(rows);
    std::memcpy(numbers.get(), bytes.data(), bytes.size());
    return {rows, numbers};
}

void register_table(py::module_& module) {
    py::class_<ColumnBuffer>(module, "_ColumnBuffer", py::buffer_protocol()).def_buffer([](const ColumnBuffer& buffer) {
        const auto numbers = buffer.table.column(buffer.column);
        return buffer_of(numbers.data(), {static_cast<py::ssize_t>(numbers.size())}, {sizeof(std::int16_t)});
    });

    py::class_<FeatureTable> type(
        module, "FeatureTable", py::buffer_protocol(),
        "The numbers of many positions: a row for each position, a column for each FeatureColumn of the schema.\n\n"
        "Read-only. Speaks the buffer protocol (numpy.asarray) and the Arrow PyCapsule interface (pyarrow.table, "
        "polars.DataFrame, DuckDB, pandas), all without copying. Pickles.");

    type.def_buffer([](const FeatureTable& table) {
        constexpr auto size = static_cast<py::ssize_t>(sizeof(std::int16_t));
        const auto rows = static_cast<py::ssize_t>(table.rows);
        return buffer_of(table.numbers.get(), {rows, static_cast<py::ssize_t>(feature_count)}, {size, rows * size});
    });
    type.def_property_readonly(
            "columns", [](const FeatureTable&) { return column_names(); },
            "The names of the columns, a tuple of text in the order of the schema.")
        .def_property_readonly(
            "schema_version", [](const FeatureTable&) { return feature_schema_version; },
            "The version of the schema that the numbers belong to.")
        .def("__len__", [](const FeatureTable& table) { return table.rows; })
        .def("__getitem__", &column_named, py::arg("column"),
             "One column by its name: a memoryview of int16, one number for each position. Raises KeyError.")
        .def(
            "keys", [](const FeatureTable&) { return column_names(); }, "The names of the columns, for dict(table).")
        .def("to_numpy", &numpy_array,
             "The numbers as a numpy array of int16 with the shape (rows, columns): a read-only view, without copying. "
             "Raises ImportError where numpy is not installed.")
        .def("__repr__", [](const FeatureTable& table) {
            return joined_text("<keysquare.FeatureTable, ", std::to_string(table.rows), " rows, ",
                               std::to_string(feature_count), " columns>");
        });
    type.def(
            "__arrow_c_schema__", [](const FeatureTable&) { return arrow_capsule(schema_for_arrow(), "arrow_schema"); },
            "The Arrow schema as a capsule: a struct of int16 columns.")
        .def(
            "__arrow_c_array__",
            [](const FeatureTable& table, const py::object&) {
                return py::make_tuple(arrow_capsule(schema_for_arrow(), "arrow_schema"),
                                      arrow_capsule(array_for_arrow(table), "arrow_array"));
            },
            py::arg("requested_schema") = py::none(),
            "Schema and numbers as capsules. Another schema is never made: `requested_schema` is not looked at.")
        .def(
            "__arrow_c_stream__",
            [](const FeatureTable& table, const py::object&) {
                return arrow_capsule(stream_for_arrow(table), "arrow_array_stream");
            },
            py::arg("requested_schema") = py::none(),
            "A stream of one batch as a capsule. Another schema is never made: `requested_schema` is not looked at.")
        .def(py::pickle(&state_of, &table_from));
}

} // namespace

void register_feature_table(py::module_& module) {
    register_table(module);

    module.def("feature_schema", &python_schema,
               "What the columns of `features` are: a FeatureSchema, with name, type, unit, point of view and "
               "definition of each.");

    module.def(
        "features",
        [](const py::object& positions) {
            const std::vector<Position> read = positions_in(positions);
            const py::gil_scoped_release released; // the positions are our own
            return table_of(read);
        },
        py::arg("positions"),
        "The numeric vector of each position, static features only: a FeatureTable.\n\n"
        "`positions`: an iterable of Position objects and FENs (for a game, game.positions()), or a column of FENs, "
        "which is read where it lies, without a Python object for each: whatever speaks the Arrow PyCapsule interface "
        "and holds text (string, large_string or string_view; an array, a chunked one, a Series of polars or pandas), "
        "or a numpy array of one dimension of text (dtype U) or bytes (dtype S).\n\n"
        "Raises InputError for a FEN that can't be read and for a null (`missing_field`); its message names the index, "
        "from 0. Raises TypeError for what holds no positions, ValueError for a damaged Arrow array, RuntimeError when "
        "an Arrow stream breaks off. `feature_schema` says what the columns are. More than half a million positions a "
        "second; 500 bytes a row.\n\n"
        ">>> fens = [\"4k3/8/8/8/8/8/4P3/4K3 w - - 0 1\", \"4k3/8/8/8/8/8/8/4K3 b - - 0 1\"]\n"
        ">>> list(features(pyarrow.array(fens))[\"white_pawns\"])\n"
        "[1, 0]");
}

} // namespace keysquare::python
