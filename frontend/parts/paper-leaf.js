// A plan drawn for paper: black on white, boxes to tick, room to write. It is worked from at the
// bench when there is no phone, so a caution stands before its step and a weight is what is largest.
// A part says each caution once, with a number; where it holds again that number stands.
//
//   paperLeaf(plan, code)      // code: the recipe's QR as an element, or null

import { temperature, span } from "../bench/index.js";
import { those } from "../bench/lists.js";
import { askOf, criterionName, isOwn, notYetOf, wantedWords } from "../bench/sheet-words.js";
import { countsPieces, heats, isJudged, runsByItself } from "../bench/steps/index.js";
import { h } from "./dom.js";
import { waitWords } from "./paper-plan.js";
import { say, sayAll } from "../words.js";
/** @import { Child } from "../../types/dom" */
/** @import { PaperPart, PaperPlan, PaperRow, PaperStep } from "./paper-plan.js" */

/** What a part has said already. @typedef {{cautions: Map<string, number>, heads: string}} Said */

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
        p(blank(say("page-paper-batch")), blank(say("page-paper-date")), blank(say("page-paper-made-by"))),
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
    h(
      "div",
      { class: "paper-columns" },
      before(plan),
      plan.totals.length ? totals(plan.totals) : null,
      plan.parts.map((part) => drawPart(part, plan.columns)),
      paperEnd(plan),
    ),
  );
}

/** What is told before the first weighing: ticked, or read and written down. @param {PaperPlan} plan */
const before = ({ before: told, read }) =>
  told.length + read.length
    ? h(
        "section",
        { class: "paper-before" },
        h("h2", {}, say("sheet-starts")),
        told.map((each) => p(box(), " ", each)),
        p(read.map((each) => blank(each))),
      )
    : null;

/** @param {PaperPlan} plan */
const paperEnd = ({ good }) =>
  h(
    "section",
    { class: "paper-end" },
    h("h2", {}, say("page-paper-end")),
    good.length ? h("h3", {}, say("sheet-good-piece")) : null,
    good.map((each) => {
      const name = criterionName(each);
      return p(box(), " ", blank(isOwn(each.criterion) ? name : `${name}: ${wantedWords(each)}`));
    }),
    p(
      blank(say("page-paper-good")),
      blank(say("page-paper-small")),
      blank(say("page-paper-spoiled")),
      blank(say("page-paper-finished")),
    ),
    h("h3", {}, say("page-paper-notes")),
    Array.from({ length: 6 }, () => h("div", { class: "rule" })),
  );

