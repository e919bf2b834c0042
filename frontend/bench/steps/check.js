/** check: what was made is judged: right, not yet, or too far. */

/** @import { CheckStep, RecipeCheck, StepHead } from "../../../bench/shapes/page" */
/** @import { Traits } from "./kind.js" */

/** @type {Traits} */
export const TRAITS = {};

/** @param {RecipeCheck} step @param {StepHead} head @returns {CheckStep} */
export function layOut(step, head) {
  const { ask, yes, not_yet, too_far } = step;
  const left = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
  return { ...head, ...left, kind: "check", ask, yes, not_yet, too_far };
}
