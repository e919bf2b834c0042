/** Judgements beside a record: the same as bench/release.py. */

/** @import { BatchVerdict, JudgementTold, Release, State } from "../../bench/shapes/page" */

const BATCH = "batch";

/**
 * The judgement that stands: the last about it.
 * @param {{readonly judgements: readonly JudgementTold[]}} told @param {string} about
 */
export const judgementOf = ({ judgements }, about) =>
  judgements.findLast((each) => each.about === about) ?? null;

/**
 * How the batch was judged last, and whether that still holds; null while nobody judged.
 * @param {State} state @returns {Release | null}
 */
export function releaseOf(state) {
  const judged = judgementOf(state, BATCH);
  if (!judged) return null;
  const holds =
    judged.verdict !== "released" || (state.signed !== null && state.signed.id === judged.signing);
  return { ...judged, holds };
}

/**
 * Released, held or rejected as it is now; null where nobody judged, or judged another record.
 * @param {State} state @returns {BatchVerdict | null}
 */
export function releaseStatus(state) {
  const release = releaseOf(state);
  if (!release?.holds) return null;
  const { verdict } = release;
  return verdict === "accepted" || verdict === "not_accepted" ? null : verdict;
}
