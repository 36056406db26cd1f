// How long it takes to load the module and to find what is in a position, against the machine's own build: run by
// `tests/javascript.sh --measure`. KEYSQUARE_PACKAGE and KEYSQUARE_RESULTS as for test_node.mjs.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const { load } = await import(`${pathToFileURL(process.env.KEYSQUARE_PACKAGE)}/keysquare.mjs`);
const folder = process.env.KEYSQUARE_RESULTS;
const lines = readFileSync(`${folder}/positions.txt`, "utf8").trim().split("\n");
const rounds = 5;
const median = (numbers) => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

/** Seconds of processor time of this process. */
function seconds(body) {
  const before = process.cpuUsage();
  body();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

async function loadSeconds() {
  const begun = performance.now();
  await load();
  return (performance.now() - begun) / 1e3;
}

const loads = [];
for (let round = 0; round < rounds; ++round) loads.push(await loadSeconds());

const ks = await load();
const positions = lines.map((line) => ks.position(line.split(" ").slice(0, 4).join(" ")));
const here = () => seconds(() => positions.forEach((position) => position.findingsJson()));
const native = () =>
  Number(execFileSync(`${folder}/test_results`, [`${folder}/positions.txt`, `${folder}/games.pgn`, "1"], { encoding: "utf8" }));
here(); // until the optimizing compiler is done
here();
// By turns, so that what else the machine does falls on both.
const ratios = [], rates = [];
for (let round = 0; round < rounds; ++round) {
  const [wasm, own] = [here(), native()];
  ratios.push(wasm / own);
  rates.push(positions.length / wasm);
}
console.log(`loading: ${(1000 * loads[0]).toFixed(0)} ms at first, then ${(1000 * median(loads)).toFixed(0)} ms`);
console.log(`findings as JSON: ${median(rates).toFixed(0)} positions a second, ${median(ratios).toFixed(2)} times the time of the machine's own build`);
