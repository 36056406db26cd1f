// Difficulty: hand-counted positions of our own, lines that are given, both colours, and what is refused.
#include <boost/test/unit_test.hpp>

#include <map>
#include <string>
#include <vector>

#include <keysquare/lesson/difficulty_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/thinking/difficulty.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;
using Words = std::vector<std::string_view>;
using Numbers = std::map<std::string_view, int>;

constexpr std::string_view knight_takes_rook = "4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1";
constexpr std::string_view back_rank = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1";
constexpr std::string_view checked = "4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1";

Difficulty found_in(std::string_view fen, Side side) { return difficulty(read_fen(fen).value(), side); }
Result<Difficulty> try_line(std::string_view fen, Side side, const Words& line) {
    return difficulty(read_fen(fen).value(), side, line);
}
Difficulty given_in(std::string_view fen, Side side, const Words& line) { return try_line(fen, side, line).value(); }

Numbers numbers_of(const Difficulty& found) {
    Numbers numbers;
    for (const DifficultyNumber& number : difficulty_numbers()) numbers[number.name] = number.of(found);
    return numbers;
}

/// The numbers that are not as expected, as text.
std::string differences(const Difficulty& found, const Numbers& expected) {
    const Numbers numbers = numbers_of(found);
    std::string text;
    for (const auto& [name, value] : expected)
        if (!numbers.contains(name) || numbers.at(name) != value)
            text += std::string{name} + ' ' + std::to_string(numbers.contains(name) ? numbers.at(name) : -1) + "; ";
    return text;
}

/// The error of a line, as "reason step column".
std::string refusal(std::string_view fen, Side side, const Words& line) {
    const auto refused = try_line(fen, side, line);
    if (refused) return "none";
    const InputError& error = refused.error();
    BOOST_CHECK(error.field == Field::step);
    return std::string{name(error.reason)} + ' ' + std::to_string(error.line) + ' ' + std::to_string(error.column);
}

Move flipped_move(Move move) { return {test::up_down(move.origin()), test::up_down(move.raw_target()), move.type()}; }

} // namespace

BOOST_AUTO_TEST_SUITE(thinking_difficulty)

// White: eight knight moves, the king to e2, f1 and f2; only Nf5 loses something. Black's king may go to d7, d8, f7 and
// f8 after Nxd5.
BOOST_AUTO_TEST_CASE(a_rook_is_there_to_be_taken) {
    const Difficulty white = found_in(knight_takes_rook, Side::white);
    BOOST_TEST((white.source == LineSource::wins));
    BOOST_TEST(line_text(white.start, white.line) == "1.Nxd5");
    BOOST_TEST(differences(white, {{"men", 4},      {"checked", 0},   {"legal", 11},          {"keeping", 10},
                                   {"loss", 0},     {"at_stake", 0},  {"mate_at_stake", 0},   {"forcing", 1},
                                   {"winning", 1},  {"line_wins", 1}, {"plies", 1},           {"moves", 1},
                                   {"gain", 5},     {"mate", 0},      {"deficit", 0},         {"movers", 1},
                                   {"quiet", 0},    {"captures", 1},  {"checks", 0},          {"recaptures", 0},
                                   {"backward", 0}, {"long", 0},      {"given_up", 0},        {"choices", 11},
                                   {"tempting", 0}, {"replies", 4},   {"forcing_replies", 0}, {"first_distance", 2},
                                   {"shown", 5},    {"as_good", 0},   {"better", 0},          {"failing", 0}}) == "");
    // Black: fourteen rook moves, of which f5, d1 and d2 lose the rook, and five king moves, which leave it to fall.
    const Difficulty black = found_in(knight_takes_rook, Side::black);
    BOOST_TEST(black.after_pass);
    BOOST_TEST(differences(black, {{"legal", 19},
                                   {"keeping", 11},
                                   {"at_stake", 5},
                                   {"line_holds", 1},
                                   {"winning", 0},
                                   {"plies", 1},
                                   {"gain", 0},
                                   {"first_quiet", 1},
                                   {"as_good", 10}}) == "");
}

