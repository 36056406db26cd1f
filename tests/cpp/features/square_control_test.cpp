// Square control: the definition at its borders, textbook counts, the fast answers against the plain definition,
// mirrors.
#include <keysquare/features/square_themes.hpp>

#include <random>
#include <string>
#include <string_view>
#include <vector>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"
#include "open_data.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position position_of(std::string_view text) { return read_fen(text, Strictness::lenient).value(); }

Squares held(const SquareControl& control, Side side) { return control.held[index(side)]; }

/// Who attacks a square and who joins later, by walking every line from the square outwards.
struct Walked {
    std::array<Squares, 2> attackers;
    std::array<Squares, 2> support;
};

Walked walked(const Position& position, Square square) {
    Walked found;
    for (const Square from : position.occupied()) {
        const Piece piece = position.piece_at(from);
        if (!is_slider(piece.kind) && attacks_of(piece, from, {}).has(square))
            found.attackers[index(piece.side)] |= Squares{from};
    }
    for (int file_step = -1; file_step <= 1; ++file_step)
        for (int rank_step = -1; rank_step <= 1; ++rank_step) {
            if (file_step == 0 && rank_step == 0) continue;
            bool behind = false;
            for (int file = file_of(square) + file_step, rank = rank_of(square) + rank_step;
                 file >= 0 && file < 8 && rank >= 0 && rank < 8; file += file_step, rank += rank_step) {
                const Square from = square_at(file, rank);
                const Piece piece = position.piece_at(from);
                if (!piece) continue;
                const bool straight = file_step == 0 || rank_step == 0;
                const bool slides = piece.kind == Kind::queen || piece.kind == (straight ? Kind::rook : Kind::bishop);
                if (!slides && !found.attackers[index(piece.side)].has(from)) break;
                if (slides) (behind ? found.support : found.attackers)[index(piece.side)] |= Squares{from};
                behind = true;
            }
        }
    return found;
}

/// Men thrown on the board: batteries, promotions, pins and checks that games rarely show.
std::vector<Position> thrown_positions(std::size_t count, unsigned seed) {
    std::mt19937 random{seed};
    std::vector<Position> positions;
    while (positions.size() < count) {
        PositionParts parts;
        const auto put = [&](Side side, Kind kind) {
            const Square square = square_at(static_cast<int>(random() % 64));
            const bool edge = rank_of(square) % 7 == 0;
            Piece& piece = parts.pieces[static_cast<std::size_t>(square)];
            if (!piece && !(kind == Kind::pawn && edge)) piece = {side, kind};
        };
        for (const Side side : all_sides) {
            put(side, Kind::king);
            for (auto men = 2 + random() % 9; men > 0; --men) put(side, static_cast<Kind>(random() % 5));
        }
        const Position position{parts};
        if (position.men(Kind::king).count() == 2 && !fault_for_computing(position)) positions.push_back(position);
    }
    return positions;
}

/// Every number of the position against its definition.
void check_all(const Position& position, const Options& options = {}) {
    const SquareControl control = square_control(position, options);
    for (const Square square : all_squares) {
        const Walked twin = walked(position, square);
        std::array<bool, 2> denied{};
        for (const Side side : all_sides) {
            const Grip& grip = control.grip(side, square);
            const std::size_t at = index(side);
            BOOST_TEST(grip.attackers == twin.attackers[at].count());
            BOOST_TEST(grip.support == twin.support[at].count());
            BOOST_TEST(control.attacked[at].has(square) == !twin.attackers[at].empty());
            int price = 1'000'000;
            for (const Square from : twin.attackers[at])
                if (const Kind kind = position.kind_at(from); kind != Kind::king)
                    price = (std::min)(price, options.values[kind]);
            if (twin.attackers[at].empty())
                BOOST_TEST((grip.cheapest == Kind::none));
            else if (grip.cheapest == Kind::king)
                BOOST_TEST(price == 1'000'000);
            else
                BOOST_TEST(options.values[grip.cheapest] == price);

            denied[at] = position.kind_at(square) == Kind::king ? position.men(side).has(square)
                                                                : denies(position, side, square, options.values);
            BOOST_TEST(grip.denies == denied[at], fen(position) << ' ' << name(side) << ' ' << name(square));
            BOOST_TEST(control.denied[at].has(square) == denied[at]);
        }
        for (const Side side : all_sides) {
            const bool holds = denied[index(side)] && !denied[index(other(side))];
            BOOST_TEST(control.held[index(side)].has(square) == holds);
            BOOST_TEST((control.holder(square) == side) == holds);
        }
    }
}

} // namespace

