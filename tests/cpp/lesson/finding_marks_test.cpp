// Finding marks: what of a finding is drawn, and how several share one picture.
#include <keysquare/lesson/finding_marks.hpp>

#include <algorithm>
#include <array>
#include <vector>

#include <boost/test/unit_test.hpp>

#include <keysquare/notation/fen.hpp>

using namespace keysquare;

namespace {

Position sample() { return read_fen("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1").value(); }

Finding taking() {
    Finding finding;
    finding.theme = Theme::hanging;
    finding.pieces.push_back({Square::d5, {Side::black, Kind::rook}});
    finding.pieces.push_back({Square::e3, {Side::white, Kind::knight}});
    finding.squares = Squares{Square::d5};
    finding.line = {Move{Square::e3, Square::d5}, Move{Square::e8, Square::e7}, Move{Square::d5, Square::e7}};
    return finding;
}

Finding counting(Squares squares) {
    Finding finding;
    finding.theme = Theme::square_control;
    finding.squares = squares;
    return finding;
}

bool has(const DiagramOptions& options, Square square, MarkStyle style, int number) {
    return std::ranges::any_of(options.marks, [&](const SquareMark& mark) {
        return mark.square == square && mark.style == style && mark.number == number;
    });
}

bool has(const DiagramOptions& options, Square from, Square to, LineStyle style, int number) {
    return std::ranges::any_of(options.arrows, [&](const Arrow& arrow) {
        return arrow.from == from && arrow.to == to && arrow.style == style && arrow.number == number;
    });
}

} // namespace

BOOST_AUTO_TEST_SUITE(finding_marks)

BOOST_AUTO_TEST_CASE(one_finding_has_no_number) {
    const std::array findings{taking()};
    const DiagramOptions options = diagram_of(sample(), findings);
    BOOST_TEST(options.marks.size() == 2U);
    BOOST_TEST(has(options, Square::d5, MarkStyle::ring, 0));
    BOOST_TEST(has(options, Square::e3, MarkStyle::outline, 0));
    BOOST_TEST(options.arrows.size() == 2U); // the third move is not drawn
    BOOST_TEST(has(options, Square::e3, Square::d5, LineStyle::solid, 0));
    BOOST_TEST(has(options, Square::e8, Square::e7, LineStyle::dashed, 0));
}

BOOST_AUTO_TEST_CASE(several_findings_are_numbered_and_share_what_is_the_same) {
    const std::array findings{taking(), taking()};
    DiagramOptions options;
    add_finding_marks(sample(), findings, options, 5);
    BOOST_TEST(has(options, Square::d5, MarkStyle::ring, 5));
    BOOST_TEST(has(options, Square::d5, MarkStyle::bare, 6));
    BOOST_TEST(options.marks.size() == 3U);
    BOOST_TEST(options.arrows.size() == 2U);
    BOOST_TEST(has(options, Square::e3, Square::d5, LineStyle::solid, 5));
    BOOST_TEST(has(options, Square::e8, Square::e7, LineStyle::dashed, 5));
}

BOOST_AUTO_TEST_CASE(replies_are_left_out_of_a_crowd) {
    const std::vector<Finding> findings(most_findings_with_replies + 1, taking());
    const DiagramOptions options = diagram_of(sample(), findings);
    BOOST_TEST(options.arrows.size() == 1U);
}

BOOST_AUTO_TEST_CASE(counted_squares_are_dotted_and_a_removed_piece_is_crossed_out) {
    Finding finding = counting({Square::d5, Square::a1});
    finding.removed = Square::e3;
    finding.pieces.push_back({Square::e3, {Side::white, Kind::knight}});
    const std::array findings{finding};
    const DiagramOptions options = diagram_of(sample(), findings);
    BOOST_TEST(options.marks.size() == 3U);
    BOOST_TEST(has(options, Square::e3, MarkStyle::cross, 0));
    BOOST_TEST(has(options, Square::d5, MarkStyle::dotted_outline, 0));
    BOOST_TEST(has(options, Square::a1, MarkStyle::dot, 0));
    BOOST_TEST(options.arrows.empty());
}

BOOST_AUTO_TEST_CASE(large_counts_are_drawn_alone_only) {
    const std::array alone{counting(light_squares)};
    BOOST_TEST(diagram_of(sample(), alone).marks.size() == 32U);
    const std::array together{counting(light_squares), counting(Squares{})};
    const DiagramOptions options = diagram_of(sample(), together);
    BOOST_TEST(options.marks.size() == 1U);
    BOOST_TEST(has(options, Square::b1, MarkStyle::bare, 1));
}

BOOST_AUTO_TEST_CASE(a_move_that_wins_nothing_is_dashed) {
    Finding finding = counting({Square::d5});
    finding.point = {Move{Square::e3, Square::d5}};
    const std::array findings{finding};
    const DiagramOptions options = diagram_of(sample(), findings);
    BOOST_REQUIRE(options.arrows.size() == 1U);
    BOOST_TEST((options.arrows[0].style == LineStyle::dashed));
}

BOOST_AUTO_TEST_CASE(marks_that_were_there_stay) {
    DiagramOptions options;
    options.title = "Before";
    options.marks.push_back({Square::h8, MarkStyle::corners, 9});
    const std::array findings{taking()};
    options = diagram_of(sample(), findings, options);
    BOOST_TEST(options.title == "Before");
    BOOST_TEST(has(options, Square::h8, MarkStyle::corners, 9));
    BOOST_TEST(diagram_of(sample(), {}).marks.empty());
}

BOOST_AUTO_TEST_SUITE_END()
