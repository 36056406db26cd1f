// Finding marks: findings as the marks and arrows of a diagram.
#pragma once

#include <cstddef>
#include <span>

#include <keysquare/features/finding.hpp>
#include <keysquare/lesson/diagram.hpp>

namespace keysquare {

/// Larger counts are drawn only when the finding has the diagram to itself.
inline constexpr int most_squares_shown_together = 12;
/// With more findings than this, replies are left out.
inline constexpr std::size_t most_findings_with_replies = 2;

/// Adds to `options` what shows the findings of `position`, those that matter most first:
/// - the main piece in a ring, the further pieces outlined, the removed piece crossed out;
/// - the squares that were counted: a dot on an empty one, a dotted outline round a man;
/// - the first move of the line as a solid arrow, the reply as a dashed one; without a line, the first move of the
///   point, if there is one, as a dashed arrow.
/// Of several findings, the i-th has the number i at its main piece (or at its first square, when it has no piece) and
/// on its arrows, counting from `first_number`. What two findings share is drawn once, an arrow with the first one's
/// number.
void add_finding_marks(const Position& position, std::span<const Finding> findings, DiagramOptions& options,
                       int first_number = 1);

/// The options of a diagram that shows the findings, otherwise as given.
[[nodiscard]] inline DiagramOptions diagram_of(const Position& position, std::span<const Finding> findings,
                                               DiagramOptions options = {}) {
    add_finding_marks(position, findings, options);
    return options;
}

} // namespace keysquare
