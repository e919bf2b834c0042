/** do: a hand does something; it may tip one vessel into another. */

import { sum } from "../whole.js";
import { chosen, MINUTE_MS } from "./kind.js";
/** @import { DoStep, RecipeDo, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** Common practice. */
export const USUAL_HANDS_MS = 3 * MINUTE_MS;
/** @type {Traits} */
export const TRAITS = { byHand: true };

/** @param {RecipeDo} step @param {StepHead} head @param {Batch} batch @returns {DoStep} */
export function layOut(step, head, batch) {
  return {
    ...head,
    kind: "do",
    about_ms: step.about_ms,
    mg: sum(chosen(batch, step.of).map((key) => batch.masses.get(key))) || null,
    tips: step.tips.map((label) => `${batch.prefix}.${label}`),
    into: `${batch.prefix}.${step.into}`,
  };
}
