/** check: what was made is judged: right, not yet, or too far. */

import { MINUTE_MS } from "./kind.js";
/** @import { CheckStep, RecipeCheck, StepHead } from "../../../bench/shapes/page" */
/** @import { Traits } from "./kind.js" */

/** Common practice. */
export const USUAL_HANDS_MS = 2 * MINUTE_MS;
/** @type {Traits} */
export const TRAITS = { isJudged: true, endsByLook: true };

/** @param {RecipeCheck} step @param {StepHead} head @returns {CheckStep} */
export function layOut(step, head) {
  const { ask, yes, not_yet, too_far } = step;
  const left = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
  return { ...head, ...left, kind: "check", ask, yes, not_yet, too_far };
}
