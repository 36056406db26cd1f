/// <reference lib="esnext.disposable" />
// Types of keysquare.mjs. The JSON types are those of bindings/schema/, which says what every member means; test_node.mjs
// holds their members to it.

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
  square: Square;
  /** "white knight". */
  piece: string;
}

/** What a calculation found for the side that makes the first move of the line. */
export interface Outcome {
  /** In pawns. */
  gain: number;
  mate: boolean;
  mated: boolean;
  complete: boolean;
  line: CoordinateMove[];
}

/** One fact about a move. */
export interface Reason {
  fact: string;
  /** Negative when the move makes it worse for the side that moves. */
  amount: number;
  squares: Square[];
}

/** One statement about one position, with its witness. */
export interface Finding {
  fen: string;
  /** "overloaded", "pin", ... */
  theme: string;
  detail: string | null;
  /** The side that it is good for; in a warning, the side that is warned. */
  side: Side;
  squares: Square[];
  pieces: PlacedPiece[];
  /** In pawns; negative when the line loses. */
  gain: number;
  mate: boolean;
  mated: boolean;
  line: CoordinateMove[];
  line_san: string;
  point: CoordinateMove[];
  point_san: string;
  after_pass: boolean;
  removed: Square | null;
  numbers: Record<string, number>;
  weight: number;
  /** It says nothing that the other members do not hold. */
  sentence: string;
}

/** One thing that a side would win if it were to move. */
export interface Threat {
  fen: string;
  side: Side;
  /** In pawns. */
  gain: number;
  mate: boolean;
  after_pass: boolean;
  target: Square;
  squares: Square[];
  line: CoordinateMove[];
  line_san: string;
  sentence: string;
}

/** A move that deserves a look. */
export interface Candidate {
  fen: string;
  move: CoordinateMove;
  san: string;
  won: Outcome | null;
  kept: Outcome;
  threat: Outcome | null;
  loses: boolean;
  reasons: Reason[];
  drawbacks: Reason[];
  parried: Threat | null;
  allowed: Outcome | null;
  sentence: string;
}

/** A move that does something useful. */
export interface UsefulMove {
  move: CoordinateMove;
  san: string;
  reasons: Reason[];
  won: Outcome | null;
  threat: Outcome | null;
}

/** The best square that a piece can safely get to in one or two moves. */
export interface BestSquare {
  piece: string;
  from: Square;
  square: Square;
  route: CoordinateMove[];
  gains: Reason[];
}

/** What one side can do. */
export interface SideOutlook {
  fen: string;
  side: Side;
  known: boolean;
  after_pass: boolean;
  in_check: boolean;
  legal: number;
  useful: UsefulMove[];
  merely_safe: CoordinateMove[];
  only_move: CoordinateMove | null;
  threats: Threat[];
  best_squares: BestSquare[];
  no_plan: boolean;
  paragraph: string;
}

/** What both sides can usefully do. */
export interface Outlook {
  schema: string;
  language: Language;
  fen: string;
  white: SideOutlook;
  black: SideOutlook;
  equilibrium: boolean;
  paragraph: string;
}

export type Lead = "black_mates" | "black_ahead" | "level" | "white_ahead" | "white_mates";

/** What the material comes to when the side to move takes its strongest chance. */
export interface Standing {
  pawns: number;
  mating: Side | null;
  lead: Lead;
}

/** One thing that a move did, or failed to do. */
export interface Effect {
  kind: "exploited" | "missed" | "allowed" | "overlooked";
  theme: string;
  win: Threat;
  /** In pawns. */
  cost: number;
  /** In pawns. */
  left: number;
  better: CoordinateMove | null;
  better_san: string | null;
  sentence: string;
}

/** The game after one ply; the first one stands for the start. */
export interface Ply {
  ply: number;
  move: CoordinateMove | null;
  numbered: string;
  fen: string;
  findings: Finding[];
  /** Places in `findings`. */
  created: number[];
  removed: Finding[];
  chances: Threat[];
  threats: Threat[];
  standing: Standing;
  effects: Effect[];
}

