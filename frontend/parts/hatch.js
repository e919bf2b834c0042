// Hatching: how components are told apart when colour cannot be. Each letter has its own
// ruling (after the section lines of engineering plates), drawn close and wide so that
// neighbouring layers of one component still part.
//
//   installHatching();                      // once, before anything is drawn
//   s("path", { fill: hatch("B", 0) });     // a fill
//   letterMark("B")                         // the small square with the letter

import { say } from "../words.js";
import { s } from "./dom.js";

/** @type {((n: number) => SVGElement[])[]} */
const RULINGS = [
  (n) => [line(0, n, n, 0), line(-1, 1, 1, -1), line(n - 1, n + 1, n + 1, n - 1)],
  (n) => [line(0, n / 2, n, n / 2)],
  (n) => [dot(n / 4, n / 4), dot((3 * n) / 4, (3 * n) / 4)],
  (n) => [line(0, 0, n, n), line(-1, n - 1, 1, n + 1), line(n - 1, -1, n + 1, 1)],
  (n) => [line(n / 2, 0, n / 2, n)],
  (n) => [line(0, n / 2, n, n / 2), line(n / 2, 0, n / 2, n)],
];
const WIDTHS = [6, 10];

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
const line = (x1, y1, x2, y2) => s("path", { class: "hatch-line", d: `M${x1} ${y1}L${x2} ${y2}` });
/** @param {number} cx @param {number} cy */
const dot = (cx, cy) => s("circle", { class: "hatch-dot", cx, cy, r: 0.9 });

/** @param {string} letter */
const kindOf = (letter) => (letter.charCodeAt(0) - 65) % RULINGS.length;

/** Put the tiles into the page; every fill refers to them. */
export function installHatching() {
  const tiles = RULINGS.flatMap((ruling, kind) =>
    WIDTHS.map((n, wide) =>
      s(
        "pattern",
        { id: `hatch-${kind}-${wide}`, width: n, height: n, patternUnits: "userSpaceOnUse" },
        s("rect", { class: `tint-${kind + 1}`, width: n, height: n }),
        ruling(n),
      ),
    ),
  );
  document.body.append(s("svg", { class: "unseen", "aria-hidden": "true" }, s("defs", {}, tiles)));
}

/** The fill of a component's layer; `turn` alternates close and wide ruling. @param {string} letter */
export function hatch(letter, turn = 0) {
  return `url(#hatch-${kindOf(letter)}-${turn % WIDTHS.length})`;
}

/** The square that stands for a component wherever it is named. @param {string} letter */
export function letterMark(letter) {
  return s(
    "svg",
    { class: "letter", viewBox: "0 0 30 30", role: "img", "aria-label": say("page-common-part", { letter }) },
    s("rect", { class: "patch", x: 1, y: 1, width: 28, height: 28, rx: 4, fill: hatch(letter) }),
    s("circle", { class: "disc", cx: 15, cy: 15, r: 9.5 }),
    s("text", { x: 15, y: 20.6 }, letter),
  );
}

/** Turn an existing mark into another letter's. @param {SVGElement} mark @param {string} letter */
export function relabelMark(mark, letter) {
  if (!mark.lastChild || mark.lastChild.textContent === letter) return;
  mark.lastChild.textContent = letter;
  mark.firstElementChild?.setAttribute("fill", hatch(letter));
  mark.setAttribute("aria-label", say("page-common-part", { letter }));
}
