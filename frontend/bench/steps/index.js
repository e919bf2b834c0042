/**
 * Kinds of step. Each is a module: its traits, and how it is laid out on a sheet.
 *
 * The core asks traits and these few questions, and never names a kind. The same modules as in the Python package of
 * the same name, less what reads a recipe as it was written.
 */

import * as check from "./check.js";
import * as doing from "./do.js";
import * as melt from "./melt.js";
import * as pieces from "./pieces.js";
import * as split from "./split.js";
import * as wait from "./wait.js";
import * as weigh from "./weigh.js";
/** @import { RecipeStep, Step, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** @type {{[kind: string]: Traits}} */
const TRAITS = {
  weigh: weigh.TRAITS,
  do: doing.TRAITS,
  melt: melt.TRAITS,
  split: split.TRAITS,
  check: check.TRAITS,
  pieces: pieces.TRAITS,
  wait: wait.TRAITS,
};

/** @param {{kind: string}} step */
export const traits = ({ kind }) => TRAITS[kind] ?? doing.TRAITS;

/**
 * A measured step, as one round's step on the sheet.
 * @param {RecipeStep} step @param {StepHead} head @param {Batch} batch @returns {Step}
 */
export function layOut(step, head, batch) {
  switch (step.kind) {
    case "weigh":
      return weigh.layOut(step, head, batch);
    case "do":
      return doing.layOut(step, head, batch);
    case "melt":
      return melt.layOut(step, head, batch);
    case "split":
      return split.layOut(step, head, batch);
    case "check":
      return check.layOut(step, head);
    case "pieces":
      return pieces.layOut(step, head, batch);
    case "wait":
      return wait.layOut(step, head);
  }
}

/**
 * Whether nothing is left to do, since the maker left out all that it puts in.
 * @param {{kind: string, lines?: readonly string[]}} step
 */
export const isEmpty = ({ kind, lines }) => kind === "weigh" && !lines?.length;

/**
 * The vessels by label that a step works with, in the order in which it comes to them.
 * @param {RecipeStep} step @returns {readonly string[]}
 */
export function vesselsNamed(step) {
  if (step.kind === "weigh") return [step.into];
  if (step.kind === "do" && step.tips.length) return [...step.tips, step.into];
  return step.kind === "split" ? [step.from, ...step.portions.map(({ id }) => id)] : [];
}

/** How long a step is usually left to itself, in ms. @param {RecipeStep | Step} step */
export const usualWaitMs = (step) => (step.kind === "wait" ? step.usual_ms : 0);
