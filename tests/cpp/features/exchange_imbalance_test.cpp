// The exchange-imbalance ledger: worked positions, every item of the formula, the guardian that left, and the mirrors.
#include <keysquare/features/exchange_imbalance.hpp>

#include <set>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

constexpr auto g01 = "2r3k1/1b2bppp/p2p1n2/qp2p3/4P1P1/2P1BP2/P1PQN2P/1K1R3R w - - 0 1";
constexpr auto g03 = "3r1rk1/pp3p1p/1q2n1p1/2p1P3/2P2P2/1P1B1Q2/PB4PP/4R1K1 w - - 0 1";
constexpr auto g05 = "r2qr3/pp3pk1/2p2p1p/3n4/3N4/3B3Q/PPP2PPP/3R2K1 b - - 0 1";
constexpr auto g06 = "8/8/4k3/3b4/8/8/8/R3K3 w - - 0 1";
constexpr auto g08 = "2rr2k1/pp3ppp/2n5/4p3/8/1P2P3/PB2NPPP/3R2K1 w - - 0 1";

Position position_of(std::string_view text) { return read_fen(text).value(); }
ExchangeLedger ledger_of(std::string_view text) { return exchange_context(position_of(text)).value(); }

std::set<CompensationItem> items_of(const Compensation& compensation) {
    std::set<CompensationItem> items;
    for (auto item = CompensationItem::pawns; item < CompensationItem::end_;
         item = static_cast<CompensationItem>(static_cast<int>(item) + 1))
        if (compensation.counts(item)) items.insert(item);
    return items;
}

Findings findings_of(const Position& position) {
    Findings findings;
    find_exchange_imbalance(BoardView{position}, findings);
    return findings;
}

template <class Map> void check_image(const LedgerPage& page, const LedgerPage& image, Map map) {
    const auto same = [&](Squares a, Squares b) { BOOST_TEST(test::mapped(a, map).bits() == b.bits()); };
    BOOST_TEST(page.more_pawns == image.more_pawns);
    BOOST_TEST(page.scope_known == image.scope_known);
    BOOST_TEST(page.rooks.size() == image.rooks.size());
    for (const RookScope& scope : page.rooks)
        for (const RookScope& other_scope : image.rooks)
            if (map(scope.rook) == other_scope.rook) same(scope.safe, other_scope.safe);
    same(page.pair, image.pair);
    same(page.open_files, image.open_files);
    same(page.half_open_files, image.half_open_files);
    same(page.outposts, image.outposts);
    same(page.king.shield, image.king.shield);
    same(page.king.open_files, image.king.open_files);
    same(page.king.half_open_files, image.king.half_open_files);
    same(page.king.bearing_men, image.king.bearing_men);
    same(page.pawns.passed, image.pawns.passed);
    same(page.pawns.isolated, image.pawns.isolated);
    same(page.pawns.doubled, image.pawns.doubled);
}

} // namespace

BOOST_AUTO_TEST_SUITE(exchange_imbalance)

BOOST_AUTO_TEST_CASE(worked_positions) {
    using enum CompensationItem;
    struct Worked {
        const char* fen;
        std::set<CompensationItem> items; // as the worked facts count them
        int points;
        int rook_files;
        Side rook_side;
        CompensationLevel level;
    };
    const Worked worked[] = {
        {g01, {bishop_pair, exposed_king, damaged_pawns}, 9, 2, Side::white, CompensationLevel::enough},
        {g03, {bishop_pair, pawns}, 5, 2, Side::black, CompensationLevel::enough},
        // Two men bear on the king, which the facts do not count as an item and the formula counts in part.
        {g05, {exposed_king, damaged_pawns, men_at_king}, 7, 3, Side::black, CompensationLevel::enough},
        {g06, {}, 0, 8, Side::white, CompensationLevel::none},
        {g08, {}, 0, 2, Side::black, CompensationLevel::none},
    };
    for (const Worked& one : worked) BOOST_TEST_CONTEXT(one.fen) {
            const ExchangeLedger ledger = ledger_of(one.fen);
            BOOST_TEST(name(ledger.up.side) == name(one.rook_side));
            BOOST_TEST(ledger.up.times == 1);
            BOOST_TEST((items_of(ledger.compensation) == one.items));
            BOOST_TEST(name(ledger.compensation.level) == name(one.level));
            BOOST_TEST(ledger.compensation.points == one.points);
            BOOST_TEST(ledger.of(one.rook_side).rook_files() == one.rook_files);
            BOOST_TEST(!ledger.guardian.has_value());
        }
}

