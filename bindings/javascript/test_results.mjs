/**
 * What the library says of some positions and games, as text: test_results.c prints the same through the C interface of the
 * machine's own build.
 * @param {import("./keysquare.mjs").Keysquare} ks
 * @param {string} positions A FEN or EPD a line; the first four fields count.
 * @param {string} pgn
 */
export function resultsOf(ks, positions, pgn) {
  const lines = positions.split("\n").filter((line) => line !== "");
  return lines.map((line) => ofPosition(ks, line)).join("") + ofGames(ks, pgn);
}

const written = (moves) => [moves.map(({ move }) => move).join(" "), moves.map(({ san }) => san).join(" ")];

function ofPosition(ks, line) {
  const position = ks.position(line.split(" ").slice(0, 4).join(" "));
  const said = [
    position.fen,
    position.mover,
    String(position.moverInCheck),
    ...written(position.legalMoves()),
    String(position.perft(2)),
    ...[undefined, "de"].flatMap((language) => saidIn(position, language)),
  ];
  position.free();
  return said.map((one) => `${one}\n`).join("");
}

/** Without a language, English. */
function saidIn(position, language) {
  return [
    position.findingsJson({ language }),
    position.threatsJson("white", { language }),
    position.threatsJson("black", { language }),
    position.candidatesJson({ language }),
    position.outlookJson({ language }),
    position.diagram({ language }),
    position.diagram({ bottom: "black", finding: 0, language }),
  ];
}

function ofGames(ks, pgn) {
  const games = ks.games(pgn);
  const said = [String(games.length), String(games.refused.length)];
  for (const game of games) said.push(game.tag("White"), ...written(game.mainLine()), game.reportJson(), game.reportJson({ language: "de" }));
  games.free();
  return said.map((one) => `${one}\n`).join("");
}
