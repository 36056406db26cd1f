// Quiet answers that shut a man in: old traps, and a slow twin that follows the definition to the letter.
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <utility>

#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/tactics/quiet_refutation.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

bool is_quiet(const Position& position, Move move) {
    return captured_by(position, move) == Kind::none && !move.promotes() && !move.castles() &&
           !in_check(after(position, move));
}

std::ptrdiff_t ways_out(const Position& position, Square from) {
    return std::ranges::count_if(legal_moves(position), [&](Move move) {
        return move.origin() == from &&
               exchange(after(position, move), move.target()).gain <= immediate_gain(position, move, {});
    });
}

/// What the best reply to a closing answer comes to.
Outcome slow_reply(const Position& shut, Square to, const Bound& bound) {
    Outcome best;
    for (const Move reply : legal_moves(shut)) {
        Outcome outcome = value_of_move(shut, reply, bound);
        const int won = immediate_gain(shut, reply, {});
        const Outcome attacked = quiet_attack(after(shut, reply), to, outcome.gain - 1 - won, 1, bound);
        if (reply.origin() != to && !outcome.mate && !outcome.mated && !attacked.line.empty())
            outcome = preceded_by(reply, won, attacked);
        if (best.line.empty() || (!outcome.mated && is_better(outcome, best))) best = outcome; // of all mated the first
    }
    return best;
}

Outcome slow_shut_in(const Position& arrived, Square to, int ceiling, const Bound& bound) {
    Outcome worst;
    const Kind kind = arrived.kind_at(to);
    if (kind == Kind::pawn || kind == Kind::king || in_check(arrived)) return worst;
    const auto before = ways_out(turned(arrived), to);
    if (before < 1 || before > 5) return worst;
    for (const Move answer : legal_moves(arrived)) {
        if (!is_quiet(arrived, answer) || ways_out(after(arrived, answer), to) > 0) continue;
        const Outcome kept = slow_reply(after(arrived, answer), to, bound);
        if (kept.line.empty() || kept.mate || (!kept.mated && kept.gain > ceiling)) continue;
        if (worst.line.empty() || is_better(worst, kept)) worst = preceded_by(answer, 0, kept);
    }
    return worst;
}

/// The line after `move` when a quiet answer leaves its side less than a pawn.
std::string refutation(std::string_view fen, std::string_view move) {
    const Position position = read_fen(fen).value();
    const Move played = read_san(position, move).value();
    const Outcome refuted =
        quiet_refutation(after(position, played), played.target(), -immediate_gain(position, played, {}));
    return refuted.line.empty() ? "" : line_text(after(position, played), refuted.line);
}

} // namespace

BOOST_AUTO_TEST_SUITE(shut_in_answers)

BOOST_AUTO_TEST_CASE(old_traps) {
    // Common knowledge of the trade, no source: a bishop takes the pawn at the edge, the pawn beside it steps forward.
    BOOST_TEST(refutation("2k5/ppp2ppp/8/8/8/4B3/PPP2PPP/2K5 w - - 0 1", "Bxa7") == "1...b6 2.a3 Kb7 3.Bxb6 cxb6");
    BOOST_TEST(refutation("6k1/5ppp/3b4/8/8/8/5PPP/5K2 b - - 0 1", "Bxh2") == "2.g3 f6 3.Kg2 Bxg3 4.fxg3");
}

BOOST_AUTO_TEST_CASE(a_way_out_or_a_king_far_away) {
    BOOST_TEST(refutation("5k2/ppp2ppp/8/8/8/4B3/PPP2PPP/2K5 w - - 0 1", "Bxa7").empty());  // out by b8
    BOOST_TEST(refutation("2k5/pp3ppp/8/8/8/4B3/PPP2PPP/2K5 w - - 0 1", "Bxa7").empty());   // takes on b6 for nothing
    BOOST_TEST(refutation("6k1/5ppp/3b4/8/8/8/2K2PPP/8 b - - 0 1", "Bxh2").empty());        // out by g1
    BOOST_TEST(refutation("2k5/ppp2ppp/8/P7/8/4B3/1PP2PPP/2K5 w - - 0 1", "Bxa7").empty()); // takes on b6, and again
}

BOOST_AUTO_TEST_CASE(are_what_the_definition_says) {
    const Bound bound{4, 1, 100'000};
    std::size_t asked = 0;
    std::size_t found = 0;
    const auto compare = [&](const Position& arrived, Square to, int ceiling) {
        ++asked;
        const Outcome quick = shut_in(arrived, to, ceiling, 1, bound);
        const Outcome slow = slow_shut_in(arrived, to, ceiling, bound);
        found += !slow.line.empty();
        BOOST_TEST_CONTEXT(fen(arrived) << ' ' << name(to) << ' ' << ceiling) {
            BOOST_REQUIRE(quick.line.empty() == slow.line.empty());
            BOOST_TEST((quick.gain == slow.gain && quick.mate == slow.mate && quick.mated == slow.mated));
            BOOST_TEST(std::ranges::equal(quick.line, slow.line));
        }
    };
    for (const Position& position : test::random_positions(1500, 83))
        for (const Move move : legal_moves(position)) {
            if (move.castles() || move.promotes()) continue;
            compare(after(position, move), move.target(), -1 - immediate_gain(position, move, {}));
        }
    BOOST_TEST_MESSAGE(found << " of " << asked);
    BOOST_TEST(found > 30U);
}

BOOST_AUTO_TEST_CASE(a_lower_ceiling_gives_the_same_answer_or_none) {
    const Bound bound{4, 1, 100'000};
    std::size_t lowered = 0;
    const auto check = [&](const Position& position, Move move) {
        const Position arrived = after(position, move);
        const Outcome high = quiet_refutation(arrived, move.target(), 0, 1, bound);
        for (const int ceiling : {-1, -2, -3, -5}) {
            const Outcome low = quiet_refutation(arrived, move.target(), ceiling, 1, bound);
            const bool same = !high.line.empty() && (high.mated || high.gain <= ceiling);
            lowered += same;
            BOOST_TEST_CONTEXT(fen(position) << ' ' << coordinate(move) << ' ' << ceiling) {
                BOOST_REQUIRE(low.line.empty() == !same);
                if (same) BOOST_TEST(std::ranges::equal(low.line, high.line));
            }
        }
    };
    // Found by search: shut in, and attacked as well.
    for (const auto& [fen, move] : {std::pair{"8/8/3k3p/8/4K2N/1B6/p4B2/8 b - - 0 1", "a1=N"},
                                    {"8/5Pk1/8/3b4/6P1/5P2/3K4/2r5 w - - 0 1", "f8=N"},
                                    {"2K5/8/2P2k2/BP4p1/2n5/8/2P1R3/8 b - - 0 1", "Nxa5"}}) {
        const Position position = read_fen(fen).value();
        check(position, read_san(position, move).value());
    }
    for (const Position& position : test::random_positions(700, 89))
        for (const Move move : legal_moves(position))
            if (!move.castles()) check(position, move);
    BOOST_TEST(lowered > 100U);
}

BOOST_AUTO_TEST_SUITE_END()
