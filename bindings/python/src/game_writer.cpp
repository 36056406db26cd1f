// write_games: games into a file, one after another.
#include "games.hpp"
#include "signals.hpp"

#include <keysquare/notation/game_file.hpp>

namespace keysquare::python {

namespace {

std::uint64_t write_games(const py::iterable& games, const py::object& path) {
    GameFileWriter writer{path_from(path)};
    for (const py::handle item : games) {
        heed_signals(); // a list of games runs no Python code
        if (!py::isinstance<HeldGame>(item)) throw py::type_error("write_games takes Game objects");
        const std::string text = write_pgn(item.cast<const HeldGame&>().game);
        const py::gil_scoped_release released;
        writer.write_text(text);
    }
    const py::gil_scoped_release released;
    writer.close();
    return writer.count();
}

} // namespace

void register_game_writer(py::module_& module) {
    module.def(
        "write_games", &write_games, py::arg("games"), py::arg("path"),
        "Writes games to a PGN file, one after another, and returns how many.\n\n"
        "`games`: any iterable; it is gone through once, in memory for one game. `path`: compressed when it ends "
        "with \".gz\", \".bz2\" or \".zst\". A file of that name is replaced once all games are written; when "
        "anything goes wrong before, it stays as it was.\n\n"
        "Raises InputError: `cannot_write`, with what the system says as token; `compression_left_out` when the "
        "library was built without that format.");
}

} // namespace keysquare::python
