/** What masses in a state come to: portions, what is left of a mix, and what a carry up asks for. */

import { carryFactor, readsIn } from "../weighing.js";
import { shareOut, sum } from "../whole.js";
/** @import { PieceCount, PiecesStep, Sheet, SplitStep, State } from "../../../bench/shapes/page" */

const MOST_FACTOR = 1000; // a thousand times the batch is a slip of the finger too

export const NO_COUNT = { good: 0, spoiled: 0, partial: 0 };

/**
 * What a scale of the kit reads in; null where there is no such scale.
 * @param {Pick<Sheet, "kit">} sheet @param {string | null} scale
 */
export function divisionOn({ kit }, scale) {
  const found = kit.scales.find(({ id }) => id === scale);
  return found ? readsIn(found) : null;
}

/**
 * What each portion of a split should weigh, in mg, from what really is in the bowl.
 * @param {SplitStep} step @param {State} state
 */
export function portionTargets(step, state) {
  const held = state.vessels[step.vessel].in_mg;
  const done = state.steps[step.id].status === "done";
  const out = sum(step.portions.map((portion) => state.portions[portion.vessel] ?? 0));
  return shareOut(
    done ? out : held + out,
    step.portions.map((portion) => portion.share),
  );
}

/**
 * What is left of a part's mix, in mg, after the pieces that were counted; never below nought.
 * @param {PiecesStep} step @param {(vessel: string) => number} heldOf what went in
 * @param {Pick<PieceCount, "good" | "spoiled" | "partial"> | undefined} count @param {Pick<Sheet, "vessels">} sheet
 */
export function leftOfMix(step, heldOf, count, { vessels }) {
  const own = vessels
    .filter(({ component, round }) => component === step.component && round === step.round)
    .map(({ id }) => id);
  const { good, spoiled, partial } = count ?? NO_COUNT;
  const held = sum((step.of.length ? step.of : own).map(heldOf));
  return Math.max(0, held - (good + spoiled + partial) * step.piece_mg);
}

/**
 * Whether a carry by num / den can be meant: between a thousandth and a thousand times.
 * @param {number} num @param {number} den
 */
export function inReach(num, den) {
  return num <= MOST_FACTOR * den && den <= MOST_FACTOR * num;
}

/**
 * k = max(actual / target) over what is in this round's bowl, as [numerator, denominator].
 * @param {Sheet} sheet @param {State} state @param {string} component @param {number} round
 */
export function carryUp(sheet, state, component, round) {
  return carryFactor(
    sheet.lines
      .filter((line) => line.component === component && line.round === round)
      .map((line) => /** @type {const} */ ([state.lines[line.id].in_mg, line.mg ?? 0]))
      .filter(([actual, target]) => actual > 0 && target > 0),
  );
}
