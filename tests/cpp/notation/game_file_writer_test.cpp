// Compressed game files and GameFileWriter: what comes back, what damage does, and what is left behind.
#include <keysquare/notation/game_file.hpp>

#include <array>
#include <random>

#include <boost/test/unit_test.hpp>

#include "folder.hpp"
#include "platform.hpp"

using namespace keysquare;
using test::bytes_of;
using test::Folder;
using test::write_bytes;

namespace {

constexpr std::array<std::string_view, 3> suffixes{".gz", ".bz2", ".zst"};

/// A format, and how much of the text stands or falls together: what was unpacked of it is given at once or not at all.
struct Format {
    std::string_view suffix;
    std::size_t block;
};

constexpr Format formats[] = {
    {".gz", 0},        // RFC 1951, 3.2.3: each byte comes of the bits up to its own
    {".bz2", 900'000}, // the largest blocks, which the writer asks for; each is sorted, and known by its last bit only
    {".zst", 128U << 10U} // RFC 8878, 3.1.1.2.4: the largest that a block may be
};

using MakeGame = Game (*)(int);

Game numbered_game(int number) {
    Game game = read_pgn("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 1-0").value();
    game.set_tag("White", "Quillfeather, number " + std::to_string(number * number));
    game.set_comment(game.main_steps().back(), "as in game " + std::to_string(number * 7919 % 1000));
    return game;
}

/// Digits by chance, so that all games shrink alike and by no more than half.
Game heavy_game(int number) {
    std::mt19937 random{static_cast<std::mt19937::result_type>(number)};
    std::string digits(1000, ' ');
    for (char& digit : digits) digit = "0123456789abcdef"[random() % 16];
    Game game = numbered_game(number);
    game.set_comment(game.main_steps().front(), digits);
    return game;
}

void write_games(const std::filesystem::path& path, int from, int to, MakeGame make = numbered_game) {
    GameFileWriter writer{path};
    for (int number = from; number < to; ++number) writer.write(make(number));
    writer.close();
    BOOST_TEST(writer.count() == static_cast<std::uint64_t>(to - from));
}

struct ReadBack {
    int games = 0;   ///< that are equal to those written, in order
    int changed = 0; ///< that are not, though nothing is said of them
    std::vector<InputError> errors;
};

ReadBack read_back(const std::filesystem::path& path, bool keep = false, MakeGame made = numbered_game) {
    ReadBack back;
    PgnOptions options;
    options.keep_moves_before_fault = keep;
    Result<PgnReader> opened = read_games(path, options);
    if (!opened) {
        back.errors.push_back(opened.error());
        return back;
    }
    PgnReader reader = std::move(opened).value();
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
        if (reading == Reading::refused)
            back.errors.push_back(reader.error());
        else if (!reader.notices().empty())
            back.errors.push_back(reader.notices().front());
        else if (game == made(back.games))
            ++back.games;
        else if (game != made(static_cast<int>(reader.game_number()) - 1))
            ++back.changed;
    }
    BOOST_TEST(reader.counts().read + reader.counts().refused == reader.game_number());
    return back;
}

bool is_of_compression(Reason reason) {
    return reason == Reason::bad_compression || reason == Reason::truncated_file || reason == Reason::window_too_large;
}

constexpr int heavy_games = 3000;

/// A file of heavy games, and places in it where something happens to it.
struct HeavyFile {
    HeavyFile(const std::filesystem::path& folder, Format of)
        : format(of), path(folder / ("club.pgn" + std::string{of.suffix})) {
        write_games(path, 0, heavy_games, heavy_game);
        whole = bytes_of(path);
        for (std::size_t eighth = 1; eighth < 8; ++eighth) places.push_back(whole.size() * eighth / 8);
    }

    /// So many of the games must come, whatever is behind the place: those of its share of the text, but for two
    /// hundredths (the games shrink alike, the head of the file least) and for the block that the place is in.
    [[nodiscard]] int least_games(std::size_t place) const {
        const std::size_t game_size = write_pgn(heavy_game(0)).size();
        const std::size_t before = heavy_games * game_size / 1000 * (place * 1000 / whole.size() - 20);
        return before < format.block ? 0 : static_cast<int>((before - format.block) / game_size);
    }

    Format format;
    std::filesystem::path path;
    std::string whole;
    std::vector<std::size_t> places;
};

} // namespace

BOOST_AUTO_TEST_SUITE(written_game_files)

BOOST_AUTO_TEST_CASE(games_come_back, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : {"", ".gz", ".bz2", ".zst", ".GZ"}) {
        const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
        write_games(path, 0, 500);
        const ReadBack back = read_back(path);
        BOOST_TEST(back.games == 500);
        BOOST_TEST(back.errors.empty());
        if (!suffix.empty())
            BOOST_TEST(std::filesystem::file_size(path) < std::filesystem::file_size(folder / "club.pgn") / 4);
    }
    BOOST_TEST(folder.file_count() == 5U); // no temporary file is left
}

