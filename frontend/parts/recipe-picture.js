// The whole recipe as a small picture: a column for each component, a box for each step, a wait as
// a length (longer is longer, not to scale), an arrow for each need, dashed where a window closes.
//
//   recipePicture(measured, { width: 340 })      // an SVG; a measured recipe, or a sketch of one
//
// Each step's group carries data-step="component.step".

import { last } from "../bench/lists.js";
import { runsByItself } from "../bench/steps/index.js";
import { say } from "../words.js";
import { h, s } from "./dom.js";
import { hatch } from "./hatch.js";
import { kindName } from "./recipe-forms.js";
import { duration } from "./words.js";

/** @import { WrittenStep } from "../../bench/shapes/page" */

/**
 * @typedef {{id: string, kind: WrittenStep["kind"], title: string, after: readonly string[], word?: string,
 *   usual_ms?: number | null, window?: object | null}} Drawable a step of a measured recipe, or of a sketch
 * @typedef {{id: string, name: string, steps: readonly Drawable[]}} DrawablePart
 * @typedef {Drawable & {place: number, rows: string[], above: string | null, y: number, length: number}} DrawnStep
 */

const BOX = 26;
const GAP = 16;
const HEAD = 40;
const SMALL = 7.4; // width of a letter at 14 px, taken wide
const ROW = 17;
const MOST_ROWS = 4;
const LETTERS = "ABCDEFGHIJKLM";

/** @param {{kind: Drawable["kind"]}} step @returns {boolean} */
const isWait = (step) => runsByItself(step);

/** A wait's length on paper: one more notch each time it doubles. @param {Drawable} step */
const lengthOf = ({ kind, usual_ms }) =>
  isWait({ kind }) && usual_ms ? BOX + 7 * Math.log2(1 + usual_ms / 300_000) : BOX;

/** @param {Drawable} step */
const wordsOf = (step) => (isWait(step) ? waitWords(step).join(" ") : step.title || kindName(step.kind));

/** What is waited for, and how long that usually takes. @param {Drawable} step */
const waitWords = ({ word, usual_ms }) => [
  word || say("page-recipe-picture-wait"),
  ...(usual_ms ? [duration(usual_ms)] : []),
];

/**
 * Words in rows of at most so many letters; what does not fit ends in an ellipsis.
 * @param {string} words @param {number} room
 */
function rowsOf(words, room) {
  /** @param {string} row */
  const cut = (row) => (row.length > room ? `${row.slice(0, Math.max(1, room - 1))}\u2026` : row);
  /** @type {string[]} */
  const rows = [];
  for (const word of words.split(/\s+/)) {
    const longer = `${rows.at(-1)} ${word}`;
    if (rows.length && longer.length <= room) rows[rows.length - 1] = longer;
    else rows.push(cut(word));
  }
  return rows.length > MOST_ROWS
    ? [...rows.slice(0, MOST_ROWS - 1), cut(`${rows[MOST_ROWS - 1]}\u2026`)]
    : rows;
}

/** @param {string[]} rows @param {number} x @param {number} middle */
const inRows = (rows, x, middle) =>
  rows.map((row, index) => s("text", { x, y: middle + 5 + ROW * (index - (rows.length - 1) / 2) }, row));

/**
 * On a ground of their own, so that the hatching does not run through them; long waits have room for two lines.
 * @param {DrawnStep} step @param {number} x @param {number} wide
 */
function inWait(step, x, wide) {
  const { y, length } = step;
  const said = waitWords(step);
  const lines = length > 44 ? said : [last(said)];
  const tall = 17 * lines.length;
  const top = y + length / 2 - tall / 2;
  const across = Math.min(wide, SMALL * Math.max(...lines.map((line) => line.length)) + 8);
  return [
    s("rect", { class: "patch", x: x - across / 2, y: top, width: across, height: tall, rx: 3 }),
    ...lines.map((line, index) => s("text", { x, y: top + 13 + 17 * index }, line)),
  ];
}

