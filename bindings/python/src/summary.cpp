// Summaries: statistics by groups, and the threads that make them.
#include "scan.hpp"

#include <pybind11/stl/filesystem.h>

namespace keysquare::python {

namespace {

const SummaryGroup& group_of(const Summary& summary, const GroupKey& key) {
    const auto found = summary.groups().find(key);
    if (found == summary.groups().end()) throw py::key_error("no such group");
    return found->second;
}

py::tuple python_group(const Summary& summary, const GroupKey& key) {
    const SummaryGroup& group = group_of(summary, key);
    return py::make_tuple(group.positions, group.games, py::tuple(py::cast(group.results)));
}

py::tuple python_statistics(const Summary& summary, const GroupKey& key, Text column) {
    const SummaryGroup& group = group_of(summary, key);
    const auto& columns = summary.columns();
    const auto found = std::ranges::find(columns, column.view, &ChosenColumn::name);
    if (found == columns.end()) throw py::key_error(std::string{column.view});
    const Statistics& statistics = group.columns[static_cast<std::size_t>(found - columns.begin())];
    const Sums& sums = statistics.sums();
    const Histogram& histogram = statistics.histogram();
    const py::int_ squares =
        py::int_(sums.squares.high).attr("__lshift__")(64).attr("__or__")(py::int_(sums.squares.low));
    return py::make_tuple(found->grain.scale, sums.count, sums.missing, sums.sum, squares, sums.least, sums.greatest,
                          statistics.mean(), statistics.variance(), histogram.begin(), histogram.width(),
                          histogram.counts());
}

Summary summary_from(std::string_view bytes) {
    std::optional<Summary> summary = Summary::from_bytes(bytes);
    if (!summary) throw py::value_error("these bytes are no summary, or one of another version");
    return *std::move(summary);
}

Summary sum_of(const Summary& first, const Summary& second) {
    if (!first.is_like(second)) throw py::value_error("summaries of other groups or columns can't be added");
    Summary sum = first;
    sum += second;
    return sum;
}

std::vector<ChosenColumn> summable(const std::vector<std::string>& names) {
    std::vector<ChosenColumn> columns = columns_named(names);
    for (const ChosenColumn& column : columns)
        if (!is_summable(column))
            throw py::value_error(
                joined_text("\"", column.name, "\" holds no numbers to sum up; a text can tell groups apart"));
    return columns;
}

} // namespace

void register_summary(py::module_& module) {
    py::class_<Summary>(module, "_Summary", "The numbers of a summary.")
        .def_property_readonly("by", [](const Summary& summary) { return names_of(summary.by()); })
        .def_property_readonly("columns", [](const Summary& summary) { return names_of(summary.columns()); })
        .def_property_readonly("counts", [](const Summary& summary) { return python_counts(summary.counts()); })
        .def("keys",
             [](const Summary& summary) {
                 py::list keys;
                 for (const auto& [key, group] : summary.groups()) keys.append(py::tuple(py::cast(key)));
                 return keys;
             })
        .def("group", &python_group, py::arg("key"))
        .def("statistics", &python_statistics, py::arg("key"), py::arg("column"))
        .def("__add__", &sum_of, py::call_guard<py::gil_scoped_release>())
        .def("__eq__", [](const Summary& self, const Summary& other) { return self == other; })
        .def(py::pickle([](const Summary& summary) { return py::bytes(summary.bytes()); },
                        [](const py::bytes& state) { return summary_from(std::string_view{state}); }));

    py::class_<Summarising>(module, "_Summarising", "The threads that make a summary.")
        .def(py::init([](const std::vector<ShardParts>& shards, const std::vector<std::string>& by,
                         const std::vector<std::string>& columns, const std::vector<TagParts>& tags,
                         const std::vector<RatingParts>& ratings, const PlyParts& plies, int threads) {
                 return std::make_unique<Summarising>(shards_of(shards), Summary{columns_named(by), summable(columns)},
                                                      filter_of(tags, ratings, plies), threads);
             }),
             py::arg("shards"), py::arg("by"), py::arg("columns"), py::arg("tags"), py::arg("ratings"),
             py::arg("plies"), py::arg("threads"))
        .def(
            "wait", [](Summarising& self) { return self.wait(std::chrono::milliseconds{100}); },
            py::call_guard<py::gil_scoped_release>(), "Whether it is done, after a tenth of a second at most.")
        .def("result", &Summarising::result, py::call_guard<py::gil_scoped_release>(), "Once, when it is done.")
        .def("stop", &Summarising::stop, py::call_guard<py::gil_scoped_release>(), "Ends the threads.")
        .def_property_readonly(
            "progress", [](const Summarising& self) { return python_progress(self.progress()); }, "How far it is.");
}

} // namespace keysquare::python
