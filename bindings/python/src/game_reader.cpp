// GameReader: an iterator over the games of a file or of a Python stream.
#include "games.hpp"
#include "signals.hpp"

#include <pybind11/stl/filesystem.h>

#include <algorithm>
#include <cstring>

#include <keysquare/notation/game_file.hpp>

namespace keysquare::python {

namespace {

/// The bytes of a Python object with `read(size)`, which gives text or bytes.
class PythonSource final : public ByteSource {
  public:
    explicit PythonSource(py::object stream) : stream_(std::move(stream)) {}
    ~PythonSource() override {
        const py::gil_scoped_acquire acquired;
        stream_ = {};
    }
    PythonSource(const PythonSource&) = delete;
    PythonSource& operator=(const PythonSource&) = delete;

    std::size_t read(char* to, std::size_t size) override {
        if (rest_.empty()) fetch(size);
        const std::size_t count = (std::min)(size, rest_.size());
        std::memcpy(to, rest_.data(), count);
        rest_.erase(0, count);
        return count;
    }

  private:
    /// Parsing runs without the GIL, so it is taken for each chunk. What Python raises goes up through the parser.
    void fetch(std::size_t size) {
        const py::gil_scoped_acquire acquired;
        heed_signals();
        py::object chunk = stream_.attr("read")(size);
        if (PyUnicode_Check(chunk.ptr())) // bytes that a decoder could not read come back as they were
            chunk =
                py::reinterpret_steal<py::object>(PyUnicode_AsEncodedString(chunk.ptr(), "utf-8", "surrogateescape"));
        if (!chunk) throw py::error_already_set();
        if (!PyBytes_Check(chunk.ptr())) throw py::type_error("read() gave neither text nor bytes");
        rest_ = chunk.cast<std::string>();
    }

    py::object stream_;
    std::string rest_;
};

/// A source that heeds signals now and then: what has no end of a game in it may be long, once it is decompressed.
class HeedingSource final : public ByteSource {
  public:
    explicit HeedingSource(std::unique_ptr<ByteSource> source) : source_(std::move(source)) {}

    std::size_t read(char* to, std::size_t size) override {
        if (unheeded_ >= heeded_each) {
            const py::gil_scoped_acquire acquired;
            heed_signals();
            unheeded_ = 0;
        }
        const std::size_t count = source_->read(to, size);
        unheeded_ += count;
        return count;
    }

  private:
    static constexpr std::size_t heeded_each = std::size_t{1} << 24U; // bytes
    std::unique_ptr<ByteSource> source_;
    std::size_t unheeded_ = 0;
};

enum class OnError : std::uint8_t { skip, raise, keep };

OnError on_error_named(std::string_view text) {
    if (text == "skip") return OnError::skip;
    if (text == "raise") return OnError::raise;
    if (text == "keep") return OnError::keep;
    throw py::value_error("on_error is \"skip\", \"raise\" or \"keep\"");
}

/// The files that a reader goes through.
using Paths = std::vector<std::filesystem::path>;

class GameReader {
  public:
    /// Reads a stream.
    GameReader(std::unique_ptr<ByteSource> source, OnError on_error, std::size_t most_refused)
        : on_error_(on_error), most_refused_(most_refused) {
        const py::gil_scoped_release released;
        reader_.emplace(decompressed(std::move(source)).value(), options());
    }

    /// Reads files in reverse order. Opens the first at once when it is the only one.
    GameReader(Paths files, OnError on_error, std::size_t most_refused)
        : files_(std::move(files)), on_error_(on_error), most_refused_(most_refused) {
        if (files_.size() == 1) open_next_file();
    }

    std::shared_ptr<HeldGame> next() {
        for (;;) {
            heed_signals(); // list(reader) runs no Python code, and a file of refused games none either
            require_idle();
            if (broke_off_) throw std::runtime_error("the reader broke off with an exception; open the files again");
            if (!reader_ && files_.empty()) throw py::stop_iteration();
            if (!reader_) {
                if (const std::optional<InputError> error = error_of_next_file()) note_refused({}, *error);
                continue;
            }
            auto held = std::make_shared<HeldGame>();
            const Reading reading = read(*held);
            if (reading == Reading::game) return held;
            if (reading == Reading::refused)
                note_refused(*held, InputError{reader_->error()});
            else
                leave_file();
        }
    }

