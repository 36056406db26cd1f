// Threats, parries and answers. The facts come from our own worked positions
// (tests/python/data/worked-positions.jsonl), whose names the cases bear.
#include <boost/test/unit_test.hpp>

#include <set>
#include <string>

#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/san.hpp>

namespace {

using namespace keysquare;

using Names = std::set<std::string>;

constexpr std::string_view h01 = "r4rk1/ppp2ppp/3b4/8/3P3q/2N1P3/PPQ2PPP/R4RK1 w - - 0 1";
constexpr std::string_view h03 = "rn1q1rk1/pbpp1ppp/1p1bpn2/8/3PP3/2NB1N2/PPP2PPP/R1BQ1RK1 b - - 0 1";
constexpr std::string_view h05 = "3r1rk1/pp2qppp/2p1b3/8/2Pn4/1PN3P1/P2Q1PBP/R4RK1 w - - 0 1";
constexpr std::string_view h07 = "r3kb1r/pbpq1ppp/1pn1pn2/1B6/3P4/2N2N2/PP3PPP/R1BQR1K1 b kq - 0 1";
constexpr std::string_view h08 = "r3kb1r/pp1b1ppp/1qn1pn2/3p4/3P1B2/P1N1PN2/1PP1BPPP/R2Q1RK1 w kq - 0 1";
constexpr std::string_view i05 = "2rqnrk1/pp4p1/1b2b2p/4Np2/3pP1B1/2NP4/PPQ2PPP/R4RK1 w - - 0 1";
constexpr std::string_view i06 = "r4rk1/ppp2ppp/1q6/8/1b1P4/4P1P1/PP2QP1P/R2NR1K1 w - - 0 1";

Position position_of(std::string_view text) { return read_fen(text).value(); }

std::string first_move(const Position& position, const Threat& threat) {
    return san(threat.after_pass ? turned(position) : position, threat.line.front());
}

template <class Wanted> Names names_of(const Position& position, const Parries& parries, Wanted wanted) {
    Names names;
    for (const Parry& parry : parries.moves)
        if (wanted(parry)) names.insert(san(position, parry.move));
    return names;
}

const auto stops = [](const Parry& parry) { return parry.stops; };
const auto ends_all = [](const Parry& parry) { return parry.ends_all; };

Answer answer_to(std::string_view text, std::string_view move) {
    const Position position = position_of(text);
    return answers(position, read_move(position, move).value());
}

} // namespace

BOOST_AUTO_TEST_SUITE(thinking_threats)

BOOST_AUTO_TEST_CASE(h01_a_mate) {
    const Position position = position_of(h01);
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(found[0].mate);
    BOOST_TEST(found[0].after_pass);
    BOOST_TEST((found[0].side == Side::black));
    BOOST_TEST(found[0].squares.bits() == (Squares{Square::g1, Square::h2}.bits()));
    BOOST_TEST(first_move(position, found[0]) == "Qxh2#");
    const Parries answer = parries(position, found[0]);
    BOOST_TEST((names_of(position, answer, ends_all) == Names{"f4", "g3", "h3"}));
    BOOST_TEST(answer.legal == 39);
    BOOST_TEST(sentence(position, found[0]) == "Black threatens to mate: 1...Qxh2#.");
    BOOST_TEST(sentence(position, found[0], answer) ==
               "Of 39 legal moves 3 parry Qxh2# and leave the other side nothing else: g3, h3 and f4. "
               "Good for something else as well: g3.");
}

BOOST_AUTO_TEST_CASE(h03_a_fork_is_not_parried_by_a_trade_in_between) {
    const Position position = position_of(h03);
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(first_move(position, found[0]) == "e5");
    BOOST_TEST(found[0].gain == 2);
    BOOST_TEST((found[0].target == Square::d6));
    BOOST_TEST(
        (names_of(position, parries(position, found[0]), ends_all) == Names{"Bb4", "Be7", "Ng4", "Nh5", "Ne8", "c5"}));
}

