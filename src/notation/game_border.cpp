#include <keysquare/notation/game_border.hpp>

#include "pgn_tokens.hpp"

namespace keysquare {

std::optional<std::uint64_t> game_border(std::unique_ptr<ByteSource> text) {
    detail::PgnTokens tokens{std::move(text)};
    return tokens.skip_to_border() ? std::optional{tokens.window().offset()} : std::nullopt;
}

} // namespace keysquare
