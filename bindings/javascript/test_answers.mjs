// What the tests ask in a browser.
import { InputError } from "./keysquare.mjs";
import { resultsOf } from "./test_results.mjs";

const asked = {
  moves: (ks, fen) => ks.position(fen).legalMoves().length,
  perft: (ks, depth) => ks.position().perft(depth),
  diagram: (ks, fen) => ks.position(fen).diagram({ finding: 0 }),
  results: (ks, { positions, pgn }) => resultsOf(ks, positions, pgn),
  whites: (ks, pgn) => {
    const games = ks.games(pgn);
    return { read: [...games].map((game) => game.tag("White")), refused: games.refused.map(({ reason }) => reason) };
  },
  error: (ks, fen) => {
    try {
      ks.position(fen);
    } catch (error) {
      const { name, message, reason, field, line, column } = error;
      return { isInputError: error instanceof InputError, name, message, reason, field, line, column };
    }
    return null;
  },
};

/** @param {{what: keyof typeof asked, of: any}} question */
export const answer = (ks, { what, of }) => asked[what](ks, of);
