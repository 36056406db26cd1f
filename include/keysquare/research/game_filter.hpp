// Filters: which games of a collection are looked at, by their tags, and which of their plies.
#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <keysquare/notation/game.hpp>

namespace keysquare {

/// The rating in a tag such as "WhiteElo": a whole number above 0 in digits; nothing for other texts ("?", "-", "").
[[nodiscard]] constexpr std::optional<int> rating_in(std::string_view text) noexcept;

/// What the value of a tag must be. Games without the tag do not meet it.
struct TagCondition {
    std::string tag;                   ///< the name of the tag
    std::vector<std::string> any_of{}; ///< one of these; empty: any value will do
    // Bounds in the order of the bytes, both included, so that "2026.01.31" lies between "2026.01" and "2026.02".
    std::optional<std::string> first{}; ///< not before this value
    std::optional<std::string> last{};  ///< not after this value

    /// Whether the game's tag meets it.
    [[nodiscard]] bool is_met_by(const Game& game) const;
};

/// Whose rating a condition speaks of.
enum class RatedPlayer : std::uint8_t {
    white, ///< white
    black, ///< black
    both   ///< each of the two
};

/// A game in which a player has no rating does not meet it.
struct RatingCondition {
    RatedPlayer player = RatedPlayer::both; ///< whose rating
    int least = 0;                          ///< at least this
    /// at most this
    int greatest = (std::numeric_limits<int>::max)();

    /// Whether the ratings of the game meet it.
    [[nodiscard]] bool is_met_by(const Game& game) const noexcept;
};

/// Conditions on the tags of a game; all must be met. Asked before a move is replayed.
struct GameFilter {
    std::vector<TagCondition> tags{};       ///< conditions on tags
    std::vector<RatingCondition> ratings{}; ///< conditions on ratings

    /// Whether every game fits.
    [[nodiscard]] bool empty() const noexcept { return tags.empty() && ratings.empty(); }
    /// Whether all conditions are met.
    [[nodiscard]] bool fits(const Game& game) const;
};

/// The plies `first`, `first + step`, ... up to `last`. Ply 0 is the start position, ply n what n moves led to.
struct PlyFilter {
    std::size_t first = 0; ///< the first ply that is wanted
    /// none after this ply
    std::size_t last = (std::numeric_limits<std::size_t>::max)();
    std::size_t step = 1; ///< at least 1

    /// Whether the ply is one of them.
    [[nodiscard]] constexpr bool fits(std::size_t ply) const noexcept {
        return ply >= first && ply <= last && (ply - first) % step == 0;
    }
};

// ---------------------------------------------------------------------------------------------------------------------

constexpr std::optional<int> rating_in(std::string_view text) noexcept {
    constexpr std::size_t most_digits = 5;
    int rating = 0;
    if (text.size() > most_digits) return std::nullopt;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        rating = rating * 10 + (c - '0');
    }
    return rating > 0 ? std::optional{rating} : std::nullopt;
}

inline bool TagCondition::is_met_by(const Game& game) const {
    if (!game.has_tag(tag)) return false;
    const std::string_view value = game.tag(tag);
    if (!any_of.empty() && !detail::contains(any_of, value)) return false;
    return (!first || value >= *first) && (!last || value <= *last);
}

inline bool RatingCondition::is_met_by(const Game& game) const noexcept {
    const auto fits = [&](std::string_view tag) {
        const std::optional<int> rating = rating_in(game.tag(tag));
        return rating && *rating >= least && *rating <= greatest;
    };
    if (player != RatedPlayer::black && !fits("WhiteElo")) return false;
    return player == RatedPlayer::white || fits("BlackElo");
}

inline bool GameFilter::fits(const Game& game) const {
    return detail::all_of(tags, [&](const TagCondition& condition) { return condition.is_met_by(game); }) &&
           detail::all_of(ratings, [&](const RatingCondition& condition) { return condition.is_met_by(game); });
}

} // namespace keysquare
