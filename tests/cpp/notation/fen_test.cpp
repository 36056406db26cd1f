// FEN: the standard's examples, every reason with its place, the castling fields of Chess960, and the lenient mode.
#include <keysquare/notation/fen.hpp>

#include <set>
#include <tuple>

#include <boost/test/unit_test.hpp>

#include "open_data.hpp"

using namespace keysquare;

namespace {

struct Refused {
    std::string_view fen;
    Reason reason;
    Field field;
    std::size_t column;
};

// Columns count from 1. A fault of the whole placement is shown at its first column.
constexpr Refused refused[] = {
    {"rnbqkbnr/ppppxppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_piece_letter, Field::placement, 14},
    {"rnbqkbnr/pppppppp/9/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_piece_letter, Field::placement, 19},
    {"rnbqkbnr/pppppppp/0/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_piece_letter, Field::placement, 19},
    {"rnbqkbnr/ppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_rank_length, Field::placement, 17},
    {"rnbqkbnr/ppppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_rank_length, Field::placement, 18},
    {"rnbqkbnr/pppp5/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_rank_length, Field::placement, 14},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBN w KQkq - 0 1", Reason::bad_rank_length, Field::placement, 43},
    {"rnbqkbnr/pppppppp/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::bad_rank_count, Field::placement, 42},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR/8 w KQkq - 0 1", Reason::bad_rank_count, Field::placement, 44},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR x KQkq - 0 1", Reason::bad_mover, Field::mover, 45},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR W KQkq - 0 1", Reason::bad_mover, Field::mover, 45},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQxq - 0 1", Reason::bad_castling, Field::castling, 49},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQKq - 0 1", Reason::bad_castling, Field::castling, 49},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq e9 0 1", Reason::bad_en_passant, Field::en_passant, 52},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - x 1", Reason::bad_number, Field::halfmove_clock, 54},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - -1 1", Reason::bad_number, Field::halfmove_clock, 54},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1.", Reason::bad_number, Field::move_number, 56},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 99999", Reason::bad_number, Field::move_number, 56},
    {"", Reason::missing_field, Field::placement, 1},
    {"   ", Reason::missing_field, Field::placement, 4},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR", Reason::missing_field, Field::mover, 44},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w", Reason::missing_field, Field::castling, 46},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq", Reason::missing_field, Field::en_passant, 51},
    {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1 2", Reason::trailing_text, Field::none, 58},
    {"8/8/8/8/8/8/8/4K3 w - - 0 1", Reason::no_king, Field::placement, 1},
    {"4k3/8/8/8/8/8/8/8 w - - 0 1", Reason::no_king, Field::placement, 1},
    {"4k3/8/8/8/8/8/8/K3K3 w - - 0 1", Reason::several_kings, Field::placement, 1},
    {"rnbqkbnr/pppppppp/8/8/8/p7/PPPPPPPP/RNBQKBNR w KQkq - 0 1", Reason::too_many_men, Field::placement, 1},
    {"4k3/8/8/8/8/8/4R3/4K3 w - - 0 1", Reason::waiter_in_check, Field::placement, 2},
    {"4k3/pppppppp/p7/8/8/8/8/4K3 w - - 0 1", Reason::too_many_pawns, Field::placement, 1},
    {"4k3/pppppppp/8/8/8/8/8/2QQK3 w - - 0 1", Reason::none, Field::none, 1},
    {"4k3/pppppppp/qq6/8/8/8/8/4K3 w - - 0 1", Reason::too_many_promoted, Field::placement, 1},
    {"4k3/pppppppp/b1b5/8/8/8/8/4K3 w - - 0 1", Reason::too_many_promoted, Field::placement, 1},
    {"4k3/8/8/8/8/8/8/P3K3 w - - 0 1", Reason::pawn_on_last_rank, Field::placement, 17},
    {"p3k3/8/8/8/8/8/8/4K3 w - - 0 1", Reason::pawn_on_last_rank, Field::placement, 1},
    {"4k3/8/8/1b2r3/8/3n4/8/4K3 w - - 0 1", Reason::none, Field::none, 1},
    {"4k3/8/8/b3r3/8/3n4/8/4K3 w - - 0 1", Reason::too_many_checks, Field::placement, 23},
    {"4k3/8/8/8/8/8/8/4K3 w K - 0 1", Reason::impossible_castling, Field::castling, 23},
    {"4k3/8/8/8/8/8/8/4K1R1 b Kq - 0 1", Reason::impossible_castling, Field::castling, 26},
    {"4k3/8/8/8/8/8/4K3/7R w H - 0 1", Reason::impossible_castling, Field::castling, 24},
    {"4k3/8/8/8/8/8/8/4K3 w - e6 0 1", Reason::impossible_en_passant, Field::en_passant, 25},
    {"4k3/8/8/4p3/8/8/8/4K3 w - e3 0 1", Reason::impossible_en_passant, Field::en_passant, 27},
    {"4k3/4n3/8/4p3/8/8/8/4K3 w - e6 0 1", Reason::impossible_en_passant, Field::en_passant, 29},
};

void check_round_trip(std::string_view text) {
    BOOST_TEST_CONTEXT(text) {
        const Result<Position> position = read_fen(text);
        BOOST_REQUIRE(position);
        BOOST_TEST(fen(*position) == text);
    }
}

} // namespace

BOOST_AUTO_TEST_SUITE(fen_text)

// Section 16.1.4 of the 1994 standard (from memory).
BOOST_AUTO_TEST_CASE(examples_of_the_standard) {
    check_round_trip("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1");
    check_round_trip("rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1");
    check_round_trip("rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2");
    check_round_trip("rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2");
    check_round_trip("4k3/8/8/8/8/8/4P3/4K3 w - - 5 39");
}

BOOST_AUTO_TEST_CASE(fields_go_where_they_belong) {
    const Position position = read_fen("r3k3/8/8/2pP4/8/8/8/4K2R w Kq c6 7 31").value();
    BOOST_CHECK(position.piece_at(Square::a8) == (Piece{Side::black, Kind::rook}));
    BOOST_CHECK(position.piece_at(Square::h1) == (Piece{Side::white, Kind::rook}));
    BOOST_CHECK(position.mover() == Side::white);
    BOOST_CHECK(position.castling_rook(Side::white, Wing::short_) == Square::h1);
    BOOST_CHECK(position.castling_rook(Side::white, Wing::long_) == Square::none);
    BOOST_CHECK(position.castling_rook(Side::black, Wing::long_) == Square::a8);
    BOOST_CHECK(position.en_passant() == Square::c6);
    BOOST_TEST(position.halfmove_clock() == 7);
    BOOST_TEST(position.move_number() == 31);
}

BOOST_AUTO_TEST_CASE(every_reason_names_its_place) {
    std::set<Reason> seen;
    for (const auto& [text, reason, field, column] : refused) BOOST_TEST_CONTEXT(text) {
            const Result<Position> position = read_fen(text);
            BOOST_TEST(bool(position) == (reason == Reason::none));
            if (position) continue;
            BOOST_TEST(name(position.error().reason) == name(reason));
            BOOST_TEST(name(position.error().field) == name(field));
            BOOST_TEST(position.error().column == column);
            BOOST_TEST(std::string_view{position.error().what()}.find(describe(reason)) == 0U);
            seen.insert(reason);
        }
    for (int at = static_cast<int>(Reason::bad_piece_letter); at <= static_cast<int>(Reason::impossible_en_passant);
         ++at)
        BOOST_TEST(seen.count(static_cast<Reason>(at)) == 1U, name(static_cast<Reason>(at)) << " is not tested");
}

BOOST_AUTO_TEST_CASE(an_error_is_thrown_on_demand) {
    BOOST_CHECK_EXCEPTION(std::ignore = read_fen("8/8/8/8/8/8/8/8 w - -").value(), InputError,
                          [](const InputError& error) { return error.reason == Reason::no_king; });
}

BOOST_AUTO_TEST_CASE(spaces_and_missing_clocks) {
    const Position usual = start_position();
    BOOST_CHECK(read_fen("  rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR  w KQkq - 0 1 \r\n").value() == usual);
    BOOST_CHECK(read_fen("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq -").value() == usual);
    BOOST_TEST(read_fen("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 3").value().halfmove_clock() == 3);
    BOOST_TEST(read_fen("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 0").value().move_number() == 1);
}

BOOST_AUTO_TEST_CASE(castling_by_rook_file) {
    BOOST_CHECK(read_fen("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w HAha - 0 1").value() == start_position());
    // The inner rook has the right, so its file must be named; the outermost one is KQkq (X-FEN).
    const std::string_view inner = "1rrbbknn/pppppppp/8/8/8/8/PPPPPPPP/1RRBBKNN w Cc - 0 1";
    const Position position = read_fen(inner).value();
    BOOST_CHECK(position.castling_rook(Side::white, Wing::long_) == Square::c1);
    BOOST_CHECK(position.castling_rook(Side::black, Wing::long_) == Square::c8);
    BOOST_TEST(fen(position) == inner);
    const Position outer = read_fen("1rrbbknn/pppppppp/8/8/8/8/PPPPPPPP/1RRBBKNN w Bb - 0 1").value();
    BOOST_CHECK(outer.castling_rook(Side::white, Wing::long_) == Square::b1);
    BOOST_TEST(fen(outer) == "1rrbbknn/pppppppp/8/8/8/8/PPPPPPPP/1RRBBKNN w Qq - 0 1");
    BOOST_CHECK(read_fen(fen(outer)).value() == outer);
}

BOOST_AUTO_TEST_CASE(lenient_drops_what_cannot_be) {
    const auto lenient = [](std::string_view text) { return read_fen(text, Strictness::lenient); };
    BOOST_TEST(fen(lenient("4k3/8/8/8/8/8/8/4K3 w KQkq - 0 1").value()) == "4k3/8/8/8/8/8/8/4K3 w - - 0 1");
    BOOST_TEST(fen(lenient("4k3/8/8/8/8/8/8/4K2R w KQ - 0 1").value()) == "4k3/8/8/8/8/8/8/4K2R w K - 0 1");
    BOOST_TEST(fen(lenient("4k3/8/8/8/8/8/8/4K3 w - e6 0 1").value()) == "4k3/8/8/8/8/8/8/4K3 w - - 0 1");
    BOOST_TEST(fen(lenient("4k3/8/8/8/8/8/8/4K3 w - e3 0 1").value()) == "4k3/8/8/8/8/8/8/4K3 w - - 0 1");
    BOOST_CHECK(lenient("4k3/pppppppp/p7/8/8/8/8/4K3 w - - 0 1"));
    BOOST_CHECK(lenient("4k3/8/8/8/8/8/8/P3K3 w - - 0 1"));
    BOOST_CHECK(lenient("4k3/8/8/b3r3/8/3n4/8/4K3 w - - 0 1"));
    // Nothing can be computed on these.
    BOOST_CHECK(lenient("8/8/8/8/8/8/8/4K3 w - - 0 1").error().reason == Reason::no_king);
    BOOST_CHECK(lenient("4k3/8/8/8/8/8/8/K3K3 w - - 0 1").error().reason == Reason::several_kings);
    BOOST_CHECK(lenient("4k3/8/8/8/8/8/4R3/4K3 w - - 0 1").error().reason == Reason::waiter_in_check);
    BOOST_CHECK(lenient("rnbqkbnr/pppppppp/8/8/8/p7/PPPPPPPP/RNBQKBNR w KQkq - 0 1").error().reason ==
                Reason::too_many_men);
}

// The file's remarks say which lines are fit for use ("should be OK", "overridable"); the rest is to be refused.
BOOST_AUTO_TEST_CASE(malformed_fens) {
    const auto lines = test::open_data_lines("epd/malformed-fens.epd");
    if (!lines) return;
    const auto says = [](const std::string& line, std::string_view remark) {
        return line.find(remark) != std::string::npos;
    };
    const auto is_fit = [&](const std::string& line) {
        return says(line, "should be OK") || says(line, "overridable");
    };
    const auto is_unfit = [&](const std::string& line) {
        return (says(line, "cull") && !says(line, "OK")) || says(line, "bad EPD");
    };
    int strict = 0;
    int lenient = 0;
    for (const std::string& line : *lines) BOOST_TEST_CONTEXT(line) {
            const std::string text = line.substr(0, (std::min)(line.find(';'), line.find(" bm ")));
            const Result<Position> position = read_fen(text, Strictness::lenient);
            strict += bool(read_fen(text));
            lenient += bool(position);
            if (position) {
                BOOST_CHECK(read_fen(fen(*position), Strictness::lenient).value() == *position);
                BOOST_CHECK(!is_unfit(line));
            } else {
                BOOST_CHECK(position.error().reason != Reason::none);
                BOOST_TEST(position.error().column <= text.size() + 1);
                BOOST_CHECK(!is_fit(line));
            }
        }
    BOOST_TEST(strict == 13);
    BOOST_TEST(lenient == 15);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(input_errors)

BOOST_AUTO_TEST_CASE(every_reason_has_a_text_and_a_name_of_its_own) {
    std::set<std::string_view> texts;
    std::set<std::string_view> names;
    for (int at = 0; at < static_cast<int>(Reason::end_); ++at) {
        texts.insert(describe(static_cast<Reason>(at)));
        names.insert(name(static_cast<Reason>(at)));
    }
    BOOST_TEST(texts.size() == static_cast<std::size_t>(Reason::end_));
    BOOST_TEST(names.size() == static_cast<std::size_t>(Reason::end_));
    BOOST_TEST(name(Reason::too_long) == "too_long");
    BOOST_TEST(name(Reason::pass_in_check) == "pass_in_check");
    BOOST_TEST(name(Reason::cannot_open) == "cannot_open");
}

BOOST_AUTO_TEST_CASE(the_message_says_where) {
    const InputError error{Reason::illegal_move, Field::move, 12, "Ke3", 7};
    BOOST_TEST(error.what() == "the move is not legal here (field move, line 7, column 12, at \"Ke3\")");
    BOOST_TEST(InputError(Reason::bad_tag, Field::tag, 1, std::string(100, 'x')).token.size() == 40U);
}

BOOST_AUTO_TEST_SUITE_END()
