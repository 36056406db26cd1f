// Mobility and the rooks, against our own worked positions (f01 to f08), and against the legal moves on random
// positions.
#include <boost/test/unit_test.hpp>

#include <keysquare/features/findings.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

Mobility mobility_in(std::string_view fen, Square square) { return mobility(read_fen(fen).value(), square); }

const Destination& to(const Mobility& mobility, Square square) {
    const auto found = std::ranges::find(mobility.destinations, square, &Destination::square);
    BOOST_REQUIRE((found != mobility.destinations.end()));
    return *found;
}

Squares held(const Mobility& mobility) {
    return mobility.squares(SquareVerdict::held_by_pawn) | mobility.squares(SquareVerdict::held_by_minor) |
           mobility.squares(SquareVerdict::held);
}

} // namespace

BOOST_AUTO_TEST_SUITE(mobilities)

BOOST_AUTO_TEST_CASE(f01_stuffed_rooks) {
    constexpr auto fen = "r1b2rk1/pp3pbp/3q2p1/4p3/1P1pP3/P1nN1P2/2P2QPP/R1B1RBK1 w - - 0 1";
    const Mobility a1 = mobility_in(fen, Square::a1);
    BOOST_TEST((held(a1) == Squares{Square::b1, Square::a2}));
    BOOST_TEST(a1.scope().empty());
    const Mobility e1 = mobility_in(fen, Square::e1);
    BOOST_TEST((to(e1, Square::e3).verdict == SquareVerdict::held_by_pawn));
    BOOST_TEST((to(e1, Square::d1).verdict == SquareVerdict::held_by_minor));
    BOOST_TEST((to(e1, Square::f1).verdict == SquareVerdict::own_man));
    const Findings found = findings(read_fen(fen).value());
    const auto stuffed = std::ranges::find(found, Theme::stuffed_rooks, &Finding::theme);
    BOOST_REQUIRE((stuffed != found.end()));
    BOOST_TEST(stuffed->number(Measure::rooks) == 2);
    BOOST_TEST(stuffed->number(Measure::moves) == 5);
    BOOST_TEST(stuffed->gain == -2);
}
BOOST_AUTO_TEST_CASE(f03_squares_held_in_the_enemy_camp) {
    const Mobility c8 = mobility_in("2r2rk1/pq2bppp/1p2pn2/3p4/3P4/3BPN2/PP3PPP/2RQ1RK1 b - - 0 1", Square::c8);
    BOOST_TEST((held(c8) == Squares{Square::c2, Square::c3, Square::c4, Square::c5}));
    BOOST_TEST(
        (c8.scope() == Squares{Square::c1, Square::c6, Square::c7, Square::a8, Square::b8, Square::d8, Square::e8}));
}
BOOST_AUTO_TEST_CASE(f05_denied_by_a_pin) {
    const Mobility d8 = mobility_in("2qrr1k1/p3bpp1/1p3n1p/2p1p3/7P/2NP2P1/PP2PPBK/R2Q1R2 b - - 0 1", Square::d8);
    const Destination& d7 = to(d8, Square::d7);
    BOOST_TEST((d7.verdict == SquareVerdict::denied_by_tactics));
    BOOST_TEST(d7.outcome.gain == -2);
    BOOST_TEST(coordinate(d7.outcome.line[1]) == "g2h3");
    BOOST_TEST((d8.scope() == Squares{Square::d4, Square::d6}));
}
BOOST_AUTO_TEST_CASE(f07_denied_by_a_skewer) {
    const Mobility e1 = mobility_in("r1bq1rk1/p1p2ppp/1p3n2/3p4/3P1B2/2P2NP1/PP1Q1P1P/4RR1K w - - 0 1", Square::e1);
    BOOST_TEST((to(e1, Square::e2).verdict == SquareVerdict::denied_by_tactics));
    BOOST_TEST(coordinate(to(e1, Square::e2).outcome.line[1]) == "c8a6");
    BOOST_TEST((e1.scope() == Squares{Square::a1, Square::b1, Square::c1, Square::d1, Square::e3, Square::e5}));
}
BOOST_AUTO_TEST_CASE(f08_one_square_is_free) {
    const Mobility h4 = mobility_in("r4r2/pp1b1pkp/1qp3p1/3p4/3P3R/2PB1N2/PP2QPPP/R5K1 w - - 0 1", Square::h4);
    BOOST_TEST((h4.scope() == Squares{Square::f4}));
}

