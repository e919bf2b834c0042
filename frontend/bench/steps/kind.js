/** What every kind of step says of itself, and what it is laid out by. */

/** @import { Component, Heater, Ingredient } from "../../../bench/shapes/page" */
/** @import { Full } from "../../../types/lists" */

/**
 * What the core asks of a kind, so that it need not know its name: whether time does it, and whether it ends with so
 * many pieces.
 * @typedef {{runsByItself?: boolean, countsPieces?: boolean}} Traits
 */

/**
 * One round of one part, for the steps that are laid out in it; masses and ingredients are of each chosen line, and
 * `prefix` is component.round.
 * @typedef {{component: Component, prefix: string, count: number, masses: Full<string, number>,
 *   ingredients: Full<string, Ingredient>, heaters: readonly Heater[]}} Batch
 */

/** Those of the lines that are in use. @param {Batch} batch @param {readonly string[]} lines */
export const chosen = (batch, lines) => lines.filter((key) => batch.masses.has(key));
