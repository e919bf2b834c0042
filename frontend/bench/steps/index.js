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
/** @import { Batch } from "./kind.js" */

export {
  asPlain,
  byHand,
  countsPieces,
  divides,
  heatedIn,
  heats,
  isEmpty,
  isJudged,
  isOneTouch,
  isPlain,
  knownKind,
  plannedMs,
  putsIn,
  runsByItself,
  traits,
  usualHandsMs,
  usualWaitMs,
  vesselsNamed,
} from "./asking.js";

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
      return check.layOut(step, head, batch);
    case "pieces":
      return pieces.layOut(step, head, batch);
    case "wait":
      return wait.layOut(step, head);
  }
}
