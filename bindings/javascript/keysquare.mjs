/**
 * keysquare for JavaScript: says what a good teacher sees in a chess position, with proof. In browsers, in their workers
 * and in node; needs nothing but keysquare.wasm beside this file.
 *
 *     import { load } from "./keysquare.mjs";
 *     const ks = await load();
 *     for (const finding of ks.position(fen).findings()) console.log(finding.sentence);
 *
 * The objects that it gives back are the JSON documents that all languages share; bindings/schema/ describes every member.
 */

/** A text that was refused: a FEN, a move, a game. */
export class InputError extends Error {
  /**
   * @param {string} message The whole error as one line of English.
   * @param {{reason: string, field: string, line: number, column: number}} where
   */
  constructor(message, { reason, field, line, column }) {
    super(message);
    this.name = "InputError";
    /** Why, in snake case: "bad_piece_letter". */
    this.reason = reason;
    /** Which part of the text: "placement", "move"; "none" when it has no parts. */
    this.field = field;
    /** Where, from 1; 0 when it is no matter of a text. */
    this.line = line;
    /** Where in the line, from 1, in bytes of UTF-8. */
    this.column = column;
  }
}

// The numbers of keysquare.h.
const status = { ok: 0, badInput: 1, badArgument: 2, outOfMemory: 3 };
const sides = ["white", "black"];
const strict = 0;
const lenientReading = 1;
const notations = { coordinates: 0, san: 1 };

/** What is freed when its JavaScript object is gone. */
const forgotten = new FinalizationRegistry((release) => release());

/** A 32-bit number of C; what is no whole number, or too large for one, is refused here, for C would only see its low bits. */
function int32(value, parameter) {
  if (!Number.isInteger(value)) throw new TypeError(`${parameter}: ${String(value)} is not a whole number`);
  if (value !== (value | 0)) throw new RangeError(`${parameter}: ${value} is out of range`);
  return value;
}

function sideNumber(side, parameter) {
  const number = sides.indexOf(side);
  if (number < 0) throw new RangeError(`${parameter}: ${String(side)} is neither "white" nor "black"`);
  return number;
}

function string(value, parameter) {
  if (typeof value !== "string") throw new TypeError(`${parameter}: not a string`);
  return value;
}

/** The functions of keysquare.h in one instance of the module, called with JavaScript values. */
class Library {
  #c;
  #result; // where C writes: 8 bytes for a result, 4 for an error
  #encoder = new TextEncoder();
  #decoder = new TextDecoder("utf-8", { ignoreBOM: true });

  constructor(exports) {
    this.#c = exports;
    this.#result = this.#allocated(12);
  }

  /** The memory as it is now: when it grows, views of it come to nothing. */
  get #bytes() {
    return new Uint8Array(this.#c.memory.buffer);
  }
  get #view() {
    return new DataView(this.#c.memory.buffer);
  }

  get memorySize() {
    return this.#c.memory.buffer.byteLength;
  }

