/** pieces: pieces are made, one by one or together, and counted. */

import { coded } from "../former-words.js";
import { MINUTE_MS } from "./kind.js";
/** @import { PiecesStep, RecipePieces, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** A piece, by common practice. */
const [ONE_BY_ONE_MS, TOGETHER_MS] = [MINUTE_MS, 15_000];

/** @type {Traits} */
export const TRAITS = { countsPieces: true };

/** @param {RecipePieces} step @param {StepHead} head @param {Batch} batch @returns {PiecesStep} */
export function layOut(step, head, { component, prefix, count }) {
  const { one_by_one, again, partial } = step;
  const verb = coded(step.verb) === "done" ? "" : step.verb;
  return {
    ...head,
    kind: "pieces",
    ...{ one_by_one, again, partial, verb, count },
    of: step.of.map((portion) => `${prefix}.${portion}`),
    piece_mg: component.piece_mg,
    follows: [],
  };
}

/** @param {PiecesStep} step */
export const usualHandsMs = ({ count, one_by_one }) =>
  (count || 1) * (one_by_one ? ONE_BY_ONE_MS : TOGETHER_MS);