BOOST_AUTO_TEST_CASE(the_first_bytes_tell_the_format, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : suffixes) {
        const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
        write_games(path, 0, 3);
        std::filesystem::rename(path, folder / "no_suffix.pgn");
        BOOST_TEST(read_back(folder / "no_suffix.pgn").games == 3);
        std::filesystem::rename(folder / "no_suffix.pgn", folder / "other.pgn.gz");
        BOOST_TEST(read_back(folder / "other.pgn.gz").games == 3);
        write_bytes(path, write_pgn(numbered_game(0))); // a text that was unpacked and kept its name
        BOOST_TEST(read_back(path).games == 1);
    }
}

BOOST_AUTO_TEST_CASE(a_name_that_promises_what_is_not_there) {
    const Folder folder;
    const std::string picture{"\x89PNG\r\n\x1A\n\0\0\0\rIHDR", 16};
    for (const std::string_view suffix : {".gz", ".bz2", ".zst", ".GZ"}) {
        const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
        for (const std::string& bytes : {picture, picture + std::string(1000, '\xFF')}) {
            write_bytes(path, bytes);
            const ReadBack back = read_back(path);
            BOOST_REQUIRE(back.errors.size() == 1U);
            BOOST_TEST(name(back.errors[0].reason) == "bad_compression");
            BOOST_TEST(back.errors[0].file == path.string());
        }
        write_bytes(path, write_pgn(numbered_game(0)) + picture); // the first bytes are what is looked at
        const ReadBack back = read_back(path);
        BOOST_TEST(back.games == 1);
        BOOST_REQUIRE(back.errors.size() == 1U);
        BOOST_TEST(name(back.errors[0].reason) == "bad_token");
    }
    write_bytes(folder / "club.pgn", picture); // where nothing is promised it is a text that is wrong
    const ReadBack back = read_back(folder / "club.pgn");
    BOOST_REQUIRE(back.errors.size() == 1U);
    BOOST_TEST(name(back.errors[0].reason) == "bad_token");
}

BOOST_AUTO_TEST_CASE(members_follow_one_another, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : suffixes) BOOST_TEST_CONTEXT(suffix) {
            const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
            std::string all;
            for (int part = 0; part < 3; ++part) {
                write_games(path, 100 * part, 100 * (part + 1));
                all += bytes_of(path);
            }
            write_games(path, 0, 0); // an empty member is one, too
            all += bytes_of(path);
            write_bytes(path, all);
            BOOST_TEST(read_back(path).games == 300);
            write_bytes(path, all + std::string(700, '\0')); // padded to whole blocks
            const ReadBack padded = read_back(path);
            BOOST_TEST(padded.games == 300);
            BOOST_TEST(padded.errors.empty());
            write_bytes(path, all + "and something else");
            const ReadBack trailing = read_back(path);
            BOOST_TEST(trailing.games == 300);
            BOOST_REQUIRE(trailing.errors.size() == 1U);
            BOOST_TEST(is_of_compression(trailing.errors[0].reason));
        }
}

BOOST_AUTO_TEST_CASE(skippable_frames,
                     *test::needs_compression()) { // RFC 8878, 3.1.2: magic, size of four bytes, anything
    const Folder folder;
    const std::filesystem::path path = folder / "club.pgn.zst";
    write_games(path, 0, 5);
    const std::string frame{"\x50\x2A\x4D\x18\x04\x00\x00\x00skip", 12};
    write_bytes(path, frame + bytes_of(path) + frame);
    const ReadBack back = read_back(path);
    BOOST_TEST(back.games == 5);
    BOOST_TEST(back.errors.empty());
}

BOOST_AUTO_TEST_CASE(a_file_that_breaks_off_is_told, *test::needs_compression()) {
    const Folder folder;
    for (const std::string_view suffix : suffixes) {
        const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
        write_games(path, 0, 400);
        const std::string whole = bytes_of(path);
        int games = 0;
        for (std::size_t size = 0; size < whole.size(); size += size < 40 || size > whole.size() - 40 ? 1U : 97U)
            for (const bool keep : {false, true}) {
                write_bytes(path, std::string_view{whole}.substr(0, size));
                const ReadBack back = read_back(path, keep);
                BOOST_REQUIRE_MESSAGE(!back.errors.empty(), suffix << " cut to " << size);
                BOOST_TEST(is_of_compression(back.errors.back().reason), back.errors.back().what());
                BOOST_TEST(back.errors.back().file == path.string());
                BOOST_TEST(back.games >= games); // of a longer part
                BOOST_TEST(back.changed == 0);
                games = back.games;
            }
        BOOST_TEST(games == 400); // all that is missing at last is a byte of the sum
    }
}

BOOST_AUTO_TEST_CASE(the_games_before_a_break_are_given, *test::needs_compression()) {
    const Folder folder;
    for (const Format& format : formats) {
        const HeavyFile file{folder / "", format};
        for (const std::size_t place : file.places) BOOST_TEST_CONTEXT(format.suffix << " cut to " << place) {
                write_bytes(file.path, std::string_view{file.whole}.substr(0, place));
                const ReadBack back = read_back(file.path, false, heavy_game);
                BOOST_TEST(back.games >= file.least_games(place));
                BOOST_TEST(back.changed == 0);
                BOOST_REQUIRE(back.errors.size() == 1U);
                BOOST_TEST(name(back.errors[0].reason) == "truncated_file");
            }
        BOOST_TEST(file.least_games(file.places.back()) > heavy_games / 2);
    }
}

