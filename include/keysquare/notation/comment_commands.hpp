// Commands inside comments, such as "[%clk 0:03:00]": finding, reading and changing them. (Part of
// keysquare::keysquare, as games are.)
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace keysquare {

/// The text of a command that a comment holds: "0:03:00" for `command("[%clk 0:03:00] good", "clk")`.
[[nodiscard]] std::optional<std::string_view> command(std::string_view comment, std::string_view name) noexcept;

/// A comment as a reader sees it: without its commands and the spaces around them.
[[nodiscard]] std::string without_commands(std::string_view comment);

/// The comment with the first command of that name replaced and further ones of the name taken out, or, when it has
/// none, with the command at its front. The rest stays as it is. Precondition: neither text holds a "]".
[[nodiscard]] std::string with_command(std::string_view comment, std::string_view name, std::string_view value);
/// The comment without the commands of that name, and without the space that parted each from its neighbour.
[[nodiscard]] std::string without_command(std::string_view comment, std::string_view name);

/// Seconds, of a time as "clk" and "emt" have it: "1:23:45.6" (hours, minutes, seconds), "23:45" or "45". Nothing for
/// other texts, and when minutes or seconds after a larger unit reach 60.
[[nodiscard]] std::optional<double> seconds_in(std::string_view text) noexcept;

/// What "eval" holds, from White's point of view, as it was written: pawns, or a mate in so many moves (negative: Black
/// mates). Just one of the two is there. The number of plies that were searched may follow.
struct Evaluation {
    std::optional<double> pawns; ///< in pawns, positive is good for White
    std::optional<int> mate_in;  ///< moves to mate, negative where Black mates
    std::optional<int> depth;    ///< plies that were searched, if it says so
    /// Whether all of it is equal.
    friend bool operator==(const Evaluation&, const Evaluation&) noexcept = default;
};

/// Reads "0.35", "-1.2,20", "#-3". Nothing for other texts.
[[nodiscard]] std::optional<Evaluation> evaluation_in(std::string_view text) noexcept;

} // namespace keysquare
