// Scans and summaries of game files. Threads of the library do the work; Python waits for what they made.
#include "scan.hpp"

#include <pybind11/stl/filesystem.h>

#include <atomic>
#include <cerrno>

#include "arrow_capsule.hpp"

namespace keysquare::python {

namespace {

using std::chrono::milliseconds;

/// How long to wait before looking whether somebody wants to stop.
constexpr milliseconds patience{100};

/// A scan that only one thread uses at a time.
class HeldScan {
  public:
    HeldScan(std::vector<Shard> shards, std::vector<ChosenColumn> columns, RowFilter filter, int threads)
        : scan_(std::move(shards), std::move(columns), std::move(filter), threads) {}

    /// Waits a little. Needs no GIL.
    Scan::Event next(std::shared_ptr<const RowBatch>& batch) {
        const Busy busy{busy_};
        return scan_.next(batch, patience);
    }
    void stop() {
        const Busy busy{busy_};
        scan_.stop();
    }
    [[nodiscard]] ScanCounts counts() {
        const Busy busy{busy_};
        return scan_.counts();
    }
    [[nodiscard]] const Scan& scan() const noexcept { return scan_; }

  private:
    class Busy {
      public:
        explicit Busy(std::atomic<bool>& flag) : flag_(flag) {
            if (flag_.exchange(true)) throw std::runtime_error("the scan is in use in another thread");
        }
        Busy(const Busy&) = delete;
        Busy& operator=(const Busy&) = delete;
        ~Busy() { flag_ = false; }

      private:
        std::atomic<bool>& flag_;
    };

    Scan scan_;
    std::atomic<bool> busy_ = false;
};

/// A scan as an Arrow stream. The consumer may call from any thread, with the GIL or without it.
class ScanStream {
  public:
    ScanStream(std::shared_ptr<HeldScan> scan, py::object tick, py::object end)
        : scan_(std::move(scan)), tick_(std::move(tick)), end_(std::move(end)) {}
    ScanStream(const ScanStream&) = delete;
    ScanStream& operator=(const ScanStream&) = delete;
    ~ScanStream() {
        const py::gil_scoped_acquire acquired;
        tick_ = {};
        end_ = {};
    }

    int get_schema(ArrowSchema& out) noexcept {
        return guarded([&] {
            out = arrow_schema(scan_->scan().columns());
            return 0;
        });
    }
    int get_next(ArrowArray& out) noexcept {
        return guarded([&] {
            std::shared_ptr<const RowBatch> batch;
            for (Scan::Event event = Scan::Event::timeout; event == Scan::Event::timeout;) {
                event = wait(batch);
                if (!tick(event == Scan::Event::end)) return EINTR;
            }
            out = batch ? arrow_array(batch) : ArrowArray{};
            return 0;
        });
    }
    [[nodiscard]] const char* last_error() const noexcept { return error_.empty() ? nullptr : error_.c_str(); }

  private:
    template <class Work> int guarded(Work work) noexcept {
        try {
            error_.clear();
            return work();
        } catch (const std::bad_alloc&) {
            return ENOMEM;
        } catch (const std::exception& error) {
            error_ = error.what();
            return EIO;
        }
    }

    Scan::Event wait(std::shared_ptr<const RowBatch>& batch) {
        if (PyGILState_Check() == 0) return scan_->next(batch);
        const py::gil_scoped_release released;
        return scan_->next(batch);
    }

    /// Lets Python see to signals and to the progress bar. False when it wants to stop.
    bool tick(bool at_end) {
        const py::gil_scoped_acquire acquired;
        try {
            if (PyErr_CheckSignals() != 0) throw py::error_already_set();
            tick_();
            if (at_end) end_();
            return true;
        } catch (py::error_already_set& raised) {
            // An exception can't go through the interface, so an interruption becomes the consumer's error.
            error_ = raised.matches(PyExc_KeyboardInterrupt) ? "interrupted" : raised.what();
            const py::gil_scoped_release released;
            scan_->stop();
            return false;
        }
    }

