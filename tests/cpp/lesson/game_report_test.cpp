// Game report: changes, turning points and moments of games that we made up.
#include <boost/test/unit_test.hpp>

#include <set>

#include <keysquare/features/same_claim.hpp>
#include <keysquare/lesson/game_report.hpp>
#include <keysquare/lesson/theme_words.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/thinking/game_effects.hpp>

namespace {

using namespace keysquare;

// A rook is left hanging and not taken, then taken; later a mate is there and missed.
constexpr std::string_view careless = R"([SetUp "1"]
[FEN "6k1/5ppp/8/3r4/8/4N3/5PPP/R5K1 b - - 0 1"]

1... h6 2. h3 Kh7 3. Nxd5 Kg8 4. Kh2 Kf8 5. Nc7 g6 6. f3 *)";

GameReport report_of(std::string_view pgn, std::size_t at_most = most_moments) {
    return game_report(read_pgn(pgn).value(), at_most);
}

} // namespace

BOOST_AUTO_TEST_SUITE(lesson_game_report)

BOOST_AUTO_TEST_CASE(every_ply_has_its_place) {
    const Game game = read_pgn(careless).value();
    const GameReport report = game_report(game);
    BOOST_REQUIRE(report.plies.size() == game.main_line().size() + 1);
    BOOST_CHECK(!report.plies[0].move);
    BOOST_CHECK(report.plies[0].position == game.start());
    for (std::size_t at = 1; at < report.plies.size(); ++at) {
        const PlyReport& ply = report.plies[at];
        BOOST_CHECK(game.step(ply.step).move == ply.move);
        BOOST_CHECK(ply.position == after(report.plies[at - 1].position, ply.move));
        BOOST_CHECK(ply.position == game.position_at(ply.step));
    }
}

BOOST_AUTO_TEST_CASE(created_and_removed_are_the_difference) {
    const GameReport report = report_of(careless);
    for (std::size_t at = 1; at < report.plies.size(); ++at) {
        const PlyReport& before = report.plies[at - 1];
        const PlyReport& ply = report.plies[at];
        for (std::size_t place = 0; place < ply.findings.size(); ++place) {
            const bool is_new = std::ranges::find(ply.created, place) != ply.created.end();
            BOOST_TEST(is_new == !makes_claim(before.findings, ply.findings[place]));
        }
        const auto gone = std::ranges::count_if(
            before.findings, [&](const Finding& finding) { return !makes_claim(ply.findings, finding); });
        BOOST_TEST(static_cast<std::size_t>(gone) == ply.removed.size());
    }
    const auto says_hanging = [](const Finding& finding) { return finding.theme == Theme::hanging; };
    BOOST_TEST(std::ranges::any_of(report.plies[4].removed, says_hanging)); // 3.Nxd5 ends it
}

BOOST_AUTO_TEST_CASE(the_standing_counts_what_can_be_won) {
    const GameReport report = report_of(careless);
    BOOST_TEST(report.plies[0].standing.pawns == 3); // knight and rook against a rook, and Black is to move
    BOOST_TEST(report.plies[1].standing.pawns == 8); // White can take the rook
    BOOST_TEST(report.plies[2].standing.pawns == 3);
    BOOST_CHECK(lead_of({1, false, Side::white}) == Lead::level);
    BOOST_CHECK(lead_of({2, false, Side::white}) == Lead::white_ahead);
    BOOST_CHECK(lead_of({-2, false, Side::white}) == Lead::black_ahead);
    BOOST_CHECK(lead_of({9, true, Side::black}) == Lead::black_mates);
    BOOST_TEST(name(Lead::black_mates) == "black_mates");
    BOOST_TEST(name(Lead::white_ahead) == "white_ahead");
}

