/** Why a step presses, what hangs on it, and what must be known before it is done. */

import { say } from "../../words.js";
import { joined, sentence } from "../brief.js";
import { yesOf } from "../sheet-words.js";
import { openWindow, rescue, stakeOf } from "../states.js";
import { waitPhase, windowPhase } from "../waits.js";
import { isSettled, shows } from "./view.js";
import { isJudged, runsByItself } from "../steps/index.js";
/** @import { SheetLine, Step } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

/** Why this should be begun soon, or not yet; "" where neither is so. @param {View} view @param {Step} step */
export function urgent(view, step) {
  const pending = step.hold_for.filter((need) => !isSettled(view, need)).map((need) => view.steps.get(need));
  if (!pending.length) {
    if (view.windows.has(step.id)) return stake(view, step);
    return runsByItself(step) ? overdue(view, step) : "";
  }
  const [{ title }, other] = pending;
  return other
    ? say("prompting-finish-two-first", { title, other: other.title })
    : say("prompting-finish-first", { title });
}

/**
 * What is at stake where a wait is nearly or already past its latest, or what helps then.
 * @param {View} view @param {Step} step
 */
function overdue(view, step) {
  const running = view.waits.get(step.id);
  const phase = running ? waitPhase(running, view.at) : "counting";
  if (!runsByItself(step)) return "";
  return (phase === "late" && rescue(step)) || (["soon_late", "late"].includes(phase) ? step.stake : "");
}

/**
 * What hangs on beginning soon; once that is past, what can still be done.
 * @param {View} view @param {Step} step
 */
function stake(view, step) {
  const over = guarding(view, step);
  if (!over) return "";
  const window = view.windows.get(step.id);
  if (window && windowPhase(window, view.at) === "late")
    return say("prompting-past-its-time", { rescue: rescue(over) || stakeOf(over) });
  const isItsOwn = over === step.window || over.class === "quality";
  return isItsOwn ? stakeOf(over) : say("prompting-stay-with-this", { stake: stakeOf(over) });
}

/**
 * What the open window of a step is over: the recipe's own, or one by nature.
 * @param {View} view @param {Step} step
 */
export const guarding = (view, step) =>
  openWindow(step, (need) => (isSettled(view, need) ? view.state.steps[need].at : undefined), view.state.air)
    ?.over;

/**
 * What must be known before a step is done: what "right" is where it is judged as soon as it is done,
 * and how to leave it where a wait begins by itself.
 * @param {View} view @param {Step} step
 */
export function beforeNext(view, step) {
  const waits = view.sheet.steps.filter(
    (each) => runsByItself(each) && each.says && each.after.includes(step.id),
  );
  const leave = waits.map((each) => joined(say("prompting-then"), sentence(each.title), each.says));
  return joined(judgedNext(view, step), ...leave);
}

/** @param {View} view @param {Step} step */
function judgedNext(view, step) {
  const checks = view.sheet.steps.filter((each) => isJudged(each));
  const check = checks.find((each) => !each.looks_at && each.after.includes(step.id));
  return check ? say("prompting-judge-next", { right: sentence(yesOf(check)) }) : "";
}

/**
 * That another person looks as soon as this line is in; "" where nobody has to.
 * @param {View} view @param {SheetLine} line
 */
export function beforeLook(view, line) {
  if (!view.sheet.steps.some((each) => isJudged(each) && each.looks_at?.includes(line.id))) return "";
  return shows(view, line) ? say("prompting-second-next") : say("prompting-second-unweighed");
}
