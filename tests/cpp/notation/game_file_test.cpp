// Game files, and every PGN file of the open data: all games are there, and come back when they are written and read.
#include <keysquare/notation/game_file.hpp>

#include <cstdlib>
#include <fstream>

#if __has_include(<pwd.h>) && !defined(__EMSCRIPTEN__)
#include <unistd.h>
#define KEYSQUARE_TEST_HAS_USERS
#endif

#include <boost/test/unit_test.hpp>

#include "folder.hpp"

using namespace keysquare;

namespace {

std::filesystem::path open_data_folder() {
    const char* const folder = std::getenv("KEYSQUARE_OPEN_DATA");
    return folder ? folder : "../shared/data";
}

struct Counted {
    const char* file;
    std::size_t games;
    std::size_t refused;
    std::size_t plies; ///< counted by splitting the movetext at spaces, without any rules
};

// The games of other variants are refused, each with the tag that says so.
constexpr Counted files[] = {{"chess960.pgn", 233, 0, 16734},
                             {"from-position.pgn", 224, 0, 15733},
                             {"masters.pgn", 15997, 0, 1394369},
                             {"missing-result.pgn", 2, 0, 96},
                             {"non-utf8.pgn", 21, 0, 1718},
                             {"other-variants.pgn", 83, 83, 0},
                             {"rated-one-player.pgn", 4535, 0, 343276},
                             {"rated-rapid-blitz.pgn", 1055, 0, 60557},
                             {"rated-with-evals.pgn", 1202, 0, 92663}};

std::size_t lines_that_begin_a_game(const std::filesystem::path& path) {
    std::ifstream in{path, std::ios::binary};
    std::size_t count = 0;
    for (std::string line; std::getline(in, line);) count += line.starts_with("[Event ");
    return count;
}

#ifdef KEYSQUARE_TEST_HAS_USERS

/// As long as it lives a program that root started, who may read everything, is another user's.
class AnotherUser {
  public:
    AnotherUser() : before_(::geteuid()) {
        constexpr uid_t nobody = 65534;
        is_there_ = before_ != 0 || ::seteuid(nobody) == 0;
    }
    AnotherUser(const AnotherUser&) = delete;
    AnotherUser& operator=(const AnotherUser&) = delete;
    ~AnotherUser() {
        if (::seteuid(before_) != 0) std::abort();
    }

    /// False where root can't be another one.
    [[nodiscard]] bool is_there() const noexcept { return is_there_; }

  private:
    uid_t before_;
    bool is_there_ = false;
};

#endif

} // namespace

BOOST_AUTO_TEST_SUITE(game_files)

BOOST_AUTO_TEST_CASE(a_file_that_cannot_be_opened) {
    for (const std::filesystem::path& path :
         {std::filesystem::path{"no-such-folder/no-such-file.pgn"}, std::filesystem::temp_directory_path()}) {
        const Result<PgnReader> reader = read_games(path);
        BOOST_REQUIRE(!reader);
        BOOST_CHECK(reader.error().reason == Reason::cannot_open);
        BOOST_CHECK(reader.error().field == Field::file);
        BOOST_TEST(reader.error().token == path.filename().string());
        BOOST_TEST(reader.error().file == path.string());
        BOOST_TEST(std::string{reader.error().what()} ==
                   "the file can't be opened (file " + path.string() + ", at \"" + path.filename().string() + "\")");
    }
}

#ifdef KEYSQUARE_TEST_HAS_USERS

BOOST_AUTO_TEST_CASE(a_file_that_this_user_may_not_read) {
    const test::Folder folder;
    for (const std::string_view file : {"open.pgn", "closed.pgn", "closed.pgn.gz"})
        test::write_bytes(folder / file, "1. e4 e5 1-0\n\n");
    for (const std::string_view file : {"closed.pgn", "closed.pgn.gz"})
        std::filesystem::permissions(folder / file, std::filesystem::perms::none);
    const AnotherUser user;
    if (!user.is_there() || !read_games(folder / "open.pgn")) {
        BOOST_TEST_MESSAGE("skipped: no user but root may read in the folder for temporary files");
        return;
    }
    for (const std::string_view file : {"closed.pgn", "closed.pgn.gz"}) {
        const Result<PgnReader> reader = read_games(folder / file);
        BOOST_REQUIRE(!reader);
        BOOST_TEST(name(reader.error().reason) == "cannot_open");
        BOOST_TEST(reader.error().token == file);
        BOOST_TEST(reader.error().file == (folder / file).string());
    }
}

#endif

BOOST_AUTO_TEST_CASE(a_file_of_our_own) {
    const std::filesystem::path path = std::filesystem::temp_directory_path() / "keysquare_game_file_test.pgn";
    std::ofstream{path, std::ios::binary}
        << "[White \"A\"]\r\n\r\n1. e4 e5 1-0\r\n\r\n[White \"B\"]\r\n\r\n1. d4 0-1\r\n";
    {
        PgnReader reader = read_games(path).value();
        Game game;
        BOOST_CHECK(reader.next(game) == Reading::game);
        BOOST_TEST(game.tag("White") == "A");
        BOOST_CHECK(reader.next(game) == Reading::game);
        BOOST_TEST(reader.game_offset() == 31U);
        BOOST_CHECK(reader.next(game) == Reading::end);
    }
    std::filesystem::remove(path);
}

BOOST_AUTO_TEST_CASE(open_data) {
    for (const auto& [file, games, refused, plies] : files) BOOST_TEST_CONTEXT(file) {
            const std::filesystem::path path = open_data_folder() / "pgn" / file;
            Result<PgnReader> opened = read_games(path);
            if (!opened) {
                BOOST_TEST_MESSAGE("skipped: " << file
                                               << " not found; set KEYSQUARE_OPEN_DATA to the folder of the open data");
                continue;
            }
            BOOST_TEST(lines_that_begin_a_game(path) == games);
            PgnReader reader = std::move(opened).value();
            Game game;
            std::size_t moves = 0;
            std::size_t not_equal = 0;
            for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
                if (reading == Reading::refused) {
                    BOOST_TEST(name(reader.error().reason) == name(Reason::unknown_variant), reader.error().what());
                    continue;
                }
                moves += game.steps().size() - 1;
                if (reader.game_number() % 10 != 1) continue; // a tenth is enough for the round trip
                const Result<Game> again = read_pgn(write_pgn(game));
                not_equal += !again || !(*again == game);
            }
            BOOST_TEST(reader.counts().read == games - refused);
            BOOST_TEST(reader.counts().refused == refused);
            BOOST_TEST(reader.counts().with_notices == 0U);
            BOOST_TEST(moves == plies);
            BOOST_TEST(not_equal == 0U);
            BOOST_TEST(reader.offset() == std::filesystem::file_size(path));
        }
}

BOOST_AUTO_TEST_SUITE_END()
