// What the bindings of scans and summaries share: their arguments, and counts.
#pragma once

#include "bindings.hpp"

#include <keysquare/research/summary.hpp>

namespace keysquare::python {

// Arguments as Python's tuples have them.
using ShardParts = std::tuple<std::filesystem::path, std::uint64_t, std::optional<std::uint64_t>>; // file, begin, end
using TagParts = std::tuple<std::string, std::vector<std::string>, std::optional<std::string>,
                            std::optional<std::string>>;                             // tag, any of these, first, last
using RatingParts = std::tuple<std::string, std::optional<int>, std::optional<int>>; // of whom, least, greatest
using PlyParts = std::tuple<std::size_t, std::optional<std::size_t>, std::size_t>;   // first, last, step

std::vector<Shard> shards_of(const std::vector<ShardParts>& parts);
/// All throw `py::value_error`.
RowFilter filter_of(const std::vector<TagParts>& tags, const std::vector<RatingParts>& ratings, const PlyParts& plies);
std::vector<ChosenColumn> columns_named(const std::vector<std::string>& names);

py::tuple names_of(const std::vector<ChosenColumn>& columns);
py::object python_counts(const ScanCounts& counts);
py::object python_progress(const ScanProgress& progress);

void register_summary(py::module_& module);

} // namespace keysquare::python