  #allocated(size) {
    const at = this.#c.malloc(size) >>> 0;
    if (at === 0) throw new RangeError("out of memory");
    return at;
  }

  /** Calls `body` with the place and the size of the bytes in memory. */
  withBytes(bytes, body) {
    const at = this.#allocated(bytes.length + 1);
    try {
      const memory = this.#bytes;
      memory.set(bytes, at);
      memory[at + bytes.length] = 0;
      return body(at, bytes.length);
    } finally {
      this.#c.free(at);
    }
  }

  /** The same with a text that C reads up to its first null: a null of its own would hide what follows. */
  withText(text, body) {
    // Another control character in its place is refused at the same place.
    return this.withBytes(this.#encoder.encode(text.replaceAll("\0", "\u0001")), body);
  }

  textAt(at) {
    const memory = this.#bytes;
    return this.#decoder.decode(memory.subarray(at, memory.indexOf(0, at)));
  }

  /** Calls a function of C whose last parameters are places for a result and an error, and throws what it says. */
  #call(name, parameters) {
    const error = this.#result + 8;
    const ended = this.#c[name](...parameters, this.#result, error);
    if (ended !== status.ok) throw this.#taken(ended, this.#view.getUint32(error, true));
  }

  /** The exception for an error that is ours, freed here. */
  #taken(ended, at) {
    if (at === 0) return new RangeError("out of memory"); // not even for the error
    const made = this.errorAt(at);
    this.#c.keysquare_error_free(at);
    if (ended === status.badInput) return made;
    if (ended === status.badArgument) return new RangeError(made.message);
    if (ended === status.outOfMemory) return new RangeError("out of memory");
    return new Error(made.message);
  }

  /** What an error in memory says; it stays there. */
  errorAt(at) {
    const c = this.#c;
    return new InputError(this.textAt(c.keysquare_error_message(at)), {
      reason: this.textAt(c.keysquare_error_reason(at)),
      field: this.textAt(c.keysquare_error_field(at)),
      line: c.keysquare_error_line(at),
      column: c.keysquare_error_column(at),
    });
  }

  /** The result of a function that gives a 32-bit number or an object. */
  number(name, ...parameters) {
    this.#call(name, parameters);
    return this.#view.getUint32(this.#result, true);
  }

  /** The result of a function that gives a 64-bit number. */
  count(name, ...parameters) {
    this.#call(name, parameters);
    return Number(this.#view.getBigUint64(this.#result, true));
  }

  /** The result of a function that gives a text. */
  text(name, ...parameters) {
    const at = this.number(name, ...parameters);
    try {
      return this.textAt(at);
    } finally {
      this.#c.keysquare_text_free(at);
    }
  }

  /** A function that can't fail. */
  plain(name, ...parameters) {
    return this.#c[name](...parameters);
  }
}

/** Knows what to free, but not the handle: otherwise that would never be forgotten. */
const releaseOf = (library, at, nameOfFree) => () => library.plain(nameOfFree, at);

/** Something that lives in the memory of the module until it is freed. */
class Handle {
  #at;
  #release;

  constructor(library, at, nameOfFree) {
    this.#at = at;
    this.#release = releaseOf(library, at, nameOfFree);
    forgotten.register(this, this.#release, this);
  }

  get at() {
    if (this.#at === 0) throw new Error("used after it was freed");
    return this.#at;
  }

  free() {
    if (this.#at === 0) return;
    this.#at = 0;
    forgotten.unregister(this);
    this.#release();
  }
}

/** Written moves as objects. */
function pairsOf(coordinates, san) {
  if (coordinates === "") return [];
  const written = san.split(" ");
  return coordinates.split(" ").map((move, at) => ({ move, san: written[at] }));
}

/** A position. It never changes. Used after `free()`, it throws. */
export class Position {
  #library;
  #handle;

  /** Not for callers: `ks.position(fen)` makes one. */
  constructor(library, at) {
    this.#library = library;
    this.#handle = new Handle(library, at, "keysquare_position_free");
  }

  #text(name, ...parameters) {
    return this.#library.text(name, this.#handle.at, ...parameters);
  }

  /** A text with sentences; C takes the language after its other parameters. */
  #said(language, name, ...parameters) {
    return this.#library.withText(string(language, "language"), (at) => this.#text(name, ...parameters, at));
  }

  /** The position as FEN. */
  get fen() {
    return this.#text("keysquare_position_fen");
  }

  /** The side to move: "white" or "black". */
  get mover() {
    return sides[this.#library.number("keysquare_position_mover", this.#handle.at)];
  }

  /** The side that is not to move. */
  get waiter() {
    return this.mover === "white" ? "black" : "white";
  }

  /** Whether the mover stands in check. */
  get moverInCheck() {
    return this.#library.number("keysquare_position_in_check", this.#handle.at) === 1;
  }

  /** All legal moves, each in coordinates and as SAN: `{ move: "g1f3", san: "Nf3" }`. */
  legalMoves() {
    const written = (notation) => this.#text("keysquare_position_legal_moves", notation);
    return pairsOf(written(notations.coordinates), written(notations.san));
  }

  /**
   * One legal move, in coordinates and as SAN.
   * @param {string} text The move as SAN or in coordinates.
   * @throws {InputError} When it is no legal move here; the reason says why.
   */
  legalMove(text) {
    return this.#library.withText(string(text, "move"), (at) => {
      const written = (notation) => this.#text("keysquare_position_move", at, notation);
      return { move: written(notations.coordinates), san: written(notations.san) };
    });
  }