BOOST_AUTO_TEST_CASE(pages_of_a_worked_position) {
    const ExchangeLedger ledger = ledger_of(g01);
    const LedgerPage& white = ledger.of(Side::white);
    const LedgerPage& black = ledger.of(Side::black);
    BOOST_TEST(white.more_pawns == 0);
    BOOST_TEST(white.pair.bits() == 0U);
    BOOST_TEST(black.pair.bits() == (Squares{b7, e7}).bits());
    BOOST_TEST(white.half_open_files.bits() == (file_squares(1) | file_squares(3)).bits());
    BOOST_TEST(white.pawns.isolated.bits() == (Squares{a2, c2, c3}).bits());
    BOOST_TEST(white.weak_pawns() == 4);
    BOOST_TEST(white.king.bearing_men.bits() == Squares{a5}.bits());
    BOOST_TEST(white.king.half_open_files.bits() == file_squares(2).bits());
    BOOST_TEST(white.king.open_files.bits() == 0U);
    BOOST_TEST(black.king.shield.count() == 3);
    BOOST_TEST(white.rooks.size() == 2U);
    BOOST_TEST(black.rooks.size() == 1U);
    BOOST_TEST(ledger_of(g03).of(Side::white).more_pawns == 1);
    BOOST_TEST(ledger_of(g03).of(Side::black).more_pawns == -1);
}

BOOST_AUTO_TEST_CASE(scope_of_the_rooks) {
    // Of the ten squares before it the bishop holds a2 and a8.
    const ExchangeLedger ledger = ledger_of(g06);
    const LedgerPage& white = ledger.of(Side::white);
    BOOST_TEST(white.scope_known);
    BOOST_TEST(white.rooks.size() == 1U);
    BOOST_TEST(white.rooks.front().safe.bits() == (Squares{a3, a4, a5, a6, a7, b1, c1, d1}).bits());
    BOOST_TEST(ledger.of(Side::black).rooks.empty());

    // While the mover is in check, the waiter has no turn, and of the mover's moves only answers count.
    const ExchangeLedger in_check = ledger_of("4k3/8/8/8/8/4b3/8/R5K1 w - - 0 1");
    BOOST_TEST(in_check.of(Side::white).scope_known);
    BOOST_TEST(in_check.of(Side::white).rooks.front().safe.empty());
    BOOST_TEST(!in_check.of(Side::black).scope_known);

    // Castling is a move of the king.
    const ExchangeLedger castles = ledger_of("4k3/8/8/8/8/8/n6P/6RK w - - 0 1");
    BOOST_TEST(castles.of(Side::white).rooks.front().safe.has(f1));
    const ExchangeLedger home = ledger_of("4k3/8/8/8/8/8/n5PP/4K2R w K - 0 1");
    BOOST_TEST(home.of(Side::white).rooks.front().safe.bits() == (Squares{f1, g1}).bits());
}

BOOST_AUTO_TEST_CASE(only_the_exchange) {
    for (const char* text : {"4k3/8/8/8/8/8/8/R3K3 w - - 0 1",        // a rook up
                             "r3k3/8/8/8/8/8/8/2B1K3 w - - 0 1",      // the exchange, for comparison
                             "qn2k3/8/8/8/8/8/8/R3K3 w - - 0 1",      // a queen more on one side
                             "bn2k3/8/8/8/8/8/8/R3K3 w - - 0 1",      // two minor pieces
                             "4k3/pppp4/8/8/8/8/8/R3K3 w - - 0 1"}) { // pawns
        const bool expected = std::string_view{text}.starts_with("r3k3");
        BOOST_TEST_CONTEXT(text) {
            BOOST_TEST(exchange_context(position_of(text)).has_value() == expected);
            BOOST_TEST(findings_of(position_of(text)).size() == (expected ? 1U : 0U));
        }
    }
    const ExchangeLedger twice = ledger_of("rr2k3/8/8/8/8/8/8/1NB1K3 w - - 0 1");
    BOOST_TEST(twice.up.times == 2);
    BOOST_TEST(name(twice.giver()) == "white");
}