    void close() {
        require_idle();
        leave_file();
        files_.clear();
        broke_off_ = false;
    }

    [[nodiscard]] const py::list& refused() const noexcept { return refused_; }
    [[nodiscard]] py::object counts() const {
        return result_class("ReadingCounts")(counts_.read, counts_.refused, counts_.with_notices);
    }
    [[nodiscard]] std::string in_short() const {
        return joined_text("<keysquare.GameReader ", file_.empty() ? "" : file_ + ", ", std::to_string(counts_.read),
                           " read, ", std::to_string(counts_.refused), " refused>");
    }

  private:
    /// Keeps a second thread out while the GIL is released.
    class Busy {
      public:
        explicit Busy(bool& flag) noexcept : flag_(flag) { flag_ = true; }
        Busy(const Busy&) = delete;
        Busy& operator=(const Busy&) = delete;
        ~Busy() { flag_ = false; }

      private:
        bool& flag_;
    };

    [[nodiscard]] PgnOptions options() const {
        PgnOptions options;
        options.keep_moves_before_fault = on_error_ == OnError::keep;
        options.file = file_;
        return options;
    }

    void open_next_file() {
        const std::filesystem::path path = std::move(files_.back());
        files_.pop_back();
        file_ = path.string();
        const Busy busy{busy_};
        const py::gil_scoped_release released;
        reader_.emplace(std::make_unique<HeedingSource>(open_game_file(path).value()), options());
    }

    [[nodiscard]] std::optional<InputError> error_of_next_file() {
        try {
            open_next_file();
            return std::nullopt;
        } catch (const InputError& error) {
            ++counts_before_.refused;
            ++counts_.refused;
            return error;
        }
    }

    void leave_file() {
        counts_before_ = counts_;
        reader_.reset();
    }

    Reading read(HeldGame& held) {
        const auto parse = [&] {
            const Busy busy{busy_};
            const py::gil_scoped_release released;
            return reader_->next(held.game);
        };
        try {
            const Reading reading = parse();
            const PgnCounts& here = reader_->counts();
            counts_ = {.read = counts_before_.read + here.read,
                       .refused = counts_before_.refused + here.refused,
                       .with_notices = counts_before_.with_notices + here.with_notices};
            held.file = file_;
            held.number = reader_->game_number();
            held.offset = reader_->game_offset();
            if (reading == Reading::game) held.notices = reader_->notices();
            return reading;
        } catch (...) { // in the middle of a game: what comes after it can't be told from the rest of it
            close();
            broke_off_ = true; // nobody shall take it for the end
            throw;
        }
    }

    void require_idle() const {
        if (busy_) throw std::runtime_error("the reader is in use in another thread");
    }

    void note_refused(const HeldGame& held, const InputError& error) {
        if (refused_.size() < most_refused_) {
            py::dict tags;
            for (std::size_t at = 0; at < held.game.tag_count(); ++at)
                tags[text_from(held.game.tag_at(at).name)] = text_from(held.game.tag_at(at).value);
            refused_.append(result_class("RefusedGame")(held.number, held.offset, python_error(error), tags));
        }
        if (on_error_ == OnError::raise) throw error;
    }

