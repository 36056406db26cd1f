/* Uses every function of keysquare.h and holds its results to what is known: the position with the most legal moves, perft
 * counts, a finding with its line, errors with their place, and nulls wherever something is needed.
 * Arguments: the FEN of the record position and the path of a file of four games. VERSION is what the library must say it
 * is. */
#include <stdio.h>
#include <string.h>

#include <keysquare/keysquare.h>

static int failures = 0;

static void check(int holds, const char* what, int line) {
    if (holds) return;
    ++failures;
    fprintf(stderr, "main.c:%d: %s\n", line, what);
}
#define CHECK(condition) check((condition), #condition, __LINE__)

static keysquare_position* position_of(const char* fen) {
    keysquare_position* position = NULL;
    CHECK(keysquare_position_from_fen(fen, KEYSQUARE_STRICT, &position, NULL) == KEYSQUARE_OK);
    return position;
}

/* Whether the text is the expected one, or holds it; frees it. */
static int is_text(char* text, const char* expected) {
    const int same = text && strcmp(text, expected) == 0;
    if (!same) fprintf(stderr, "got: %s\n", text ? text : "null");
    keysquare_text_free(text);
    return same;
}
static int holds_text(char* text, const char* expected) {
    const int held = text && strstr(text, expected) != NULL;
    if (!held) fprintf(stderr, "got: %s\n", text ? text : "null");
    keysquare_text_free(text);
    return held;
}

/* Whether the error says this; frees it. */
static int is_error(keysquare_error* error, const char* reason, const char* field, size_t line, size_t column) {
    const int same = error && strcmp(keysquare_error_reason(error), reason) == 0 &&
                     strcmp(keysquare_error_field(error), field) == 0 && keysquare_error_line(error) == line &&
                     keysquare_error_column(error) == column;
    if (!same)
        fprintf(stderr, "got: %s, %s, %s\n", keysquare_error_message(error), keysquare_error_reason(error),
                keysquare_error_field(error));
    keysquare_error_free(error);
    return same;
}
static int is_message(keysquare_error* error, const char* message) {
    const int same = error && strcmp(keysquare_error_message(error), message) == 0;
    if (!same) fprintf(stderr, "got: %s\n", keysquare_error_message(error));
    keysquare_error_free(error);
    return same;
}

static int count_words(const char* text) {
    int words = text && *text ? 1 : 0;
    for (; text && *text; ++text)
        if (*text == ' ') ++words;
    return words;
}

static int legal_moves_of(const char* fen) {
    keysquare_position* position = position_of(fen);
    char* moves = NULL;
    int count = 0;
    CHECK(keysquare_position_legal_moves(position, KEYSQUARE_SAN, &moves, NULL) == KEYSQUARE_OK);
    count = count_words(moves);
    keysquare_text_free(moves);
    keysquare_position_free(position);
    return count;
}