BOOST_AUTO_TEST_CASE(h05_several_threats_strongest_first) {
    const Position position = position_of(h05);
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 3);
    BOOST_TEST(first_move(position, found[0]) == "Nf3+");
    BOOST_TEST(found[0].gain == 6);
    BOOST_TEST(found[1].gain == 2);
    BOOST_TEST(found[2].gain == 1);
    const Parries answer = parries(position, found[0]);
    BOOST_TEST((names_of(position, answer, stops) ==
                Names{"Kh1", "Qc1", "Qd1", "Qe1", "Qb2", "Qc2", "Qe2", "Qd3", "Qe3", "Qxd4", "Qf4", "Nd5"}));
    // The one parry that is a threat itself: a knight attacks the queen with a threat of check.
    BOOST_TEST((names_of(position, answer, [](const Parry& parry) { return parry.counters; }) == Names{"Nd5"}));
}

BOOST_AUTO_TEST_CASE(h07_a_quiet_move_against_a_pinned_man) {
    const Position position = position_of(h07);
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(first_move(position, found[0]) == "d5");
    BOOST_TEST(found[0].gain == 2);
    const Names ended = names_of(position, parries(position, found[0]), ends_all);
    for (const char* move : {"Nd5", "a6", "O-O-O"}) BOOST_TEST(ended.count(move) == 1U, move);
}

BOOST_AUTO_TEST_CASE(h08_a_bait_is_no_threat) {
    // Qxb2 takes a pawn, and Na4 traps the queen: a quiet answer.
    BOOST_TEST(threats(position_of(h08)).empty());
}

BOOST_AUTO_TEST_CASE(i06_two_moves_hold) {
    const Position position = position_of(i06);
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST((names_of(position, parries(position, found[0]), ends_all) == Names{"Nc3", "Rf1"}));
}

BOOST_AUTO_TEST_CASE(none_while_in_check) {
    // White is in check, so Black could not move again; what White may do at once is another question.
    const Position position = position_of("4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1");
    BOOST_TEST(threats(position).empty());
    BOOST_TEST(threats(position, Side::black).empty());
}

BOOST_AUTO_TEST_CASE(what_the_mover_can_do_at_once) {
    const Position position = position_of("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
    const Threats found = threats(position, Side::white);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(!found[0].after_pass);
    BOOST_TEST(found[0].gain == 5);
    BOOST_TEST(sentence(position, found[0]) == "White can win material worth 5 pawns with Nxd5.");
    // Black's rook attacks nothing that it could take.
    BOOST_TEST(threats(position).empty());
}

BOOST_AUTO_TEST_CASE(one_man_taken_in_two_ways_is_one_threat) {
    // Rook and bishop both attack the knight, which nothing guards.
    const Position position = position_of("2r1k3/8/8/3n4/8/1B6/3R4/4K3 b - - 0 1");
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST((found[0].target == Square::d5));
    const Names stopped = names_of(position, parries(position, found[0]), stops);
    // Rc4 closes the bishop's way, but then the rook takes; Rd8 shuts nobody out and guards the knight once.
    BOOST_TEST(stopped.count("Rc4") == 0U);
    BOOST_TEST(stopped.count("Rd8") == 0U);
    BOOST_TEST(stopped.count("Nf4") == 1U);
    // A check puts it off, and the knight goes next.
    BOOST_TEST(stopped.count("Rc1+") == 1U);
}

BOOST_AUTO_TEST_CASE(mates_on_different_squares_are_different_and_longer_ones_are_left_out) {
    // One rook mates on a8, the other on b8; all other mating lines are longer.
    const Position position = position_of("6k1/5ppp/8/8/8/8/RR3PPP/6K1 b - - 0 1");
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 2);
    for (const Threat& threat : found) {
        BOOST_TEST(threat.mate);
        BOOST_TEST(threat.line.size() == 1U);
    }
    BOOST_TEST((found[0].target != found[1].target));
    // Air for the king, whichever rook comes first; after f5 and Kf8 it is no mate, but pawns fall to the checks.
    for (const Threat& threat : found) {
        const Parries answer = parries(position, threat);
        BOOST_TEST((names_of(position, answer, ends_all) == Names{"f6", "g5", "g6", "h5", "h6"}));
        BOOST_TEST((names_of(position, answer, stops) == Names{"f5", "f6", "g5", "g6", "h5", "h6", "Kf8"}));
    }
}

