/**
 * @file
 * The library for C, and for every language that can call C.
 *
 * **Results.** What the library says comes as JSON text in UTF-8; bindings/schema/ describes every document, each names
 * its schema and version. Search bounds and piece values are the usual ones of the C++ library.
 *
 * **Languages.** Where a `language` is asked for, it is that of the sentences: "en" or "de", or null for English.
 * Another code is answered with KEYSQUARE_BAD_ARGUMENT, and the message names those that there are. Errors are in
 * English.
 *
 * **Errors.** Every function that can fail returns a status and writes its results through pointers, which it leaves
 * alone unless the status is KEYSQUARE_OK. The last parameter may be null; otherwise `*error` is set: to null when all
 * went well, else to an error that says more and that the caller frees with keysquare_error_free(). (When memory has
 * run out it may be null all the same.) A null where an object, a text or a place for a result is needed is answered
 * with KEYSQUARE_BAD_ARGUMENT. That and KEYSQUARE_OUT_OF_MEMORY can come from every function that returns a status;
 * what else can go wrong stands at each. No exception leaves a function.
 *
 * **Owners.** What is written through a `char**` is the caller's, to be freed by keysquare_text_free() and by nothing
 * else; objects by the function named for them. Every free function takes null and does nothing then. A `const char*`
 * that is returned belongs to the object that was asked, and lives as long as that. What a caller hands over stays the
 * caller's, and is needed no longer when the function returns.
 *
 * **Threads.** There is no state but in the objects. Different objects may be used at the same time, and so may the
 * same object: nothing changes it. It may be freed when nobody uses it any more. A call ends in the thread that made
 * it, and can't be broken off.
 *
 * **What stays.** Names, parameters and numbers here stay as they are; functions and numbers are added. Until version
 * 1.0.0 that is promised within one minor version, which the name of the shared library tells. Objects are
 * opaque, so that what is in them may change.
 */
#ifndef KEYSQUARE_KEYSQUARE_H
#define KEYSQUARE_KEYSQUARE_H
/* NOLINTBEGIN(modernize-deprecated-headers,modernize-use-using): this is C */

#include <stddef.h>
#include <stdint.h>

/** Stands before what the library exports, so that it is seen from outside even when all else of a program that holds
 * the library is hidden. Not for callers. */
#if defined(__GNUC__) && !defined(_WIN32)
#define KEYSQUARE_API __attribute__((visibility("default")))
#else
#define KEYSQUARE_API
#endif

