/** A wait is asked about, from its earliest on. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { waitPhase } from "../waits.js";
import { halfEven, span } from "../whole.js";
import { answer } from "./answers.js";
/** @import { RunningWait, WaitStep } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

const LOOK_AGAIN_SHARE = 10; // "not yet" on a wait looks again after a tenth of its usual time

const LEAST_AGAIN_MS = 60_000;

/** @param {View} view @param {WaitStep} step @returns {Said} */
export function wait(view, step) {
  const key = step.id;
  const running = view.waits.get(key);
  const phase = running ? waitPhase(running, view.at) : "counting";
  const again = Math.max(LEAST_AGAIN_MS, halfEven(step.usual_ms, LOOK_AGAIN_SHARE * 60_000) * 60_000);
  const isEarly = phase === "counting";
  const { word } = step;
  const label = isEarly ? say("prompting-over-already", { word }) : say("prompting-over", { word });
  const ask = isEarly ? tooEarly(view, running, word) : "";
  const answers = [answer("done", label, "done", { step: key }, { strong: !isEarly, ask })];
  if (!isEarly) {
    answers.push(
      answer("again", say("prompting-look-again", { length: span(again) }), "extended", {
        step: key,
        ms: again,
      }),
    );
  }
  if (isEarly) return { says: step.says, answers };
  const [first, ...rest] = word;
  const heading = first.toUpperCase() + rest.join("");
  return { says: joined(say("prompting-is-it-over", { heading, word }), step.test), answers };
}

/**
 * What is asked before a wait is ended that still counts: there is no going back from what follows.
 * @param {View} view @param {RunningWait | undefined} running @param {string} word
 */
function tooEarly(view, running, word) {
  if (!running) return say("prompting-really-over", { word });
  return say("prompting-before-earliest", { length: span(running.earliest_at - view.at), word });
}
