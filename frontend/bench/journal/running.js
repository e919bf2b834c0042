/** The waits, windows and guides that run now, with absolute instants. */

import { last } from "../lists.js";
import { openWindow } from "../states.js";
import { byHand, heats, isJudged, runsByItself } from "../steps/index.js";
/** @import { Heating, OpenWindow, RunningGuide, RunningWait, Step } from "../../../bench/shapes/page" */
/** @import { StepState } from "../../../bench/shapes/page" */
/** @import { Tally } from "./tally.js" */

/**
 * The waits, windows and guides that run now, with absolute instants.
 * @param {Tally} tally @param {{[step: string]: StepState}} steps
 */
export function running(tally, steps) {
  /** @type {{waits: RunningWait[], windows: OpenWindow[], guides: RunningGuide[]}} */
  const found = { waits: [], windows: [], guides: [] };
  if (tally.startedAt === null || tally.finishedAt !== null) return found;
  for (const step of tally.sheet.steps) {
    const key = step.id;
    if (tally.settled.has(key)) continue;
    const ready = steps[key].ready_at;
    if (runsByItself(step) && ready !== null) {
      const again = tally.extended.get(key);
      found.waits.push({
        step: key,
        began_at: ready,
        earliest_at: again ?? ready + step.earliest_ms,
        usual_at: again ?? ready + step.usual_ms,
        latest_at: step.latest_ms === null ? null : ready + step.latest_ms,
      });
    }
    const window = openWindow(step, (each) => tally.settled.get(each)?.at, tally.air);
    if (window) found.windows.push({ step: key, opened_at: window.opened_at, latest_at: window.latest_at });
    const began = tally.began.get(key);
    if (byHand(step) && step.about_ms !== null && began !== undefined) {
      found.guides.push({ step: key, began_at: began, until: began + step.about_ms });
    }
    const burst = tally.bursts.get(key)?.at(-1);
    const look = tally.looks.get(key)?.at(-1);
    if (burst?.answer === null) {
      found.guides.push(heating(key, burst));
    } else if (look && rests(tally, step)) {
      found.guides.push({ step: key, began_at: look.at, until: look.at + rests(tally, step) });
    }
  }
  return found;
}

/**
 * A burst that nobody looked at yet: until it is over, or with its rest, until that is.
 * @param {string} step @param {Heating} burst @returns {RunningGuide}
 */
function heating(step, { at, ms, rest_ms }) {
  const ends = at + ms;
  if (rest_ms === undefined) return { step, began_at: at, until: ends };
  return { step, began_at: at, until: ends + rest_ms, rests_at: ends };
}

/**
 * How long what was judged last is to be left: a melt before its next burst, a mix that went too far.
 * @param {Tally} tally @param {Step} step
 */
function rests(tally, step) {
  const look = tally.looks.get(step.id)?.at(-1);
  if (isJudged(step) && look?.answer === "too_far") return step.too_far_ms ?? 0;
  const bursts = tally.bursts.get(step.id);
  if (!heats(step) || !bursts || look?.answer !== "not_yet" || look.at < last(bursts).at) return 0;
  return (step.bursts[bursts.length] ?? step.more).rest_ms;
}
