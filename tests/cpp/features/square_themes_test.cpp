// Holes, outposts and space: the conditions one by one, slow twins, and the mirrors.
#include <keysquare/features/square_themes.hpp>

#include <boost/test/unit_test.hpp>

#include "theme_helpers.hpp"

using namespace keysquare;
using enum Square;

namespace {

Findings themes_of(const Position& position) {
    Findings found;
    find_square_themes(BoardView{position}, found);
    return found;
}

std::vector<Finding> themes_of(std::string_view text, Theme theme, Side side) {
    return test::of_theme(themes_of(read_fen(text).value()), theme, side);
}

/// The first finding's squares, none when there is no finding.
Squares squares_of(const std::vector<Finding>& found) { return found.empty() ? Squares{} : found.front().squares; }

/// Counted man by man: can a minor piece of the other side settle on the hole?
Squares usable_twin(const Position& position, Side side) {
    Squares usable;
    for (const Square square : holes_of(position, side)) {
        if (rank_for(side, square) < 2) continue;
        const Squares attackers = attackers_of(position, square, other(side));
        const Piece man = position.piece_at(square);
        if (man && man.side == other(side)) {
            if (is_minor(man.kind) && attackers) usable |= Squares{square};
        } else {
            for (const Square from : attackers)
                if (is_minor(position.kind_at(from)) && attackers.several()) usable |= Squares{square};
        }
    }
    return usable;
}

Squares space_twin(const Position& position, Side side) {
    Squares room;
    for (int file = 2; file < 6; ++file)
        for (int rank = 0; rank < 4; ++rank) {
            const Square square = square_at(file, side == Side::white ? rank : 7 - rank);
            if (position.kind_at(square) == Kind::pawn) continue;
            if (attackers_of(position, square, other(side)) & position.men(Kind::pawn)) continue;
            bool is_behind = false;
            for (const Square pawn : position.men(side, Kind::pawn))
                is_behind |= std::abs(file_of(pawn) - file) <= 1 && rank_for(side, pawn) > rank;
            if (is_behind) room |= Squares{square};
        }
    return room;
}

/// The fewest moves by walking the real board, the other side passing; 0 when it takes more than three.
int moves_to(const Position& position, Square from, Square target, int most) {
    const Side side = position.piece_at(from).side;
    const Squares fire = pawn_attacks(other(side), position.men(other(side), Kind::pawn));
    for (int moves = 1; moves <= most; ++moves)
        for (const Square to : attacks_of(position.piece_at(from), from, position.occupied())) {
            if ((position.men(side) | position.men(Kind::king) | fire).has(to)) continue;
            if (moves == 1) {
                if (to == target) return 1;
                continue;
            }
            if (position.occupied().has(to)) continue;
            PositionParts parts = position.parts();
            parts.pieces[static_cast<std::size_t>(to)] = parts.pieces[static_cast<std::size_t>(from)];
            parts.pieces[static_cast<std::size_t>(from)] = {};
            const int rest = moves_to(Position{parts}, to, target, moves - 1);
            if (rest == moves - 1) return moves;
        }
    return 0;
}

} // namespace

BOOST_AUTO_TEST_SUITE(square_themes)

