// PgnReader: what import format may hold, every error with its place, hostile texts, and the games around a broken one.
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/utf8.hpp>

#include <set>
#include <sstream>

#include <boost/test/unit_test.hpp>

using namespace keysquare;
using namespace std::string_view_literals;

namespace {

constexpr std::string_view sound = "[Event \"sound\"]\n\n1. e4 e5 1-0\n\n";

std::string repeated(std::string_view part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
}

PgnReader reader_of(std::string_view text, PgnOptions options = {}) {
    return PgnReader{std::make_unique<TextSource>(text), options};
}

Game game_of(std::string_view text) { return read_pgn(text).value(); }

std::string coordinate_of(const Game& game, StepIndex at) { return coordinate(game.step(at).move); }

/// The error of the first of two games; the second one must come through.
InputError refused_before_a_sound_game(const std::string& broken, PgnOptions options = {}) {
    const std::string text = broken + std::string{sound};
    PgnReader reader = reader_of(text, options);
    Game game;
    BOOST_REQUIRE(reader.next(game) == Reading::refused);
    InputError error = reader.error();
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_TEST(game.tag("Event") == "sound");
    BOOST_TEST(reader.game_offset() == broken.size());
    BOOST_TEST(reader.game_number() == 2U);
    BOOST_CHECK(reader.next(game) == Reading::end);
    BOOST_TEST(reader.counts().read == 1U);
    BOOST_TEST(reader.counts().refused == 1U);
    return error;
}

/// Gives a text in pieces of a few bytes.
class DrippingSource final : public ByteSource {
  public:
    DrippingSource(std::string_view text, std::size_t piece) : text_(text), piece_(piece) {}
    std::size_t read(char* to, std::size_t size) override { return text_.read(to, (std::min)(size, piece_)); }

  private:
    TextSource text_;
    std::size_t piece_;
};

/// Gives a text and then fails.
class BreakingSource final : public ByteSource {
  public:
    explicit BreakingSource(std::string_view text) : text_(text) {}
    std::size_t read(char* to, std::size_t size) override {
        const std::size_t count = text_.read(to, size);
        if (count == 0) throw InputError{Reason::cannot_read, Field::file, 1, {}};
        return count;
    }

