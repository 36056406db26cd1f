// SAN: export format by the standard's rules, every variant of import format, every error with its place.
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/san.hpp>

#include <random>

#include <boost/test/unit_test.hpp>

#include "open_data.hpp"

using namespace keysquare;

namespace {

struct Written {
    std::string_view fen;
    Move move;
    std::string_view san;
};

using enum Square;

constexpr std::string_view promotions = "3r3k/2P5/8/8/8/8/8/K7 w - - 0 1";
constexpr std::string_view three_queens = "8/8/k7/8/4Q2Q/8/K7/7Q w - - 0 1";

constexpr Written written[] = {
    {start_fen, {g1, f3}, "Nf3"},
    {start_fen, {e2, e4, MoveType::double_step}, "e4"},
    // the origin: by file, else rank, else both
    {"4k3/8/8/8/8/8/8/R2K3R w - - 0 1", {a1, c1}, "Rc1"}, // the king stands in the other one's way
    {"4k3/8/8/8/8/3K4/8/R6R w - - 0 1", {a1, d1}, "Rad1"},
    {"4k3/8/8/R7/8/3K4/8/R7 w - - 0 1", {a1, a3}, "R1a3"},
    {"4k3/8/8/8/8/5N2/3K4/1N3N2 w - - 0 1", {f1, g3}, "Ng3"},
    {"4k3/8/8/8/5N2/8/8/K4N2 w - - 0 1", {f4, h3}, "Nh3"},
    {"4k3/8/8/8/5N2/8/6K1/5N2 w - - 0 1", {f4, e2}, "Ne2"},
    {"4k3/8/8/5N2/8/8/8/K4N2 w - - 0 1", {f5, g3}, "N5g3"},
    {three_queens, {e4, e1}, "Qee1"},
    {three_queens, {h1, e1}, "Q1e1"},
    {three_queens, {h4, e1}, "Qh4e1"},
    // a rival that is pinned or that would not answer the check does not count
    {"4r2k/8/8/8/8/4N3/8/N3K3 w - - 0 1", {a1, c2}, "Nc2"},
    {"4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", {g1, e2}, "Ne2"},
    // captures
    {"4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", {e4, d5}, "exd5"},
    {"4k3/8/8/3p4/4P3/2N5/8/4K3 w - - 0 1", {c3, d5}, "Nxd5"},
    {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", {e5, d6, MoveType::en_passant}, "exd6"},
    // promotions
    {promotions, {c7, c8, MoveType::promote_knight}, "c8=N"},
    {promotions, {c7, d8, MoveType::promote_queen}, "cxd8=Q+"},
    // castling, check and mate
    {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", {e1, h1, MoveType::castle_short}, "O-O"},
    {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", {e1, a1, MoveType::castle_long}, "O-O-O"},
    {"5k2/8/8/8/8/8/8/4K2R w K - 0 1", {e1, h1, MoveType::castle_short}, "O-O+"},
    {"6k1/5ppp/8/8/8/8/8/4R1K1 w - - 0 1", {e1, e8}, "Re8#"},
    // the null move
    {start_fen, {}, "--"},
};

struct Read {
    std::string_view fen;
    std::string_view text;
    std::string_view san;
};

constexpr std::string_view castling = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1";
constexpr std::string_view capture = "4k3/8/8/3p4/4P3/2N5/8/4K3 w - - 0 1";
constexpr std::string_view en_passant = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1";

constexpr Read import_format[] = {
    {castling, "0-0", "O-O"},          {castling, "0-0-0", "O-O-O"},
    {castling, "o-o", "O-O"},          {castling, "O-O-O+!?", "O-O-O"},
    {start_fen, "Ng1f3", "Nf3"},       {start_fen, "Ng1-f3", "Nf3"},
    {start_fen, "N1f3", "Nf3"},        {start_fen, "Ngf3", "Nf3"},
    {start_fen, "Pe4", "e4"},          {start_fen, "e2e4", "e4"},
    {start_fen, "e2-e4", "e4"},        {start_fen, "Pe2-e4!!", "e4"},
    {start_fen, "Nxf3", "Nf3"},        {start_fen, "e4++", "e4"},
    {start_fen, "e4#", "e4"},          {start_fen, "e4 ?!", "e4"},
    {capture, "ed5", "exd5"},          {capture, "e:d5", "exd5"},
    {capture, "e4xd5", "exd5"},        {capture, "e4d5", "exd5"},
    {capture, "xd5", "exd5"},          {capture, "Nd5", "Nxd5"},
    {capture, "Nc3:d5??", "Nxd5"},     {en_passant, "exd6e.p.", "exd6"},
    {en_passant, "exd6 e.p.", "exd6"}, {en_passant, "exd6 e.p.+!", "exd6"},
    {en_passant, "ed6", "exd6"},       {promotions, "c8Q", "c8=Q"},
    {promotions, "c8(R)", "c8=R"},     {promotions, "c8=q", "c8=Q"},
    {promotions, "cxd8N", "cxd8=N"},   {promotions, "c7xd8=B", "cxd8=B"},
};

struct Refused {
    std::string_view fen;
    std::string_view text;
    Reason reason;
    std::size_t column;
};

constexpr Refused refused[] = {
    {start_fen, "", Reason::not_a_move, 1},
    {start_fen, "hello", Reason::not_a_move, 3},
    {start_fen, "N", Reason::not_a_move, 2},
    {start_fen, "Nf9", Reason::not_a_move, 3},
    {start_fen, "Nf", Reason::not_a_move, 3},
    {start_fen, "Nf3x", Reason::not_a_move, 5},
    {start_fen, "Nf3e.p", Reason::not_a_move, 5},
    {start_fen, "Nf3 Nf6", Reason::not_a_move, 5},
    {start_fen, "-e4", Reason::not_a_move, 1},
    {start_fen, "O-O-", Reason::not_a_move, 4},
    {start_fen, "0-O", Reason::not_a_move, 1},
    {start_fen, "e4=", Reason::not_a_move, 4},
    {start_fen, "e4=K", Reason::not_a_move, 4},
    {promotions, "c8(Q", Reason::not_a_move, 5},
    {start_fen, "nf3", Reason::not_a_move, 1},
    {start_fen, "--", Reason::not_a_move, 1},
    {start_fen, "Ke3", Reason::no_such_piece, 1},
    {start_fen, "Nbf3", Reason::no_such_piece, 1},
    {start_fen, "e5", Reason::no_such_piece, 1},
    {start_fen, "exd3", Reason::no_such_piece, 1},
    {start_fen, "exe4", Reason::no_such_piece, 1},
    {capture, "d5", Reason::no_such_piece, 1}, // a step, and the square is taken
    {start_fen, "Ke2", Reason::illegal_move, 1},
    {start_fen, "O-O", Reason::illegal_move, 1},
    {"4k3/8/8/8/8/8/8/4K2R w - - 0 1", "O-O", Reason::illegal_move, 1},
    {"4k3/8/8/8/8/8/4r3/4K2R w K - 0 1", "O-O", Reason::illegal_move, 1},
    {"4k3/8/8/8/8/5r2/8/4K2R w K - 0 1", "O-O", Reason::illegal_move, 1},
    {start_fen, "e4=Q", Reason::illegal_move, 3},
    {start_fen, "Nf3=Q", Reason::illegal_move, 4},
    {"4r2k/8/8/8/8/4N3/8/N3K3 w - - 0 1", "Nd5", Reason::king_left_in_check, 1},
    {"4r2k/8/8/8/8/4N3/8/N3K3 w - - 0 1", "Nec2", Reason::king_left_in_check, 1},
    {"3r3k/8/8/8/8/8/8/3K4 w - - 0 1", "Kd2", Reason::king_left_in_check, 1},
    // taking en passant would open the rank to the rook
    {"7k/8/8/K2pP2r/8/8/8/8 w - d6 0 1", "exd6", Reason::king_left_in_check, 1},
    {"4k3/8/8/8/8/3K4/8/R6R w - - 0 1", "Rd1", Reason::ambiguous_move, 1},
    {three_queens, "Qe1", Reason::ambiguous_move, 1},
    {"4k3/8/8/3p4/2P1P3/8/8/4K3 w - - 0 1", "xd5", Reason::ambiguous_move, 1},
    {promotions, "c8", Reason::missing_promotion, 3},
    {promotions, "cxd8+", Reason::missing_promotion, 5},
};

} // namespace

BOOST_AUTO_TEST_SUITE(san_text)

BOOST_AUTO_TEST_CASE(export_format) {
    for (const auto& [text, move, expected] : written) BOOST_TEST_CONTEXT(text << " " << expected) {
            const Position position = read_fen(text).value();
            BOOST_REQUIRE(!move || is_legal(position, move));
            BOOST_TEST(san(position, move) == expected);
            if (move) BOOST_CHECK(read_san(position, expected).value() == move);
        }
}

BOOST_AUTO_TEST_CASE(variants_of_import_format) {
    for (const auto& [text, variant, expected] : import_format) BOOST_TEST_CONTEXT(text << " " << variant) {
            const Position position = read_fen(text).value();
            const Result<Move> move = read_san(position, variant);
            BOOST_REQUIRE(move);
            BOOST_TEST(san(position, *move).substr(0, expected.size()) == expected);
        }
}

BOOST_AUTO_TEST_CASE(errors_with_their_place) {
    for (const auto& [text, move, reason, column] : refused) BOOST_TEST_CONTEXT(text << " " << move) {
            const Result<Move> result = read_san(read_fen(text).value(), move);
            BOOST_REQUIRE(!result);
            BOOST_TEST(name(result.error().reason) == name(reason));
            BOOST_TEST(name(result.error().field) == name(Field::move));
            BOOST_TEST(result.error().column == column);
            BOOST_TEST(result.error().token == move);
        }
}

BOOST_AUTO_TEST_CASE(chess960_castling) {
    // King on b1, rook on a1: the king goes to c1 and the rook to d1.
    const Position position = read_fen("rk5r/8/8/8/8/8/8/RK5R w KQkq - 0 1").value();
    const Move long_castling{b1, a1, MoveType::castle_long};
    BOOST_CHECK(read_san(position, "O-O-O").value() == long_castling);
    BOOST_TEST(san(position, long_castling) == "O-O-O");
    BOOST_CHECK(read_san(position, "Kc1").value() == (Move{b1, c1}));
    BOOST_CHECK(read_san(position, "O-O").value() == (Move{b1, h1, MoveType::castle_short}));
}

BOOST_AUTO_TEST_CASE(texts_are_added_to_what_is_there) {
    std::string text = "1. ";
    write_san(start_position(), {g1, f3}, text);
    BOOST_TEST(text == "1. Nf3");
}

/// Every legal move has a text of its own, and reading the text gives the move back.
BOOST_AUTO_TEST_CASE(texts_are_unique_and_read_back) {
    for (const char* const file : {"perft-standard.epd", "perft-chess960.epd"}) {
        const auto lines = test::open_data_lines(file);
        if (!lines) continue;
        std::size_t moves = 0;
        for (std::size_t at = 0; at < lines->size(); at += 3) {
            const std::string text = (*lines)[at].substr(0, (*lines)[at].find(';'));
            const Position position = read_fen(text, Strictness::lenient).value();
            for (const Move move : legal_moves(position)) {
                const Result<Move> read = read_san(position, san(position, move));
                if (!read || *read != move) BOOST_ERROR(text + san(position, move));
                ++moves;
            }
        }
        BOOST_TEST(moves > 4000U);
    }
}

// The short way of the reader for most moves says what the long way says, or nothing.
BOOST_AUTO_TEST_CASE(plain_moves_are_read_alike) {
    std::vector<std::string> texts;
    for (const char* const piece : {"", "N", "B", "R", "Q", "K"})
        for (const char* const from : {"", "a", "d", "h", "1", "4", "8"})
            for (const char* const takes : {"", "x"})
                for (const Square square : all_squares)
                    for (const char* const sign : {"", "+"}) {
                        texts.push_back(std::string{piece} + from + takes);
                        texts.back().append(name(square)).append(sign);
                    }
    std::mt19937 random{20261126};
    std::size_t found_both_ways = 0;
    std::size_t written = 0;
    for (int game = 0; game < 12; ++game) {
        Position position = start_position();
        for (int ply = 0; ply < 60; ++ply) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            for (auto at = static_cast<std::size_t>(ply % 7); at < texts.size(); at += 7) {
                detail::PlainSan plain;
                const char* const end = detail::read_plain(texts[at].c_str(), plain);
                if (!end || *end != '\0') continue;
                const Move found = detail::find_plain(position, plain);
                if (!found) continue;
                ++found_both_ways;
                BOOST_REQUIRE(read_san(position, texts[at]).value() == found);
            }
            for (const Move move : moves) {
                if (move.castles() || move.promotes() || move.type() == MoveType::en_passant) continue;
                const std::string text = san(position, move);
                detail::PlainSan plain;
                const char* const end = detail::read_plain(text.c_str(), plain);
                if (!end) continue; // "Qa1b2" names the whole square
                BOOST_REQUIRE(*end == '\0');
                BOOST_REQUIRE(detail::find_plain(position, plain) == move);
                ++written;
            }
            position = after(position, moves[random() % moves.size()]);
        }
    }
    BOOST_TEST(found_both_ways > 2000U);
    BOOST_TEST(written > 15'000U);
}

BOOST_AUTO_TEST_SUITE_END()