// Found by fuzzing: whether anything wins more than the queen that was taken is another question than `threats` asks, which
// found less where the search stopped at its bound, and where the move threatens a pawn and then turns out to mate.
BOOST_AUTO_TEST_CASE(no_threat_is_left_where_all_are_said_to_be_ended) {
    struct Case {
        std::string_view fen, taking;
        int nodes;
    };
    for (const Case& one : {Case{"3r1rkp/Pp2n1pp/4qq2/2Qq4/3P4/1N1B1P2/R1R4N/R4BKb b - - 0 1", "Qxc5", 1024},
                            Case{"4k3/8/8/2Q5/8/3Q4/4K3/1Q1r1p2 b - - 0 1", "Rxd3", 50'000}}) {
        const Position position = read_fen(one.fen, Strictness::lenient).value();
        Options options;
        options.bound.nodes = one.nodes;
        const Position taken = after(position, read_move(position, one.taking).value());
        const Threats left = threats(taken, taken.mover(), options);
        BOOST_REQUIRE(!left.empty());
        BOOST_TEST((left.front().mate || left.front().gain > 9)); // more than the queen
        const Threats found = threats(position, options);
        BOOST_REQUIRE(found.size() > 1);
        for (const Threat& threat : found)
            BOOST_TEST(
                !names_of(position, parries(position, threat, options), ends_all).count(std::string{one.taking}));
    }
}

BOOST_AUTO_TEST_CASE(a_quiet_move_adds_something_or_is_no_threat) {
    // The queen hangs to the rook; quiet moves that leave it hanging threaten nothing new.
    const Position position = position_of("3q2k1/5ppp/8/8/8/8/5PPP/3R2K1 b - - 0 1");
    const Threats found = threats(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(first_move(position, found[0]) == "Rxd8#");
}

BOOST_AUTO_TEST_CASE(answers_say_what_was_overlooked) {
    const Answer neglected = answer_to(h01, "a3");
    BOOST_TEST(neglected.loses);
    BOOST_TEST(neglected.leaves);
    BOOST_TEST(!neglected.walks_into);
    BOOST_TEST(neglected.reply.mate);

    const Answer hung = answer_to(h03, "Ba3");
    BOOST_TEST(hung.walks_into);
    BOOST_TEST(!hung.leaves);
    BOOST_TEST(hung.cost == 3);

    const Answer fine = answer_to(h01, "f4");
    BOOST_TEST(!fine.loses);
    BOOST_TEST(fine.reply.line.empty());

    // The pawn is taken back, on balance nothing is lost (i05: the only move that holds).
    const Answer trade = answer_to(i05, "exf5");
    BOOST_TEST(trade.taken == 1);
    BOOST_TEST(!trade.loses);
    BOOST_TEST(!trade.reply.line.empty());
    BOOST_TEST(trade.cost == 0);
}

BOOST_AUTO_TEST_CASE(answers_have_sentences) {
    const auto said = [](std::string_view text, std::string_view move) {
        return sentence(position_of(text), answer_to(text, move));
    };
    BOOST_TEST(said(h01, "a3") == "a3 leaves what Black threatened before: 1...Qxh2# mates.");
    BOOST_TEST(said(h03, "Ba3") == "Ba3 walks into bxa3, which wins material worth 3 pawns.");
    BOOST_TEST(said(h01, "f4") == "After f4 Black has no capture or threat that wins anything.");
    BOOST_TEST(said(i05, "exf5") == "After exf5 Black has Bxf5, which wins no more than the move took.");
}

BOOST_AUTO_TEST_CASE(a_threat_can_be_drawn) {
    const Position position = position_of(h05);
    const Threat threat = threats(position).front();
    const Finding shown[] = {as_finding(position, threat)};
    const DiagramOptions options = diagram_of(position, shown);
    BOOST_REQUIRE(!options.marks.empty());
    BOOST_TEST((options.marks.front().square == Square::d2)); // the queen that falls
    BOOST_REQUIRE(options.arrows.size() == 2);
    BOOST_TEST((options.arrows[0].to == Square::f3));
}

BOOST_AUTO_TEST_SUITE_END()
