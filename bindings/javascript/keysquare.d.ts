/// <reference lib="esnext.disposable" />
// Types of keysquare.mjs, and the reference of the package: make_reference.sh fails when a public name has no comment.
// The JSON types are those of bindings/schema/; test_node.mjs holds their members to it, and what is said of them.

/** A side. */
export type Side = "white" | "black";
/** The language of sentences; English where nothing is said. */
export type Language = "en" | "de";
/** File and rank: "e4". */
export type Square = string;
/** In coordinate notation: "g1f3", "e7e8q". */
export type CoordinateMove = string;

/** A move as it is written. */
export interface WrittenMove {
  /** In coordinates: "g1f3". */
  move: CoordinateMove;
  /** As SAN: "Nf3". */
  san: string;
}

/** A piece where it stands. */
export interface PlacedPiece {
  /** A square: file and rank. */
  square: Square;
  /** A piece: its side and kind. "white knight". */
  piece: string;
}

/** What a calculation found for the side that makes the first move of the line. */
export interface Outcome {
  /** The material balance at the end of the line minus the balance at its start, in pawns. */
  gain: number;
  /** The line ends with checkmate by the side that makes its first move. */
  mate: boolean;
  /** The line ends with checkmate of that side. */
  mated: boolean;
  /** False when the node bound stopped the search: then the rest means nothing. */
  complete: boolean;
  /** Legal moves in turn. */
  line: CoordinateMove[];
}

/** One fact about a move. */
export interface Reason {
  /** A kind of fact about a move. "wins", "develops", ... */
  fact: string;
  /** How much of it; negative when the move makes it worse for the side that moves. */
  amount: number;
  /** Where it is seen. */
  squares: Square[];
}

/** One statement about one position, with its witness. */
export interface Finding {
  /** The position as FEN. */
  fen: string;
  /** What a finding is about. "overloaded", "pin", ... */
  theme: string;
  /** The particular case within the theme; null when there are none. "locked", "absolute", ... */
  detail: string | null;
  /** The side that it is good for; in a warning, the side that is warned. */
  side: Side;
  /** The squares that it is about or that were counted. */
  squares: Square[];
  /** The pieces that it is about, the main one first. */
  pieces: PlacedPiece[];
  /** What the line wins for the side, in pawns. Negative when it loses. */
  gain: number;
  /** The line ends in checkmate by the side. */
  mate: boolean;
  /** A warning whose line ends in checkmate of the side. */
  mated: boolean;
  /**
   * The moves that show it, from the position, after a pass where after_pass, without the man on removed; empty when it
   * is a count.
   */
  line: CoordinateMove[];
  /** The line as people write it. */
  line_san: string;
  /** A second line from the same place that shows the idea when the other side plays along; mostly empty. */
  point: CoordinateMove[];
  /** The same as people write it. */
  point_san: string;
  /** The lines start from the position with the move handed over. */
  after_pass: boolean;
  /** The square of the man that the lines do without; null when there is none. */
  removed: Square | null;
  /** Its counts by name. */
  numbers: Record<string, number>;
  /** Its place in the ranking; larger is mentioned earlier. */
  weight: number;
  /** One sentence; it says nothing that the other members do not hold. */
  sentence: string;
}

/** One thing that a side would win if it were to move. */
export interface Threat {
  /** The position as FEN. */
  fen: string;
  /** The side that threatens. */
  side: Side;
  /** What the line wins for the side, in pawns. */
  gain: number;
  /** The line ends in checkmate by the side. */
  mate: boolean;
  /** The line starts from the position with the move handed over. */
  after_pass: boolean;
  /**
   * The square of the first man that the side takes on the line, or where it promotes; for a mate, where the last move
   * arrives.
   */
  target: Square;
  /** Where the men stand that the side takes on the line, and the king that it mates. */
  squares: Square[];
  /** The move and the best replies. */
  line: CoordinateMove[];
  /** The line as people write it. */
  line_san: string;
  /** One sentence; it says nothing that the other members do not hold. */
  sentence: string;
}

