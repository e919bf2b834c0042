/**
 * How much of a component gives how many pieces, and the other way round. The same as bench/yields.py.
 *
 * Each component is sized by what the assembly takes from it, not by one factor for the whole
 * recipe: make = ((pieces + spares) × mass a piece + what stays behind) / (1 − f).
 */

import { divided, halfEven, PPM, product } from "./whole.js";
/** @import { Component } from "../../bench/shapes/page" */

export const MOST_PIECES = 1000;

/**
 * The mass to make, in mg, so that `count` pieces come of it.
 * @param {Pick<Component, "piece_mg" | "stays_behind_mg" | "loss_ppm">} component @param {number} count
 */
export function makeMg(component, count) {
  return halfEven(
    product(count * component.piece_mg + component.stays_behind_mg, PPM),
    PPM - component.loss_ppm,
  );
}

/**
 * How many whole pieces this mass of the component gives: `makeMg` turned round.
 * @param {Pick<Component, "piece_mg" | "stays_behind_mg" | "loss_ppm">} component @param {number} mg
 */
export function piecesFrom(component, mg) {
  if (component.piece_mg <= 0) return 0;
  const left = divided(product(mg, PPM - component.loss_ppm), PPM)[0] - component.stays_behind_mg;
  const pieces = Math.max(0, divided(left, component.piece_mg)[0]);
  // What `makeMg` rounded down for one more piece is still enough for it.
  return makeMg(component, pieces + 1) <= mg ? pieces + 1 : pieces;
}