BOOST_AUTO_TEST_CASE(the_games_before_a_flipped_bit_are_given, *test::needs_compression()) {
    const Folder folder;
    for (const Format& format : formats) {
        const HeavyFile file{folder / "", format};
        int changed = 0;
        for (const std::size_t place : file.places) BOOST_TEST_CONTEXT(format.suffix << " byte " << place) {
                std::string damaged = file.whole;
                damaged[place] = static_cast<char>(damaged[place] ^ 8);
                write_bytes(file.path, damaged);
                const ReadBack back = read_back(file.path, false, heavy_game);
                BOOST_TEST(back.games >= file.least_games(place));
                BOOST_REQUIRE(!back.errors.empty());
                BOOST_TEST(is_of_compression(back.errors.back().reason), back.errors.back().what());
                changed += back.changed;
            }
        // The sum that tells stands at the end of a gzip file: a game may be another before that.
        if (format.suffix == ".gz") BOOST_TEST(changed > 0);
    }
}

BOOST_AUTO_TEST_CASE(a_flipped_bit_is_told, *test::needs_compression()) {
    const Folder folder;
    std::mt19937 random{20261126};
    for (const std::string_view suffix : suffixes) {
        const std::filesystem::path path = folder / ("club.pgn" + std::string{suffix});
        write_games(path, 0, 400);
        const std::string whole = bytes_of(path);
        int told = 0;
        for (int times = 0; times < 300; ++times) {
            std::string damaged = whole;
            const std::size_t at = random() % damaged.size();
            damaged[at] = static_cast<char>(damaged[at] ^ (1 << random() % 8));
            write_bytes(path, damaged);
            const ReadBack back = read_back(path);
            // Nothing depends on some bits: the time in a header, code words that don't occur.
            BOOST_TEST((!back.errors.empty() || back.games == 400), suffix << " byte " << at);
            if (!back.errors.empty())
                BOOST_TEST(is_of_compression(back.errors.back().reason), suffix << " byte " << at);
            told += back.errors.empty() ? 0 : 1;
        }
        BOOST_TEST(told > 280);
    }
}

BOOST_AUTO_TEST_CASE(too_long_a_window_is_refused, *test::needs_compression()) {
    // A frame whose header asks for a window of 2 GiB: no single segment, a window descriptor with exponent 21
    // (RFC 8878, 3.1.1.1.2), then an empty last block.
    const std::string frame{"\x28\xB5\x2F\xFD\x00\xA8\x01\x00\x00", 9};
    TextSource* const text = new TextSource{frame};
    Result<std::unique_ptr<ByteSource>> source = decompressed(std::unique_ptr<ByteSource>{text});
    BOOST_REQUIRE(source);
    PgnReader reader{*std::move(source)};
    Game game;
    BOOST_CHECK(reader.next(game) == Reading::refused);
    BOOST_TEST(name(reader.error().reason) == "window_too_large");
    BOOST_CHECK(reader.next(game) == Reading::end);
}

BOOST_AUTO_TEST_CASE(nothing_is_left_of_a_file_that_is_not_closed, *test::needs_compression()) {
    const Folder folder;
    const std::filesystem::path path = folder / "club.pgn.gz";
    write_games(path, 0, 2);
    {
        GameFileWriter writer{path};
        for (int number = 0; number < 1000; ++number) writer.write(numbered_game(number));
        BOOST_TEST(folder.file_count() == 2U);
    }
    BOOST_TEST(folder.file_count() == 1U);
    BOOST_TEST(read_back(path).games == 2);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_written) {
    const Folder folder;
    const auto error_of = [](const std::filesystem::path& path) -> InputError {
        try {
            GameFileWriter writer{path};
        } catch (const InputError& error) {
            return error;
        }
        return {};
    };
    for (const std::filesystem::path& path : {folder / "missing/club.pgn", folder / ".", std::filesystem::path{}}) {
        const InputError error = error_of(path);
        BOOST_TEST(name(error.reason) == "cannot_write");
        BOOST_TEST(error.file == path.string());
        BOOST_TEST(!error.token.empty());
    }
    BOOST_TEST(folder.file_count() == 0U);
}

BOOST_AUTO_TEST_CASE(a_link_stays_a_link) {
    const Folder folder;
    write_bytes(folder / "real.pgn", "");
    std::error_code fault;
    std::filesystem::create_symlink(folder / "real.pgn", folder / "link.pgn", fault);
    if (fault) return; // a system without links
    write_games(folder / "link.pgn", 0, 1);
    BOOST_TEST(std::filesystem::is_symlink(folder / "link.pgn"));
    BOOST_TEST(read_back(folder / "real.pgn").games == 1);
}

BOOST_AUTO_TEST_SUITE_END()
