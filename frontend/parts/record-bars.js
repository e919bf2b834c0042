// The record's small pictures: how far each line was off, waits planned and real, the yield of one
// batch beside the others, and what is left of a lot. Each says in words what it shows.
//
//   lotLevel(240000, 1000000)      deviationMark(line)      waitBar(wait)      yieldBars(batches)

import { s } from "./dom.js";
import { hatch } from "./hatch.js";
import { readsIn } from "../bench/weighing.js";
import { toDivision } from "../bench/whole.js";
import { about, duration, exactly } from "./words.js";
import { say } from "../words.js";
/** @import { RecordLine, RecordWait } from "../../bench/shapes/page" */
/** @import { On } from "./words.js" */
/** @import { Child } from "../../types/dom" */

/**
 * @param {string} kind @param {number} width @param {number} height @param {string} label
 * @param {...(Child | readonly Child[])} children
 */
const picture = (kind, width, height, label, ...children) =>
  s(
    "svg",
    { class: `bar-picture ${kind}`, viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": label },
    ...children,
  );
/** @param {string} kind @param {number} x @param {number} y @param {number} width @param {number} height */
const rect = (kind, x, y, width, height, more = {}) =>
  s("rect", { class: kind, x, y, width: Math.max(0, width), height, ...more });
/** @param {string} kind @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
const line = (kind, x1, y1, x2, y2) => s("path", { class: kind, d: `M${x1} ${y1}L${x2} ${y2}` });

/** A jar as full as the lot is. @param {number} left @param {number} whole */
export function lotLevel(left, whole) {
  const share = whole > 0 ? Math.min(1, Math.max(0, left / whole)) : 0;
  const high = 34 * share;
  return picture(
    "level",
    28,
    44,
    say("page-record-level", { percent: Math.round(share * 100) }),
    rect("fill", 3, 40 - high, 22, high, { fill: hatch("A") }),
    s("path", { class: "wall", d: "M7 2h14M7 2v3H3v35h22V5h-4V2" }),
  );
}

/**
 * @typedef {Pick<RecordLine, "deviation_mg" | "tolerance_mg" | "within" | "division_mg">
 *   & {division_uoz?: number}} Deviation
 * @typedef {{name: string, planned: number, good: number, spoiled: number, here: boolean}} YieldBar
 */

const HALF = 26; // from the mark to the tolerance
const MOST = 46; // as far as a point is drawn

/** By how much a weighing is off, as its scale could show it. @param {number} mg @param {On} scale */
export const offBy = (mg, scale) => exactly(Math.abs(scale ? toDivision(mg, readsIn(scale)) : mg), scale);

/**
 * The tolerance as a band about the mark, what was weighed as a point; beyond the picture it is an arrow.
 * @param {Deviation} given
 */
export function deviationMark({ deviation_mg, tolerance_mg, within, ...scale }) {
  const off = toDivision(deviation_mg ?? 0, readsIn(scale)); // as it is shown: less is nothing
  const tolerance = tolerance_mg ?? 0;
  const share = tolerance > 0 ? off / tolerance : Math.sign(off) * 9;
  const x = 50 + Math.max(-MOST, Math.min(MOST, share * HALF));
  const by = { mass: offBy(off, scale) };
  const says =
    off === 0
      ? say("page-record-on-target")
      : say(off > 0 ? "page-record-too-much" : "page-record-too-little", by);
  const beyond = Math.abs(share * HALF) > MOST;
  const point = beyond
    ? s("path", { class: "point", d: off > 0 ? "M92 3l7 6-7 6Z" : "M8 3 1 9l7 6Z" })
    : s("circle", { class: "point", cx: x, cy: 9, r: within ? 4 : 5.5 });
  return picture(
    `deviation${within ? "" : " outside"}`,
    100,
    18,
    say("page-record-allowed", { off: says, mass: about(tolerance, scale) }),
    rect("band", 50 - HALF, 3, 2 * HALF, 12),
    line("middle", 50, 1, 50, 17),
    point,
  );
}

/**
 * What was planned, from the earliest to the latest, with the usual as a line; below it what really passed.
 * @param {Pick<RecordWait, "word" | "earliest_ms" | "usual_ms" | "latest_ms" | "real_ms">} given
 */
export function waitBar({ word, earliest_ms: earliest, usual_ms: usual, latest_ms: latest, real_ms: real }) {
  const end = latest ?? usual;
  const whole = Math.max(end, real ?? 0, 1);
  /** @param {number} ms */
  const x = (ms) => 2 + (296 * ms) / whole;
  const planned = {
    word,
    earliest: duration(earliest),
    latest: duration(end),
    usual: duration(usual),
  };
  return picture(
    "wait-bar",
    300,
    26,
    real === null
      ? say("page-record-wait-bar-open", planned)
      : say("page-record-wait-bar", { ...planned, length: duration(real) }),
    rect("band", x(earliest), 2, Math.max(3, x(end) - x(earliest)), 9),
    line("middle", x(usual), 0, x(usual), 13),
    real === null ? null : rect("real", 2, 15, Math.max(2, x(real) - 2), 8),
  );
}

/**
 * Good pieces of those planned, batch beside batch, the oldest first: [{name, planned, good, spoiled, here}].
 * @param {readonly YieldBar[]} batches
 */
export function yieldBars(batches) {
  const most = Math.max(1, ...batches.map(({ planned, good, spoiled }) => Math.max(planned, good + spoiled)));
  const step = 300 / Math.max(6, batches.length);
  /** @param {number} pieces */
  const y = (pieces) => (78 * pieces) / most;
  const says = batches
    .map(({ name, planned, good, spoiled }) => say("page-record-yield-bar", { name, planned, good, spoiled }))
    .join("; ");
  const bars = batches.flatMap(({ planned, good, spoiled, here }, place) => {
    const x = place * step + step * 0.2;
    const wide = step * 0.6;
    return [
      rect(here ? "real here" : "real", x, 80 - y(good), wide, y(good)),
      rect("spoiled", x, 80 - y(good + spoiled), wide, y(spoiled), { fill: hatch("D") }),
      line("planned", x - 3, 80 - y(planned), x + wide + 3, 80 - y(planned)),
      s("text", { x: x + wide / 2, y: 96 }, String(good)),
    ];
  });
  return picture("yield-bars", 300, 100, says, ...bars, line("ground", 0, 80, 300, 80));
}
