/** check: what was made is judged: right, not yet, or too far. */

import { coded } from "../former-words.js";
import { MINUTE_MS } from "./kind.js";
/** @import { CheckStep, RecipeCheck, StepHead } from "../../../bench/shapes/page" */
/** @import { Traits } from "./kind.js" */

/** Common practice. */
export const USUAL_HANDS_MS = 2 * MINUTE_MS;

/** @type {Traits} */
export const TRAITS = { isJudged: true, endsByLook: true };

/** @param {RecipeCheck} step @param {StepHead} head @returns {CheckStep} */
export function layOut(step, head) {
  const { ask, not_yet } = step;
  const yes = coded(step.yes) === "yes" ? "" : step.yes;
  const too_far = coded(step.too_far ?? "") === "too_wet" ? "" : step.too_far;
  const left = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
  return { ...head, ...left, kind: "check", ask, yes, not_yet, too_far };
}
