// What batches of one version came to beside those of another: a line a measure, with its interval drawn.
//
//   came.replaceChildren(...outcomeRows(told));

import { h, s } from "./dom.js";
import { duration } from "./words.js";
import { say } from "../words.js";
import { tenth } from "./batch-panels.js";
/** @import { Difference, OutcomeMeasure, Outcomes } from "../../bench/shapes/page" */

const [WIDE, HIGH, EDGE] = [240, 22, 8];

/** In the measure's own words: a duration, a share, how many. @param {OutcomeMeasure} measure @param {number} value */
export function valueWords(measure, value) {
  const size = Math.abs(value);
  const sign = value < 0 ? "\u2212" : "";
  if (measure === "hands") return `${sign}${duration(size)}`;
  const share = tenth(size / (measure === "deviations" ? 1000 : 10_000));
  return measure === "deviations" ? `${sign}${share}` : `${sign}${share} %`;
}

/** @param {Outcomes} told */
export function outcomeRows({ before, version, differences }) {
  const known = differences.filter((each) => each.before !== null && each.now !== null);
  if (!known.length) return [h("p", { class: "soft" }, say("page-outcomes-none"))];
  return [
    h("h3", { class: "section-name" }, say("page-outcomes-title", { before, version })),
    h(
      "ul",
      { class: "plain" },
      known.map((each) => h("li", { class: "outcome" }, row(each))),
    ),
    h("p", { class: "soft small" }, say("page-outcomes-why")),
  ];
}

/** @param {Difference} told */
function row({ measure, batches: [former, now], before: was, now: is, low, high, says }) {
  const named = say("page-outcomes-measure", { measure });
  const values = say("page-outcomes-values", {
    before: valueWords(measure, was ?? 0),
    now: valueWords(measure, is ?? 0),
  });
  return [
    h("p", {}, h("b", {}, named), " ", values),
    low === null || high === null ? null : interval(low, high),
    h(
      "p",
      { class: "soft small" },
      [
        say("page-outcomes-says", { says }),
        low === null || high === null
          ? say("page-outcomes-batches", { before: former, now })
          : say("page-outcomes-between", { low: valueWords(measure, low), high: valueWords(measure, high) }),
      ].join(" "),
    ),
  ];
}

/** The interval over a line, nought marked. @param {number} low @param {number} high */
function interval(low, high) {
  const most = Math.max(Math.abs(low), Math.abs(high), 1);
  /** @param {number} value */
  const at = (value) => EDGE + ((value / most + 1) / 2) * (WIDE - 2 * EDGE);
  const middle = HIGH / 2;
  return s(
    "svg",
    { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "outcome-picture", "aria-hidden": "true" },
    s("line", { x1: 0, x2: WIDE, y1: middle, y2: middle, class: "outcome-line" }),
    s("line", { x1: WIDE / 2, x2: WIDE / 2, y1: 1, y2: HIGH - 1, class: "outcome-zero" }),
    s("rect", {
      x: at(low),
      y: 6,
      width: Math.max(2, at(high) - at(low)),
      height: HIGH - 12,
      class: "outcome-span",
    }),
  );
}
