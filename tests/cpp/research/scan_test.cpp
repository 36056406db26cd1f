// Scans and summaries: every row is there, once and in order, whatever the threads, shards and formats.
#include <keysquare/research/summary.hpp>

#include <cmath>
#include <filesystem>
#include <set>

#include <boost/test/unit_test.hpp>

#include <keysquare/notation/game_file.hpp>

#include "folder.hpp"
#include "platform.hpp"

using namespace keysquare;

namespace {

/// A folder whose files are written with their text.
class Folder : public test::Folder {
  public:
    [[nodiscard]] std::filesystem::path write(const std::string& name, std::string_view text) const {
        test::write_bytes(*this / name, text);
        return *this / name;
    }
};

std::string game_text(int number, std::string_view moves, std::string_view result) {
    const std::string rating = std::to_string(800 + 7 * number % 1200);
    return "[Event \"Game " + std::to_string(number) + "\"]\n[White \"Pellerow, Ines\"]\n[WhiteElo \"" + rating +
           "\"]\n[BlackElo \"" + (number % 5 == 0 ? std::string{"?"} : std::to_string(1500)) + "\"]\n[Result \"" +
           std::string{result} + "\"]\n\n" + std::string{moves} + " " + std::string{result} + "\n\n";
}

/// Games of different length, some of them broken, enough for many pieces.
std::string many_games(int games) {
    constexpr std::array<std::string_view, 5> moves{
        "1. e4 {[%clk 0:10:00] [%eval 0.3]} e5 {[%clk 0:09:58] [%eval 0.25]} 2. Nf3 {[%clk 0:09:50]} Nc6 3. Bb5 a6",
        "1. d4 d5 2. c4 e6 3. Nc3 Nf6 4. Bg5 Be7 5. e3 O-O 6. Nf3 h6 7. Bh4 b6",
        "1. e4 c5 2. Nf3 d6 3. d4 cxd4 4. Nxd4 Nf6 5. Nc3 a6 (5... g6 6. Be3 Bg7) 6. Be2 e5", "1. f3 e5 2. g4 Qh4#",
        "1. e4 e4"};
    constexpr std::array<std::string_view, 4> results{"1-0", "0-1", "1/2-1/2", "*"};
    std::string text;
    for (int number = 0; number < games; ++number)
        text += game_text(number, moves[static_cast<std::size_t>(number % 5)],
                          number % 5 == 3 ? "0-1" : results[static_cast<std::size_t>(number % 4)]);
    return text;
}

std::vector<ChosenColumn> columns(std::initializer_list<std::string_view> names) {
    std::vector<ChosenColumn> chosen;
    for (const std::string_view name : names) chosen.push_back(scan_column(name).value());
    return chosen;
}

const std::vector<ChosenColumn>& some_columns() {
    static const auto chosen =
        columns({"game_offset", "ply", "move_played", "Event", "white_rating", "clock", "evaluation", "white_score",
                 "legal_moves", "piece_scope_difference", "hanging_gain"});
    return chosen;
}

/// All rows, each as one text.
std::vector<std::string> rows_of(const RowBatch& batch) {
    std::vector<std::string> rows(batch.size());
    for (std::size_t column = 0; column < batch.columns().all.size(); ++column) {
        const BatchColumn& data = batch.data(column);
        const std::size_t width = detail::width_of(batch.columns().all[column].type);
        for (std::size_t row = 0; row < batch.size(); ++row) {
            const bool is_there = data.valid.empty() || (data.valid[row / 8] >> row % 8 & 1) != 0;
            rows[row] += is_there ? "|" : "-";
            if (batch.columns().all[column].type == ColumnType::utf8) {
                std::int32_t begin = 0;
                std::int32_t end = 0;
                std::memcpy(&begin, &data.numbers[row * 4], 4);
                std::memcpy(&end, &data.numbers[row * 4 + 4], 4);
                rows[row] += data.text.substr(static_cast<std::size_t>(begin), static_cast<std::size_t>(end - begin));
            } else {
                for (std::size_t byte = 0; byte < width; ++byte)
                    rows[row] += static_cast<char>(data.numbers[row * width + byte]);
            }
        }
    }
    return rows;
}

struct Scanned {
    std::vector<std::string> rows;
    std::vector<std::size_t> batches; ///< their sizes
    ScanCounts counts;
};

Scanned scanned(const std::vector<Shard>& parts, int threads, const RowFilter& filter = {}) {
    Scan scan{parts, some_columns(), filter, threads};
    Scanned all;
    while (const auto batch = scan.next()) {
        const std::vector<std::string> rows = rows_of(*batch);
        all.rows.insert(all.rows.end(), rows.begin(), rows.end());
        all.batches.push_back(batch->size());
    }
    all.counts = scan.counts();
    return all;
}

Summary summed_up(const std::vector<Shard>& parts, int threads, const RowFilter& filter = {}) {
    const Summary empty{columns({"white_rating_band", "result"}),
                        columns({"legal_moves", "clock", "evaluation", "plies"})};
    return Summarising{parts, empty, filter, threads}.result();
}

std::string refused_in_short(const ScanCounts& counts) {
    std::string text;
    for (const RefusedGame& game : counts.refused)
        text += std::to_string(game.game_offset) + " " + game.error.what() + "\n";
    return text;
}

std::vector<Shard> cut(const std::filesystem::path& file, std::uint64_t size) { return shards(std::array{file}, size); }

} // namespace