/** @param {PaperPlan["totals"]} rows */
function totals(rows) {
  return h(
    "table",
    { class: "paper-table lots" },
    h("caption", {}, say("page-paper-fetch")),
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        ["", say("page-paper-in-all"), say("page-paper-lot")].map((name) =>
          h("th", { scope: "col" }, name || h("span", { class: "unseen" }, say("page-paper-ingredient"))),
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
  /** @type {Said} */
  const said = { cautions: new Map(), heads: "" };
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
    loose.length ? table(loose, columns, say("page-paper-loose", { part: name }), said) : null,
    rounds.flatMap((round) => [
      round.name ? h("h3", { class: "paper-round" }, round.name) : null,
      h(
        "ol",
        {},
        round.steps.map((step) => drawStep(step, columns, said)),
      ),
    ]),
  );
}

/**
 * The cautions of a step that its part says here first, each with its number; and the numbers of those it said before.
 * @param {PaperStep} step @param {Said} said
 */
function cautionsIn(step, { cautions }) {
  const all = [...new Set(step.cautions)];
  const again = all.flatMap((caution) => cautions.get(caution) ?? []);
  const first = all.filter((caution) => !cautions.has(caution));
  for (const caution of first) cautions.set(caution, cautions.size + 1);
  return {
    first: first.map((caution) =>
      h("p", { class: "paper-caution" }, h("b", {}, String(cautions.get(caution))), ` ${caution}`),
    ),
    again: again.length
      ? say("page-paper-again", { count: again.length, numbers: sayAll(again.map(String)) })
      : "",
  };
}

/** @param {PaperStep} step @param {PaperPlan["columns"]} columns @param {Said} said */
function drawStep(step, columns, said) {
  const { first, again } = cautionsIn(step, said);
  return h(
    "li",
    { class: "paper-step" },
    first,
    h(
      "h3",
      { class: "paper-title" },
      box(),
      step.title,
      again ? h("small", { class: "paper-mark" }, again) : null,
      step.optional ? h("small", {}, say("page-paper-optional")) : null,
      step.about_ms ? h("small", {}, say("page-paper-about", { length: span(step.about_ms) })) : null,
    ),
    step.window ? h("p", { class: "paper-within" }, withinWords(step.window, step.from)) : null,
    step.says ? p(step.says) : null,
    step.ways.map((way) => p(box(), h("b", {}, way.name), way.says ? `: ${way.says}` : "")),
    step.rows.length ? table(step.rows, columns, step.title, said) : null,
    BENEATH.find(([is]) => is(step))?.[1](step) ?? null,
    step.tools.length
      ? h("p", { class: "paper-note" }, say("page-paper-tools", { tools: step.tools.join(", ") }))
      : null,
  );
}

/** @param {{readonly latest_ms: number, readonly stake: string}} window @param {PaperStep["from"]} from */
function withinWords({ latest_ms: latest, stake }, from) {
  const length = span(latest);
  const steps = sayAll(from.flatMap((title) => (title ? [say("page-paper-quoted", { title })] : [])));
  return those([
    steps ? say("page-paper-within-of", { length, steps }) : say("page-paper-within", { length }),
    stake,
  ]).join(" ");
}

/**
 * What stands beneath a step of what kind; beneath others, nothing.
 * @type {readonly (readonly [is: (step: PaperStep) => boolean, drawn: (step: PaperStep) => Child[]])[]}
 */
const BENEATH = [
  [
    heats,
    ({ bursts = [], more, burst_ms, to_mk: most, look_for: look }) => [
      p(
        bursts.length
          ? bursts.map(({ ms }) => h("span", { class: "burst" }, box(), span(ms)))
          : [say("page-paper-at-a-time", { length: span(burst_ms ?? more?.ms ?? 0) }), " "],
        boxes(TRIES),
      ),
      p(
        h("b", {}, say("page-paper-look-for")),
        " ",
        look,
        most === null || most === undefined
          ? null
          : [" ", say("page-paper-no-further", { warmth: temperature(most) })],
      ),
    ],
  ],
  [
    isJudged,
    (step) => [
      p(h("b", {}, askOf(step))),
      step.looks_at
        ? p(blank(say("sheet-second-look-who")))
        : p(h("b", {}, say("page-paper-not-yet")), " ", notYetOf(step)),
      step.too_far ? p(h("b", {}, say("page-paper-too-far")), " ", step.too_far) : null,
      p(say("page-paper-checked"), " ", boxes(TRIES)),
    ],
  ],
  [
    countsPieces,
    ({ count, again }) => [
      again ? p(h("b", {}, say("page-paper-after-each")), " ", again) : null,
      count
        ? p(
            say("page-paper-to-make", { count }),
            " ",
            count > MOST_BOXES ? blank(say("page-paper-made")) : boxes(count),
            blank(say("page-paper-count-spoiled")),
          )
        : null,
    ],
  ],
  [
    runsByItself,
    (step) => [
      p(h("b", {}, waitWords(step))),
      step.test ? p(step.test) : null,
      step.stake && step.latest_ms !== null ? p(h("b", {}, say("page-paper-latest")), " ", step.stake) : null,
      p(blank(say("page-paper-began")), blank(say("page-paper-ended"))),
    ],
  ],
];

/**
 * Heads that the part's table before had are not said again, nor for each row where all are weighed.
 * @param {readonly PaperRow[]} rows @param {PaperPlan["columns"]} columns @param {string} caption @param {Said} said
 */
function table(rows, [amounts, second, third], caption, said) {
  const columns = [amounts, rows.some(({ reads }) => reads) ? second : "", third];
  const heads = columns.join();
  const isSaid = said.heads === heads;
  said.heads = heads;
  const [{ on: where }] = rows;
  const inOne = rows.length > 1 && where && rows.every(({ on }) => on === where);
  return [
    inOne ? h("p", { class: "paper-note" }, where) : null,
    h(
      "table",
      { class: "paper-table" },
      h("caption", { class: "unseen" }, caption),
      h(
        "thead",
        { class: isSaid ? "said" : null },
        h(
          "tr",
          {},
          h("th", { scope: "col" }, h("span", { class: "unseen" }, say("page-paper-ingredient"))),
          columns.filter(Boolean).map((name) => h("th", { scope: "col" }, name)),
        ),
      ),
      h(
        "tbody",
        {},
        rows.map((row) => drawRow(inOne ? { ...row, on: "" } : row, columns)),
      ),
    ),
  ];
}

/** @param {PaperRow} row @param {readonly string[]} columns */
const drawRow = ({ name, amount, reads, on, note }, columns) =>
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
  );
