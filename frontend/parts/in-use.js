// What the next step needs and another batch has: its bowl or jug, its moulds, its mixer; and what to take instead.
//
//   takenBy(run, "base.1.weigh", runs, measuredOf)  ->  ["In use by D-A41: “Small jug”. Take “Glass jug”."]

import { inUse } from "../bench/holding.js";
import { openSheet } from "../bench/sheet/former.js";
/** @import { MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { Batch } from "../../types/parts" */

/**
 * @param {Batch} run @param {string | null} step @param {readonly Batch[]} runs
 * @param {(run: Batch) => MeasuredRecipe | null | undefined} measuredOf
 */
export function takenBy(run, step, runs, measuredOf) {
  /** @param {Batch} each */
  const laid = (each) => ({
    name: each.state.number ?? each.sheet.recipe.title,
    sheet: openSheet(each.sheet, measuredOf(each)),
    state: each.state,
  });
  const others = runs.filter((other) => other.id !== run.id && other.open);
  if (!others.length) return [];
  return inUse(laid(run), others.map(laid))
    .filter((told) => told.step === step)
    .map(({ says }) => says);
}