BOOST_AUTO_TEST_SUITE(squares_controlled)

BOOST_AUTO_TEST_CASE(the_start_position) {
    const SquareControl control = square_control(start_position());
    // Textbook: each side attacks its three ranks but for the two corners, and nothing is in dispute.
    const Squares white = (rank_squares(0) | rank_squares(1) | rank_squares(2)) & ~Squares{a1, h1};
    const Squares black = (rank_squares(7) | rank_squares(6) | rank_squares(5)) & ~Squares{a8, h8};
    BOOST_TEST(control.attacked[index(Side::white)].bits() == white.bits());
    BOOST_TEST(control.attacked[index(Side::black)].bits() == black.bits());
    BOOST_TEST(held(control, Side::white).bits() == white.bits());
    BOOST_TEST(held(control, Side::black).bits() == black.bits());
    BOOST_TEST(!control.holder(e4).has_value());
    // f3: the pawns e2 and g2 and the knight; the queen joins when the e-pawn has taken.
    const Grip& f3_grip = control.grip(Side::white, f3);
    BOOST_TEST(f3_grip.attackers == 3);
    BOOST_TEST(f3_grip.support == 1);
    BOOST_TEST((f3_grip.cheapest == Kind::pawn));
    BOOST_TEST((control.grip(Side::white, d1).cheapest == Kind::king));
    BOOST_TEST((control.grip(Side::white, e5).cheapest == Kind::none));
}

BOOST_AUTO_TEST_CASE(attackers_add_up_to_the_textbook_sums) {
    // Over all its squares a knight attacks 336, a king 420; a rook 14 from anywhere.
    int knights = 0;
    int kings = 0;
    int rooks = 0;
    for (const Square square : all_squares)
        for (const auto& [kind, sum] : {std::pair{Kind::knight, &knights}, std::pair{Kind::rook, &rooks}}) {
            // The kings stand where they block no line of the piece.
            const Squares lines = rook_attacks(square, {}) | knight_attacks(square) | king_attacks(square);
            const Squares free = ~lines.with(square);
            PositionParts parts;
            const Square white_king = free.first();
            const Square black_king = (free & ~king_attacks(white_king)).last();
            parts.pieces[static_cast<std::size_t>(square)] = {Side::white, kind};
            parts.pieces[static_cast<std::size_t>(white_king)] = {Side::white, Kind::king};
            parts.pieces[static_cast<std::size_t>(black_king)] = {Side::black, Kind::king};
            const SquareControl control = square_control(Position{parts});
            int attacked = 0;
            for (const Square one : all_squares) attacked += control.grip(Side::white, one).attackers;
            *sum += attacked - king_attacks(white_king).count();
            if (kind == Kind::rook) kings += king_attacks(square).count();
        }
    BOOST_TEST(knights == 336);
    BOOST_TEST(rooks == 896);
    BOOST_TEST(kings == 420);
}

