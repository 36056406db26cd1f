// A game as Python holds it, shared by the bindings of games and of their reader.
#pragma once

#include <filesystem>
#include <memory>

#include "bindings.hpp"

#include <keysquare/notation/pgn.hpp>

namespace keysquare::python {

/// A game and where it came from. Its nodes keep it alive.
struct HeldGame {
    Game game;
    std::vector<InputError> notices;
    std::string file;         ///< as it was named; empty when it was not read from one
    std::uint64_t number = 0; ///< 0 when it was not read
    std::uint64_t offset = 0;
};

struct StepOf {
    std::shared_ptr<HeldGame> held;
    StepIndex at = root_step;
};

void register_game_reader(py::module_& module);
void register_game_writer(py::module_& module);

/// The path that an object stands for, or what Python raises for other objects.
std::filesystem::path path_from(const py::object& object);

/// For games that are in memory already.
[[nodiscard]] inline PgnOptions unbounded_reading() noexcept {
    constexpr std::size_t any = static_cast<std::uint32_t>(-1);
    return {.keep_moves_before_fault = false,
            .most_text = any,
            .most_tags = any,
            .most_moves = any,
            .deepest_variation = any,
            .file = {}};
}

} // namespace keysquare::python