BOOST_AUTO_TEST_CASE(holes_that_can_be_used) {
    // Black's pawns on e5 and c7-less d6 leave d5: a knight on c3 and the pawn on e4 aim at it.
    const auto found = themes_of("4k3/pp3ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1", Theme::hole, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].squares.bits() == Squares{d5}.bits());
    BOOST_TEST(found[0].number(Measure::squares) == 1);
    BOOST_REQUIRE(found[0].pieces.size() == 1U);
    BOOST_TEST((found[0].pieces[0] == Placed{c3, {Side::white, Kind::knight}}));
    BOOST_TEST(found[0].line.empty());
    // A pawn on c7 can still guard d5 one day.
    BOOST_TEST(themes_of("4k3/ppp2ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1", Theme::hole, Side::white).empty());
    // Nothing but the knight aims at d5: it could not settle there.
    BOOST_TEST(themes_of("4k3/pp3ppp/3p4/4p3/8/2N5/PP3PPP/4K3 w - - 0 1", Theme::hole, Side::white).empty());
    // It stands there already, and the pawn guards it; it leads the pieces.
    const auto settled = themes_of("4k3/pp3ppp/3p4/3Np3/4P3/5B2/PP3PPP/4K3 w - - 0 1", Theme::hole, Side::white);
    BOOST_TEST(squares_of(settled).bits() == Squares{d5}.bits());
    BOOST_REQUIRE(settled[0].pieces.size() == 1U); // the bishop is shut off by e4, and d5 is taken
    BOOST_TEST((settled[0].pieces[0] == Placed{d5, {Side::white, Kind::knight}}));
    // Rooks and queens are no settlers.
    BOOST_TEST(themes_of("4k3/pp3ppp/3p4/4p3/4P3/8/PP1R1PPP/3RK3 w - - 0 1", Theme::hole, Side::white).empty());
    // Without pawns there is no camp with holes.
    BOOST_TEST(themes_of("4k3/8/8/8/4P3/2N5/8/4K3 w - - 0 1", Theme::hole, Side::white).empty());
    // The second rank is nobody's hole, though no pawn can guard it.
    BOOST_TEST(themes_of("6k1/pp1N1ppp/8/8/8/8/PP3PPP/3R2K1 w - - 0 1", Theme::hole, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(outposts_held_and_in_sight) {
    const std::string_view held = "4k3/pp3ppp/3p4/3N4/4P3/8/5PPP/4K3 w - - 0 1";
    const auto found = themes_of(held, Theme::outpost, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST((found[0].detail == Detail::held_by_piece));
    BOOST_TEST(found[0].squares.bits() == Squares{d5}.bits());
    BOOST_TEST((found[0].pieces[0] == Placed{d5, {Side::white, Kind::knight}}));
    // From c3 it is one move, from d2 three (b1 or f1, then c3 or e3); a pawn on e6 would shut it out.
    const auto near = themes_of("4k3/pp3ppp/3p4/8/4P3/2N5/5PPP/4K3 w - - 0 1", Theme::outpost, Side::white);
    BOOST_REQUIRE(near.size() == 1U);
    BOOST_TEST((near[0].detail == Detail::within_reach));
    BOOST_TEST(near[0].number(Measure::moves_to_go) == 1);
    BOOST_TEST((near[0].squares & Squares{d5}).bits() == Squares{d5}.bits());
    const auto farther = themes_of("4k3/pp5p/3p2p1/8/4P3/8/3N1PPP/4K3 w - - 0 1", Theme::outpost, Side::white);
    BOOST_REQUIRE(farther.size() == 1U);
    BOOST_TEST(farther[0].number(Measure::moves_to_go) == 3);
    BOOST_TEST(farther[0].squares.bits() == Squares{d5}.bits());
    BOOST_TEST(themes_of("4k3/pp3ppp/3pp3/8/4P3/2N5/5PPP/4K3 w - - 0 1", Theme::outpost, Side::white).empty());
    // A pinned knight goes nowhere, nor does any in check.
    BOOST_TEST(themes_of("4k3/pp3ppp/3p4/8/1b2P3/2N5/3K1PPP/8 w - - 0 1", Theme::outpost, Side::white).empty());
    BOOST_TEST(themes_of("4k3/pp3ppp/3p4/8/4P3/2N5/5PPP/r3K3 w - - 0 1", Theme::outpost, Side::white).empty());
    // A square that an own man occupies is not free; a man of the other side is taken there.
    BOOST_TEST(themes_of("4k3/pp3ppp/3p4/3P4/4P3/2N5/5PPP/4K3 w - - 0 1", Theme::outpost, Side::white).empty());
    BOOST_TEST(!themes_of("4k3/pp3ppp/3p4/3q4/4P3/2N5/5PPP/4K3 w - - 0 1", Theme::outpost, Side::white).empty());
    // A bishop reaches only its own colour: a dark one never d5.
    BOOST_TEST(themes_of("4k3/pp3p1p/3p2p1/8/4P3/2B5/6PP/4K3 w - - 0 1", Theme::outpost, Side::white).empty());
}

BOOST_AUTO_TEST_CASE(only_the_nearest_outposts) {
    // Both knights are one move from d5; a third one farther away is not named.
    const auto found = themes_of("4k3/pp3ppp/3p4/8/4P3/2N1N3/5PPP/N3K3 w - - 0 1", Theme::outpost, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_REQUIRE(found[0].pieces.size() == 2U);
    BOOST_TEST((found[0].pieces[0].square == c3));
    BOOST_TEST((found[0].pieces[1].square == e3));
}

BOOST_AUTO_TEST_CASE(more_room_behind_the_pawns) {
    BOOST_TEST(themes_of(start_position()).empty());
    BOOST_TEST(space_of(start_position(), Side::white).bits() == (Squares{c1, d1, e1, f1}).bits());
    const std::string_view advanced = "rnbqkbnr/ppp2ppp/3pp3/8/2PPP3/8/PP3PPP/RNBQKBNR b KQkq - 0 3";
    const auto found = themes_of(advanced, Theme::space, Side::white);
    BOOST_REQUIRE(found.size() == 1U);
    BOOST_TEST(found[0].squares.bits() == (Squares{c1, d1, e1, f1, c2, d2, e2, c3, d3, e3, f3}).bits());
    BOOST_TEST(found[0].number(Measure::squares) == 11);
    // c8 to f8, d7 and e7; c6 and f6 lie beside the foremost pawns, not behind them.
    BOOST_TEST(found[0].number(Measure::squares_of_other) == 6);
    BOOST_TEST(found[0].pieces.empty());
    BOOST_TEST(themes_of(advanced, Theme::space, Side::black).empty());
    // The same pawns without pieces: an endgame.
    BOOST_TEST(themes_of("4k3/ppp2ppp/3pp3/8/2PPP3/8/PP3PPP/4K3 w - - 0 1", Theme::space, Side::white).empty());
    // A square that an enemy pawn attacks is no room.
    const Position attacked = read_fen("4k3/8/8/3P4/2p5/8/8/4K3 w - - 0 1").value();
    BOOST_TEST(space_of(attacked, Side::white).bits() == (Squares{c1, d1, e1, c2, d2, e2, c3, e3, d4, e4}).bits());
}

BOOST_AUTO_TEST_CASE(agree_with_their_slow_twins) {
    int holes = 0;
    int routes_found = 0;
    for (const Position& position : test::random_positions(400, 72)) {
        const AttackMap map = attack_map(position);
        for (const Side side : all_sides) BOOST_TEST_CONTEXT(fen(position) << ' ' << name(side)) {
                BOOST_TEST(usable_holes_of(position, side, map).bits() == usable_twin(position, side).bits());
                BOOST_TEST(space_of(position, side).bits() == space_twin(position, side).bits());
                holes += usable_twin(position, side).count();
                const Outposts posts = outposts(position, side);
                OutpostRoutes slow;
                const Squares minors = position.men(side) & (position.men(Kind::knight) | position.men(Kind::bishop));
                for (const Square from : minors & ~posts.taken & ~pinned_men(position, side))
                    for (const Square target : posts.squares & ~position.men(side)) {
                        const int moves = moves_to(position, from, target, longest_route);
                        if (moves == 0 || (slow.moves != 0 && slow.moves < moves)) continue;
                        if (slow.moves != moves) slow = {moves, {}, {}};
                        slow.squares |= Squares{target};
                        slow.pieces |= Squares{from};
                    }
                const OutpostRoutes fast = nearest_outposts(position, side);
                BOOST_TEST(fast.moves == slow.moves);
                BOOST_TEST(fast.squares.bits() == slow.squares.bits());
                BOOST_TEST(fast.pieces.bits() == slow.pieces.bits());
                routes_found += slow.moves > 1;
            }
    }
    BOOST_TEST(holes > 100);
    BOOST_TEST(routes_found > 20);
}

BOOST_AUTO_TEST_CASE(are_the_same_in_both_mirrors) {
    std::size_t count = 0;
    for (const Position& position : test::random_positions(1500, 73)) BOOST_TEST_CONTEXT(fen(position)) {
            const Findings found = themes_of(position);
            count += found.size();
            BOOST_TEST((test::essence(found, test::left_right, false) ==
                        test::essence(themes_of(test::mirrored(position)), test::unmoved, false)));
            BOOST_TEST((test::essence(found, test::up_down, true) ==
                        test::essence(themes_of(test::flipped(position)), test::unmoved, false)));
        }
    BOOST_TEST(count > 1000U);
}

BOOST_AUTO_TEST_SUITE_END()
