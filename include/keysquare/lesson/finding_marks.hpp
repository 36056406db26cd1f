// Finding marks: findings as the marks and arrows of a diagram.
#pragma once

#include <algorithm>
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

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Puts the marks of one finding after another into the options.
class FindingMarks {
  public:
    FindingMarks(const Position& position, bool alone, bool replies, DiagramOptions& options) noexcept
        : position_(position), alone_(alone), replies_(replies), options_(options) {}

    void add(const Finding& finding, int number) {
        Squares marked;
        const auto mark = [&](Square square, MarkStyle style) {
            put(square, style, marked ? 0 : number);
            marked |= Squares{square};
        };
        if (finding.removed != Square::none) mark(finding.removed, MarkStyle::cross);
        for (std::size_t at = 0; at < finding.pieces.size(); ++at)
            if (const Square square = finding.pieces[at].square; !marked.has(square))
                mark(square, at == 0 ? MarkStyle::ring : MarkStyle::outline);
        const Squares counted = finding.squares & ~marked;
        if (alone_ || counted.count() <= most_squares_shown_together)
            for (const Square square : counted)
                mark(square, position_.piece_at(square) ? MarkStyle::dotted_outline : MarkStyle::dot);
        else if (!marked && number > 0)
            put(counted.first(), MarkStyle::bare, number);
        if (!finding.line.empty()) arrow(finding.line[0], LineStyle::solid, number);
        if (replies_ && finding.line.size() > 1) arrow(finding.line[1], LineStyle::dashed, number);
        if (finding.line.empty() && !finding.point.empty()) arrow(finding.point[0], LineStyle::dashed, number);
    }

  private:
    void put(Square square, MarkStyle style, int number) {
        const auto same = [&](const SquareMark& that) { return that.square == square && that.style == style; };
        const auto known = std::find_if(options_.marks.begin(), options_.marks.end(), same);
        if (known == options_.marks.end())
            options_.marks.push_back({square, style, number});
        else if (number > 0)
            options_.marks.push_back({square, MarkStyle::bare, number});
    }

    void arrow(Move move, LineStyle style, int number) {
        const Arrow wanted{move.origin(), move.target(), style, number};
        const auto same = [&](const Arrow& that) {
            return that.from == wanted.from && that.to == wanted.to && that.style == style;
        };
        if (std::none_of(options_.arrows.begin(), options_.arrows.end(), same)) options_.arrows.push_back(wanted);
    }

    const Position& position_;
    bool alone_;
    bool replies_;
    DiagramOptions& options_;
};

} // namespace detail

inline void add_finding_marks(const Position& position, std::span<const Finding> findings, DiagramOptions& options,
                              int first_number) {
    const bool alone = findings.size() == 1;
    detail::FindingMarks marks{position, alone, findings.size() <= most_findings_with_replies, options};
    for (std::size_t at = 0; at < findings.size(); ++at)
        marks.add(findings[at], alone ? 0 : first_number + static_cast<int>(at));
}

} // namespace keysquare
