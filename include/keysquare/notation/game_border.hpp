// game_border: where a PGN text can be cut in two, so that the parts can be read apart.
#pragma once

#include <optional>

#include <keysquare/notation/pgn_tokens.hpp>

namespace keysquare {

/// The offset of the first game border after the first line of a text, nothing when there is none.
///
/// A *game border* is the start of a line that begins with a tag pair, where the line before is blank and the last line
/// that is not is no tag line, nor blank but for control characters; "%" lines count for nothing. `PgnReader` begins a
/// game there, whatever came before. Not all games begin at one, and of a text that is entered in the middle the first
/// border may be passed by when its tags come at once; so games are missed by nobody who cuts a text at places that were
/// all found by this function.
///
/// O(bytes gone over); memory for one window.
[[nodiscard]] inline std::optional<std::uint64_t> game_border(std::unique_ptr<ByteSource> text) {
    detail::PgnTokens tokens{std::move(text)};
    return tokens.skip_to_border() ? std::optional{tokens.window().offset()} : std::nullopt;
}

} // namespace keysquare
