/** What is being laid out, and the warnings that are said while a sheet is made. */

import { makeMg } from "../yields.js";
import { ASSEMBLY } from "../states.js";
import { canonical, halfEven, product, sum } from "../whole.js";
/** @import { Component, Kit, MeasuredRecipe, SheetLine, SheetVessel } from "../../../bench/shapes/page" */
/** @import { Size, Step, Warn } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { ChosenLine } from "./chosen.js" */

/** @typedef {ReturnType<typeof begin>} Laying what is being laid out: the inputs, and the sheet's lists as they grow */

/** What is being laid out. @param {MeasuredRecipe} recipe @param {Size} size @param {Kit} kit */
export function begin(recipe, size, kit) {
  return {
    recipe,
    size,
    kit,
    components: recipe.components.filter((component) => component.steps.length || component.lines.length),
    lines: /** @type {SheetLine[]} */ ([]),
    vessels: /** @type {SheetVessel[]} */ ([]),
    steps: /** @type {Draft<Step>[]} */ ([]),
    warnings: /** @type {Warn[]} */ ([]),
    inUse: /** @type {Map<string, {component: Component, label: string}>} */ (new Map()), // by a kit vessel's id
  };
}

/** Each is said once. @param {Laying} draft @param {Warn} warning */
export function warn(draft, warning) {
  const said = canonical(warning);
  if (!draft.warnings.some((each) => canonical(each) === said)) draft.warnings.push(warning);
}

/**
 * The mass of one round, in mg. The assembly's lines are written for so many pieces.
 * @param {Laying} draft @param {Component} component @param {number} count @param {ChosenLine[]} chosen
 */
export function roundMg(draft, component, count, chosen) {
  if (component.id !== ASSEMBLY) return makeMg(component, count);
  const writtenUg = sum(chosen.map((line) => line.ug ?? 0));
  return halfEven(product(writtenUg, count), 1000 * draft.recipe.written_for);
}
