#include <keysquare/lesson/finding_marks.hpp>

#include <algorithm>

namespace keysquare {

namespace {

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

} // namespace

void add_finding_marks(const Position& position, std::span<const Finding> findings, DiagramOptions& options,
                       int first_number) {
    const bool alone = findings.size() == 1;
    FindingMarks marks{position, alone, findings.size() <= most_findings_with_replies, options};
    for (std::size_t at = 0; at < findings.size(); ++at)
        marks.add(findings[at], alone ? 0 : first_number + static_cast<int>(at));
}

} // namespace keysquare