// Rxd5 takes three and puts five where it can be taken: 16 replies, of which only Rxd5 takes or checks. At first sight
// all but Re4, Re6 and Re8+ bring as much.
BOOST_AUTO_TEST_CASE(a_rook_is_given_for_a_mate) {
    const Difficulty white = given_in(back_rank, Side::white, {"Rxd5", "Rxd5", "Re8#"});
    BOOST_TEST(
        differences(white, {{"legal", 23},          {"forcing", 2},     {"line_given", 1},      {"line_wins", 0},
                            {"plies", 3},           {"moves", 2},       {"gain", -2},           {"mate", 1},
                            {"deficit", 2},         {"movers", 2},      {"quiet", 0},           {"captures", 1},
                            {"checks", 1},          {"recaptures", 0},  {"backward", 0},        {"long", 2},
                            {"given_up", 1},        {"choices", 43},    {"forcing_choices", 3}, {"tempting", 19},
                            {"first_tempting", 19}, {"replies", 16},    {"first_replies", 16},  {"forcing_replies", 1},
                            {"first_quiet", 0},     {"first_check", 0}, {"first_distance", 4},  {"shown", 3},
                            {"shown_mate", 0},      {"as_good", 0},     {"failing", 1}}) == "");
    BOOST_REQUIRE(white.steps.size() == 2);
    BOOST_TEST(white.steps[0].gives_up);
    BOOST_TEST(white.steps[1].checks);
    BOOST_TEST(white.steps[1].replies == 0);
    BOOST_TEST((white.steps[1].man == Kind::rook));
}

BOOST_AUTO_TEST_CASE(a_line_that_is_found_is_cut_when_the_gain_is_there) {
    // The fork wins two pawns' worth: bishop for pawn. After 3...cxd6 nothing changes any more.
    const Difficulty white =
        found_in("rn1q1rk1/pbpp1ppp/1p1bpn2/8/3PP3/2NB1N2/PPP2PPP/R1BQ1RK1 b - - 0 1", Side::white);
    BOOST_TEST(line_text(white.start, white.line) == "2.e5 a6 3.exd6 cxd6");
    BOOST_TEST(white.gain == 2);
    BOOST_TEST(white.steps[0].is_quiet());
    BOOST_TEST(white.movers == 1);
}

BOOST_AUTO_TEST_CASE(moves_go_back_and_castle) {
    const Difficulty queen =
        given_in("6k1/8/8/8/3Q4/8/8/6K1 w - - 0 1", Side::white, {"Qd1", "Kf7", "Qd8", "Kg7", "Kf2"});
    BOOST_TEST(differences(queen, {{"quiet", 3},
                                   {"backward", 1},
                                   {"first_backward", 1},
                                   {"long", 1},
                                   {"movers", 2},
                                   {"king_moves", 1},
                                   {"gain", 0},
                                   {"plies", 5},
                                   {"moves", 3}}) == "");
    const Difficulty black = given_in("6k1/8/8/3q4/8/8/8/6K1 b - - 0 1", Side::black, {"Qd8", "Kf1", "Qd4"});
    BOOST_TEST(differences(black, {{"quiet", 2}, {"backward", 1}, {"first_backward", 1}, {"long", 1}}) == "");
    const Difficulty castled = given_in("4k3/8/8/8/8/8/8/4K2R w K - 0 1", Side::white, {"O-O"});
    BOOST_TEST(differences(castled, {{"king_moves", 1}, {"backward", 0}, {"first_distance", 0}, {"quiet", 1}}) == "");
}

BOOST_AUTO_TEST_CASE(taking_back_counts_en_passant_too) {
    const Difficulty black =
        given_in("4k3/8/8/8/1p6/8/P7/4K3 b - - 0 1", Side::black, {"Ke7", "a4", "bxa3", "Kd1", "a2", "Kc1", "a1=Q+"});
    BOOST_TEST(differences(black, {{"recaptures", 1},
                                   {"captures", 1},
                                   {"pawn_moves", 3},
                                   {"movers", 2},
                                   {"checks", 1},
                                   {"quiet", 2},
                                   {"gain", 9},
                                   {"forced", 0}}) == "");
    BOOST_TEST(black.steps[1].recaptures);
    BOOST_TEST(black.steps[3].promotes);
    // A line may end with the other side's move; what it takes counts.
    const Difficulty white = given_in("4k3/8/8/8/1p6/8/P7/4K3 w - - 0 1", Side::white, {"a4", "bxa3"});
    BOOST_TEST(differences(white, {{"gain", -1}, {"deficit", 1}, {"plies", 2}, {"moves", 1}}) == "");
}

BOOST_AUTO_TEST_CASE(a_man_on_the_square_of_another_is_another_man) {
    // The knight is taken on d5, and the bishop takes back there and goes on: two men.
    const Difficulty white =
        given_in("4k3/8/4p3/8/5N2/8/6B1/4K3 w - - 0 1", Side::white, {"Nd5", "exd5", "Bxd5", "Ke7", "Be4"});
    BOOST_TEST(white.movers == 2);
    BOOST_TEST(white.deficit == 3);
    BOOST_TEST(white.steps[1].recaptures);
}

