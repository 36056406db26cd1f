// The C interface: checks what comes in, catches what must not go out, and hands the rest on.
#include <keysquare/keysquare.h>

#include <cstdlib>
#include <cstring>
#include <memory>
#include <new>
#include <string>
#include <vector>

#include <keysquare/board/perft.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/lesson/json.hpp>
#include <keysquare/lesson/language.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/game_file.hpp>
#include <keysquare/version.hpp>

struct keysquare_error {
    std::string message;
    std::string reason{"none"};
    std::string field{"none"};
    std::size_t line = 0;
    std::size_t column = 0;
};

struct keysquare_position {
    keysquare::Position position;
};

struct keysquare_games {
    std::vector<keysquare::Game> read;
    std::vector<keysquare_error> refused;
};

namespace keysquare {
namespace {

/// A pointer or a number that can't be meant.
struct BadArgument {
    std::string message;
};

keysquare_error error_of(const InputError& refused) {
    return {refused.what(), std::string{name(refused.reason)}, std::string{name(refused.field)}, refused.line,
            refused.column};
}

/// Something that was asked for is refused, though no text is wrong.
struct Refused {
    Reason reason;
};

keysquare_error error_of(const Refused& refused) {
    keysquare_error error;
    error.message = describe(refused.reason);
    error.reason = name(refused.reason);
    return error;
}

keysquare_error error_of(const char* message) {
    keysquare_error error;
    error.message = message;
    return error;
}

/// Hands the error to whoever wants it. When there is no memory for it, the status alone has to do.
template <class Cause>
keysquare_status fail(keysquare_error** error, keysquare_status status, const Cause& cause) noexcept {
    try {
        if (error) *error = std::make_unique<keysquare_error>(error_of(cause)).release();
    } catch (const std::bad_alloc&) {
        *error = nullptr;
    }
    return status;
}

/// Runs the body of a function of the interface. No exception comes out of it.
template <class Body> keysquare_status guarded(keysquare_error** error, const Body& body) noexcept {
    if (error) *error = nullptr;
    try {
        body();
        return KEYSQUARE_OK;
    } catch (const InputError& refused) {
        return fail(error, KEYSQUARE_BAD_INPUT, refused);
    } catch (const Refused& refused) {
        return fail(error, KEYSQUARE_BAD_INPUT, refused);
    } catch (const BadArgument& bad) {
        return fail(error, KEYSQUARE_BAD_ARGUMENT, bad.message.c_str());
    } catch (const std::bad_alloc&) {
        return fail(error, KEYSQUARE_OUT_OF_MEMORY, "out of memory");
    } catch (const std::exception& other) {
        return fail(error, KEYSQUARE_FAILED, other.what());
    } catch (...) {
        return fail(error, KEYSQUARE_FAILED, "an unknown exception");
    }
}

/// What the pointer points to.
template <class T> T& needed(T* pointer, const char* parameter) {
    if (!pointer) throw BadArgument{std::string{parameter} + ": null"};
    return *pointer;
}

std::int32_t in_range(std::int32_t value, std::int32_t least, std::int32_t most, const char* parameter) {
    if (value < least || value > most)
        throw BadArgument{std::string{parameter} + ": " + std::to_string(value) + " is not from " +
                          std::to_string(least) + " to " + std::to_string(most)};
    return value;
}

constexpr std::int32_t greatest = INT32_MAX;

std::size_t place_in(std::size_t count, std::size_t at, const char* parameter) {
    if (at >= count)
        throw BadArgument{std::string{parameter} + ": " + std::to_string(at) + " where there are " +
                          std::to_string(count)};
    return at;
}

std::string_view text_in(const char* text, const char* parameter) { return &needed(text, parameter); }

Side side_of(keysquare_side side, const char* parameter) {
    return in_range(side, KEYSQUARE_WHITE, KEYSQUARE_BLACK, parameter) == KEYSQUARE_WHITE ? Side::white : Side::black;
}

/// The language of a code; English of null.
Language language_of(const char* code) {
    if (!code) return Language::english;
    const Language language = language_named(code);
    if (language == Language::end_) throw BadArgument{"language: " + unknown_language(code)};
    return language;
}

const Position& position_of(const keysquare_position* position) { return needed(position, "position").position; }

const Game& game_of(const keysquare_games* games, std::size_t at) {
    const std::vector<Game>& read = needed(games, "games").read;
    return read[place_in(read.size(), at, "at")];
}

/// Writes moves in one of the notations.
class MoveTexts {
  public:
    explicit MoveTexts(keysquare_notation notation)
        : as_san_(in_range(notation, KEYSQUARE_COORDINATES, KEYSQUARE_SAN, "notation") == KEYSQUARE_SAN) {}

    void add(const Position& position, Move move) {
        if (!text_.empty()) text_ += ' ';
        text_ += as_san_ ? san(position, move) : coordinate(move);
    }
    /// All that were added, with a space between two of them.
    [[nodiscard]] std::string take() && { return std::move(text_); }

