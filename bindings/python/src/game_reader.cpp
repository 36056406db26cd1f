// GameReader: an iterator over the games of a file or of a Python stream.
#include "games.hpp"

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

enum class OnError : std::uint8_t { skip, raise, keep };

OnError on_error_named(std::string_view text) {
    if (text == "skip") return OnError::skip;
    if (text == "raise") return OnError::raise;
    if (text == "keep") return OnError::keep;
    throw py::value_error("on_error is \"skip\", \"raise\" or \"keep\"");
}

class GameReader {
  public:
    GameReader(std::unique_ptr<ByteSource> source, OnError on_error, std::size_t most_refused)
        : on_error_(on_error), most_refused_(most_refused) {
        const py::gil_scoped_release released;
        reader_.emplace(std::move(source), PgnOptions{.keep_moves_before_fault = on_error == OnError::keep});
    }

    std::shared_ptr<HeldGame> next() {
        for (;;) {
            require_idle();
            if (!reader_) throw py::stop_iteration();
            auto held = std::make_shared<HeldGame>();
            const Reading reading = read(*held);
            counts_ = reader_->counts();
            if (reading == Reading::end)
                close();
            else if (reading == Reading::game)
                return held;
            else
                note_refused(*held);
        }
    }

    void close() {
        require_idle();
        reader_.reset();
    }

    [[nodiscard]] const py::list& refused() const noexcept { return refused_; }
    [[nodiscard]] py::object counts() const {
        return result_class("ReadingCounts")(counts_.read, counts_.refused, counts_.with_notices);
    }

  private:
    /// The GIL is released while a game is parsed; `busy_` keeps a second thread out meanwhile.
    Reading read(HeldGame& held) {
        const auto parse = [&] {
            const py::gil_scoped_release released;
            return reader_->next(held.game);
        };
        busy_ = true;
        try {
            const Reading reading = parse();
            busy_ = false;
            held.number = reader_->game_number();
            held.offset = reader_->game_offset();
            if (reading == Reading::game) held.notices = reader_->notices();
            return reading;
        } catch (...) { // a stream that raised can't be read on
            busy_ = false;
            close();
            throw;
        }
    }

    void require_idle() const {
        if (busy_) throw std::runtime_error("the reader is in use in another thread");
    }

    void note_refused(const HeldGame& held) {
        const InputError error = reader_->error();
        if (refused_.size() < most_refused_) {
            py::dict tags;
            for (std::size_t at = 0; at < held.game.tag_count(); ++at)
                tags[text_from(held.game.tag_at(at).name)] = text_from(held.game.tag_at(at).value);
            refused_.append(result_class("RefusedGame")(held.number, held.offset, python_error(error), tags));
        }
        if (on_error_ == OnError::raise) throw error;
    }

    std::optional<PgnReader> reader_; // none once it is closed
    OnError on_error_;
    std::size_t most_refused_;
    PgnCounts counts_;
    py::list refused_;
    bool busy_ = false; // guarded by the GIL
};

std::unique_ptr<ByteSource> source_from(const py::object& source) {
    if (py::hasattr(source, "read")) return std::make_unique<PythonSource>(source);
    if (const auto text = text_in(source); text && text->find('\n') != std::string_view::npos)
        throw py::value_error(
            "this is a text, not the path of a file: give io.StringIO(text), or call game_from_text(text)");
    const auto path = py::reinterpret_steal<py::object>(PyOS_FSPath(source.ptr()));
    if (!path) throw py::error_already_set();
    return open_game_file(path.cast<std::filesystem::path>()).value();
}

} // namespace

void register_game_reader(py::module_& module) {
    py::class_<GameReader> type(
        module, "GameReader",
        "An iterator over the games of a PGN text, which reads one at a time and needs memory for "
        "one. Also a context manager that closes the text.");

    type.def_property_readonly("refused", &GameReader::refused,
                               "The games that could not be read so far, as RefusedGame objects.")
        .def_property_readonly("counts", &GameReader::counts, "How many games were read and refused so far.");

    type.def("close", &GameReader::close, "Stops the reading and lets go of the file.")
        .def("__iter__", [](py::object self) { return self; })
        .def("__next__", &GameReader::next)
        .def("__enter__", [](py::object self) { return self; })
        .def("__exit__", [](GameReader& self, const py::args&) { self.close(); });

    module.def(
        "read_games",
        [](const py::object& source, Text on_error, std::size_t most_refused) {
            const OnError what_then = on_error_named(on_error.view);
            return std::make_unique<GameReader>(source_from(source), what_then, most_refused);
        },
        py::arg("source"), py::kw_only(), py::arg("on_error") = Text{"skip"}, py::arg("most_refused") = 10'000,
        "The games of a PGN file, one at a time: a GameReader.\n\n"
        "`source`: a path, or an object whose `read(size)` gives text or bytes (a binary stream is best: Latin-1 is "
        "then understood too). A game that can't be read costs no other. `on_error`: \"skip\" notes it in `refused` "
        "and goes on; \"raise\" raises its InputError, after which the iteration can go on with the next game; "
        "\"keep\" gives the moves before the fault, which then is in `Game.notices`. At most `most_refused` games are "
        "described in `refused`; `counts` counts all.\n\n"
        "Raises InputError (`cannot_open`) when there is no such file.");

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
