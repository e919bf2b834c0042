/** split: what is in one vessel is divided into portions; the last of them stays where it is. */

/** @import { RecipeSplit, SplitStep, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** @type {Traits} */
export const TRAITS = {};

/** @param {RecipeSplit} step @param {StepHead} head @param {Batch} batch @returns {SplitStep} */
export function layOut(step, head, { prefix }) {
  return {
    ...head,
    kind: "split",
    vessel: `${prefix}.${step.from}`,
    portions: step.portions.map(({ id, name, share }) => ({ vessel: `${prefix}.${id}`, name, share })),
  };
}
