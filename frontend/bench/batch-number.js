/**
 * Batch numbers of the maker's own pattern, unique over devices that cannot hear each other.
 *
 * The same rules as bench/batch_number.py, which says why a number is given only once.
 */

import { say } from "../words.js";
import { BenchError } from "./errors.js";

const TOKENS = ["yyyy", "yy", "mm", "dd", "mark", "n", "recipe"];

/**
 * Throws a BenchError, with the way out, when numbers by this pattern could be given twice.
 * @param {string} pattern
 */
export function checkPattern(pattern) {
  /** @param {string} says */
  const wrong = (says) => {
    throw new BenchError("batch_number", says);
  };
  const length = [...pattern].length;
  if (length < 1 || length > 60) wrong(say("batch-number-length"));
  const named = [...pattern.matchAll(/\{([^{}]*)\}/g)].map(([, name]) => name);
  const strange = named.find((name) => !TOKENS.includes(name));
  if (strange !== undefined) {
    const could = TOKENS.map((token) => `{${token}}`).join(", ");
    wrong(say("batch-number-unknown", { written: `{${[...strange].slice(0, 20).join("")}}`, could }));
  }
  if (!/^[A-Za-z0-9 ./#_-]*$/.test(pattern.replace(/\{[^{}]*\}/g, ""))) {
    wrong(say("batch-number-characters"));
  }
  for (const needed of ["mark", "n"]) {
    if (!named.includes(needed)) {
      wrong(say("batch-number-needed", { token: `{${needed}}` }));
    }
  }
  for (const [, ...beside] of pattern.matchAll(/(.?)\{recipe\}(.?)/g)) {
    if (!beside.every((each) => /^[ ./#_-]?$/.test(each))) {
      wrong(say("batch-number-beside", { token: "{recipe}" }));
    }
  }
}

/** The first letters of a title's words, eight at most: "Two-layer soap bars" is "TLSB". @param {string} title */
export function recipeCode(title) {
  const words = title.match(/[A-Za-z0-9]+/g) ?? [];
  return (
    words
      .map((word) => word[0])
      .join("")
      .toUpperCase()
      .slice(0, 8) || "R"
  );
}

/**
 * The number of one batch; `on` is the maker's day, mark and n are the device's own.
 * @param {string} pattern @param {string} on @param {string} mark @param {number} n @param {string} title
 */
export function batchNumber(pattern, on, mark, n, title) {
  checkPattern(pattern);
  const day = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/.exec(on);
  if (!day) throw new BenchError("on", say("batch-number-day", { written: on.slice(0, 20) }));
  if (!/^[A-Z]{1,4}$/.test(mark)) throw new BenchError("mark", say("batch-number-mark"));
  if (n < 1) throw new BenchError("n", say("batch-number-count"));
  const [, yyyy, mm, dd] = day;
  /** @type {{[token: string]: string}} */
  const values = { yyyy, yy: yyyy.slice(2), mm, dd, mark, n: String(n), recipe: recipeCode(title) };
  return pattern.replace(/\{([^{}]*)\}/g, (_, name) => values[name]);
}
