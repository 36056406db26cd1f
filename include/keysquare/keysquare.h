/*
 * keysquare.h: the library for C, and for every language that can call C.
 *
 * Results. What the library says comes as JSON text in UTF-8; bindings/schema/ describes every document, each names its
 * schema and version. Search bounds and piece values are the usual ones of the C++ library.
 *
 * Languages. Where a `language` is asked for, it is that of the sentences: "en" or "de", or null for English. Another
 * code is answered with KEYSQUARE_BAD_ARGUMENT, and the message names those that there are. Errors are in English.
 *
 * Errors. Every function that can fail returns a status and writes its results through pointers, which it leaves alone
 * unless the status is KEYSQUARE_OK. The last parameter may be null; otherwise `*error` is set: to null when all went
 * well, else to an error that says more and that the caller frees. (When memory has run out it may be null all the same.)
 * A null where an object, a text or a place for a result is needed is answered with KEYSQUARE_BAD_ARGUMENT. No exception
 * leaves a function.
 *
 * Owners. What is written through a `char**` is the caller's, to be freed by keysquare_text_free and by nothing else;
 * objects by the function named for them. Every free function takes null and does nothing then. A `const char*` that is
 * returned belongs to the object that was asked, and lives as long as that.
 *
 * Threads. There is no state but in the objects. Different objects may be used at the same time, and so may the same
 * object: nothing changes it. It may be freed when nobody uses it any more.
 *
 * What stays. Names, parameters and numbers here stay as they are; functions and numbers are added. Until version 1.0.0
 * that is promised within one minor version (0.1.x), which the name of the shared library tells. Objects are opaque, so
 * that what is in them may change.
 */
#ifndef KEYSQUARE_KEYSQUARE_H
#define KEYSQUARE_KEYSQUARE_H
/* NOLINTBEGIN(modernize-deprecated-headers,modernize-use-using): this is C */

#include <stddef.h>
#include <stdint.h>

/* Seen from outside, even when all else of a program that holds the library is hidden. */
#if defined(__GNUC__) && !defined(_WIN32)
#define KEYSQUARE_API __attribute__((visibility("default")))
#else
#define KEYSQUARE_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* How a call ended. Append only. */
typedef int32_t keysquare_status;
enum {
    KEYSQUARE_OK = 0,            /**< all went well */
    KEYSQUARE_BAD_INPUT = 1,     /**< a text, a move or a file was refused; the error says why and where */
    KEYSQUARE_BAD_ARGUMENT = 2,  /**< a null pointer, or a number that names nothing; the message says which */
    KEYSQUARE_OUT_OF_MEMORY = 3, /**< nothing else was changed */
    KEYSQUARE_FAILED = 4         /**< what should not happen; the message says what it was */
};

typedef int32_t keysquare_side;
enum { KEYSQUARE_WHITE = 0 /**< the side */, KEYSQUARE_BLACK = 1 /**< the side */ };

/* How much a FEN may hold: only positions that a game could give, or all that can be computed on. */
typedef int32_t keysquare_strictness;
enum { KEYSQUARE_STRICT = 0 /**< positions of games */, KEYSQUARE_LENIENT = 1 /**< composed ones, too */ };

/* How moves are written: "g1f3", "e7e8q", or "Nf3", "e8=Q+". */
typedef int32_t keysquare_notation;
enum { KEYSQUARE_COORDINATES = 0 /**< "g1f3" */, KEYSQUARE_SAN = 1 /**< "Nf3" */ };

typedef struct keysquare_error keysquare_error;       /* why a call failed */
typedef struct keysquare_position keysquare_position; /* a position; never changes */
typedef struct keysquare_games keysquare_games;       /* the games of a text or a file; never changes */

/* The version of the library, "0.1.0". Lives for ever. */
KEYSQUARE_API const char* keysquare_version(void);

/* Frees a text that was written through a `char**`. */
KEYSQUARE_API void keysquare_text_free(char* text);

/* ---- errors: of a null error, "no error" and 0 ----------------------------------------------------------------- */

KEYSQUARE_API void keysquare_error_free(keysquare_error* error);
/* The whole error as one line of English. */
KEYSQUARE_API const char* keysquare_error_message(const keysquare_error* error);
/* Why, in snake case ("bad_rank_length"); "none" when it is no matter of a text. */
KEYSQUARE_API const char* keysquare_error_reason(const keysquare_error* error);
/* Which part of the text ("placement", "move", "file"); "none" when it has no parts. */
KEYSQUARE_API const char* keysquare_error_field(const keysquare_error* error);
/* Where, from 1; the column in bytes. 0 when it is no matter of a text. */
KEYSQUARE_API size_t keysquare_error_line(const keysquare_error* error);
KEYSQUARE_API size_t keysquare_error_column(const keysquare_error* error);

/* ---- positions -------------------------------------------------------------------------------------------------- */

KEYSQUARE_API keysquare_status keysquare_position_start(keysquare_position** position, keysquare_error** error);
/* Reads a FEN of four to six fields, X-FEN and rook-file letters included. */
KEYSQUARE_API keysquare_status keysquare_position_from_fen(const char* fen, keysquare_strictness strictness,
                                                           keysquare_position** position, keysquare_error** error);
KEYSQUARE_API void keysquare_position_free(keysquare_position* position);

KEYSQUARE_API keysquare_status keysquare_position_fen(const keysquare_position* position, char** fen,
                                                      keysquare_error** error);
