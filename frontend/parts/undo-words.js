// What an entry did, in a few words for the buttons that undo it and do it again. Pure.
//
//   deedWords(entry, sheet) -> "citric acid 480 g"

import { last } from "../bench/lists.js";
import { duration, mass } from "./words.js";
/** @import { RunEntry, Sheet, ShelfEntry } from "../../bench/shapes/page" */
/** @import { KeptEntry } from "../../types/keep" */

const LONGEST = 40; // on two lines of a narrow phone

/**
 * A name that stands within words begins small, but for one that is written in capitals, as USP.
 * @param {string} name
 */
const small = (name) =>
  /^\p{Lu}[^\p{Lu}]/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
/** @param {string} text */
const quoted = (text) => `\u201c${text.length > 20 ? `${text.slice(0, 19)}\u2026` : text}\u201d`;

/**
 * @typedef {{[K in RunEntry["kind"] | ShelfEntry["kind"]]?: (
 *   body: AnyBody, named: {line: string, step: string, ingredient: string}) => string}} Words
 * @typedef {{lot: string, thing: string, mg?: number, num: number, den: number, weigh: string, ms: number,
 *   good?: number, spoiled?: number, partial?: number, text: string, number: string, count?: number}} AnyBody
 */

/** @type {Words} */
const WORDS = {
  gathered: ({ lot }) => `lot ${lot}`,
  ticked: ({ thing }) => last(thing.split(".")).replaceAll("_", " "),
  weighed: ({ mg }, { line }) => [line, mg === undefined ? "" : mass(mg)].filter(Boolean).join(" "),
  taken_out: ({ mg }, { line }) => `${line}, ${mass(mg ?? 0)} taken out`,
  left: (_, { line }) => `${line} left as it is`,
  left_out: (_, { line }) => `${line} left out`,
  carried: ({ num, den }) => (num < den ? "scale down" : "scale up"),
  zeroed: () => "scale reset",
  switched: ({ weigh }) => (weigh === "tare" ? "zero before each" : "running total"),
  chose: (_, { step }) => `choice, ${step}`,
  done: (_, { step }) => step,
  skipped: (_, { step }) => `skipped, ${step}`,
  began: (_, { step }) => `started, ${step}`,
  heated: ({ ms }, { step }) => `heating ${duration(ms)}, ${step}`,
  looked: (_, { step }) => `check, ${step}`,
  portioned: ({ mg }) => `portion ${mass(mg ?? 0)}`,
  counted: ({ good, spoiled, partial }) =>
    [good && `${good} good`, spoiled && `${spoiled} spoiled`, partial && `${partial} small`]
      .filter(Boolean)
      .join(", ") || "count",
  extended: ({ ms }) => `${duration(ms)} more`,
  measured: ({ mg }) => `weighed ${mass(mg ?? 0)}`,
  pictured: () => "photograph",
  worked: ({ ms }) => `hand work ${duration(ms)}`,
  noted: ({ text }) => `note ${quoted(text)}`,
  finished: () => "finish",
  described: (_, { ingredient }) => `card of ${ingredient}`,
  received: ({ number }) => `lot ${number}`,
  corrected: ({ mg, count }) => `correction to ${count ?? mass(mg ?? 0)}`,
  wrote_off: ({ mg, count }) => `write-off of ${count ?? mass(mg ?? 0)}`,
};

/** @param {KeptEntry} deed @param {Sheet | null} [sheet] of the run; the shelf has none */
export function deedWords({ kind, body }, sheet = null) {
  const card = /** @type {{name?: string} | undefined} */ (body.card);
  const named = {
    line: small(sheet?.lines.find(({ id }) => id === body.line)?.name.split(",")[0] ?? "line"),
    step: small(sheet?.steps.find(({ id }) => id === body.step)?.title ?? "step"),
    ingredient: small(card?.name ?? String(body.ingredient ?? "")),
  };
  const say = WORDS[/** @type {keyof Words} */ (kind)];
  const words =
    say?.(/** @type {AnyBody} */ (/** @type {unknown} */ (body)), named) ?? kind.replaceAll("_", " ");
  return words.length > LONGEST ? `${words.slice(0, LONGEST - 1)}\u2026` : words;
}