  /**
   * The position after a legal move.
   * @param {string | {move: string}} move As SAN or in coordinates, or one of `legalMoves()`.
   * @throws {InputError} When it is no legal move here; the reason says why.
   */
  after(move) {
    const text = string(move?.move ?? move, "move");
    return this.#library.withText(text, (at) => this.#next("keysquare_position_after", at));
  }

  /** The same position with the move handed over; null when the mover is in check. */
  passed() {
    return this.moverInCheck ? null : this.#next("keysquare_position_passed");
  }

  #next(name, ...parameters) {
    return new Position(this.#library, this.#library.number(name, this.#handle.at, ...parameters));
  }

  /**
   * Everything that is seen in the position, strongest first.
   * @param {{language?: "en" | "de"}} options The language of the sentences, here and wherever it can be given.
   * @throws {RangeError | TypeError} When it is not known.
   */
  findings(options) {
    return JSON.parse(this.findingsJson(options)).findings;
  }

  /** The same as JSON, of bindings/schema/findings.schema.json. */
  findingsJson({ language = "en" } = {}) {
    return this.#said(language, "keysquare_findings_json");
  }

  /**
   * What a side would win if it were to move, strongest first. Empty, too, when it has no turn because the other side is
   * to move and stands in check; `known` in `threatsJson` tells that.
   * @param {"white" | "black"} side Without it the waiter, after a pass: what the opponent of the mover is up to.
   * @param {{language?: "en" | "de"}} options
   * @throws {RangeError | TypeError} When it is no side, or the language is not known.
   */
  threats(side, options) {
    return JSON.parse(this.threatsJson(side, options)).threats;
  }

  /** The same as JSON, of bindings/schema/threats.schema.json. */
  threatsJson(side = this.waiter, { language = "en" } = {}) {
    return this.#said(language, "keysquare_threats_json", sideNumber(side, "side"));
  }

  /**
   * The few moves of the mover that deserve a look, the best reasons first.
   * @param {{atMost?: number, language?: "en" | "de"}} options At most so many, from 1; fewer when fewer are worth a look.
   * @throws {RangeError | TypeError} When `atMost` is no such number, or the language is not known.
   */
  candidates(options) {
    return JSON.parse(this.candidatesJson(options)).candidates;
  }

  /** The same as JSON, of bindings/schema/candidates.schema.json. */
  candidatesJson({ atMost = 4, language = "en" } = {}) {
    return this.#said(language, "keysquare_candidates_json", int32(atMost, "atMost"));
  }

  /**
   * What both sides can usefully do.
   * @param {{language?: "en" | "de"}} options
   * @throws {RangeError | TypeError} When the language is not known.
   */
  outlook(options) {
    return JSON.parse(this.outlookJson(options));
  }

  /** The same as JSON, of bindings/schema/outlook.schema.json. */
  outlookJson({ language = "en" } = {}) {
    return this.#said(language, "keysquare_outlook_json");
  }