BOOST_AUTO_TEST_CASE(in_check_something_has_to_be_met) {
    // Kf1, Kf2, and Qe2, which loses the queen for the rook.
    const Difficulty white = found_in(checked, Side::white);
    BOOST_TEST((white.source == LineSource::holds));
    BOOST_TEST(differences(white, {{"checked", 1}, {"legal", 3}, {"keeping", 2}, {"at_stake", 0}, {"moves", 1}}) == "");
    const Difficulty black = found_in(checked, Side::black);
    BOOST_TEST(!black.has_turn);
    BOOST_TEST(differences(black, {{"legal", 0}, {"keeping", 0}, {"plies", 0}, {"at_stake", 0}}) == "");
}

BOOST_AUTO_TEST_CASE(without_a_move_and_without_hope) {
    const Difficulty stalemated = found_in("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", Side::black);
    BOOST_TEST(differences(stalemated, {{"legal", 0}, {"keeping", 0}, {"plies", 0}, {"mated", 0}}) == "");
    const Difficulty mated = found_in("k7/8/1K6/8/8/8/8/7R b - - 0 1", Side::black); // Kb8, and Rh8 mates
    BOOST_TEST(differences(mated, {{"legal", 1}, {"keeping", 1}, {"mated", 1}, {"loss", 0}, {"plies", 0}}) == "");
    const Difficulty quiet = found_in("4k3/4p3/8/8/8/8/4P3/4K3 w - - 0 1", Side::white);
    BOOST_TEST((quiet.source == LineSource::none));
    BOOST_TEST(differences(quiet, {{"legal", 6}, {"keeping", 6}, {"plies", 0}, {"tempting", 0}, {"as_good", 0}}) == "");
    const Difficulty loses = found_in("4k3/8/8/8/8/1n6/8/R3K2r w - - 0 1", Side::white); // one rook goes in any case
    BOOST_TEST(loses.loss > 0);
    BOOST_TEST(loses.keeping > 0);
}

BOOST_AUTO_TEST_CASE(an_empty_line_says_that_nothing_is_to_be_seen) {
    const Difficulty found = given_in(knight_takes_rook, Side::white, {});
    BOOST_TEST(differences(found, {{"line_given", 1}, {"plies", 0}, {"legal", 11}, {"winning", 1}, {"shown", 0}}) ==
               "");
}

BOOST_AUTO_TEST_CASE(what_is_refused) {
    BOOST_TEST(refusal(back_rank, Side::white, {"Rxd5", "Rd6"}) == "none");
    BOOST_TEST(refusal(back_rank, Side::white, {"Rxd5", "Rd4"}) == "no_such_piece 2 1");
    BOOST_TEST(refusal(back_rank, Side::white, {"Rd6"}) == "no_such_piece 1 1");
    BOOST_TEST(refusal(back_rank, Side::white, {"--"}) == "not_a_move 1 1");
    BOOST_TEST(refusal(back_rank, Side::white, {"d1d6"}) == "illegal_move 1 3");
    BOOST_TEST(refusal(back_rank, Side::black, {"Rxd5"}) == "illegal_move 1 1"); // its own bishop stands there
    BOOST_TEST(refusal(checked, Side::black, {"Rxe1"}) == "pass_in_check 1 1");
    BOOST_TEST(refusal(checked, Side::black, {}) == "pass_in_check 1 1");
    Words shuffle;
    while (shuffle.size() < 32)
        for (const std::string_view move : {"Kf1", "Kf8", "Ke1", "Ke8"}) shuffle.push_back(move);
    BOOST_TEST(refusal(knight_takes_rook, Side::white, shuffle) == "none");
    shuffle.push_back("Kf1");
    BOOST_TEST(refusal(knight_takes_rook, Side::white, shuffle) == "line_too_long 33 1");
    const Position position = read_fen(back_rank).value();
    const Move moves[] = {Move{Square::d1, Square::d5}, Move{Square::d8, Square::d3}};
    const auto refused = difficulty(position, Side::white, moves);
    BOOST_REQUIRE(!refused);
    BOOST_TEST(refused.error().line == 2U);
    BOOST_TEST(refused.error().token == "d8d3");
}

BOOST_AUTO_TEST_CASE(a_line_that_is_found_and_given_back_says_the_same) {
    int lines = 0;
    for (const Position& position : test::random_positions(150, 31))
        for (const Side side : all_sides) {
            const Difficulty found = difficulty(position, side);
            if (found.line.empty()) continue;
            ++lines;
            Numbers expected = numbers_of(found);
            for (const std::string_view source : {"line_given", "line_wins", "line_holds"}) expected.erase(source);
            const auto again = difficulty(position, side, std::span<const Move>{found.line.data(), found.line.size()});
            BOOST_REQUIRE(again);
            BOOST_TEST(differences(*again, expected) == "", fen(position));
        }
    BOOST_TEST(lines > 100);
}