BOOST_AUTO_TEST_CASE(turning_points_have_their_reason) {
    const GameReport report = report_of(R"([SetUp "1"]
[FEN "6k1/5ppp/8/3r4/8/4N3/r4PPP/R5K1 b - - 0 1"]

1... Rxa1+ 2. Nf1 h6 3. h3 Rdd1 4. g4 Rxf1+ 5. Kg2 *)");
    for (const TurningPoint& point : report.turning_points) {
        BOOST_CHECK(point.before == lead_of(report.plies[point.ply - 1].standing));
        BOOST_CHECK(point.after == lead_of(report.plies[point.ply].standing));
        BOOST_CHECK(point.before != point.after);
        BOOST_CHECK(point.effect.kind != EffectKind::exploited);
    }
    const GameReport hung = report_of(careless); // White is ahead all along, and for one move there is more than that
    BOOST_REQUIRE(hung.turning_points.size() == 2U);
    BOOST_CHECK(hung.turning_points[0].after == Lead::white_mates);
    BOOST_CHECK(hung.turning_points[0].effect.kind == EffectKind::allowed);
    BOOST_CHECK(hung.turning_points[1].before == Lead::white_mates);
    BOOST_CHECK(hung.turning_points[1].effect.kind == EffectKind::missed);
    const GameReport even = report_of(R"([SetUp "1"]
[FEN "6k1/5ppp/8/3r4/8/4N3/2P2PPP/6K1 b - - 0 1"]

1... h6 2. h3 Kh7 3. Nxd5 *)");
    BOOST_REQUIRE(even.turning_points.size() == 2U); // the rook is left, not taken ... and left again
    BOOST_TEST(even.turning_points[0].ply == 2U);
    BOOST_CHECK(even.turning_points[0].effect.kind == EffectKind::missed);
    BOOST_TEST(even.turning_points[1].ply == 3U);
    BOOST_CHECK(even.turning_points[1].effect.kind == EffectKind::overlooked);
}

BOOST_AUTO_TEST_CASE(moments_are_few_and_apart) {
    const GameReport report = report_of(careless);
    BOOST_REQUIRE(!report.moments.empty());
    BOOST_TEST(report.moments.size() <= most_moments);
    for (std::size_t at = 0; at < report.moments.size(); ++at) {
        const Moment& moment = report.moments[at];
        BOOST_TEST(moment.ply < report.plies.size());
        BOOST_TEST(!moment.question.empty());
        BOOST_TEST(!moment.answer.empty());
        BOOST_TEST(moment.question.find('{') == std::string::npos);
        BOOST_TEST(moment.answer.find('{') == std::string::npos);
        if (at > 0) BOOST_TEST(moment.ply - report.moments[at - 1].ply >= moments_apart);
    }
    BOOST_TEST(report_of(careless, 1).moments.size() == 1U);
    BOOST_TEST(report_of(careless, 0).moments.empty());
}

BOOST_AUTO_TEST_CASE(the_effects_alone_are_those_of_the_report) {
    const Game game = read_pgn(careless).value();
    const GameReport report = game_report(game);
    const std::vector<MoveEffects> effects = game_effects(game);
    BOOST_REQUIRE(effects.size() + 1 == report.plies.size());
    for (std::size_t at = 0; at < effects.size(); ++at) {
        BOOST_REQUIRE(effects[at].size() == report.plies[at + 1].effects.size());
        for (std::size_t one = 0; one < effects[at].size(); ++one) {
            const MoveEffect& effect = report.plies[at + 1].effects[one];
            BOOST_CHECK(effects[at][one].kind == effect.kind);
            BOOST_CHECK(effects[at][one].theme == effect.theme);
            BOOST_CHECK(effects[at][one].win == effect.win);
            if (effect.kind == EffectKind::allowed || effect.kind == EffectKind::overlooked)
                BOOST_TEST(conceded_by(report.plies[at].position, effect.better) <= effect.left);
        }
    }
}

BOOST_AUTO_TEST_CASE(games_without_moves_and_with_null_moves) {
    const GameReport empty = game_report(Game{});
    BOOST_TEST(empty.plies.size() == 1U);
    BOOST_TEST(empty.turning_points.empty());
    Game game;
    game.add_move(root_step, Move{}); // nobody passes in a game, but a tree can be made so
    BOOST_TEST(game_report(game).plies.size() == 1U);
}

BOOST_AUTO_TEST_CASE(every_theme_has_words) {
    std::set<std::string_view> headings;
    for (std::size_t theme = 0; theme < static_cast<std::size_t>(Theme::end_); ++theme) {
        const ThemeWords& words = words_of(static_cast<Theme>(theme));
        BOOST_TEST((words.theme == static_cast<Theme>(theme)));
        BOOST_TEST(!words.several.empty(), name(words.theme));
        headings.insert(words.several);
        BOOST_TEST((words.means.empty() || words.means.front() == ' ' || words.means.front() == ','));
    }
    BOOST_TEST(headings.size() == static_cast<std::size_t>(Theme::end_));
}

BOOST_AUTO_TEST_SUITE_END()