/** A move that deserves a look. */
export interface Candidate {
  /** The position as FEN. */
  fen: string;
  /**
   * A move in coordinate notation: origin, target and the letter of a promotion. Castling is the king's step, or in
   * Chess960 the squares of king and rook.
   */
  move: CoordinateMove;
  /** The move as SAN. */
  san: string;
  /** What the move wins, whatever the reply: the line starts with it. Null when it wins nothing. */
  won: Outcome | null;
  /** What its side has when the other side replies with captures and checks: the line starts with the move. */
  kept: Outcome;
  /** What would follow if the other side passed after the move; null when that is nothing. */
  threat: Outcome | null;
  /** It loses material; only where every move does. */
  loses: boolean;
  /** What speaks for it, most first. */
  reasons: Reason[];
  /** What speaks against it, most first. */
  drawbacks: Reason[];
  /** The strongest threat of the other side, where the move stops it. */
  parried: Threat | null;
  /** The best reply of the other side, where one wins something: the line starts after the move. */
  allowed: Outcome | null;
  /** One sentence; it says nothing that the other members do not hold. */
  sentence: string;
}

/** A move that does something useful. */
export interface UsefulMove {
  /**
   * A move in coordinate notation: origin, target and the letter of a promotion. Castling is the king's step, or in
   * Chess960 the squares of king and rook.
   */
  move: CoordinateMove;
  /** The move as SAN. */
  san: string;
  /** Why it is useful. */
  reasons: Reason[];
  /** What the move wins, whatever the reply: the line starts with it. Null when it wins nothing. */
  won: Outcome | null;
  /** What would follow if the other side passed after the move; null when that is nothing. */
  threat: Outcome | null;
}

/** The best square that a piece can safely get to in one or two moves. */
export interface BestSquare {
  /** A piece: its side and kind. */
  piece: string;
  /** Where it stands. */
  from: Square;
  /** Where it is best. */
  square: Square;
  /** A shortest safe way there. */
  route: CoordinateMove[];
  /** What is better when it stands there. */
  gains: Reason[];
}

/** What one side can do. */
export interface SideOutlook {
  /** The position as FEN. */
  fen: string;
  /** A side. */
  side: Side;
  /** False, and nothing else is said, when the side has no turn because the other one stands in check. */
  known: boolean;
  /** The other side is to move, and passes first. */
  after_pass: boolean;
  /** It stands in check; nothing is said about plans and best squares then. */
  in_check: boolean;
  /** Its legal moves. */
  legal: number;
  /** The moves that do something useful. */
  useful: UsefulMove[];
  /** The other safe moves. */
  merely_safe: CoordinateMove[];
  /** Of several legal moves the one that keeps the material; null when there is no such one. */
  only_move: CoordinateMove | null;
  /** Its threats, strongest first. */
  threats: Threat[];
  /** Of the pieces that have one. */
  best_squares: BestSquare[];
  /** It may move and is not in check, and has neither a useful move nor a piece with a better square. */
  no_plan: boolean;
  /** It in a few sentences. */
  paragraph: string;
}

/** What both sides can usefully do. */
export interface Outlook {
  /** The name and the version of this schema. */
  schema: string;
  /**
   * The language of the sentences (ISO 639-1). Nothing else depends on it: moves keep the letters of SAN, names stay as
   * they are.
   */
  language: Language;
  /** The position as FEN. */
  fen: string;
  /** What one side can do. */
  white: SideOutlook;
  /** What one side can do. */
  black: SideOutlook;
  /** Neither side has a plan: no threats, no useful moves, no better squares. */
  equilibrium: boolean;
  /** It in a few sentences. */
  paragraph: string;
}

/** Who is ahead by material, with what the side to move can win at once; ahead is by two pawns and more. */
export type Lead = "black_mates" | "black_ahead" | "level" | "white_ahead" | "white_mates";

/** What the material comes to when the side to move takes its strongest chance. */
export interface Standing {
  /** White's material less Black's, in pawns, with what the side to move can win at once. */
  pawns: number;
  /** The side that mates with it; null when there is no mate. */
  mating: Side | null;
  /** Who is ahead by material, with what the side to move can win at once; ahead is by two pawns and more. */
  lead: Lead;
}

