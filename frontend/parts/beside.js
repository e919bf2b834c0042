// What is told beside a step at the bench: how it went the last times, what the maker's own runs teach
// of it once there are three, and whether a piece that was weighed twice is dry.
//
// besideStep(run, { step, line }, runs, ownPpm) -> ["Last time: 3 g too much.", …] // line: what is weighed now, or
// null

import { drynessOf } from "../bench/dryness.js";
import { heatWord } from "../bench/heating.js";
import { lastTimes, learned, lineKey, stepKey } from "../bench/last-time.js";
import { record } from "../bench/record.js";
import { duration } from "./words.js";

const RUNS_READ = 12;
const told = new WeakMap(); // by a run's state: its record

/** What the former runs say, reckoned once for the same runs. */
let known = { states: [], said: {}, taught: {} };

function formerOf(run, runs) {
  const former = runs
    .filter(({ id, recipe, open }) => id !== run.id && recipe.id === run.recipe.id && !open)
    .slice(0, RUNS_READ);
  const states = former.map(({ state }) => state);
  if (states.length === known.states.length && states.every((each, place) => each === known.states[place]))
    return known;
  const records = former.map((each) => {
    if (!told.has(each.state)) told.set(each.state, record(each.sheet, each.state, each.entries));
    return told.get(each.state);
  });
  known = { states, said: lastTimes(records), taught: learned(records) };
  return known;
}

export function besideStep(run, { step, line }, runs, ownPpm) {
  if (!step) return [];
  const { said, taught } = formerOf(run, runs);
  const key = stepKey(step);
  const dry = drynessOf(run.sheet, run.state, step, ownPpm).map(
    ({ piece, says }) => `Piece ${piece}: ${says}`,
  );
  const [last, before] = said[line ? lineKey(step, line) : key] ?? [];
  return [
    ...dry,
    last ? `Last time: ${last}${before ? `. Before: ${before}` : ""}.` : "",
    usually(taught[key], heatOf(run.sheet, step)),
  ].filter(Boolean);
}

/** What one heating of a step is called; "" where it is no melt. */
function heatOf(sheet, key) {
  const step = sheet.steps.find(({ id }) => id === key);
  return step.kind === "melt" ? heatWord(sheet, step) : "";
}

/** "Of 4 runs: 5 to 6 bursts, ready after 5 h 50 min to 6 h 10 min"; "" while there are fewer than three. */
function usually(fields, heat) {
  const { bursts, tries, wait_ms: wait } = fields ?? {};
  const range = ({ low, high }, say) => (say(low) === say(high) ? say(low) : `${say(low)} to ${say(high)}`);
  const words = [
    bursts ? `${range(bursts, String)} ${heat}${bursts.high === 1 ? "" : "s"}` : "",
    tries?.high ? `${range(tries, String)} ${tries.high === 1 ? "try" : "tries"}` : "",
    wait ? `ready after ${range(wait, duration)}` : "",
  ].filter(Boolean);
  const one = bursts ?? wait ?? tries;
  return words.length ? `In the middle half of your ${one.runs} runs: ${words.join(", ")}.` : "";
}
