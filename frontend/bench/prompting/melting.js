/** A melt in bursts, with a stir and a look after each. */

import { joined, sentence } from "../brief.js";
import { heatWord } from "../heating.js";
import { last } from "../lists.js";
import { guidePhase } from "../waits.js";
import { celsius, span, sum } from "../whole.js";
import { answer } from "./answers.js";
/** @import { Answer, Burst, Heating, MeltStep } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {MeltStep} step @returns {Said} */
export function melt(view, step) {
  const key = step.id;
  const bursts = view.state.bursts[key] ?? [];
  const planned = step.bursts;
  const following = planned[bursts.length] ?? step.more;
  const yes = answer("yes", "It's melted", "looked", { step: key, answer: "yes" }, { says: step.look_for });
  if (bursts.length && last(bursts).answer === null) return heating(view, step, bursts, following, yes);
  const length = span(following.ms);
  const resting = view.guides.get(key);
  const word = heatWord(view.sheet, step);
  const usual = usualHeat(planned, word);
  const isPast = bursts.length >= planned.length;
  const expected = !planned.length
    ? ""
    : isPast
      ? `Past the usual ${usual}: heat gently.`
      : `Usually ${usual}.`;
  const number = resting
    ? { mg: null, text: span(following.rest_ms), caption: `rest, then ${length} more` }
    : { mg: null, text: length, caption: `${word} ${bursts.length + 1}, ${step.heater}` };
  const ended = !resting || guidePhase(resting, view.at) === "ready";
  return {
    says: joined(
      resting ? "Stir while it rests." : "",
      bursts.length ? "" : step.says,
      `Right: ${sentence(step.look_for)}`,
      noFurther(step),
      expected,
    ),
    number,
    answers: [
      answer("heat", `Begin ${length}`, "heated", nextHeat(step, bursts.length), { strong: ended }),
      yes,
    ],
  };
}

/**
 * How much heat a melt is expected to take: so many bursts, or so long.
 * @param {readonly Burst[]} planned @param {string} word
 */
function usualHeat(planned, word) {
  if (word !== "burst") return span(sum(planned.map(({ ms }) => ms)));
  return `${planned.length} ${planned.length === 1 ? "burst" : "bursts"}`;
}

/**
 * The body of an entry that the next burst began; with the rest that is expected between it and its look.
 * @param {MeltStep} step @param {number} given
 */
function nextHeat(step, given) {
  const { ms } = step.bursts[given] ?? step.more;
  const rest = step.bursts[given + 1]?.rest_ms ?? 0;
  return { step: step.id, ms, ...(rest ? { rest_ms: rest } : {}) };
}

/**
 * How warm a melt may end, where the recipe says so. Sheets of earlier versions do not hold it.
 * @param {MeltStep} given
 */
const noFurther = ({ to_mk: most }) =>
  most === null || most === undefined ? "" : `No further than ${celsius(most)}.`;

/**
 * A burst counts, or is over: look. Nothing is lit while it counts, so no pedal ends it. The likelier
 * answer stands first from the beginning, so that none changes places when the burst is over.
 * @param {View} view @param {MeltStep} step @param {readonly Heating[]} bursts @param {Burst} following
 * @param {Draft<Answer>} yes
 * @returns {Said}
 */
function heating(view, step, bursts, following, yes) {
  const guide = view.guides.get(step.id);
  const over = guide !== undefined && guidePhase(guide, view.at) === "ready";
  const { ms, rest_ms: rests } = last(bursts);
  const isRested = rests !== undefined;
  const stir = isRested ? `Stir well, rest ${span(rests)}, then look` : "Stir well and look";
  const again =
    following.rest_ms && !isRested
      ? answer("again", `Not yet: rest ${span(following.rest_ms)}`, "looked", {
          step: step.id,
          answer: "not_yet",
        })
      : answer("again", `Not yet: ${span(following.ms)} more`, "heated", nextHeat(step, bursts.length));
  const [likelier, other] = bursts.length >= step.bursts.length ? [yes, again] : [again, yes];
  return {
    kind: "heating",
    says: joined(`${stir}: ${sentence(step.look_for)}`, noFurther(step)),
    number: {
      mg: null,
      text: span(ms),
      caption: `${heatWord(view.sheet, step)} ${bursts.length}, then stir and look`,
    },
    answers: [{ ...likelier, strong: over }, other],
  };
}