    std::shared_ptr<HeldScan> scan_;
    py::object tick_;
    py::object end_;
    std::string error_;
};

ArrowArrayStream stream_of(std::shared_ptr<HeldScan> scan, py::object tick, py::object end) {
    ArrowArrayStream made{};
    made.private_data = new ScanStream(std::move(scan), std::move(tick), std::move(end));
    made.get_schema = [](ArrowArrayStream* self, ArrowSchema* out) {
        return static_cast<ScanStream*>(self->private_data)->get_schema(*out);
    };
    made.get_next = [](ArrowArrayStream* self, ArrowArray* out) {
        return static_cast<ScanStream*>(self->private_data)->get_next(*out);
    };
    made.get_last_error = [](ArrowArrayStream* self) {
        return static_cast<ScanStream*>(self->private_data)->last_error();
    };
    made.release = [](ArrowArrayStream* self) {
        delete static_cast<ScanStream*>(self->private_data);
        self->release = nullptr;
    };
    return made;
}

using HeldBatch = std::shared_ptr<const RowBatch>;

template <class Number> Number number_at(const BatchColumn& data, std::size_t row) noexcept {
    Number number;
    std::memcpy(&number, &data.numbers[row * sizeof number], sizeof number);
    return number;
}

py::object value_at(const BatchColumn& data, ColumnType type, std::size_t row) {
    if (!data.valid.empty() && (data.valid[row / 8] >> row % 8 & 1) == 0) return py::none();
    switch (type) {
    case ColumnType::int16: return py::int_(number_at<std::int16_t>(data, row));
    case ColumnType::int32: return py::int_(number_at<std::int32_t>(data, row));
    case ColumnType::int64: return py::int_(number_at<std::int64_t>(data, row));
    case ColumnType::uint64: return py::int_(number_at<std::uint64_t>(data, row));
    case ColumnType::float64: return py::float_(number_at<double>(data, row));
    case ColumnType::utf8: break;
    }
    const auto begin = static_cast<std::size_t>(number_at<std::int32_t>(data, row));
    const auto end = static_cast<std::size_t>(number_at<std::int32_t>(data, row + 1));
    return text_from(std::string_view{data.text}.substr(begin, end - begin));
}

py::list column_named(const RowBatch& batch, Text name) {
    const auto& columns = batch.columns().all;
    const auto found = std::ranges::find(columns, name.view, &ChosenColumn::name);
    if (found == columns.end()) throw py::key_error(std::string{name.view});
    py::list values(batch.size());
    const BatchColumn& data = batch.data(static_cast<std::size_t>(found - columns.begin()));
    for (std::size_t row = 0; row < batch.size(); ++row) values[row] = value_at(data, found->type, row);
    return values;
}

py::tuple python_columns() {
    const py::object column_class = result_class("ScanColumn");
    py::list columns;
    const auto add = [&](std::span<const ScanColumn> table, ColumnGroup group) {
        for (const ScanColumn& column : table)
            columns.append(
                column_class(column.name, name(column.type), name(group), column.may_be_missing, column.definition));
    };
    add(game_columns(), ColumnGroup::game);
    for (const FeatureColumn& column : feature_schema())
        columns.append(column_class(column.name, column.type, name(ColumnGroup::vector), false, column.definition));
    add(search_columns(), ColumnGroup::search);
    return py::tuple(columns);
}

void register_batch(py::module_& module) {
    py::class_<RowBatch, std::shared_ptr<RowBatch>> type(
        module, "RowBatch",
        "Rows of a scan, column by column. Read-only. Speaks the Arrow PyCapsule interface (pyarrow.record_batch, "
        "polars.DataFrame, DuckDB, pandas), without copying.");
    type.def_property_readonly(
            "columns", [](const RowBatch& batch) { return names_of(batch.columns().all); },
            "The names of the columns, a tuple of text.")
        .def("__len__", &RowBatch::size)
        .def("__getitem__", &column_named, py::arg("column"),
             "One column by its name: a list with a value for each row, None where there is none. Raises KeyError.")
        .def(
            "keys", [](const RowBatch& batch) { return names_of(batch.columns().all); },
            "The names of the columns, for dict(batch).")
        .def("__repr__",
             [](const RowBatch& batch) {
                 return joined_text("<keysquare.RowBatch, ", std::to_string(batch.size()), " rows, ",
                                    std::to_string(batch.columns().all.size()), " columns>");
             })
        .def(
            "__arrow_c_schema__",
            [](const RowBatch& batch) { return arrow_capsule(arrow_schema(batch.columns()), "arrow_schema"); },
            "The Arrow schema as a capsule.")
        .def(
            "__arrow_c_array__",
            [](const std::shared_ptr<RowBatch>& batch, const py::object&) {
                return py::make_tuple(arrow_capsule(arrow_schema(batch->columns()), "arrow_schema"),
                                      arrow_capsule(arrow_array(batch), "arrow_array"));
            },
            py::arg("requested_schema") = py::none(),
            "Schema and rows as capsules. Another schema is never made: `requested_schema` is not looked at.");
}

} // namespace

std::vector<ChosenColumn> columns_named(const std::vector<std::string>& names) {
    std::vector<ChosenColumn> columns;
    for (const std::string& name : names) {
        const auto column = scan_column(name);
        if (!column)
            throw py::value_error(joined_text("no column is called \"", name,
                                              "\"; scan_columns() lists them, and names of tags begin with a capital"));
        if (std::ranges::find(columns, name, &ChosenColumn::name) != columns.end())
            throw py::value_error(joined_text("the column \"", name, "\" is asked for twice"));
        columns.push_back(*column);
    }
    return columns;
}

py::tuple names_of(const std::vector<ChosenColumn>& columns) {
    py::tuple names(columns.size());
    for (std::size_t at = 0; at < columns.size(); ++at) names[at] = text_from(columns[at].name);
    return names;
}

std::vector<Shard> shards_of(const std::vector<ShardParts>& parts) {
    std::vector<Shard> shards;
    for (const auto& [file, begin, end] : parts) shards.push_back({file, begin, end.value_or(Shard::to_the_end)});
    return shards;
}

RowFilter filter_of(const std::vector<TagParts>& tags, const std::vector<RatingParts>& ratings, const PlyParts& plies) {
    constexpr std::array<std::string_view, 3> players{"white", "black", "both"}; // in the order of RatedPlayer
    RowFilter filter;
    for (const auto& [tag, any_of, first, last] : tags) filter.games.tags.push_back({tag, any_of, first, last});
    for (const auto& [player, least, greatest] : ratings) {
        const auto* const found = std::ranges::find(players, player);
        if (found == players.end()) throw py::value_error("ratings are those of white, black or both");
        constexpr int any = (std::numeric_limits<int>::max)();
        filter.games.ratings.push_back(
            {static_cast<RatedPlayer>(found - players.begin()), least.value_or(0), greatest.value_or(any)});
    }
    const auto& [first, last, step] = plies;
    if (step == 0) throw py::value_error("the step from ply to ply is at least 1");
    filter.plies = {first, last.value_or((std::numeric_limits<std::size_t>::max)()), step};
    return filter;
}

py::object python_counts(const ScanCounts& counts) {
    py::dict by_reason;
    for (const auto& [reason, games] : counts.refused_by_reason) by_reason[text_from(name(reason))] = games;
    py::list refused;
    for (const RefusedGame& game : counts.refused)
        refused.append(result_class("RefusedGame")(0, game.game_offset, python_error(game.error), py::dict()));
    return result_class("ScanCounts")(counts.games, counts.left_out, counts.positions, by_reason, py::tuple(refused));
}

py::object python_progress(const ScanProgress& progress) {
    return result_class("ScanProgress")(progress.bytes, progress.of_bytes, progress.games, progress.positions);
}

void register_scan(py::module_& module) {
    module.def(
        "shards",
        [](const std::vector<std::filesystem::path>& files, std::uint64_t size) {
            if (size == 0) throw py::value_error("a shard has at least one byte");
            py::list all;
            for (const Shard& shard : shards(files, size))
                all.append(py::make_tuple(shard.file.string(), shard.begin,
                                          shard.end == Shard::to_the_end ? py::object(py::none())
                                                                         : py::object(py::int_(shard.end))));
            return all;
        },
        py::arg("files"), py::arg("size"), "Parts of files as tuples: file, first byte, byte after the last or None.");
    module.def("scan_columns", &python_columns,
               "All columns that scans and summaries can give, as ScanColumn objects: what is known of the game, the "
               "numeric vector, and what needs a search. Beside these there are the tags, by their names in PGN.");
    register_batch(module);

    py::class_<HeldScan, std::shared_ptr<HeldScan>>(module, "_Scan", "The threads of a scan.")
        .def(py::init([](const std::vector<ShardParts>& shards, const std::vector<std::string>& columns,
                         const std::vector<TagParts>& tags, const std::vector<RatingParts>& ratings,
                         const PlyParts& plies, int threads) {
                 return std::make_shared<HeldScan>(shards_of(shards), columns_named(columns),
                                                   filter_of(tags, ratings, plies), threads);
             }),
             py::arg("shards"), py::arg("columns"), py::arg("tags"), py::arg("ratings"), py::arg("plies"),
             py::arg("threads"))
        .def(
            "next",
            [](HeldScan& self) -> py::object {
                std::shared_ptr<const RowBatch> batch;
                Scan::Event event{};
                {
                    const py::gil_scoped_release released;
                    event = self.next(batch);
                }
                if (event == Scan::Event::end) throw py::stop_iteration();
                if (!batch) return py::none();
                return py::cast(std::const_pointer_cast<RowBatch>(batch)); // its methods change nothing
            },
            "The next batch, None when there was none within a tenth of a second. Raises StopIteration.")
        .def("stop", &HeldScan::stop, py::call_guard<py::gil_scoped_release>(), "Ends the threads.")
        .def(
            "arrow_stream",
            [](const std::shared_ptr<HeldScan>& self, const py::object& tick, const py::object& end) {
                return arrow_capsule(stream_of(self, tick, end), "arrow_array_stream");
            },
            py::arg("tick"), py::arg("end"),
            "The batches as an Arrow stream; `tick()` is called now and then, `end()` when there are no more.")
        .def_property_readonly(
            "counts", [](HeldScan& self) { return python_counts(self.counts()); }, "Of what was given so far.")
        .def_property_readonly(
            "progress", [](const HeldScan& self) { return python_progress(self.scan().progress()); }, "How far it is.")
        .def(
            "schema",
            [](const HeldScan& self) { return arrow_capsule(arrow_schema(self.scan().columns()), "arrow_schema"); },
            "The Arrow schema as a capsule.");
    register_summary(module);
}

} // namespace keysquare::python
