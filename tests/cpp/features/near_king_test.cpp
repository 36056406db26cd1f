// Near the king: attackers and defenders, escape squares, lines and the king in the centre: worked positions, border cases, a slow twin and the two
// mirrors. Positions are made up unless a name stands beside them.
#include <keysquare/features/king_lines.hpp>
#include <keysquare/features/near_king.hpp>

#include <boost/test/unit_test.hpp>

#include "mirrored.hpp"

using namespace keysquare;
using enum Square;

namespace {

Position at(std::string_view text) { return read_fen(text).value(); }

/// The steps of the king by the rules: what is legal when it is its side's turn, castling left out.
Squares legal_steps(const Position& position, Side side) {
    const Position turn = position.mover() == side ? position : turned(position);
    Squares steps;
    for (const Move move : legal_moves(turn))
        if (!move.castles() && move.origin() == position.king(side)) steps |= Squares{move.target()};
    return steps;
}

/// The men of a side, its king left out, that attack a square next to the other king or the king's own square.
Squares men_near(const Position& position, Square king, Side side) {
    Squares men;
    for (int square = 0; square < 64; ++square)
        if (king_distance(square_at(square), king) <= 1) men |= attackers_of(position, square_at(square), side);
    return men & ~position.men(Kind::king);
}

/// The diagonals on a king by walking from every enemy bishop and queen.
std::array<Squares, 2> diagonals_by_walking(const Position& position, Side side) {
    std::array<Squares, 2> found; // the men, the squares
    const auto walk = [&](Square from, int file_step, int rank_step) {
        Squares seen;
        int file = file_of(from) + file_step;
        int rank = rank_of(from) + rank_step;
        for (; file >= 0 && file < 8 && rank >= 0 && rank < 8; file += file_step, rank += rank_step) {
            seen |= Squares{square_at(file, rank)};
            if (position.piece_at(square_at(file, rank))) break;
        }
        return seen;
    };
    for (const Square man : position.men(other(side)) & (position.men(Kind::bishop) | position.men(Kind::queen)))
        for (const int rise : {1, -1}) {
            const Squares seen = walk(man, 1, rise) | walk(man, -1, -rise);
            bool near = false;
            for (const Square square : seen) near = near || king_distance(square, position.king(side)) <= 1;
            if (!near) continue;
            found[0] |= Squares{man};
            found[1] |= seen;
        }
    return found;
}

std::array<Squares, 2> diagonals_of(const Position& position, Side side) {
    std::array<Squares, 2> found;
    for (const KingDiagonal& diagonal : king_lines(position, side).diagonals) {
        found[0] |= Squares{diagonal.man};
        found[1] |= diagonal.squares;
    }
    return found;
}

} // namespace

BOOST_AUTO_TEST_SUITE(near_kings)

BOOST_AUTO_TEST_CASE(attackers_and_defenders) {
    const Position position = at("6k1/5ppp/8/4N2Q/8/8/5PPP/3r2K1 w - - 0 1");
    const NearKing black = near_king(position, Side::black);
    BOOST_TEST(black.squares.bits() == (Squares{f8, g8, h8, f7, g7, h7}).bits());
    BOOST_TEST(black.attackers.bits() == (Squares{e5, h5}).bits());
    BOOST_TEST(black.attacked.bits() == (Squares{f7, h7}).bits());
    BOOST_TEST(black.defenders.empty()); // pawns before the king guard the squares in front of them
    BOOST_TEST(near_king(position, Side::white).attackers.bits() == Squares{d1}.bits());
}

BOOST_AUTO_TEST_CASE(escape_squares_and_luft) {
    const KingEscape shut_in = king_escape(at("6k1/5ppp/8/8/8/8/8/4R1K1 w - - 0 1"), Side::black);
    BOOST_TEST(shut_in.squares.bits() == (Squares{f8, h8}).bits());
    BOOST_TEST(shut_in.luft.empty());
    const KingEscape with_luft = king_escape(at("6k1/5pp1/7p/8/8/8/8/4R1K1 w - - 0 1"), Side::black);
    BOOST_TEST(with_luft.luft.bits() == Squares{h7}.bits());
    // A slider looks through the king that steps back along its line; a guarded man can't be taken, a bare one can.
    BOOST_TEST(king_escape(at("4R1k1/5ppp/8/8/8/8/8/6K1 b - - 0 1"), Side::black).squares.empty());
    BOOST_TEST(king_escape(at("6k1/5pQp/7P/8/8/8/8/6K1 b - - 0 1"), Side::black).squares.empty());
    BOOST_TEST(king_escape(at("6k1/5pQp/8/8/8/8/8/6K1 b - - 0 1"), Side::black).squares.bits() == Squares{g7}.bits());
    // Luft is for a king on its first rank.
    BOOST_TEST(king_escape(at("8/6k1/8/8/8/8/8/6K1 w - - 0 1"), Side::black).luft.empty());
}

