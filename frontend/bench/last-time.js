/** Last time: what former runs of a recipe say about its steps. The same as bench/last_time.py. */

import { full } from "./lists.js";
import { divided, mass, halfEven, PPM, product, span, sum } from "./whole.js";
import { say } from "../words.js";
/** @import { Balance, Learned, Record as BatchRecord, Spread } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */

const LEAST_RUNS = 3;
/**
 * @typedef {"bursts" | "heat_ms_per_kg" | "tries" | "wait_ms" | "hands_ms"} Lesson
 * @typedef {{[F in Lesson]: number | null} & {word: string, heat_word: string}} OfStep
 */

/** @type {Lesson[]} */
const LEARNED = ["bursts", "heat_ms_per_kg", "tries", "wait_ms", "hands_ms"];

/** The written step of a step on a sheet: "base.2.press" is "base.press". @param {string} step */
export const stepKey = (step) => step.replace(/\.[^.]*\./, ".");

/** One run by written step. @param {BatchRecord} record */
export function ofRecord(record) {
  /** @type {Full<string, OfStep>} */
  const told = full();
  /** @type {Full<string, number>} */
  const rounds = full();
  for (const { step, round } of record.steps) {
    const key = stepKey(step);
    rounds.set(key, Math.max(rounds.get(key) ?? 0, round));
    told.set(key, {
      bursts: null,
      heat_ms_per_kg: null,
      tries: null,
      wait_ms: null,
      hands_ms: null,
      word: "",
      heat_word: "burst",
    });
  }
  /** @param {string} step @param {Lesson} field @param {number} value */
  const add = (step, field, value) => {
    const one = told.get(stepKey(step));
    one[field] = (one[field] ?? 0) + value;
  };
  /** @type {Map<string, [number, number]>} */
  const heat = new Map();
  for (const { step, used, word = "burst", heated_ms, mg } of record.bursts) {
    add(step, "bursts", used);
    told.get(stepKey(step)).heat_word = word;
    const [ms, melted] = heat.get(stepKey(step)) ?? [0, 0];
    heat.set(stepKey(step), [ms + heated_ms, melted + mg]);
  }
  for (const [key, [ms, mg]] of heat)
    told.get(key).heat_ms_per_kg = mg ? halfEven(product(ms, PPM), mg) : null;
  for (const { step, tries } of record.looks) add(step, "tries", tries);
  for (const { step, word, real_ms } of record.waits) {
    const one = told.get(stepKey(step));
    one.word = word;
    if (real_ms !== null) one.wait_ms = Math.max(one.wait_ms ?? 0, real_ms);
  }
  for (const [step, ms] of Object.entries(record.hands.steps)) if (step) add(step, "hands_ms", ms);
  for (const [key, one] of told) {
    for (const field of /** @type {const} */ (["bursts", "tries", "hands_ms"])) {
      const all = one[field];
      if (all !== null) one[field] = halfEven(all, rounds.get(key));
    }
  }
  return told;
}

/**
 * What happened at each step the last times, newest first: {step: ["5 bursts"]}; and at each line that was
 * weighed, under its step: {step/line: ["3 g too much"]}.
 * @param {readonly BatchRecord[]} records
 */
export function lastTimes(records) {
  /** @type {{[step: string]: string[]}} */
  const said = {};
  for (const record of records) {
    for (const [key, one] of ofRecord(record)) {
      const words = inWords(one);
      if (words) (said[key] ??= []).push(words);
    }
    for (const [key, off] of offByLine(record)) {
      const shown = mass(Math.abs(off), Math.abs(off) >= 1000 ? 1000 : 10);
      if (off)
        (said[key] ??= []).push(
          say(off > 0 ? "last-time-too-much" : "last-time-too-little", { mass: shown }),
        );
    }
  }
  return said;
}

/**
 * The written line of a line on a sheet, under its step: "base.dry/citric".
 * @param {string} step @param {string} line
 */
export const lineKey = (step, line) => `${stepKey(step)}/${line.replace(/^[^.]*\.[^.]*\./, "")}`;

/**
 * What was weighed of each line in the average round, less what was asked, by line key.
 * @param {BatchRecord} record @returns {[string, number][]}
 */
function offByLine(record) {
  const told = new Map();
  for (const { step, line, deviation_mg, status } of record.lines) {
    if (step === null || deviation_mg === null || status === "open") continue;
    const key = lineKey(step, line);
    told.set(key, [...(told.get(key) ?? []), deviation_mg]);
  }
  return [...told].map(([key, each]) => [key, halfEven(sum(each), each.length)]);
}

/** "5 bursts, 7 tries, dry after 6 h 10 min"; "" when there is nothing to say. @param {OfStep} one */
function inWords({ bursts, heat_word, tries, wait_ms, word }) {
  const told = [];
  if (bursts) told.push(say("last-time-bursts", { word: heat_word, count: bursts }));
  if (tries) told.push(say("last-time-tries", { count: tries }));
  if (wait_ms !== null) told.push(say("last-time-wait", { word, length: span(wait_ms) }));
  return told.join(", ");
}

/**
 * What the runs teach of each step; "" is the batch itself.
 * @param {readonly BatchRecord[]} records @returns {{[step: string]: Learned}}
 */
export function learned(records) {
  /** @type {Map<string, Map<string, number[]>>} */
  const seen = new Map();
  /** @param {string} key @param {string} field @param {number | null} value */
  const see = (key, field, value) => {
    const fields = seen.get(key) ?? new Map();
    const values = fields.get(field) ?? [];
    if (value !== null) values.push(value);
    seen.set(key, fields.set(field, values));
  };
  for (const record of records) {
    for (const [key, one] of ofRecord(record)) for (const field of LEARNED) see(key, field, one[field]);
    see("", "loss_ppm", lossPpm(record.balance));
    see("", "hands_ms", record.hands.ms);
  }
  return Object.fromEntries(
    [...seen].map(([key, fields]) => [
      key,
      Object.fromEntries([...fields].map(([field, values]) => [field, spread(values)])),
    ]),
  );
}

/** @param {Balance | null} balance */
function lossPpm(balance) {
  if (balance === null || balance.in_mg <= 0) return null;
  return halfEven(product(balance.unaccounted_mg + balance.left_mg, PPM), balance.in_mg);
}

/** @param {number[]} values @returns {Spread | null} */
function spread(values) {
  if (values.length < LEAST_RUNS) return null;
  const ranked = [...values].sort((one, other) => one - other);
  const quartile = (/** @type {number} */ of) => {
    const [place, rest] = divided((ranked.length - 1) * of, 4);
    const step = rest ? ranked[place + 1] - ranked[place] : 0;
    return halfEven(sum([4 * ranked[place], step * rest]), 4);
  };
  return { runs: values.length, median: quartile(2), low: quartile(1), high: quartile(3) };
}
