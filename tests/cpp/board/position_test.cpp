// Positions as values: keys, passes, counterfactuals, mates.
#include <boost/test/unit_test.hpp>

#include <random>

#include <keysquare/board/legal.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

namespace {

using namespace keysquare;

Position played(Position position, std::initializer_list<std::string_view> moves) {
    for (const std::string_view move : moves) position = after(position, read_move(position, move).value());
    return position;
}

} // namespace

BOOST_AUTO_TEST_SUITE(positions)

BOOST_AUTO_TEST_CASE(same_position_by_another_order_has_the_same_key) {
    const Position one = played(start_position(), {"Nf3", "Nf6", "g3", "g6"});
    const Position two = played(start_position(), {"g3", "g6", "Nf3", "Nf6"});
    BOOST_TEST(one.key() == two.key());
    BOOST_TEST(one.key() != played(start_position(), {"Nf3", "Nf6", "g3"}).key());
}

// Laws of Chess 9.2.2: positions differ when a right to castle or to take en passant differs.
BOOST_AUTO_TEST_CASE(rights_are_part_of_the_key) {
    const Position before = read_fen("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1").value();
    const Position there_and_back = played(before, {"Rh2", "Rh7", "Rh1", "Rh8"});
    BOOST_TEST(before.key() != there_and_back.key());
}

BOOST_AUTO_TEST_CASE(en_passant_counts_only_where_it_is_legal) {
    const auto key = [](std::string_view fen) { return read_fen(fen).value().key(); };
    // No pawn can take on e3.
    BOOST_TEST(key("4k3/8/8/8/4P3/8/8/4K3 b - e3 0 1") == key("4k3/8/8/8/4P3/8/8/4K3 b - - 0 1"));
    // The pawn on d4 can.
    BOOST_TEST(key("4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1") != key("4k3/8/8/8/3pP3/8/8/4K3 b - - 0 1"));
    // It stands next to the right pawn, but both would leave the rank between king and rook.
    BOOST_TEST(key("8/8/8/8/k2pP2R/8/8/4K3 b - e3 0 1") == key("8/8/8/8/k2pP2R/8/8/4K3 b - - 0 1"));
}

BOOST_AUTO_TEST_CASE(keys_are_kept_up_move_by_move) {
    std::mt19937 random(7); // NOLINT: the same games every time
    for (int game = 0; game < 60; ++game) {
        Position position = start_position();
        for (int ply = 0; ply < 120; ++ply) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            position = after(position, moves[random() % moves.size()]);
            BOOST_REQUIRE(position.key() == Position{position.parts()}.key());
            BOOST_REQUIRE(position == Position{position.parts()});
        }
    }
}

BOOST_AUTO_TEST_CASE(a_pass_needs_a_king_that_is_not_in_check) {
    const auto handed_over = passed(start_position());
    BOOST_REQUIRE(handed_over.has_value());
    BOOST_TEST((handed_over->mover() == Side::black));
    BOOST_TEST(!passed(read_fen("4k3/8/8/8/8/8/4r3/4K3 w - - 0 1").value()).has_value());
}

BOOST_AUTO_TEST_CASE(a_removed_rook_takes_its_castling_right_along) {
    const Position position = read_fen("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1").value();
    BOOST_TEST(fen(without(position, Square::h1)) == "r3k2r/8/8/8/8/8/8/R3K3 w Qkq - 0 1");
}

BOOST_AUTO_TEST_CASE(a_removed_pawn_takes_its_en_passant_square_along) {
    const Position position = read_fen("4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1").value();
    BOOST_TEST(fen(without(position, Square::e4)) == "4k3/8/8/8/3p4/8/8/4K3 b - - 0 1");
}

BOOST_AUTO_TEST_CASE(mate_and_stalemate) {
    BOOST_TEST(is_mated(read_fen("rnb1kbnr/pppp1ppp/8/4p3/6Pq/5P2/PPPPP2P/RNBQKBNR w KQkq - 1 3").value()));
    BOOST_TEST(is_stalemated(read_fen("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1").value()));
    BOOST_TEST(!is_mated(start_position()));
}

BOOST_AUTO_TEST_CASE(checks_are_foreseen) {
    std::mt19937 random(11); // NOLINT: the same games every time
    int checks = 0;
    for (int game = 0; game < 60; ++game) {
        Position position = start_position();
        for (int ply = 0; ply < 150; ++ply) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            const CheckFinder finder{position};
            for (const Move move : moves) {
                const bool check = in_check(after(position, move));
                BOOST_REQUIRE(finder.gives_check(move) == check);
                checks += check ? 1 : 0;
                const bool special = move.castles() || move.promotes() || move.type() == MoveType::en_passant;
                BOOST_REQUIRE(!check || special || finder.reach(position.kind_at(move.origin())).has(move.target()));
            }
            position = after(position, moves[random() % moves.size()]);
        }
    }
    BOOST_TEST(checks > 1000);
}

BOOST_AUTO_TEST_SUITE_END()