  private:
    TextSource text_;
};

std::size_t offset_of(std::string_view text, std::size_t line, std::size_t column) {
    std::size_t begin = 0;
    for (; line > 1; --line) begin = text.find('\n', begin) + 1;
    return begin + column - 1;
}

struct Refused {
    std::string_view text;
    Reason reason;
    Field field;
    std::size_t line;
    std::size_t column;
    std::string_view token;
};

constexpr Refused refused[] = {
    {"1. e4 Ke4 *\n\n", Reason::no_such_piece, Field::move, 1, 7, "Ke4"},
    {"1. e4\ne5 2. Ke1 *\n\n", Reason::illegal_move, Field::move, 2, 7, "Ke1"},
    {"1. e4 Nf9 *\n\n", Reason::not_a_move, Field::move, 1, 9, "Nf9"},
    {"1. Nf3 d5 2. d4 c6 3. Nd2 *\n\n", Reason::ambiguous_move, Field::move, 1, 23, "Nd2"},
    {"1. d4 e6 2. a3 Bb4+ 3. Nf3 *\n\n", Reason::king_left_in_check, Field::move, 1, 24, "Nf3"},
    {"1. a4 b5 2. axb5 a6 3. bxa6 c5 4. a7 c4 5. axb8 *\n\n", Reason::missing_promotion, Field::move, 1, 48, "axb8"},
    {"1. -- e5 *\n\n", Reason::illegal_move, Field::move, 1, 4, "--"},
    {"1. e4 (1. d4 e6 2. d5 Bb4+ 3. --) *\n\n", Reason::king_left_in_check, Field::move, 1, 31, "--"},
    {"[Event]\n[Site \"x\"]\n\n1. e4 *\n\n", Reason::bad_tag, Field::tag, 1, 7, "Event"},
    {"[Event \"x\n[Site \"x\"]\n\n1. e4 *\n\n", Reason::bad_tag, Field::tag, 1, 10, "Event"},
    {"[Event \"x\"\n[Site \"x\"]\n\n1. e4 *\n\n", Reason::bad_tag, Field::tag, 1, 11, "Event"},
    {"[ \"x\"]\n\n1. e4 *\n\n", Reason::bad_tag, Field::tag, 1, 3, ""},
    {"[FEN \"8/8/8/8/8/8/8/8 w - - 0 1\"]\n\n*\n\n", Reason::bad_start_position, Field::tag, 1, 7,
     "8/8/8/8/8/8/8/8 w - - 0 1"},
    {"[A \"b\"]\n[FEN \"4k3/8/8/8/8/8/8/4K3 x - - 0 1\"]\n\n*\n\n", Reason::bad_start_position, Field::tag, 2, 27,
     "4k3/8/8/8/8/8/8/4K3 x - - 0 1"},
    {"[A \"b\"]\n[Variant \"Atomic\"]\n\n1. e4 *\n\n", Reason::unknown_variant, Field::tag, 2, 11, "Atomic"},
    {"1. e4 {never closed e5 *\n\n", Reason::unterminated_comment, Field::comment, 1, 7, "{"},
    {"1. e4 (1. d4 d5 (1... Nf6) *\n\n", Reason::unterminated_variation, Field::variation, 1, 7, "("},
    {"(1. e4) *\n\n", Reason::variation_without_move, Field::variation, 1, 1, "("},
    {"1. e4 ((1. d4)) *\n\n", Reason::variation_without_move, Field::variation, 1, 8, "("},
    {"1. e4 ) *\n\n", Reason::stray_bracket, Field::movetext, 1, 7, ")"},
    {"1. e4 } *\n\n", Reason::stray_bracket, Field::movetext, 1, 7, "}"},
    {"1. e4 (1. d4]) *\n\n", Reason::stray_bracket, Field::movetext, 1, 13, "]"},
    {"1. e4 $ *\n\n", Reason::bad_nag, Field::movetext, 1, 7, "$"},
    {"1. e4 $256 *\n\n", Reason::bad_nag, Field::movetext, 1, 7, "$256"},
    {"1. e4 <later> *\n\n", Reason::bad_token, Field::movetext, 1, 7, "<later>"},
    {"1. e4 [x] *\n\n", Reason::bad_token, Field::movetext, 1, 7, "["},
    {"1. e4 \xE9 *\n\n", Reason::bad_token, Field::movetext, 1, 7, "\xC3\xA9"},
};

} // namespace

BOOST_AUTO_TEST_SUITE(pgn_reading)

BOOST_AUTO_TEST_CASE(tags) {
    const Game game = game_of("[Event \"A \\\"quoted\\\" \\\\ name\"] [Site\t\"B\"]\n[ White \"John \"Doc\" Smith\" ]\n"
                              "[Black \"\"]\n[Opening \"a\\b\"]\n\n1. e4 1/2-1/2");
    BOOST_TEST(game.tag("Event") == "A \"quoted\" \\ name");
    BOOST_TEST(game.tag("Site") == "B");
    BOOST_TEST(game.tag("White") == "John \"Doc\" Smith");
    BOOST_TEST(game.has_tag("Black"));
    BOOST_TEST(game.tag("Opening") == "a\\b");
    BOOST_TEST(game.tag_count() == 5U);
    BOOST_CHECK(game.result() == GameResult::draw);
}

BOOST_AUTO_TEST_CASE(results) {
    for (const auto& [text, result] : {std::pair{"1-0", GameResult::white_wins},
                                       {"0-1", GameResult::black_wins},
                                       {"1/2-1/2", GameResult::draw},
                                       {"1/2", GameResult::draw},
                                       {"*", GameResult::unknown}})
        BOOST_CHECK(game_of(std::string{"1. e4 "} + text).result() == result);
}

