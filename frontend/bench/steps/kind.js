/** What every kind of step says of itself, and what it is laid out by. */

/** @import { Component, Heater, Ingredient } from "../../../bench/shapes/page" */
/** @import { Full } from "../../../types/lists" */

/**
 * What the core asks of a kind, so that it need not know its name: time does it; it ends with so many pieces; lines go
 * into a vessel; a hand does something; lines are melted; what is in a vessel becomes portions; a hand or an eye says
 * whether it is right; and a look that says yes ends it.
 * @typedef {{runsByItself?: boolean, countsPieces?: boolean, putsIn?: boolean, byHand?: boolean, heats?: boolean,
 *   divides?: boolean, isJudged?: boolean, endsByLook?: boolean}} Traits
 */

/**
 * One round of one part, for the steps that are laid out in it; masses and ingredients are of each chosen line, and
 * `prefix` is component.round.
 * @typedef {{component: Component, prefix: string, count: number, masses: Full<string, number>,
 *   ingredients: Full<string, Ingredient>, heaters: readonly Heater[]}} Batch
 */

export const MINUTE_MS = 60_000;

/** Those of the lines that are in use. @param {Batch} batch @param {readonly string[]} lines */
export const chosen = (batch, lines) => lines.filter((key) => batch.masses.has(key));
