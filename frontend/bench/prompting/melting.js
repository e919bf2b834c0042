/** A melt in bursts, with a stir and a look after each. */

import { say } from "../../words.js";
import { joined, sentence } from "../brief.js";
import { heatWord } from "../heating.js";
import { last } from "../lists.js";
import { isMetal } from "../materials.js";
import { guidePhase } from "../waits.js";
import { temperature, span, sum } from "../whole.js";
import { answer } from "./answers.js";
import { vesselsOfGlass } from "./other-kit.js";
/** @import { Answer, Burst, Heating, MeltStep } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {MeltStep} step @returns {Said} */
export function melt(view, step) {
  const key = step.id;
  const bursts = view.state.bursts[key] ?? [];
  const planned = step.bursts;
  const following = planned[bursts.length] ?? step.more;
  const yes = answer(
    "yes",
    say("prompting-melted"),
    "looked",
    { step: key, answer: "yes" },
    { says: step.look_for },
  );
  if (bursts.length && last(bursts).answer === null) return heating(view, step, bursts, following, yes);
  const length = span(following.ms);
  const resting = view.guides.get(key);
  const word = heatWord(view.sheet, step);
  const usual = usualHeat(planned, word);
  const isPast = bursts.length >= planned.length;
  const expected = !planned.length
    ? ""
    : isPast
      ? say("prompting-heat-past-usual", { usual })
      : say("prompting-heat-usual", { usual });
  const next = say("prompting-heat-next", { word, number: bursts.length + 1, heater: step.heater });
  const number = resting
    ? { mg: null, text: span(following.rest_ms), caption: say("prompting-rest-then", { length }) }
    : { mg: null, text: length, caption: next };
  const metal = metalOf(view, step);
  const told = metal ? { vessel: metal.vessel.name } : null;
  const ended = !resting || guidePhase(resting, view.at) === "ready";
  return {
    says: joined(
      resting ? say("prompting-stir-resting") : "",
      bursts.length ? "" : step.says,
      say("prompting-right", { right: sentence(step.look_for) }),
      noFurther(step),
      expected,
    ),
    number,
    answers: [
      answer("heat", say("prompting-heat-begin", { length }), "heated", nextHeat(step, bursts.length), {
        strong: ended,
        ask: told ? say("prompting-metal-ask", told) : "",
      }),
      yes,
      ...(metal ? vesselsOfGlass(view, metal.key, metal.vessel) : []),
    ],
    first: told ? say("prompting-metal", told) : "",
  };
}

/**
 * The first vessel of metal that this melt would take into a microwave: its place, and what stands there.
 * @param {View} view @param {MeltStep} step
 */
function metalOf({ sheet, state }, step) {
  if (heatWord(sheet, step) !== "burst") return null;
  for (const key of step.vessels ?? []) {
    const vessel = state.vessels[key];
    const own = sheet.kit.vessels.find(({ id }) => id === vessel.kit);
    if (own && isMetal(own)) return { key, vessel };
  }
  return null;
}

/**
 * How much heat a melt is expected to take: so many bursts, or so long.
 * @param {readonly Burst[]} planned @param {string} word
 */
function usualHeat(planned, word) {
  if (word !== "burst") return span(sum(planned.map(({ ms }) => ms)));
  return say("prompting-bursts", { count: planned.length });
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
  most === null || most === undefined ? "" : say("prompting-no-further", { warmth: temperature(most) });

/**
 * A burst counts, or is over: look. Nothing is lit while it counts, so no pedal ends it. Heat on stands first
 * and “melted” second, as before the burst, whichever is likelier: none changes places under a thumb.
 * @param {View} view @param {MeltStep} step @param {readonly Heating[]} bursts @param {Burst} following
 * @param {Draft<Answer>} yes
 * @returns {Said}
 */
function heating(view, step, bursts, following, yes) {
  const guide = view.guides.get(step.id);
  const over = guide !== undefined && guidePhase(guide, view.at) === "ready";
  const { ms, rest_ms: rests } = last(bursts);
  const isRested = rests !== undefined;
  const right = sentence(step.look_for);
  const stir = isRested
    ? say("prompting-stir-rest-look", { rest: span(rests), right })
    : say("prompting-stir-look", { right });
  const again =
    following.rest_ms && !isRested
      ? answer("again", say("prompting-not-yet-rest", { length: span(following.rest_ms) }), "looked", {
          step: step.id,
          answer: "not_yet",
        })
      : answer(
          "again",
          say("prompting-not-yet-more", { length: span(following.ms) }),
          "heated",
          nextHeat(step, bursts.length),
        );
  const isEnough = bursts.length >= step.bursts.length;
  return {
    kind: "heating",
    says: joined(stir, noFurther(step)),
    number: {
      mg: null,
      text: span(ms),
      caption: say("prompting-heat-runs", { word: heatWord(view.sheet, step), number: bursts.length }),
    },
    answers: [
      { ...again, strong: over && !isEnough },
      { ...yes, strong: over && isEnough },
    ],
  };
}
