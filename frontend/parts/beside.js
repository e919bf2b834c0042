// What is told beside a step at the bench: how it went the last times, what the maker's own runs teach
// of it once there are three, and whether a piece that was weighed twice is dry.
//
// besideStep(run, { step, line }, studio, drawSoon) -> ["Last time: 3 g too much.", …]
// line: what is weighed now, or null; drawSoon: called when more of it is here

import { drynessOf } from "../bench/dryness.js";
import { heatWord } from "../bench/heating.js";
import { those } from "../bench/lists.js";
import { unlessFaulty } from "./seen-words.js";
import { duration } from "./words.js";
import { heats } from "../bench/steps/index.js";
import { say } from "../words.js";
/** @import { HeatWord, LastTimes, Learned, Sheet, Spread } from "../../bench/shapes/page" */
/** @import { Run } from "../keep/run.js" */
/** @import { Studio } from "../keep/studio.js" */

/** @type {Map<string, {asked: string, told: LastTimes | null}>} by recipe: what was heard, and when it was asked */
const known = new Map();

/**
 * What the former batches of a recipe say, as last seen; asked anew once the server has one more of them to its end,
 * and once there is a connection.
 * @param {Run} run @param {Studio} studio @param {() => void} drawSoon
 */
function lastOf({ recipe: { id } }, studio, drawSoon) {
  const sent = studio.runs.filter((each) => !each.open && each.recipe.id === id && each.unsent === 0).length;
  const asked = [sent, studio.link.state].join();
  const had = known.get(id);
  if (had?.asked === asked) return had.told;
  const now = { asked, told: had?.told ?? null };
  known.set(id, now);
  hear(`/recipes/${id}/last`, studio, (told) => {
    now.told = told;
    drawSoon();
  });
  return now.told;
}

/** @param {`/recipes/${string}/last`} path @param {Studio} studio @param {(told: LastTimes) => void} take */
async function hear(path, studio, take) {
  const seen = await studio.seen();
  const last = await seen.kept(path);
  if (last) take(last.body);
  const now = await seen.ask(path).catch(unlessFaulty);
  if (now) take(now.body);
}

/** The written step of a step on a sheet: "base.2.press" is "base.press". @param {string} step */
const stepKey = (step) => step.replace(/\.[^.]*\./, ".");

/**
 * The written line of a line on a sheet, under its step: "base.dry/citric".
 * @param {string} step @param {string} line
 */
const lineKey = (step, line) => `${stepKey(step)}/${line.replace(/^[^.]*\.[^.]*\./, "")}`;

/**
 * @param {Run} run @param {{step: string | null, line: string | null}} given @param {Studio} studio
 * @param {() => void} drawSoon
 */
export function besideStep(run, { step, line }, studio, drawSoon) {
  const told = lastOf(run, studio, drawSoon);
  if (!step) return [];
  const key = stepKey(step);
  const ownPpm = Number(studio.preferences.dry) || null;
  const dry = drynessOf(run.sheet, run.state, step, ownPpm).map(({ piece, says }) =>
    [say("page-beside-piece", { number: piece }), says].join(" "),
  );
  const [last, before] = told?.last[line ? lineKey(step, line) : key] ?? [];
  return [
    ...dry,
    those([
      last && say("page-beside-last", { what: last }),
      before && say("page-beside-before", { what: before }),
    ]).join(" "),
    usually(told?.learned[key], heatOf(run.sheet, step)),
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