static void test_positions(void) {
    keysquare_position *start = NULL, *after = NULL, *passed = NULL, *check_given = NULL;
    keysquare_error* error = NULL;
    keysquare_side mover = -1;
    int32_t in_check = -1;
    char* text = NULL;
    uint64_t leaves = 0;

    CHECK(keysquare_position_start(&start, &error) == KEYSQUARE_OK && error == NULL);
    CHECK(keysquare_position_fen(start, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"));
    CHECK(keysquare_position_mover(start, &mover, NULL) == KEYSQUARE_OK && mover == KEYSQUARE_WHITE);
    CHECK(keysquare_position_in_check(start, &in_check, NULL) == KEYSQUARE_OK && in_check == 0);

    /* The counts that every move generator is held to (widely published; from memory). */
    CHECK(keysquare_position_perft(start, 0, &leaves, NULL) == KEYSQUARE_OK && leaves == 1);
    CHECK(keysquare_position_perft(start, 4, &leaves, NULL) == KEYSQUARE_OK && leaves == 197281);

    CHECK(keysquare_position_move(start, "g1f3", KEYSQUARE_SAN, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "Nf3"));
    CHECK(keysquare_position_move(start, "Nf3", KEYSQUARE_COORDINATES, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "g1f3"));

    CHECK(keysquare_position_after(start, "e4", &after, NULL) == KEYSQUARE_OK);
    CHECK(keysquare_position_fen(after, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1"));
    CHECK(keysquare_position_passed(after, &passed, NULL) == KEYSQUARE_OK);
    CHECK(keysquare_position_mover(passed, &mover, NULL) == KEYSQUARE_OK && mover == KEYSQUARE_WHITE);

    check_given = position_of("4k3/8/8/8/8/8/4q3/4K3 w - - 0 1");
    CHECK(keysquare_position_in_check(check_given, &in_check, NULL) == KEYSQUARE_OK && in_check == 1);
    CHECK(keysquare_position_legal_moves(check_given, KEYSQUARE_COORDINATES, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "e1e2"));
    keysquare_position_free(passed);
    passed = NULL;
    CHECK(keysquare_position_passed(check_given, &passed, &error) == KEYSQUARE_BAD_INPUT && passed == NULL);
    CHECK(is_error(error, "pass_in_check", "none", 0, 0));

    keysquare_position_free(check_given);
    keysquare_position_free(after);
    keysquare_position_free(start);
}

static void test_errors(void) {
    keysquare_position* position = NULL;
    keysquare_error* error = NULL;
    char* text = NULL;

    CHECK(keysquare_position_from_fen("rnbqkbnr/ppppxppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", KEYSQUARE_STRICT,
                                      &position, &error) == KEYSQUARE_BAD_INPUT);
    CHECK(position == NULL);
    CHECK(is_error(error, "bad_piece_letter", "placement", 1, 14));
    CHECK(keysquare_position_from_fen("", KEYSQUARE_STRICT, &position, &error) == KEYSQUARE_BAD_INPUT);
    keysquare_error_free(error);

    /* A right to castle without its rook: refused, or dropped where that was asked for. */
    CHECK(keysquare_position_from_fen("4k3/8/8/8/8/8/8/4K3 w K - 0 1", KEYSQUARE_STRICT, &position, NULL) ==
          KEYSQUARE_BAD_INPUT);
    CHECK(keysquare_position_from_fen("4k3/8/8/8/8/8/8/4K3 w K - 0 1", KEYSQUARE_LENIENT, &position, &error) ==
          KEYSQUARE_OK);
    CHECK(error == NULL);
    CHECK(keysquare_position_fen(position, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "4k3/8/8/8/8/8/8/4K3 w - - 0 1"));

    CHECK(keysquare_position_move(position, "Ke3", KEYSQUARE_SAN, &text, &error) == KEYSQUARE_BAD_INPUT);
    CHECK(strstr(keysquare_error_message(error), "no piece of that kind can go there") != NULL);
    CHECK(is_error(error, "no_such_piece", "move", 1, 1));

    CHECK(keysquare_position_from_fen("8/8/8/8/8/8/8/8 w - - 0 1", 2, &position, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(is_message(error, "strictness: 2 is not from 0 to 1"));
    CHECK(keysquare_position_legal_moves(position, -1, &text, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(is_message(error, "notation: -1 is not from 0 to 1"));
    CHECK(keysquare_candidates_json(position, 0, NULL, &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_threats_json(position, 2, NULL, &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_position_perft(position, 65, &(uint64_t){0}, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_diagram_svg(position, KEYSQUARE_WHITE, 10000, NULL, &text, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(strncmp(keysquare_error_message(error), "finding: 10000 where there are ", 31) == 0);
    CHECK(is_error(error, "none", "none", 0, 0));
    CHECK(keysquare_findings_json(position, "fr", &text, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(is_message(error, "language: no language is called \"fr\"; there are \"en\", \"de\""));
    CHECK(keysquare_threats_json(position, KEYSQUARE_WHITE, "", &text, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(is_message(error, "language: no language is called \"\"; there are \"en\", \"de\""));
    CHECK(keysquare_candidates_json(position, 1, "DE", &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_outlook_json(position, "german", &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_diagram_svg(position, KEYSQUARE_WHITE, -1, "fr", &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    keysquare_position_free(position);

    CHECK(strcmp(keysquare_error_message(NULL), "no error") == 0);
    CHECK(strcmp(keysquare_error_reason(NULL), "none") == 0 && strcmp(keysquare_error_field(NULL), "none") == 0);
    CHECK(keysquare_error_line(NULL) == 0 && keysquare_error_column(NULL) == 0);
}

static void test_sayings(void) {
    keysquare_position* position = position_of("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
    char* text = NULL;

    CHECK(keysquare_findings_json(position, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(strncmp(text, "{\"schema\":\"keysquare findings 1\",\"language\":\"en\",", 49) == 0);
    CHECK(strstr(text, "\"theme\":\"hanging\",\"detail\":\"unguarded\",\"side\":\"white\",\"squares\":[\"d5\"]") !=
          NULL);
    CHECK(holds_text(text, "\"gain\":5,\"mate\":false,\"mated\":false,\"line\":[\"e3d5\"],\"line_san\":\"1.Nxd5\""));
    CHECK(keysquare_threats_json(position, KEYSQUARE_WHITE, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"gain\":5,\"mate\":false,\"after_pass\":false,\"target\":\"d5\""));
    CHECK(keysquare_candidates_json(position, 1, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"move\":\"e3d5\",\"san\":\"Nxd5\",\"won\":{\"gain\":5,"));
    CHECK(keysquare_outlook_json(position, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"reasons\":[{\"fact\":\"wins\",\"amount\":5,"));

    CHECK(keysquare_diagram_svg(position, KEYSQUARE_BLACK, -1, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(strncmp(text, "<svg", 4) == 0);
    CHECK(strstr(text, "Arrows:") == NULL);
    CHECK(holds_text(text, "</svg>"));
    CHECK(keysquare_diagram_svg(position, KEYSQUARE_WHITE, 0, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "Arrows: from e3 to d5."));
    keysquare_position_free(position);
}

static const char pgn[] = "[Event \"A \\\"quoted\\\" event\"]\n\n1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0\n\n"
                          "[Event \"Broken\"]\n\n1. e4 e5 2. Kd5 *\n\n"
                          "[Event \"Third\"]\n\n1. d4 *\n";

/* The first sentence is one that the tests of C++, Python and JavaScript hold to, too. */
static void test_german(void) {
    static const char sentence[] = "\"sentence\":\"Weiß kann mit Sxd5 Material im Wert von 5 Bauern gewinnen: Der Turm "
                                   "auf d5 ist ungedeckt.\"";
    keysquare_position* position = position_of("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
    keysquare_games* games = NULL;
    char *text = NULL, *english = NULL;

    CHECK(keysquare_findings_json(position, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(strncmp(text, "{\"schema\":\"keysquare findings 1\",\"language\":\"de\",", 49) == 0);
    CHECK(strstr(text, "\"line_san\":\"1.Nxd5\"") != NULL);
    CHECK(holds_text(text, sentence));
    CHECK(keysquare_findings_json(position, NULL, &english, NULL) == KEYSQUARE_OK);
    CHECK(keysquare_findings_json(position, "en", &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, english));
    keysquare_text_free(english);
    CHECK(keysquare_threats_json(position, KEYSQUARE_WHITE, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"sentence\":\"Weiß kann mit Sxd5 Material im Wert von 5 Bauern gewinnen.\""));
    CHECK(keysquare_candidates_json(position, 1, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"sentence\":\"Sxd5 gewinnt Material im Wert von 5 Bauern (1.Sxd5)"));
    CHECK(keysquare_outlook_json(position, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"paragraph\":\"Weiß hat 3 nützliche Züge: Sxd5 (gewinnt Material im Wert von 5 Bauern)"));
    CHECK(keysquare_diagram_svg(position, KEYSQUARE_WHITE, 0, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "Pfeile: von e3 nach d5."));
    keysquare_position_free(position);

    CHECK(keysquare_games_from_text(pgn, sizeof pgn - 1, &games, NULL) == KEYSQUARE_OK);
    CHECK(keysquare_game_report_json(games, 0, 8, "de", &text, NULL) == KEYSQUARE_OK);
    CHECK(strstr(text, "\"numbered\":\"3...Bc5\"") != NULL);
    CHECK(strstr(text, "3...Lc5 übersieht, dass Weiß droht, mattzusetzen: 4.Dxf7#.") != NULL);
    CHECK(holds_text(text, "Schwarz ist am Zug. Zuerst: Was droht Weiß, und was lässt sich dagegen tun?"));
    CHECK(keysquare_game_report_json(games, 0, 8, "fr", &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    keysquare_games_free(games);
}

static void test_games(const char* file) {
    keysquare_games* games = NULL;
    keysquare_error* error = NULL;
    char* text = NULL;

    CHECK(keysquare_games_from_text(pgn, sizeof pgn - 1, &games, &error) == KEYSQUARE_OK && error == NULL);
    CHECK(keysquare_games_count(games) == 2 && keysquare_games_refused_count(games) == 1);
    CHECK(strcmp(keysquare_error_reason(keysquare_games_refused(games, 0)), "no_such_piece") == 0);
    CHECK(keysquare_error_line(keysquare_games_refused(games, 0)) == 7);
    CHECK(keysquare_error_column(keysquare_games_refused(games, 0)) == 13);
    CHECK(keysquare_games_refused(games, 1) == NULL);
    CHECK(keysquare_game_tag(games, 0, "Event", &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "A \"quoted\" event"));
    CHECK(keysquare_game_tag(games, 1, "Round", &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, ""));
    CHECK(keysquare_game_moves(games, 0, KEYSQUARE_SAN, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "e4 e5 Bc4 Nc6 Qf3 Bc5 Qxf7#"));
    CHECK(keysquare_game_moves(games, 1, KEYSQUARE_COORDINATES, &text, NULL) == KEYSQUARE_OK);
    CHECK(is_text(text, "d2d4"));

    CHECK(keysquare_game_report_json(games, 0, 8, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(
        strstr(
            text,
            "\"schema\":\"keysquare game report 1\",\"language\":\"en\",\"tags\":{\"Event\":\"A \\\"quoted\\\" event\"") !=
        NULL);
    CHECK(strstr(text, "\"turning_points\":[{\"ply\":6,\"numbered\":\"3...Bc5\"") != NULL);
    CHECK(holds_text(text, "First of all: what does White threaten"));
    CHECK(keysquare_game_report_json(games, 0, 0, NULL, &text, NULL) == KEYSQUARE_OK);
    CHECK(holds_text(text, "\"moments\":[]"));
    CHECK(keysquare_game_report_json(games, 0, -1, NULL, &text, NULL) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(keysquare_game_report_json(games, 2, 8, NULL, &text, &error) == KEYSQUARE_BAD_ARGUMENT);
    CHECK(is_message(error, "at: 2 where there are 2"));
    keysquare_games_free(games);

    CHECK(keysquare_games_from_text(pgn, 0, &games, NULL) == KEYSQUARE_OK && keysquare_games_count(games) == 0);
    keysquare_games_free(games);
    CHECK(keysquare_games_from_file(file, &games, NULL) == KEYSQUARE_OK && keysquare_games_count(games) == 4);
    keysquare_games_free(games);
    games = NULL;
    CHECK(keysquare_games_from_file("no-such-file.pgn.zst", &games, &error) == KEYSQUARE_BAD_INPUT && games == NULL);
    CHECK(strstr(keysquare_error_message(error), "no-such-file.pgn.zst") != NULL);
    CHECK(strcmp(keysquare_error_reason(error), "cannot_open") == 0);
    CHECK(strcmp(keysquare_error_field(error), "file") == 0);
    keysquare_error_free(error);
}

static void test_nulls(void) {
    const keysquare_status bad = KEYSQUARE_BAD_ARGUMENT;
    keysquare_position *start = NULL, *position = NULL;
    keysquare_games* games = NULL;
    keysquare_error* error = NULL;
    keysquare_side side = 0;
    int32_t flag = 0;
    uint64_t leaves = 0;
    char* text = NULL;
    CHECK(keysquare_position_start(&start, NULL) == KEYSQUARE_OK);

    CHECK(keysquare_position_fen(NULL, &text, &error) == bad);
    CHECK(is_message(error, "position: null"));
    CHECK(keysquare_position_fen(start, NULL, &error) == bad);
    CHECK(is_message(error, "fen: null"));
    CHECK(keysquare_position_start(NULL, NULL) == bad);
    CHECK(keysquare_position_from_fen(NULL, 0, &position, NULL) == bad);
    CHECK(keysquare_position_from_fen("8/8/8/8/8/8/8/8 w - - 0 1", 0, NULL, NULL) == bad);
    CHECK(keysquare_position_mover(NULL, &side, NULL) == bad && keysquare_position_mover(start, NULL, NULL) == bad);
    CHECK(keysquare_position_in_check(NULL, &flag, NULL) == bad);
    CHECK(keysquare_position_in_check(start, NULL, NULL) == bad);
    CHECK(keysquare_position_legal_moves(NULL, 0, &text, NULL) == bad);
    CHECK(keysquare_position_legal_moves(start, 0, NULL, NULL) == bad);
    CHECK(keysquare_position_move(NULL, "e4", 0, &text, NULL) == bad);
    CHECK(keysquare_position_move(start, NULL, 0, &text, NULL) == bad);
    CHECK(keysquare_position_move(start, "e4", 0, NULL, NULL) == bad);
    CHECK(keysquare_position_after(NULL, "e4", &position, NULL) == bad);
    CHECK(keysquare_position_after(start, NULL, &position, NULL) == bad);
    CHECK(keysquare_position_after(start, "e4", NULL, NULL) == bad);
    CHECK(keysquare_position_passed(NULL, &position, NULL) == bad);
    CHECK(keysquare_position_passed(start, NULL, NULL) == bad);
    CHECK(keysquare_position_perft(NULL, 1, &leaves, NULL) == bad);
    CHECK(keysquare_position_perft(start, 1, NULL, NULL) == bad);
    CHECK(keysquare_findings_json(NULL, NULL, &text, NULL) == bad &&
          keysquare_findings_json(start, NULL, NULL, NULL) == bad);
    CHECK(keysquare_threats_json(NULL, 0, NULL, &text, NULL) == bad &&
          keysquare_threats_json(start, 0, NULL, NULL, NULL) == bad);
    CHECK(keysquare_candidates_json(NULL, 4, NULL, &text, NULL) == bad);
    CHECK(keysquare_candidates_json(start, 4, NULL, NULL, NULL) == bad);
    CHECK(keysquare_outlook_json(NULL, NULL, &text, NULL) == bad &&
          keysquare_outlook_json(start, NULL, NULL, NULL) == bad);
    CHECK(keysquare_diagram_svg(NULL, 0, -1, NULL, &text, NULL) == bad);
    CHECK(keysquare_diagram_svg(start, 0, -1, NULL, NULL, NULL) == bad);
    CHECK(keysquare_games_from_text(NULL, 0, &games, NULL) == bad);
    CHECK(keysquare_games_from_text(pgn, 1, NULL, NULL) == bad);
    CHECK(keysquare_games_from_file(NULL, &games, NULL) == bad);
    CHECK(keysquare_games_from_file("no-such-file.pgn", NULL, NULL) == bad);
    CHECK(keysquare_games_count(NULL) == 0 && keysquare_games_refused_count(NULL) == 0);
    CHECK(keysquare_games_refused(NULL, 0) == NULL);
    CHECK(keysquare_game_tag(NULL, 0, "Event", &text, NULL) == bad);
    CHECK(keysquare_game_moves(NULL, 0, 0, &text, NULL) == bad);
    CHECK(keysquare_game_report_json(NULL, 0, 8, NULL, &text, NULL) == bad);
    CHECK(keysquare_games_from_text(pgn, sizeof pgn - 1, &games, NULL) == KEYSQUARE_OK);
    CHECK(keysquare_game_tag(games, 0, NULL, &text, NULL) == bad);
    CHECK(keysquare_game_tag(games, 0, "Event", NULL, NULL) == bad);
    CHECK(keysquare_game_moves(games, 0, 0, NULL, NULL) == bad);
    CHECK(keysquare_game_report_json(games, 0, 8, NULL, NULL, NULL) == bad);
    CHECK(text == NULL && position == NULL);

    keysquare_games_free(games);
    keysquare_position_free(start);
    keysquare_games_free(NULL);
    keysquare_position_free(NULL);
    keysquare_text_free(NULL);
    keysquare_error_free(NULL);
}

int main(int argc, char** argv) {
    if (argc != 3) {
        fprintf(stderr, "usage: consumer FEN FILE\n");
        return 2;
    }
    CHECK(strcmp(keysquare_version(), VERSION) == 0);
    test_positions();
    test_errors();
    test_sayings();
    test_german();
    test_games(argv[2]);
    test_nulls();
    if (failures == 0) printf("%d legal moves\n", legal_moves_of(argv[1]));
    return failures == 0 ? 0 : 1;
}
