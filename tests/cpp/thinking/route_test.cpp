// Routes: what counts as one, by examples, and a slow twin that tries every string of moves.
#include <boost/test/unit_test.hpp>

#include <set>
#include <string>

#include <keysquare/features/judged_moves.hpp>
#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/thinking/route.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

Routes route_in(std::string_view fen, Square from, Squares targets) {
    return route(read_fen(fen).value(), from, targets).value();
}
Routes route_in(std::string_view fen, Square from, Square target) { return route_in(fen, from, Squares{target}); }

/// "f3-d5 g3-e4-d5".
std::string stops(const Routes& routes) {
    std::string text;
    for (const Route& route : routes.routes) {
        if (!text.empty()) text += ' ';
        for (const Move move : route) text += (move == route.front() ? "" : "-") + std::string{name(move.target())};
    }
    return text;
}

/// A move that loses nothing, asked in another way than `stop_safety` does.
bool is_harmless(const Position& position, Move move) {
    const Outcome taken = exchange(after(position, move), move.target());
    if (taken.gain > immediate_gain(position, move, {})) return false;
    const Options options;
    const JudgedMoves judged{position, options};
    for (std::size_t at = 0; at < judged.moves().size(); ++at)
        if (judged.moves()[at] == move)
            return judged.baseline() <= -detail::mate_line || value_of_move(position, move).mate ||
                   (!value_of_move(position, move).mated && value_of_move(position, move).gain >= judged.baseline());
    return false;
}

/// Every string of exactly `moves` moves of the man on `at` that ends on a target and has come to none before.
void every_route(const Position& position, Square at, Squares targets, int moves, Route& way,
                 std::vector<Route>& found) {
    for (const Move move : legal_moves(position)) {
        if (move.origin() != at || move.castles()) continue;
        if (move.promotes() && move.promotion() != Kind::queen) continue;
        const bool ends = targets.has(move.target());
        if (ends != (moves == 1) || (!ends && (move.promotes() || captured_by(position, move) != Kind::none))) continue;
        if (!is_harmless(position, move)) continue;
        way.push_back(move);
        if (ends)
            found.push_back(way);
        else if (const auto onward = passed(after(position, move)))
            every_route(*onward, move.target(), targets, moves - 1, way, found);
        way.pop_back();
    }
}

} // namespace

BOOST_AUTO_TEST_SUITE(routes)

BOOST_AUTO_TEST_CASE(a_knight_goes_round_what_is_attacked) {
    // From f1 the knight comes to d5 by e3; g3 and d2 are farther away.
    const Routes direct = route_in("6k1/8/8/8/8/8/6PP/5NK1 w - - 0 1", Square::f1, Square::d5);
    BOOST_TEST(direct.moves == 2);
    BOOST_TEST(direct.ways == 1);
    BOOST_TEST(stops(direct) == "e3-d5");
    // A pawn on f4 attacks e3 and g3: it must go by d2 and b1 or e4, which a pawn on f5 attacks as well.
    const Routes round = route_in("6k1/8/8/5p2/5p2/8/6PP/5NK1 w - - 0 1", Square::f1, Square::d5);
    BOOST_TEST(round.moves == 4);
    for (const Route& one : round.routes) BOOST_TEST((one.front().target() == Square::d2));
    // A black pawn on c6 attacks the goal itself.
    BOOST_TEST(route_in("6k1/8/2p5/8/8/8/6PP/5NK1 w - - 0 1", Square::f1, Square::d5).routes.empty());
}

BOOST_AUTO_TEST_CASE(to_the_nearest_of_several_squares) {
    const Routes found = route_in("6k1/8/8/8/8/8/6PP/5NK1 w - - 0 1", Square::f1, {Square::d5, Square::g3, Square::e3});
    BOOST_TEST(found.moves == 1);
    BOOST_TEST(stops(found) == "e3 g3");
    BOOST_TEST(route_in("6k1/8/8/8/8/8/6PP/5NK1 w - - 0 1", Square::f1, Squares{}).routes.empty());
}