BOOST_AUTO_TEST_CASE(who_holds_a_square) {
    // A pawn denies to a piece what the piece's guards cannot repair.
    const Position pawn = position_of("4k3/8/2n2n2/8/8/4P3/8/4K3 w - - 0 1");
    BOOST_TEST(denies(pawn, Side::white, d4));
    BOOST_TEST(!denies(pawn, Side::black, f4));
    BOOST_TEST((square_control(pawn).holder(f4) == Side::white));
    // Both deny: a square between two pawns is nobody's.
    const Position pawns = position_of("4k3/8/8/2p5/8/4P3/8/4K3 w - - 0 1");
    BOOST_TEST(denies(pawns, Side::white, d4));
    BOOST_TEST(denies(pawns, Side::black, d4));
    BOOST_TEST(!square_control(pawns).holder(d4).has_value());
    // One attacker against one guard of the same price: a trade, so not denied. With a rook behind it a pawn is won.
    BOOST_TEST(!denies(position_of("4k3/8/8/2p5/8/5N2/8/4K3 w - - 0 1"), Side::white, d4));
    BOOST_TEST(denies(position_of("4k3/8/8/2p5/8/5N2/8/3RK3 w - - 0 1"), Side::white, d4));
    // The rook alone would be lost for the knight.
    BOOST_TEST(!denies(position_of("4k3/8/8/2p5/8/8/8/3RK3 w - - 0 1"), Side::white, d4));
    // X-ray: the second rook joins when the first has taken.
    BOOST_TEST(!denies(position_of("3rk3/8/8/8/8/8/3R4/4K3 w - - 0 1"), Side::white, d5));
    BOOST_TEST(denies(position_of("3rk3/8/8/8/8/8/3R4/3RK3 w - - 0 1"), Side::white, d5));
    // What stands on the square is taken off first: it neither guards the square nor blocks.
    BOOST_TEST((square_control(position_of("4k3/8/8/3q4/8/8/3R4/4K3 w - - 0 1")).holder(d5) == Side::white));
    // A king holds its own square, and squares next to it that nobody guards.
    const SquareControl kings = square_control(position_of("4k3/8/8/8/8/8/8/R3K3 w - - 0 1"));
    BOOST_TEST((kings.holder(e8) == Side::black));
    BOOST_TEST((kings.holder(d7) == Side::black));
    BOOST_TEST((kings.holder(a8) == Side::white));
}

BOOST_AUTO_TEST_CASE(checks_and_pins) {
    // The bishop f2 is pinned by the bishop c5: it takes along the line (after the knight, back on e3), not elsewhere.
    const Position pin = position_of("4k3/8/8/2b5/8/8/5B2/5NK1 w - - 0 1");
    BOOST_TEST(!denies(pin, Side::white, e1));
    BOOST_TEST(denies(position_of("4k3/8/8/8/8/8/5B2/5NK1 w - - 0 1"), Side::white, e1));
    BOOST_TEST(denies(pin, Side::white, e3));
    BOOST_TEST(!denies(without(pin, f1), Side::white, e3));
    // A knight that gives check may be taken by any man that is free to do so ...
    BOOST_TEST(denies(position_of("4k3/8/8/8/8/8/6B1/6K1 w - - 0 1"), Side::white, f3));
    // ... but not by one that is pinned.
    BOOST_TEST(!denies(position_of("4k3/8/8/8/6r1/8/6B1/6K1 w - - 0 1"), Side::white, f3));
    // In check a side denies only where the taking answers the check: a8 is the checking rook's own square.
    const Position check = position_of("r3k3/8/8/8/8/1P6/6BP/K7 w - - 0 1");
    BOOST_TEST(denies(check, Side::white, a8));
    BOOST_TEST(!denies(check, Side::white, c4));
    BOOST_TEST(denies(position_of("1r2k3/8/8/8/8/1P6/6BP/K7 w - - 0 1"), Side::white, c4));
    // A knight put between ends the check.
    BOOST_TEST(denies(check, Side::white, a4));
    // With the mover in check the waiter denies more: on c4 the pawn may not take back while the rook gives check.
    BOOST_TEST(denies(position_of("1r2k3/5b2/8/8/8/3P4/8/1K6 w - - 0 1"), Side::black, c4));
    BOOST_TEST(!denies(position_of("r3k3/5b2/8/8/8/3P4/8/1K6 w - - 0 1"), Side::black, c4));
}

