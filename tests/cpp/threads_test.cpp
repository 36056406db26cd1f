// Many threads ask at once about the same positions, games and tables, in C++ and through the C interface: everybody gets
// what one thread got before. Built with ThreadSanitizer (tests/sanitize.sh) this shows that nothing is shared that is
// written.
#include <keysquare/keysquare.h>
#include <keysquare/keysquare.hpp>
#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/lesson/json.hpp>
#include <keysquare/notation/game_file.hpp>
#include <keysquare/notation/game_state.hpp>
#include <keysquare/research/summary.hpp>

#include <array>
#include <atomic>
#include <chrono>
#include <fstream>
#include <memory>
#include <thread>

#include <boost/test/unit_test.hpp>

#include "platform.hpp"

using namespace keysquare;

namespace {

constexpr const char* club_file = "examples/data/club.pgn";

/// Bounds so small that ThreadSanitizer is through in a minute.
constexpr Options small{.values = {}, .bound = {.plies = 6, .check_plies = 1, .nodes = 500}, .least_gain = 1};

/// How many of several threads, which work at once, did not get what they should. Each is told its number.
template <class Work> std::size_t disappointed(const Work& work) {
    constexpr std::size_t threads = 8;
    std::atomic<std::size_t> count{0};
    std::vector<std::thread> running;
    for (std::size_t number = 0; number < threads; ++number)
        running.emplace_back([&, number] {
            if (!work(number)) ++count;
        });
    for (std::thread& thread : running) thread.join();
    return count;
}

std::vector<Game> club_games() {
    std::ifstream file{club_file};
    PgnReader reader{file};
    std::vector<Game> games;
    Game game;
    while (games.size() < 4 && reader.next(game) == Reading::game) games.push_back(game);
    BOOST_REQUIRE(games.size() == 4U);
    return games;
}

// Everything that is asked about a position, as text.

std::string numbers_of(const Position& position) {
    std::array<std::int16_t, feature_count> row{};
    feature_vector(position, row);
    std::array<std::int16_t, 2 * feature_count> of_two{};
    feature_columns(std::array{position, start_position()}, of_two, 2);
    std::string text;
    for (const std::int16_t number : row) text += std::to_string(number) + ' ';
    for (const std::int16_t number : of_two) text += std::to_string(number) + ' ';
    return text;
}

std::string threats_of(const Position& position) {
    std::string text;
    for (const Side side : all_sides) {
        const Threats found = threats(position, side, small);
        text += threats_json(position, side, found);
        for (const Threat& threat : found) {
            text += sentence(position, threat);
            if (side == position.waiter()) text += sentence(position, threat, parries(position, threat, small));
        }
    }
    return text;
}

/// Of each piece of the mover: where it may go, how it gets to the middle, and what comes of its first move.
std::string plans_of(const Position& position) {
    std::string text;
    Squares asked;
    for (const Move move : legal_moves(position)) {
        if (asked.has(move.origin())) continue;
        asked |= Squares{move.origin()};
        for (const Destination& to : mobility(position, move.origin(), small).destinations) text += name(to.verdict);
        text += sentence(route(position, move.origin(), Square::d5, small).value());
        text += sentence(position, answers(position, move, small));
        if (asked.count() <= 2)
            text += paragraph(check_plan(position, position.mover(), std::array{move}, small).value());
    }
    return text;
}

std::string study(const Position& position) {
    std::string text = fen(position) + numbers_of(position) + threats_of(position) + plans_of(position);
    const Findings found = findings(position, small);
    for (const Finding& finding : found) text += sentence(position, finding);
    for (const Side side : all_sides) text += paragraph(difficulty(position, side, small));
    const Candidates few = candidates(position, 4, small);
    for (const Candidate& candidate : few) text += sentence(position, candidate);
    const Outlook both = outlook(position, small);
    text += paragraph(position, both) + findings_json(position, {found.data(), found.size()}, Language::german) +
            candidates_json(position, {few.data(), few.size()}, Language::german) +
            outlook_json(position, both, Language::german);
    return text + diagram(position, diagram_of(position, {found.data(), found.size()}));
}

std::string study(const Game& game) {
    std::string text = write_pgn(game);
    const GameReport report = game_report(game, most_moments, small);
    for (const Moment& moment : report.moments) text += moment.question + moment.answer;
    text += game_report_json(game, report, Language::german);
    for (const GameState& state : game_states(game)) text += std::to_string(state.occurrences);
    return text + study(game.position_at(game.main_steps()[game.main_steps().size() / 2]));
}

// Tables and sums of games.

std::vector<ChosenColumn> chosen(std::initializer_list<std::string_view> names) {
    std::vector<ChosenColumn> all;
    for (const std::string_view name : names) all.push_back(scan_column(name).value());
    return all;
}

/// Of every kind: the game's, a tag, the numeric vector's, and those that need a search.
std::vector<ChosenColumn> some_columns() {
    return chosen({"ply", "move_played", "White", "legal_moves", "hanging_gain", "allows"});
}

Summary empty_summary() { return {chosen({"result"}), chosen({"legal_moves", "hanging_gain"})}; }

std::string bytes_of(const RowBatch& batch) {
    std::string bytes = std::to_string(batch.size());
    for (std::size_t column = 0; column < batch.columns().all.size(); ++column) {
        const BatchColumn& data = batch.data(column);
        for (const std::byte number : data.numbers) bytes += static_cast<char>(number);
        for (const std::uint8_t bits : data.valid) bytes += static_cast<char>(bits);
        bytes += data.text + std::to_string(data.missing);
    }
    return bytes;
}

/// How many rows another library gets, which then lets go of them.
std::int64_t handed_over(const std::shared_ptr<const RowBatch>& batch) {
    ArrowArray array = arrow_array(batch);
    const std::int64_t rows = array.length;
    array.release(&array);
    return rows;
}

/// The rows of the first plies of a game, and their sum.
std::string table_of(const Game& game) {
    GameRows rows{small};
    rows.begin(game, club_file, 0);
    RowBatch batch{std::make_shared<const ScanColumns>(some_columns()), 8};
    Summary sum = empty_summary();
    for (std::size_t ply = 0; !batch.full() && ply <= rows.last_ply(); ++ply) {
        rows.go_to(ply);
        batch.add(rows);
        sum.add(rows);
    }
    return bytes_of(batch) + sum.bytes();
}

// The C interface.

std::string described(const keysquare_error* error) {
    return std::string{keysquare_error_message(error)} + keysquare_error_reason(error) + keysquare_error_field(error) +
           std::to_string(keysquare_error_line(error)) + ' ' + std::to_string(keysquare_error_column(error));
}

/// What a function says that writes a text, or why it does not.
template <class Function, class... Given> std::string said_by(Function* function, Given... given) {
    char* text = nullptr;
    keysquare_error* error = nullptr;
    const keysquare_status status = function(given..., &text, &error);
    std::string said = std::to_string(status) + ' ' + (text ? text : described(error)) + '\n';
    keysquare_text_free(text);
    keysquare_error_free(error);
    return said;
}

/// What a function writes that writes something else: an object, which the caller frees, or a number.
template <class Result, class Function, class... Given> Result made_by(Function* function, Given... given) {
    Result result{};
    function(given..., &result, nullptr);
    return result;
}

std::string c_study(const keysquare_position* position) {
    std::string text = said_by(keysquare_position_fen, position);
    for (const keysquare_notation notation : {KEYSQUARE_COORDINATES, KEYSQUARE_SAN})
        text += said_by(keysquare_position_legal_moves, position, notation);
    text += said_by(keysquare_position_move, position, "g1f3", KEYSQUARE_SAN) +
            said_by(keysquare_position_move, position, "Ke9", KEYSQUARE_SAN);
    text += std::to_string(made_by<keysquare_side>(keysquare_position_mover, position)) +
            std::to_string(made_by<std::int32_t>(keysquare_position_in_check, position)) +
            std::to_string(made_by<std::uint64_t>(keysquare_position_perft, position, 2));
    for (const char* language : {"en", "de", "xx"}) {
        text += said_by(keysquare_findings_json, position, language) +
                said_by(keysquare_threats_json, position, KEYSQUARE_BLACK, language) +
                said_by(keysquare_candidates_json, position, 4, language) +
                said_by(keysquare_outlook_json, position, language) +
                said_by(keysquare_diagram_svg, position, KEYSQUARE_WHITE, 0, language);
    }
    return text;
}

std::string c_study(const keysquare_games* games) {
    std::string text;
    for (std::size_t at = 0; at <= keysquare_games_count(games); ++at) // one too many
        text +=
            said_by(keysquare_game_tag, games, at, "White") + said_by(keysquare_game_moves, games, at, KEYSQUARE_SAN);
    for (std::size_t at = 0; at < keysquare_games_refused_count(games); ++at)
        text += described(keysquare_games_refused(games, at));
    return text + said_by(keysquare_game_report_json, games, std::size_t{0}, 8, "de");
}

constexpr std::string_view two_games = "[White \"Ada Berg\"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n"
                                       "[White \"Cem Dahl\"]\n\n1. e5 *\n";

/// The objects that a thread makes and frees for itself, and what they say.
std::string c_study() {
    auto* const start = made_by<keysquare_position*>(keysquare_position_start);
    auto* const moved = made_by<keysquare_position*>(keysquare_position_after, start, "e4");
    auto* const passed = made_by<keysquare_position*>(keysquare_position_passed, moved);
    auto* const read =
        made_by<keysquare_games*>(keysquare_games_from_text, two_games.data(), std::size_t{two_games.size()});
    auto* const club = made_by<keysquare_games*>(keysquare_games_from_file, club_file);
    std::string text = keysquare_version();
    text += said_by(keysquare_position_fen, passed) + c_study(read) + std::to_string(keysquare_games_count(club)) +
            said_by(keysquare_game_moves, club, std::size_t{1}, KEYSQUARE_COORDINATES);
    for (keysquare_position* position : {start, moved, passed}) keysquare_position_free(position);
    for (keysquare_games* games : {read, club}) keysquare_games_free(games);
    return text;
}

} // namespace