KEYSQUARE_API keysquare_status keysquare_position_mover(const keysquare_position* position, keysquare_side* mover,
                                                        keysquare_error** error);
/* `*in_check`: 1 when the side to move stands in check, else 0. */
KEYSQUARE_API keysquare_status keysquare_position_in_check(const keysquare_position* position, int32_t* in_check,
                                                           keysquare_error** error);
/* All legal moves with a space between two of them; empty when there is none. */
KEYSQUARE_API keysquare_status keysquare_position_legal_moves(const keysquare_position* position,
                                                              keysquare_notation notation, char** moves,
                                                              keysquare_error** error);
/* A legal move, given as SAN or coordinates, as it is written in the notation. */
KEYSQUARE_API keysquare_status keysquare_position_move(const keysquare_position* position, const char* move,
                                                       keysquare_notation notation, char** written,
                                                       keysquare_error** error);
/* The position after a legal move, given as SAN or coordinates. */
KEYSQUARE_API keysquare_status keysquare_position_after(const keysquare_position* position, const char* move,
                                                        keysquare_position** after, keysquare_error** error);
/* The same position with the move handed over. KEYSQUARE_BAD_INPUT (`pass_in_check`) when the mover is in check. */
KEYSQUARE_API keysquare_status keysquare_position_passed(const keysquare_position* position,
                                                         keysquare_position** passed, keysquare_error** error);
/* The leaves of the tree of legal moves of a depth from 0 to 64. The time grows with the leaves: a second for a hundred
 * millions, or some more. */
KEYSQUARE_API keysquare_status keysquare_position_perft(const keysquare_position* position, int32_t depth,
                                                        uint64_t* leaves, keysquare_error** error);

/* ---- what the library says of a position: JSON of the schema of that name ---------------------------------------- */

/* Everything that it sees, strongest first. About half a millisecond. */
KEYSQUARE_API keysquare_status keysquare_findings_json(const keysquare_position* position, const char* language,
                                                       char** json, keysquare_error** error);
/* What a side would win if it were to move, strongest first; of the waiter, after a pass. A quarter of a millisecond. */
KEYSQUARE_API keysquare_status keysquare_threats_json(const keysquare_position* position, keysquare_side side,
                                                      const char* language, char** json, keysquare_error** error);
/* The few moves of the mover that deserve a look, at most `at_most` (from 1; 4 is usual). Two milliseconds. */
KEYSQUARE_API keysquare_status keysquare_candidates_json(const keysquare_position* position, int32_t at_most,
                                                         const char* language, char** json, keysquare_error** error);
/* What both sides can usefully do. Two milliseconds. */
KEYSQUARE_API keysquare_status keysquare_outlook_json(const keysquare_position* position, const char* language,
                                                      char** json, keysquare_error** error);

/* ---- diagrams ---------------------------------------------------------------------------------------------------- */

/* The position as one self-contained SVG element with `bottom` below, and in words for screen readers. With `finding` from
 * 0, that finding of keysquare_findings_json is drawn, which works out the findings again; with -1 none. */
KEYSQUARE_API keysquare_status keysquare_diagram_svg(const keysquare_position* position, keysquare_side bottom,
                                                     int32_t finding, const char* language, char** svg,
                                                     keysquare_error** error);

/* ---- games -------------------------------------------------------------------------------------------------------- */

/* Reads all games of a PGN text of `size` bytes. A game that can't be read is refused and costs no other. */
KEYSQUARE_API keysquare_status keysquare_games_from_text(const char* pgn, size_t size, keysquare_games** games,
                                                         keysquare_error** error);
/* The same from a file, ".pgn" or compressed as gzip, bzip2 or zstd. `path` is UTF-8. KEYSQUARE_BAD_INPUT when the file
 * can't be opened; one that breaks off gives the games before, and a refused one. */
KEYSQUARE_API keysquare_status keysquare_games_from_file(const char* path, keysquare_games** games,
                                                         keysquare_error** error);
KEYSQUARE_API void keysquare_games_free(keysquare_games* games);

/* How many games were read; 0 of null. They are named by their place, from 0. */
KEYSQUARE_API size_t keysquare_games_count(const keysquare_games* games);
/* How many were refused; 0 of null. */
KEYSQUARE_API size_t keysquare_games_refused_count(const keysquare_games* games);
/* Why one of those was refused, by its place from 0: an error that belongs to `games`. Null when there is no such. */
KEYSQUARE_API const keysquare_error* keysquare_games_refused(const keysquare_games* games, size_t at);

/* The value of a tag of a game; empty when the game does not have it. */
KEYSQUARE_API keysquare_status keysquare_game_tag(const keysquare_games* games, size_t at, const char* name,
                                                  char** value, keysquare_error** error);
/* The moves of the main line with a space between two of them. */
KEYSQUARE_API keysquare_status keysquare_game_moves(const keysquare_games* games, size_t at,
                                                    keysquare_notation notation, char** moves, keysquare_error** error);
/* The report of a game, as JSON: what every move changed, where the game turned, and at most `at_most` moments worth
 * stopping at (from 0; 8 is usual). One to two milliseconds a ply. */
KEYSQUARE_API keysquare_status keysquare_game_report_json(const keysquare_games* games, size_t at, int32_t at_most,
                                                          const char* language, char** json, keysquare_error** error);

#ifdef __cplusplus
}
#endif

/* NOLINTEND(modernize-deprecated-headers,modernize-use-using) */
#endif