    std::optional<PgnReader> reader_; // none between files and once it is closed
    Paths files_;                     // those to come, the next one last
    std::string file_;                // that of `reader_`; empty for a stream
    OnError on_error_;
    std::size_t most_refused_;
    PgnCounts counts_;
    PgnCounts counts_before_; // of the files that are done with
    py::list refused_;
    bool busy_ = false; // guarded by the GIL
    bool broke_off_ = false;
};

/// Raises for a file that is not there before anything is read: a slip in a list should not come up after an hour.
Paths paths_in(const py::sequence& files) {
    Paths paths;
    for (std::size_t at = files.size(); at > 0; --at) {
        paths.push_back(path_from(files[at - 1]));
        if (std::error_code ignored; !std::filesystem::exists(paths.back(), ignored))
            throw InputError{Reason::cannot_open, Field::file, 1, paths.back().filename().string()}.in_file(
                paths.back().string());
    }
    return paths;
}

std::unique_ptr<GameReader> reader_of(const py::object& source, OnError on_error, std::size_t most_refused) {
    if (py::hasattr(source, "read"))
        return std::make_unique<GameReader>(std::make_unique<PythonSource>(source), on_error, most_refused);
    if (const auto text = text_in(source); text && text->find('\n') != std::string_view::npos)
        throw py::value_error(
            "this is a text, not the path of a file: give io.StringIO(text), or call game_from_text(text)");
    const bool is_path =
        PyUnicode_Check(source.ptr()) || PyBytes_Check(source.ptr()) || py::hasattr(source, "__fspath__");
    if (!is_path && py::isinstance<py::sequence>(source))
        return std::make_unique<GameReader>(paths_in(source), on_error, most_refused);
    return std::make_unique<GameReader>(Paths{path_from(source)}, on_error, most_refused);
}

} // namespace

std::filesystem::path path_from(const py::object& object) {
    const auto path = py::reinterpret_steal<py::object>(PyOS_FSPath(object.ptr()));
    if (!path) throw py::error_already_set();
    return path.cast<std::filesystem::path>();
}

void register_game_reader(py::module_& module) {
    py::class_<GameReader> type(
        module, "GameReader",
        "An iterator over the games of a PGN text or of several, which reads one at a time and needs memory for "
        "one. Also a context manager that closes the text.");

    type.def_property_readonly("refused", &GameReader::refused,
                               "The games that could not be read so far, as RefusedGame objects.")
        .def_property_readonly("counts", &GameReader::counts,
                               "How many games were read and refused so far, in all files together.");

    type.def("close", &GameReader::close, "Stops the reading and lets go of the file.")
        .def("__iter__", [](py::object self) { return self; })
        .def("__next__", &GameReader::next)
        .def("__repr__", [](const GameReader& self) { return text_from(self.in_short()); })
        .def("__enter__", [](py::object self) { return self; })
        .def("__exit__", [](GameReader& self, const py::args&) { self.close(); });

    module.def(
        "read_games",
        [](const py::object& source, Text on_error, std::size_t most_refused) {
            return reader_of(source, on_error_named(on_error.view), most_refused);
        },
        py::arg("source"), py::kw_only(), py::arg("on_error") = Text{"skip"}, py::arg("most_refused") = 10'000,
        "The games of a PGN file or of several, one at a time: a GameReader.\n\n"
        "`source`: a path, a sequence of paths, which are read one after another, or an object whose `read(size)` "
        "gives text or bytes (a binary stream is best: Latin-1 is then understood too). What begins as gzip, bzip2 or "
        "zstd data do is decompressed on the way.\n\n"
        "A game that can't be read costs no other. `on_error`: \"skip\" notes it in `refused` and goes on; \"raise\" "
        "raises its InputError, after which the iteration can go on with the next game; \"keep\" gives the moves before "
        "the fault, which then is in `Game.notices`. A file that breaks off, or one of several that can't be read from "
        "its start, counts as a refused game. At most `most_refused` games are described in `refused`; `counts` counts "
        "all.\n\n"
        "What a stream raises comes through, and so does KeyboardInterrupt in the middle of a game; what comes after it "
        "can't be read then: the reader raises RuntimeError until it is closed.\n\n"
        "Raises InputError when a file is not there (`cannot_open`), and for a single one that can't be read from its "
        "start (`bad_compression`, `truncated_file`, `compression_left_out`).");

    module.def(
        "game_from_text",
        [](Text text) {
            auto held = std::make_shared<HeldGame>();
            const py::gil_scoped_release released; // the text is an argument, so it stays
            PgnReader reader{std::make_unique<TextSource>(text.view)};
            const Reading reading = reader.next(held->game);
            if (reading == Reading::end) throw InputError{Reason::missing_field, Field::movetext, 1, {}};
            if (reading == Reading::refused) throw reader.error();
            held->notices = reader.notices();
            held->number = reader.game_number();
            held->offset = reader.game_offset();
            return held;
        },
        py::arg("text"),
        "The first game of a PGN text.\n\n"
        "Raises InputError with the reason, the line and the column; `missing_field` when the text holds no game.");
}

} // namespace keysquare::python