BOOST_AUTO_TEST_CASE(every_item_of_the_formula) {
    const CompensationTable& table = compensation_table;
    const auto points = [](CompensationCounts counts) { return compensation(counts).points; };
    CompensationCounts level; // two quiet sides, a file for the rooks
    level.own_pawns = level.other_pawns = 5;
    level.own_shield = level.other_shield = 3;
    level.rook_files = 1;
    BOOST_TEST(points(level) == 0);

    const auto with = [&](auto change) {
        CompensationCounts counts = level;
        change(counts);
        return compensation(counts).points;
    };
    BOOST_TEST(with([](auto& c) { c.own_pawns = 7; }) == 2 * table.pawn);
    BOOST_TEST(with([](auto& c) { c.own_pawns = 4; }) == -table.pawn);
    BOOST_TEST(with([](auto& c) { c.own_pair = true; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.own_pair = c.other_pair = true; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.other_pair = true; }) == 0);
    BOOST_TEST(with([](auto& c) { c.own_outposts = 1; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.own_outposts = c.other_outposts = 1; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.other_outposts = 1; }) == 0);
    BOOST_TEST(with([](auto& c) { c.own_passed = 2, c.other_passed = 1; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.own_passed = 1, c.other_passed = 2; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.other_passed = 2; }) == 0);
    BOOST_TEST(with([](auto& c) { c.other_shield = 2, c.own_queen = true; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.other_shield = 2; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.own_shield = 2, c.own_queen = true; }) == 0);
    BOOST_TEST(with([](auto& c) { c.bearing_men = 3; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.bearing_men = 2; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.bearing_men = 1; }) == 0);
    BOOST_TEST(with([](auto& c) { c.rook_files = 0; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.other_weak = 3, c.own_weak = 1; }) == table.full);
    BOOST_TEST(with([](auto& c) { c.other_weak = 2, c.own_weak = 1; }) == table.part);
    BOOST_TEST(with([](auto& c) { c.other_weak = 1, c.own_weak = 2; }) == 0);
}

BOOST_AUTO_TEST_CASE(no_file_for_the_rooks) {
    // White has a pawn on every file; the a-file is open to Black's rooks alone, had it any.
    const ExchangeLedger shut = ledger_of("2b1k3/1ppppppp/8/8/8/8/PPPPPPPP/R3K3 w - - 0 1");
    BOOST_TEST(shut.of(Side::white).rook_files() == 0);
    BOOST_TEST(shut.of(Side::black).rook_files() == 1);
    BOOST_TEST(shut.compensation.of(CompensationItem::no_rook_file) == compensation_table.full);
    BOOST_TEST(shut.compensation.of(CompensationItem::pawns) == -compensation_table.pawn);
    BOOST_TEST(name(shut.compensation.level) == "none");
    const Finding some = findings_of(position_of("2b1k3/pppppppp/8/8/8/8/PPPPPPPP/R3K3 w - - 0 1")).front();
    BOOST_TEST(name(some.detail) == "some_compensation");
    BOOST_TEST(name(some.side) == "white"); // still the side with the rook
    BOOST_TEST(some.number(Measure::rook_files, 99) == 0);
}

BOOST_AUTO_TEST_CASE(levels_of_the_formula) {
    const auto level = [](int pawns, int exchanges, bool pair = false, bool no_file = false) {
        CompensationCounts counts;
        counts.exchanges = exchanges;
        counts.own_pawns = pawns;
        counts.own_pair = pair;
        counts.rook_files = no_file ? 0 : 1;
        return name(compensation(counts).level);
    };
    BOOST_TEST(level(-1, 1) == "none");
    BOOST_TEST(level(0, 1) == "none");
    BOOST_TEST(level(1, 1) == "some");
    BOOST_TEST(level(2, 1) == "enough"); // the price of the exchange, in pawns
    BOOST_TEST(level(4, 1) == "enough");
    BOOST_TEST(level(5, 1) == "more_than_enough");
    BOOST_TEST(level(2, 2) == "some"); // two exchanges cost twice as much
    BOOST_TEST(level(4, 2) == "enough");
    BOOST_TEST(level(0, 1, true) == "some");
    BOOST_TEST(level(0, 1, true, true) == "enough");  // any two items
    BOOST_TEST(level(-1, 1, true, true) == "enough"); // even for a pawn less
    BOOST_TEST(level(-2, 1, true, true) == "some");
    CompensationTable strict;
    strict.enough = 7;
    CompensationCounts counts;
    counts.own_pawns = 3;
    counts.rook_files = 1;
    BOOST_TEST(name(compensation(counts, strict).level) == "some");
    BOOST_TEST(name(compensation(counts).level) == "enough");
}

