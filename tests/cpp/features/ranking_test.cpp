// Ranking: what a teacher would mention first. The positions are our own worked ones
// (tests/python/data/worked-positions.jsonl), whose names stand beside them.
#include <boost/test/unit_test.hpp>

#include <set>

#include <keysquare/features/findings.hpp>
#include <keysquare/notation/fen.hpp>

namespace {

using namespace keysquare;

struct First {
    std::string_view worked;
    std::string_view fen;
    Theme theme;
};

constexpr First firsts[] = {
    {"a01", "6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1", Theme::hanging},
    {"a03", "r2r2k1/pp2qppp/1bn2n2/8/3N4/4B3/PPQ1BPPP/R3R1K1 b - - 0 1", Theme::hanging},
    {"a05", "r2q1rk1/pp1nbpp1/2pp1nbp/8/3P1N2/1BN4P/PPP2PP1/R1BQ1RK1 w - - 0 1", Theme::pin}, // of the guard
    {"a07", "r1b2rk1/pp3ppp/2n1pn2/2Pp3q/3P4/P1N2NB1/1P3PPP/R1Q1R1K1 w - d6 0 1", Theme::hanging},
    {"b01", "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1", Theme::overloaded},
    {"b05", "r3rbk1/pp3ppp/1qpn4/8/6Q1/1P3N2/PBP2PPP/3RR1K1 w - - 0 1", Theme::overloaded},
    {"c01", "3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1", Theme::mutual_guards},
    {"c03", "3r1rk1/p2q1ppp/1pnNp1b1/8/4N3/P1P3P1/1P3P1P/R1Q2RK1 w - - 0 1", Theme::mutual_guards},
    {"c05", "8/1pr1rppk/p2Q2bp/8/6B1/7P/q4PPK/3R1R2 b - - 0 1", Theme::mutual_guards},
    {"c07", "r3r1k1/1q1nppbp/p5p1/1pp5/5Q2/1PN3P1/PBP1PP1P/R2R2K1 w - - 0 1", Theme::shield_pair},
    {"d03", "3r4/pp3p1p/6p1/3k4/8/1P4P1/P4P1P/4R1K1 w - - 0 1", Theme::skewer},
    {"d05", "2r2rk1/1p3ppp/pq1p4/4bN2/4P3/1P3P2/P2Q2PP/3R1R1K w - - 0 1", Theme::fork},
    {"d07", "2r2rk1/1p1q1ppp/pbnp4/3Np3/4P3/1BPP2R1/PP3PPP/R2Q2K1 w - - 0 1", Theme::fork},
    {"d11", "r2q1rk1/1Qp1bppp/p1n1pn2/3p1b2/3P4/2N1PN2/PP1B1PPP/R3KB1R b KQ - 0 1", Theme::trapped_piece},
    {"e05", "2r1r1k1/1b2npbp/pq2p1p1/1p1pP3/2pP1B2/2P1QN2/PP1N1PPP/R3R1K1 w - - 0 1", Theme::colour_complex},
    {"f01", "r1b2rk1/pp3pbp/3q2p1/4p3/1P1pP3/P1nN1P2/2P2QPP/R1B1RBK1 w - - 0 1", Theme::stuffed_rooks},
    {"g01", "2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1", Theme::exchange_imbalance},
    {"g06", "8/8/4k3/3b4/8/8/8/R3K3 w - - 0 1", Theme::exchange_imbalance},
    {"h01", "r4rk1/ppp2ppp/3b4/8/3P3q/2N1P3/PPQ2PPP/R4RK1 w - - 0 1", Theme::mate_in_one},
    {"h05", "3r1rk1/pp2qppp/2p1b3/8/2Pn4/1PN3P1/P2Q1PBP/R4RK1 w - - 0 1", Theme::fork},
    {"h08", "r3kb1r/pp1b1ppp/1qn1pn2/3p4/3P1B2/P1N1PN2/1PP1BPPP/R2Q1RK1 w kq - 0 1", Theme::poisoned},
    {"i01", "r4rk1/ppp1q1pp/4b3/n4p2/1b1Pn3/1QN1PN2/PP3PPP/R1B1K2R w KQ - 0 1", Theme::hanging},
    {"i05", "2rqnrk1/pp4p1/1b2b2p/4Np2/3pP1B1/2NP4/PPQ2PPP/R4RK1 w - - 0 1", Theme::hanging},
};

Finding winning(Theme theme, int gain) {
    Finding finding;
    finding.theme = theme;
    finding.gain = gain;
    return finding;
}

} // namespace