BOOST_AUTO_TEST_CASE(pinned_and_in_check) {
    const Mobility pinned = mobility_in("4r1k1/8/8/8/8/4N3/8/4K3 w - - 0 1", Square::e3);
    BOOST_TEST((pinned.squares(SquareVerdict::pinned).count() == 8));
    const Mobility checked = mobility_in("4r1k1/8/8/8/8/8/8/R3K3 w - - 0 1", Square::a1);
    BOOST_TEST((to(checked, Square::a8).verdict == SquareVerdict::unanswered_check));
    BOOST_TEST((to(checked, Square::e1).verdict == SquareVerdict::own_man));
    // The waiter has no turn while the mover is in check.
    BOOST_TEST(!mobility_in("4r1k1/8/8/8/8/8/8/R3K3 w - - 0 1", Square::e8).known);
    BOOST_TEST(!mobility_in("4r1k1/8/8/8/8/8/8/R3K3 w - - 0 1", Square::c4).known);
}

BOOST_AUTO_TEST_CASE(a_square_that_gives_up_a_duty) {
    // The rook on d1 guards the knight on d4; on the first rank it does not.
    const Mobility d1 = mobility_in("3r2k1/5pp1/7p/8/3N4/8/5PPP/3R2K1 w - - 0 1", Square::d1);
    const Destination& a1 = to(d1, Square::a1);
    BOOST_TEST((a1.verdict == SquareVerdict::gives_up_duty));
    BOOST_TEST((a1.duty == Square::d4));
    BOOST_TEST((to(d1, Square::d2).verdict == SquareVerdict::open));
}

BOOST_AUTO_TEST_CASE(a_threat_elsewhere_is_not_held_against_the_square) {
    // The pawn attacks the knight; a rook move that still guards it loses no more than standing still.
    const Mobility rook = mobility_in("6k1/8/6p1/7N/8/8/8/4K2R w - - 0 1", Square::h1);
    BOOST_TEST((to(rook, Square::h2).verdict == SquareVerdict::neglects));
    BOOST_TEST((to(rook, Square::g1).verdict == SquareVerdict::open)); // pins the pawn
    BOOST_TEST((to(rook, Square::f1).verdict == SquareVerdict::gives_up_duty));
    const Mobility knight = mobility_in("6k1/8/6p1/7N/8/8/8/4K2R w - - 0 1", Square::h5);
    BOOST_TEST((to(knight, Square::f6).verdict == SquareVerdict::open));
}

BOOST_AUTO_TEST_CASE(every_legal_move_has_a_verdict_and_nothing_else_is_called_legal) {
    int destinations = 0;
    for (const Position& position : test::random_positions(150, 31)) {
        const MoveList moves = legal_moves(position);
        const BoardView view{position};
        for (const Square square : position.men(position.mover())) {
            Squares legal;
            for (const Move move : moves)
                if (move.origin() == square) legal |= Squares{move.target()};
            const Mobility mobility = keysquare::mobility(view, square);
            Squares shown;
            for (const Destination& destination : mobility.destinations) {
                const bool illegal = destination.verdict == SquareVerdict::own_man ||
                                     destination.verdict == SquareVerdict::pinned ||
                                     destination.verdict == SquareVerdict::unanswered_check ||
                                     (position.kind_at(square) == Kind::king && destination.outcome.line.empty() &&
                                      !legal.has(destination.square));
                if (!illegal) shown |= Squares{destination.square};
                ++destinations;
            }
            BOOST_REQUIRE(shown == legal);
        }
    }
    BOOST_TEST(destinations > 5000);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(all_findings)

BOOST_AUTO_TEST_CASE(are_ranked_and_the_same_each_time) {
    Findings reused;
    for (const Position& position : test::random_positions(150, 41)) {
        const Findings found = findings(position);
        BOOST_TEST(std::ranges::is_sorted(found, std::ranges::greater{}, &Finding::weight));
        findings(position, reused);
        BOOST_REQUIRE(reused.size() == found.size());
        for (std::size_t at = 0; at < found.size(); ++at) {
            BOOST_TEST((reused[at].theme == found[at].theme));
            BOOST_TEST((reused[at].line == found[at].line));
            BOOST_TEST(found[at].weight > 0); // every theme has its row in the table
        }
    }
}

BOOST_AUTO_TEST_CASE(lines_are_legal_and_gains_are_what_they_win) {
    int lines = 0;
    for (const Position& position : test::random_positions(300, 43))
        for (const Finding& finding : findings(position)) {
            if (finding.line.empty()) continue;
            Position at = finding.after_pass ? turned(position) : position;
            if (finding.removed != Square::none) at = without(at, finding.removed);
            BOOST_REQUIRE((at.mover() == finding.side));
            const int before = balance(at, finding.side, {});
            for (const Move move : finding.line) {
                BOOST_REQUIRE(is_legal(at, move));
                at = after(at, move);
            }
            BOOST_TEST(balance(at, finding.side, {}) - before == finding.gain);
            if (finding.mate) BOOST_TEST((is_mated(at) && at.mover() != finding.side));
            if (finding.mated) BOOST_TEST((is_mated(at) && at.mover() == finding.side));
            ++lines;
        }
    BOOST_TEST(lines > 1000);
}

BOOST_AUTO_TEST_SUITE_END()
