// Coordinate notation both ways, both forms of castling, and the reader of either notation.
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>

#include <boost/test/unit_test.hpp>

using namespace keysquare;
using enum Square;

namespace {

constexpr std::string_view castling = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1";
constexpr std::string_view promotion = "3r3k/2P5/8/8/8/8/8/K7 w - - 0 1";
constexpr std::string_view pinned = "4r2k/8/8/8/8/4N3/8/N3K3 w - - 0 1";
constexpr Move short_castling{e1, h1, MoveType::castle_short};
constexpr Move long_castling{e1, a1, MoveType::castle_long};

struct Refused {
    std::string_view fen;
    std::string_view text;
    Reason reason;
    std::size_t column;
};

constexpr Refused refused[] = {
    {start_fen, "", Reason::not_a_move, 1},
    {start_fen, "e2", Reason::not_a_move, 3},
    {start_fen, "e2e9", Reason::not_a_move, 4},
    {start_fen, "i2e4", Reason::not_a_move, 1},
    {start_fen, "e2-e4", Reason::not_a_move, 3},
    {start_fen, "e2e4k", Reason::not_a_move, 5},
    {promotion, "c7c8qq", Reason::not_a_move, 6},
    {start_fen, "e4e5", Reason::no_such_piece, 1},
    {start_fen, "e7e5", Reason::no_such_piece, 1},
    {start_fen, "e2e5", Reason::illegal_move, 3},
    {start_fen, "e2d3", Reason::illegal_move, 3},
    {start_fen, "g1e2", Reason::illegal_move, 3},
    {start_fen, "e1g1", Reason::illegal_move, 1}, // castling, which is not possible yet
    {"4k3/8/8/8/8/5r2/8/4K2R w K - 0 1", "e1g1", Reason::illegal_move, 1},
    {start_fen, "e2e4q", Reason::illegal_move, 5},
    {pinned, "e3d5", Reason::king_left_in_check, 1},
    {promotion, "c7c8", Reason::missing_promotion, 5},
};

} // namespace

BOOST_AUTO_TEST_SUITE(coordinate_text)

BOOST_AUTO_TEST_CASE(written) {
    BOOST_TEST(coordinate({e2, e4, MoveType::double_step}) == "e2e4");
    BOOST_TEST(coordinate({e7, e8, MoveType::promote_queen}) == "e7e8q");
    BOOST_TEST(coordinate({e7, d8, MoveType::promote_knight}) == "e7d8n");
    BOOST_TEST(coordinate(short_castling) == "e1g1");
    BOOST_TEST(coordinate(long_castling) == "e1c1");
    BOOST_TEST(coordinate({e8, h8, MoveType::castle_short}) == "e8g8");
    BOOST_TEST(coordinate({e1, g1, MoveType::castle_short}) == "e1g1"); // the rook's square
    BOOST_TEST(coordinate({e1, f1, MoveType::castle_short}) == "e1f1");
    BOOST_TEST(coordinate({b1, a1, MoveType::castle_long}) == "b1a1");
    BOOST_TEST(coordinate({f1, h1, MoveType::castle_short}) == "f1h1");
    BOOST_TEST(coordinate({}) == "--");
}

BOOST_AUTO_TEST_CASE(both_forms_of_castling) {
    const Position position = read_fen(castling).value();
    BOOST_CHECK(read_coordinate(position, "e1g1").value() == short_castling);
    BOOST_CHECK(read_coordinate(position, "e1h1").value() == short_castling);
    BOOST_CHECK(read_coordinate(position, "e1c1").value() == long_castling);
    BOOST_CHECK(read_coordinate(position, "e1a1").value() == long_castling);
    BOOST_CHECK(read_coordinate(position, "e1f1").value() == (Move{e1, f1}));
}

BOOST_AUTO_TEST_CASE(a_step_of_the_king_is_no_castling) {
    const Position position = read_fen("5k2/8/8/8/8/8/8/R4K1R w HA - 0 1").value();
    BOOST_CHECK(read_coordinate(position, "f1g1").value() == (Move{f1, g1}));
    BOOST_CHECK(read_coordinate(position, "f1h1").value() == (Move{f1, h1, MoveType::castle_short}));
    BOOST_CHECK(read_coordinate(position, "f1c1").value() == (Move{f1, a1, MoveType::castle_long}));
}

