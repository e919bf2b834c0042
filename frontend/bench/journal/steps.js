/** Taking in what happened to steps: done, passed over, heated, looked at, counted, given more time. */

import { listOf } from "../lists.js";
import { canonical } from "../whole.js";
import { add, choose, settle } from "./tally.js";
import { byHand, countsPieces, runsByItself, traits } from "../steps/index.js";
/** @import { Counted, Heating, Verdict } from "../../../bench/shapes/page" */
/** @import { Draft, Takes } from "../../../types/bench" */
/** @import { Tally } from "./tally.js" */

/** @typedef {"chose" | "done" | "skipped" | "began" | "heated" | "looked" | "counted" | "extended"} OfSteps */

const ONE_TOUCH_MS = 400; // nobody presses two pieces in that time; a wet thumb bounces within it

/** @type {Pick<Takes, OfSteps>} */
export const OF_STEPS = {
  chose(tally, _at, body) {
    return choose(tally, body);
  },

  done(tally, at, body) {
    const step = tally.steps.get(body.step);
    if (body.way !== undefined && !choose(tally, body)) return false;
    const wasDone = tally.settled.get(step.id)?.status === "done";
    settle(tally, step.id, "done", at);
    if (byHand(step) && !wasDone) {
      for (const jug of step.tips) {
        add(tally.vesselMg, step.into, tally.vesselMg.get(jug));
        tally.vesselMg.set(jug, 0);
        tally.zeroMg.set(jug, 0);
      }
    }
  },

  skipped(tally, at, { step, why = "" }) {
    settle(tally, step, "skipped", at, why);
  },

  began(tally, at, { step }) {
    if (!tally.began.has(step)) tally.began.set(step, at);
  },

  heated(tally, at, { step, ms, rest_ms }) {
    const bursts = listOf(tally.bursts, step);
    answerBurst(bursts, "not_yet");
    bursts.push({ at, ms, answer: null, ...(rest_ms === undefined ? {} : { rest_ms }) });
  },

  looked(tally, at, body) {
    const step = tally.steps.get(body.step);
    if (body.way !== undefined && !choose(tally, body)) return false;
    answerBurst(tally.bursts.get(step.id), body.answer);
    listOf(tally.looks, step.id).push({
      at,
      answer: body.answer,
      way: body.way ?? null,
      ...(body.text ? { text: body.text } : {}),
    });
    if (body.answer === "yes" && traits(step).endsByLook) settle(tally, step.id, "done", at);
  },

  counted(tally, at, body, entry) {
    const step = tally.steps.get(body.step);
    const part = body.of;
    if (!countsPieces(step) || (part !== undefined && part !== "joined" && !step.of.includes(part)))
      return false;
    if (body.way !== undefined && !choose(tally, body)) return false;
    if (body.seen === undefined) tally.unseeing.add(step.id);
    else if (isOneTouch(tally, entry)) return true;
    const { good = 0, spoiled = 0, partial = 0 } = body;
    const count = tally.counts.get(step.id) ?? { good: 0, spoiled: 0, partial: 0, of: {} };
    tally.counts.set(step.id, count);
    count.good += good;
    count.spoiled += spoiled;
    count.partial += partial;
    if (part !== undefined) count.of[part] = (count.of[part] ?? 0) + good + spoiled + partial;
    tally.countedAt.set(step.id, at);
  },

  extended(tally, at, { step, ms }) {
    if (!runsByItself(tally.steps.get(step))) return false;
    tally.extended.set(step, at + ms);
  },
};

/**
 * Whether a device said the same of the same count a moment ago: a thumb that bounced, not a piece.
 * @param {Tally} tally @param {Counted} entry
 */
function isOneTouch(tally, entry) {
  const key = `${entry.body.step} ${entry.device}`;
  const last = tally.countedBy.get(key);
  tally.countedBy.set(key, entry);
  return (
    last !== undefined && canonical(last.body) === canonical(entry.body) && entry.at - last.at < ONE_TOUCH_MS
  );
}

/** @param {Draft<Heating>[] | undefined} bursts @param {Verdict} answer */
function answerBurst(bursts, answer) {
  const last = bursts?.at(-1);
  if (last && last.answer === null) last.answer = answer;
}
