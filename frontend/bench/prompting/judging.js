/** What was made is judged: right, not yet, or too far. */

import { say } from "../../words.js";
import { joined, sentence } from "../brief.js";
import { last } from "../lists.js";
import { tooFarOf, yesOf } from "../sheet-words.js";
import { guidePhase } from "../waits.js";
import { span } from "../whole.js";
import { answer } from "./answers.js";
/** @import { CheckStep, Look, Verdict } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {CheckStep} step @returns {Said} */
export function check(view, step) {
  const looked = (/** @type {Verdict} */ reply, /** @type {{way?: string}} */ way = {}) => ({
    step: step.id,
    answer: reply,
    ...way,
  });
  const answers = [answer("yes", yesOf(step), "looked", looked("yes"), { strong: true })];
  for (const way of step.ways) {
    answers.push(
      answer(
        `not_yet_${way.id}`,
        say("prompting-not-yet-way", { way: way.name }),
        "looked",
        looked("not_yet", { way: way.id }),
        {
          says: joined(step.not_yet, way.says),
        },
      ),
    );
  }
  if (!step.ways.length) {
    answers.push(
      answer("not_yet", say("prompting-not-yet"), "looked", looked("not_yet"), { says: step.not_yet }),
    );
  }
  if (step.too_far !== null) {
    answers.push(
      answer("too_far", say("prompting-too-far"), "looked", looked("too_far"), { says: tooFarOf(step) }),
    );
  }
  const left = view.guides.get(step.id);
  const isLeft = left && guidePhase(left, view.at) === "counting";
  const number = isLeft
    ? { mg: null, text: span(left.until - left.began_at), caption: say("prompting-judge-again") }
    : null;
  return { says: checkSays(step, view.state.looks[step.id] ?? []), number, answers };
}

/**
 * What the last answer asks to be done, then the question; what "right" is stands before the first.
 * @param {CheckStep} step @param {readonly Look[]} looks
 */
function checkSays(step, looks) {
  const tries = looks.filter((look) => look.answer !== "yes");
  if (!tries.length)
    return joined(step.ask, step.says || say("prompting-right", { right: sentence(yesOf(step)) }));
  const latest = last(tries);
  const way = step.ways.find(({ id }) => id === latest.way);
  const what = latest.answer === "too_far" ? tooFarOf(step) : step.not_yet;
  const tried = say("prompting-tried", { times: tries.length });
  return joined(way ? `${way.name}:` : "", what ?? "", step.ask, tried);
}