  /**
   * The position as one self-contained SVG element, black on white. It holds no text of the caller's, so it may go into a
   * page as it is.
   * @param {{bottom?: "white" | "black", finding?: number, language?: "en" | "de"}} options Which side is below, and which
   *   finding to draw: its place in `findings()`, from 0. The words, for screen readers, are in the language.
   * @throws {RangeError | TypeError} When there is no such side, finding or language.
   */
  diagram({ bottom = "white", finding, language = "en" } = {}) {
    if (finding !== undefined && int32(finding, "finding") < 0) throw new RangeError(`finding: ${finding} is below 0`);
    return this.#said(language, "keysquare_diagram_svg", sideNumber(bottom, "bottom"), finding ?? -1);
  }

  /**
   * The leaves of the tree of legal moves. The time grows with them: a second for some fifty millions.
   * @param {number} depth From 0 to 64.
   * @throws {RangeError | TypeError} When it is no such number.
   */
  perft(depth) {
    return this.#library.count("keysquare_position_perft", this.#handle.at, int32(depth, "depth"));
  }

  /** Gives its memory back at once. Otherwise that happens some time after nothing refers to it any more. */
  free() {
    this.#handle.free();
  }
}

/** One game of those that were read. It lives as long as they. */
export class Game {
  #library;
  #games;
  #place;

  /** Not for callers: `ks.games(pgn)` makes them. */
  constructor(library, games, place) {
    this.#library = library;
    this.#games = games;
    this.#place = place;
  }

  #text(name, ...parameters) {
    return this.#library.text(name, this.#games.at, this.#place, ...parameters);
  }

  /**
   * The value of a tag; empty when the game does not have it.
   * @param {string} name "White".
   */
  tag(name) {
    return this.#library.withText(string(name, "name"), (at) => this.#text("keysquare_game_tag", at));
  }

  /** The moves of the main line, each in coordinates and as SAN. */
  mainLine() {
    const written = (notation) => this.#text("keysquare_game_moves", notation);
    return pairsOf(written(notations.coordinates), written(notations.san));
  }

  /**
   * What every move changed, where the game turned, and the moments worth stopping at.
   * @param {{atMost?: number, language?: "en" | "de"}} options At most so many moments, from 0.
   * @throws {RangeError | TypeError} When `atMost` is no such number, or the language is not known.
   */
  report(options) {
    return JSON.parse(this.reportJson(options));
  }

  /** The same as JSON, of bindings/schema/game_report.schema.json. */
  reportJson({ atMost = 8, language = "en" } = {}) {
    const most = int32(atMost, "atMost");
    return this.#library.withText(string(language, "language"), (at) => this.#text("keysquare_game_report_json", most, at));
  }
}

/** The games of a PGN text. They never change. Used after `free()`, they throw. */
export class Games {
  #library;
  #handle;

  /** Not for callers: `ks.games(pgn)` makes them. */
  constructor(library, at) {
    this.#library = library;
    this.#handle = new Handle(library, at, "keysquare_games_free");
  }

  /** How many were read. */
  get length() {
    return this.#library.plain("keysquare_games_count", this.#handle.at);
  }