#ifdef __cplusplus
extern "C" {
#endif

/** How a call ended: one of KEYSQUARE_OK to KEYSQUARE_FAILED. */
typedef int32_t keysquare_status;
/** The values of a `keysquare_status`. Append only. */
enum {
    KEYSQUARE_OK = 0,            /**< all went well */
    KEYSQUARE_BAD_INPUT = 1,     /**< a text, a move or a file was refused; the error says why and where */
    KEYSQUARE_BAD_ARGUMENT = 2,  /**< a null pointer, or a number that names nothing; the message says which */
    KEYSQUARE_OUT_OF_MEMORY = 3, /**< nothing else was changed */
    KEYSQUARE_FAILED = 4         /**< what should not happen; the message says what it was */
};

/** A side: KEYSQUARE_WHITE or KEYSQUARE_BLACK. Another number is answered with KEYSQUARE_BAD_ARGUMENT. */
typedef int32_t keysquare_side;
/** The values of a `keysquare_side`. */
enum {
    KEYSQUARE_WHITE = 0, /**< White */
    KEYSQUARE_BLACK = 1  /**< Black */
};

/** How much of a FEN is accepted: KEYSQUARE_STRICT or KEYSQUARE_LENIENT. Another number is answered with
 * KEYSQUARE_BAD_ARGUMENT. */
typedef int32_t keysquare_strictness;
/** The values of a `keysquare_strictness`. */
enum {
    KEYSQUARE_STRICT = 0, /**< only positions that a game could give */
    KEYSQUARE_LENIENT = 1 /**< all that can be computed on; impossible castling and en passant rights are dropped */
};

/** How moves are written: KEYSQUARE_COORDINATES or KEYSQUARE_SAN. Another number is answered with
 * KEYSQUARE_BAD_ARGUMENT. */
typedef int32_t keysquare_notation;
/** The values of a `keysquare_notation`. */
enum {
    KEYSQUARE_COORDINATES = 0, /**< "g1f3", "e7e8q"; castling is the king's step, in Chess960 king and rook: "b1a1" */
    KEYSQUARE_SAN = 1          /**< "Nf3", "e8=Q+" */
};

/** Why a call failed, or a game was refused; never changes. Those that a call wrote are freed by
 * keysquare_error_free(), those of keysquare_games_refused() never. */
typedef struct keysquare_error keysquare_error;
/** A position; never changes. Freed by keysquare_position_free(). */
typedef struct keysquare_position keysquare_position;
/** The games of a text or a file; never changes. Freed by keysquare_games_free(). */
typedef struct keysquare_games keysquare_games;

/** The version of the library, "major.minor.patch". Lives for ever; not to be freed. */
KEYSQUARE_API const char* keysquare_version(void);

/** Frees a text that was written through a `char**`. Null is left alone. */
KEYSQUARE_API void keysquare_text_free(char* text);

/* ---- errors: what they say belongs to them and is not to be freed ------------------------------------------------ */

/** Frees an error that a call wrote through its last parameter. Null is left alone. */
KEYSQUARE_API void keysquare_error_free(keysquare_error* error);
/** The whole error as one line of English; "no error" of null. Lives as long as the error. What is quoted of a text
 * that was refused is at most 40 of its bytes, so it may end within a character. */
KEYSQUARE_API const char* keysquare_error_message(const keysquare_error* error);
/** Why, in snake case ("bad_rank_length"), the names of `keysquare::Reason`; "none" of null and when it is no matter of
 * a text. Lives as long as the error. */
KEYSQUARE_API const char* keysquare_error_reason(const keysquare_error* error);
/** Which part of the text ("placement", "move", "file"), the names of `keysquare::Field`; "none" of null and when it
 * has no parts. Lives as long as the error. */
KEYSQUARE_API const char* keysquare_error_field(const keysquare_error* error);
/** The line of the text, from 1; 0 of null and when it is no matter of a text. */
KEYSQUARE_API size_t keysquare_error_line(const keysquare_error* error);
/** The place in that line in bytes, from 1; 0 of null and when it is no matter of a text. */
KEYSQUARE_API size_t keysquare_error_column(const keysquare_error* error);

/* ---- positions -------------------------------------------------------------------------------------------------- */

/** The start position of chess. `*position` is to be freed by keysquare_position_free(). */
KEYSQUARE_API keysquare_status keysquare_position_start(keysquare_position** position, keysquare_error** error);
/** Reads a FEN of four to six fields, X-FEN and rook-file letters included. `*position` is to be freed by
 * keysquare_position_free(). KEYSQUARE_BAD_INPUT when it is refused: the error has the part and the column at fault. */
KEYSQUARE_API keysquare_status keysquare_position_from_fen(const char* fen, keysquare_strictness strictness,
                                                           keysquare_position** position, keysquare_error** error);
/** Frees a position. Null is left alone. */
KEYSQUARE_API void keysquare_position_free(keysquare_position* position);

/** The position as FEN of six fields; a castling right whose rook is not the outermost one is the letter of the rook's
 * file (X-FEN). `*fen` is to be freed by keysquare_text_free(). */
KEYSQUARE_API keysquare_status keysquare_position_fen(const keysquare_position* position, char** fen,
                                                      keysquare_error** error);
/** The side to move: KEYSQUARE_WHITE or KEYSQUARE_BLACK. */
KEYSQUARE_API keysquare_status keysquare_position_mover(const keysquare_position* position, keysquare_side* mover,
                                                        keysquare_error** error);
/** `*in_check`: 1 when the side to move stands in check, else 0. */
KEYSQUARE_API keysquare_status keysquare_position_in_check(const keysquare_position* position, int32_t* in_check,
                                                           keysquare_error** error);
/** All legal moves with a space between two of them; empty when there is none. Their order is the same in either
 * notation. `*moves` is to be freed by keysquare_text_free(). */
KEYSQUARE_API keysquare_status keysquare_position_legal_moves(const keysquare_position* position,
                                                              keysquare_notation notation, char** moves,
                                                              keysquare_error** error);
/** A legal move, given as SAN or coordinates, as it is written in the notation. `*written` is to be freed by
 * keysquare_text_free(). KEYSQUARE_BAD_INPUT when it is no legal move here: the reason says why. */
KEYSQUARE_API keysquare_status keysquare_position_move(const keysquare_position* position, const char* move,
                                                       keysquare_notation notation, char** written,
                                                       keysquare_error** error);
/** The position after a legal move, given as SAN or coordinates. `*after` is to be freed by keysquare_position_free().
 * KEYSQUARE_BAD_INPUT when it is no legal move here: the reason says why. */
KEYSQUARE_API keysquare_status keysquare_position_after(const keysquare_position* position, const char* move,
                                                        keysquare_position** after, keysquare_error** error);
/** The same position with the move handed over. `*passed` is to be freed by keysquare_position_free().
 * KEYSQUARE_BAD_INPUT (`pass_in_check`) when the mover is in check. */
KEYSQUARE_API keysquare_status keysquare_position_passed(const keysquare_position* position,
                                                         keysquare_position** passed, keysquare_error** error);
/** The leaves of the tree of legal moves of a depth from 0 to 64; another depth is answered with
 * KEYSQUARE_BAD_ARGUMENT. The time grows with the leaves: a second for a hundred millions, or some more. */
KEYSQUARE_API keysquare_status keysquare_position_perft(const keysquare_position* position, int32_t depth,
                                                        uint64_t* leaves, keysquare_error** error);

/* ---- what the library says of a position: JSON of the schema of that name ---------------------------------------- */

/** Everything that it sees, strongest first: JSON of findings.schema.json, to be freed by keysquare_text_free(). Gains
 * are in pawns. About half a millisecond. */
KEYSQUARE_API keysquare_status keysquare_findings_json(const keysquare_position* position, const char* language,
                                                       char** json, keysquare_error** error);
/** What a side would win if it were to move, strongest first; of the waiter, after a pass. JSON of threats.schema.json,
 * to be freed by keysquare_text_free(); its member `known` is false when the mover stands in check, so that the waiter
 * has no turn. Gains are in pawns. A quarter of a millisecond. */
KEYSQUARE_API keysquare_status keysquare_threats_json(const keysquare_position* position, keysquare_side side,
                                                      const char* language, char** json, keysquare_error** error);
/** The few moves of the mover that deserve a look, at most `at_most` (from 1, else KEYSQUARE_BAD_ARGUMENT; 4 is usual).
 * JSON of candidates.schema.json, to be freed by keysquare_text_free(). Gains are in pawns. Two milliseconds. */
KEYSQUARE_API keysquare_status keysquare_candidates_json(const keysquare_position* position, int32_t at_most,
                                                         const char* language, char** json, keysquare_error** error);
/** What both sides can usefully do: JSON of outlook.schema.json, to be freed by keysquare_text_free(). Two
 * milliseconds. */
KEYSQUARE_API keysquare_status keysquare_outlook_json(const keysquare_position* position, const char* language,
                                                      char** json, keysquare_error** error);

/* ---- diagrams ---------------------------------------------------------------------------------------------------- */

/** The position as one self-contained SVG element with `bottom` below, and in words for screen readers. With `finding`
 * from 0, that finding of keysquare_findings_json() is drawn, which works out the findings again; with -1 none; where
 * there is no such finding, KEYSQUARE_BAD_ARGUMENT. `*svg` is to be freed by keysquare_text_free(). */
KEYSQUARE_API keysquare_status keysquare_diagram_svg(const keysquare_position* position, keysquare_side bottom,
                                                     int32_t finding, const char* language, char** svg,
                                                     keysquare_error** error);

/* ---- games ------------------------------------------------------------------------------------------------------- */

/** Reads all games of a PGN text of `size` bytes, in UTF-8 or Latin-1, which need not end with a null, and keeps them
 * in memory. `*games` is to be freed by keysquare_games_free(). A game that can't be read is refused and costs no
 * other, nor the call its KEYSQUARE_OK. */
KEYSQUARE_API keysquare_status keysquare_games_from_text(const char* pgn, size_t size, keysquare_games** games,
                                                         keysquare_error** error);
/** The same from a file, ".pgn" or compressed as gzip, bzip2 or zstd. `path` is UTF-8. `*games` is to be freed by
 * keysquare_games_free(). KEYSQUARE_BAD_INPUT when the file can't be opened or its beginning can't be read: the reason
 * says why. One that breaks off gives the games before, and a refused one. */
KEYSQUARE_API keysquare_status keysquare_games_from_file(const char* path, keysquare_games** games,
                                                         keysquare_error** error);
/** Frees games, and the errors of those that were refused. Null is left alone. */
KEYSQUARE_API void keysquare_games_free(keysquare_games* games);

/** How many games were read; 0 of null. They are named by their place, from 0. */
KEYSQUARE_API size_t keysquare_games_count(const keysquare_games* games);
/** How many were refused; 0 of null. */
KEYSQUARE_API size_t keysquare_games_refused_count(const keysquare_games* games);
/** Why one of those was refused, by its place from 0: an error that belongs to `games`, lives as long as they and is
 * not to be freed. Null when there is no such. */
KEYSQUARE_API const keysquare_error* keysquare_games_refused(const keysquare_games* games, size_t at);

/** The value of a tag ("White") of the game at a place from 0, in UTF-8; empty when the game does not have it. `*value`
 * is to be freed by keysquare_text_free(). KEYSQUARE_BAD_ARGUMENT when there is no such game. */
KEYSQUARE_API keysquare_status keysquare_game_tag(const keysquare_games* games, size_t at, const char* name,
                                                  char** value, keysquare_error** error);
/** The moves of the main line of the game at a place from 0, with a space between two of them. `*moves` is to be freed
 * by keysquare_text_free(). KEYSQUARE_BAD_ARGUMENT when there is no such game. */
KEYSQUARE_API keysquare_status keysquare_game_moves(const keysquare_games* games, size_t at,
                                                    keysquare_notation notation, char** moves, keysquare_error** error);
/** The report of the game at a place from 0: what every move changed, where the game turned, and at most `at_most`
 * moments worth stopping at (from 0; 8 is usual). JSON of game_report.schema.json, to be freed by
 * keysquare_text_free(). KEYSQUARE_BAD_ARGUMENT when there is no such game or `at_most` is negative. One to two
 * milliseconds a ply. */
KEYSQUARE_API keysquare_status keysquare_game_report_json(const keysquare_games* games, size_t at, int32_t at_most,
                                                          const char* language, char** json, keysquare_error** error);

#ifdef __cplusplus
}
#endif

/* NOLINTEND(modernize-deprecated-headers,modernize-use-using) */
#endif
