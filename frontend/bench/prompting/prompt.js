/** One prompt: what its kind says, why it is urgent, and its answers. */

import { say } from "../../words.js";
import { brief, inShort, joined } from "../brief.js";
import { cautionsOf } from "../sheet-words.js";
import { phAnswers, phFirst } from "./acidity.js";
import { answer } from "./answers.js";
import { pieces } from "./counting.js";
import { split } from "./dividing.js";
import { doThis } from "./doing.js";
import { settles } from "./ending.js";
import { check } from "./judging.js";
import { melt } from "./melting.js";
import { otherKit } from "./other-kit.js";
import { urgent } from "./urgency.js";
import { isFirstAsked, isSettled, status } from "./view.js";
import { wait, waitedFor } from "./waiting.js";
import { weigh } from "./weighing.js";
import {
  asPlain,
  countsPieces,
  divides,
  heats,
  isJudged,
  knownKind,
  putsIn,
  runsByItself,
} from "../steps/index.js";
/** @import { Answer, Besides, SkippedBody, Step } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Asked, Said, View } from "./view.js" */

/**
 * What a step of one kind asks, of any other nothing.
 * @template {Step} S @param {(step: Step) => step is S} isOne @param {(view: View, step: S) => Said} ask
 * @returns {(view: View, step: Step) => Said | null}
 */
const where = (isOne, ask) => (view, step) => (isOne(step) ? ask(view, step) : null);

/** What a step asks, by what it is; any other is a thing to do. */
const ASKS = [
  where(putsIn, weigh),
  where(heats, melt),
  where(divides, split),
  where(isJudged, check),
  where(countsPieces, pieces),
  where(runsByItself, wait),
];

/**
 * What a step asks, as the fields of its prompt.
 * @param {View} view @param {Step} step @returns {Said}
 */
function asks(view, step) {
  for (const ask of ASKS) {
    const said = ask(view, step);
    if (said) return said;
  }
  return doThis(view, asPlain(step));
}

/** @param {View} view @param {Step} step */
export function promptFor(view, step) {
  const component = view.components.get(step.component);
  /** @type {Asked} */
  const prompt = {
    step: step.id,
    component: step.component,
    letter: component.letter,
    round: step.round,
    of_rounds: component.rounds.length,
    kind: knownKind(step),
    title: step.title,
    says: step.says,
    why: "",
    more: "",
    cautions: cautions(view, step),
    number: null,
    weigh: null,
    ...asks(view, step),
  };
  if (heats(step)) {
    const parts = ["short", "cool", "cover", "call", "source"];
    prompt.aid = parts.map((each) => say(`prompting-burn-${each}`));
  }
  explain(view, prompt, step);
  const isMany = putsIn(step) && step.lines.length > 1;
  const label = isMany ? say("prompting-skip-weighing") : say("prompting-skip-step");
  const says = say("prompting-skip-says", { title: step.title });
  prompt.answers.push(...phAnswers(view, step));
  prompt.answers.push(answer("skip", label, "skipped", { step: step.id }, { says, input: "note" }));
  overWith(view, step, prompt.answers);
  const key = prompt.weigh?.line ?? null;
  const line = key === null ? null : view.lines.get(key);
  if (line) prompt.answers.push(...otherKit(view, line));
  return prompt;
}

/**
 * Let the answers that settle a step pass over what lasts no longer than it. Who skips a wait skips what it was for.
 * @param {View} view @param {Step} step @param {Draft<Answer>[]} answers
 */
function overWith(view, step, answers) {
  const open = view.sheet.steps.filter(({ id, until }) => until?.includes(step.id) && !isSettled(view, id));
  const why = say("prompting-over-first", { title: step.title });
  const over = open.map(({ id }) => passed({ step: id, why }));
  const then = waitedFor(view, step);
  for (const given of answers) {
    const skips = given.kind === "skipped";
    const also = [
      ...(then && skips ? [passed({ step: then.id })] : []),
      ...(skips || settles(view, step, given) ? over : []),
    ];
    if (also.length) given.also = [...(given.also ?? []), ...also];
  }
}

/** @param {SkippedBody} body @returns {Besides} */
const passed = (body) => ({ kind: "skipped", body });

/**
 * Put the reason in, and keep the words few where a number or a countdown stands.
 * @param {View} view @param {Asked} prompt @param {Step} step
 */
function explain(view, prompt, step) {
  const presses = urgent(view, step);
  const reason = isFirstAsked(view, step) ? step.reason : "";
  if (presses) prompt.says = joined(prompt.says, reason);
  prompt.why = presses || reason;
  const { first = "" } = prompt; // a reading means nothing until this was done
  delete prompt.first;
  if (prompt.number || runsByItself(step)) Object.assign(prompt, brief(prompt, presses !== "", first));
  prompt.says = joined(first, prompt.says);
}

/**
 * In full and in short; `seen` when it stood with a step that was begun before.
 * @param {View} view @param {Step} step
 */
function cautions(view, step) {
  const begun = view.sheet.steps.filter(({ id }) => ["begun", "done"].includes(status(view, id)));
  const before = new Set(begun.flatMap(cautionsOf));
  return [...new Set(cautionsOf(step))].map((full) => ({
    short: inShort(full),
    full,
    seen: before.has(full),
  }));
}

/** @param {View} view @returns {Asked} */
export function finish(view) {
  const passedOver = view.sheet.steps.filter((step) => status(view, step.id) === "skipped");
  const skipped = [...new Set(passedOver.map((step) => step.title))];
  return {
    step: null,
    component: null,
    letter: "",
    round: 1,
    of_rounds: 1,
    kind: "finish",
    title: say("prompting-finish-title"),
    says: joined(
      phFirst(view),
      skipped.length
        ? say("prompting-finish-skipped", { titles: skipped.join(", ") })
        : say("prompting-finish-says"),
    ),
    why: "",
    more: "",
    cautions: [],
    number: null,
    weigh: null,
    answers: [
      ...phAnswers(view, null),
      answer("finish", say("prompting-finish-label"), "finished", {}, { strong: true }),
    ],
  };
}
