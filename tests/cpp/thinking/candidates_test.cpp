// Candidates, and the facts about moves that they rest on. All positions are our own.
#include <boost/test/unit_test.hpp>

#include <map>
#include <set>
#include <string>

#include "../features/mirrored.hpp"

#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/thinking/counted_facts.hpp>
#include <keysquare/thinking/fact_weights.hpp>
#include <keysquare/thinking/move_studies.hpp>

namespace {

using namespace keysquare;

Position position_of(std::string_view text) { return read_fen(text).value(); }

MoveStudy study_of(const Position& position, std::string_view text) {
    const Options options;
    const MoveStudies studies{position, options};
    const Move move = read_move(position, text).value();
    const auto at = std::ranges::find(studies.moves(), move) - studies.moves().begin();
    return studies.study(static_cast<std::size_t>(at));
}

/// The fact, with amount 0 where the move has none of it.
MoveReason fact_of(const MoveStudy& study, MoveFact fact) {
    for (const MoveReason& reason : study.facts)
        if (reason.fact == fact) return reason;
    return {fact, 0, {}};
}

struct Counted {
    std::string_view fen;
    std::string_view move;
    MoveFact fact;
    int amount;
    Squares squares;
};

const Counted counted_by_hand[] = {
    {"4k3/8/8/8/8/8/8/R3K3 w Q - 0 1", "a1a8", MoveFact::checks, 1, {Square::e8}},
    {"4k3/8/8/8/8/8/8/R3K3 w Q - 0 1", "O-O-O", MoveFact::castles, 1, {Square::c1}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "Nf3", MoveFact::develops, 1, {Square::g1}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "Nh3", MoveFact::rim_knights, -1, {Square::h3}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
     "e4",
     MoveFact::stuck_pieces,
     2,
     {Square::d1, Square::f1}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e4", MoveFact::centre_pawns, 1, {Square::e4}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e4", MoveFact::advances_pawn, 4, {Square::e4}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e4", MoveFact::nearer_centre, 2, {Square::e4}},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e4", MoveFact::loosens_own_king, 1, {Square::e2}},
    {"4k3/8/8/3p4/8/4P3/8/4K3 w - - 0 1", "e4", MoveFact::pawn_lever, 1, {Square::d5}},
    {"4k3/8/8/3p4/8/4P3/8/4K3 w - - 0 1", "e4", MoveFact::attacks_pawns, 1, {Square::d5}},
    {"4k3/8/8/3p4/8/4P3/8/4K3 w - - 0 1", "e4", MoveFact::pawn_under_attack, 1, {Square::e4}},
    {"4k3/8/8/P7/8/8/8/4K3 w - - 0 1", "a6", MoveFact::pushes_passer, 1, {Square::a6}},
    {"4k3/8/8/8/8/8/8/4K3 w - - 0 1", "Kd2", MoveFact::king_to_centre, 1, {Square::d2}},
    {"4k3/8/8/8/8/8/8/4K3 w - - 0 1", "Kd2", MoveFact::uses_king, 1, {Square::d2}},
    {"4k3/q7/8/8/8/8/8/4K3 w - - 0 1", "Kd2", MoveFact::uses_king, 0, {}},
    {"4k3/p7/8/8/8/8/P7/1R2K3 w - - 0 1", "Ra1", MoveFact::rook_on_open_file, -1, {Square::b1}},
    {"4k3/p1p5/8/8/8/8/P7/1R2K3 w - - 0 1", "Rc1", MoveFact::rook_on_half_open_file, 1, {Square::c1}},
    {"4k3/p1p5/8/8/8/8/P7/1R2K3 w - - 0 1", "Rb7", MoveFact::rook_on_seventh, 1, {Square::b7}},
    {"4k3/p1p5/8/8/8/8/P7/1R2K3 w - - 0 1", "Rb7", MoveFact::men_in_other_half, 1, {Square::b7}},
    {"4k3/8/5n2/8/8/2N5/8/3QK3 w - - 0 1", "Nd5", MoveFact::attacks_pieces, 1, {Square::f6}},
    {"4k3/2p5/5n2/q7/8/2N5/8/4K3 b - - 0 1", "Qa4", MoveFact::moves_attacked_queen, 0, {}},
    {"4k3/2p5/5n2/3q4/8/2N5/8/4K3 b - - 0 1", "Qd6", MoveFact::moves_attacked_queen, 1, {Square::d5}},
    {"4k3/2p5/5n2/3q4/8/2N5/8/4K3 b - - 0 1", "Qd6", MoveFact::moves_attacked_piece, 1, {Square::d5}},
    {"4k3/8/2n5/8/8/8/P7/4KB2 w - - 0 1", "Bb5", MoveFact::pins, 1, {Square::c6}},
    {"4k3/8/1b6/8/2N5/8/8/4K3 w - - 0 1", "Nxb6", MoveFact::takes_bishop, 1, {Square::b6}},
    {"4k3/8/8/p7/8/8/8/RB2K3 w - - 0 1", "Be4", MoveFact::loose_men, -1, {Square::e4}},
    {"4k3/8/8/8/3P4/8/2P5/4K3 w - - 0 1", "c3", MoveFact::chained_pawns, 2, {Square::c3, Square::d4}},
    {"4k3/8/3p4/8/4P3/8/2N5/4K3 w - - 0 1", "e5", MoveFact::levers_at_hand, -1, {Square::e5}},
    {"4k3/8/8/4p3/8/4P3/4N3/4K3 w - - 0 1", "Nd4", MoveFact::frees_pawns, 0, {}},
    {"4k3/8/8/8/4N3/4P3/8/4K3 w - - 0 1", "Nc5", MoveFact::frees_pawns, 1, {Square::e3}},
    {"4k3/8/8/2p5/3P4/2P5/8/4K3 w - - 0 1", "dxc5", MoveFact::doubled_pawns, -2, {Square::c3, Square::c5}},
    {"4k3/8/8/8/p7/8/8/1B2K3 w - - 0 1", "Ba2", MoveFact::blocks_passer, 0, {}},
    {"4k3/8/8/8/8/p7/8/1B2K3 w - - 0 1", "Ba2", MoveFact::blocks_passer, 1, {Square::a3}},
    {"q3k3/8/8/8/8/8/6PP/6K1 w - - 0 1", "h3", MoveFact::own_king_squares, 1, {Square::h2}},
    {"3rk3/8/8/8/8/8/5PPP/6K1 w - - 0 1", "Kf1", MoveFact::fewer_checks, 0, {}},
};

std::map<std::string, std::set<std::string>> facts_by_move(const Position& position) {
    std::map<std::string, std::set<std::string>> facts;
    const Options options;
    const MoveStudies studies{position, options};
    for (std::size_t at = 0; at < studies.moves().size(); ++at) {
        const MoveStudy study = studies.study(at);
        auto& of_move = facts[coordinate(study.move)];
        for (const MoveReason& fact : study.facts)
            of_move.insert(std::string{name(fact.fact)} + ' ' + std::to_string(fact.amount));
    }
    return facts;
}

std::string flipped_ranks(std::string text) {
    for (char& c : text)
        if (c >= '1' && c <= '8') c = static_cast<char>('1' + '8' - c);
    return text;
}

} // namespace