  private:
    bool as_san_;
    std::string text_;
};

/// The text in memory that C can own.
char* owned(const std::string& text) {
    void* const memory = std::malloc(text.size() + 1);
    if (!memory) throw std::bad_alloc{};
    std::memcpy(memory, text.c_str(), text.size() + 1);
    return static_cast<char*>(memory);
}

keysquare_position* owned(const Position& position) {
    return std::make_unique<keysquare_position>(keysquare_position{position}).release();
}

/// A function that gives a text: `body` makes it.
template <class Body>
keysquare_status give_text(char** result, const char* parameter, keysquare_error** error, const Body& body) {
    return guarded(error, [&] {
        char*& place = needed(result, parameter);
        place = owned(body());
    });
}

/// A function that gives a position: `body` makes it.
template <class Body>
keysquare_status give_position(keysquare_position** result, const char* parameter, keysquare_error** error,
                               const Body& body) {
    return guarded(error, [&] {
        keysquare_position*& place = needed(result, parameter);
        place = owned(body());
    });
}

keysquare_games* owned(PgnReader& reader) {
    auto games = std::make_unique<keysquare_games>();
    Game game; // its buffers grow; what is kept is a copy of the right size
    for (;;) switch (reader.next(game)) {
        case Reading::game: games->read.push_back(game); break;
        case Reading::refused: games->refused.push_back(error_of(reader.error())); break;
        case Reading::left_out: break;
        case Reading::end: return games.release();
        }
}

} // namespace
} // namespace keysquare

using namespace keysquare;

const char* keysquare_version() { return version.data(); }

void keysquare_text_free(char* text) { std::free(text); }

void keysquare_error_free(keysquare_error* error) { delete error; }
const char* keysquare_error_message(const keysquare_error* error) {
    return error ? error->message.c_str() : "no error";
}
const char* keysquare_error_reason(const keysquare_error* error) { return error ? error->reason.c_str() : "none"; }
const char* keysquare_error_field(const keysquare_error* error) { return error ? error->field.c_str() : "none"; }
size_t keysquare_error_line(const keysquare_error* error) { return error ? error->line : 0; }
size_t keysquare_error_column(const keysquare_error* error) { return error ? error->column : 0; }

keysquare_status keysquare_position_start(keysquare_position** position, keysquare_error** error) {
    return give_position(position, "position", error, [] { return start_position(); });
}

keysquare_status keysquare_position_from_fen(const char* fen, keysquare_strictness strictness,
                                             keysquare_position** position, keysquare_error** error) {
    return give_position(position, "position", error, [&] {
        const bool lenient =
            in_range(strictness, KEYSQUARE_STRICT, KEYSQUARE_LENIENT, "strictness") == KEYSQUARE_LENIENT;
        return read_fen(text_in(fen, "fen"), lenient ? Strictness::lenient : Strictness::strict).value();
    });
}

void keysquare_position_free(keysquare_position* position) { delete position; }

keysquare_status keysquare_position_fen(const keysquare_position* position, char** fen, keysquare_error** error) {
    return give_text(fen, "fen", error, [&] { return keysquare::fen(position_of(position)); });
}

keysquare_status keysquare_position_mover(const keysquare_position* position, keysquare_side* mover,
                                          keysquare_error** error) {
    return guarded(error, [&] {
        needed(mover, "mover") = position_of(position).mover() == Side::white ? KEYSQUARE_WHITE : KEYSQUARE_BLACK;
    });
}

keysquare_status keysquare_position_in_check(const keysquare_position* position, int32_t* in_check,
                                             keysquare_error** error) {
    return guarded(error, [&] { needed(in_check, "in_check") = keysquare::in_check(position_of(position)) ? 1 : 0; });
}

keysquare_status keysquare_position_legal_moves(const keysquare_position* position, keysquare_notation notation,
                                                char** moves, keysquare_error** error) {
    return give_text(moves, "moves", error, [&] {
        const Position& here = position_of(position);
        MoveTexts texts{notation};
        for (const Move move : legal_moves(here)) texts.add(here, move);
        return std::move(texts).take();
    });
}

keysquare_status keysquare_position_move(const keysquare_position* position, const char* move,
                                         keysquare_notation notation, char** written, keysquare_error** error) {
    return give_text(written, "written", error, [&] {
        const Position& here = position_of(position);
        MoveTexts texts{notation};
        texts.add(here, read_move(here, text_in(move, "move")).value());
        return std::move(texts).take();
    });
}

keysquare_status keysquare_position_after(const keysquare_position* position, const char* move,
                                          keysquare_position** after, keysquare_error** error) {
    return give_position(after, "after", error, [&] {
        const Position& here = position_of(position);
        return keysquare::after(here, read_move(here, text_in(move, "move")).value());
    });
}

