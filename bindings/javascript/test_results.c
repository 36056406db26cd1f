/* What the library says of the positions of one file and of the games of another, as text; test_results.mjs is the same in
 * JavaScript, and the tests hold the one to the other. With a third argument: goes so many times through the findings of
 * all positions and prints the seconds of processor time. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <keysquare/keysquare.h>

static void must(keysquare_status status) {
    if (status == KEYSQUARE_OK) return;
    fprintf(stderr, "a call failed with status %d\n", (int)status);
    exit(1);
}

static void print_text(char* text) {
    puts(text);
    keysquare_text_free(text);
}

/* The first four fields of a line. */
static keysquare_position* position_of(char* line) {
    keysquare_position* position = NULL;
    char* end = line;
    for (int field = 0; field < 4 && end; ++field) end = strpbrk(field ? end + 1 : end, " \n");
    if (end) *end = '\0';
    must(keysquare_position_from_fen(line, KEYSQUARE_STRICT, &position, NULL));
    return position;
}

static const char* const languages[] = {NULL, "de"};

static void print_position(const keysquare_position* position) {
    keysquare_side mover;
    int32_t in_check;
    uint64_t leaves;
    char* text;
    must(keysquare_position_fen(position, &text, NULL));
    print_text(text);
    must(keysquare_position_mover(position, &mover, NULL));
    puts(mover == KEYSQUARE_WHITE ? "white" : "black");
    must(keysquare_position_in_check(position, &in_check, NULL));
    puts(in_check ? "true" : "false");
    for (keysquare_notation notation = KEYSQUARE_COORDINATES; notation <= KEYSQUARE_SAN; ++notation) {
        must(keysquare_position_legal_moves(position, notation, &text, NULL));
        print_text(text);
    }
    must(keysquare_position_perft(position, 2, &leaves, NULL));
    printf("%llu\n", (unsigned long long)leaves);
}

/* What is said of a position in a language. */
static void print_said(const keysquare_position* position, const char* language) {
    char* text;
    must(keysquare_findings_json(position, language, &text, NULL));
    print_text(text);
    for (keysquare_side side = KEYSQUARE_WHITE; side <= KEYSQUARE_BLACK; ++side) {
        must(keysquare_threats_json(position, side, language, &text, NULL));
        print_text(text);
    }
    must(keysquare_candidates_json(position, 4, language, &text, NULL));
    print_text(text);
    must(keysquare_outlook_json(position, language, &text, NULL));
    print_text(text);
    must(keysquare_diagram_svg(position, KEYSQUARE_WHITE, -1, language, &text, NULL));
    print_text(text);
    must(keysquare_diagram_svg(position, KEYSQUARE_BLACK, 0, language, &text, NULL));
    print_text(text);
}

static void print_games(const char* path) {
    keysquare_games* games;
    char* text;
    must(keysquare_games_from_file(path, &games, NULL));
    printf("%zu\n%zu\n", keysquare_games_count(games), keysquare_games_refused_count(games));
    for (size_t at = 0; at < keysquare_games_count(games); ++at) {
        must(keysquare_game_tag(games, at, "White", &text, NULL));
        print_text(text);
        for (keysquare_notation notation = KEYSQUARE_COORDINATES; notation <= KEYSQUARE_SAN; ++notation) {
            must(keysquare_game_moves(games, at, notation, &text, NULL));
            print_text(text);
        }
        for (int language = 0; language < 2; ++language) {
            must(keysquare_game_report_json(games, at, 8, languages[language], &text, NULL));
            print_text(text);
        }
    }
    keysquare_games_free(games);
}

static void look(const keysquare_position* position) {
    char* text;
    must(keysquare_findings_json(position, NULL, &text, NULL));
    keysquare_text_free(text);
}

int main(int count, char** arguments) {
    enum { most = 1000 };
    static keysquare_position* positions[most];
    char line[400];
    int read = 0;
    FILE* file = count >= 3 ? fopen(arguments[1], "r") : NULL;
    if (!file) return fprintf(stderr, "needs a file of positions and a file of games\n"), 2;
    while (read < most && fgets(line, sizeof line, file)) positions[read++] = position_of(line);
    fclose(file);
    if (count == 3) {
        for (int at = 0; at < read; ++at) {
            print_position(positions[at]);
            for (int language = 0; language < 2; ++language) print_said(positions[at], languages[language]);
        }
        print_games(arguments[2]);
    } else {
        const clock_t begun = clock();
        for (int times = atoi(arguments[3]); times > 0; --times)
            for (int at = 0; at < read; ++at) look(positions[at]);
        printf("%.6f\n", (double)(clock() - begun) / CLOCKS_PER_SEC);
    }
    for (int at = 0; at < read; ++at) keysquare_position_free(positions[at]);
    return 0;
}