BOOST_AUTO_TEST_SUITE(thinking_candidates)

BOOST_AUTO_TEST_CASE(facts_counted_by_hand) {
    for (const Counted& row : counted_by_hand) {
        const MoveReason found = fact_of(study_of(position_of(row.fen), row.move), row.fact);
        BOOST_TEST(found.amount == row.amount, row.fen << ' ' << row.move << ' ' << name(row.fact));
        BOOST_TEST(found.squares.bits() == row.squares.bits(), row.fen << ' ' << row.move << ' ' << name(row.fact));
    }
}

BOOST_AUTO_TEST_CASE(every_fact_has_a_name_of_its_own) {
    std::set<std::string_view> names;
    for (std::size_t at = 0; at < static_cast<std::size_t>(MoveFact::end_); ++at)
        names.insert(name(static_cast<MoveFact>(at)));
    BOOST_TEST(names.size() == static_cast<std::size_t>(MoveFact::end_));
    BOOST_TEST(searched_facts().size() + counted_facts().size() == names.size());
}

BOOST_AUTO_TEST_CASE(what_a_move_saves_and_what_it_costs) {
    const Position position = position_of("6k1/5ppp/8/8/1p6/2N5/5PPP/6K1 w - - 0 1");
    const MoveStudy away = study_of(position, "Nd5");
    BOOST_TEST(fact_of(away, MoveFact::meets_threat).amount == 3);
    BOOST_TEST(fact_of(away, MoveFact::meets_threat).squares.bits() == Squares{Square::c3}.bits());
    BOOST_TEST(fact_of(away, MoveFact::costs).amount == 0);
    const MoveStudy left = study_of(position, "h3");
    BOOST_TEST(fact_of(left, MoveFact::meets_threat).amount == 0);
    BOOST_TEST(fact_of(left, MoveFact::costs).amount == 3);
    BOOST_TEST(!left.loses); // the knight was attacked before
    BOOST_TEST(study_of(position, "Na2").loses == false);
}

