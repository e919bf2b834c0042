/** One answer of a prompt. */

/** @import { Answer, RunKind } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */

/**
 * One answer. `input` is what it still wants (reading, count, note) and `most` its upper bound; `ask` is
 * what to ask the maker before it is posted; `also`, where there is one, are entries that it tells besides.
 * @param {string} id @param {string} label @param {RunKind} kind @param {Answer["body"]} body
 * @param {Partial<Draft<Pick<Answer, "says" | "input" | "most" | "strong" | "ask" | "also">>>} [how]
 * @returns {Draft<Answer>}
 */
export function answer(
  id,
  label,
  kind,
  body,
  { says = "", input = null, most = null, strong = false, ask = "", also = undefined } = {},
) {
  return { id, label, says, kind, body, input, most, strong, ask, ...(also ? { also } : {}) };
}
