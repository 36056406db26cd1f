// exchange and resolve against slow twins that follow their definitions to the letter.
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <random>

#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>

namespace {

using namespace keysquare;

/// All captures on the square in every order, no pruning.
int slow_exchange(const Position& position, Square square, const Values& values) {
    int best = 0;
    for (const Move move : legal_moves(position)) {
        const Square victim = move.type() == MoveType::en_passant
                                  ? square_at(index(move.target()) - advance_of(position.mover()))
                                  : move.raw_target();
        if (victim != square || captured_by(position, move) == Kind::none) continue;
        best = std::max(best, immediate_gain(position, move, values) -
                                  slow_exchange(after(position, move), move.target(), values));
    }
    return best;
}

/// Plain minimax of the game that `resolve` is defined by; mates as large numbers.
int slow_resolve(const Position& position, int balance, int ply, const Bound& bound, const Values& values) {
    if (ply >= bound.plies) return balance;
    const bool checked = in_check(position);
    int best = checked ? -1'000'000 + ply : balance;
    for (const Move move : legal_moves(position)) {
        const Position next = after(position, move);
        const bool forcing =
            captured_by(position, move) != Kind::none || move.promotes() || (ply < bound.check_plies && in_check(next));
        if (!checked && !forcing) continue;
        best = std::max(
            best, -slow_resolve(next, -(balance + immediate_gain(position, move, values)), ply + 1, bound, values));
    }
    return best;
}

template <class Visit> void visit_random_positions(unsigned seed, int games, Visit visit) {
    std::mt19937 random(seed); // NOLINT: the same games every time
    for (int game = 0; game < games; ++game) {
        Position position = start_position();
        for (int ply = 0; ply < 100; ++ply) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            position = after(position, moves[random() % moves.size()]);
            visit(position);
        }
    }
}

} // namespace

BOOST_AUTO_TEST_SUITE(tactics)

BOOST_AUTO_TEST_CASE(exchange_equals_its_slow_twin) {
    const Values values;
    int winning = 0;
    visit_random_positions(3, 60, [&](const Position& position) {
        for (const Square square : position.men(position.waiter()) & ~position.men(Kind::king)) {
            const Outcome outcome = exchange(position, square);
            BOOST_REQUIRE(outcome.gain == slow_exchange(position, square, values));
            BOOST_REQUIRE(detail::gain_of_line(position, outcome.line, values) == outcome.gain);
            for (int threshold = 1; threshold <= 9; ++threshold)
                BOOST_REQUIRE(exchange_wins(position, square, threshold) == (outcome.gain >= threshold));
            winning += outcome.gain > 0 ? 1 : 0;
        }
    });
    BOOST_TEST(winning > 1000);
}