keysquare_status keysquare_position_passed(const keysquare_position* position, keysquare_position** passed,
                                           keysquare_error** error) {
    return give_position(passed, "passed", error, [&] {
        const std::optional<Position> handed_over = keysquare::passed(position_of(position));
        if (!handed_over) throw Refused{Reason::pass_in_check};
        return *handed_over;
    });
}

keysquare_status keysquare_position_perft(const keysquare_position* position, int32_t depth, uint64_t* leaves,
                                          keysquare_error** error) {
    return guarded(error, [&] {
        uint64_t& place = needed(leaves, "leaves");
        place = perft(position_of(position), in_range(depth, 0, 64, "depth"));
    });
}

keysquare_status keysquare_findings_json(const keysquare_position* position, const char* language, char** json,
                                         keysquare_error** error) {
    return give_text(json, "json", error, [&] {
        const Position& here = position_of(position);
        const Language spoken = language_of(language);
        return findings_json(here, findings(here), spoken);
    });
}

keysquare_status keysquare_threats_json(const keysquare_position* position, keysquare_side side, const char* language,
                                        char** json, keysquare_error** error) {
    return give_text(json, "json", error, [&] {
        const Position& here = position_of(position);
        const Side whose = side_of(side, "side");
        const Language spoken = language_of(language);
        return threats_json(here, whose, threats(here, whose), spoken);
    });
}

keysquare_status keysquare_candidates_json(const keysquare_position* position, int32_t at_most, const char* language,
                                           char** json, keysquare_error** error) {
    return give_text(json, "json", error, [&] {
        const Position& here = position_of(position);
        const int most = in_range(at_most, 1, greatest, "at_most");
        const Language spoken = language_of(language);
        return candidates_json(here, candidates(here, most), spoken);
    });
}

keysquare_status keysquare_outlook_json(const keysquare_position* position, const char* language, char** json,
                                        keysquare_error** error) {
    return give_text(json, "json", error, [&] {
        const Position& here = position_of(position);
        const Language spoken = language_of(language);
        return outlook_json(here, outlook(here), spoken);
    });
}

keysquare_status keysquare_diagram_svg(const keysquare_position* position, keysquare_side bottom, int32_t finding,
                                       const char* language, char** svg, keysquare_error** error) {
    return give_text(svg, "svg", error, [&] {
        const Position& here = position_of(position);
        DiagramOptions options;
        options.bottom = side_of(bottom, "bottom");
        options.language = language_of(language);
        if (in_range(finding, -1, greatest, "finding") < 0) return diagram(here, options);
        const Findings found = findings(here);
        const std::size_t at = place_in(found.size(), static_cast<std::size_t>(finding), "finding");
        return diagram(here, diagram_of(here, {&found[at], 1}, options));
    });
}

keysquare_status keysquare_games_from_text(const char* pgn, size_t size, keysquare_games** games,
                                           keysquare_error** error) {
    return guarded(error, [&] {
        keysquare_games*& place = needed(games, "games");
        PgnReader reader{std::make_unique<TextSource>(std::string_view{&needed(pgn, "pgn"), size})};
        place = owned(reader);
    });
}

keysquare_status keysquare_games_from_file(const char* path, keysquare_games** games, keysquare_error** error) {
    return guarded(error, [&] {
        keysquare_games*& place = needed(games, "games");
        const std::string_view name = text_in(path, "path");
        PgnReader reader = read_games(std::filesystem::path{std::u8string{name.begin(), name.end()}}).value();
        place = owned(reader);
    });
}

void keysquare_games_free(keysquare_games* games) { delete games; }

size_t keysquare_games_count(const keysquare_games* games) { return games ? games->read.size() : 0; }

size_t keysquare_games_refused_count(const keysquare_games* games) { return games ? games->refused.size() : 0; }

const keysquare_error* keysquare_games_refused(const keysquare_games* games, size_t at) {
    return at < keysquare_games_refused_count(games) ? &games->refused[at] : nullptr;
}

keysquare_status keysquare_game_tag(const keysquare_games* games, size_t at, const char* name, char** value,
                                    keysquare_error** error) {
    return give_text(value, "value", error, [&] { return std::string{game_of(games, at).tag(text_in(name, "name"))}; });
}

keysquare_status keysquare_game_moves(const keysquare_games* games, size_t at, keysquare_notation notation,
                                      char** moves, keysquare_error** error) {
    return give_text(moves, "moves", error, [&] {
        const Game& game = game_of(games, at);
        Position position = game.start();
        MoveTexts texts{notation};
        for (const Move move : game.main_line()) {
            texts.add(position, move);
            position = after_in_game(position, move);
        }
        return std::move(texts).take();
    });
}

keysquare_status keysquare_game_report_json(const keysquare_games* games, size_t at, int32_t at_most,
                                            const char* language, char** json, keysquare_error** error) {
    return give_text(json, "json", error, [&] {
        const Game& game = game_of(games, at);
        const auto most = static_cast<std::size_t>(in_range(at_most, 0, greatest, "at_most"));
        const Language spoken = language_of(language);
        return game_report_json(game, game_report(game, most), spoken);
    });
}
