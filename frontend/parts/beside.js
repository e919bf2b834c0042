// What is told beside a step at the bench: how it went the last times, what the maker's own runs teach
// of it once there are three, and whether a piece that was weighed twice is dry.
//
// besideStep(run, { step, line }, runs, ownPpm) -> ["Last time: 3 g too much.", …] // line: what is weighed now, or
// null

import { drynessOf } from "../bench/dryness.js";
import { heatWord } from "../bench/heating.js";
import { lastTimes, learned, lineKey, stepKey } from "../bench/last-time.js";
import { those } from "../bench/lists.js";
import { record } from "../bench/record.js";
import { duration } from "./words.js";
import { heats } from "../bench/steps/index.js";
import { say } from "../words.js";
/** @import { HeatWord, Learned, Record as BatchRecord, Sheet, Spread, State } from "../../bench/shapes/page" */
/** @import { Batch } from "../../types/parts" */

const RUNS_READ = 12;
const told = /** @type {WeakMap<State, BatchRecord>} */ (new WeakMap()); // by a run's state

/** What the former runs say, reckoned once for the same runs. */
/** @type {{states: State[], said: {[key: string]: string[]}, taught: {[key: string]: Learned}}} */
let known = { states: [], said: {}, taught: {} };

/** @param {Batch} run @param {readonly Batch[]} runs */
function formerOf(run, runs) {
  const former = runs
    .filter(({ id, recipe, open }) => id !== run.id && recipe.id === run.recipe.id && !open)
    .slice(0, RUNS_READ);
  const states = former.map(({ state }) => state);
  if (states.length === known.states.length && states.every((each, place) => each === known.states[place]))
    return known;
  const records = former.map((each) => {
    const known = told.get(each.state) ?? record(each.sheet, each.state, each.entries);
    told.set(each.state, known);
    return known;
  });
  known = { states, said: lastTimes(records), taught: learned(records) };
  return known;
}

/**
 * @param {Batch} run @param {{step: string | null, line: string | null}} given @param {readonly Batch[]} runs
 * @param {number | null} ownPpm
 */
export function besideStep(run, { step, line }, runs, ownPpm) {
  if (!step) return [];
  const { said, taught } = formerOf(run, runs);
  const key = stepKey(step);
  const dry = drynessOf(run.sheet, run.state, step, ownPpm).map(({ piece, says }) =>
    [say("page-beside-piece", { number: piece }), says].join(" "),
  );
  const [last, before] = said[line ? lineKey(step, line) : key] ?? [];
  return [
    ...dry,
    those([
      last && say("page-beside-last", { what: last }),
      before && say("page-beside-before", { what: before }),
    ]).join(" "),
    usually(taught[key], heatOf(run.sheet, step)),
  ].filter(Boolean);
}

/** What one heating of a step is called. @param {Sheet} sheet @param {string} key */
function heatOf(sheet, key) {
  const step = sheet.steps.find(({ id }) => id === key);
  return step && heats(step) ? heatWord(sheet, step) : "heat";
}

/** "5 to 6", "5". @param {Spread} spread @param {(value: number) => string} shown */
function range({ low, high }, shown) {
  const ends = { low: shown(low), high: shown(high) };
  return ends.low === ends.high ? ends.low : say("page-beside-range", ends);
}

/**
 * "Your 4 batches, the middle half: 5 to 6 bursts, ready after 5 h 50 min to 6 h 10 min."; "" while there are fewer
 * than three.
 * @param {Learned | undefined} fields @param {HeatWord} word
 */
function usually(fields, word) {
  const { bursts, tries, wait_ms: wait } = fields ?? {};
  const words = those([
    bursts && say("page-beside-bursts", { word, high: bursts.high, range: range(bursts, String) }),
    tries?.high ? say("page-beside-tries", { high: tries.high, range: range(tries, String) }) : null,
    wait && say("page-beside-wait", { range: range(wait, duration) }),
  ]);
  const one = bursts ?? wait ?? tries;
  return one && words.length ? say("page-beside-usual", { count: one.runs, what: words.join(", ") }) : "";
}
