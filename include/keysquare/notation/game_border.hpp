// game_border: where a PGN text can be cut in two, so that the parts can be read apart. (Part of
// keysquare::keysquare, as games are.)
#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include <keysquare/notation/byte_source.hpp>

namespace keysquare {

/// The offset of the first game border after the first line of a text, nothing when there is none.
///
/// A *game border* is the start of a line that begins with a tag pair, where the line before is blank and the last line
/// before with anything in it but white space and control characters is no tag line; "%" lines are gone over.
/// `PgnReader` begins a game there, whatever came before. It begins games elsewhere, too, and the first border of a text
/// that is entered in its middle may go unseen, as the lines before are not known. So only places that this function gave
/// are borders for everybody.
///
/// O(bytes gone over); memory for one window.
[[nodiscard]] std::optional<std::uint64_t> game_border(std::unique_ptr<ByteSource> text);

} // namespace keysquare
