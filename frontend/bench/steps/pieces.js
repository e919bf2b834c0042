/** pieces: pieces are made, one by one or together, and counted. */

/** @import { PiecesStep, RecipePieces, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** @type {Traits} */
export const TRAITS = { countsPieces: true };

/** @param {RecipePieces} step @param {StepHead} head @param {Batch} batch @returns {PiecesStep} */
export function layOut(step, head, { component, prefix, count }) {
  const { one_by_one, again, partial, verb } = step;
  return {
    ...head,
    kind: "pieces",
    ...{ one_by_one, again, partial, verb, count },
    of: step.of.map((portion) => `${prefix}.${portion}`),
    piece_mg: component.piece_mg,
    follows: [],
  };
}