BOOST_AUTO_TEST_CASE(special_moves_get_their_type) {
    BOOST_CHECK(read_coordinate(start_position(), "e2e4").value() == (Move{e2, e4, MoveType::double_step}));
    BOOST_CHECK(read_coordinate(start_position(), "e2e3").value() == (Move{e2, e3}));
    const Position position = read_fen("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1").value();
    BOOST_CHECK(read_coordinate(position, "e5d6").value() == (Move{e5, d6, MoveType::en_passant}));
    const Position last = read_fen(promotion).value();
    BOOST_CHECK(read_coordinate(last, "c7d8r").value() == (Move{c7, d8, MoveType::promote_rook}));
    BOOST_CHECK(read_coordinate(last, "c7c8N").value() == (Move{c7, c8, MoveType::promote_knight}));
}

BOOST_AUTO_TEST_CASE(errors_with_their_place) {
    for (const auto& [text, move, reason, column] : refused) BOOST_TEST_CONTEXT(text << " " << move) {
            const Result<Move> result = read_coordinate(read_fen(text).value(), move);
            BOOST_REQUIRE(!result);
            BOOST_TEST(name(result.error().reason) == name(reason));
            BOOST_TEST(result.error().column == column);
            BOOST_TEST(result.error().token == move);
        }
}

/// All 4096 pairs of squares, with and without a promotion: what is read is legal, and every legal move is read once.
BOOST_AUTO_TEST_CASE(reads_the_legal_moves_and_no_others) {
    for (const std::string_view text : {start_fen, castling, promotion, pinned}) BOOST_TEST_CONTEXT(text) {
            const Position position = read_fen(text).value();
            std::size_t read = 0;
            std::size_t second_forms = 0;
            for (int from = 0; from < 64; ++from)
                for (int to = 0; to < 64; ++to)
                    for (const std::string_view suffix : {"", "q", "r", "b", "n"}) {
                        const std::string pair =
                            std::string{name(square_at(from))}.append(name(square_at(to))).append(suffix);
                        const Result<Move> move = read_coordinate(position, pair);
                        if (!move) continue;
                        BOOST_TEST(is_legal(position, *move), pair << " is not legal");
                        if (coordinate(*move) == pair)
                            ++read;
                        else
                            ++second_forms;
                    }
            BOOST_TEST(read == legal_moves(position).size());
            BOOST_TEST(second_forms == (text == castling ? 2U : 0U));
        }
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(either_notation)

BOOST_AUTO_TEST_CASE(takes_both) {
    const Position position = start_position();
    for (const std::string_view text : {"b1c3", "Nc3", "Nb1c3", "Nb1-c3", "Nc3!"})
        BOOST_TEST_CONTEXT(text) BOOST_CHECK(read_move(position, text).value() == (Move{b1, c3}));
    for (const std::string_view text : {"e2e4", "e4", "e2-e4", "e2e4!?"}) BOOST_TEST_CONTEXT(text)
    BOOST_CHECK(read_move(position, text).value() == (Move{e2, e4, MoveType::double_step}));
    const Position castles = read_fen(castling).value();
    for (const std::string_view text : {"O-O", "0-0", "e1g1", "e1h1"})
        BOOST_TEST_CONTEXT(text) BOOST_CHECK(read_move(castles, text).value() == short_castling);
    const Position last = read_fen(promotion).value();
    for (const std::string_view text : {"c7c8q", "c8=Q", "c7c8=Q", "c8Q"})
        BOOST_TEST_CONTEXT(text) BOOST_CHECK(read_move(last, text).value() == (Move{c7, c8, MoveType::promote_queen}));
}

BOOST_AUTO_TEST_CASE(the_error_is_that_of_the_notation_meant) {
    const Position position = start_position();
    // As SAN this would be "no pawn can go there"; as coordinates it is a knight's move that does not exist.
    BOOST_CHECK(read_move(position, "b1c4").error().reason == Reason::illegal_move);
    BOOST_CHECK(read_move(position, "b3c4").error().reason == Reason::no_such_piece);
    BOOST_CHECK(read_move(position, "Nc4").error().reason == Reason::no_such_piece);
    BOOST_CHECK(read_move(position, "b1").error().reason == Reason::illegal_move); // SAN: the square is taken
    BOOST_CHECK(read_move(position, "what").error().reason == Reason::not_a_move);
}

BOOST_AUTO_TEST_SUITE_END()