  /**
   * One of them; undefined when there is none.
   * @param {number} place From 0, or from -1 backwards.
   */
  at(place) {
    const from = Math.trunc(place) || 0;
    const index = from < 0 ? this.length + from : from;
    return index >= 0 && index < this.length ? new Game(this.#library, this.#handle, index) : undefined;
  }

  /** One game after the other. */
  *[Symbol.iterator]() {
    for (let place = 0; place < this.length; ++place) yield new Game(this.#library, this.#handle, place);
  }

  /** Why the games that could not be read were refused. A refused game costs no other. */
  get refused() {
    const count = this.#library.plain("keysquare_games_refused_count", this.#handle.at);
    return Array.from({ length: count }, (_, place) =>
      this.#library.errorAt(this.#library.plain("keysquare_games_refused", this.#handle.at, place)),
    );
  }

  /**
   * The reports of all games, one at a time.
   * @param {{atMost?: number, language?: "en" | "de"}} options At most so many moments of a game, from 0.
   * @throws {RangeError | TypeError} When `atMost` is no such number, or the language is not known.
   */
  *reports(options) {
    for (const game of this) yield game.report(options);
  }

  /** Gives the memory back at once. Otherwise that happens some time after nothing refers to the games any more. */
  free() {
    this.#handle.free();
  }
}

// `using position = ks.position(fen)`, where the language has it.
if (Symbol.dispose)
  for (const owner of [Position, Games])
    Object.defineProperty(owner.prototype, Symbol.dispose, { value: owner.prototype.free, configurable: true });

/** The library, ready to be asked. `load()` makes one. */
export class Keysquare {
  #library;

  /** Not for callers: use `load()`. */
  constructor(library) {
    this.#library = library;
  }

  /** The version of the library: "major.minor.patch". */
  get version() {
    return this.#library.textAt(this.#library.plain("keysquare_version"));
  }

  /** The bytes of memory that the module holds; it never gives any back, but uses them again. */
  get memorySize() {
    return this.#library.memorySize;
  }

  /**
   * A position.
   * @param {string} fen Four to six fields, X-FEN and rook-file letters included; without it the start of a game.
   * @param {{lenient?: boolean}} options Lenient: accepts, too, what no game could give but can be computed on.
   * @throws {InputError} When it can't be read; says why and where.
   */
  position(fen, { lenient = false } = {}) {
    const made = (name, ...parameters) => new Position(this.#library, this.#library.number(name, ...parameters));
    if (fen === undefined) return made("keysquare_position_start");
    const strictness = lenient ? lenientReading : strict;
    return this.#library.withText(string(fen, "fen"), (at) => made("keysquare_position_from_fen", at, strictness));
  }

  /**
   * The games of a PGN text. One that can't be read stands in `refused` and costs no other.
   * @param {string | Uint8Array} pgn The text, or the bytes of a file, in UTF-8 or Latin-1.
   * @throws {TypeError} When it is neither.
   */
  games(pgn) {
    const bytes = typeof pgn === "string" ? new TextEncoder().encode(pgn) : pgn;
    if (!(bytes instanceof Uint8Array)) throw new TypeError("pgn: neither a string nor a Uint8Array");
    return this.#library.withBytes(
      bytes,
      (at, size) => new Games(this.#library, this.#library.number("keysquare_games_from_text", at, size)),
    );
  }
}

/** The compiled module at an address; files where node reads them. */
async function compiled(address) {
  if (address.protocol === "file:" && globalThis.process?.versions?.node) {
    const { readFile } = await import("node:fs/promises");
    return WebAssembly.compile(await readFile(address));
  }
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} could not be loaded: ${response.status} ${response.statusText}`);
  // Compiles while it loads, where the server names the type that this needs.
  const type = response.headers.get("content-type") ?? "";
  if (type.startsWith("application/wasm")) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}

/** All that the module asks of its host: no files, no clock, no environment. */
const host = {
  env: { emscripten_notify_memory_growth() {} },
  wasi_snapshot_preview1: {
    proc_exit() {
      throw new Error("the library has stopped: load it again");
    },
  },
};

/**
 * Loads the library. Each call makes an instance of its own.
 * @param {string | URL | WebAssembly.Module | BufferSource} source Where keysquare.wasm is, if it is not beside this file; or
 *   its bytes; or compiled, as one that was sent to a worker.
 * @throws When it can't be fetched or compiled. A page with a Content-Security-Policy needs script-src 'wasm-unsafe-eval'.
 */
export async function load(source = new URL("./keysquare.wasm", import.meta.url)) {
  let module = source;
  if (typeof source === "string") module = await compiled(new URL(source, globalThis.location?.href ?? import.meta.url));
  else if (source instanceof URL) module = await compiled(source);
  else if (!(source instanceof WebAssembly.Module)) module = await WebAssembly.compile(source);
  const { exports } = await WebAssembly.instantiate(module, host);
  exports._initialize();
  return new Keysquare(new Library(exports));
}
