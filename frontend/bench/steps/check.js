/** check: what was made is judged: right, not yet, or too far. */

import { coded } from "../former-words.js";
import { chosen, MINUTE_MS } from "./kind.js";
/** @import { CheckStep, RecipeCheck, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** Common practice. */
export const USUAL_HANDS_MS = 2 * MINUTE_MS;

/** @type {Traits} */
export const TRAITS = { isJudged: true, endsByLook: true };

/** @param {RecipeCheck} step @param {StepHead} head @param {Batch} batch @returns {CheckStep} */
export function layOut(step, head, batch) {
  const { ask, not_yet } = step;
  const yes = coded(step.yes) === "yes" ? "" : step.yes;
  const too_far = coded(step.too_far ?? "") === "too_wet" ? "" : step.too_far;
  const left = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
  const looks = step.looks_at && {
    looks_at: chosen(batch, step.looks_at).map((key) => `${batch.prefix}.${key}`),
  };
  return { ...head, ...left, ...looks, kind: "check", ask, yes, not_yet, too_far };
}
