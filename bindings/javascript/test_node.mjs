// The package in node: `node --expose-gc --test test_node.mjs`. KEYSQUARE_PACKAGE names the built package;
// KEYSQUARE_RESULTS a folder with the files positions.txt and games.pgn and what test_results.c printed of them.
import assert from "node:assert/strict";
import { copyFile, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { resultsOf } from "./test_results.mjs";

const root = new URL("../../", import.meta.url);
const packageFolder = process.env.KEYSQUARE_PACKAGE ?? new URL("build/wasm/keysquare", root).pathname;
const { InputError, Keysquare, Position, load } = await import(`${pathToFileURL(packageFolder)}/keysquare.mjs`);
const ks = await load();

const start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
const locked = "4r1k1/1b1q1ppp/p4b2/1p1p4/2rN1P1P/P2R2Q1/1PP1N3/1K4R1 w - - 1 24";
const mated = "R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1";
const inCheck = "4k3/8/8/8/8/8/4q3/4K3 w - - 0 1";

/** What is thrown. */
function thrown(body) {
  try {
    body();
  } catch (error) {
    return error;
  }
  return assert.fail("nothing was thrown");
}

function assertRefused(body, reason, field, line, column) {
  const error = thrown(body);
  assert.ok(error instanceof InputError && error instanceof Error);
  assert.equal(error.name, "InputError");
  assert.deepEqual([error.reason, error.field, error.line, error.column], [reason, field, line, column]);
  return error;
}

test("the version is that of the package and of the C++ library", async () => {
  const { version } = JSON.parse(await readFile(`${packageFolder}/package.json`, "utf8"));
  const header = await readFile(new URL("include/keysquare/version.hpp", root), "utf8");
  assert.equal(ks.version, version);
  assert.equal(ks.version, header.match(/version = "([^"]+)"/)[1]);
});

test("the example of the README says what its comments say", async (t) => {
  const readme = await readFile(new URL("README.md", import.meta.url), "utf8");
  const [, code] = readme.match(/```js\n(.*?)```/s);
  const expected = [...code.matchAll(/^console\.log\(.*\/\/ (.*)$/gm)].map(([, comment]) => comment);
  assert.ok(expected.length > 0);
  const folder = await mkdtemp(join(tmpdir(), "keysquare-")); // the module beside it, as its import says
  t.after(() => rm(folder, { recursive: true }));
  for (const name of ["keysquare.mjs", "keysquare.wasm"]) await copyFile(join(packageFolder, name), join(folder, name));
  await writeFile(join(folder, "example.mjs"), code);
  globalThis.document = { body: {} };
  const log = t.mock.method(console, "log", () => {});
  await import(pathToFileURL(join(folder, "example.mjs")));
  const said = log.mock.calls.map(({ arguments: [text] }, place) =>
    expected[place]?.endsWith("...") ? `${text.slice(0, expected[place].length - 3)}...` : text);
  assert.deepEqual(said, expected);
  assert.match(document.body.innerHTML, /^<svg /);
  delete globalThis.document;
});

test("the record position has 218 moves", () => {
  // The most legal moves that a legal position is known to have (widely published; from memory).
  const moves = ks.position("R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1").legalMoves();
  assert.equal(moves.length, 218);
  assert.equal(new Set(moves.map(({ move }) => move)).size, 218);
  assert.ok(moves.every(({ move, san }) => /^[a-h][1-8][a-h][1-8]$/.test(move) && san.length >= 3));
});

test("perft", async () => {
  // The counts that every move generator is held to (widely published; from memory).
  assert.deepEqual([0, 1, 2, 3, 4].map((depth) => ks.position().perft(depth)), [1, 20, 400, 8902, 197281]);
  const lines = (await readFile(new URL("bench/positions.epd", root), "utf8")).trim().split("\n");
  for (const line of lines) {
    const [, leaves] = line.match(/D3 (\d+);/);
    assert.equal(ks.position(line.split(" ").slice(0, 4).join(" ")).perft(3), Number(leaves), line);
  }
});

test("a position", () => {
  const position = ks.position();
  assert.ok(ks instanceof Keysquare && position instanceof Position);
  assert.equal(position.fen, start);
  assert.deepEqual([position.mover, position.waiter, position.moverInCheck], ["white", "black", false]);
  assert.deepEqual(position.legalMove("g1f3"), { move: "g1f3", san: "Nf3" });
  assert.deepEqual(position.legalMove("Nf3"), { move: "g1f3", san: "Nf3" });
  const after = position.after("e4");
  assert.equal(after.fen, "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1");
  assert.equal(position.after("e2e4").fen, after.fen);
  assert.equal(position.after(position.legalMove("e4")).fen, after.fen);
  assert.equal(after.mover, "black");
  assert.equal(after.passed().mover, "white");
  assert.equal(position.fen, start); // nothing changed it
  assert.equal(ks.position(inCheck).moverInCheck, true);
  assert.equal(ks.position(inCheck).passed(), null);
  assert.deepEqual(ks.position(inCheck).legalMoves(), [{ move: "e1e2", san: "Kxe2" }]);
  assert.deepEqual(ks.position(mated).legalMoves(), []);
});

test("what is seen", () => {
  const position = ks.position(locked);
  const findings = position.findings();
  const [first] = findings;
  assert.equal(first.theme, "mutual_guards");
  assert.match(first.sentence, /^The knights on e2 and d4 are locked/);
  assert.equal(first.line_san, "24.Nxb5 axb5");
  assert.deepEqual(first.line, ["d4b5", "a6b5"]);
  assert.ok(findings.every(({ fen }) => fen === position.fen));
  // A line is made of legal moves, and says what the SAN says.
  const end = first.line.reduce((at, move) => at.after(move), position);
  assert.equal(end.fen, position.after("Nxb5").after("axb5").fen);
  assert.deepEqual(position.threats(), position.threats("black"));
  assert.ok(position.threats("white").every(({ side, after_pass }) => side === "white" && !after_pass));
  assert.ok(position.threats().every(({ side, after_pass }) => side === "black" && after_pass));
  // White is to move and in check, so Black has no turn.
  assert.deepEqual(ks.position(inCheck).threats(), []);
  assert.equal(JSON.parse(ks.position(inCheck).threatsJson()).known, false);
  const candidates = position.candidates();
  assert.ok(candidates.length >= 1 && candidates.length <= 4);
  assert.deepEqual(position.candidates({ atMost: 1 }), candidates.slice(0, 1));
  assert.equal(candidates[0].san, position.legalMove(candidates[0].move).san);
  assert.equal(position.outlook().white.side, "white");
});

test("what is seen, in German", () => {
  const position = ks.position("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
  const german = { language: "de" };
  const document = JSON.parse(position.findingsJson(german));
  assert.equal(document.language, "de");
  assert.equal(JSON.parse(position.findingsJson()).language, "en");
  assert.deepEqual(position.findings(german), document.findings);
  // The sentence that the tests of C, C++ and Python hold to, too.
  const hanging = document.findings.find(({ theme, side }) => theme === "hanging" && side === "white");
  assert.equal(hanging.sentence,
    "Weiß kann mit Sxd5 Material im Wert von 5 Bauern gewinnen: Der Turm auf d5 ist ungedeckt.");
  assert.equal(hanging.line_san, "1.Nxd5");
  // Nothing but the sentences is another one.
  const silent = (value) => JSON.parse(JSON.stringify(value, (key, one) =>
    ["sentence", "paragraph", "language", "question", "answer", "verdict"].includes(key) ? undefined : one));
  const [game] = ks.games("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0");
  for (const ask of [
    (options) => position.findings(options),
    (options) => position.threats("white", options),
    (options) => position.candidates(options),
    (options) => position.outlook(options),
    (options) => game.report(options),
  ]) {
    assert.deepEqual(silent(ask(german)), silent(ask()));
    assert.notDeepEqual(ask(german), ask());
    assert.deepEqual(ask({ language: "en" }), ask());
  }
  assert.match(game.report(german).turning_points[0].effect.sentence, /^3\.\.\.Lc5 übersieht, dass Weiß droht/);
  assert.match(position.diagram(german), /Weiß am Zug/);
});

test("diagrams", () => {
  const position = ks.position(locked);
  const plain = position.diagram();
  assert.match(plain, /^<svg /);
  assert.match(plain, /<\/svg>\s*$/);
  assert.notEqual(position.diagram({ finding: 0 }), plain);
  assert.notEqual(position.diagram({ bottom: "black" }), plain);
  assert.throws(() => position.diagram({ finding: -1 }), RangeError);
  assert.throws(() => position.diagram({ finding: 9999 }), /^RangeError: finding: 9999 where there are \d+$/);
  assert.throws(() => position.diagram({ bottom: "green" }), RangeError);
});

test("texts that are refused", () => {
  const error = assertRefused(
    () => ks.position("rnbqkbnr/ppppxppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"),
    "bad_piece_letter", "placement", 1, 14,
  );
  assert.match(error.message, /placement.*column 14/);
  assert.ok(thrown(() => ks.position("")) instanceof InputError);
  assertRefused(() => ks.position().after("Ke3"), "no_such_piece", "move", 1, 1);
  assertRefused(() => ks.position().legalMove("Ke3"), "no_such_piece", "move", 1, 1);
  const noRook = "4k3/8/8/8/8/8/8/4K3 w K - 0 1";
  assert.ok(thrown(() => ks.position(noRook)) instanceof InputError);
  assert.equal(ks.position(noRook, { lenient: true }).fen, "4k3/8/8/8/8/8/8/4K3 w - - 0 1");
});

test("a null does not hide what follows it", () => {
  const { reason } = thrown(() => ks.position(`${start.slice(0, 4)}x`));
  assertRefused(() => ks.position(`${start.slice(0, 4)}\0${start.slice(4)}`), reason, "placement", 1, 5);
  assert.ok(thrown(() => ks.position(`${start}\0`)) instanceof InputError);
  assert.ok(thrown(() => ks.position().after("e4\0")) instanceof InputError);
});

test("arguments that can't be meant", () => {
  const position = ks.position();
  for (const bad of [null, 3, {}, ["e4"]]) {
    assert.throws(() => ks.position(bad), TypeError);
    assert.throws(() => position.after(bad), TypeError);
    assert.throws(() => ks.games(bad), TypeError);
  }
  for (const bad of [-1, 65, 2 ** 32, 2 ** 60]) assert.throws(() => position.perft(bad), RangeError);
  for (const bad of [1.5, NaN, "3", undefined, null, 3n]) assert.throws(() => position.perft(bad), TypeError);
  assert.throws(() => position.candidates({ atMost: 0 }), RangeError);
  assert.throws(() => position.candidates({ atMost: 2.5 }), TypeError);
  assert.throws(() => position.threats("green"), RangeError);
  const [game] = ks.games("1. e4 *");
  for (const ask of [
    (options) => position.findings(options),
    (options) => position.threats("white", options),
    (options) => position.candidates(options),
    (options) => position.outlook(options),
    (options) => position.diagram(options),
    (options) => game.report(options),
  ]) {
    const unknown = { name: "RangeError", message: 'language: no language is called "fr"; there are "en", "de"' };
    assert.throws(() => ask({ language: "fr" }), unknown);
    assert.throws(() => ask({ language: "de\0" }), RangeError);
    assert.throws(() => ask({ language: null }), TypeError);
  }
});

test("games", async () => {
  const games = ks.games(await readFile(new URL("examples/data/club.pgn", root), "utf8"));
  assert.equal(games.length, 4);
  assert.deepEqual(games.refused, []);
  const [game] = games;
  assert.equal(game.tag("White"), "Vastin, Joren");
  assert.equal(game.tag("NoSuchTag"), "");
  assert.deepEqual(game.mainLine()[0], { move: "e2e4", san: "e4" });
  const report = game.report({ atMost: 2 });
  assert.equal(report.tags.White, "Vastin, Joren");
  assert.equal(report.plies.length, game.mainLine().length + 1);
  assert.equal(report.moments.length, 2);
  assert.equal(games.at(-1).tag("White"), [...games][3].tag("White"));
  assert.equal(games.at(4), undefined);
  assert.equal(games.at(-5), undefined);
  assert.equal(games.reports({ atMost: 0 }).next().value.moments.length, 0);
});

test("umlauts, nulls, Latin-1 and broken games in PGN", () => {
  const pgn = (name, moves) => `[White "${name}"]\n\n${moves} *\n\n`;
  const games = ks.games(pgn("Müller, Jürgen – 王", "1. e4 {schön} e5") + pgn("Broken", "1. e5") + pgn("Last", "1. d4"));
  assert.deepEqual([...games].map((game) => game.tag("White")), ["Müller, Jürgen – 王", "Last"]);
  assert.equal(games.at(0).report().tags.White, "Müller, Jürgen – 王");
  assert.equal(games.refused.length, 1);
  const [error] = games.refused;
  assert.ok(error instanceof InputError);
  assert.match(error.message, /game 2/);
  assert.equal(error.field, "move");

  const latin = Uint8Array.from(pgn("Müller", "1. e4"), (letter) => letter.charCodeAt(0));
  assert.equal(latin[9], 0xfc); // one byte
  assert.equal(ks.games(latin).at(0).tag("White"), "Müller");

  // A null within a comment hides nothing, between moves it is a space to the reader, and within a move it is refused.
  assert.deepEqual(ks.games(pgn("A", "1. e4 {a\0b} e5 2. Nf3")).at(0).mainLine().map(({ san }) => san), ["e4", "e5", "Nf3"]);
  assert.equal(ks.games(pgn("A", "1. e4\0e5")).at(0).mainLine().length, 2);
  const withNull = ks.games(pgn("A", "1. e\u00004") + pgn("B", "1. d4"));
  assert.deepEqual([...withNull].map((game) => game.tag("White")), ["B"]);
  assert.equal(withNull.refused.length, 1);
  assert.equal(ks.games("").length, 0);
});

test("the same results as the machine's own build, byte for byte", { skip: !process.env.KEYSQUARE_RESULTS }, async () => {
  const read = (name) => readFile(`${process.env.KEYSQUARE_RESULTS}/${name}`, "utf8");
  const expected = (await read("results.txt")).split("\n");
  const got = resultsOf(ks, await read("positions.txt"), await read("games.pgn")).split("\n");
  assert.equal(got.length, expected.length);
  for (const [at, line] of got.entries()) assert.equal(line, expected[at]);
});

test("what is freed is not used any more", () => {
  const position = ks.position();
  position.free();
  position.free();
  assert.throws(() => position.fen, /freed/);
  assert.throws(() => position.findings(), /freed/);
  const games = ks.games("1. e4 *");
  const game = games.at(0);
  games.free();
  assert.throws(() => game.mainLine(), /freed/);
  assert.throws(() => games.length, /freed/);
  if (Symbol.dispose) assert.equal(typeof position[Symbol.dispose], "function");
});

test("memory does not grow over ten thousand positions that are freed", async () => {
  const own = await load();
  const look = () => {
    const position = own.position("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1");
    const after = position.after("Rd8");
    position.findings();
    try {
      position.after("Ke8");
    } catch (error) {
      assert.ok(error instanceof InputError);
    }
    position.diagram();
    after.free();
    position.free();
  };
  for (let times = 0; times < 100; ++times) look();
  const before = own.memorySize;
  for (let times = 0; times < 10_000; ++times) look();
  assert.equal(own.memorySize, before);
});

test("what is forgotten is freed", { skip: !globalThis.gc }, async () => {
  const pgn = "1. e4 *\n\n".repeat(2000);
  const memoryAfter = async (use) => {
    const own = await load();
    for (let times = 0; times < 100; ++times) {
      use(own.games(pgn));
      for (let position = 0; position < 100; ++position) use(own.position());
      globalThis.gc();
      await new Promise((resolve) => setTimeout(resolve, 0)); // what is forgotten is told between tasks
    }
    return own.memorySize;
  };
  const kept = [];
  const memoryOfKept = await memoryAfter((one) => kept.push(one));
  const memoryOfForgotten = await memoryAfter(() => {});
  assert.equal(kept.length, 100 * 101);
  assert.ok(memoryOfForgotten < memoryOfKept / 2, `${memoryOfForgotten}, ${memoryOfKept}`);
});

test("memory that runs out costs the call alone", async () => {
  const instantiate = WebAssembly.instantiate;
  let exports;
  WebAssembly.instantiate = async (...parameters) => {
    const instance = await instantiate(...parameters);
    exports = instance.exports;
    return instance;
  };
  const own = await load();
  WebAssembly.instantiate = instantiate;
  const filled = [];
  for (let size = 2 ** 30; size >= 2 ** 24; size /= 2) filled.push(exports.malloc(size));
  const pgn = "1. e4 *\n\n".repeat(5000);
  const outOfMemory = { name: "RangeError", message: "out of memory" };
  const kept = [];
  const keep = (made) => {
    for (let times = 0; times < 100_000; ++times) kept.push(made());
  };
  assert.throws(() => own.games("x".repeat(2 ** 25)), outOfMemory); // the text itself
  assert.throws(() => keep(() => own.games(pgn)), outOfMemory); // what the library makes of it
  assert.throws(() => keep(() => own.position()), outOfMemory);
  for (const one of kept) one.free();
  filled.forEach((at) => exports.free(at));
  assert.equal(own.games(pgn).length, 5000);
  assert.equal(own.position().findings().length, ks.position().findings().length);
});

test("two instances know nothing of each other", async () => {
  const bytes = await readFile(`${packageFolder}/keysquare.wasm`);
  const module = await WebAssembly.compile(bytes);
  for (const source of [bytes, module, `${pathToFileURL(packageFolder)}/keysquare.wasm`])
    assert.equal((await load(source)).position().perft(2), 400);
  await assert.rejects(load(new Uint8Array([1, 2, 3])), WebAssembly.CompileError);
  await assert.rejects(load(new URL("no_such.wasm", root)), /no_such/);
});

test("the types name the members that the schemas have, and say what the schemas say of them", async () => {
  const types = await readFile(`${packageFolder}/keysquare.d.ts`, "utf8");
  const schema = async (name) =>
    JSON.parse(await readFile(new URL(`bindings/schema/${name}.schema.json`, root), "utf8"));
  const membersOf = (name) => {
    const [, body] = types.match(new RegExp(`export interface ${name} \\{\\n(.*?)\\n\\}`, "s"));
    return [...body.matchAll(/ {2}\/\*\*((?:(?!\*\/).)*)\*\/\n {2}(\w+): |^ {2}(\w+): /gms)].map(
      ([, comment = "", commented, bare]) => [commented ?? bare, comment.replace(/\s+(\* )?/g, " ").trim()],
    );
  };
  const parts = (await schema("parts")).$defs;
  const candidates = (await schema("candidates")).$defs;
  const outlook = await schema("outlook");
  const report = await schema("game_report");
  const pairs = {
    PlacedPiece: parts.finding.properties.pieces.items,
    Outcome: parts.outcome,
    Reason: parts.reason,
    Finding: parts.finding,
    Threat: parts.threat,
    Candidate: candidates.candidate,
    Outlook: outlook,
    SideOutlook: outlook.$defs.side_outlook,
    UsefulMove: outlook.$defs.useful_move,
    BestSquare: outlook.$defs.best_square,
    GameReport: report,
    Standing: report.$defs.standing,
    Effect: report.$defs.effect,
    Ply: report.$defs.ply,
    TurningPoint: report.$defs.turning_point,
    Moment: report.$defs.moment,
  };
  // What a member is, is said of it or of the definition that it refers to.
  const definitions = Object.assign({}, ...[parts, candidates, outlook.$defs, report.$defs]);
  const said = ({ description, $ref }) => description ?? said(definitions[$ref.split("/").at(-1)]);
  for (const [name, { properties }] of Object.entries(pairs)) {
    assert.deepEqual(membersOf(name).map(([member]) => member), Object.keys(properties), name);
    for (const [member, comment] of membersOf(name)) // an example may follow
      assert.ok(comment.startsWith(said(properties[member])), `${name}.${member}: ${comment}`);
  }
});

test("the types name the public members that the classes have", async () => {
  const module = await import(`${pathToFileURL(packageFolder)}/keysquare.mjs`);
  const types = await readFile(`${packageFolder}/keysquare.d.ts`, "utf8");
  const declared = [...types.matchAll(/^export (?:class|function) (\w+)/gm)].map(([, name]) => name);
  assert.deepEqual(declared.sort(), Object.keys(module).sort());
  for (const name of ["Position", "Game", "Games", "Keysquare"]) {
    const [, body] = types.match(new RegExp(`export class ${name} .*?\\{\\n(.*?)\\n\\}`, "s"));
    const members = [...body.matchAll(/^ {2}(?:readonly )?(\w+)[(:]/gm)].map(([, member]) => member);
    const real = Object.getOwnPropertyNames(module[name].prototype).filter((member) => member !== "constructor");
    assert.deepEqual(members.sort(), real.sort(), name);
  }
});