BOOST_AUTO_TEST_SUITE(threads_at_once, *test::needs_threads())

BOOST_AUTO_TEST_CASE(many_threads_get_what_one_gets) {
    const std::vector<Game> games = club_games();
    std::vector<std::string> expected;
    for (const Game& game : games) expected.push_back(study(game));
    BOOST_TEST(disappointed([&](std::size_t number) {
                   const std::size_t at = number % games.size(); // every game is studied by two threads at once
                   return study(games[at]) == expected[at];
               }) == 0U);
}

BOOST_AUTO_TEST_CASE(many_threads_make_tables_of_one_game) {
    const Game game = club_games().front();
    const std::string expected = table_of(game);
    BOOST_TEST(disappointed([&](std::size_t) { return table_of(game) == expected; }) == 0U);
}

BOOST_AUTO_TEST_CASE(many_threads_read_one_batch_and_one_summary) {
    const std::vector<Shard> shards{Shard{club_file}};
    Scan scan{shards, chosen({"ply", "move_played", "White", "legal_moves"}), {}, 2};
    const std::shared_ptr<const RowBatch> batch = scan.next();
    BOOST_REQUIRE(batch);
    const Summary summary = Summarising{shards, Summary{chosen({"result"}), chosen({"legal_moves"})}, {}, 2}.result();
    const std::string rows = bytes_of(*batch);
    const std::string bytes = summary.bytes();
    BOOST_TEST(disappointed([&](std::size_t) {
                   Summary sum{summary.by(), summary.columns()};
                   sum += summary;
                   return bytes_of(*batch) == rows && summary.bytes() == bytes && sum == summary &&
                          handed_over(batch) == static_cast<std::int64_t>(batch->size());
               }) == 0U);
}

