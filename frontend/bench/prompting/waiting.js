/** A wait is asked about, from its earliest on. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { isOneTouch, runsByItself } from "../steps/index.js";
import { waitPhase } from "../waits.js";
import { halfEven, span } from "../whole.js";
import { answer } from "./answers.js";
/** @import { Besides, RunningWait, Step, WaitStep } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

const LOOK_AGAIN_SHARE = 10; // “not yet” on a wait looks again after a tenth of its usual time

const LEAST_AGAIN_MS = 60_000;

/** @param {View} view @param {WaitStep} step @returns {Said} */
export function wait(view, step) {
  const key = step.id;
  const running = view.waits.get(key);
  const phase = running ? waitPhase(running, view.at) : "counting";
  const again = Math.max(LEAST_AGAIN_MS, halfEven(step.usual_ms, LOOK_AGAIN_SHARE * 60_000) * 60_000);
  const isEarly = phase === "counting";
  const { word } = step;
  const then = waitedFor(view, step);
  const also = then ? [done(then)] : undefined;
  const label = isEarly ? say("prompting-over-already", { word }) : say("prompting-over", { word });
  const ask = isEarly ? tooEarly(view, running, word) : "";
  const answers = [answer("done", label, "done", { step: key }, { strong: !isEarly, ask, also })];
  if (!isEarly) {
    answers.push(
      answer("again", say("prompting-look-again", { length: span(again) }), "extended", {
        step: key,
        ms: again,
      }),
    );
  }
  if (isEarly) return { says: joined(step.says, then?.says ?? ""), answers };
  const [first, ...rest] = word;
  const heading = first.toUpperCase() + rest.join("");
  return {
    says: joined(say("prompting-is-it-over", { heading, word }), step.test, then?.says ?? ""),
    answers,
  };
}

/** @param {Step} step @returns {Besides} */
const done = ({ id }) => ({ kind: "done", body: { step: id } });

/**
 * What a wait that only the clock ends is for, where it can be told by the same touch: one thing to do.
 * @param {View} view @param {Step} step @returns {Step | undefined}
 */
export function waitedFor(view, step) {
  if (!runsByItself(step) || step.test || step.earliest_ms !== step.usual_ms) return undefined;
  const [then, ...others] = view.sheet.steps.filter(({ after }) => after.includes(step.id));
  return then?.after.length === 1 && !others.length && isOneTouch(then) ? then : undefined;
}

/**
 * What is asked before a wait is ended that still counts: there is no going back from what follows.
 * @param {View} view @param {RunningWait | undefined} running @param {string} word
 */
function tooEarly(view, running, word) {
  if (!running) return say("prompting-really-over", { word });
  return say("prompting-before-earliest", { length: span(running.earliest_at - view.at), word });
}
