/** What the hand does, and what it may tell with the same touch. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { yesOf } from "../sheet-words.js";
import { mass, span } from "../whole.js";
import { answer } from "./answers.js";
import { beforeNext } from "./urgency.js";
import { isSettled } from "./view.js";
import { isJudged } from "../steps/index.js";
/** @import { Answer, DoStep, Step } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {DoStep} step @returns {Said} */
export function doThis(view, step) {
  const key = step.id;
  const answers = step.ways.length
    ? step.ways.map((way, index) =>
        answer(
          `way_${way.id}`,
          way.name,
          "done",
          { step: key, way: way.id },
          { says: way.says, strong: !index },
        ),
      )
    : [
        answer("done", say("prompting-done"), "done", { step: key }, { strong: true }),
        ...doneAndJudged(view, step),
      ];
  const worked =
    step.mg === null ? null : { mg: step.mg, text: mass(step.mg, 1000), caption: say("prompting-at-least") };
  const says = joined(step.says, beforeNext(view, step));
  if (step.about_ms === null) return { says, answers, number: worked };
  const length = span(step.about_ms);
  if (!view.guides.has(key))
    answers.push(answer("begin", say("prompting-time-it", { length }), "began", { step: key }));
  return { says, answers, number: worked ?? { mg: null, text: length, caption: say("prompting-about") } };
}

/**
 * Where what is done is judged as soon as it is done: both by one touch, if it is right.
 * @param {View} view @param {Step} step @returns {Draft<Answer>[]}
 */
function doneAndJudged(view, step) {
  const [check] = view.sheet.steps
    .filter(isJudged)
    .filter(({ after, id }) => after.length === 1 && after[0] === step.id && !isSettled(view, id));
  if (!check) return [];
  /** @type {Draft<Answer>["also"]} */
  const also = [{ kind: "looked", body: { step: check.id, answer: "yes" } }];
  const body = { step: step.id };
  const label = say("prompting-done-and-judged", { right: yesOf(check) });
  return [answer("done_yes", label, "done", body, { says: check.ask, also })];
}