/** One thing that a move did, or failed to do. */
export interface Effect {
  /** What the move did about something that could be won. */
  kind: "exploited" | "missed" | "allowed" | "overlooked";
  /** What a teacher calls it: a theme, or other. "fork", ... */
  theme: string;
  /**
   * What is won: by the side that moved (exploited, missed), by the other side after the move (allowed) or, after a
   * pass, before it (overlooked).
   */
  win: Threat;
  /** In pawns. Exploited: the gain; missed: the gain less that of the move; otherwise what the move concedes. */
  cost: number;
  /** Allowed, overlooked: what the better move concedes; otherwise 0. */
  left: number;
  /** The better move; null for exploited. */
  better: CoordinateMove | null;
  /** The same as SAN. */
  better_san: string | null;
  /** One sentence; it says nothing that the other members do not hold. */
  sentence: string;
}

/** The game after one ply; the first one stands for the start. */
export interface Ply {
  /** The number of the move, from 1; 0 for the start. */
  ply: number;
  /** The move that led here; null for the start. */
  move: CoordinateMove | null;
  /** The move with its number, as people write it; empty for the start. */
  numbered: string;
  /** The position as FEN. */
  fen: string;
  /** All findings of the position, strongest first. */
  findings: Finding[];
  /** The places in findings, from 0, of those that were none before the move. */
  created: number[];
  /** The findings of the position before that are none any more. */
  removed: Finding[];
  /** What the side to move can win at once. */
  chances: Threat[];
  /** What the other side would win after a pass. */
  threats: Threat[];
  /** What the material comes to when the side to move takes its strongest chance. */
  standing: Standing;
  /** What the move did; at most one of each kind. */
  effects: Effect[];
}

/** A move after which the lead is another one, though a better move was there. */
export interface TurningPoint {
  /** The number of the move, from 1. */
  ply: number;
  /** The move with its number, as people write it; empty for the start. */
  numbered: string;
  /** Who is ahead by material, with what the side to move can win at once; ahead is by two pawns and more. */
  before: Lead;
  /** Who is ahead by material, with what the side to move can win at once; ahead is by two pawns and more. */
  after: Lead;
  /** The reason. */
  effect: Effect;
}

/** A position worth stopping at, with what to ask there. */
export interface Moment {
  /** Plies played before the position. */
  ply: number;
  /** The position to show with the question. */
  fen: string;
  /** The move that led to it, with its number; empty for the start. */
  moved: string;
  /** The move that followed in the game, with its number; null at its end. */
  played: string | null;
  /** What a teacher calls it: a theme, or other. "fork", ... */
  theme: string;
  /** What the move that followed did, where the moment is about it. */
  effect: Effect | null;
  /** How much it teaches, only to be compared with other moments of the same game. */
  worth: number;
  /** What to look at there; of an allowed reply those of the position after the move. */
  findings: Finding[];
  /** What to ask there. */
  question: string;
  /** The answer. */
  answer: string;
  /** The end of the answer that speaks of the move; empty where the moment is about the position. */
  verdict: string;
}

/** A game as a teacher goes through it. */
export interface GameReport {
  /** The name and the version of this schema. */
  schema: string;
  /**
   * The language of the sentences (ISO 639-1). Nothing else depends on it: moves keep the letters of SAN, names stay as
   * they are.
   */
  language: Language;
  /** The tags of the game. */
  tags: Record<string, string>;
  /** How it ended. */
  result: "1-0" | "0-1" | "1/2-1/2" | "*";
  /** The game after every ply; the first one stands for the start, without a move. */
  plies: Ply[];
  /** In the order of the game. */
  turning_points: TurningPoint[];
  /** Positions worth stopping at, in the order of the game. */
  moments: Moment[];
}

/** A text that was refused: a FEN, a move, a game. */
export class InputError extends Error {
  /** From the whole error as one line of English, and what the members are to be. */
  constructor(message: string, where: { reason: string; field: string; line: number; column: number });
  /** Why, in snake case: "bad_piece_letter". */
  readonly reason: string;
  /** Which part of the text: "placement", "move"; "none" when it has no parts. */
  readonly field: string;
  /** The line of the text, from 1; 0 when it is no matter of a text. */
  readonly line: number;
  /** The place in that line, from 1, in bytes of UTF-8; 0 when it is no matter of a text. */
  readonly column: number;
}

/**
 * A position. It never changes. Used after `free()`, it throws. A side, a number or a language that can't be meant is a
 * `RangeError` or `TypeError`.
 */