BOOST_AUTO_TEST_SUITE(ranking)

BOOST_AUTO_TEST_CASE(the_first_finding_is_what_a_teacher_would_mention_first) {
    for (const First& first : firsts) {
        const Findings found = findings(read_fen(first.fen).value());
        BOOST_REQUIRE(!found.empty());
        BOOST_TEST(name(found.front().theme) == name(first.theme), first.worked);
    }
}

BOOST_AUTO_TEST_CASE(every_theme_and_detail_that_is_found_has_its_row) {
    for (const First& first : firsts)
        for (const Finding& finding : findings(read_fen(first.fen).value()))
            BOOST_TEST(weight_of(finding) > 0, name(finding.theme) << ' ' << name(finding.detail));
    std::set<Theme> with_rows;
    for (const RankingRow& row : ranking_table)
        if (row.detail == Detail::none || row.theme == Theme::mutual_guards) with_rows.insert(row.theme);
    with_rows.insert({Theme::loose}); // its two details have their rows
    BOOST_TEST(with_rows.size() == static_cast<std::size_t>(Theme::end_));
}

BOOST_AUTO_TEST_CASE(what_is_at_stake_counts_most) {
    BOOST_TEST(weight_of(winning(Theme::hanging, 9)) > weight_of(winning(Theme::fork, 5)));
    BOOST_TEST(weight_of(winning(Theme::fork, 3)) > weight_of(winning(Theme::hanging, 3)));
    Finding mate = winning(Theme::mate_in_one, 0);
    mate.mate = true;
    BOOST_TEST(weight_of(mate) > weight_of(winning(Theme::hanging, 9)));
}

BOOST_AUTO_TEST_CASE(the_mover_comes_first) {
    Finding now = winning(Theme::hanging, 3);
    Finding threat = now;
    threat.after_pass = true;
    BOOST_TEST(weight_of(now) > weight_of(threat));
}

BOOST_AUTO_TEST_CASE(what_is_hidden_and_takes_more_pieces_is_mentioned_earlier) {
    Finding plain = winning(Theme::hanging, 3);
    plain.line = {Move{Square::a1, Square::a2}};
    Finding hidden = plain;
    hidden.line = {Move{Square::a1, Square::a2}, Move{Square::a1, Square::a2}, Move{Square::a1, Square::a2}};
    BOOST_TEST(weight_of(hidden) > weight_of(plain));
    Finding joint = plain;
    joint.pieces.assign(3, {});
    BOOST_TEST(weight_of(joint) > weight_of(plain));
}

BOOST_AUTO_TEST_CASE(geometry_that_wins_nothing_ranks_low) {
    for (const Theme theme :
         {Theme::pin, Theme::fork, Theme::skewer, Theme::discovered_attack, Theme::removable_guard, Theme::back_rank})
        BOOST_TEST(weight_of(winning(theme, 0)) < weight_of(winning(Theme::hanging, 1)) / 3, name(theme));
}

BOOST_AUTO_TEST_CASE(what_has_been_said_is_worth_less_when_it_is_said_again) {
    Findings found;
    for (const int gain : {-3, -3, -3}) found.push_back(winning(Theme::denied_square, gain));
    found.push_back(winning(Theme::hanging, 2));
    found.push_back(winning(Theme::hanging, 2));
    rank(found);
    BOOST_TEST(found[0].weight == found[1].weight); // gains are not thinned
    BOOST_TEST(found[3].weight == found[2].weight / 2);
    BOOST_TEST(found[4].weight == found[2].weight / 3);
}

BOOST_AUTO_TEST_CASE(a_second_win_by_the_same_move_is_worth_less) {
    Findings found;
    for (const Theme theme : {Theme::hanging, Theme::fork, Theme::pin}) {
        found.push_back(winning(theme, 3));
        found.back().line = {Move{Square::a1, Square::a2}};
    }
    found.back().side = Side::black;
    rank(found);
    BOOST_TEST(name(found[0].theme) == "fork");
    BOOST_TEST(name(found[1].theme) == "pin"); // the other side's
    BOOST_TEST(found[2].weight == weight_of(found[2]) / 2);
}

BOOST_AUTO_TEST_SUITE_END()
