/** The lines of a round: how much of each, in what measure, and on which scale. */

import { nearest, over, readDensity } from "../amounts.js";
import { last } from "../lists.js";
import { vesselFor } from "../sizing.js";
import { cupScale, readsIn, toleranceMg, uncertaintyPpm } from "../weighing.js";
import { divided, halfEven, product, toDivision } from "../whole.js";
import { warn } from "./parts.js";
/** @import { Component, InSpoons, MeasuredRecipe } from "../../../bench/shapes/page" */
/** @import { RecipeWeigh, Scale, SheetVessel } from "../../../bench/shapes/page" */
/** @import { Spoon, Spoonful } from "../../../bench/shapes/page" */
/** @import { Int } from "../whole.js" */
/** @import { ChosenLine } from "./chosen.js" */
/** @import { Laying } from "./parts.js" */

/** @typedef {{top: Int, bottom: Int}} Factor */

const SPOON_GRAIN = 8; // nL: what the drawer's own rounding comes to over several spoons

/**
 * @param {Laying} draft @param {Component} component @param {number} number @param {ChosenLine} line @param {number} mg
 * @param {Factor} factor @param {RecipeWeigh | undefined} step @param {SheetVessel | undefined} vessel
 */
export function layLine(draft, component, number, line, mg, factor, step, vessel) {
  const prefix = `${component.id}.${number}`;
  const where = `${prefix}.${line.id}`;
  const written = `${component.id}.${line.id}`; // said once, however many rounds there are
  const { recipe, kit } = draft;
  const name = recipe.ingredients[line.ingredient].name;
  const bowl = kit.scales.find((scale) => scale.id === vessel?.scale) ?? null;
  const weighed = Boolean(line.ug);
  const { scale, cup } =
    weighed && vessel ? scaleFor(draft, line, mg, bowl, where) : { scale: bowl, cup: false };
  /** @param {number | null} amount @param {number} unit */
  const grown = (amount, unit) =>
    amount === null ? null : halfEven(product(amount, factor.top), product(factor.bottom, unit));
  const nl = grown(line.nl, 1);
  const count = grown(line.count, 1000);
  if (count === 0) warn(draft, { where: written, kind: "less_than_one", name });
  if (nl !== null && 2 * nl < last(recipe.spoons).nl)
    warn(draft, { where: written, kind: "less_than_a_spoon", name });
  if (line.unit === "drops") warn(draft, { where: written, kind: "drops" });
  draft.lines.push({
    id: where,
    component: component.id,
    round: number,
    line: line.id,
    ingredient: line.ingredient,
    name,
    vessel: vessel?.id ?? null,
    step: step ? `${prefix}.${step.id}` : null,
    mg: weighed ? mg : null,
    nl,
    count: count === 0 ? 1 : count,
    unit: line.unit,
    about_mg: grown(line.about_ug, 1000),
    tolerance_mg: weighed && scale ? toleranceMg(mg, line.tolerance_ppm, scale.division_mg) : 0,
    scale: weighed && scale ? scale.id : null,
    division_mg: weighed && scale ? scale.division_mg : null,
    cup,
    spoons: nl === null ? null : inSpoons(recipe.spoons, nl),
    by_spoon: weighed && scale ? bySpoon(recipe, line.ingredient, mg, scale) : null,
    optional: line.optional,
    note: line.note,
    instead_of: line.instead_of ?? "",
  });
}

/**
 * What is too little for its scale to show, in spoons, where its density is known.
 * @param {MeasuredRecipe} recipe @param {string} key @param {number} mg @param {Scale} scale
 */
function bySpoon({ ingredients, spoons }, key, mg, scale) {
  const { density } = ingredients[key];
  if (!mg || toDivision(mg, readsIn(scale)) || !density) return null;
  const nl = nearest(over([BigInt(mg) * 1000n, 1n], readDensity(density.g_per_ml))); // g/mL is µg/nL
  return nl ? inSpoons(spoons, nl) : null;
}

/**
 * The scale this line is weighed on, and whether in a small cup first.
 * @param {Laying} draft @param {ChosenLine} line @param {number} mg @param {Scale | null} scale @param {string} where
 * @returns {{scale: Scale | null, cup: boolean}}
 */
function scaleFor(draft, line, mg, scale, where) {
  const inBowl = { scale, cup: false };
  if (!mg || (scale && uncertaintyPpm(mg, scale.division_mg) <= line.tolerance_ppm)) return inBowl;
  const vessel = vesselFor(draft.kit, "cup", mg);
  const found = cupScale(draft.kit, vessel?.empty_mg ?? 0, mg, line.tolerance_ppm);
  if (!found) return inBowl;
  if (!found.meets) {
    const { name } = draft.recipe.ingredients[line.ingredient];
    const off_ppm = uncertaintyPpm(mg, found.scale.division_mg);
    warn(draft, { where, kind: "too_little", name, mg, scale: found.scale.name, off_ppm });
  }
  return found.scale.id === scale?.id ? inBowl : { scale: found.scale, cup: true };
}

/**
 * A volume in spoons a drawer really holds: 2¾ tsp is 2 tsp, ½ tsp and ¼ tsp.
 *
 * To the nearest smallest spoon, and what that is off by in per cent. Less than half the smallest is a share of it.
 * @param {readonly Spoon[]} drawer @param {number} nl @returns {InSpoons}
 */
function inSpoons(drawer, nl) {
  const smallest = last(drawer);
  if (2 * nl < smallest.nl) {
    const part = Math.max(1, halfEven(100 * nl, smallest.nl));
    return { spoons: [{ spoon: smallest.name, count: 1 }], off_percent: 0, part_percent: part };
  }
  let left = nl + divided(smallest.nl, 2)[0];
  let told = 0;
  /** @type {Spoonful[]} */
  const spoons = [];
  for (const { name, nl: each } of drawer) {
    const [count] = divided(left + SPOON_GRAIN, each);
    left = Math.max(0, left - count * each);
    told += count * each;
    if (count) spoons.push({ spoon: name, count });
  }
  const off = halfEven(product(100, Math.abs(told - nl)), nl);
  return { spoons, off_percent: told > nl ? off : 0 - off, part_percent: null };
}
