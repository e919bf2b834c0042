// What an entry did, in a few words for the buttons that undo it and do it again. Pure.
//
//   deedWords(entry, sheet) -> "citric acid 480 g"

import { duration, mass } from "./words.js";

const LONGEST = 40; // on two lines of a narrow phone

/** A name that stands within words begins small, but for one that is written in capitals, as USP. */
const small = (name) =>
  /^\p{Lu}[^\p{Lu}]/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
const quoted = (text) => `\u201c${text.length > 20 ? `${text.slice(0, 19)}\u2026` : text}\u201d`;

const WORDS = {
  gathered: ({ lot }) => `lot ${lot}`,
  ticked: ({ thing }) => thing.split(".").at(-1).replaceAll("_", " "),
  weighed: ({ mg }, { line }) => [line, mg === undefined ? "" : mass(mg)].filter(Boolean).join(" "),
  taken_out: ({ mg }, { line }) => `${line}, ${mass(mg)} taken out`,
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
  portioned: ({ mg }) => `portion ${mass(mg)}`,
  counted: ({ good, spoiled, partial }) =>
    [good && `${good} good`, spoiled && `${spoiled} spoiled`, partial && `${partial} small`]
      .filter(Boolean)
      .join(", ") || "count",
  extended: ({ ms }) => `${duration(ms)} more`,
  measured: ({ mg }) => `weighed ${mass(mg)}`,
  pictured: () => "photograph",
  worked: ({ ms }) => `hand work ${duration(ms)}`,
  noted: ({ text }) => `note ${quoted(text)}`,
  finished: () => "finish",
  described: (_, { ingredient }) => `card of ${ingredient}`,
  received: ({ number }) => `lot ${number}`,
  corrected: ({ mg, count }) => `correction to ${count ?? mass(mg)}`,
  wrote_off: ({ mg, count }) => `write-off of ${count ?? mass(mg)}`,
};

/** @param [sheet] of the run; the shelf has none */
export function deedWords({ kind, body }, sheet = null) {
  const named = {
    line: small(sheet?.lines.find(({ id }) => id === body.line)?.name.split(",")[0] ?? "line"),
    step: small(sheet?.steps.find(({ id }) => id === body.step)?.title ?? "step"),
    ingredient: small(body.card?.name ?? body.ingredient ?? ""),
  };
  const words = WORDS[kind]?.(body, named) ?? kind.replaceAll("_", " ");
  return words.length > LONGEST ? `${words.slice(0, LONGEST - 1)}\u2026` : words;
}