BOOST_AUTO_TEST_CASE(many_threads_ask_how_far_it_is) {
    const std::vector<Shard> shards(8, Shard{club_file});
    Scan scan{shards, chosen({"ply", "hanging_gain"}), {}, 2, small};
    Summarising summarising{shards, empty_summary(), {}, 2, small};
    std::size_t rows = 0;
    std::atomic<int> unfinished{2};
    const auto asked_to_the_end = [&] {
        for (ScanProgress before, other; unfinished > 0; std::this_thread::sleep_for(std::chrono::microseconds{100})) {
            const ScanProgress now = scan.progress();
            const ScanProgress sum = summarising.progress();
            if (now.positions < before.positions || sum.positions < other.positions || sum.bytes > sum.of_bytes)
                return false;
            before = now;
            other = sum;
        }
        return true;
    };
    BOOST_TEST(disappointed([&](std::size_t number) {
                   if (number > 1) return asked_to_the_end();
                   if (number == 0)
                       while (const auto batch = scan.next()) rows += batch->size();
                   else
                       while (!summarising.wait(std::chrono::milliseconds{1})) {
                       }
                   --unfinished;
                   return true;
               }) == 0U);
    BOOST_TEST(rows > 0U);
    BOOST_TEST(rows == scan.counts().positions);
    BOOST_TEST(rows == scan.progress().positions);
    BOOST_TEST(rows == summarising.result().counts().positions);
}

BOOST_AUTO_TEST_CASE(many_threads_use_the_same_objects_of_the_c_interface) {
    constexpr const char* fen = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10";
    auto* const position = made_by<keysquare_position*>(keysquare_position_from_fen, fen, KEYSQUARE_STRICT);
    auto* const games =
        made_by<keysquare_games*>(keysquare_games_from_text, two_games.data(), std::size_t{two_games.size()});
    BOOST_REQUIRE(position);
    BOOST_REQUIRE(keysquare_games_count(games) == 1U);
    BOOST_REQUIRE(keysquare_games_refused_count(games) == 1U);
    const std::string of_position = c_study(position);
    const std::string of_games = c_study(games);
    BOOST_TEST(of_position.find("keysquare outlook 1") != std::string::npos);
    BOOST_TEST(of_games.find("keysquare game report 1") != std::string::npos);
    BOOST_TEST(disappointed(
                   [&](std::size_t) { return c_study(position) == of_position && c_study(games) == of_games; }) == 0U);
    keysquare_position_free(position);
    keysquare_games_free(games);
}

BOOST_AUTO_TEST_CASE(many_threads_use_objects_of_their_own_of_the_c_interface) {
    const std::string expected = c_study();
    BOOST_TEST(disappointed([&](std::size_t) { return c_study() == expected; }) == 0U);
}

BOOST_AUTO_TEST_SUITE_END()
