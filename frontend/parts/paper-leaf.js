// A plan drawn for paper: black on white, boxes to tick, room to write. It is worked from at the
// bench when there is no phone, so a caution stands before its step and a weight is what is largest.
//
//   paperLeaf(plan, code)      // code: the recipe's QR as an element, or null

import { celsius, span } from "../bench/index.js";
import { h } from "./dom.js";
import { waitWords } from "./paper-plan.js";
/** @import { Child } from "../../types/dom" */
/** @import { PaperPart, PaperPlan, PaperRow, PaperStep } from "./paper-plan.js" */

const MOST_BOXES = 60; // more pieces than this are counted in fives
const TRIES = 5;

const box = () => h("i", { class: "tick", "aria-hidden": "true" });
/** @param {number} count */
const boxes = (count) => h("span", { class: "ticks" }, Array.from({ length: count }, box));
/** @param {string} label @param {boolean} [wide] */
const blank = (label, wide) => h("span", { class: wide ? "blank wide" : "blank" }, label);
/** @param {(Child | readonly Child[])[]} words */
const p = (...words) => h("p", {}, ...words);

/** @param {PaperPlan} plan @param {Child} code */
export function paperLeaf(plan, code) {
  return h(
    "article",
    { class: "paper" },
    h(
      "header",
      {},
      h(
        "div",
        {},
        h("h1", {}, plan.title),
        h("p", { class: "paper-sub" }, plan.sub),
        plan.summary ? h("p", { class: "paper-note" }, plan.summary) : null,
        p(blank("Batch"), blank("Date"), blank("Made by")),
      ),
      code,
    ),
    plan.warnings.length
      ? h(
          "ul",
          { class: "paper-warn" },
          plan.warnings.map((text) => h("li", {}, text)),
        )
      : null,
    plan.totals.length ? totals(plan.totals) : null,
    plan.parts.map((part) => drawPart(part, plan.columns)),
    h(
      "section",
      { class: "paper-end" },
      h("h2", {}, "At the end"),
      p(blank("Good"), blank("Part pieces"), blank("Spoiled"), blank("Finished")),
      h("h3", {}, "Notes"),
      Array.from({ length: 6 }, () => h("div", { class: "rule" })),
    ),
  );
}

/** @param {PaperPlan["totals"]} rows */
function totals(rows) {
  return h(
    "table",
    { class: "paper-table lots" },
    h("caption", {}, "To fetch, for the whole batch"),
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        ["", "in all", "lot"].map((name) =>
          h("th", { scope: "col" }, name || h("span", { class: "unseen" }, "ingredient")),
        ),
      ),
    ),
    h(
      "tbody",
      {},
      rows.map(([name, amount]) =>
        h("tr", {}, h("th", { scope: "row" }, box(), name), h("td", {}, amount), h("td", { class: "write" })),
      ),
    ),
  );
}

/** @param {PaperPart} part @param {PaperPlan["columns"]} columns */
function drawPart({ letter, name, count, facts, loose = [], rounds }, columns) {
  return h(
    "section",
    { class: "paper-part" },
    h(
      "h2",
      {},
      h("b", { class: "paper-letter" }, letter),
      name,
      count ? h("span", {}, `\u00d7 ${count}`) : null,
    ),
    h("p", { class: "paper-note" }, facts.filter(Boolean).join("; ")),
    loose.length ? table(loose, columns, `${name}, not weighed in a step`) : null,
    rounds.flatMap((round) => [
      round.name ? h("h3", { class: "paper-round" }, round.name) : null,
      h(
        "ol",
        {},
        round.steps.map((step) => drawStep(step, columns)),
      ),
    ]),
  );
}

/** @param {PaperStep} step @param {PaperPlan["columns"]} columns */
function drawStep(step, columns) {
  const within = step.window
    ? "Within " +
      span(step.window.latest_ms) +
      (step.from.length ? ` of \u201c${step.from.join("\u201d, \u201c")}\u201d: ` : ": ") +
      `${step.window.stake}`
    : "";
  return h(
    "li",
    { class: "paper-step" },
    [...new Set(step.cautions)].map((caution) => h("p", { class: "paper-caution" }, caution)),
    h(
      "h3",
      { class: "paper-title" },
      box(),
      step.title,
      step.optional ? h("small", {}, "may be left out") : null,
      step.about_ms ? h("small", {}, `about ${span(step.about_ms)}`) : null,
    ),
    within ? h("p", { class: "paper-within" }, within) : null,
    step.says ? p(step.says) : null,
    step.ways.map((way) => p(box(), h("b", {}, way.name), way.says ? `: ${way.says}` : "")),
    step.rows.length ? table(step.rows, columns, step.title) : null,
    KINDS[step.kind]?.(step) ?? null,
    step.tools.length ? h("p", { class: "paper-note" }, `To hand: ${step.tools.join(", ")}`) : null,
  );
}

/** @type {{readonly [kind: string]: ((step: PaperStep) => Child[]) | undefined}} */
const KINDS = {
  melt: ({ bursts = [], more, burst_ms, to_mk: most, look_for: look }) => [
    p(
      bursts.length
        ? bursts.map(({ ms }) => h("span", { class: "burst" }, box(), span(ms)))
        : `${span(burst_ms ?? more?.ms ?? 0)} at a time: `,
      boxes(TRIES),
    ),
    p(
      h("b", {}, "Look for: "),
      look,
      most === null || most === undefined ? "" : ` No further than ${celsius(most)}.`,
    ),
  ],
  check: (step) => [
    p(h("b", {}, step.ask)),
    p(h("b", {}, "Not yet: "), step.not_yet),
    step.too_far ? p(h("b", {}, "Too far: "), step.too_far) : null,
    p("Looked ", boxes(TRIES)),
  ],
  pieces: ({ count, again }) => [
    again ? p(h("b", {}, "After each: "), again) : null,
    count
      ? p(`${count} to make `, count > MOST_BOXES ? blank("made") : boxes(count), blank("spoiled"))
      : null,
  ],
  wait: (step) => [
    p(h("b", {}, waitWords(step))),
    step.test ? p(step.test) : null,
    step.stake && step.latest_ms !== null ? p(h("b", {}, "At the latest: "), step.stake) : null,
    p(blank("began"), blank("ended")),
  ],
};

/** @param {readonly PaperRow[]} rows @param {PaperPlan["columns"]} columns @param {string} caption */
function table(rows, [amounts, second, third], caption) {
  const columns = [amounts, rows.some(({ reads }) => reads) ? second : "", third];
  return h(
    "table",
    { class: "paper-table" },
    h("caption", { class: "unseen" }, caption),
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        h("th", { scope: "col" }, h("span", { class: "unseen" }, "ingredient")),
        columns.filter(Boolean).map((name) => h("th", { scope: "col" }, name)),
      ),
    ),
    h(
      "tbody",
      {},
      rows.map(({ name, amount, reads, on, note }) =>
        h(
          "tr",
          {},
          h(
            "th",
            { scope: "row" },
            box(),
            h("span", {}, name, on ? h("small", {}, on) : null, note ? h("small", {}, note) : null),
          ),
          h("td", { class: reads && columns[2] ? null : "paper-main" }, amount),
          columns[1] ? h("td", { class: reads && columns[2] ? "paper-main" : null }, reads) : null,
          columns[2] ? h("td", { class: "write" }) : null,
        ),
      ),
    ),
  );
}