BOOST_AUTO_TEST_CASE(a_piece_that_is_there_needs_no_route) {
    const Routes found = route_in("6k1/8/8/8/8/8/6PP/5NK1 w - - 0 1", Square::f1, {Square::f1, Square::e3});
    BOOST_TEST(found.there);
    BOOST_TEST(found.routes.empty());
    BOOST_TEST(sentence(found) == "The knight on f1 stands there already.");
}

BOOST_AUTO_TEST_CASE(a_capture_ends_a_route) {
    // The rook may take on e5 when that is where it is to go; it does not go through.
    const std::string fen = "6k1/8/8/4n3/8/8/6PP/4R1K1 w - - 0 1";
    BOOST_TEST(stops(route_in(fen, Square::e1, Square::e5)) == "e5");
    BOOST_TEST(route_in(fen, Square::e1, Square::e8).ways != 1); // round about, or with a check at the end
    for (const Route& one : route_in(fen, Square::e1, Square::e8).routes)
        for (const Move move : one) BOOST_TEST((move.target() != Square::e5));
    // A guarded knight is worth less than the rook.
    BOOST_TEST(route_in("6k1/8/3p4/4n3/8/8/6PP/4R1K1 w - - 0 1", Square::e1, Square::e5).routes.empty());
}

BOOST_AUTO_TEST_CASE(only_the_last_move_gives_check) {
    // e1-e8 checks, and that may be the end of a route; to a8 it must go another way.
    const std::string fen = "6k1/5ppp/8/8/8/8/5PPP/4R1K1 w - - 0 1";
    BOOST_TEST(stops(route_in(fen, Square::e1, Square::e8)) == "e8");
    const Routes found = route_in(fen, Square::e1, Square::a8);
    BOOST_TEST(found.moves == 2);
    BOOST_TEST(stops(found) == "a1-a8");
}

BOOST_AUTO_TEST_CASE(a_piece_that_is_needed_where_it_is_does_not_go) {
    // The rook on d1 alone guards the knight on d4 against the queen.
    const Routes found = route_in("3q2k1/5pp1/7p/8/3N4/8/5PPP/3R2K1 w - - 0 1", Square::d1, Square::a1);
    BOOST_TEST(found.routes.empty());
    BOOST_TEST(sentence(found) == "The rook on d1 has no safe way to a1 in 6 moves, even if Black only passes.");
    BOOST_TEST(stops(route_in("6k1/5pp1/7p/8/3N4/8/5PPP/3R2K1 w - - 0 1", Square::d1, Square::a1)) == "a1");
}

BOOST_AUTO_TEST_CASE(a_pinned_piece_goes_along_the_pin) {
    const std::string fen = "k3r3/8/8/8/8/8/4R3/4K3 w - - 0 1";
    BOOST_TEST(route_in(fen, Square::e2, Square::a2).ways == 0);
    BOOST_TEST(stops(route_in(fen, Square::e2, Square::e8)) == "e8");
}

BOOST_AUTO_TEST_CASE(both_sides_have_routes) {
    const Routes found = route_in("6kn/8/8/8/8/8/6PP/6K1 w - - 0 1", Square::h8, Square::e5);
    BOOST_TEST(found.after_pass);
    BOOST_TEST(stops(found) == "g6-e5 f7-e5");
    // The mover stands in check and can't pass.
    const Routes none = route_in("6kn/8/8/8/8/8/8/r5K1 w - - 0 1", Square::h8, Square::e5);
    BOOST_TEST(!none.exists);
    BOOST_TEST(none.routes.empty());
    BOOST_TEST(sentence(none) == "White stands in check and can't pass, so the knight on h8 has no turn.");
}

BOOST_AUTO_TEST_CASE(pawns_promote_to_queens_and_take_en_passant_at_once) {
    const Routes promoting = route_in("k7/8/4P3/8/8/8/8/K7 w - - 0 1", Square::e6, Square::e8);
    BOOST_TEST(stops(promoting) == "e7-e8");
    for (const Route& way : promoting.routes)
        for (const Move move : way) BOOST_TEST((move.target() != Square::e8 || move.promotion() == Kind::queen));
    const std::string fen = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1";
    BOOST_TEST(stops(route_in(fen, Square::e5, Square::d6)) == "d6");
    BOOST_TEST(route_in("4k3/8/8/3pP3/8/8/8/4K3 b - - 0 1", Square::e5, Square::d6).ways == 0);
    // The double step could be taken en passant; two single steps could not, but e3 would be attacked by the same pawn.
    const Routes slow = route_in("4k3/8/8/8/3p4/8/4P3/4K3 w - - 0 1", Square::e2, Square::e4);
    BOOST_TEST(slow.moves == 0);
}