BOOST_AUTO_TEST_CASE(both_colours_count_alike) {
    int lines = 0;
    for (const Position& position : test::random_positions(150, 32))
        for (const Side side : all_sides) {
            const Position image = test::flipped(position);
            const Difficulty found = difficulty(position, side);
            // Of equal moves the first is taken, and which one that is depends on the order of squares: so the line is
            // given, and only where it came from is left to be found.
            const Difficulty there = difficulty(image, other(side));
            BOOST_TEST((there.source == found.source), fen(position));
            BOOST_TEST(there.has_turn == found.has_turn);
            if (!found.has_turn) continue;
            std::vector<Move> line;
            for (const Move move : found.line) line.push_back(flipped_move(move));
            lines += line.empty() ? 0 : 1;
            Numbers expected = numbers_of(found);
            for (const std::string_view source : {"line_given", "line_wins", "line_holds"}) expected.erase(source);
            const auto image_of_line = difficulty(image, other(side), line);
            BOOST_REQUIRE(image_of_line);
            BOOST_TEST(differences(*image_of_line, expected) == "", fen(position));
        }
    BOOST_TEST(lines > 100);
}

BOOST_AUTO_TEST_CASE(every_number_has_a_name_and_a_definition) {
    BOOST_TEST(numbers_of(Difficulty{}).size() == difficulty_numbers().size());
    for (const DifficultyNumber& number : difficulty_numbers()) BOOST_TEST(number.definition.ends_with("."));
}

BOOST_AUTO_TEST_CASE(paragraphs) {
    BOOST_TEST(
        paragraph(found_in(knight_takes_rook, Side::white)) ==
        "White has 11 legal moves, and 10 keep the material. To win material worth 5 pawns it must see one move "
        "ahead: 1.Nxd5. No other move does as well. Black has 4 answers to Nxd5; captures, promotions and checks among them: 0.");
    BOOST_TEST(
        paragraph(given_in(back_rank, Side::white, {"Rxd5", "Rxd5", "Re8#"})) ==
        "White has 23 legal moves, and 21 keep the material. The line that it must see mates in 2 moves: 1.Rxd5 "
        "Rxd5 2.Re8#. The first move goes 4 squares and puts its man where it can be taken, the second goes 7 "
        "squares. None of the moves is quiet. On the way it is behind by material worth 2 pawns. At first sight "
        "19 other moves bring as much. One other capture, promotion or check comes to less. Black has 16 answers "
        "to Rxd5; captures, promotions and checks among them: 1.");
    BOOST_TEST(
        paragraph(found_in(checked, Side::white), found_in(checked, Side::black)) ==
        "White has 3 legal moves, and 2 keep the material. It stands in check. To meet this it must see one move "
        "ahead: 1.Kf1. The move is quiet. At first sight one other move brings as much. Black has 18 answers to "
        "Kf1; captures, promotions and checks among them: 2. White stands in check and can't pass, so Black has "
        "no turn.");
    BOOST_TEST(
        paragraph(found_in("rn1q1rk1/pbpp1ppp/1p1bpn2/8/3PP3/2NB1N2/PPP2PPP/R1BQ1RK1 b - - 0 1", Side::white)) ==
        "With Black passing, White has 35 legal moves, and 21 keep the material. To win material worth 2 pawns it "
        "must see 2 moves ahead: 2.e5 a6 3.exd6 cxd6. The first move is quiet. No other move does as well. At first sight 27 other moves "
        "bring as much. By captures and checks alone 20 other moves come to as much. Black has 32 answers to e5; "
        "captures, promotions and checks among them: 2, and 2 later on.");
    // The knight forks king and rook: one rook goes whatever White does.
    BOOST_TEST(paragraph(found_in("4k3/8/8/8/8/8/2n5/R3K3 w - - 0 1", Side::white)) ==
               "White has 5 legal moves, and each of them loses material worth 5 pawns. It stands in check. To lose no "
               "more than that it must see one move ahead: 1.Kd1 Nxa1. The move is quiet. On the way it is behind by "
               "material worth 5 pawns. At first sight 4 other moves bring as much. Black has 11 answers to Kd1; "
               "captures, promotions and checks among them: 2.");
    BOOST_TEST(paragraph(found_in("k7/8/1K6/8/8/8/8/7R b - - 0 1", Side::black)) ==
               "Black has one legal move, and is mated by force whatever it plays.");
    BOOST_TEST(paragraph(found_in("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", Side::black)) == "Black has no legal move.");
    BOOST_TEST(paragraph(found_in("4k3/4p3/8/8/8/8/4P3/4K3 w - - 0 1", Side::black)) ==
               "With White passing, Black has 6 legal moves, and all keep the material. There is no line that it must "
               "see.");
}

BOOST_AUTO_TEST_SUITE_END()
