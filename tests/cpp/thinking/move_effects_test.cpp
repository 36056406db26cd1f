// Move effects: what a move exploited, missed, allowed and overlooked. The games are made up; each answer is a matter of
// counting the men that fall.
#include <boost/test/unit_test.hpp>

#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace {

using namespace keysquare;

/// The prospects and effects of a line given as SAN.
struct Played {
    std::vector<Prospects> positions;
    std::vector<Move> moves;
    std::vector<MoveEffects> effects;

    Played(std::string_view start, std::initializer_list<std::string_view> sans) {
        positions.emplace_back(read_fen(start).value());
        for (const std::string_view text : sans) {
            const Position position = positions.back().position();
            moves.push_back(read_san(position, text).value());
            positions.emplace_back(after(position, moves.back()));
        }
        effects = move_effects(positions, moves);
    }

    [[nodiscard]] const MoveEffect* effect(std::size_t at, EffectKind kind) const {
        const auto found = std::ranges::find(effects[at], kind, &MoveEffect::kind);
        return found == effects[at].end() ? nullptr : &*found;
    }
    [[nodiscard]] std::string told(std::size_t at, EffectKind kind) const {
        const MoveEffect* const found = effect(at, kind);
        return found ? sentence(positions[at].position(), moves[at], *found) : std::string{};
    }
};

// White's knight takes a rook if nothing is done; Black's king and the pawns have nothing to win.
constexpr std::string_view rook_attacked = "6k1/5ppp/8/3r4/8/4N3/5PPP/6K1 b - - 0 1";

// Knight and rook are attacked by pawns, and neither can guard the other.
constexpr std::string_view two_attacked = "8/5p1k/8/8/2p4p/3NP1R1/PP6/1K6 w - - 0 1";

} // namespace

BOOST_AUTO_TEST_SUITE(thinking_move_effects)

BOOST_AUTO_TEST_CASE(a_threat_that_is_not_met_and_carried_out_is_overlooked) {
    const Played game{rook_attacked, {"h6", "Nxd5"}};
    BOOST_REQUIRE(game.effect(0, EffectKind::overlooked));
    const MoveEffect& effect = *game.effect(0, EffectKind::overlooked);
    BOOST_TEST(effect.cost == 5);
    BOOST_TEST(effect.win.after_pass);
    BOOST_CHECK(effect.theme == Theme::hanging);
    BOOST_TEST(!game.effect(0, EffectKind::allowed));
    BOOST_TEST(effect.left == 0);
    BOOST_TEST(conceded_by(game.positions[0].position(), effect.better) == 0);
    BOOST_REQUIRE(game.effect(1, EffectKind::exploited));
    BOOST_TEST(game.effect(1, EffectKind::exploited)->win.gain == 5);
    BOOST_CHECK(!game.effect(1, EffectKind::exploited)->better);
    BOOST_TEST(game.told(1, EffectKind::exploited) == "2.Nxd5 takes the chance to win material worth 5 pawns: 2.Nxd5.");
}

BOOST_AUTO_TEST_CASE(a_threat_that_is_not_carried_out_was_missed) {
    const Played game{rook_attacked, {"h6", "h3"}};
    BOOST_TEST(game.effects[0].empty());
    BOOST_REQUIRE(game.effect(1, EffectKind::missed));
    BOOST_TEST(game.effect(1, EffectKind::missed)->cost == 5);
    BOOST_TEST(game.told(1, EffectKind::missed) == "2.h3 misses the chance to win material worth 5 pawns: 2.Nxd5.");
}

BOOST_AUTO_TEST_CASE(a_threat_that_is_met_leaves_nothing) {
    const Played game{rook_attacked, {"Rd2", "h3"}};
    BOOST_TEST(game.effects[0].empty());
    BOOST_TEST(game.effects[1].empty());
}

