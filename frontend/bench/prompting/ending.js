/** The answers that end the last step, and so the batch. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { phAnswers } from "./acidity.js";
import { status } from "./view.js";
import { countsPieces } from "../steps/index.js";
/** @import { Answer, Step } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Asked, View } from "./view.js" */

/**
 * Where only this step is left, and none was passed over, the answer that ends it ends the batch too;
 * unless something is asked between the two: one touch would pass it over.
 * @param {View} view @param {Asked} prompt @param {Step} step
 */
export function ended(view, prompt, step) {
  if (phAnswers(view, null).length) return prompt;
  if (view.sheet.steps.some((each) => each !== step && status(view, each.id) !== "done")) return prompt;
  const ends = prompt.answers.filter((given) => settles(view, step, given));
  for (const each of ends) each.also = [{ kind: "finished", body: {} }];
  prompt.more = joined(prompt.more, ends.length ? say("prompting-ends-batch") : "");
  return prompt;
}

/**
 * Whether a step is done by an answer, and all of it: what stops short of that is asked about once more.
 * @param {View} view @param {Step} step @param {Draft<Answer>} given
 */
export function settles(view, step, { kind, body }) {
  if (countsPieces(step)) {
    const { good, partial } = view.state.counts[step.id] ?? { good: 0, partial: 0 };
    const left = view.state.expected[step.id] - good - partial;
    return kind === "counted" && left > 0 && ("good" in body ? body.good : 0) === left;
  }
  return kind === "done" || (kind === "looked" && "answer" in body && body.answer === "yes");
}
