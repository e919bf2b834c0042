/**
 * Waits and windows: where an instant stands between earliest, usual and latest.
 *
 * Everything is an absolute instant in ms, so a sleeping phone, a restart or a second device shows
 * the same time. A phase is what the wait asks for; a ring falls due when a phase begins.
 */

import { divided } from "./whole.js";
/** @import { GuidePhase, Ring, WaitPhase, WindowPhase } from "../../bench/shapes/page" */

const WARN_SHARE = 10; // “nearly late” begins in the last tenth before the latest time
const MOST_WARN_MS = 60 * 60_000;

/**
 * When to warn that the latest time is near: a tenth of the way before it, an hour at most.
 * @param {number} beganAt @param {number} latestAt
 */
export function warnAt(beganAt, latestAt) {
  return latestAt - Math.min(MOST_WARN_MS, divided(latestAt - beganAt, WARN_SHARE)[0]);
}

/**
 * counting, then look (earliest), ready (usual), soon_late (warned), late (latest).
 * @param {{began_at: number, earliest_at: number, usual_at: number, latest_at: number | null}} wait
 * @param {number} at
 * @returns {WaitPhase}
 */
export function waitPhase(wait, at) {
  const latest = wait.latest_at;
  if (latest !== null && at >= latest) return "late";
  if (at < wait.earliest_at) return "counting";
  if (latest !== null && at >= Math.max(wait.usual_at, warnAt(wait.began_at, latest))) return "soon_late";
  return at >= wait.usual_at ? "ready" : "look";
}

/**
 * open, then soon_late, then late.
 * @param {{opened_at: number, latest_at: number}} window @param {number} at @returns {WindowPhase}
 */
export function windowPhase(window, at) {
  if (at >= window.latest_at) return "late";
  return at >= warnAt(window.opened_at, window.latest_at) ? "soon_late" : "open";
}

/** counting, then ready. @param {{until: number}} guide @param {number} at @returns {GuidePhase} */
export function guidePhase(guide, at) {
  return at >= guide.until ? "ready" : "counting";
}

/**
 * When a wait rings, in order: [{kind: look | ready | late, at}].
 * @param {{began_at: number, earliest_at: number, usual_at: number, latest_at: number | null}} wait
 */
export function rings(wait) {
  /** @type {Ring[]} */
  const due = [{ kind: "ready", at: wait.usual_at }];
  if (wait.usual_at > wait.earliest_at) due.unshift({ kind: "look", at: wait.earliest_at });
  if (wait.latest_at !== null) {
    due.push({ kind: "late", at: Math.max(wait.usual_at, warnAt(wait.began_at, wait.latest_at)) });
  }
  return due;
}
