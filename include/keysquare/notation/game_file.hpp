// Game files: PGN from a path. (Part of keysquare::keysquare, as it needs files.)
#pragma once

#include <filesystem>
#include <memory>

#include <keysquare/notation/byte_source.hpp>
#include <keysquare/notation/pgn.hpp>

namespace keysquare {

/// The bytes of a file. Error: `cannot_open`, with the file's name as token.
[[nodiscard]] Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path);

/// A reader of the games in a file. Error: as `open_game_file`.
[[nodiscard]] Result<PgnReader> read_games(const std::filesystem::path& path, PgnOptions options = {});

} // namespace keysquare
