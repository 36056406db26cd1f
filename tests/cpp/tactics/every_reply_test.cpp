// Checking moves, mates in one and two, and the value of a move against every reply, against slow twins that follow their
// definitions to the letter.
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <limits>
#include <map>

#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/tactics/every_reply.hpp>
#include <keysquare/tactics/mates.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

constexpr int mate_value = 1'000;

/// Material for the mover after the outcome of one of its moves, mates as large numbers.
int worth(const Outcome& outcome) {
    if (outcome.mate) return mate_value;
    return outcome.mated ? -mate_value : outcome.gain;
}

bool is_delay(const Position& position, Move reply, Delays delays) {
    if (delays == Delays::none) return false;
    return in_check(after(position, reply)) ||
           (delays == Delays::checks_and_captures && captured_by(position, reply) != Kind::none);
}

/// What the best reply keeps: every legal reply by `value_of_move`; a delay that keeps more than `ceiling` keeps what the
/// best of all answers to it leaves.
int slow_reply(const Position& position, int ceiling, Delays delays, const Bound& bound) {
    int best = std::numeric_limits<int>::min();
    for (const Move reply : legal_moves(position)) {
        int kept = worth(value_of_move(position, reply, bound));
        if (kept > ceiling && is_delay(position, reply, delays)) {
            const Position delayed = after(position, reply);
            const int won = immediate_gain(position, reply, {});
            for (const Move answer : legal_moves(delayed)) {
                if (!in_check(delayed) &&
                    (captured_by(delayed, answer) == Kind::none || answer.target() != reply.target()))
                    continue;
                const Position next = after(delayed, answer);
                if (!has_legal_move(next)) continue; // mate is no reply; `resolve` has seen it
                const int taken = immediate_gain(delayed, answer, {});
                kept = std::min(kept, won - taken + slow_reply(next, ceiling - won + taken, Delays::none, bound));
            }
        }
        best = std::max(best, kept);
    }
    return best;
}

bool slow_is_mate_in_two(const Position& position, Move move) {
    const Position moved = after(position, move);
    const MoveList replies = legal_moves(moved);
    return !replies.empty() && std::ranges::all_of(replies, [&](Move reply) {
        const Position replied = after(moved, reply);
        return std::ranges::any_of(legal_moves(replied), [&](Move last) { return is_mated(after(replied, last)); });
    });
}

} // namespace

BOOST_AUTO_TEST_SUITE(every_reply)

BOOST_AUTO_TEST_CASE(checking_moves_are_those_after_which_the_king_stands_in_check) {
    std::size_t checks = 0;
    for (const Position& position : test::random_positions(2000, 71)) {
        MoveList expected;
        for (const Move move : legal_moves(position))
            if (in_check(after(position, move))) expected.push_back(move);
        MoveList found = checking_moves(position);
        const auto order = [](Move a, Move b) { return coordinate(a) < coordinate(b); };
        std::ranges::sort(expected, order);
        std::ranges::sort(found, order);
        BOOST_REQUIRE_MESSAGE(std::ranges::equal(found, expected), fen(position));
        checks += found.size();
    }
    BOOST_TEST(checks > 1000U);
}

BOOST_AUTO_TEST_CASE(special_moves_that_check) { // Our own positions: promotion, en passant and castling.
    const auto count = [](std::string_view text) { return checking_moves(read_fen(text).value()).size(); };
    BOOST_TEST(count("4k3/1P6/8/8/8/8/8/4K3 w - - 0 1") == 2U);   // b8 as queen or rook
    BOOST_TEST(count("8/4k3/8/3pP3/8/8/8/4K3 w - d6 0 1") == 1U); // exd6 in passing
    BOOST_TEST(count("8/8/8/k2pP2R/8/8/8/4K3 w - d6 0 1") == 1U); // the same uncovers the rook; e6 does not
    BOOST_TEST(count("5k2/8/8/8/8/8/8/4K2R w K - 0 1") == 3U);    // O-O, Rf1, Rh8
}

BOOST_AUTO_TEST_CASE(mates_in_one_and_two) {
    int in_one = 0;
    int in_two = 0;
    for (const Position& position : test::random_positions(4000, 72)) {
        const MoveList mates = mating_moves(position);
        const MoveList moves = legal_moves(position);
        in_one += static_cast<int>(mates.size());
        BOOST_REQUIRE(has_mating_move(position) == !mates.empty());
        for (const Move move : moves) {
            const bool mating = std::ranges::find(mates, move) != mates.end();
            BOOST_REQUIRE(is_mated(after(position, move)) == mating);
        }
        if (moves.size() > 16) continue; // the slow twin is slow
        for (const Move move : moves) {
            const Line line = mate_in_two(position, move);
            BOOST_REQUIRE_MESSAGE(!line.empty() == slow_is_mate_in_two(position, move), fen(position));
            in_two += !line.empty();
        }
    }
    BOOST_TEST(in_one > 20);
    BOOST_TEST(in_two > 0);
}

BOOST_AUTO_TEST_CASE(every_reply_is_tried) {
    const Bound bound{6, 2, 50'000};
    std::map<Delays, int> won;
    for (const Position& position : test::random_positions(250, 73)) {
        const MoveList moves = legal_moves(position);
        for (std::size_t at = 0; at < moves.size(); at += 5) {
            const Position moved = after(position, moves[at]);
            if (!has_legal_move(moved)) continue;
            const int gained = immediate_gain(position, moves[at], {});
            for (const Delays delays : {Delays::none, Delays::checks, Delays::checks_and_captures})
                for (const int least : {1, 3}) {
                    const Outcome found = gain_against_every_reply(position, moves[at], least, {}, delays, bound);
                    const int kept = slow_reply(moved, gained - least, delays, bound);
                    const bool wins = gained - kept >= least;
                    BOOST_REQUIRE_MESSAGE(!found.line.empty() == wins, fen(position) << ' ' << coordinate(moves[at]));
                    if (!wins) continue;
                    ++won[delays];
                    const int gain = kept == -mate_value ? mate_value : gained - kept;
                    BOOST_TEST((found.mate ? mate_value : found.gain) == gain);
                }
        }
    }
    BOOST_TEST(won[Delays::none] > 100);
    BOOST_TEST(won[Delays::checks] > won[Delays::none]);
    BOOST_TEST(won[Delays::checks_and_captures] > won[Delays::checks]);
}

BOOST_AUTO_TEST_CASE(a_check_alone_parries_nothing) { // Our own: the pawn forks two knights, and the rook checks first.
    const Position position = read_fen("r5k1/5ppp/2n1n3/8/3P4/7P/5PP1/6K1 w - - 0 1").value();
    const Move fork = read_move(position, "d4d5").value();
    const Outcome outcome = gain_against_every_reply(position, fork, 1, {}, Delays::checks);
    BOOST_TEST(outcome.gain == 2);
    const Position forked = after(position, fork);
    BOOST_TEST(best_reply_within(forked, -1, Square::d5, {}, Delays::none).line.empty());
    BOOST_TEST(!best_reply_within(forked, -1, Square::d5, {}, Delays::checks).line.empty());
}

BOOST_AUTO_TEST_SUITE_END()