BOOST_AUTO_TEST_CASE(lines_on_the_king) {
    const KingLines lines = king_lines(at("6k1/5p1p/8/8/3Q4/8/1B3P2/4R1K1 w - - 0 1"), Side::black);
    BOOST_TEST(lines.open_files.bits() == file_squares(6).bits());
    BOOST_TEST(lines.half_open_files.bits() == file_squares(7).bits());
    BOOST_TEST(lines.files() == 2);
    BOOST_REQUIRE(lines.diagonals.size() == 1U); // the bishop behind the queen sees no farther than the queen
    BOOST_TEST(index(lines.diagonals[0].man) == index(d4));
    BOOST_TEST(lines.diagonals[0].squares.bits() == (Squares{b2, c3, e5, f6, g7, h8}).bits());
    // A rook has no diagonals, and a man of the king's own side is no danger.
    BOOST_TEST(king_lines(at("6k1/5p1p/8/4b3/8/8/8/R5K1 w - - 0 1"), Side::black).diagonals.empty());
}

BOOST_AUTO_TEST_CASE(kings_in_the_centre) {
    const Position position = at("4k3/8/8/8/8/8/8/2K5 w - - 0 1");
    BOOST_TEST(is_king_in_centre(position, Side::black));
    BOOST_TEST(!is_king_in_centre(position, Side::white));
    BOOST_TEST(is_king_in_centre(at("8/3k4/8/8/8/8/8/2K5 w - - 0 1"), Side::black));
    BOOST_TEST(!is_king_in_centre(at("8/8/3k4/8/8/8/8/2K5 w - - 0 1"), Side::black));
    BOOST_TEST(may_castle_later(at("4k3/8/8/8/8/8/8/4K2R w K - 0 1"), Side::white));
    BOOST_TEST(!may_castle_later(at("4k3/8/8/8/8/8/8/4K2R w K - 0 1"), Side::black));
    // Chess960: a king on b1 may castle as well, and is not in the centre.
    const Position shuffled = at("rkr5/8/8/8/8/8/8/RKR5 w CAca - 0 1");
    BOOST_TEST(may_castle_later(shuffled, Side::white));
    BOOST_TEST(!is_king_in_centre(shuffled, Side::white));
}

BOOST_AUTO_TEST_CASE(agree_with_slow_twins_and_mirrors) {
    std::array<int, 5> seen{};
    for (const Position& position : test::random_positions(1000, 72)) {
        const Position left_right = test::mirrored(position);
        const Position turned_round = test::flipped(position);
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                const Square king = position.king(side);
                const NearKing zone = near_king(position, side);
                const KingEscape escape = king_escape(position, side);
                const auto diagonals = diagonals_of(position, side);
                BOOST_TEST(zone.attackers.bits() == men_near(position, king, other(side)).bits());
                BOOST_TEST(zone.defenders.bits() == men_near(position, king, side).bits());
                BOOST_TEST(zone.attackers.bits() == king_shelter(position, side).bearing_men.bits());
                BOOST_TEST(escape.squares.bits() == legal_steps(position, side).bits());
                BOOST_TEST((diagonals == diagonals_by_walking(position, side)));
                const KingLines lines = king_lines(position, side);
                BOOST_TEST(lines.open_files.bits() == king_shelter(position, side).open_files.bits());
                BOOST_TEST(lines.half_open_files.bits() == king_shelter(position, side).half_open_files.bits());

                const auto check_image = [&](const Position& image, Side its_side, auto map) {
                    const NearKing zone_there = near_king(image, its_side);
                    BOOST_TEST(zone_there.attacked.bits() == test::mapped(zone.attacked, map).bits());
                    BOOST_TEST(zone_there.defenders.bits() == test::mapped(zone.defenders, map).bits());
                    BOOST_TEST(king_escape(image, its_side).luft.bits() == test::mapped(escape.luft, map).bits());
                    BOOST_TEST(diagonals_of(image, its_side)[1].bits() == test::mapped(diagonals[1], map).bits());
                    BOOST_TEST(is_king_in_centre(image, its_side) == is_king_in_centre(position, side));
                };
                check_image(left_right, side, test::left_right);
                check_image(turned_round, other(side), test::up_down);
                seen[0] += zone.attackers.several();
                seen[1] += zone.defenders.several();
                seen[2] += escape.squares.empty();
                seen[3] += !escape.luft.empty();
                seen[4] += !diagonals[0].empty();
            }
    }
    for (const int times : seen) BOOST_TEST(times > 50); // the positions do show the cases
}

BOOST_AUTO_TEST_SUITE_END()
