// The page example.html: a FEN is pasted, and what a teacher sees stands beside the board. All of it is computed here in the
// browser. The position stands in the address, so a link to it can be handed on.
import { InputError, load } from "./keysquare.mjs";

const first = "4r1k1/1b1q1ppp/p4b2/1p1p4/2rN1P1P/P2R2Q1/1PP1N3/1K4R1 w - - 1 24";
/** So many statements stand open; the others are folded away. */
const open = 6;

const [form, input, complaint, board, caption, turn, back, said] =
  ["form", "#fen", "[role=alert]", "#board", "#caption", "#turn", "#back", "#said"].map((one) => document.querySelector(one));

let ks, position;
let bottom = "white";
let drawn; // the place of the finding that is drawn
let earlier = []; // the positions before, for taking back

/** An element with what is in it: texts, which stay texts, and elements. */
function element(name, attributes = {}, ...content) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...content);
  return made;
}

function pressed(button, action) {
  button.type = "button";
  button.addEventListener("click", action);
  return button;
}

const line = (text) => (text ? [element("span", { class: "line" }, text)] : []);
const capital = (word) => word[0].toUpperCase() + word.slice(1);

function draw() {
  const options = drawn === undefined ? { bottom } : { bottom, finding: drawn };
  const svg = new DOMParser().parseFromString(position.diagram(options), "image/svg+xml");
  board.replaceChildren(document.importNode(svg.documentElement, true));
  for (const button of said.querySelectorAll("[data-finding]"))
    button.setAttribute("aria-pressed", String(Number(button.dataset.finding) === drawn));
}

function section(title, ...content) {
  return element("section", {}, element("h2", {}, title), ...content);
}

/** A list; what is beyond the first few is folded away. */
function list(items) {
  const rest = items.splice(open);
  const shown = element("ol", {}, ...items);
  if (rest.length === 0) return [shown];
  const more = element("details", {}, element("summary", {}, `${rest.length} more`), element("ol", {}, ...rest));
  return [shown, more];
}

function findingItem(finding, place) {
  const button = element("button", { "data-finding": place }, finding.sentence, ...line(finding.line_san));
  return element("li", {}, pressed(button, () => {
    drawn = drawn === place ? undefined : place;
    draw();
  }));
}

function candidateItem({ move, san, sentence }) {
  const rest = sentence.startsWith(san) ? [element("span", { class: "san" }, san), sentence.slice(san.length)] : [sentence];
  return element("li", {}, pressed(element("button", {}, ...rest), () => {
    earlier.push(position.fen);
    show(position.after(move));
  }));
}

const threatItem = ({ sentence, line_san }) => element("li", {}, element("div", {}, sentence, ...line(line_san)));

/** Of a game that is over, who has won. */
function ending() {
  if (position.legalMoves().length > 0) return undefined;
  return position.moverInCheck ? `Checkmate: ${capital(position.waiter)} has won.` : "Stalemate: a draw.";
}

function tell() {
  const over = ending();
  const findings = position.findings();
  const threats = position.threats();
  const candidates = position.candidates();
  const stop = capital(position.waiter);
  said.replaceChildren(
    section("What stands out", ...(findings.length > 0
      ? [element("p", { class: "hint" }, "Press a statement to see it on the board."), ...list(findings.map(findingItem))]
      : [element("p", {}, "Nothing.")])),
    ...(threats.length > 0 ? [section(`What ${stop} threatens`, ...list(threats.map(threatItem)))] : []),
    ...(candidates.length > 0
      ? [section(`Moves of ${capital(position.mover)} to look at`,
          element("p", { class: "hint" }, "Press a move to play it."), ...list(candidates.map(candidateItem)))]
      : []),
  );
  caption.textContent = over ?? `${capital(position.mover)} to move${position.moverInCheck ? ", in check" : ""}`;
}

/** Shows another position, and gives the memory of the one before back. */
function show(next) {
  position?.free();
  position = next;
  drawn = undefined;
  input.value = position.fen;
  complaint.textContent = "";
  history.replaceState(null, "", `#${new URLSearchParams({ fen: position.fen })}`);
  back.disabled = earlier.length === 0;
  tell();
  draw();
}

/** Shows what was pasted, or says why it can't be read. */
function look(fen) {
  try {
    const next = ks.position(fen.trim());
    earlier = [];
    show(next);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    complaint.textContent = `${capital(error.message)}.`;
  }
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  look(input.value);
});
pressed(turn, () => {
  bottom = bottom === "white" ? "black" : "white";
  draw();
});
pressed(back, () => show(ks.position(earlier.pop())));

/** The position in the address; the first one where there is none, or where it can't be read. */
function begin() {
  const given = new URLSearchParams(location.hash.slice(1)).get("fen");
  if (given === position?.fen) return;
  if (!position) show(ks.position(first));
  if (given === null) return;
  input.value = given;
  look(given);
}

try {
  ks = await load();
  turn.disabled = false;
  begin();
  window.addEventListener("hashchange", begin);
} catch (error) {
  caption.textContent = `The page does not work here: ${error.message}`;
}
