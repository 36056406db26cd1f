// Any text as PGN: games come out equal when they are written and read again, and do not depend on how the text arrives,
// on whether comments are kept, or on where it is cut. A short game is also reported on.
#pragma once

#include <keysquare/lesson/game_report.hpp>
#include <keysquare/lesson/json.hpp>
#include <keysquare/notation/comment_commands.hpp>
#include <keysquare/notation/game_border.hpp>
#include <keysquare/notation/game_state.hpp>
#include <keysquare/notation/pgn.hpp>

#include <vector>

#include "require.hpp"

namespace keysquare::fuzz {

/// Gives a text in pieces of a few bytes.
class DrippingText final : public ByteSource {
  public:
    DrippingText(std::string_view text, std::size_t piece) : text_(text), piece_(piece) {}
    std::size_t read(char* to, std::size_t size) override { return text_.read(to, (std::min)(size, piece_)); }

  private:
    TextSource text_;
    std::size_t piece_;
};

/// What a reader gave: games as export format, and each fault by its reason and place.
struct Given {
    std::vector<std::string> games;
    std::vector<std::string> faults;
    friend bool operator==(const Given&, const Given&) = default;
};

inline std::string text_of(const InputError& error, std::uint64_t base) {
    return std::string{name(error.reason)} + " at " + std::to_string(base + error.offset);
}

/// `base`: where the text begins in the whole one.
inline Given given_by(std::unique_ptr<ByteSource> source, const PgnOptions& options, std::uint64_t base = 0) {
    PgnReader reader{std::move(source), options};
    Given given;
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
        if (reading == Reading::game) given.games.push_back(write_pgn(game));
        if (reading == Reading::refused) given.faults.push_back(text_of(reader.error(), base));
    }
    const PgnCounts& counts = reader.counts();
    require(counts.read == given.games.size() && counts.refused == given.faults.size(), "counts that do not add up");
    return given;
}

inline void require_round_trip(const std::string& pgn) {
    const Result<Game> game = read_pgn(pgn);
    require(static_cast<bool>(game), "not read again: " + pgn);
    require(write_pgn(*game) == pgn, "written in another way the second time: " + pgn);
    require(read_pgn(write_pgn(*game)).value() == *game, "another game: " + pgn);
    require(game_states(*game).size() <= game->main_steps().size() + 1, "more states than moves");
    for (StepIndex at = 0; at < game->steps().size(); ++at) {
        const std::string_view comment = game->comment(at);
        for (const std::string_view key : {"clk", "eval"}) {
            const std::string changed = with_command(comment, key, "0:00:01");
            require(command(changed, key) == "0:00:01", "a command that is not found again: " + changed);
            require(!command(without_command(changed, key), key), "a command that stays: " + changed);
        }
        require(without_commands(comment).size() <= comment.size(), "commands that make a comment longer");
    }
}

/// What a teacher would say of a game with these names, comments and start: complete texts, and JSON, which has its end.
inline void require_report(const Game& game) {
    Options shallow;
    shallow.bound = {.plies = 3, .check_plies = 1, .nodes = 64};
    for (const Language language : {Language::english, Language::german}) {
        const GameReport report = game_report(game, most_moments, shallow, language);
        require(report.plies.size() <= game.main_steps().size() + 1, "report: more plies than moves");
        for (const Moment& moment : report.moments)
            require(!moment.question.empty() &&
                        (moment.question + moment.answer).find_first_of("{}") == std::string::npos,
                    "report: a text with a gap");
        require(game_report_json(game, report, language).back() == '}', "report: JSON without end");
    }
}

inline void try_pgn(std::string_view text) {
    PgnOptions options;
    options.keep_moves_before_fault = text.size() % 2 == 1;
    const auto source = [](std::string_view part) { return std::make_unique<TextSource>(part); };

    const Given whole = given_by(source(text), options);
    for (const std::string& game : whole.games) require_round_trip(game);
    constexpr std::size_t longest_for_report = 600; // reports cost more than all else here
    if (!whole.games.empty() && whole.games.front().size() < longest_for_report)
        require_report(read_pgn(whole.games.front()).value());
    require(given_by(std::make_unique<DrippingText>(text, 1 + text.size() % 7), options) == whole,
            "other games from small pieces");

    if (const auto border = game_border(source(text))) {
        Given parts = given_by(source(text.substr(0, *border)), options);
        Given rest = given_by(source(text.substr(*border)), options, *border);
        parts.games.insert(parts.games.end(), rest.games.begin(), rest.games.end());
        parts.faults.insert(parts.faults.end(), rest.faults.begin(), rest.faults.end());
        require(parts.games == whole.games && parts.faults.size() == whole.faults.size(), "other games when cut");
    }

    options.keep_comments = false;
    const Given silent = given_by(source(text), options);
    require(silent.games.size() == whole.games.size() && silent.faults == whole.faults, "comments change the games");
    options.wanted = [](const Game& game) { return game.tag_count() % 2 == 0; };
    static_cast<void>(given_by(source(text), options));
}

} // namespace keysquare::fuzz