BOOST_AUTO_TEST_CASE(rights_and_en_passant_lapse) {
    // After e2-e4 the pawn on d4 could take en passant, but that is no grip on e4.
    BOOST_TEST(!denies(position_of("4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1"), Side::black, e4));
    // Chess960: on g1 stands the rook of a castling right, and the right is gone with it.
    const Position castle = position_of("4k3/8/8/8/8/8/8/5KR1 w G - 0 1");
    BOOST_TEST(denies(castle, Side::white, g1));
    check_all(castle);
}

BOOST_AUTO_TEST_CASE(fast_answers_equal_the_definition_in_random_play) {
    for (const Position& position : test::random_positions(2200, 5)) check_all(position);
    for (const Position& position : thrown_positions(2000, 8)) check_all(position);
    // Other prices: a bishop above a knight; and such that no shortcut is valid (a pawn dearer than a knight).
    for (const Position& position : test::random_positions(150, 6)) {
        check_all(position, {.values = {{100, 320, 330, 500, 900, 0, 0}}});
        check_all(position, {.values = {{4, 3, 3, 5, 9, 0, 0}}});
    }
}

BOOST_AUTO_TEST_CASE(fast_answers_equal_the_definition_in_games) {
    std::size_t seen = 0;
    for (const char* file :
         {"open-puzzles.csv", "epd/strategic-test-suite-a.epd", "epd/encyclopedia-of-middlegames.epd"}) {
        const auto lines = test::open_data_lines(file);
        if (!lines) return;
        for (std::string line : *lines) {
            if (const auto comma = line.find(','); comma < 10)
                line = line.substr(comma + 1, line.find(',', comma + 1) - comma - 1);
            // Of an EPD the four fields before the operations.
            std::size_t end = 0;
            for (int field = 0; field < 4 && end != std::string::npos; ++field) end = line.find(' ', end + 1);
            const auto position = read_fen(std::string_view{line}.substr(0, end), Strictness::lenient);
            if (!position) continue;
            ++seen;
            check_all(position.value());
        }
    }
    BOOST_TEST(seen >= 2000U);
}

BOOST_AUTO_TEST_CASE(mirrors) {
    for (const Position& position : test::random_positions(400, 7)) {
        const SquareControl control = square_control(position);
        const SquareControl sideways = square_control(test::mirrored(position));
        const SquareControl turned_round = square_control(test::flipped(position));
        for (const Side side : all_sides) {
            BOOST_TEST(held(sideways, side).bits() == test::mapped(held(control, side), test::left_right).bits());
            BOOST_TEST(held(turned_round, other(side)).bits() ==
                       test::mapped(held(control, side), test::up_down).bits());
        }
    }
}

BOOST_AUTO_TEST_CASE(the_finding) {
    Findings findings;
    find_square_control(BoardView{start_position()}, findings);
    BOOST_TEST(findings.empty()); // 22 each
    const Position open = position_of("rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1");
    find_square_control(BoardView{open}, findings);
    BOOST_TEST_REQUIRE(findings.size() == 1U);
    const Finding& finding = findings[0];
    BOOST_TEST((finding.theme == Theme::square_control));
    BOOST_TEST((finding.side == Side::white));
    BOOST_TEST(finding.squares.bits() == held(square_control(open), Side::white).bits());
    BOOST_TEST(finding.number(Measure::held) == finding.squares.count());
    BOOST_TEST(finding.number(Measure::held_by_other) == 22);
    BOOST_TEST(finding.number(Measure::held) > 22);
    // With a king in check the count is about the moment: no finding.
    findings.clear();
    find_square_control(BoardView{position_of("r3k3/8/8/8/8/1P6/6BP/K7 w - - 0 1")}, findings);
    BOOST_TEST(findings.empty());
}

BOOST_AUTO_TEST_SUITE_END()
