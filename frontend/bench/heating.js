/**
 * Melting in short bursts: how many to expect, and how long each.
 *
 * The heat to bring a mass from one temperature, through its melting point, to another:
 * solid heat + latent heat + liquid heat. A heater's *absorbed* power is what reaches the melt,
 * less than the figure on its door. The estimate is a first guess, shown as planned bursts; the
 * maker's look after each burst rules.
 */

import { ceiling } from "./whole.js";
/** @import { Heat, MeltStep, Sheet } from "../../bench/shapes/page" */
/** @import { Int } from "./whole.js" */

const MOST_BURSTS = 60;
const MICROWAVES = ["microwave", "mikrowelle"]; // as makers write it, in the languages there are

/**
 * Heat in µJ to take `mg` of an ingredient from one temperature to another (m°C). A BigInt: tonnes pass 2^53.
 * @param {number} mg @param {Heat} heat @param {number} fromMk @param {number} toMk
 */
export function heatUj(mg, heat, fromMk, toMk) {
  const melts = heat.melts_mk;
  const solidMk = Math.max(0, Math.min(melts, toMk) - fromMk);
  const liquidMk = Math.max(0, toMk - Math.max(melts, fromMk));
  const latent = fromMk < melts && melts <= toMk ? heat.latent_j_per_kg : 0;
  const perKg = heat.solid_j_per_kg_k * solidMk + heat.liquid_j_per_kg_k * liquidMk + 1000 * latent;
  return (BigInt(mg) * BigInt(perKg) + 999n) / 1000n;
}

/**
 * Whether a kind of heater heats in bursts, with rests: a microwave does; anything else heats on and is looked at.
 * @param {string} kind
 */
export const inBursts = (kind) => MICROWAVES.some((name) => kind.toLowerCase().includes(name));

/** What one heating of a melt is called. */
/** @param {Pick<Sheet, "kit">} sheet @param {MeltStep} step */
export function heatWord({ kit }, { heater }) {
  return inBursts(kit.heaters.findLast(({ name }) => name === heater)?.kind ?? heater) ? "burst" : "heat";
}

/**
 * The bursts to expect, [{ms, rest_ms}]; rest_ms is a pause with a stir before the burst.
 *
 * Full bursts until one shorter last one will do, and a rest before that last one. A melt that
 * would need more than sixty is left unplanned: [].
 * @param {Int} totalUj @param {number} absorbedW @param {number} burstMs @param {number} lastMs
 * @param {number} restMs
 */
export function burstPlan(totalUj, absorbedW, burstMs, lastMs, restMs) {
  const needMs = ceiling(totalUj, 1000 * absorbedW);
  const full = Math.max(0, ceiling(needMs - lastMs, burstMs));
  if (full + 1 > MOST_BURSTS) return [];
  const bursts = Array.from({ length: full }, () => ({ ms: burstMs, rest_ms: 0 }));
  return [...bursts, { ms: lastMs, rest_ms: full ? restMs : 0 }];
}
