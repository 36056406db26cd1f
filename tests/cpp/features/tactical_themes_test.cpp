// Tactical themes: geometry, line and gain on worked positions. The facts come from our own worked positions
// (tests/python/data/worked-positions.jsonl), whose names the cases bear; other positions say where they come from.
#include <boost/test/unit_test.hpp>

#include <keysquare/features/findings.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

#include "theme_helpers.hpp"

namespace {

using namespace keysquare;
using test::of_theme;

Findings found_in(std::string_view fen) { return findings(read_fen(fen).value()); }

/// The only finding of the theme for that side.
Finding only(std::string_view fen, Theme theme, Side side) {
    const auto found = of_theme(found_in(fen), theme, side);
    BOOST_REQUIRE_MESSAGE(found.size() == 1, fen << " has " << found.size() << " of " << name(theme));
    return found.front();
}

/// The finding of the theme for that side about the man on `square`, if there is one.
std::optional<Finding> about(std::string_view fen, Theme theme, Side side, Square square) {
    for (const Finding& finding : of_theme(found_in(fen), theme, side))
        if (finding.pieces.front().square == square) return finding;
    return std::nullopt;
}

void check_pieces(const Finding& finding, std::initializer_list<Square> squares) {
    BOOST_REQUIRE(finding.pieces.size() == squares.size());
    std::size_t at = 0;
    for (const Square square : squares) BOOST_TEST(name(finding.pieces[at++].square) == name(square));
}

constexpr auto d01 = "r2qk2r/pppb1pbp/3p2p1/3Pn3/8/2NB4/PPPQ1PPP/R1B1R1K1 w kq - 0 1";
constexpr auto d03 = "3r4/pp3p1p/6p1/3k4/8/1P4P1/P4P1P/4R1K1 w - - 0 1";
constexpr auto d05 = "2r2rk1/1p3ppp/pq1p4/4bN2/4P3/1P3P2/P2Q2PP/3R1R1K w - - 0 1";
constexpr auto d07 = "2r2rk1/1p1q1ppp/pbnp4/3Np3/4P3/1BPP2R1/PP3PPP/R2Q2K1 w - - 0 1";
constexpr auto d09 = "r4rk1/pp2bppp/1q3n2/2pb2B1/8/1P2P1N1/P1Q1BPPP/3R1RK1 w - - 0 1";
constexpr auto d11 = "r2q1rk1/1Qp1bppp/p1n1pn2/3p1b2/3P4/2N1PN2/PP1B1PPP/R3KB1R b KQ - 0 1";
constexpr auto d13 = "r2qk2r/pp1b1ppp/n3pn2/1B1p4/1b1P1B2/2N1PN2/PPP2PPP/R2QK2R w KQkq - 0 1";
constexpr auto d15 = "1r3rk1/pp3ppp/2p1bn2/4q3/8/P1P4P/1P2PPB1/R1BQ1RK1 w - - 0 1";
constexpr auto d17 = "3q1rk1/pp2bppp/2p5/8/3n1Q2/2N3P1/PP3PBP/3R2K1 b - - 0 1";
constexpr auto h05 = "3r1rk1/pp2qppp/2p1b3/8/2Pn4/1PN3P1/P2Q1PBP/R4RK1 w - - 0 1";

} // namespace

BOOST_AUTO_TEST_SUITE(tactical_themes)

BOOST_AUTO_TEST_CASE(d01_a_man_pinned_to_its_king) {
    const auto pin = about(d01, Theme::pin, Side::white, Square::e5);
    BOOST_REQUIRE(pin);
    BOOST_TEST(name(pin->detail) == "absolute");
    check_pieces(*pin, {Square::e5, Square::e1, Square::e8});
    BOOST_TEST(
        (pin->squares == Squares{Square::e2, Square::e3, Square::e4, Square::e5, Square::e6, Square::e7, Square::e8}));
}

BOOST_AUTO_TEST_CASE(d13_a_pin_that_wins_nothing_has_no_gain) {
    const auto pin = about(d13, Theme::pin, Side::white, Square::d7);
    BOOST_REQUIRE(pin);
    BOOST_TEST(pin->gain == 0);
    BOOST_TEST(pin->line.empty());
    BOOST_TEST(!pin->after_pass);
}