BOOST_AUTO_TEST_CASE(the_guardian_that_left) {
    // Black takes the dark-squared bishop on g7 for a rook: Rh7 takes g7, the king takes back.
    const Position earlier = position_of("r4rk1/pp3pbR/3p2p1/8/8/8/PP3P2/2K1B2R w - - 0 1");
    const auto play = [](Position position, std::initializer_list<Move> moves) {
        for (const Move move : moves) {
            BOOST_TEST(is_legal(position, move));
            position = after(position, move);
        }
        return position;
    };
    const Position now = play(earlier, {Move{h7, g7}, Move{g8, g7}});
    const ExchangeLedger ledger = exchange_context(now, {}, &earlier).value();
    BOOST_TEST(name(ledger.up.side) == "black");
    BOOST_TEST_REQUIRE(ledger.guardian.has_value());
    const GuardianGone& gone = *ledger.guardian;
    BOOST_TEST((gone.piece == Placed{g7, {Side::black, Kind::bishop}}));
    BOOST_TEST((gone.complex == Complex::dark));
    const SquareControl before = square_control(earlier);
    const SquareControl after_it = square_control(now);
    for (const Side side : all_sides) {
        BOOST_TEST(gone.before.held[index(side)].bits() == (before.held[index(side)] & dark_squares).bits());
        BOOST_TEST(gone.now.held[index(side)].bits() == (after_it.held[index(side)] & dark_squares).bits());
        BOOST_TEST(gone.now.attacked[index(side)].bits() == (after_it.attacked[index(side)] & dark_squares).bits());
    }
    BOOST_TEST(gone.before.held[index(Side::black)].has(d4));
    BOOST_TEST(!gone.now.held[index(Side::black)].has(d4));

    // No earlier position, no guardian; nor when the earlier one already had the exchange, or other things happened
    // too.
    BOOST_TEST(!exchange_context(now)->guardian.has_value());
    BOOST_TEST(!exchange_context(now, {}, &now)->guardian.has_value());
    const Position with_knights = position_of("r4rk1/pp3pbR/n2p2p1/8/8/N7/PP3P2/2K1B2R w - - 0 1");
    BOOST_TEST(!exchange_context(now, {}, &with_knights)->guardian.has_value());

    // A knight on f6 attacks light squares. Two knights, one of which moved as well: the squares do not tell.
    const Position knight = position_of("6k1/5p1p/5n2/8/8/8/5PPP/R4RK1 w - - 0 1");
    const Position knight_gone = position_of("6k1/5p1p/5r2/8/8/8/5PPP/R5K1 w - - 0 1");
    BOOST_TEST(!exchange_context(knight_gone, {}, &knight).has_value()); // rooks are level here
    const Position knights = position_of("1n4k1/r6p/5n2/8/8/8/5PPP/1NB2RK1 w - - 0 1");
    const Position one_knight = position_of("1n4k1/r6p/8/8/8/8/5PPP/1NB3K1 w - - 0 1");
    const auto of_knights = exchange_context(one_knight, {}, &knights);
    BOOST_TEST_REQUIRE(of_knights.has_value());
    BOOST_TEST_REQUIRE(of_knights->guardian.has_value());
    BOOST_TEST(name(of_knights->guardian->piece.square) == "f6");
    BOOST_TEST((of_knights->guardian->complex == Complex::light));
    const Position more_happened = position_of("1n4k1/r5bp/8/8/8/8/5PPP/1NBN1RK1 w - - 0 1");
    BOOST_TEST(!exchange_context(one_knight, {}, &more_happened)->guardian.has_value());
    const Position unclear = position_of("6k1/r6p/2n5/8/8/8/5PPP/1NB3K1 w - - 0 1");
    BOOST_TEST(!exchange_context(unclear, {}, &knights)->guardian.has_value());
}