BOOST_AUTO_TEST_CASE(the_same_game_in_many_dresses) {
    const Game game = game_of("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. O-O 1-0");
    for (const std::string_view text :
         {"1.e4 e5 2.Nf3 Nc6 3.Bb5 a6 4.O-O 1-0", "1. e4 1... e5 2. Nf3 2... Nc6 3. Bb5 3... a6 4. 0-0 1-0",
          "e4 e5 Nf3 Nc6 Bb5 a6 O-O 1-0", "1 e4 e5 2 Ng1f3 Nb8-c6 3 Bf1b5 a7a6 4 O-O 1-0",
          "1. e4 e5\r\n2. Nf3 Nc6\r\n3. Bb5 a6\r\n4. O-O\r\n1-0\r\n",
          "\xEF\xBB\xBF\n1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. O-O 1-0",
          "%skipped\n1. e4 e5 2. Nf3 Nc6 3. Bb5\n%Ke4 {(\na6 4. O-O 1-0",
          "1. e4 e5 2. Nf3 Nc6 () 3. Bb5 ( ) a6 4. O-O 1-0"})
        BOOST_TEST_CONTEXT(text) BOOST_CHECK(game_of(text) == game);
    constexpr std::string_view padded = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. O-O 1-0\0\0\x1a\r\n"sv;
    PgnReader reader = reader_of(padded);
    Game read;
    BOOST_CHECK(reader.next(read) == Reading::game);
    BOOST_CHECK(read == game);
    BOOST_CHECK(reader.next(read) == Reading::end);
}

BOOST_AUTO_TEST_CASE(comments_stay_where_they_stand) {
    const Game game = game_of("{start} 1. {of the number} e4 {one} {two\nlines} (1. d4 {inside} d5) {beyond} "
                              "({early} 1. c4) 1... e5 ; to the } end\n2. Nf3 ({in an empty one}) 1-0 {White won}\n");
    const StepIndex e4 = game.step(root_step).first_child;
    const StepIndex d4 = game.step(e4).next_sibling;
    const StepIndex c4 = game.step(d4).next_sibling;
    const StepIndex e5 = game.step(e4).first_child;
    const StepIndex nf3 = game.step(e5).first_child;
    BOOST_TEST(game.comment(root_step) == "start of the number");
    BOOST_TEST(game.comment(e4) == "one two lines");
    BOOST_TEST(game.comment(d4) == "inside");
    BOOST_TEST(game.comment(d4, CommentPlace::beyond) == "beyond");
    BOOST_TEST(game.comment(c4, CommentPlace::before) == "early");
    BOOST_TEST(game.comment(e5) == "to the } end");
    BOOST_TEST(game.comment(nf3) == "in an empty one White won");
    BOOST_TEST(game.steps().size() == 7U);
}

BOOST_AUTO_TEST_CASE(a_comment_before_the_tags_belongs_to_the_game) {
    const Game game = game_of("{about} [White \"A\"]\n; more\n[Black \"B\"]\n\n*");
    BOOST_TEST(game.comment(root_step) == "about more");
    BOOST_TEST(game.tag("Black") == "B");
}

BOOST_AUTO_TEST_CASE(glyphs) {
    const Game game =
        game_of("1. e4! e5? 2. Nf3!! Nc6?? 3. Bb5!? a6 ?! 4. Ba4 $10 $140 b5 $0 5. Bb3!!! ($3 5. Bxb5 $255) *");
    std::vector<std::vector<int>> nags;
    for (StepIndex at = game.step(root_step).first_child; at != root_step; at = game.step(at).first_child)
        nags.emplace_back(game.nags(at).begin(), game.nags(at).end());
    BOOST_CHECK(nags == (std::vector<std::vector<int>>{{1}, {2}, {3}, {4}, {5}, {6}, {10, 140}, {0}, {3}}));
    const std::span<const std::uint8_t> last = game.nags(static_cast<StepIndex>(game.steps().size() - 1));
    BOOST_CHECK(std::vector<int>(last.begin(), last.end()) == (std::vector<int>{3, 255}));
}