BOOST_AUTO_TEST_CASE(d17_no_relative_pin_where_a_move_gets_away_with_it) {
    BOOST_TEST(!about(d17, Theme::pin, Side::white, Square::d4));
}

BOOST_AUTO_TEST_CASE(a_relative_pin_that_is_attacked_once_more) { // Our own: ...d5-d4 hits a knight that can't leave.
    const auto pin = about("2rq2k1/5ppp/8/3p4/8/2N5/2Q2PPP/6K1 b - - 0 1", Theme::pin, Side::black, Square::c3);
    BOOST_REQUIRE(pin);
    BOOST_TEST(name(pin->detail) == "relative");
    BOOST_TEST(coordinate(pin->line.front()) == "d5d4");
    BOOST_TEST(pin->gain == 3);
}

BOOST_AUTO_TEST_CASE(a05_the_pinned_guard_may_not_take_back) {
    const auto pin =
        about("r2q1rk1/pp1nbpp1/2pp1nbp/8/3P1N2/1BN4P/PPP2PP1/R1BQ1RK1 w - - 0 1", Theme::pin, Side::white, Square::f7);
    BOOST_REQUIRE(pin);
    BOOST_TEST(coordinate(pin->line.front()) == "f4g6");
    BOOST_TEST(pin->gain == 3);
}

BOOST_AUTO_TEST_CASE(d03_king_in_front_rook_behind) {
    const Finding skewer = only(d03, Theme::skewer, Side::white);
    BOOST_TEST(skewer.gain == 5);
    BOOST_TEST(coordinate(skewer.line.front()) == "e1d1");
    check_pieces(skewer, {Square::e1, Square::d5, Square::d8});
    BOOST_TEST((skewer.squares == Squares{Square::d1, Square::d5, Square::d8}));
}