BOOST_AUTO_TEST_CASE(finding_of_a_worked_position) {
    const Findings findings = findings_of(position_of(g01));
    BOOST_TEST_REQUIRE(findings.size() == 1U);
    const Finding& finding = findings.front();
    BOOST_TEST(name(finding.theme) == "exchange_imbalance");
    BOOST_TEST(name(finding.detail) == "enough_compensation");
    BOOST_TEST(name(finding.side) == "black"); // the giver
    BOOST_TEST(finding.number(Measure::material) == -2);
    BOOST_TEST(finding.number(Measure::pawns, 99) == 0);
    BOOST_TEST(finding.number(Measure::exchanges) == 1);
    BOOST_TEST(finding.number(Measure::compensation) == 9);
    BOOST_TEST(finding.number(Measure::rook_files) == 2);
    BOOST_TEST(finding.number(Measure::bishop_pairs) == 1);
    BOOST_TEST(finding.number(Measure::missing_shield) == 1);
    BOOST_TEST(finding.number(Measure::weak_pawns) == 4);
    BOOST_TEST(finding.number(Measure::bearing_men, 99) == 99); // one man is no item
    BOOST_TEST(finding.number(Measure::outposts, 99) == 99);
    BOOST_TEST(finding.number(Measure::passed_pawns, 99) == 99);
    BOOST_TEST(finding.squares.bits() == (Squares{d1, h1, b7, e7, f6, b1, a2, c2, c3}).bits());
    BOOST_TEST((finding.pieces.front() == Placed{d1, {Side::white, Kind::rook}}));
    BOOST_TEST((finding.pieces.back() == Placed{e7, {Side::black, Kind::bishop}}));
    BOOST_TEST(finding.line.empty());

    const Finding without_compensation = findings_of(position_of(g08)).front();
    BOOST_TEST(name(without_compensation.detail) == "no_compensation");
    BOOST_TEST(name(without_compensation.side) == "black"); // the side with the rooks
    BOOST_TEST(without_compensation.number(Measure::material) == 2);
    BOOST_TEST(without_compensation.numbers.size() == 5U);
}

BOOST_AUTO_TEST_CASE(mirrors_give_mirrored_ledgers) {
    std::set<CompensationLevel> levels;
    int ledgers = 0;
    for (const Position& position : test::random_exchange_positions(600, 25)) {
        const auto plain = exchange_context(position);
        const Position left_right = test::mirrored(position);
        const Position turned_round = test::flipped(position);
        const auto left_right_ledger = exchange_context(left_right);
        const auto turned_ledger = exchange_context(turned_round);
        BOOST_TEST_CONTEXT(fen(position)) {
            BOOST_TEST_REQUIRE(left_right_ledger.has_value() == plain.has_value());
            BOOST_TEST_REQUIRE(turned_ledger.has_value() == plain.has_value());
            if (!plain) continue;
            ++ledgers;
            levels.insert(plain->compensation.level);
            BOOST_TEST(left_right_ledger->compensation.by_item == plain->compensation.by_item,
                       boost::test_tools::per_element());
            BOOST_TEST(turned_ledger->compensation.by_item == plain->compensation.by_item,
                       boost::test_tools::per_element());
            for (const Side side : all_sides) {
                check_image(plain->of(side), left_right_ledger->of(side), test::left_right);
                check_image(plain->of(side), turned_ledger->of(other(side)), test::up_down);
            }
            const Finding finding = findings_of(position).front();
            const Finding left_right_finding = findings_of(left_right).front();
            const Finding turned_finding = findings_of(turned_round).front();
            BOOST_TEST((left_right_finding.detail == finding.detail && turned_finding.detail == finding.detail));
            BOOST_TEST((left_right_finding.side == finding.side && turned_finding.side == other(finding.side)));
            BOOST_TEST(left_right_finding.squares.bits() == test::mapped(finding.squares, test::left_right).bits());
            BOOST_TEST(turned_finding.squares.bits() == test::mapped(finding.squares, test::up_down).bits());
            BOOST_TEST(left_right_finding.number(Measure::compensation) == finding.number(Measure::compensation));
            BOOST_TEST(turned_finding.number(Measure::material) == finding.number(Measure::material));
        }
    }
    BOOST_TEST(ledgers >= 500);
    BOOST_TEST(levels.size() >= 3U);
}

BOOST_AUTO_TEST_SUITE_END()