/** A move after which the lead is another one, though a better move was there. */
export interface TurningPoint {
  ply: number;
  numbered: string;
  before: Lead;
  after: Lead;
  effect: Effect;
}

/** A position worth stopping at, with what to ask there. */
export interface Moment {
  ply: number;
  fen: string;
  moved: string;
  played: string | null;
  theme: string;
  effect: Effect | null;
  worth: number;
  findings: Finding[];
  question: string;
  answer: string;
  verdict: string;
}

/** A game as a teacher goes through it. */
export interface GameReport {
  schema: string;
  language: Language;
  tags: Record<string, string>;
  result: "1-0" | "0-1" | "1/2-1/2" | "*";
  plies: Ply[];
  turning_points: TurningPoint[];
  moments: Moment[];
}

/** A text that was refused: a FEN, a move, a game. */
export class InputError extends Error {
  constructor(message: string, where: { reason: string; field: string; line: number; column: number });
  /** Why, in snake case: "bad_piece_letter". */
  readonly reason: string;
  /** Which part of the text: "placement", "move"; "none" when it has no parts. */
  readonly field: string;
  /** From 1; 0 when it is no matter of a text. */
  readonly line: number;
  /** From 1, in bytes of UTF-8. */
  readonly column: number;
}

/** A position. It never changes. */
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
  findingsJson(options?: { language?: Language }): string;
  /** What a side would win if it were to move; without `side` the waiter, after a pass. Empty, too, when it has no turn. */
  threats(side?: Side, options?: { language?: Language }): Threat[];
  threatsJson(side?: Side, options?: { language?: Language }): string;
  /** The few moves of the mover that deserve a look; at most 4 where nothing is said. */
  candidates(options?: { atMost?: number; language?: Language }): Candidate[];
  candidatesJson(options?: { atMost?: number; language?: Language }): string;
  /** What both sides can usefully do. */
  outlook(options?: { language?: Language }): Outlook;
  outlookJson(options?: { language?: Language }): string;
  /** The position as one self-contained SVG element. `finding`: the place in `findings()` of the one to draw. */
  diagram(options?: { bottom?: Side; finding?: number; language?: Language }): string;
  /** The leaves of the tree of legal moves, of a depth from 0 to 64. */
  perft(depth: number): number;
  /** Gives its memory back at once. */
  free(): void;
  /** The same, for `using`. */
  [Symbol.dispose](): void;
}

/** One game of those that were read. */
export class Game {
  private constructor();
  /** The value of a tag; empty when the game does not have it. */
  tag(name: string): string;
  /** The moves of the main line. */
  mainLine(): WrittenMove[];
  /** What every move changed, where the game turned, and at most so many moments; 8 where nothing is said. */
  report(options?: { atMost?: number; language?: Language }): GameReport;
  reportJson(options?: { atMost?: number; language?: Language }): string;
}

/** The games of a PGN text. */
export class Games implements Iterable<Game> {
  private constructor();
  readonly length: number;
  /** One of them by its place from 0, or from -1 backwards. */
  at(place: number): Game | undefined;
  [Symbol.iterator](): Generator<Game>;
  /** Why the games that could not be read were refused. */
  readonly refused: InputError[];
  /** The reports of all games, one at a time. */
  reports(options?: { atMost?: number; language?: Language }): Generator<GameReport>;
  /** Gives the memory back at once. */
  free(): void;
  /** The same, for `using`. */
  [Symbol.dispose](): void;
}

/** The library, ready to be asked. */
export class Keysquare {
  private constructor();
  /** "0.1.0" */
  readonly version: string;
  /** Bytes of memory that the module holds. */
  readonly memorySize: number;
  /** A position; without `fen` the start of a game. Throws `InputError` when it can't be read. */
  position(fen?: string, options?: { lenient?: boolean }): Position;
  /** The games of a PGN text, or of the bytes of a file in UTF-8 or Latin-1. */
  games(pgn: string | Uint8Array): Games;
}

/** Loads the library, from keysquare.wasm beside keysquare.mjs where nothing else is said. */
export function load(source?: string | URL | WebAssembly.Module | BufferSource): Promise<Keysquare>;