BOOST_AUTO_TEST_CASE(variations_hang_on_the_move_that_they_replace) {
    const Game game = game_of("1. e4 e5 (1... c5 2. Nf3 (2. c3 d5) 2... d6) (1... e6) 2. Nf3 (2. -- d5) *");
    const StepIndex e4 = game.step(root_step).first_child;
    const StepIndex e5 = game.step(e4).first_child;
    const StepIndex c5 = game.step(e5).next_sibling;
    const StepIndex e6 = game.step(c5).next_sibling;
    BOOST_TEST(game.step(e6).next_sibling == root_step);
    BOOST_TEST(coordinate_of(game, e6) == "e7e6");
    const StepIndex nf3 = game.step(c5).first_child;
    const StepIndex c3 = game.step(nf3).next_sibling;
    BOOST_TEST(coordinate_of(game, c3) == "c2c3");
    BOOST_TEST(game.step(game.step(c3).first_child).parent == c3);
    const StepIndex null_move = game.step(game.step(e5).first_child).next_sibling;
    BOOST_CHECK(!game.step(null_move).move);
    BOOST_TEST(game.step(null_move).first_child != root_step);
    BOOST_TEST(fen(game.position_at(null_move)) == "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 1 2");
}

BOOST_AUTO_TEST_CASE(en_passant_marks) {
    BOOST_CHECK(game_of("1. e4 a6 2. e5 d5 3. exd6 e.p. cxd6 *") == game_of("1. e4 a6 2. e5 d5 3. exd6e.p. cxd6 *"));
}

BOOST_AUTO_TEST_CASE(start_positions_and_variants) {
    const std::string start = "[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 5 39\"]\n[SetUp \"1\"]\n";
    const Game game = game_of(start + "\n39... Kd7 40. e4 *");
    BOOST_TEST(fen(game.start()) == "4k3/8/8/8/8/8/4P3/4K3 b - - 5 39");
    for (const char* const variant :
         {"Standard", "From Position", "Chess960", "chess 960", "Fischerandom", "Fischer Random", ""})
        BOOST_TEST_CONTEXT(variant)
    BOOST_CHECK(read_pgn(start + "[Variant \"" + variant + "\"]\n\n39... Kd7 40. e4 *"));
    const Game random =
        game_of("[Variant \"Chess960\"]\n[FEN \"rk5r/8/8/8/8/8/8/RK5R w KQkq - 0 1\"]\n\n1. O-O-O Kc7 *");
    BOOST_TEST(fen(random.position_at(2)) == "r6r/2k5/8/8/8/8/8/2KR3R w - - 2 2");
}

