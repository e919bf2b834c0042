/** What was made is judged: right, not yet, or too far. */

import { say } from "../../words.js";
import { joined, sentence } from "../brief.js";
import { last } from "../lists.js";
import { askOf, notYetOf, tooFarOf, yesOf } from "../sheet-words.js";
import { guidePhase } from "../waits.js";
import { reading, span } from "../whole.js";
import { answer } from "./answers.js";
import { divisionNow, shows } from "./view.js";
/** @import { CheckStep, Look, Verdict } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {CheckStep} step @returns {Said} */
export function check(view, step) {
  const looked = (/** @type {Verdict} */ reply, /** @type {{way?: string}} */ way = {}) => ({
    step: step.id,
    answer: reply,
    ...way,
  });
  // Who else looked is told with the answer.
  const who = step.looks_at
    ? { says: say("prompting-second-who"), input: /** @type {const} */ ("note") }
    : {};
  const answers = [answer("yes", yesOf(step), "looked", looked("yes"), { ...who, strong: true })];
  for (const way of step.ways) {
    answers.push(
      answer(
        `not_yet_${way.id}`,
        say("prompting-not-yet-way", { way: way.name }),
        "looked",
        looked("not_yet", { way: way.id }),
        {
          says: joined(notYetOf(step), way.says),
        },
      ),
    );
  }
  if (!step.ways.length) {
    const no = step.looks_at ? say("prompting-second-no") : say("prompting-not-yet");
    answers.push(answer("not_yet", no, "looked", looked("not_yet"), { says: notYetOf(step) }));
  }
  if (step.too_far !== null) {
    answers.push(
      answer("too_far", say("prompting-too-far"), "looked", looked("too_far"), { says: tooFarOf(step) }),
    );
  }
  const left = view.guides.get(step.id);
  const isLeft = left && guidePhase(left, view.at) === "counting";
  const number = step.looks_at
    ? wentIn(view, step.looks_at[0])
    : isLeft
      ? { mg: null, text: span(left.until - left.began_at), caption: say("prompting-judge-again") }
      : null;
  return { says: checkSays(step, view.state.looks[step.id] ?? []), number, answers };
}

/**
 * What went in, and what the scale reads where that is another; null: no scale shows it.
 * @param {View} view @param {string} key of the line
 */
function wentIn(view, key) {
  const line = view.lines.get(key);
  if (!shows(view, line)) return null;
  const mg = view.state.lines[key].in_mg;
  const division = divisionNow(view, line);
  const bowl = line.vessel && !line.cup && view.state.vessels[line.vessel];
  const reads = bowl ? bowl.in_mg - bowl.zero_mg : mg;
  const caption =
    reads === mg
      ? say("prompting-second-went-in")
      : say("prompting-second-shows", { reads: reading(reads, division) });
  return { mg: null, text: reading(mg, division), caption };
}

/**
 * What the last answer asks to be done, then the question; what "right" is stands before the first.
 * @param {CheckStep} step @param {readonly Look[]} looks
 */
function checkSays(step, looks) {
  const tries = looks.filter((look) => look.answer !== "yes");
  if (!tries.length) {
    const right = step.looks_at ? "" : say("prompting-right", { right: sentence(yesOf(step)) });
    return joined(askOf(step), step.says || right);
  }
  const latest = last(tries);
  const way = step.ways.find(({ id }) => id === latest.way);
  const what = latest.answer === "too_far" ? tooFarOf(step) : notYetOf(step);
  const tried = say("prompting-tried", { times: tries.length });
  return joined(way ? `${way.name}:` : "", what ?? "", askOf(step), tried);
}
