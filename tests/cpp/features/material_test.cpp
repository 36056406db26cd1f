// Material: every row of the table of names, whom it is good for, the findings, and the two mirrors.
#include <keysquare/features/material.hpp>

#include <set>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

/// Kings on e1 and e8, the other men given by their FEN letters on the second to seventh rank in order.
Position with_men(std::string_view men) {
    PositionParts parts;
    parts.pieces[static_cast<std::size_t>(a1)] = {Side::white, Kind::king};
    parts.pieces[static_cast<std::size_t>(h8)] = {Side::black, Kind::king};
    std::size_t at = 8;
    for (const char c : men) {
        const bool black = c >= 'a';
        const char upper = black ? static_cast<char>(c - 'a' + 'A') : c;
        parts.pieces[at++] = {black ? Side::black : Side::white, kind_of_letter(upper)};
    }
    return Position{parts};
}

Imbalance first_of(std::string_view men, const Values& values = {}) {
    return named_imbalances(with_men(men), values).front();
}

void check_name(std::string_view men, Detail expected, Side side) {
    BOOST_TEST_CONTEXT(men) {
        const Imbalance imbalance = first_of(men);
        BOOST_TEST(name(imbalance.name) == name(expected));
        BOOST_TEST(name(imbalance.side) == name(side));
    }
}

Findings findings_of(const Position& position) {
    Findings findings;
    find_material(BoardView{position}, findings);
    return findings;
}

/// What is left of a finding after `map`; pieces as squares, because their order goes with the board.
template <class Map> auto essence(const Finding& finding, Map map, bool exchange_sides) {
    std::vector<int> numbers;
    for (const Number& number : finding.numbers)
        numbers.push_back(static_cast<int>(number.measure) * 1000 + number.value);
    std::set<std::pair<int, int>> pieces;
    for (const Placed& placed : finding.pieces)
        pieces.insert({index(map(placed.square)), static_cast<int>(placed.piece.kind)});
    const Side side = exchange_sides ? other(finding.side) : finding.side;
    return std::tuple{finding.theme, finding.detail, side, test::mapped(finding.squares, map).bits(), pieces, numbers};
}

} // namespace

BOOST_AUTO_TEST_SUITE(material_imbalances)

BOOST_AUTO_TEST_CASE(signature_and_text) {
    const Position position = read_fen("r1bqkb1r/ppp2ppp/2n5/8/8/5N2/PPPP1PPP/RNB1K2R w - - 0 1").value();
    const MaterialSignature signature = material_signature(position);
    BOOST_TEST(text(signature) == "KRRBNNPPPPPPP v KQRRBBNPPPPPP");
    BOOST_TEST(signature.more(Side::white, Kind::queen) == -1);
    BOOST_TEST(signature.more(Side::black, Kind::queen) == 1);
    BOOST_TEST(signature.more_minors(Side::white) == 0);
    BOOST_TEST((signature == material_signature(test::mirrored(position))));
    BOOST_TEST(!(signature == material_signature(test::flipped(position))));
}

BOOST_AUTO_TEST_CASE(every_name_and_its_side) {
    check_name("", Detail::even, Side::white); // the mover stands in
    check_name("Nb", Detail::even, Side::white);
    check_name("NPbp", Detail::even, Side::white);
    check_name("PPp", Detail::pawns_up, Side::white);
    check_name("Nbp", Detail::pawns_up, Side::black);
    check_name("Rb", Detail::the_exchange, Side::white);
    check_name("RPPnp", Detail::the_exchange, Side::white);
    check_name("Rnp", Detail::the_exchange_for_pawns, Side::white);
    check_name("Rnpp", Detail::the_exchange_for_pawns, Side::white); // level: the side with the exchange
    check_name("Rnppp", Detail::the_exchange_for_pawns, Side::black);
    check_name("nBrQq", Detail::piece_up, Side::black); // what both have does not matter
    check_name("RRnb", Detail::two_exchanges, Side::white);
    check_name("NNrrPPPPP", Detail::two_exchanges, Side::white);
    check_name("RRRnnb", Detail::two_exchanges, Side::white);
    check_name("NBr", Detail::two_minors_for_rook, Side::white);
    check_name("NBPr", Detail::two_minors_for_rook, Side::white);
    check_name("NBrp", Detail::two_minors_for_rook_and_pawns, Side::white); // level: the side with the minors
    check_name("NBrpp", Detail::two_minors_for_rook_and_pawns, Side::black);
    check_name("Npp", Detail::minor_for_pawns, Side::white);
    check_name("Nppp", Detail::minor_for_pawns, Side::white);
    check_name("Npppp", Detail::minor_for_pawns, Side::black);
    check_name("N", Detail::piece_up, Side::white);
    check_name("rP", Detail::piece_for_pawns, Side::black);
    check_name("rPPPPPP", Detail::piece_for_pawns, Side::white);
    check_name("qp", Detail::piece_up, Side::black);
    check_name("RN", Detail::piece_up, Side::white);
    check_name("NBP", Detail::piece_up, Side::white);
    check_name("NBp", Detail::piece_for_pawns, Side::white);
    check_name("Qrr", Detail::queen_for_pieces, Side::black);
    check_name("Qnbb", Detail::queen_for_pieces, Side::white); // level: the queen
    check_name("QPrn", Detail::queen_for_pieces, Side::white);
    check_name("Qr", Detail::queen_for_pieces, Side::white);
    check_name("QNrr", Detail::mixed, Side::white);
    check_name("QQrrr", Detail::mixed, Side::white);
    check_name("qnRRPP", Detail::mixed, Side::black); // level: the queen
    check_name("Rnbb", Detail::mixed, Side::black);
    check_name("RNNnnnbb", Detail::mixed, Side::black);
}