BOOST_AUTO_TEST_CASE(latin1_becomes_utf8) {
    const Game game = game_of("[White \"M\xFCller\"]\n[Black \"M\xC3\xBCller\"]\n\n1. e4 {gr\xF6\xDF"
                              "er} e5 {gr\xC3\xB6\xC3\x9F"
                              "er} *");
    BOOST_TEST(game.tag("White") == "M\xC3\xBCller");
    BOOST_TEST(game.tag("Black") == "M\xC3\xBCller");
    BOOST_TEST(game.comment(1) == "gr\xC3\xB6\xC3\x9F"
                                  "er");
    BOOST_TEST(game.comment(2) == "gr\xC3\xB6\xC3\x9F"
                                  "er");
    // what only looks like UTF-8: overlong, surrogate, beyond the last code point, cut off
    for (const std::string_view bytes : {"\xC0\xAF", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82"})
        BOOST_CHECK(!detail::is_utf8(bytes));
    for (const std::string_view bytes :
         {"a", "\xC3\xBC", "\xE2\x82\xAC", "\xF0\x9F\x8C\x8D", "\xED\x9F\xBF", "\xF4\x8F\xBF\xBF"})
        BOOST_CHECK(detail::is_utf8(bytes));
}

BOOST_AUTO_TEST_CASE(a_missing_result_is_a_notice) {
    PgnReader reader =
        reader_of("[Event \"a\"]\n1. e4 e5\n[Event \"b\"]\n[Site \"x\"]\n\n[Date \"y\"]\n1. d4 0-1\n\n[Event \"c\"]\n\n"
                  "[Event \"d\"]\n\n1. c4");
    Game game;
    const auto expect = [&](std::string_view event, std::size_t moves, std::size_t notices) {
        BOOST_CHECK(reader.next(game) == Reading::game);
        BOOST_TEST(game.tag("Event") == event);
        BOOST_TEST(game.main_line().size() == moves);
        BOOST_TEST(reader.notices().size() == notices);
        if (notices > 0) BOOST_CHECK(reader.notices()[0].reason == Reason::missing_result);
    };
    expect("a", 2, 1);
    expect("b", 1, 0);
    BOOST_TEST(game.tag("Date") == "y"); // an empty line inside a tag section
    expect("c", 0, 1);
    expect("d", 1, 1);
    BOOST_CHECK(reader.next(game) == Reading::end);
    BOOST_TEST(reader.counts().read == 4U);
    BOOST_TEST(reader.counts().with_notices == 3U);
}

BOOST_AUTO_TEST_CASE(nothing_to_read) {
    for (const std::string_view text : {"", "\n\n", "\xEF\xBB\xBF", "% only\n", "{only a comment}", "\r\n \t"})
        BOOST_TEST_CONTEXT(text) {
            PgnReader reader = reader_of(text);
            BOOST_CHECK(!reader.next());
            BOOST_TEST(reader.game_number() == 0U);
            BOOST_CHECK(read_pgn(text).error().reason == Reason::missing_field);
        }
}

BOOST_AUTO_TEST_CASE(every_error_has_its_place_and_costs_one_game) {
    std::set<Reason> seen;
    for (const auto& [text, reason, field, line, column, token] : refused) BOOST_TEST_CONTEXT(text) {
            const InputError error = refused_before_a_sound_game(std::string{text});
            BOOST_TEST(name(error.reason) == name(reason));
            BOOST_TEST(name(error.field) == name(field));
            BOOST_TEST(error.line == line);
            BOOST_TEST(error.column == column);
            BOOST_TEST(error.token == token);
            BOOST_TEST(error.game == 1U);
            BOOST_TEST(error.offset == offset_of(text, line, column));
            seen.insert(reason);
        }
    for (int at = static_cast<int>(Reason::bad_tag); at < static_cast<int>(Reason::missing_result); ++at)
        BOOST_TEST(seen.count(static_cast<Reason>(at)) == 1U, name(static_cast<Reason>(at)) << " is not tested");
}

BOOST_AUTO_TEST_CASE(offsets_count_the_bytes_of_the_text_as_it_is) {
    // Two-byte line ends, a byte order mark, Latin-1, and a start position with a bad letter.
    const std::string text = "\xEF\xBB\xBF[White \"\xD6\"]\r\n\r\n1. e4 {\xFC} e5 (1... c5 2. Qh6) 1-0\r\n\r\n"
                             "[Event \"\xFC\"] [FEN \"4k3/8/8/8/8/8/8/4K2\xE9 w - - 0 1\"]\r\n\r\n*\r\n";
    PgnOptions options;
    options.file = "old/club.pgn";
    PgnReader reader = reader_of(text, options);
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::refused);
    BOOST_TEST(reader.error().offset == text.find("Qh6"));
    BOOST_TEST(reader.error().file == "old/club.pgn");
    BOOST_TEST(reader.game_offset() == 3U);
    BOOST_CHECK(reader.next(game) == Reading::refused);
    BOOST_TEST(reader.error().offset == text.find('\xE9'));
    BOOST_TEST(reader.error().game == 2U);
    BOOST_TEST(std::string{reader.error().what()}.find(
                   "(file old/club.pgn, game 2, field tag, line 5, column 38, byte ") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(notices_tell_their_place_too) {
    PgnReader reader = reader_of("[Event \"a\"]\n\n1. e4\n\n[Event \"b\"]\n\n1. d4 1-0\n");
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_REQUIRE(reader.notices().size() == 1U);
    BOOST_TEST(reader.notices()[0].game == 1U);
    BOOST_TEST(reader.notices()[0].offset == 20U);
}

BOOST_AUTO_TEST_CASE(places_count_from_the_start_of_the_text) {
    PgnReader reader = reader_of("[Event \"a\"]\n\n1. e4 *\n\n[Event \"b\"]\n\n1. e4\ne5 2. Ke4 *\n");
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_TEST(reader.game_offset() == 0U);
    BOOST_CHECK(reader.next(game) == Reading::refused);
    BOOST_TEST(reader.game_offset() == 22U);
    BOOST_TEST(reader.game_number() == 2U);
    BOOST_TEST(reader.error().line == 8U);
    BOOST_TEST(reader.error().column == 7U);
    BOOST_TEST(game.tag("Event") == "b"); // what was read so far tells which game it was
    BOOST_TEST(game.main_line().size() == 2U);
}

BOOST_AUTO_TEST_CASE(games_around_a_broken_one) {
    for (const std::string_view broken :
         {"[Event \"x\"]\n\n1. e4 Ke4 {a comment\n\nwith an empty line} 2. d4\n\n*\n\n",
          "[Event]\n[Site \"x\"]\n[Date \"y\"]\n\n1. e4 *\n\n", "This is no game.\nNor is this.\n\n",
          "[Event \"x\"]\n\n1. e4 {open (1. d4\n\nmore\n\n"})
        BOOST_TEST_CONTEXT(broken) {
            const std::string text = std::string{sound}.append(broken).append(sound).append(broken).append(sound);
            PgnReader reader = reader_of(text);
            Game game;
            std::string order;
            for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game))
                order += reading == Reading::game && game.tag("Event") == "sound" ? '+' : '-';
            BOOST_TEST(order == "+-+-+");
        }
}

BOOST_AUTO_TEST_CASE(moves_before_a_fault_are_kept_on_demand) {
    const std::string text = "[Event \"x\"]\n\n1. e4 e5 (1... c5) 2. Ke4 a6 0-1\n\n" + std::string{sound};
    PgnReader reader = reader_of(text, {.keep_moves_before_fault = true});
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_TEST(game.steps().size() == 4U);
    BOOST_CHECK(game.result() == GameResult::unknown);
    BOOST_TEST(reader.notices().size() == 1U);
    BOOST_CHECK(reader.notices()[0].reason == Reason::illegal_move);
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_TEST(game.tag("Event") == "sound");
    BOOST_TEST(reader.counts().with_notices == 1U);
    // there are no moves to keep
    BOOST_CHECK(!read_pgn("[Variant \"Atomic\"]\n\n1. e4 *", {.keep_moves_before_fault = true}));
    BOOST_CHECK(!read_pgn("[Event]\n\n1. e4 *", {.keep_moves_before_fault = true}));
}

BOOST_AUTO_TEST_CASE(a_game_can_be_used_again) {
    PgnReader reader = reader_of(
        "[White \"A\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 w - - 5 39\"]\n\n{c} 39. e4 $1 {d} (39. e3) *\n\n1. d4 *");
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_CHECK(game == game_of("1. d4 *"));
}

BOOST_AUTO_TEST_CASE(a_reader_can_be_moved_while_it_reads) {
    const std::string first = "[Event \"1\"]\n\n1. e4 *\n\n";
    const std::string second = "[Event \"2\"]\n\n1. e5 *\n\n";
    const std::string text = first + second + "[Event \"3\"]\n\n1. d4 *\n";
    Game game;
    PgnReader reader{std::make_unique<TextSource>(text)};
    BOOST_REQUIRE(reader.next(game) == Reading::game);
    PgnReader moved{std::move(reader)};
    BOOST_CHECK(moved.next(game) == Reading::refused);
    PgnReader assigned{std::make_unique<TextSource>("1. c4 *\n")};
    assigned = std::move(moved);
    BOOST_TEST(assigned.error().token == "e5");
    BOOST_TEST(assigned.game_number() == 2U);
    BOOST_TEST(assigned.game_offset() == first.size());
    BOOST_REQUIRE(assigned.next(game) == Reading::game);
    BOOST_TEST(game.tag("Event") == "3");
    BOOST_TEST(assigned.game_offset() == first.size() + second.size());
    BOOST_CHECK(assigned.next(game) == Reading::end);
    BOOST_TEST(assigned.counts().read == 2U);
    BOOST_TEST(assigned.counts().refused == 1U);
}

BOOST_AUTO_TEST_CASE(from_a_stream) {
    std::istringstream stream{std::string{sound} + std::string{sound}};
    PgnReader reader{stream};
    std::size_t games = 0;
    while (const std::optional<Result<Game>> game = reader.next()) games += (*game)->result() == GameResult::white_wins;
    BOOST_TEST(games == 2U);
}

BOOST_AUTO_TEST_CASE(pieces_of_any_size_give_the_same_games) {
    std::string text;
    for (const Refused& broken : refused) text.append(broken.text).append(sound);
    text += "[Event \"x\"]\n\n1. e4 {" + repeated("a longer comment ", 200) + "} e5 " + repeated(" ", 3000) + "*\n";
    const auto games_of = [&](std::unique_ptr<ByteSource> source) {
        PgnReader reader{std::move(source)};
        std::vector<std::string> games;
        Game game;
        for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game))
            games.push_back(std::to_string(reader.game_offset()) +
                            (reading == Reading::refused ? reader.error().what() : write_pgn(game)));
        return games;
    };
    const std::vector<std::string> games = games_of(std::make_unique<TextSource>(text));
    BOOST_TEST(games.size() == 2 * std::size(refused) + 1);
    for (const std::size_t piece : {1U, 2U, 7U, 511U, 512U, 513U})
        BOOST_TEST(games_of(std::make_unique<DrippingSource>(text, piece)) == games, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_source_that_breaks_off) {
    const std::string text = std::string{sound} + "[Event \"x\"]\n\n1. e4 e5";
    PgnReader reader{std::make_unique<BreakingSource>(text)};
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    BOOST_CHECK(reader.next(game) == Reading::refused);
    BOOST_CHECK(reader.error().reason == Reason::cannot_read);
    BOOST_CHECK(reader.next(game) == Reading::end);
    PgnReader whole{std::make_unique<BreakingSource>("1. e4 e5 1-0")};
    BOOST_CHECK(whole.next(game) == Reading::game);
    BOOST_CHECK(whole.next(game) == Reading::refused);
    BOOST_CHECK(whole.next(game) == Reading::end);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(hostile_pgn)

BOOST_AUTO_TEST_CASE(a_comment_of_many_megabytes) {
    const std::string comment = repeated("word ", 1'600'000);
    const Game game = game_of("1. e4 {" + comment + "} e5 *");
    BOOST_TEST(game.comment(1).size() == comment.size() - 1);
    const InputError error = refused_before_a_sound_game("1. e4 {" + comment + "} e5 *\n\n", {.most_text = 1000});
    BOOST_CHECK(error.reason == Reason::too_long);
    BOOST_TEST(error.column == 7U);
}

BOOST_AUTO_TEST_CASE(many_small_comments_count_together) {
    const std::string text = "1. e4 " + repeated("{word} ", 300) + "e5 *\n\n";
    BOOST_TEST(game_of(text).comment(1).size() == 300U * 5 - 1);
    BOOST_CHECK(refused_before_a_sound_game(text, {.most_text = 1000}).reason == Reason::too_long);
}

BOOST_AUTO_TEST_CASE(very_many_glyphs) {
    const std::string text = "1. e4 (1. d4) " + repeated("$1 ", 2000) + "*\n\n";
    BOOST_TEST(game_of(text).nags(1).size() == 2000U);
    BOOST_CHECK(refused_before_a_sound_game(text, {.most_text = 1000}).reason == Reason::too_long);
}

BOOST_AUTO_TEST_CASE(variations_nested_ten_thousand_deep) {
    constexpr int depth = 10'000;
    const std::string opening = repeated(" Nf6 (1... Nc6 2. Ng1 Nb8 3. Nf3", depth);
    const Game game = game_of("1. Nf3" + opening + repeated(")", depth) + " *");
    BOOST_TEST(game.steps().size() == 2U + 5U * depth);
    BOOST_CHECK(game_of(write_pgn(game)) == game);
    const InputError error = refused_before_a_sound_game("1. Nf3" + opening + " *\n\n");
    BOOST_CHECK(error.reason == Reason::unterminated_variation);
    BOOST_CHECK(refused_before_a_sound_game("1. Nf3" + opening + " *\n\n", {.deepest_variation = 100}).reason ==
                Reason::too_long);
}

BOOST_AUTO_TEST_CASE(very_many_variations_of_one_move) {
    const Game game = game_of("1. e4 " + repeated("(1. d4) ", 100'000) + "*");
    BOOST_TEST(game.steps().size() == 100'002U);
    BOOST_CHECK(
        refused_before_a_sound_game("1. e4 " + repeated("(1. d4) ", 100) + "*\n\n", {.most_moves = 50}).reason ==
        Reason::too_long);
}

BOOST_AUTO_TEST_CASE(lines_of_a_million_characters) {
    const std::string line(1'000'000, 'a');
    BOOST_CHECK(refused_before_a_sound_game("1. e4 " + line + "\n\n").reason == Reason::bad_token);
    BOOST_CHECK(refused_before_a_sound_game("1. e4 " + std::string(1'000'000, '7') + "\n\n").reason ==
                Reason::bad_token);
    BOOST_CHECK(refused_before_a_sound_game("[" + line + " \"x\"]\n\n*\n\n").reason == Reason::bad_tag);
    BOOST_CHECK(refused_before_a_sound_game("[A \"" + line + "\n\n*\n\n").reason == Reason::bad_tag);
    BOOST_TEST(game_of("[A \"" + line + "\"]\n\n*").tag("A").size() == line.size());
    BOOST_TEST(game_of("1. e4" + std::string(1'000'000, ' ') + "e5 ;" + line + "\n*").main_line().size() == 2U);
    BOOST_TEST(game_of("%" + line + "\n1. e4 " + repeated("!", 200) + " *").main_line().size() == 1U);
}

BOOST_AUTO_TEST_CASE(very_many_tags) {
    std::string tags;
    for (int i = 0; i < 1001; ++i) tags += "[T" + std::to_string(i) + " \"x\"]\n";
    BOOST_CHECK(refused_before_a_sound_game(tags + "\n1. e4 *\n\n").reason == Reason::too_long);
}

BOOST_AUTO_TEST_CASE(an_open_brace_does_not_swallow_the_games_that_follow) {
    const std::string text = "1. e4 {open\n\n" + repeated(sound, 50);
    PgnReader reader = reader_of(text);
    Game game;
    while (reader.next(game) != Reading::end) {
    }
    BOOST_TEST(reader.counts().read == 50U);
    BOOST_TEST(reader.counts().refused == 1U);
}

BOOST_AUTO_TEST_SUITE_END()
