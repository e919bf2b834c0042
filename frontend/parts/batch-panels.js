// Small multiples of finished batches: a panel a recipe (or a figure), a dot a batch, the oldest first, on one scale. A
// line stands where the version changes; a hollow dot costs at least so much. What a batch does not tell has no dot.
//
//   panel(title, batches, "hands", top)     top: topOf(batches, "hands"), of all panels that share a scale

import { h, s } from "./dom.js";
import { point, say, shown } from "../words.js";
/** @import { BatchItem } from "../../types/answers" */

/** @typedef {"yield" | "hands" | "cost" | "spoiled" | "deviations"} Measure */
/** @typedef {{value: number, text: string, isLeast?: boolean}} Told */

/** @type {readonly Measure[]} */
export const MEASURES = ["hands", "yield", "cost", "spoiled", "deviations"];
const [WIDE, HIGH, EDGE, TOP] = [180, 76, 6, 16];
const MOST = 30; // batches in a panel

/** To a tenth, as the page's language writes it. @param {number} value */
export const tenth = (value) => shown(Math.round(value * 10) / 10).replace(".", point());
/** @param {number} value */
const whole = (value) => shown(Math.round(value));

/**
 * A figure of a batch as it is drawn and written; null where the batch does not tell.
 * @type {{[M in Measure]: (batch: BatchItem) => Told | null}}
 */
const TELL = {
  hands: ({ hands_ms_per_piece: ms }) =>
    number(ms, 60_000, (value) => value.toFixed(1).replace(".", point())),
  yield: ({ yield_ppm: ppm }) => number(ppm, 10_000),
  spoiled: ({ spoiled_ppm: ppm }) => number(ppm, 10_000),
  deviations: ({ deviations: count }) => number(count, 1),
  cost: ({ cost }) =>
    cost?.per_piece
      ? {
          value: Number(cost.per_piece),
          text: cost.per_piece.replace(".", point()),
          isLeast: cost.unpriced > 0,
        }
      : null,
};

/**
 * @param {number | null} value @param {number} unit @param {(value: number) => string} [text]
 * @returns {Told | null}
 */
const number = (value, unit, text = whole) =>
  value === null ? null : { value: value / unit, text: text(value / unit) };

/** @param {BatchItem} batch @param {Measure} measure */
export const figure = (batch, measure) => TELL[measure](batch);

/**
 * The end of a scale that holds all of these, and is easily read.
 * @param {readonly BatchItem[]} batches @param {Measure} measure
 */
export function topOf(batches, measure) {
  const most = Math.max(0, ...batches.map((batch) => figure(batch, measure)?.value ?? 0));
  if (!most) return 1;
  const ten = 10 ** Math.floor(Math.log10(most));
  return (
    [1, 1.5, 2, 3, 4, 5, 6, 8, 10].map((step) => step * ten).find((end) => end >= most - ten * 1e-9) ?? most
  );
}

/**
 * @param {Node | readonly (Node | string)[]} title @param {string} name
 * @param {readonly BatchItem[]} batches the oldest first
 * @param {Measure} measure @param {number} top
 */
export function panel(title, name, batches, measure, top) {
  const told = batches.map((batch) => figure(batch, measure));
  const last = told.findLast((each) => each !== null);
  return h(
    "figure",
    { class: "panel" },
    h(
      "figcaption",
      { class: "panel-head" },
      h("span", {}, title),
      h("b", { class: "figures" }, last ? least(last) : "\u2013"),
    ),
    picture(says(name, batches, measure), batches, told, top),
  );
}

/** @param {Told} told */
export const least = ({ text, isLeast }) => (isLeast ? `\u2265\u00a0${text}` : text);

/**
 * @param {string} label @param {readonly BatchItem[]} batches @param {readonly (Told | null)[]} told
 * @param {number} top
 */
function picture(label, batches, told, top) {
  /** @param {number} place */
  const x = (place) => EDGE + ((place + 0.5) / MOST) * (WIDE - 2 * EDGE);
  /** @param {number} value */
  const y = (value) => HIGH - EDGE - (value / top) * (HIGH - EDGE - TOP);
  const marks = changes(batches).flatMap(({ version, place }) => [
    s("line", { class: "panel-change", x1: x(place - 0.5), x2: x(place - 0.5), y1: TOP, y2: HIGH - EDGE }),
    s("text", { x: x(place - 0.5), y: TOP - 4, "text-anchor": "middle" }, `${version}`),
  ]);
  return s(
    "svg",
    { viewBox: `0 0 ${WIDE} ${HIGH}`, role: "img", "aria-label": label },
    s("line", { class: "panel-top", x1: 0, x2: WIDE, y1: TOP, y2: TOP }),
    s("line", { class: "panel-ground", x1: 0, x2: WIDE, y1: HIGH - EDGE, y2: HIGH - EDGE }),
    marks,
    told.map((each, place) =>
      each
        ? s("circle", {
            class: each.isLeast ? "panel-dot hollow" : "panel-dot",
            cx: x(place),
            cy: y(each.value),
            r: 2.4,
          })
        : null,
    ),
  );
}

/** Where the version is another than the batch's before. @param {readonly BatchItem[]} batches */
const changes = (batches) =>
  batches
    .map(({ version }, place) => ({ version, place }))
    .filter(({ version, place }) => place > 0 && batches[place - 1].version !== version);

/** What a panel shows, in words. @param {string} name @param {readonly BatchItem[]} batches @param {Measure} measure */
function says(name, batches, measure) {
  const told = batches.map((batch) => figure(batch, measure)).filter((each) => each !== null);
  if (!told.length) return say("page-figures-panel-none", { name });
  const sorted = [...told].sort((one, two) => one.value - two.value);
  return [
    say("page-figures-panel", {
      name,
      count: told.length,
      low: least(sorted[0]),
      high: least(sorted[sorted.length - 1]),
      last: least(told[told.length - 1]),
    }),
    ...changes(batches).map(({ version, place }) =>
      say("page-figures-changes", { version, place: place + 1 }),
    ),
  ].join(" ");
}
