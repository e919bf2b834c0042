/** weigh: lines go into a vessel by weight, by count or by the spoon. */

import { byCode } from "../cautions.js";
import { chosen, MINUTE_MS } from "./kind.js";
/** @import { RecipeWeigh, StepHead, WeighStep } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** Common practice, both: to set up, and for each line. */
const [SETTING_UP_MS, LINE_MS] = [MINUTE_MS, MINUTE_MS];
/** @type {Traits} */
export const TRAITS = { putsIn: true };

/** @param {RecipeWeigh} step @param {StepHead} head @param {Batch} batch @returns {WeighStep} */
export function layOut(step, head, batch) {
  const keys = chosen(batch, step.lines);
  const more = keys.map((key) => byCode(batch.ingredients.get(key)));
  return {
    ...head,
    kind: "weigh",
    hazards: [...new Set([...head.hazards, ...more.flatMap(({ hazards }) => hazards)])],
    cautions: [...new Set([...head.cautions, ...more.flatMap(({ cautions }) => cautions)])],
    lines: keys.map((key) => `${batch.prefix}.${key}`),
    vessel: `${batch.prefix}.${step.into}`,
  };
}

/** @param {WeighStep} step */
export const usualHandsMs = ({ lines }) => SETTING_UP_MS + LINE_MS * lines.length;
