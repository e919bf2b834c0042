/** Hands-on time, reckoned from a run's entries. The same as bench/hands.py, which says how. */

import { kindsThat } from "./entries.js";
import { toldOf } from "./journal/index.js";
import { sum } from "./whole.js";
import { divides, runsByItself } from "./steps/index.js";
/** @import { Entry, HandsOn, Sheet, State } from "../../bench/shapes/page" */

const PAUSE_MS = 10 * 60_000;
const HAND_WORK = kindsThat("hand_work");

/**
 * {ms: in all, steps: {step: ms}, told: whether the maker gave the whole}; "" is gathering and the like.
 * @param {Sheet} sheet @param {State} state @param {readonly Entry[]} entries @returns {HandsOn}
 */
export function handsOn(sheet, state, entries) {
  const steps = new Map(sheet.steps.map((step) => [step.id, step]));
  const toldBy = tellers(sheet);
  const unread = new Set(state.unread);
  /** @type {Map<string, number>} */
  const before = new Map();
  /** @type {Map<string, number>} */
  const spent = new Map();
  for (const { id, device, at, kind, body } of toldOf(state, entries)) {
    if (!HAND_WORK.has(kind) || unread.has(id)) continue;
    const key = toldBy(body);
    const step = steps.get(key);
    const since = before.get(device) ?? at;
    before.set(device, at);
    if (step && runsByItself(step)) continue;
    const most = Math.max(PAUSE_MS, step?.hands_ms ?? 0);
    spent.set(key, (spent.get(key) ?? 0) + Math.min(at - since, most));
  }
  for (const [key, ms] of Object.entries(state.worked)) if (key) spent.set(key, ms);
  const told = state.worked[""];
  return { ms: told ?? sum([...spent.values()]), steps: Object.fromEntries(spent), told: told !== undefined };
}

/**
 * Which step of the sheet an entry's body tells of; "" for none.
 * @param {Sheet} sheet @returns {(body: Entry["body"]) => string}
 */
export function tellers(sheet) {
  const ofLine = new Map(sheet.lines.map(({ id, step }) => [id, step]));
  const ofPortion = new Map(
    sheet.steps.flatMap((step) =>
      divides(step) ? step.portions.map(({ vessel }) => /** @type {const} */ ([vessel, step.id])) : [],
    ),
  );
  return (body) => {
    const named = /** @type {{[field: string]: string | undefined}} */ (body);
    return named.step || ofLine.get(named.line ?? "") || ofPortion.get(named.vessel ?? "") || "";
  };
}
