// PGN, SAN and move text. PGN has bytes a second, too.
#include <filesystem>

#include <keysquare/notation/game_file.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/san.hpp>

#include "inputs.hpp"
#include "notation/pgn_tokens.hpp"

namespace {

using namespace keysquare;
using bench::Amount;
using bench::Operations;
using bench::Purpose;
using bench::tactical_positions;

using Texts = std::vector<std::string>;

Texts unless_empty(std::string text) { return text.empty() ? Texts{} : Texts{std::move(text)}; }

Texts tournament_games(Purpose purpose) {
    if (purpose == Purpose::timing) return unless_empty(bench::text_of(bench::open_data("pgn/masters.pgn")));
    std::ifstream file{bench::season(), std::ios::binary};
    PgnOptions options;
    options.keep_comments = false;
    PgnReader reader{file, options};
    std::string text;
    Game game;
    while (reader.next(game) != Reading::end) write_pgn(game, text);
    return {text};
}

/// Games with a comment at every move.
Texts commented_games(Purpose purpose) {
    return unless_empty(
        bench::text_of(purpose == Purpose::timing ? bench::open_data("pgn/rated-with-evals.pgn") : bench::season()));
}

/// Every game read and replayed into the same `Game`.
std::int64_t read_moves(PgnReader reader) {
    std::int64_t moves = 0;
    Game game;
    while (reader.next(game) != Reading::end) moves += static_cast<std::int64_t>(game.steps().size()) - 1;
    return moves;
}

std::int64_t bytes_of(const std::string& text) { return static_cast<std::int64_t>(text.size()); }

void add_reading(Operations& operations) {
    for (const bool keep_comments : {true, false}) {
        const auto read = [keep_comments](const std::string& text) {
            PgnOptions options;
            options.keep_comments = keep_comments;
            return Amount{read_moves(PgnReader{std::make_unique<TextSource>(text), options}), bytes_of(text)};
        };
        const std::string suffix = keep_comments ? "" : "/without_comments";
        operations.add("read_pgn/tournament_games" + suffix, "move", tournament_games, read);
        operations.add("read_pgn/commented_games" + suffix, "move", commented_games, read);
    }
}

/// For timing so many times the games that no cache holds them.
Texts many_games(Purpose purpose) {
    const Texts once = tournament_games(purpose);
    if (once.empty() || purpose == Purpose::counting) return once;
    return Texts(12, once.front());
}

/// What costs hardly more than going over the text.
void add_going_over(Operations& operations) {
    operations.add("read_pgn/left_out", "game", many_games, [](const std::string& text) {
        PgnOptions options;
        options.wanted = [](const Game&) { return false; };
        PgnReader reader{std::make_unique<TextSource>(text), options};
        Game game;
        while (reader.next(game) != Reading::end) {
        }
        return Amount{static_cast<std::int64_t>(reader.counts().left_out), bytes_of(text)};
    });
    operations.add("game_borders", "border", many_games, [](const std::string& text) {
        detail::PgnTokens tokens{std::make_unique<TextSource>(text)};
        Amount done{0, bytes_of(text)};
        while (tokens.skip_to_border()) ++done.items;
        return done;
    });
}

/// A compressed file of games that is gone when nobody needs it any longer.
class CompressedFile {
  public:
    CompressedFile(const std::string& text, const std::string& suffix)
        : path(std::filesystem::temp_directory_path() / ("keysquare_bench.pgn" + suffix)), text_bytes(bytes_of(text)) {
        GameFileWriter writer{path};
        writer.write_text(text);
        writer.close();
    }
    CompressedFile(const CompressedFile&) = delete;
    CompressedFile& operator=(const CompressedFile&) = delete;
    ~CompressedFile() {
        std::error_code ignored;
        std::filesystem::remove(path, ignored);
    }

    const std::filesystem::path path;
    const std::int64_t text_bytes;
};

void add_reading_compressed(Operations& operations) {
    using File = std::shared_ptr<const CompressedFile>;
    for (const std::string suffix : {".zst", ".gz", ".bz2"}) {
        const auto files = [suffix](Purpose purpose) {
            std::vector<File> written;
            for (const std::string& text : tournament_games(purpose))
                written.push_back(std::make_shared<const CompressedFile>(text, suffix));
            return written;
        };
        operations.add("read_compressed/pgn" + suffix, "move", files, [](const File& file) {
            return Amount{read_moves(read_games(file->path).value()), file->text_bytes};
        });
    }
}

struct Written {
    Position position;
    std::vector<std::string> moves;
};

std::vector<Written> all_moves_written(Purpose purpose) {
    std::vector<Written> all;
    for (const Position& position : tactical_positions(purpose)) {
        all.push_back({position, {}});
        for (const Move move : legal_moves(position)) all.back().moves.push_back(san(position, move));
    }
    return all;
}

void add_san(Operations& operations) {
    operations.add("write_san", "move", tactical_positions, [text = std::string{}](const Position& position) mutable {
        const MoveList moves = legal_moves(position);
        for (const Move move : moves) {
            text.clear();
            write_san(position, move, text);
            benchmark::DoNotOptimize(text.data());
        }
        return moves.size();
    });
    operations.add("read_san", "move", all_moves_written, [](const Written& input) {
        for (const std::string& text : input.moves) benchmark::DoNotOptimize(read_san(input.position, text));
        return input.moves.size();
    });
}

} // namespace

void bench::describe(Operations& operations) {
    operations.unit = benchmark::kMillisecond;
    add_reading(operations);
    add_going_over(operations);
    add_reading_compressed(operations);
    operations.unit = benchmark::kMicrosecond;
    add_san(operations);
}