export class Position {
  private constructor();
  /** The position as FEN. */
  readonly fen: string;
  /** The side to move. */
  readonly mover: Side;
  /** The side that is not to move. */
  readonly waiter: Side;
  /** Whether the mover stands in check. */
  readonly moverInCheck: boolean;
  /** All legal moves. */
  legalMoves(): WrittenMove[];
  /** One legal move, given as SAN or in coordinates. Throws `InputError` when it is none. */
  legalMove(text: string): WrittenMove;
  /** The position after a legal move. Throws `InputError` when it is none. */
  after(move: string | { move: CoordinateMove }): Position;
  /** The same position with the move handed over; null when the mover is in check. */
  passed(): Position | null;
  /** Everything that is seen in the position, strongest first. */
  findings(options?: { language?: Language }): Finding[];
  /** The same as JSON, of bindings/schema/findings.schema.json. */
  findingsJson(options?: { language?: Language }): string;
  /** What a side would win if it were to move; without `side` the waiter, after a pass. Empty, too, without a turn. */
  threats(side?: Side, options?: { language?: Language }): Threat[];
  /** The same as JSON, of bindings/schema/threats.schema.json. */
  threatsJson(side?: Side, options?: { language?: Language }): string;
  /** The few moves of the mover that deserve a look; at most 4 where nothing is said. */
  candidates(options?: { atMost?: number; language?: Language }): Candidate[];
  /** The same as JSON, of bindings/schema/candidates.schema.json. */
  candidatesJson(options?: { atMost?: number; language?: Language }): string;
  /** What both sides can usefully do. */
  outlook(options?: { language?: Language }): Outlook;
  /** The same as JSON, of bindings/schema/outlook.schema.json. */
  outlookJson(options?: { language?: Language }): string;
  /** The position as one self-contained SVG element. `finding`: the place in `findings()` of the one to draw. */
  diagram(options?: { bottom?: Side; finding?: number; language?: Language }): string;
  /** The leaves of the tree of legal moves, of a depth from 0 to 64. */
  perft(depth: number): number;
  /** Gives its memory back at once. Otherwise that happens some time after nothing refers to it any more. */
  free(): void;
  /** The same, for `using`. */
  [Symbol.dispose](): void;
}

/** One game of those that were read. It lives as long as they, and throws what a `Position` throws. */
export class Game {
  private constructor();
  /** The value of a tag; empty when the game does not have it. */
  tag(name: string): string;
  /** The moves of the main line. */
  mainLine(): WrittenMove[];
  /** What every move changed, where the game turned, and at most so many moments; 8 where nothing is said. */
  report(options?: { atMost?: number; language?: Language }): GameReport;
  /** The same as JSON, of bindings/schema/game_report.schema.json. */
  reportJson(options?: { atMost?: number; language?: Language }): string;
}

/** The games of a PGN text. They never change. Used after `free()`, they throw. */
export class Games implements Iterable<Game> {
  private constructor();
  /** How many were read. */
  readonly length: number;
  /** One of them by its place from 0, or from -1 backwards. */
  at(place: number): Game | undefined;
  /** One game after the other. */
  [Symbol.iterator](): Generator<Game>;
  /** Why the games that could not be read were refused. */
  readonly refused: InputError[];
  /** The reports of all games, one at a time. */
  reports(options?: { atMost?: number; language?: Language }): Generator<GameReport>;
  /** Gives the memory back at once. Otherwise that happens some time after nothing refers to the games any more. */
  free(): void;
  /** The same, for `using`. */
  [Symbol.dispose](): void;
}

/** The library, ready to be asked. */
export class Keysquare {
  private constructor();
  /** The version of the library: "major.minor.patch". */
  readonly version: string;
  /** Bytes of memory that the module holds; it never gives any back, but uses them again. */
  readonly memorySize: number;
  /** A position; without `fen` the start of a game. Throws `InputError` when it can't be read. */
  position(fen?: string, options?: { lenient?: boolean }): Position;
  /** The games of a PGN text, or of the bytes of a file in UTF-8 or Latin-1. A refused one costs no other. */
  games(pgn: string | Uint8Array): Games;
}

/**
 * Loads the library, from keysquare.wasm beside keysquare.mjs where nothing else is said. Each call makes an instance
 * of its own. Rejects when the module can't be fetched or compiled.
 */
export function load(source?: string | URL | WebAssembly.Module | BufferSource): Promise<Keysquare>;