BOOST_AUTO_TEST_CASE(values_are_a_parameter) {
    Values dear_rook;
    dear_rook.of[index(Kind::rook)] = 8;
    BOOST_TEST(name(first_of("NBrpp", dear_rook).side) == "black");
    BOOST_TEST(name(first_of("Rnppp", dear_rook).side) == "white");
    Options options;
    options.values = dear_rook;
    Findings findings;
    find_material(BoardView{with_men("Rnppp"), options}, findings);
    BOOST_TEST(findings.at(0).number(Measure::material) == 2);
}

BOOST_AUTO_TEST_CASE(what_goes_beside_the_name) {
    // a2 and c2 are light, b2 and d2 dark.
    const auto second = [](std::string_view men) {
        const Imbalances named = named_imbalances(with_men(men));
        return named.size() < 2 ? std::pair{Detail::none, no_squares} : std::pair{named[1].name, named[1].men};
    };
    BOOST_TEST(name(second("BBnn").first) == "bishop_pair");
    BOOST_TEST(second("BBnn").second.bits() == (Squares{a2, b2}).bits());
    BOOST_TEST(name(second("BBbb").first) == "none");  // both have it
    BOOST_TEST(name(second("BNBnn").first) == "none"); // two bishops of one colour
    BOOST_TEST(name(second("NBnb").first) == "none");  // b2, d2: the same colour
    BOOST_TEST(name(second("BbR").first) == "opposite_bishops");
    BOOST_TEST(second("BbR").second.bits() == (Squares{a2, b2}).bits());
    BOOST_TEST(name(second("BbNb").first) == "none");                         // two against one, no pair
    BOOST_TEST(name(named_imbalances(with_men("BBnnp"))[1].side) == "white"); // although Black is ahead
    BOOST_TEST(name(named_imbalances(with_men("Bbp"))[1].side) == "black");   // the side of the first name
}

BOOST_AUTO_TEST_CASE(findings_of_an_exchange_and_a_pair) {
    const Position position = read_fen("2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1").value();
    const Findings findings = findings_of(position);
    BOOST_TEST(findings.size() == 2U);
    const Finding& exchange = findings.at(0);
    BOOST_TEST(name(exchange.theme) == "material");
    BOOST_TEST(name(exchange.detail) == "the_exchange");
    BOOST_TEST(name(exchange.side) == "white");
    BOOST_TEST(exchange.squares.bits() == (Squares{d1, h1, b7, e7, f6}).bits());
    BOOST_TEST(exchange.pieces.size() == 5U);
    BOOST_TEST((exchange.pieces.front() == Placed{d1, {Side::white, Kind::rook}}));
    BOOST_TEST(exchange.number(Measure::material) == 2);
    BOOST_TEST(exchange.number(Measure::rooks) == 1);
    BOOST_TEST(exchange.number(Measure::minors) == -1);
    BOOST_TEST(exchange.number(Measure::pawns, 99) == 0);
    BOOST_TEST(exchange.number(Measure::queens, 99) == 0);
    BOOST_TEST(exchange.number(Measure::exchanges) == 1);
    const Finding& pair = findings.at(1);
    BOOST_TEST(name(pair.detail) == "bishop_pair");
    BOOST_TEST(name(pair.side) == "black");
    BOOST_TEST(pair.squares.bits() == (Squares{b7, e7}).bits());
    BOOST_TEST(pair.number(Measure::material) == -2);
    BOOST_TEST(pair.number(Measure::exchanges, 99) == 99); // said where the exchange is named, not here

    const Finding pawns = findings_of(read_fen("4k3/p7/8/8/8/8/PP6/4K3 b - - 0 1").value()).at(0);
    BOOST_TEST(name(pawns.detail) == "pawns_up");
    BOOST_TEST(pawns.squares.bits() == (Squares{a2, b2}).bits());
    BOOST_TEST(pawns.pieces.empty());
    const Finding twice = findings_of(with_men("RRnb")).at(0);
    BOOST_TEST(twice.number(Measure::exchanges) == 2);
    const Finding nothing = findings_of(start_position()).at(0);
    BOOST_TEST(name(nothing.detail) == "even");
    BOOST_TEST(nothing.squares.bits() == 0U);
}

BOOST_AUTO_TEST_CASE(mirrors_give_mirrored_findings) {
    std::set<Detail> seen;
    auto positions = test::random_positions(700, 23);
    for (const Position& position : test::random_exchange_positions(300, 24)) positions.push_back(position);
    const auto same = [](Square square) { return square; };
    for (const Position& position : positions) BOOST_TEST_CONTEXT(fen(position)) {
            const Findings plain = findings_of(position);
            const Findings left_right = findings_of(test::mirrored(position));
            const Findings turned_round = findings_of(test::flipped(position));
            BOOST_TEST_REQUIRE(left_right.size() == plain.size());
            BOOST_TEST_REQUIRE(turned_round.size() == plain.size());
            for (std::size_t at = 0; at < plain.size(); ++at) {
                seen.insert(plain[at].detail);
                if (plain[at].pieces.size() == plain[at].pieces.capacity())
                    continue; // which eight depends on the board
                BOOST_TEST((essence(plain[at], test::left_right, false) == essence(left_right[at], same, false)));
                BOOST_TEST((essence(plain[at], test::up_down, true) == essence(turned_round[at], same, false)));
            }
        }
    BOOST_TEST(seen.size() > 8U);
}

BOOST_AUTO_TEST_SUITE_END()