BOOST_AUTO_TEST_SUITE(scans, *test::needs_threads())

BOOST_AUTO_TEST_CASE(rows_and_batches_do_not_depend_on_the_threads) {
    const Folder folder;
    const auto file = folder.write("games.pgn", many_games(6000));
    const Scanned one = scanned({{file}}, 1);
    BOOST_TEST(one.batches.size() > 5U);
    BOOST_TEST(one.counts.games == 4800U);
    BOOST_TEST(one.counts.refused_games() == 1200U);
    BOOST_TEST(one.counts.refused.size() == ScanCounts::most_described);
    BOOST_TEST(one.counts.positions == one.rows.size());
    for (const int threads : {2, 3, 7}) {
        const Scanned several = scanned({{file}}, threads);
        BOOST_CHECK(several.rows == one.rows);
        BOOST_CHECK(several.batches == one.batches);
        BOOST_TEST(refused_in_short(several.counts) == refused_in_short(one.counts));
    }
}

BOOST_AUTO_TEST_CASE(shards_of_any_size_give_the_rows_of_the_file) {
    const Folder folder;
    const std::string text = many_games(700);
    const auto file = folder.write("games.pgn", text);
    const Scanned whole = scanned({{file}}, 2);
    for (const std::uint64_t size : {1'000U, 4'321U, 50'000U, 10'000'000U}) {
        const std::vector<Shard> parts = cut(file, size);
        BOOST_TEST(parts.size() == (text.size() + size - 1) / size);
        Scanned all = scanned(parts, 2);
        BOOST_CHECK(all.rows == whole.rows);
        BOOST_TEST(refused_in_short(all.counts) == refused_in_short(whole.counts));
        Scanned apart;
        for (const Shard& part : parts) {
            const Scanned one = scanned({part}, 1);
            apart.rows.insert(apart.rows.end(), one.rows.begin(), one.rows.end());
            apart.counts += one.counts;
        }
        BOOST_CHECK(apart.rows == whole.rows);
        BOOST_TEST(refused_in_short(apart.counts) == refused_in_short(whole.counts));
        BOOST_TEST(apart.counts.seen() == 700U);
    }
}

BOOST_AUTO_TEST_CASE(compressed_files_give_the_same, *test::needs_compression()) {
    const Folder folder;
    const std::string text = many_games(3000);
    const Scanned plain = scanned({{folder.write("games.pgn", text)}}, 2);
    for (const std::string ending : {".gz", ".bz2", ".zst"}) {
        const auto file = folder / ("games.pgn" + ending);
        GameFileWriter writer{file};
        writer.write_text(text);
        writer.close();
        BOOST_TEST(cut(file, 1000).size() == 1U);
        const Scanned packed = scanned(cut(file, 1000), 2);
        BOOST_CHECK(packed.rows == plain.rows);
        BOOST_TEST(packed.counts.seen() == 3000U);
        const Scanned refused = scanned({{file, 100, 2000}}, 1);
        BOOST_TEST(refused.rows.empty());
        BOOST_TEST(refused.counts.refused_games() == 1U);
    }
}

BOOST_AUTO_TEST_CASE(a_file_that_breaks_off_costs_one_game, *test::needs_compression()) {
    const Folder folder;
    const std::string text = many_games(4000);
    const auto whole = folder / "whole.pgn.gz";
    GameFileWriter writer{whole};
    writer.write_text(text);
    writer.close();
    const auto broken = folder / "broken.pgn.gz";
    std::filesystem::copy_file(whole, broken);
    std::filesystem::resize_file(broken, std::filesystem::file_size(whole) * 3 / 4);
    const auto sound = folder.write("sound.pgn", many_games(10));
    const Scanned all = scanned({{broken}, {sound}}, 2);
    BOOST_TEST(all.counts.refused_by_reason.at(Reason::truncated_file) == 1U);
    BOOST_TEST(all.counts.games > 2000U);
    BOOST_TEST(all.counts.games < 3200U + 8U);
    const Scanned last = scanned({{sound}}, 1);
    BOOST_TEST(last.rows.size() < all.rows.size());
    BOOST_CHECK(std::equal(last.rows.rbegin(), last.rows.rend(), all.rows.rbegin()));
    BOOST_CHECK(summed_up({{broken}, {sound}}, 2) == summed_up({{broken}, {sound}}, 1));
}

BOOST_AUTO_TEST_CASE(a_file_that_is_gone) {
    const Folder folder;
    const auto sound = folder.write("sound.pgn", many_games(10));
    const std::vector<std::filesystem::path> files{sound, folder / "none.pgn"};
    BOOST_CHECK_THROW((void)shards(files), InputError);
    const Scanned all = scanned({{folder / "none.pgn"}, {sound}}, 2); // it was there when the shards were made
    BOOST_TEST(all.counts.refused_by_reason.at(Reason::cannot_open) == 1U);
    BOOST_TEST(all.counts.games == 8U);
}

BOOST_AUTO_TEST_CASE(no_borders_to_cut_at, *test::needs_compression()) {
    const Folder folder;
    std::string text; // no tags at all
    for (int game = 0; game < 200'000; ++game) text += "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 1-0\n\n";
    const auto plain = folder.write("games.pgn", text);
    const auto packed = folder / "games.pgn.zst";
    GameFileWriter writer{packed};
    writer.write_text(text);
    writer.close();
    for (const auto& file : {plain, packed}) {
        Scan scan{{{file}}, columns({"ply"}), {{}, {3, 3}}, 2};
        std::size_t rows = 0;
        while (const auto batch = scan.next()) rows += batch->size();
        BOOST_TEST(rows == 200'000U);
    }
}

BOOST_AUTO_TEST_CASE(filters_leave_out_games_and_plies) {
    const Folder folder;
    const auto file = folder.write("games.pgn", many_games(1000));
    RowFilter filter;
    filter.games.ratings.push_back({RatedPlayer::white, 1000, 1199});
    filter.games.tags.push_back({"Result", {"1-0", "0-1"}, std::nullopt, std::nullopt});
    filter.plies = {2, 5, 3};
    std::size_t wanted = 0;
    std::size_t rows = 0;
    PgnReader reader = read_games(file).value();
    while (auto game = reader.next()) {
        if (!*game) continue;
        const int rating = std::stoi(std::string{(*game)->tag("WhiteElo")});
        const GameResult result = (*game)->result();
        if (rating < 1000 || rating > 1199 || result == GameResult::draw || result == GameResult::unknown) continue;
        ++wanted;
        const std::size_t plies = (*game)->main_line().size();
        rows += (plies >= 2 ? 1U : 0U) + (plies >= 5 ? 1U : 0U);
    }
    const Scanned found = scanned({{file}}, 2, filter);
    BOOST_TEST(wanted > 50U);
    BOOST_TEST(found.counts.games == wanted);
    BOOST_TEST(found.rows.size() == rows);
    BOOST_TEST(found.counts.seen() == 1000U);
    BOOST_TEST(found.counts.left_out > 500U);
}

BOOST_AUTO_TEST_CASE(stopped_early) {
    const Folder folder;
    const auto file = folder.write("games.pgn", many_games(6000));
    Scan scan{{{file}}, some_columns(), {}, 3};
    BOOST_REQUIRE(scan.next());
    scan.stop();
    BOOST_TEST(!scan.next());
    std::shared_ptr<const RowBatch> batch;
    BOOST_CHECK(scan.next(batch, std::chrono::milliseconds{1}) == Scan::Event::end);
    { const Scan never_asked{{{file}}, some_columns(), {}, 3}; }
    Summarising summing{{{file}}, Summary{{}, some_columns()}, {}, 2};
    summing.stop();
}

BOOST_AUTO_TEST_CASE(nothing_to_scan) {
    const Folder folder;
    for (const auto& parts : {std::vector<Shard>{}, std::vector<Shard>{{folder.write("empty.pgn", "")}}}) {
        const Scanned none = scanned(parts, 2);
        BOOST_TEST(none.rows.empty());
        BOOST_TEST(none.counts.seen() == 0U);
        BOOST_TEST(summed_up(parts, 2).groups().empty());
    }
}

BOOST_AUTO_TEST_CASE(summaries_of_parts_add_up_to_the_bit) {
    const Folder folder;
    const auto file = folder.write("games.pgn", many_games(5000));
    const Summary one = summed_up({{file}}, 1);
    BOOST_TEST(one.groups().size() > 10U);
    for (const int threads : {2, 5}) BOOST_TEST(summed_up({{file}}, threads).bytes() == one.bytes());
    Summary sum{one.by(), one.columns()};
    for (const Shard& part : cut(file, 30'000)) {
        const auto copy = Summary::from_bytes(summed_up({part}, 1).bytes());
        BOOST_REQUIRE(copy);
        sum += *copy;
    }
    BOOST_TEST(sum.bytes() == one.bytes());
    std::uint64_t positions = 0;
    for (const auto& [key, group] : one.groups()) positions += group.positions;
    BOOST_TEST(positions == one.counts().positions);
}

BOOST_AUTO_TEST_CASE(what_a_group_knows) {
    const Folder folder;
    const auto file = folder.write(
        "games.pgn", "[WhiteElo \"1250\"]\n[Result \"1-0\"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n"
                     "[WhiteElo \"1399\"]\n[Result \"1/2-1/2\"]\n\n1. e4 1/2-1/2\n\n"
                     "[WhiteElo \"1400\"]\n[Result \"0-1\"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n\n"
                     "[WhiteElo \"-\"]\n[Result \"*\"]\n\n*\n\n");
    const Summary summary =
        Summarising{{{file}}, Summary{columns({"white_rating_band"}), columns({"legal_moves"})}, {}, 1}.result();
    BOOST_TEST(summary.groups().size() == 3U);
    const SummaryGroup& lower = summary.groups().at({"1200-1399"});
    BOOST_TEST(lower.games == 2U);
    BOOST_TEST(lower.positions == 10U);
    BOOST_TEST(lower.white_points() == 1.5);
    BOOST_TEST(lower.columns[0].sums().least == 0); // mate
    BOOST_TEST(lower.columns[0].sums().sum == 20 + 20 + 29 + 26 + 39 + 28 + 43 + 0 + 20 + 20);
    BOOST_TEST(summary.groups().at({"1400-1599"}).white_points() == 0);
    BOOST_TEST(summary.groups().at({std::nullopt}).games_with_result() == 0U);
}

BOOST_AUTO_TEST_CASE(bytes_that_are_no_summary) {
    const Folder folder;
    const std::string bytes = summed_up({{folder.write("games.pgn", many_games(50))}}, 1).bytes();
    for (std::size_t size = 0; size < bytes.size(); ++size)
        BOOST_REQUIRE(!Summary::from_bytes(std::string_view{bytes}.substr(0, size)));
    BOOST_TEST(!Summary::from_bytes(bytes + "x"));
    BOOST_TEST(Summary::from_bytes(bytes).has_value());
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(scan_columns)

BOOST_AUTO_TEST_CASE(expected_scores) {
    BOOST_TEST(expected_score(1500, 1500) == 0.5);
    BOOST_TEST(expected_score(2000, 1600) == 1 / 1.1);
    BOOST_TEST(expected_score(1600, 2000) == 0.1 / 1.1);
    BOOST_TEST(expected_score(0, 2'000'000'000) == 0);
    BOOST_TEST(expected_score(2'000'000'000, 0) == 1);
    for (int difference = -4000; difference <= 4000; ++difference) {
        const double curve = 1 / (1 + std::pow(10.0, difference / 400.0));
        BOOST_TEST(std::abs(expected_score(1500, 1500 + difference) / curve - 1) < 1e-14, difference);
    }
}

BOOST_AUTO_TEST_CASE(every_column_has_a_name_of_its_own_and_a_definition) {
    std::set<std::string_view> names;
    for (const auto table : {game_columns(), search_columns()})
        for (const ScanColumn& column : table) {
            BOOST_TEST(names.insert(column.name).second);
            BOOST_TEST(feature_column(column.name) == feature_count);
            BOOST_TEST(column.definition.ends_with('.'));
            BOOST_TEST(scan_column(column.name)->name == column.name);
        }
    BOOST_TEST(!scan_column("unheard_of"));
    BOOST_TEST(!scan_column(""));
    BOOST_CHECK(scan_column("ECO")->group == ColumnGroup::tag);
}

BOOST_AUTO_TEST_SUITE_END()
