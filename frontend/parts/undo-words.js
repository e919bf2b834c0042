// What an entry did, in a few words for the buttons that undo it and do it again. Pure.
//
//   deedWords(entry, sheet) -> "Citric acid 480 g"

import { say } from "../words.js";
import { notGood } from "./figure.js";
import { duration, exactly } from "./words.js";
/** @import { BuyingEntry, PiecesEntry, RunEntry, Scale, Sheet, ShelfEntry } from "../../bench/shapes/page" */
/** @import { KeptEntry } from "../../types/keep" */

const LONGEST_NOTE = 20;

/** @param {string} text @param {number} most */
const cut = (text, most) => (text.length > most ? `${text.slice(0, most - 1).trimEnd()}\u2026` : text);

/**
 * @typedef {{[K in Exclude<RunEntry["kind"] | ShelfEntry["kind"] | PiecesEntry["kind"] | BuyingEntry["kind"],
 *   "undone" | "signed" | "numbered" | "judged">]: (
 *   body: AnyBody, named: {line: string, step: string, ingredient: string, scale: Scale | undefined}) => string}} Words
 * @typedef {{lot: string, thing: string, mg?: number, num: number, den: number, weigh: string, ms: number,
 *   good?: number, spoiled?: number, partial?: number, text: string, number: string, count?: number, pieces?: number,
 *   place: string, reference?: string}} AnyBody
 */

/** What was laid out: worn things by their code, the others by their maker's words. @param {string} thing */
function tickWords(thing) {
  const [kind, ...named] = thing.split(".");
  const code = named.join(".");
  if (kind === "start") return say(`gather-start-${code}`);
  return kind === "protection" ? say("gather-protection", { thing: code }) : code.replaceAll("_", " ");
}

/** @param {Pick<AnyBody, "mg" | "count">} body */
const amount = ({ mg, count }) => (count === undefined ? exactly(mg ?? 0) : String(count));

/** @type {Words} */
const WORDS = {
  gathered: ({ lot }) => say("page-undo-lot", { number: lot }),
  ticked: ({ thing }) => tickWords(thing),
  weighed: ({ mg }, { line, scale }) =>
    [line, mg === undefined ? "" : exactly(mg, scale)].filter(Boolean).join(" "),
  taken_out: ({ mg }, { line, scale }) =>
    say("page-undo-taken-out", { name: line, mass: exactly(mg ?? 0, scale) }),
  left: (_, { line }) => say("page-undo-left", { name: line }),
  left_out: (_, { line }) => say("page-undo-left-out", { name: line }),
  carried: ({ num, den }) => say("page-undo-scaled", { way: num < den ? "down" : "up" }),
  zeroed: () => say("page-undo-scale-reset"),
  placed: () => say("page-undo-scale"),
  took: () => say("page-undo-vessel"),
  switched: ({ weigh }) => say("page-undo-weighing", { weigh }),
  chose: (_, { step }) => say("page-undo-chose", { title: step }),
  done: (_, { step }) => step,
  skipped: (_, { step }) => say("page-undo-skipped", { title: step }),
  began: (_, { step }) => say("page-undo-began", { title: step }),
  heated: ({ ms }, { step }) => say("page-undo-heated", { length: duration(ms), title: step }),
  looked: (_, { step }) => say("page-undo-checked", { title: step }),
  portioned: ({ mg }, { scale }) => say("page-undo-portion", { mass: exactly(mg ?? 0, scale) }),
  counted: ({ good, spoiled, partial }) =>
    [good ? say("page-undo-good", { count: good }) : "", ...notGood(partial ?? 0, spoiled ?? 0)]
      .filter(Boolean)
      .join(", ") || say("page-undo-count"),
  extended: ({ ms }) => say("page-undo-more", { length: duration(ms) }),
  measured: ({ mg }, { scale }) => say("page-undo-weighed", { mass: exactly(mg ?? 0, scale) }),
  aired: () => say("page-undo-air"),
  proved: () => say("page-undo-proof"),
  labelled: () => say("page-record-labels"),
  pictured: () => say("page-undo-photo"),
  worked: ({ ms }) => say("page-undo-worked", { length: duration(ms) }),
  noted: ({ text }) => say("page-undo-note", { text: cut(text, LONGEST_NOTE) }),
  kept: ({ pieces }) => say("page-undo-kept", { count: pieces ?? 0 }),
  met: () => say("sheet-good-piece"),
  papered: ({ reference }) => say("page-undo-paper", { text: cut(reference ?? "", LONGEST_NOTE) }),
  finished: () => say("page-undo-finish"),
  sold: ({ pieces }) => say("page-undo-pieces", { way: "sold", count: pieces ?? 0 }),
  given: ({ pieces }) => say("page-undo-pieces", { way: "given", count: pieces ?? 0 }),
  returned: ({ pieces }) => say("page-undo-pieces", { way: "returned", count: pieces ?? 0 }),
  binned: ({ pieces }) => say("page-undo-pieces", { way: "binned", count: pieces ?? 0 }),
  sampled: ({ pieces }) => say("page-undo-pieces", { way: "sampled", count: pieces ?? 0 }),
  shelved: ({ pieces }) => say("page-undo-pieces", { way: "shelved", count: pieces ?? 0 }),
  stood: ({ place }) => say("page-undo-place", { text: cut(place, LONGEST_NOTE) }),
  complained: () => say("page-undo-complaint"),
  described: (_, { ingredient }) => say("page-undo-card", { name: ingredient }),
  received: ({ number }) => say("page-undo-lot", { number }),
  corrected: ({ mg, count }) => say("page-undo-corrected", { amount: amount({ mg, count }) }),
  mended: () => say("page-undo-mended"),
  ordered: ({ mg, count }) => say("page-undo-ordered", { amount: amount({ mg, count }) }),
  arrived: () => say("page-undo-arrived"),
  quoted: () => say("page-undo-quoted"),
  wrote_off: ({ mg, count }) => say("page-undo-wrote-off", { amount: amount({ mg, count }) }),
};

/**
 * A name stands there whole: who cannot read what it is cannot take it back.
 * @param {KeptEntry} deed @param {Sheet | null} [sheet] of the run; the shelf has none
 */
export function deedWords({ kind, body }, sheet = null) {
  const card = /** @type {{name?: string} | undefined} */ (body.card);
  const line = sheet?.lines.find(({ id }) => id === body.line);
  const on = line?.scale ?? sheet?.vessels.find(({ id }) => id === body.vessel)?.scale ?? body.scale;
  const named = {
    scale: sheet?.kit.scales.find(({ id }) => id === on),
    line: line?.name.split(",")[0] ?? say("page-undo-line"),
    step: sheet?.steps.find(({ id }) => id === body.step)?.title ?? say("page-undo-step"),
    ingredient: card?.name ?? String(body.ingredient ?? ""),
  };
  const deed = WORDS[/** @type {keyof Words} */ (kind)];
  const told = /** @type {AnyBody} */ (/** @type {unknown} */ (body));
  return deed?.(told, named) ?? say("page-undo-entry");
}
