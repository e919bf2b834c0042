/** Which steps are prompted, and in which order: the best next one first. */

import { waitPhase } from "../waits.js";
import { isSettled, roundOf, status } from "./view.js";
import { heats, runsByItself } from "../steps/index.js";
/** @import { Step, WaitPhase } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

/** The steps that can be done, the best next one first. @param {View} view */
export function inOrder(view) {
  const latest = lastRound(view);
  return view.sheet.steps
    .filter((step) => ["ready", "begun"].includes(status(view, step.id)))
    .map((step) => ({ step, rank: rank(view, step, latest) }))
    .sort((one, other) => one.rank[0] - other.rank[0] || one.rank[1] - other.rank[1])
    .map(({ step }) => step);
}

/** The component and round worked on last, so that one goes on with what is in hand. @param {View} view */
function lastRound(view) {
  /** @type {{at: number, round: string} | null} */
  let best = null;
  for (const step of view.sheet.steps) {
    if (runsByItself(step) || !isSettled(view, step.id)) continue;
    const at = view.state.steps[step.id].at ?? 0;
    if (best === null || at >= best.at) best = { at, round: roundOf(step) };
  }
  return best?.round ?? null;
}

/** @type {{[P in WaitPhase]: number}} */
const WAIT_PLACES = { late: 2, soon_late: 3, ready: 6, look: 7, counting: 9 };

/**
 * Small is sooner: what is running, then windows, then the part in hand, then long tails.
 * @param {View} view @param {Step} step @param {string | null} latest
 */
function rank(view, step, latest) {
  const key = step.id;
  const guide = view.guides.get(key);
  if (guide && heats(step)) return [0, guide.until];
  const window = view.windows.get(key);
  if (window) return [1, window.latest_at];
  if (runsByItself(step)) {
    const wait = view.waits.get(key);
    return [WAIT_PLACES[wait ? waitPhase(wait, view.at) : "counting"], wait?.earliest_at ?? 0];
  }
  if (step.hold_for.some((need) => !isSettled(view, need))) return [8, -step.tail_ms];
  const inHand = view.guides.has(key) || status(view, key) === "begun" || latest === roundOf(step);
  return [inHand ? 4 : 5, -step.tail_ms];
}

/** Steps passed over: not settled, though something that needs them is. @param {View} view */
export function owed(view) {
  const { steps } = view.sheet;
  const passed = new Set(steps.filter((step) => isSettled(view, step.id)).flatMap((step) => step.after));
  return steps.filter((step) => passed.has(step.id) && !isSettled(view, step.id)).map(titled);
}

/** @param {Step} step */
export function titled(step) {
  return { step: step.id, title: step.title };
}