BOOST_AUTO_TEST_CASE(what_could_not_be_done_before_the_move_is_allowed) {
    // The rook steps onto a square where the knight forks it with the king.
    const Played game{"6k1/5ppp/8/8/8/4N3/5PPP/r5K1 w - - 0 1", {"Nf1", "Ra5", "Ne3", "Rd5"}};
    BOOST_REQUIRE(game.effect(3, EffectKind::allowed));
    const MoveEffect& effect = *game.effect(3, EffectKind::allowed);
    BOOST_TEST(effect.cost == 5);
    BOOST_TEST(!effect.win.after_pass);
    BOOST_TEST(
        game.told(3, EffectKind::allowed).starts_with("2...Rd5 lets White win material worth 5 pawns: 3.Nxd5. After "));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_helped_is_no_mistake) {
    // The knight forks king and queen, and no move saves the queen: nothing is overlooked, and taking it was earned by
    // the move before.
    const Played game{"q5k1/5ppp/8/1N6/8/8/5PPP/6K1 w - - 0 1", {"Nc7", "h6", "Nxa8"}};
    BOOST_TEST(!game.effect(1, EffectKind::allowed));
    const Played forked{"q3k3/5ppp/8/1N6/8/8/5PPP/6K1 w - - 0 1", {"Nc7+", "Kd7", "Nxa8"}};
    BOOST_TEST(!forked.effect(1, EffectKind::allowed));
    BOOST_TEST(!forked.effect(1, EffectKind::overlooked));
    BOOST_TEST(!forked.effect(2, EffectKind::exploited));
}

BOOST_AUTO_TEST_CASE(only_what_could_be_helped_counts) {
    // To save neither concedes the rook; the best one, Rg4, still concedes the knight for a pawn.
    const Played game{two_attacked, {"a3", "hxg3"}};
    BOOST_REQUIRE(game.effect(0, EffectKind::overlooked));
    BOOST_TEST(game.effect(0, EffectKind::overlooked)->cost == 5);
    BOOST_TEST(game.effect(0, EffectKind::overlooked)->left == 2);
    BOOST_TEST(game.effect(0, EffectKind::overlooked)->difference() == 3);
    BOOST_TEST(conceded_by(game.positions[0].position(), game.effect(0, EffectKind::overlooked)->better) == 2);
    const Played saved{two_attacked, {"Rg4", "cxd3"}};
    BOOST_TEST(saved.effects[0].empty()); // the knight could not be saved as well
}

BOOST_AUTO_TEST_CASE(a_pawn_that_promotes_is_an_answer_to_a_capture) {
    // 1.Rxf6 takes a bishop that nothing guards, but 1...e2 can't be stopped.
    const Played game{"6k1/5p2/3R1b2/8/8/4p3/PP6/1K6 w - - 0 1", {"Kc2"}};
    BOOST_TEST(!game.effect(0, EffectKind::missed));
}

BOOST_AUTO_TEST_CASE(taking_back_is_no_insight) {
    const Played game{"6k1/5ppp/8/3n4/8/4N3/5PPP/6K1 b - - 0 1", {"Nxe3", "fxe3"}};
    BOOST_TEST(game.effects[0].empty());
    BOOST_TEST(game.effects[1].empty());
    const Played forgotten{"6k1/5ppp/8/3n4/8/4N3/5PPP/6K1 b - - 0 1", {"Nxe3", "h3"}};
    BOOST_REQUIRE(forgotten.effect(1, EffectKind::missed)); // but not to take back is a miss
    BOOST_TEST(forgotten.effect(1, EffectKind::missed)->cost == 3);
}

BOOST_AUTO_TEST_CASE(a_mate_weighs_more_than_material) {
    const Played game{"6k1/5ppp/8/8/8/8/r4PPP/3R2K1 w - - 0 1", {"Ra1"}};
    BOOST_REQUIRE(game.effect(0, EffectKind::missed));
    BOOST_TEST(game.effect(0, EffectKind::missed)->win.mate);
    BOOST_CHECK(game.effect(0, EffectKind::missed)->theme == Theme::mate_in_one);
    BOOST_TEST(game.told(0, EffectKind::missed) == "1.Ra1 misses the chance to mate: 1.Rd8#.");
}

BOOST_AUTO_TEST_CASE(a_line_without_moves) {
    const Played game{rook_attacked, {}};
    BOOST_TEST(game.effects.empty());
}

BOOST_AUTO_TEST_SUITE_END()
