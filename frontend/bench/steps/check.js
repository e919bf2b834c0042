/** check: what was made is judged: right, not yet, or too far. */

import { TOO_WET } from "../states.js";
import { MINUTE_MS } from "./kind.js";
/** @import { CheckStep, RecipeCheck, StepHead } from "../../../bench/shapes/page" */
/** @import { Traits } from "./kind.js" */

const PLAINLY = "Yes, it does"; // what a measured recipe says where its maker did not

/** Common practice. */
export const USUAL_HANDS_MS = 2 * MINUTE_MS;

/** @type {Traits} */
export const TRAITS = { isJudged: true, endsByLook: true };

/** @param {RecipeCheck} step @param {StepHead} head @returns {CheckStep} */
export function layOut(step, head) {
  const { ask, not_yet } = step;
  const yes = step.yes === PLAINLY ? "" : step.yes;
  const too_far = step.too_far === TOO_WET ? "" : step.too_far;
  const left = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
  return { ...head, ...left, kind: "check", ask, yes, not_yet, too_far };
}