BOOST_AUTO_TEST_CASE(what_a_move_threatens) {
    const Position position = position_of("3r2k1/5ppp/8/8/8/2N5/5PPP/6K1 w - - 0 1");
    const MoveStudy fork = study_of(position, "Nb5");
    BOOST_TEST(fork.threat.line.empty());
    const Position loose = position_of("6k1/r4ppp/8/8/8/2N5/5PPP/6K1 w - - 0 1");
    const MoveStudy attack = study_of(loose, "Nb5");
    BOOST_TEST(fact_of(attack, MoveFact::threatens).amount == 5);
    BOOST_TEST(fact_of(attack, MoveFact::threatens).squares.bits() == Squares{Square::a7}.bits());
    BOOST_REQUIRE(!attack.threat.line.empty());
    BOOST_TEST(coordinate(attack.threat.line.front()) == "b5a7");
    const Position back_rank = position_of("6k1/5ppp/8/8/8/8/R4PPP/6K1 w - - 0 1");
    BOOST_TEST(fact_of(study_of(back_rank, "Rb2"), MoveFact::threatens_mate).amount == 0); // it mates at once by Ra8
}

BOOST_AUTO_TEST_CASE(a_mate_stands_alone) {
    const Position position = position_of("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1");
    const Candidates found = candidates(position);
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(found[0].won.mate);
    BOOST_TEST(sentence(position, found[0]) == "Rd8# mates (1.Rd8#).");
}

BOOST_AUTO_TEST_CASE(moves_that_lose_material_are_none) {
    // Every knight move but Ne2 and Nb1 steps into a capture; king and pawn moves are free.
    const Position position = position_of("6k1/8/1p1p4/2p2p2/8/2N5/8/6K1 w - - 0 1");
    for (const Candidate& candidate : candidates(position, 100)) BOOST_TEST(!candidate.loses);
    BOOST_TEST(study_of(position, "Ne4").loses);
}

BOOST_AUTO_TEST_CASE(where_every_move_loses_there_are_still_candidates) {
    // Whatever Black plays, one of two attacked pieces falls or worse: Black is in check from a rook, every king move
    // leaves the queen.
    const Position position = position_of("3k4/8/8/8/3q4/8/8/3RK3 b - - 0 1");
    const Candidates found = candidates(position);
    BOOST_TEST(!found.empty());
}

BOOST_AUTO_TEST_CASE(a_side_without_a_move_has_none) {
    BOOST_TEST(candidates(position_of("R5k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1")).empty());
    BOOST_TEST(candidates(position_of("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1")).empty());
}

BOOST_AUTO_TEST_CASE(few_and_in_order) {
    for (const Position& position : test::random_positions(60, 31)) {
        const Candidates four = candidates(position);
        BOOST_TEST(four.size() <= 4U);
        const Candidates all = candidates(position, 1000);
        BOOST_TEST(all.size() >= four.size());
        for (std::size_t at = 0; at < all.size(); ++at) {
            BOOST_TEST(!all[at].reasons.empty());
            BOOST_TEST(all[0].weight - all[at].weight < widest_gap);
            BOOST_TEST((at == 0 || all[at - 1].weight >= all[at].weight));
            if (at < four.size()) BOOST_TEST((all[at].move == four[at].move));
            for (const MoveReason& reason : all[at].reasons) BOOST_TEST(weight_of(reason) > 0);
            for (const MoveReason& reason : all[at].drawbacks) BOOST_TEST(weight_of(reason) < 0);
            BOOST_TEST(!sentence(position, all[at]).empty());
        }
    }
}

BOOST_AUTO_TEST_CASE(facts_are_the_same_for_both_sides) {
    for (const Position& position : test::random_positions(40, 17)) {
        std::map<std::string, std::set<std::string>> expected;
        for (auto& [move, facts] : facts_by_move(test::flipped(position))) expected[flipped_ranks(move)] = facts;
        BOOST_TEST((facts_by_move(position) == expected), fen(position));
    }
}

BOOST_AUTO_TEST_CASE(sentences) {
    const auto said = [](std::string_view text, std::string_view move) {
        const Position position = position_of(text);
        for (const Candidate& candidate : candidates(position, 100))
            if (san(position, candidate.move) == move) return sentence(position, candidate);
        return std::string{"no candidate"};
    };
    constexpr std::string_view bishop_out = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10";
    BOOST_TEST(said(bishop_out, "Bg5") ==
               "Bg5 goes into the other half of the board, develops a piece and attacks the knight on f6.");
    BOOST_TEST(
        said("4k3/p1p5/8/8/8/8/P7/1R2K3 w - - 0 1", "Rb7") ==
        "Rb7 wins a pawn (1.Rb7 a6 2.Rxc7), brings a rook to the seventh rank and attacks the pawns on a7 and c7.");
    BOOST_TEST(said("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1", "Nxd5") ==
               "Nxd5 wins material worth 5 pawns (1.Nxd5), goes into the other half of the board and gives its king "
               "2 more squares.");
}

BOOST_AUTO_TEST_SUITE_END()
