// What is found when one theme is asked for is what all findings hold of it.
#include <boost/test/unit_test.hpp>

#include <keysquare/features/findings.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

bool is_same_finding(const Finding& a, const Finding& b) {
    return a.theme == b.theme && a.detail == b.detail && a.side == b.side && a.squares == b.squares &&
           a.pieces == b.pieces && a.gain == b.gain && a.mate == b.mate && a.mated == b.mated && a.line == b.line &&
           a.after_pass == b.after_pass;
}

/// Those about the theme, in the order in which they came.
std::vector<Finding> about(Theme theme, const Findings& found) {
    std::vector<Finding> chosen;
    for (const Finding& finding : found)
        if (finding.theme == theme) chosen.push_back(finding);
    return chosen;
}

} // namespace

BOOST_AUTO_TEST_SUITE(theme_sets)

BOOST_AUTO_TEST_CASE(each_theme_alone_is_found_as_among_all) {
    std::vector<int> counts(static_cast<std::size_t>(Theme::end_));
    for (const Position& position : test::random_positions(150, 71)) {
        const Findings all = findings(position);
        for (int at = 0; at < static_cast<int>(Theme::end_); ++at) {
            const auto theme = static_cast<Theme>(at);
            Findings found;
            find_themes(BoardView{position, Options{}}, ThemeSet{theme}, found);
            const std::vector<Finding> alone = about(theme, found);
            const std::vector<Finding> among = about(theme, all);
            BOOST_TEST(std::ranges::is_permutation(alone, among, is_same_finding), name(theme));
            counts[static_cast<std::size_t>(at)] += static_cast<int>(alone.size());
        }
    }
    BOOST_TEST(std::ranges::count_if(counts, [](int count) { return count > 0; }) > 40);
}

BOOST_AUTO_TEST_CASE(nothing_is_found_when_nothing_is_asked_for) {
    Findings found;
    find_themes(BoardView{start_position(), Options{}}, ThemeSet{}, found);
    BOOST_TEST(found.empty());
}

BOOST_AUTO_TEST_SUITE_END()
