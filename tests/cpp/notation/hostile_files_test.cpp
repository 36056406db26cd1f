// Hostile game files: what each gets is in one table. What is wrong costs the game that it is in, and somebody is told;
// hostile texts are in pgn_reader_test.cpp, damaged compressed files in game_file_writer_test.cpp.
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/game_file.hpp>

#include <csignal>
#include <random>

#if __has_include(<sys/resource.h>) && !defined(__EMSCRIPTEN__)
#include <sys/resource.h>
#define KEYSQUARE_TEST_CAN_LIMIT_FILES
#endif

#include <boost/test/unit_test.hpp>

#include "folder.hpp"
#include "platform.hpp"

using namespace keysquare;
using test::Folder;

namespace {

constexpr std::string_view sound = "[Event \"sound\"]\n\n1. e4 e5 1-0\n\n";
constexpr std::string_view later = "[Event \"later\"]\n\n1. d4 d5 0-1\n\n";
static_assert(later.size() == sound.size());
constexpr std::size_t megabyte = std::size_t{1} << 20U;

using WritePart = void (*)(GameFileWriter&);

/// Writes a text many times.
void repeat(GameFileWriter& file, std::string_view text, std::size_t times) {
    for (; times > 0; --times) file.write_text(text);
}

void long_comment(GameFileWriter& file) {
    file.write_text("[Event \"long\"]\n\n1. e4 {");
    repeat(file, std::string(megabyte, 'w'), 100);
    file.write_text("} e5 1-0\n\n");
}

void many_comments(GameFileWriter& file) {
    file.write_text("[Event \"comments\"]\n\n1. e4 ");
    for (int number = 0; number < 200'000; ++number)
        file.write_text("{" + std::to_string(number) + std::string(100, 'c') + "}\n");
    file.write_text("e5 1-0\n\n");
}

void deep_variations(GameFileWriter& file) {
    file.write_text("[Event \"deep\"]\n\n1. Nf3");
    repeat(file, " Nf6 (1... Nc6 2. Ng1 Nb8 3. Nf3", 10'000);
    repeat(file, ")", 10'000);
    file.write_text(" *\n\n");
}

void too_deep_variations(GameFileWriter& file) {
    file.write_text("[Event \"too deep\"]\n\n1. Nf3");
    repeat(file, " Nf6 (1... Nc6 2. Ng1 Nb8 3. Nf3", 50'001);
    file.write_text(" *\n\n");
}

void long_line(GameFileWriter& file) {
    file.write_text("[Event \"line\"]\n\n1. e4 " + std::string(megabyte, 'x') + "\n\n");
}

void long_tag(GameFileWriter& file) {
    file.write_text("[Event \"");
    repeat(file, std::string(megabyte, 't'), 100);
    file.write_text("\"]\n\n1. e4 *\n\n");
}

void many_tags(GameFileWriter& file) {
    for (int number = 0; number < 100'000; ++number)
        file.write_text("[T" + std::to_string(number) + " \"" + std::string(100, 'v') + "\"]\n");
    file.write_text("\n1. e4 *\n\n");
}

void many_moves(GameFileWriter& file) {
    file.write_text("[Event \"moves\"]\n\n");
    repeat(file, "Nf3 Nf6 Ng1 Ng8 ", 250'001);
    file.write_text("*\n\n");
}

void blank_lines(GameFileWriter& file) { repeat(file, std::string(megabyte, '\n'), 200); }
void fewer_blank_lines(GameFileWriter& file) { repeat(file, std::string(megabyte, '\n'), 60); }

/// What stands before a sound game in a file, and what comes of the file.
struct Hostile {
    std::string_view what;
    WritePart part;
    std::string_view file;
    std::uint64_t read;
    std::uint64_t refused;
    std::string_view reason; ///< of the last refusal
};

constexpr Hostile table[] = {
    {"a comment of 100 MB", long_comment, "x.pgn", 1, 1, "too_long"},
    {"a comment of 100 MB in 3 kB", long_comment, "x.pgn.zst", 0, 2, "expands_too_much"},
    {"comments of 20 MB in all", many_comments, "x.pgn.gz", 1, 1, "too_long"},
    {"10,000 variations, one inside the other", deep_variations, "x.pgn", 2, 0, ""},
    {"more than 50,000 of them", too_deep_variations, "x.pgn", 1, 1, "too_long"},
    {"a line of a million characters", long_line, "x.pgn", 1, 1, "bad_token"},
    {"a tag of 100 MB", long_tag, "x.pgn", 1, 1, "too_long"},
    {"100,000 tags", many_tags, "x.pgn", 1, 1, "too_long"},
    {"a million moves", many_moves, "x.pgn", 1, 1, "too_long"},
    {"200 MB of blank lines", blank_lines, "x.pgn", 1, 0, ""},
    {"200 MB of blank lines in 200 kB", blank_lines, "x.pgn.gz", 0, 1, "expands_too_much"},
    {"the same in a hundred bytes", blank_lines, "x.pgn.bz2", 0, 1, "expands_too_much"},
    {"the same in 20 kB", blank_lines, "x.pgn.zst", 0, 1, "expands_too_much"},
    {"60 MB in less than a hundred bytes", fewer_blank_lines, "x.pgn.bz2", 1, 0, ""},
};

struct Came {
    PgnCounts counts;
    std::string reason;
};

/// Reads the rest of the games.
Came rest_of(PgnReader& reader) {
    Came came;
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game))
        if (reading == Reading::refused) came.reason = name(reader.error().reason);
    came.counts = reader.counts();
    return came;
}

void write_sound_games(const std::filesystem::path& path, std::size_t count) {
    GameFileWriter writer{path};
    repeat(writer, sound, count);
    writer.close();
}

/// Puts bytes in the place of a file's first ones, in the file that is there.
void overwrite(const std::filesystem::path& path, std::string_view bytes) {
    std::fstream file{path, std::ios::in | std::ios::out | std::ios::binary};
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    BOOST_REQUIRE(file.flush());
}

/// Two megabytes that no format makes smaller than half: a reader holds no more than a part of them (in bzip2 a block).
void write_heavy_games(const std::filesystem::path& path, unsigned seed) {
    std::mt19937 random{seed};
    GameFileWriter writer{path};
    for (int games = 0; games < 2000; ++games) {
        std::string digits(1000, ' ');
        for (char& digit : digits) digit = "0123456789abcdef"[random() % 16];
        writer.write_text("[Event \"heavy\"]\n\n{" + digits + "} 1. e4 e5 1-0\n\n");
    }
    writer.close();
}

} // namespace

BOOST_AUTO_TEST_SUITE(hostile_files)

BOOST_AUTO_TEST_CASE(what_each_gets, *test::needs_compression()) {
    const Folder folder;
    for (const Hostile& row : table) {
        const std::filesystem::path path = folder / row.file;
        GameFileWriter writer{path};
        row.part(writer);
        writer.write_text(sound);
        writer.close();
        PgnReader reader = read_games(path).value();
        const Came came = rest_of(reader);
        BOOST_TEST(came.counts.read == row.read, row.what);
        BOOST_TEST(came.counts.refused == row.refused, row.what);
        BOOST_TEST(came.reason == row.reason, row.what);
    }
}

BOOST_AUTO_TEST_CASE(comments_that_nobody_wants_may_be_many, *test::needs_compression()) {
    const Folder folder;
    GameFileWriter writer{folder / "x.pgn"};
    many_comments(writer);
    writer.close();
    PgnReader reader = read_games(folder / "x.pgn", {.keep_comments = false}).value();
    BOOST_TEST(rest_of(reader).counts.read == 1U);
    GameFileWriter one{folder / "x.pgn"};
    long_comment(one);
    one.close();
    PgnReader again = read_games(folder / "x.pgn", {.keep_comments = false}).value();
    BOOST_TEST(rest_of(again).reason == "too_long"); // each by itself is bounded all the same
}

BOOST_AUTO_TEST_CASE(a_file_that_gets_shorter_while_it_is_read) {
    const Folder folder;
    constexpr std::size_t games = 30'000;
    write_sound_games(folder / "x.pgn", games);
    PgnReader reader = read_games(folder / "x.pgn").value();
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    // Cut between two games: the text alone would look whole.
    std::filesystem::resize_file(folder / "x.pgn", sound.size() * games / 2);
    const Came came = rest_of(reader);
    BOOST_TEST(came.counts.read == games / 2);
    BOOST_TEST(came.reason == "truncated_file");
}

BOOST_AUTO_TEST_CASE(a_file_that_grows_while_it_is_read) {
    const Folder folder;
    write_sound_games(folder / "x.pgn", 30'000);
    PgnReader reader = read_games(folder / "x.pgn").value();
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    std::ofstream{folder / "x.pgn", std::ios::app} << sound;
    const Came came = rest_of(reader);
    BOOST_TEST(came.counts.read == 30'001U);
    BOOST_TEST(came.reason.empty());
}

BOOST_AUTO_TEST_CASE(a_file_that_is_replaced_while_it_is_read) {
    const Folder folder;
    write_sound_games(folder / "x.pgn", 30'000);
    PgnReader reader = read_games(folder / "x.pgn").value();
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::game);
    write_sound_games(folder / "x.pgn", 3);
    const Came came = rest_of(reader);
    BOOST_TEST(came.counts.read == 30'000U); // those of the file that was opened
    BOOST_TEST(came.reason.empty());
}

BOOST_AUTO_TEST_CASE(a_file_that_is_overwritten_while_it_is_read) {
    const Folder folder;
    constexpr std::size_t games = 30'000;
    write_sound_games(folder / "x.pgn", games);
    PgnReader reader = read_games(folder / "x.pgn").value();
    std::string text;
    for (std::size_t game = 0; game < games; ++game) text += later;
    overwrite(folder / "x.pgn", text);
    std::size_t before = 0;
    std::size_t after = 0;
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
        if (reading == Reading::refused) continue;
        const std::string written = write_pgn(game);
        if (written == write_pgn(read_pgn(sound).value()))
            before += after == 0 ? 1U : 0U;
        else
            after += written == write_pgn(read_pgn(later).value()) ? 1U : 0U;
    }
    BOOST_TEST(before > 0U);
    BOOST_TEST(after > games / 2);
    BOOST_TEST(before + after + 1 >= games); // the one at the seam may be neither
    BOOST_TEST(reader.counts().read + reader.counts().refused == games);
}

BOOST_AUTO_TEST_CASE(a_game_that_is_overwritten_while_it_is_read) {
    const Folder folder;
    const std::string filling(200'000, 'c');
    test::write_bytes(folder / "x.pgn", "1. e4 {" + filling + "} e5 1-0\n");
    PgnReader reader = read_games(folder / "x.pgn").value();
    overwrite(folder / "x.pgn", "1. d4 {" + filling + "} d5 0-1\n");
    Game game;
    BOOST_REQUIRE(reader.next(game) == Reading::game);
    // A game that was in neither file. Nothing in a text can tell.
    BOOST_TEST(coordinate(game.main_line().at(0)) == "e2e4");
    BOOST_TEST(coordinate(game.main_line().at(1)) == "d7d5");
    BOOST_CHECK(game.result() == GameResult::black_wins);
    BOOST_CHECK(reader.next(game) == Reading::end);
}

BOOST_AUTO_TEST_CASE(a_compressed_file_that_is_overwritten_while_it_is_read, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : {".gz", ".bz2", ".zst"}) BOOST_TEST_CONTEXT(suffix) {
            const std::filesystem::path path = folder / ("x.pgn" + std::string{suffix});
            write_heavy_games(path, 1);
            const std::string first = test::bytes_of(path);
            write_heavy_games(path, 2);
            PgnReader reader = read_games(path).value();
            overwrite(path, first);
            const Came came = rest_of(reader);
            BOOST_TEST(came.counts.refused > 0U);
            BOOST_TEST(came.reason == "bad_compression");
        }
}

#ifdef KEYSQUARE_TEST_CAN_LIMIT_FILES

/// As long as it lives no file of this program gets larger: what a full disk does.
class FullDisk {
  public:
    explicit FullDisk(std::size_t most) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        rlimit limit = before_;
        limit.rlim_cur = most;
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    ~FullDisk() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }

  private:
    void (*handler_)(int);
    rlimit before_{};
};

BOOST_AUTO_TEST_CASE(a_full_disk_leaves_what_was_there, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : {"", ".gz", ".bz2", ".zst"}) {
        const std::filesystem::path path = folder / ("x.pgn" + std::string{suffix});
        write_sound_games(path, 2);
        const std::string before = test::bytes_of(path);
        InputError told;
        {
            const FullDisk full{before.size() + 3};
            try {
                GameFileWriter writer{path};
                for (int number = 0; number < 30'000; ++number)
                    writer.write_text("[Event \"" + std::to_string(number * 7919 % 30'011) + "\"]\n\n1. e4 e5 1-0\n\n");
                writer.close();
            } catch (const InputError& error) {
                told = error;
            }
        }
        BOOST_TEST(name(told.reason) == "cannot_write");
        BOOST_TEST(told.file == path.string());
        BOOST_TEST(test::bytes_of(path) == before);
        std::filesystem::remove(path);
        BOOST_TEST(folder.file_count() == 0U);
    }
}

#endif

BOOST_AUTO_TEST_SUITE_END()
