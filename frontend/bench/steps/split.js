/** split: what is in one vessel is divided into portions; the last of them stays where it is. */

import { MINUTE_MS } from "./kind.js";
/** @import { RecipeSplit, SplitStep, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** Common practice. */
export const USUAL_HANDS_MS = 3 * MINUTE_MS;
/** @type {Traits} */
export const TRAITS = { divides: true };

/** @param {RecipeSplit} step @param {StepHead} head @param {Batch} batch @returns {SplitStep} */
export function layOut(step, head, { prefix }) {
  return {
    ...head,
    kind: "split",
    vessel: `${prefix}.${step.from}`,
    portions: step.portions.map(({ id, name, share }) => ({ vessel: `${prefix}.${id}`, name, share })),
  };
}