/** @param {{components: readonly DrawablePart[]}} recipe @param {{width?: number}} [how] */
export function recipePicture({ components }, { width = 340 } = {}) {
  const parts = components.filter(({ steps }) => steps.length > 0);
  if (parts.length === 0) return h("p", { class: "soft" }, say("page-recipe-picture-begins"));
  const column = width / parts.length;
  const inset = Math.min(14, column * 0.1);
  const room = Math.floor((column - 2 * inset - 4) / SMALL);
  /** @type {Map<string, DrawnStep>} */
  const steps = new Map();
  parts.forEach((part, place) =>
    part.steps.forEach((step, index) => {
      const rows = isWait(step) ? [] : rowsOf(wordsOf(step), room);
      const above = index ? `${part.id}.${part.steps[index - 1].id}` : null;
      steps.set(`${part.id}.${step.id}`, {
        ...step,
        place,
        rows,
        above,
        y: HEAD,
        length: Math.max(lengthOf(step), ROW * rows.length + 9),
      });
    }),
  );

  // Lower each step below what it needs and what stands above it, until nothing moves.
  for (let turn = 0, moved = true; moved && turn < steps.size; turn += 1) {
    moved = false;
    for (const step of steps.values()) {
      const over = [step.above ?? "", ...step.after].flatMap((key) => steps.get(key) ?? []);
      const y = Math.max(HEAD, ...over.map((each) => each.y + each.length + GAP));
      if (y !== step.y) moved = true;
      step.y = y;
    }
  }
  const height = Math.max(...[...steps.values()].map(({ y, length }) => y + length)) + 6;
  /** @param {DrawnStep} step */
  const middle = ({ place }) => (place + 0.5) * column;

  const arrows = [...steps.values()].flatMap((to) =>
    to.after
      .flatMap((key) => steps.get(key) ?? [])
      .map((from) => {
        const [x1, y1, x2, y2] = [middle(from), from.y + from.length, middle(to), to.y - 4];
        const bend = from.place === to.place ? (steps.get(to.above ?? "") === from ? 0 : column / 2 - 3) : 0;
        const curve = bend
          ? `C${x1 + bend} ${y1 + GAP} ${x2 + bend} ${y2 - GAP} ${x2} ${y2}`
          : `C${x1} ${y1 + GAP} ${x2} ${y2 - GAP} ${x2} ${y2}`;
        return s("path", {
          class: to.window ? "need window" : "need",
          d: `M${x1} ${y1}${curve}`,
          "marker-end": "url(#need-tip)",
        });
      }),
  );
  const boxes = [...steps].map(([key, step]) => {
    const x = step.place * column + inset;
    const wide = column - 2 * inset;
    return s(
      "g",
      { "data-step": key },
      isWait(step)
        ? s("path", {
            class: "box",
            fill: hatch(LETTERS[step.place]),
            d: `M${x} ${step.y}h${wide}l${-wide / 5} ${step.length}h${-wide * 0.6}Z`,
          })
        : s("rect", { class: "box plain", x, y: step.y, width: wide, height: step.length, rx: 4 }),
      isWait(step)
        ? inWait(step, middle(step), wide)
        : inRows(step.rows, middle(step), step.y + step.length / 2),
    );
  });
  const heads = parts.map(({ name }, place) => {
    const fits = Math.floor((column - 4) / 8.2);
    const label = fits < 14 && parts.length > 1 ? LETTERS[place] : `${LETTERS[place]} ${name}`;
    return s(
      "text",
      { class: "head", x: (place + 0.5) * column, y: 20 },
      label.length > fits ? `${label.slice(0, fits - 1)}\u2026` : label,
    );
  });
  const told = parts
    .map(({ name, steps: own }, place) => `${LETTERS[place]} ${name}: ${own.map(wordsOf).join(", ")}`)
    .join(". ");
  return s(
    "svg",
    {
      class: "recipe-picture",
      viewBox: `0 0 ${width} ${Math.ceil(height)}`,
      role: "img",
      "aria-label": told,
    },
    s(
      "defs",
      {},
      s(
        "marker",
        {
          id: "need-tip",
          viewBox: "0 0 8 8",
          refX: 4,
          refY: 4,
          markerWidth: 8,
          markerHeight: 8,
          markerUnits: "userSpaceOnUse",
          orient: "auto",
        },
        s("path", { class: "need-tip", d: "M0 0 8 4 0 8Z" }),
      ),
    ),
    heads,
    arrows,
    boxes,
  );
}
