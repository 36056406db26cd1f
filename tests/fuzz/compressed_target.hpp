// Any bytes as a game file, compressed or not: the same bytes and the same fault in whatever pieces they are read.
#pragma once

#include <keysquare/notation/game_file.hpp>

#include "pgn_target.hpp"

namespace keysquare::fuzz {

/// So much of what comes out is looked at; a few bytes can hold any number of them.
inline constexpr std::size_t most_read = std::size_t{1} << 20U;

/// What comes out of the bytes, up to `most_read`, and why it ends.
struct Unpacked {
    std::string text;
    std::string fault;
    friend bool operator==(const Unpacked&, const Unpacked&) = default;
};

inline Unpacked unpacked(std::unique_ptr<ByteSource> packed, std::size_t piece) {
    Unpacked result;
    Result<std::unique_ptr<ByteSource>> source = decompressed(std::move(packed));
    if (!source) {
        result.fault = name(source.error().reason);
        return result;
    }
    std::string buffer(piece, '\0');
    try {
        while (result.text.size() < most_read) {
            const std::size_t room = (std::min)(piece, most_read - result.text.size());
            const std::size_t count = (*source)->read(buffer.data(), room);
            if (count == 0) break;
            require(count <= room, "more than was asked for");
            result.text.append(buffer, 0, count);
        }
    } catch (const InputError& error) {
        result.fault = name(error.reason);
    }
    return result;
}

/// Of a damaged block bzip2 and zstd give more or less, as its pieces come; gzip, and sound data, always the same.
inline bool is_same(const Unpacked& a, const Unpacked& b, bool in_blocks) {
    if (!in_blocks || a.fault.empty()) return a == b;
    const std::size_t common = (std::min)(a.text.size(), b.text.size());
    return a.fault == b.fault &&
           std::string_view{a.text}.substr(0, common) == std::string_view{b.text}.substr(0, common);
}

inline void try_compressed(std::string_view bytes) {
    const Unpacked whole = unpacked(std::make_unique<TextSource>(bytes), std::size_t{1} << 16U);
    const std::size_t piece = 1 + bytes.size() % 13;
    const Unpacked dripped = unpacked(std::make_unique<DrippingText>(bytes, piece), 4099);
    require(is_same(whole, dripped, !bytes.starts_with("\x1F\x8B")), "other bytes from small pieces");
    if (whole.text.size() >= most_read) return;
    Result<std::unique_ptr<ByteSource>> source = decompressed(std::make_unique<TextSource>(bytes));
    if (!source) return;
    const Given games = given_by(std::move(source).value(), {});
    require(whole.fault.empty() || !games.faults.empty(), "a damaged file that passes for a sound one");
}

} // namespace keysquare::fuzz
