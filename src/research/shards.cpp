#include <keysquare/research/shard.hpp>

#include "notation/game_source.hpp"

namespace keysquare {

std::vector<Shard> shards(std::span<const std::filesystem::path> files, std::uint64_t size) {
    std::vector<Shard> all;
    for (const std::filesystem::path& file : files) {
        if (!is_plain_text(file)) {
            all.push_back({file});
            continue;
        }
        const std::uint64_t length = std::filesystem::file_size(file);
        for (std::uint64_t begin = 0;; begin += size) {
            const bool is_last = length - begin <= size;
            all.push_back({file, begin, is_last ? Shard::to_the_end : begin + size});
            if (is_last) break;
        }
    }
    return all;
}

} // namespace keysquare