BOOST_AUTO_TEST_CASE(castling_is_no_part_of_a_route) {
    const Routes found = route_in("4k3/8/8/8/8/8/5PPP/4K2R w K - 0 1", Square::e1, Square::g1);
    BOOST_TEST(stops(found) == "f1-g1");
    // Nor in Chess960, where it looks as if the king went to the square of its rook.
    BOOST_TEST(route_in("4k3/8/8/8/8/8/5PPP/5KR1 w G - 0 1", Square::f1, Square::g1).ways == 0);
}

BOOST_AUTO_TEST_CASE(more_routes_than_are_listed_are_counted) {
    const std::string fen = "8/8/8/7k/8/8/8/K7 w - - 0 1";
    BOOST_TEST(route_in(fen, Square::a1, Square::a8).moves == 0); // seven moves
    const Routes king = route_in(fen, Square::a1, Square::a7);
    BOOST_TEST(king.moves == 6);
    BOOST_TEST(king.ways > static_cast<int>(most_routes));
    BOOST_TEST(king.routes.size() == most_routes);
    BOOST_TEST(sentence(king).find(std::to_string(king.ways - static_cast<int>(most_routes)) + " more") !=
               std::string::npos);
}

BOOST_AUTO_TEST_CASE(an_empty_square_is_an_error) {
    const Position position = start_position();
    for (const Square empty : {Square::e4, Square::none}) {
        const auto refused = route(position, empty, Square::e5);
        BOOST_REQUIRE(!refused);
        BOOST_CHECK(refused.error().reason == Reason::no_such_piece);
    }
}

BOOST_AUTO_TEST_CASE(the_same_as_trying_every_string_of_moves) {
    std::size_t found_some = 0;
    std::mt19937 random{23};
    for (const Position& position : test::random_positions(600, 22)) {
        const Squares men = position.occupied();
        Square from = square_at(static_cast<int>(random() % 64));
        while (!men.has(from)) from = square_at((index(from) + 1) % 64);
        const Square target = square_at(static_cast<int>(random() % 64));
        const Routes found = route(position, from, target).value();
        const auto start = turn_of(position, found.piece.piece.side);
        BOOST_TEST(found.exists == start.has_value());
        if (!start || found.there) continue;
        const int most = found.moves == 0 ? 2 : (std::min)(found.moves, 3);
        for (int moves = 1; moves <= most; ++moves) {
            std::vector<Route> expected;
            Route way;
            every_route(*start, from, Squares{target}, moves, way, expected);
            if (moves != found.moves) {
                BOOST_REQUIRE_MESSAGE(expected.empty(), fen(position) << ' ' << name(from) << ' ' << name(target));
                continue;
            }
            ++found_some;
            BOOST_REQUIRE_MESSAGE(static_cast<int>(expected.size()) == found.ways,
                                  fen(position) << ' ' << name(from) << ' ' << name(target));
            for (const Route& one : found.routes) BOOST_TEST((std::ranges::find(expected, one) != expected.end()));
        }
    }
    BOOST_TEST(found_some > 30U);
}

BOOST_AUTO_TEST_CASE(the_same_in_a_mirror) {
    for (const Position& position : test::random_positions(40, 24)) {
        const Position mirror = test::flipped(position);
        for (const Square from : position.men(Kind::knight) | position.men(Kind::bishop)) {
            const Squares targets{Square::c5, Square::f4, Square::d7};
            const Routes one = route(position, from, targets).value();
            const Routes other_one = route(mirror, test::up_down(from), test::mapped(targets, test::up_down)).value();
            BOOST_TEST(one.moves == other_one.moves);
            BOOST_TEST(one.ways == other_one.ways);
            BOOST_TEST(stops(one) == stops(route(position, from, targets).value()));
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
