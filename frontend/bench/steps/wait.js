/** wait: time does the work; it has an earliest, a usual and perhaps a latest end. */

import { fullGuard } from "../states.js";
/** @import { RecipeWait, StepHead, WaitStep } from "../../../bench/shapes/page" */
/** @import { Traits } from "./kind.js" */

/** @type {Traits} */
export const TRAITS = { runsByItself: true, endsByLook: true };

/** @param {RecipeWait} step @param {StepHead} head @returns {WaitStep} */
export function layOut(step, head) {
  const { word, earliest_ms, usual_ms, latest_ms, test, stake } = step;
  return { ...head, ...fullGuard(step), kind: "wait", word, earliest_ms, usual_ms, latest_ms, test, stake };
}
