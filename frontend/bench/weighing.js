/**
 * Which scale for which line, and what a mass in the bowl means.
 *
 * A reading of division d carries a standard uncertainty of at least 0.41 d, so the smallest net
 * mass worth weighing to a tolerance t is 2 × 0.41 d / t: the minimum-weight rule of USP <41>
 * (2019), with the maker's own t in place of its 0.10 %. The weight of the vessel does not count
 * towards it. Vessel and contents together stay within the scale's capacity.
 */

import { say } from "../words.js";
import { BenchError } from "./errors.js";
import { last } from "./lists.js";
import { ceiling, halfEven, PPM, product } from "./whole.js";
/** @import { Kit, Scale, State } from "../../bench/shapes/page" */
/** @import { Division } from "./whole.js" */

/**
 * What a scale reads in, by the scale or by what tells of it.
 * @param {{readonly division_mg: number | null, readonly division_uoz?: number}} scale @returns {Division}
 */
export const readsIn = ({ division_mg, division_uoz }) => ({ mg: division_mg ?? 1, uoz: division_uoz });

/** Nothing is weighed yet: what is needed can still be gathered first. @param {State} state */
export const isUntouched = ({ lines }) => Object.values(lines).every(({ in_mg: mg }) => mg === 0);

/**
 * The smallest net mass, in mg, that a scale of this division weighs to this tolerance.
 * @param {number} divisionMg @param {number} tolerancePpm
 */
function leastMg(divisionMg, tolerancePpm) {
  return ceiling(product(82 * PPM, divisionMg), 100 * tolerancePpm);
}

/**
 * The finest scale that takes so much; where none does, the coarsest.
 * @param {Pick<Kit, "scales">} kit @param {number} mg
 */
export function finestFor(kit, mg) {
  const scales = coarsestFirst(kit);
  return scales.findLast((scale) => scale.capacity_mg >= mg) ?? scales[0];
}

/**
 * How far a line may be off, in mg: its tolerance, but never less than half a division.
 * @param {number} mg @param {number} tolerancePpm @param {number} divisionMg
 */
export function toleranceMg(mg, tolerancePpm, divisionMg) {
  return Math.max(halfEven(product(mg, tolerancePpm), PPM), ceiling(divisionMg, 2));
}

/**
 * How far a sheet's line may be off, in mg, on a scale of this division, while its round is made num / den of
 * the sheet's: the one rule by which the fold, the bench and the record judge.
 * @param {{tolerance_mg: number}} line @param {number | null | undefined} divisionMg @param {number} [num]
 * @param {number} [den]
 */
export function allowedMg(line, divisionMg, num = 1, den = 1) {
  return Math.max(halfEven(product(line.tolerance_mg, num), den), ceiling(divisionMg || 1, 2));
}

/** The kit's scales, coarsest division first; a BenchError when there is none. @param {Pick<Kit, "scales">} kit */
export function coarsestFirst(kit) {
  if (!kit.scales.length) {
    throw new BenchError("scales", say("kit-no-scale"));
  }
  return [...kit.scales].sort(
    (one, other) =>
      other.division_mg - one.division_mg ||
      other.capacity_mg - one.capacity_mg ||
      (one.id < other.id ? -1 : 1),
  );
}

/**
 * The scale a vessel stands on while these {mg, tolerancePpm} lines go in.
 *
 * loadMg: vessel and contents together. The coarsest scale that meets every line, else the
 * coarsest that carries the load; null when none carries it.
 * @param {Kit} kit @param {number} loadMg @param {readonly {mg: number, tolerancePpm: number}[]} lines
 */
export function bowlScale(kit, loadMg, lines) {
  const able = coarsestFirst(kit).filter((scale) => scale.capacity_mg >= loadMg);
  const meets = (/** @type {Scale} */ scale) =>
    lines.every(({ mg, tolerancePpm }) => mg >= leastMg(scale.division_mg, tolerancePpm));
  return able.find(meets) ?? able[0] ?? null;
}

/**
 * The scale for a line too small for its bowl's scale, weighed in a small cup first.
 *
 * {scale, meets}: the coarsest that meets the line, else the finest that can carry it; null when
 * no scale carries it.
 * @param {Kit} kit @param {number} cupMg @param {number} mg @param {number} tolerancePpm
 */
export function cupScale(kit, cupMg, mg, tolerancePpm) {
  const able = coarsestFirst(kit).filter((scale) => scale.capacity_mg >= cupMg + mg);
  const meeting = able.find((scale) => mg >= leastMg(scale.division_mg, tolerancePpm));
  if (meeting) return { scale: meeting, meets: true };
  return able.length ? { scale: last(able), meets: false } : null;
}

/**
 * Twice the standard uncertainty of one reading, as a share of the mass, in ppm.
 * @param {number} mg @param {number} divisionMg
 */
export function uncertaintyPpm(mg, divisionMg) {
  return halfEven(product(82 * PPM, divisionMg), product(100, mg));
}

/**
 * k = max(actual / target) over what is in the bowl, as a whole [numerator, denominator].
 *
 * lines: [actual mg, target mg] pairs with something in and a target above nought. [1, 1] when
 * there is none.
 * @param {readonly (readonly [number, number])[]} lines @returns {readonly [number, number]}
 */
export function carryFactor(lines) {
  if (!lines.length) return [1, 1];
  return lines.reduce((best, [actual, target]) =>
    product(actual, best[1]) > product(best[0], target) ? [actual, target] : best,
  );
}