BOOST_AUTO_TEST_CASE(resolve_equals_its_slow_twin) {
    const Values values;
    Bound bound;
    bound.plies = 4;
    bound.check_plies = 2;
    int mates = 0;
    int gains = 0;
    visit_random_positions(5, 40, [&](const Position& position) {
        const int expected = slow_resolve(position, 0, 0, bound, values);
        const Outcome outcome = resolve(position, bound);
        BOOST_REQUIRE(outcome.complete);
        BOOST_REQUIRE(outcome.mate == (expected > 900'000));
        BOOST_REQUIRE(outcome.mated == (expected < -900'000));
        if (!outcome.mate && !outcome.mated) BOOST_REQUIRE(outcome.gain == expected);
        BOOST_REQUIRE(detail::gain_of_line(position, outcome.line, values) == outcome.gain);
        for (const int threshold : {-3, 0, 1, 5})
            BOOST_REQUIRE(resolve_wins(position, threshold, bound).holds == (expected >= threshold));
        mates += outcome.mate ? 1 : 0;
        gains += outcome.gain > 0 ? 1 : 0;
    });
    BOOST_TEST(mates > 5);
    BOOST_TEST(gains > 300);
}

BOOST_AUTO_TEST_CASE(what_is_known_of_a_move_is_true_and_changes_no_answer) {
    const Values values;
    Bound bound;
    bound.plies = 4;
    bound.check_plies = 2;
    std::mt19937 random(13); // NOLINT: the same questions every time
    int for_nothing = 0;
    visit_random_positions(15, 4, [&](const Position& position) {
        const MoveList moves = legal_moves(position);
        KeptList known = nothing_known(moves.size());
        for (std::size_t at = 0; at < moves.size(); ++at) {
            const Position next = after(position, moves[at]);
            const int kept = -slow_resolve(next, -immediate_gain(position, moves[at], values), 0, bound, values);
            for (int question = 0; question < 4; ++question) {
                const int threshold = static_cast<int>(random() % 13) - 6;
                for_nothing += known[at].least >= threshold || known[at].most < threshold ? 1 : 0;
                BOOST_REQUIRE(move_keeps(position, moves[at], threshold, bound, values, known[at]).holds ==
                              (kept >= threshold));
                BOOST_REQUIRE(known[at].least <= kept);
                BOOST_REQUIRE(known[at].most >= kept);
            }
            const Outcome anew = value_of_move(position, moves[at], bound, values);
            Kept of_this = known[at];
            const Outcome outcome = value_of_move(position, moves[at], bound, values, of_this);
            BOOST_REQUIRE(of_this.least == kept && of_this.most == kept);
            BOOST_REQUIRE(outcome.gain == anew.gain && outcome.mate == anew.mate && outcome.mated == anew.mated);
            BOOST_REQUIRE(std::ranges::equal(outcome.line, anew.line));
        }
        const Outcome best = best_of(position, moves, bound, values, known);
        BOOST_REQUIRE(std::ranges::equal(best.line, best_of(position, moves, bound, values).line));
        if (best.line.empty() || best.mate || best.mated) return;
        for (const Move move : moves) { // the first of the best
            if (move == best.line.front()) break;
            BOOST_REQUIRE(is_better(best, value_of_move(position, move, bound, values)));
        }
        for (const Move move : moves) BOOST_REQUIRE(!is_better(value_of_move(position, move, bound, values), best));
    });
    BOOST_TEST(for_nothing > 1000);
}

// A reviewer's positions, in which the order of equal moves once depended on what was known.
BOOST_AUTO_TEST_CASE(what_is_known_of_a_move_does_not_change_its_line) {
    const auto check = [](const char* fen, const char* text, const Bound& bound, Kept known) {
        const Position position = read_fen(fen).value();
        const Move move = read_coordinate(position, text).value();
        const Outcome anew = value_of_move(position, move, bound);
        const Outcome outcome = value_of_move(position, move, bound, {}, known);
        BOOST_TEST(outcome.gain == anew.gain);
        BOOST_TEST(std::ranges::equal(outcome.line, anew.line));
    };
    check("N7/KP5P/3r1QP1/1b1kn1N1/1Q4Q1/2Pp4/4R2P/b3r3 w - - 0 1", "b4d4", {},
          {detail::mate_line + 1, detail::mate_score});
    Bound captures;
    captures.plies = 3;
    captures.check_plies = 0;
    check("1r6/5P2/8/8/4k3/8/p7/5K2 w - - 0 1", "f7f8q", captures, {-detail::mate_score, -9});
    check("2k5/Q3P3/p7/2B5/q4p2/8/2Qp4/1K6 b - - 0 1", "a4a3", {}, {-detail::mate_score, 0});
}

BOOST_AUTO_TEST_CASE(the_best_is_complete_only_when_all_was_looked_at) {
    const Position position = read_fen("7q/1P2P3/5B2/n1P4K/6N1/1b6/k5rq/1R6 w - - 0 1").value();
    Bound bound;
    bound.plies = 5;
    bound.check_plies = 4;
    const MoveList moves = legal_moves(position);
    const Outcome whole = best_of(position, moves, bound);
    BOOST_REQUIRE(whole.complete);
    int unfinished = 0;
    for (bound.nodes = 1; bound.nodes < 400; ++bound.nodes) {
        KeptList known = nothing_known(moves.size());
        for (std::size_t at = 0; at < moves.size(); ++at)
            (void)move_keeps(position, moves[at], 0, bound, {}, known[at]);
        const Outcome best = best_of(position, moves, bound, {}, known);
        if (best.complete) BOOST_REQUIRE(std::ranges::equal(best.line, whole.line));
        unfinished += best.complete ? 0 : 1;
    }
    BOOST_TEST(unfinished > 0);
}

BOOST_AUTO_TEST_CASE(lines_are_legal_and_mates_are_mates) {
    visit_random_positions(9, 40, [&](const Position& position) {
        const Outcome outcome = resolve(position);
        Position end = position;
        for (const Move move : outcome.line) {
            BOOST_REQUIRE(is_legal(end, move));
            end = after(end, move);
        }
        if (outcome.mate) BOOST_REQUIRE(is_mated(end) && end.mover() != position.mover());
        if (outcome.mated) BOOST_REQUIRE(is_mated(end) && end.mover() == position.mover());
    });
}

BOOST_AUTO_TEST_CASE(known_exchanges) {
    // Laws of Chess 3.7.3: a pawn that has just made a double step can be taken in passing; nothing recaptures on d6.
    const Position passing = read_fen("r1b2rk1/pp3ppp/2n1pn2/2Pp3q/3P4/P1N2NB1/1P3PPP/R1Q1R1K1 w - d6 0 1").value();
    BOOST_TEST(exchange(passing, Square::d5).gain == 1);
    // The only attacker is pinned.
    const Position pinned = read_fen("r1b2rk1/ppp1qppp/2n1p3/8/1bBPn3/2N1PN2/PP3PPP/R1BQK2R w KQ - 0 1").value();
    BOOST_TEST(exchange(pinned, Square::e4).gain == 0);
    BOOST_TEST(exchange(pinned, Square::e4).line.empty());
    // Nothing to take: an empty square, an own man, a king.
    BOOST_TEST(exchange(pinned, Square::e5).gain == 0);
    BOOST_TEST(exchange(pinned, Square::f3).gain == 0);
    BOOST_TEST(exchange(pinned, Square::g8).gain == 0);
    // A capture that promotes wins the rook and the difference of queen and pawn.
    const Position promoting = read_fen("r6k/1P6/8/8/8/8/8/7K w - - 0 1").value();
    BOOST_TEST(exchange(promoting, Square::a8).gain == 13);
}

BOOST_AUTO_TEST_CASE(values_are_a_parameter) {
    Values dear_bishop;
    dear_bishop.of[index(Kind::bishop)] = 4;
    const Position position = read_fen("6k1/5ppp/3b4/8/8/8/5PPP/3R2K1 w - - 0 1").value();
    BOOST_TEST(exchange(position, Square::d6).gain == 3);
    BOOST_TEST(exchange(position, Square::d6, dear_bishop).gain == 4);
}

BOOST_AUTO_TEST_CASE(the_node_bound_is_reported) {
    Bound tight;
    tight.nodes = 1;
    const Position position = read_fen("r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1").value();
    BOOST_TEST(!resolve(position, tight).complete);
    BOOST_TEST(resolve(position).complete);
    BOOST_TEST(!resolve_wins(position, 1, tight).holds);
}

BOOST_AUTO_TEST_SUITE_END()