BOOST_AUTO_TEST_CASE(d15_a_skewer_that_loses_the_skewering_man_is_none) {
    BOOST_TEST(of_theme(found_in(d15), Theme::skewer, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(d05_knight_forks_king_and_rook) {
    const Finding fork = only(d05, Theme::fork, Side::white);
    BOOST_TEST(coordinate(fork.line.front()) == "f5e7");
    BOOST_TEST(name(fork.detail) == "with_check");
    BOOST_TEST(fork.gain == 2); // the rook for the knight that is taken back
    BOOST_TEST(fork.number(Measure::targets) == 2);
    check_pieces(fork, {Square::f5, Square::g8, Square::c8});
}

BOOST_AUTO_TEST_CASE(d07_the_guard_of_the_fork_square_is_pinned) {
    const Finding fork = only(d07, Theme::fork, Side::white);
    BOOST_TEST(coordinate(fork.line.front()) == "d5f6");
    BOOST_TEST(fork.gain == 9);
}

BOOST_AUTO_TEST_CASE(a_parried_fork_is_told_without_gain) { // Our own: the king guards the bishop.
    const Finding fork = only("8/8/8/4k3/8/4b3/7N/7K w - - 0 1", Theme::fork, Side::white);
    BOOST_TEST(fork.gain == 0);
    BOOST_TEST(fork.line.empty());
    BOOST_REQUIRE(fork.point.size() == 1);
    BOOST_TEST(coordinate(fork.point.front()) == "h2g4");
}

BOOST_AUTO_TEST_CASE(d09_the_guard_is_taken_first) {
    const auto removal = about(d09, Theme::removable_guard, Side::white, Square::f6);
    BOOST_REQUIRE(removal);
    BOOST_TEST(name(removal->detail) == "by_capture");
    BOOST_TEST(coordinate(removal->line.front()) == "g5f6");
    BOOST_TEST(removal->gain == 2);
    check_pieces(*removal, {Square::f6, Square::d5});
}

BOOST_AUTO_TEST_CASE(h07_the_guard_is_driven_off) {
    const auto removal = about("r3kb1r/pbpq1ppp/1pn1pn2/1B6/3P4/2N2N2/PP3PPP/R1BQR1K1 b kq - 0 1",
                               Theme::removable_guard, Side::white, Square::c6);
    BOOST_REQUIRE(removal);
    BOOST_TEST(name(removal->detail) == "by_driving_off");
    BOOST_TEST(removal->after_pass);
    BOOST_TEST(coordinate(removal->line.front()) == "d4d5");
}

BOOST_AUTO_TEST_CASE(b01_the_guard_is_lured_away) {
    const auto removal =
        about("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1", Theme::removable_guard, Side::white, Square::d8);
    BOOST_REQUIRE(removal);
    BOOST_TEST(name(removal->detail) == "by_luring");
    BOOST_TEST(coordinate(removal->line.front()) == "d1d5");
    BOOST_TEST(!removal->point.empty());
}

BOOST_AUTO_TEST_CASE(a_guard_is_cut_off) { // Our own: the knight is pinned, and its guard a bishop.
    const auto removal =
        about("4k3/1b6/8/8/2PPn3/8/8/4R1K1 w - - 0 1", Theme::removable_guard, Side::white, Square::b7);
    BOOST_REQUIRE(removal);
    BOOST_TEST(name(removal->detail) == "by_blocking");
    BOOST_TEST(coordinate(removal->line.front()) == "d4d5");
    BOOST_TEST(removal->gain == 2); // the bishop gives itself up for the pawn and for time
}

BOOST_AUTO_TEST_CASE(the_capture_of_an_only_guard_that_wins_nothing) { // Our own: another pawn takes back.
    const Finding idle = only("6k1/2p5/3p4/4n3/8/B7/8/4R1K1 w - - 0 1", Theme::removable_guard, Side::white);
    BOOST_TEST(idle.gain == 0);
    BOOST_TEST(coordinate(idle.point.front()) == "a3d6");
    check_pieces(idle, {Square::d6, Square::e5});
}

BOOST_AUTO_TEST_CASE(d11_a_queen_without_a_square) {
    const Finding trapped = only(d11, Theme::trapped_piece, Side::black);
    BOOST_TEST(name(trapped.detail) == "attackable");
    BOOST_TEST(coordinate(trapped.line.front()) == "c6a5");
    BOOST_TEST(trapped.gain == 3);
    check_pieces(trapped, {Square::b7, Square::c6});
    BOOST_TEST(trapped.number(Measure::moves) == 12); // the facts list twelve moves, each of which loses
}

BOOST_AUTO_TEST_CASE(a_bishop_that_is_already_shut_in) { // The pawn has just gone to b6; from memory, an old trap.
    const auto trapped =
        about("6k1/B4ppp/1p6/8/8/8/1Pr2PPP/6K1 b - - 0 1", Theme::trapped_piece, Side::black, Square::a7);
    BOOST_TEST(!trapped); // nothing attacks it yet, and Black is to move
    const auto lost = about("8/Bk3ppp/1p6/8/8/8/5PPP/6K1 w - - 0 1", Theme::trapped_piece, Side::black, Square::a7);
    BOOST_TEST(lost.has_value()); // the king attacks it and guards b6 and b8
}

BOOST_AUTO_TEST_CASE(h05_a_check_that_uncovers_an_attack_on_the_queen) {
    const auto discovery = about(h05, Theme::discovered_attack, Side::black, Square::d4);
    BOOST_REQUIRE(discovery);
    BOOST_TEST(discovery->after_pass);
    BOOST_TEST(coordinate(discovery->line.front()) == "d4f3");
    BOOST_TEST(discovery->gain == 6);
    check_pieces(*discovery, {Square::d4, Square::d8, Square::d2});
}

BOOST_AUTO_TEST_CASE(double_check) { // Our own.
    const auto discovery =
        about("4k3/q3p3/8/8/4N3/8/8/4R1K1 w - - 0 1", Theme::discovered_attack, Side::white, Square::e4);
    BOOST_TEST(!discovery); // the pawn stands behind the knight, and the king behind the pawn
    const auto open = about("4k3/8/q7/8/4N3/8/8/4R1K1 w - - 0 1", Theme::discovered_attack, Side::white, Square::e4);
    BOOST_REQUIRE(open);
    BOOST_TEST(name(open->detail) == "with_check");
    BOOST_TEST(open->gain == 9); // Nc5+ takes the queen next
}

BOOST_AUTO_TEST_CASE(batteries_aim_at_something) { // Our own.
    const Finding battery = only("6k1/5ppp/8/8/8/3B4/2Q2PPP/6K1 w - - 0 1", Theme::battery, Side::white);
    check_pieces(battery, {Square::d3, Square::c2, Square::h7});
    BOOST_TEST((battery.squares == Squares{Square::e4, Square::f5, Square::g6, Square::h7}));
    // A rook before a bishop does not move on the diagonal.
    BOOST_TEST(of_theme(found_in("6k1/5ppp/8/8/8/3R4/2B2PPP/6K1 w - - 0 1"), Theme::battery, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(mate_in_one_and_the_back_rank) {
    constexpr auto fen = "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1"; // Our own.
    const Finding mate = only(fen, Theme::mate_in_one, Side::white);
    BOOST_TEST(mate.mate);
    BOOST_TEST(mate.number(Measure::moves) == 1);
    BOOST_TEST((mate.squares == Squares{Square::d8}));
    const Finding rank = only(fen, Theme::back_rank, Side::white);
    BOOST_TEST(rank.mate);
    BOOST_TEST((rank.squares == Squares{Square::f7, Square::g7, Square::h7}));
    // With luft there is neither.
    const Findings none = found_in("6k1/5pp1/7p/8/8/8/5PPP/3R2K1 w - - 0 1");
    BOOST_TEST(of_theme(none, Theme::mate_in_one, Side::white).empty());
    BOOST_TEST(of_theme(none, Theme::back_rank, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(mate_in_two_with_two_rooks) { // The ladder of every handbook of endings; from memory.
    constexpr auto fen = "7k/8/8/8/8/8/R7/1R4K1 w - - 0 1";
    const Finding mate = only(fen, Theme::mate_in_two, Side::white);
    BOOST_TEST(mate.mate);
    BOOST_TEST(mate.line.size() == 3);
    BOOST_TEST(mate.number(Measure::moves) == 2); // Ra7 and Rb7
    BOOST_TEST(of_theme(found_in(fen), Theme::mate_in_one, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(a_pawn_that_gets_through) { // Our own.
    const Finding through = only("8/1P4k1/8/8/8/8/6K1/8 w - - 0 1", Theme::promotion_threat, Side::white);
    BOOST_TEST(through.gain == 8);
    BOOST_TEST(through.number(Measure::moves_to_go) == 1);
    const Finding later = only("8/6k1/1P6/8/8/8/6K1/8 w - - 0 1", Theme::promotion_threat, Side::white);
    BOOST_TEST(later.number(Measure::moves_to_go) == 2);
    BOOST_TEST(of_theme(found_in("8/1k6/1P6/8/8/8/6K1/8 w - - 0 1"), Theme::promotion_threat, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(a_check_comes_before_the_capture) { // Our own: the knight can't run while the king is in check.
    constexpr auto fen = "6k1/5p1p/8/3n4/8/3Q4/5PP1/3R2KR w - - 0 1";
    const auto first = of_theme(found_in(fen), Theme::intermediate_move, Side::white);
    BOOST_REQUIRE(first.size() == 1);
    BOOST_TEST(coordinate(first.front().line.front()) == "d3h7");
    BOOST_TEST(first.front().gain == 4);
    BOOST_TEST(first.front().number(Measure::at_once) == 3);
}

BOOST_AUTO_TEST_CASE(mate_and_a_man_at_once) { // Our own: Qe4 threatens h7 and the loose knight on a4.
    const Findings found = found_in("5rk1/5ppp/8/8/n7/3B3P/4QPPK/8 w - - 0 1");
    const auto attacks = of_theme(found, Theme::double_attack, Side::white);
    BOOST_REQUIRE(attacks.size() == 1);
    BOOST_TEST(coordinate(attacks.front().line.front()) == "e2e4");
    BOOST_TEST(attacks.front().gain == 3);
}

BOOST_AUTO_TEST_CASE(in_check_the_other_side_has_no_turn) { // Nothing that needs a pass is claimed.
    for (const Finding& finding : found_in("4k3/4r3/8/8/8/8/3PPP2/3QKB2 w - - 0 1")) BOOST_TEST(!finding.after_pass);
    for (const Finding& finding : found_in("4k3/4r3/8/8/8/8/3P1P2/3QKB2 w - - 0 1")) BOOST_TEST(!finding.after_pass);
}

BOOST_AUTO_TEST_SUITE_END()
