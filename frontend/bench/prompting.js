/**
 * What the bench says now: the prompts, the waits and windows, and what is still owed.
 *
 * `now` turns a sheet, a state and an instant into words and numbers. Every prompt carries its
 * possible answers, and an answer is the kind and body of the entry to post, so this alone is
 * enough to write a client; the page draws exactly this. Best next prompt first. The server says
 * the same words.
 */

import { brief, inShort, joined, sentence } from "./brief.js";
import { carriedTo, coming, loads, sharesOf, tooFull, weighedLines } from "./capacity.js";
import { heatWord } from "./heating.js";
import { full, last } from "./lists.js";
import { carryUp, divisionOf, inReach, leftOfMix, portionTargets } from "./journal.js";
import { MOST_PIECES, piecesFrom } from "./sizing.js";
import { openWindow, rescue } from "./states.js";
import { guidePhase, waitPhase, windowPhase } from "./waits.js";
import { allowedMg, carryFactor } from "./weighing.js";
import {
  apart,
  ceiling,
  celsius,
  divided,
  grams,
  halfEven,
  moreBy,
  PPM,
  product,
  span,
  sum,
  times,
  toDivision,
} from "./whole.js";
/** @import { Answer, Burst, CheckStep, DoStep, Heating, LineState, LineStatus } from "../../bench/shapes/page" */
/** @import { Look, MeltStep, Now, OnScale, OpenWindow, PieceCount, PiecesStep } from "../../bench/shapes/page" */
/** @import { Prompt, RunKind, RunningGuide, RunningWait, Scale, Sheet, SheetLine } from "../../bench/shapes/page" */
/** @import { SplitStep, State, Step, Verdict, Vessel, WaitPhase, WaitStep } from "../../bench/shapes/page" */
/** @import { WeighHow, WeighStep } from "../../bench/shapes/page" */
/** @import { Draft, Place, Ratio, WeighedLine, WeighedState } from "../../types/bench" */
/** @import { Full } from "../../types/lists" */

const LOOK_AGAIN_SHARE = 10; // "not yet" on a wait looks again after a tenth of its usual time
const LEAST_AGAIN_MS = 60_000;
const DILUTED = 100; // one part in so many, to weigh what is too little for a scale

/**
 * @typedef {ReturnType<typeof benchOf>} Bench
 * @typedef {Draft<Prompt> & {first?: string}} Asked first: what stands before what it says, whole
 * @typedef {Partial<Asked> & {answers: Draft<Answer>[]}} Asking
 * @typedef {{how: WeighHow, add: number, amount: string, reads: number | null, before: number}} Pouring
 * @typedef {{line: WeighedLine, told: WeighedState}} Weighed
 */

/** @param {Sheet} sheet @param {State} state @param {number} at */
function benchOf(sheet, state, at) {
  return {
    sheet,
    state,
    at,
    steps: byId(sheet.steps),
    lines: byId(sheet.lines),
    vessels: byId(sheet.vessels),
    components: byId(sheet.components),
    scales: new Map(sheet.kit.scales.map((scale) => [scale.id, scale])),
    waits: new Map(state.waits.map((wait) => [wait.step, wait])),
    windows: new Map(state.windows.map((window) => [window.step, window])),
    guides: new Map(state.guides.map((guide) => [guide.step, guide])),
  };
}

/**
 * The bench at an instant (ms). Pure: the same inputs give the same words here and on the server.
 * @param {Sheet} sheet @param {State} state @param {number} at @returns {Now}
 */
export function now(sheet, state, at) {
  const bench = benchOf(sheet, state, at);
  const finished = state.finished_at !== null;
  return {
    at,
    finished,
    prompts: finished ? [] : prompts(bench),
    waits: byUrgency(state.waits, (wait) => wait.earliest_at).map((wait) => waitSaid(bench, wait)),
    windows: byUrgency(state.windows, (window) => window.latest_at).map((each) => windowSaid(bench, each)),
    guides: byUrgency(state.guides, (guide) => guide.until).map((guide) => guideSaid(bench, guide)),
    skipped: sheet.steps.filter((step) => status(bench, step.id) === "skipped").map(named),
    owed: owed(bench),
  };
}

/** @template {{id: string}} T @param {readonly T[]} items */
const byId = (items) => full(items.map((item) => /** @type {const} */ ([item.id, item])));

/** @template {{step: string}} T @param {readonly T[]} items @param {(item: T) => number} at */
function byUrgency(items, at) {
  return [...items].sort(
    (one, other) => at(one) - at(other) || (one.step < other.step ? -1 : one.step > other.step ? 1 : 0),
  );
}

/** @param {Step} step */
function named(step) {
  return { step: step.id, title: step.title };
}

/** @param {Bench} bench @param {string} step */
function status(bench, step) {
  return bench.state.steps[step].status;
}

/** @param {Bench} bench @param {string} step */
function isSettled(bench, step) {
  return ["done", "skipped"].includes(status(bench, step));
}

/** Steps passed over: not settled, though something that needs them is. @param {Bench} bench */
function owed(bench) {
  const { steps } = bench.sheet;
  const passed = new Set(steps.filter((step) => isSettled(bench, step.id)).flatMap((step) => step.after));
  return steps.filter((step) => passed.has(step.id) && !isSettled(bench, step.id)).map(named);
}

// Which prompts, in which order

/** @param {Bench} bench */
function prompts(bench) {
  const { steps } = bench.sheet;
  const ready = steps.filter((step) => ["ready", "begun"].includes(status(bench, step.id)));
  if (!ready.length) return steps.some((step) => !isSettled(bench, step.id)) ? [] : [finish(bench)];
  const latest = lastRound(bench);
  return ready
    .map((step) => ({ step, rank: rank(bench, step, latest) }))
    .sort((one, other) => one.rank[0] - other.rank[0] || one.rank[1] - other.rank[1])
    .map(({ step }) => ended(bench, promptFor(bench, step), step));
}

/**
 * Where only this step is left, and none was passed over, the answer that ends it ends the batch too.
 * @param {Bench} bench @param {Asked} prompt @param {Step} step
 */
function ended(bench, prompt, step) {
  if (bench.sheet.steps.some((each) => each !== step && status(bench, each.id) !== "done")) return prompt;
  const ends = prompt.answers.filter((given) => settles(bench, step, given));
  for (const each of ends) each.also = [{ kind: "finished", body: {} }];
  prompt.more = joined(prompt.more, ends.length ? "The batch ends with it." : "");
  return prompt;
}

/**
 * Whether a step is done by an answer, and all of it: what stops short of that is asked about once more.
 * @param {Bench} bench @param {Step} step @param {Draft<Answer>} given
 */
function settles(bench, step, { kind, body }) {
  if (step.kind === "pieces") {
    const { good, partial } = bench.state.counts[step.id] ?? { good: 0, partial: 0 };
    const left = bench.state.expected[step.id] - good - partial;
    return kind === "counted" && left > 0 && ("good" in body ? body.good : 0) === left;
  }
  return kind === "done" || (kind === "looked" && "answer" in body && body.answer === "yes");
}

/** The component and round worked on last, so that one goes on with what is in hand. @param {Bench} bench */
function lastRound(bench) {
  /** @type {{at: number, round: string} | null} */
  let best = null;
  for (const step of bench.sheet.steps) {
    if (step.kind === "wait" || !isSettled(bench, step.id)) continue;
    const at = bench.state.steps[step.id].at ?? 0;
    if (best === null || at >= best.at) best = { at, round: roundOf(step) };
  }
  return best?.round ?? null;
}

/** @param {Place} given */
function roundOf({ component, round }) {
  return `${component}.${round}`;
}

/** @type {{[P in WaitPhase]: number}} */
const WAIT_PLACES = { late: 2, soon_late: 3, ready: 6, look: 7, counting: 9 };

/**
 * Small is sooner: what is running, then windows, then the part in hand, then long tails.
 * @param {Bench} bench @param {Step} step @param {string | null} latest
 */
function rank(bench, step, latest) {
  const key = step.id;
  const guide = bench.guides.get(key);
  if (guide && step.kind === "melt") return [0, guide.until];
  const window = bench.windows.get(key);
  if (window) return [1, window.latest_at];
  if (step.kind === "wait") {
    const wait = bench.waits.get(key);
    return [WAIT_PLACES[wait ? waitPhase(wait, bench.at) : "counting"], wait?.earliest_at ?? 0];
  }
  if (step.hold_for.some((need) => !isSettled(bench, need))) return [8, -step.tail_ms];
  const inHand = bench.guides.has(key) || status(bench, key) === "begun" || latest === roundOf(step);
  return [inHand ? 4 : 5, -step.tail_ms];
}

// One prompt

/** @param {Bench} bench @param {Step} step */
function promptFor(bench, step) {
  const component = bench.components.get(step.component);
  /** @type {Asked} */
  const prompt = {
    step: step.id,
    component: step.component,
    letter: component.letter,
    round: step.round,
    of_rounds: component.rounds.length,
    kind: step.kind,
    title: step.title,
    says: step.says,
    why: "",
    more: "",
    cautions: cautions(bench, step),
    number: null,
    weigh: null,
    ...asks(bench, step),
  };
  explain(bench, prompt, step);
  const label = step.kind === "weigh" && step.lines.length > 1 ? "Skip the whole step" : "Skip this step";
  const says = `The record will show “${step.title}” as skipped.`;
  prompt.answers.push(answer("skip", label, "skipped", { step: step.id }, { says, input: "note" }));
  const key = prompt.weigh?.line ?? null;
  const line = key === null ? null : bench.lines.get(key);
  if (line) prompt.answers.push(...another(bench, line));
  return prompt;
}

/**
 * Put the reason in, and keep the words few where a number or a countdown stands.
 * @param {Bench} bench @param {Asked} prompt @param {Step} step
 */
function explain(bench, prompt, step) {
  const presses = urgent(bench, step);
  const reason = isFirstAsked(bench, step) ? step.reason : "";
  if (presses) prompt.says = joined(prompt.says, reason);
  prompt.why = presses || reason;
  const { first = "" } = prompt; // a reading means nothing until this was done
  delete prompt.first;
  if (prompt.number || step.kind === "wait") Object.assign(prompt, brief(prompt, presses !== "", first));
  prompt.says = joined(first, prompt.says);
}

/** Why this should be begun soon, or not yet; "" where neither is so. @param {Bench} bench @param {Step} step */
function urgent(bench, step) {
  const pending = step.hold_for
    .filter((need) => !isSettled(bench, need))
    .map((need) => bench.steps.get(need));
  if (!pending.length) {
    if (bench.windows.has(step.id)) return stakeOf(bench, step);
    return step.kind === "wait" ? overdue(bench, step) : "";
  }
  const names = pending
    .slice(0, 2)
    .map((each) => `“${each.title}”`)
    .join(" and ");
  return `Finish ${names} first. After this, the next part can't wait.`;
}

/**
 * What is at stake where a wait is nearly or already past its latest, or what helps then.
 * @param {Bench} bench @param {Step} step
 */
function overdue(bench, step) {
  const running = bench.waits.get(step.id);
  const phase = running ? waitPhase(running, bench.at) : "counting";
  if (step.kind !== "wait") return "";
  return (phase === "late" && rescue(step)) || (["soon_late", "late"].includes(phase) ? step.stake : "");
}

/**
 * Whether nothing of the step was answered yet: what holds for all of it is said now, once.
 * @param {Bench} bench @param {Step} step
 */
const isFirstAsked = (bench, step) => status(bench, step.id) !== "begun";

/**
 * In full and in short; `seen` when it stood with a step that was begun before.
 * @param {Bench} bench @param {Step} step
 */
function cautions(bench, step) {
  const begun = bench.sheet.steps.filter(({ id }) => ["begun", "done"].includes(status(bench, id)));
  const before = new Set(begun.flatMap(cautionsOf));
  return [...new Set(cautionsOf(step))].map((full) => ({
    short: inShort(full),
    full,
    seen: before.has(full),
  }));
}

/** @param {Step} step */
const cautionsOf = (step) => [...step.cautions, ...step.ways.flatMap((way) => way.cautions)];

/**
 * What must be known before a step is done: what "right" is where it is judged as soon as it is done,
 * and how to leave it where a wait begins by itself.
 * @param {Bench} bench @param {Step} step
 */
function beforeNext(bench, step) {
  const waits = bench.sheet.steps.filter(
    (each) => each.kind === "wait" && each.says && each.after.includes(step.id),
  );
  const leave = waits.map((each) => joined("Then:", sentence(each.title), each.says));
  return joined(judgedNext(bench, step), ...leave);
}

/**
 * Where what is done is judged as soon as it is done: both by one touch, if it is right.
 * @param {Bench} bench @param {Step} step @returns {Draft<Answer>[]}
 */
function doneAndJudged(bench, step) {
  const check = bench.sheet.steps.find(
    ({ kind, after, id }) =>
      kind === "check" && after.length === 1 && after[0] === step.id && !isSettled(bench, id),
  );
  if (check?.kind !== "check") return [];
  /** @type {Draft<Answer>["also"]} */
  const also = [{ kind: "looked", body: { step: check.id, answer: "yes" } }];
  const body = { step: step.id };
  return [answer("done_yes", `Done. ${check.yes}`, "done", body, { says: check.ask, also })];
}

/** @param {Bench} bench @param {Step} step */
function judgedNext(bench, step) {
  const checks = bench.sheet.steps.filter((each) => each.kind === "check");
  const check = checks.find((each) => each.after.includes(step.id));
  return check ? `You judge it next. Right: ${sentence(check.yes)}` : "";
}

/**
 * What hangs on beginning soon; once that is past, what can still be done.
 * @param {Bench} bench @param {Step} step
 */
function stakeOf(bench, step) {
  const over = overOf(bench, step);
  if (!over) return "";
  const window = bench.windows.get(step.id);
  if (window && windowPhase(window, bench.at) === "late")
    return `Past its time. ${rescue(over) || over.stake}`;
  return over === step.window ? over.stake : `Stay with this. ${over.stake}`;
}

/**
 * What the open window of a step is over: the recipe's own, or one by nature.
 * @param {Bench} bench @param {Step} step
 */
const overOf = (bench, step) =>
  openWindow(step, (need) => (isSettled(bench, need) ? bench.state.steps[need].at : undefined))?.over;

/**
 * What a step asks by its kind, as the fields of its prompt.
 * @param {Bench} bench @param {Step} step @returns {Asking}
 */
function asks(bench, step) {
  switch (step.kind) {
    case "weigh":
      return weigh(bench, step);
    case "do":
      return doThis(bench, step);
    case "melt":
      return melt(bench, step);
    case "split":
      return split(bench, step);
    case "check":
      return check(bench, step);
    case "pieces":
      return pieces(bench, step);
    case "wait":
      return wait(bench, step);
  }
}

/** @param {Bench} bench @param {DoStep} step @returns {Asking} */
function doThis(bench, step) {
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
    : [answer("done", "Done", "done", { step: key }, { strong: true }), ...doneAndJudged(bench, step)];
  const worked =
    step.mg === null ? null : { mg: step.mg, text: grams(step.mg, 1000), caption: "at the least" };
  const says = joined(step.says, beforeNext(bench, step));
  if (step.about_ms === null) return { says, answers, number: worked };
  const length = span(step.about_ms);
  if (!bench.guides.has(key)) answers.push(answer("begin", `Time it: ${length}`, "began", { step: key }));
  return { says, answers, number: worked ?? { mg: null, text: length, caption: "about" } };
}

/** @param {Bench} bench @param {WeighStep} step @returns {Asking} */
function weigh(bench, step) {
  const lines = step.lines.map((key) => ({ line: bench.lines.get(key), told: bench.state.lines[key] }));
  const first = (/** @type {LineStatus} */ wanted) => lines.find(({ told }) => told.status === wanted);
  const weighed = (/** @type {LineStatus} */ wanted) => {
    const found = first(wanted);
    return found && hasMass(found) ? found : undefined;
  };
  const off = weighed("over");
  if (off) return over(bench, off.line, off.told);
  // A line that fell short is asked about, unless its round was carried up: then it is topped up.
  const lacking = weighed("short");
  if (lacking) {
    return carried(bench, lacking.line) > 0
      ? addLine(bench, lacking.line, lacking.told, true)
      : short(bench, lacking.line, lacking.told);
  }
  const { line, told } = first("open") ?? last(lines);
  const adding = addLine(bench, line, told, false);
  if (!isFirstAsked(bench, step)) return { ...adding, says: joined(filling(bench, line), adding.says ?? "") };
  // What is said of the whole step is said once, before the first pour.
  const words = joined(sentence(step.title), step.says);
  const twice = adding.weigh?.how === "cup" && namesVessel(bench, words, line); // where it goes is said
  const says = twice ? line.note : (adding.says ?? "");
  return { ...adding, says: joined(filling(bench, line), words, says, beforeNext(bench, step)) };
}

/** @param {Bench} bench @param {string} words @param {SheetLine} line */
const namesVessel = (bench, words, line) =>
  words.toLowerCase().includes(vesselOf(bench, line).name.toLowerCase());

/** @param {{line: SheetLine, told: LineState}} pour @returns {pour is Weighed} */
const hasMass = (pour) => pour.line.mg !== null && pour.told.target_mg !== null;

/** The vessel that a line goes into, as it stands. @param {Bench} bench @param {SheetLine} line */
const vesselOf = (bench, line) => bench.state.vessels[line.vessel ?? ""];

/**
 * Above nought when the line's round was carried up, below when it was carried down.
 * @param {Bench} bench @param {SheetLine} line
 */
function carried(bench, line) {
  const [num, den] = factorOf(bench, line);
  return num - den;
}

/** @param {Bench} bench @param {Place} line @returns {[number, number]} */
const factorOf = (bench, line) => {
  const [num, den] = bench.state.factors[roundOf(line)] ?? [1, 1];
  return [num, den];
};

/** @type {{[how: string]: string}} */
const CAPTIONS = {
  running: "stop here",
  tare: "zero the scale, then add",
  cup: "zero a small cup, then weigh",
};

/**
 * What readings before this line rounded away in its vessel, in mg: the next reading takes it up, so that
 * roundings never add up. What is off by more was poured so, and is nothing to make good.
 * @param {Bench} bench @param {SheetLine} line
 */
function roundedAway(bench, line) {
  let off = 0;
  for (const other of bench.sheet.lines) {
    const told = bench.state.lines[other.id];
    if (other.vessel !== line.vessel || other.id === line.id || other.cup) continue;
    if (told.target_mg === null || told.in_mg === 0) continue;
    const away = told.target_mg - told.in_mg;
    if (Math.abs(away) <= Math.ceil((other.division_mg || 1) / 2)) off += away;
  }
  return off;
}

/**
 * The mass in mg that a reading as it was asked for stands for: what the scale shows, but within half its
 * division of what was asked, which is as much as one reading can say of a pour between two.
 * @param {number} shown @param {number} asked @param {number} division
 */
function seen(shown, asked, division) {
  if (shown <= 0) return asked; // too small for the scale to show
  const half = Math.floor(division / 2);
  return Math.min(Math.max(shown, asked - half), asked + half);
}

/**
 * Add this much; the scale will read that.
 * @param {Bench} bench @param {SheetLine} line @param {LineState} told @param {boolean} isTopUp
 * @returns {Asking}
 */
function addLine(bench, line, told, isTopUp) {
  const body = { line: line.id };
  const leaveOut = answer("left_out", "Leave it out", "left_out", body);
  if (told.target_mg === null) return addUnweighed(bench, line, body, leaveOut);
  const add = told.target_mg - told.in_mg;
  const division = divisionNow(bench, line);
  const scale = scaleOf(bench, told.scale);
  const vessel = vesselOf(bench, line);
  /** @type {"cup" | "tare" | "running"} */
  const how = line.cup ? "cup" : bench.state.weigh === "tare" ? "tare" : "running";
  const before = how === "running" ? vessel.in_mg - vessel.zero_mg : 0;
  if (scale && told.in_mg === 0 && add > 0 && toDivision(add, division) === 0)
    return tooLittle(bench, line, scale, { add, before }, leaveOut);
  const rounded = how === "running" ? roundedAway(bench, line) : 0;
  const reads = toDivision(before + rounded + add, division);
  const text = grams(reads, division);
  const amount = grams(reads - toDivision(before, division), division); // by what the scale shows now
  const mg = seen(reads - before, add, division);
  const answers = [
    answer("reads", `It reads ${text}`, "weighed", { ...body, mg, reading_mg: reads }, { strong: true }),
    answer("other", "It reads something else", "weighed", body, { input: "reading" }),
  ];
  const pour = { line, told };
  if (isTopUp && hasMass(pour)) answers.push(...letBe(bench, pour.line, pour.told));
  else if (line.optional) answers.push(leaveOut);
  if (how === "running" && before > 0) {
    const says = `Starts again from 0. ${grams(vessel.in_mg, division)} is already in.`;
    answers.push(answer("zeroed", "Scale reset to 0", "zeroed", { vessel: line.vessel ?? "" }, { says }));
  }
  if (!isTopUp && !line.optional) answers.push(leaveOut);
  const place = vessel.name;
  const stands = { running: before > 0, tare: vessel.in_mg > 0, cup: true }[how];
  return {
    title: `${line.name}: ${isTopUp ? "top up" : "add"} ${amount}`,
    first: scale && !stands ? zeroing(scale, `${place} on`) : "",
    says: joined(how === "cup" ? `Then into ${place}.` : "", line.note),
    number: { mg: reads, text, caption: CAPTIONS[how] },
    weigh: weighing(bench, line, { how, add, amount, reads, before }),
    answers,
  };
}

/** @param {Bench} bench @param {string | null} key */
const scaleOf = (bench, key) => (key === null ? undefined : bench.scales.get(key));

/**
 * A line with no mass: spoons, a count, or to texture.
 * @param {Bench} bench @param {SheetLine} line @param {{line: string}} body @param {Draft<Answer>} leaveOut
 * @returns {Asking}
 */
function addUnweighed(bench, line, body, leaveOut) {
  /** @type {[WeighHow, string]} */
  const [how, amount] = line.spoons
    ? ["spoons", line.spoons]
    : line.count !== null
      ? ["count", counted(line)]
      : ["texture", "to texture"];
  return {
    title: `${line.name}: add ${amount}`,
    says: line.note,
    number: { mg: null, text: amount, caption: how === "spoons" ? "levelled off" : "" },
    weigh: weighing(bench, line, { how, add: 0, amount, reads: null, before: 0 }),
    answers: [
      answer("in", "Added", "weighed", { ...body, mg: line.about_mg ?? 0 }, { strong: true }),
      leaveOut,
    ],
  };
}

/** @param {Bench} bench @param {SheetLine} line @param {Pouring} given @returns {OnScale} */
function weighing(bench, line, { how, add, amount, reads, before }) {
  const scale = scaleOf(bench, bench.state.lines[line.id].scale);
  return {
    line: line.id,
    name: line.name,
    add_mg: add,
    add: amount,
    reads_mg: reads,
    reads: reads === null ? "" : grams(reads, divisionNow(bench, line)),
    before_mg: before,
    how,
    scale: scale?.name ?? "",
    division_mg: scale?.division_mg ?? null,
    tolerance_mg: allowedMg(line, scale?.division_mg, ...factorOf(bench, line)),
    vessel: line.vessel,
  };
}

/** The division of the scale that a line goes onto now. @param {Bench} bench @param {SheetLine} line */
const divisionNow = (bench, line) => divisionOf(bench.sheet, bench.state.lines[line.id].scale) ?? 1;

/**
 * That what is still to come is more than the vessel or its scale takes, before it is passed.
 * @param {Bench} bench @param {SheetLine} line
 */
function filling({ sheet, state }, line) {
  return tooFull(sheet, state, loads(sheet, line, coming(sheet, state, line)))?.says ?? "";
}

/**
 * Less than the scale can show: by spoon, stirred into more of another line, or in a larger batch.
 * @param {Bench} bench @param {SheetLine} line @param {Scale} scale @param {{add: number, before: number}} given
 * @param {Draft<Answer>} leaveOut @returns {Asking}
 */
function tooLittle(bench, line, scale, { add, before }, leaveOut) {
  const shown = grams(add, [100, 10, 1].find((each) => add >= each) ?? 1);
  const pieces = ceiling(product(bench.sheet.size.pieces, scale.division_mg), add);
  const spoon = line.by_spoon ?? "";
  return {
    title: `${line.name}: add ${spoon || shown}`,
    says: joined(
      `${shown} is too little for ${scale.name}.`,
      diluted(bench, line, add, scale.division_mg, shown),
      pieces <= MOST_PIECES ? `From ${pieces} ${bench.sheet.piece.many} on it shows.` : "",
      line.note,
    ),
    number: { mg: null, text: spoon || shown, caption: spoon ? "by spoon" : "judged by eye" },
    weigh: weighing(bench, line, { how: "spoons", add, amount: spoon || shown, reads: null, before }),
    answers: [
      answer("in", "It is in", "weighed", { line: line.id, mg: add }, { strong: true }),
      answer("other", "It reads something else", "weighed", { line: line.id }, { input: "reading" }),
      leaveOut,
    ],
  };
}

/**
 * How to weigh a hundredth: a little of it stirred into much of another line that is still to come.
 * @param {Bench} bench @param {SheetLine} line @param {number} add @param {number} division @param {string} shown
 */
function diluted({ sheet, state }, line, add, division, shown) {
  const take = DILUTED * add;
  const into = weighedLines(sheet, line).find(
    ({ id }) =>
      state.lines[id].status === "open" && id !== line.id && (state.lines[id].target_mg ?? 0) >= take,
  );
  if (!into || take < 5 * division) return "";
  const stock = ceiling(5 * division, 1000) * 1000;
  return (
    `Or stir ${grams(stock, 1000)} into ${grams((DILUTED - 1) * stock, 1000)} of ${into.name}: ` +
    `${grams(take, division)} of that holds ${shown}.`
  );
}

/**
 * Quiet answers: another scale than the sheet's, another vessel of the kit.
 * @param {Bench} bench @param {SheetLine} line
 */
function another(bench, line) {
  const told = bench.state.lines[line.id];
  const { vessel: key } = line;
  if (key === null || told.scale === null) return [];
  const { kit } = bench.sheet;
  const vessel = vesselOf(bench, line);
  const alone = line.cup ? { line: line.id } : {};
  const heavy = line.cup ? 0 : vessel.empty_mg + vessel.in_mg;
  const kind = kit.vessels.find(({ id }) => id === vessel.kit)?.kind ?? null;
  const fits = (/** @type {Vessel} */ each) =>
    each.id !== vessel.kit &&
    (kind === null ? each.kind !== "cup" : each.kind === kind) &&
    each.holds_mg >= vessel.in_mg;
  return [
    ...kit.scales
      .filter((scale) => scale.id !== told.scale && scale.capacity_mg >= heavy)
      .map(({ id, name }) =>
        answer(`scale_${id}`, `Weigh on ${name} from now on`, "placed", {
          vessel: key,
          scale: id,
          ...alone,
        }),
      ),
    ...kit.vessels
      .filter(fits)
      .map(({ id, name }) => answer(`took_${id}`, `I took ${name}`, "took", { vessel: key, instead: id })),
  ];
}

/** @param {WeighedState} told @param {number} division */
function wentIn(told, division) {
  return `${grams(told.in_mg, division)} in. Target ${grams(told.target_mg, division)}.`;
}

/** @param {Bench} bench @param {SheetLine} line @param {WeighedState} told */
function leave(bench, line, told) {
  return answer("leave", "Leave it", "left", { line: line.id }, { says: newShare(bench, line, told) });
}

/**
 * The answer that makes every target of this line's round num / den of the sheet's, worked out to its end; none
 * where that cannot work. kept: lines that stay as they are.
 * @param {Bench} bench @param {SheetLine} line @param {string} label @param {Ratio} given @param {string[]} [kept]
 */
function carry(bench, line, label, [num, den], kept = []) {
  const { sheet, state } = bench;
  if (!inReach(num, den)) return [];
  const { ends, over } = carriedTo(sheet, state, line, [num, den], kept);
  const full = tooFull(sheet, state, loads(sheet, line, ends));
  if (over.length || (full && !full.isCured)) return [];
  const body = {
    component: line.component,
    round: line.round,
    num,
    den,
    ...(kept.length ? { left: kept } : {}),
  };
  const says = carriedSays(bench, line, [num, den], ends, full?.says ?? "");
  return [
    answer(kept.length ? "carry_rest" : "carry", `${label}, × ${times(num, den)}`, "carried", body, { says }),
  ];
}

/** @param {LineState} given */
function toldTwice({ twice }) {
  if (twice === null) return [];
  const says = "Counts it once. The second entry is undone.";
  return [answer("told_twice", "Entered on two phones", "undone", { entry: twice }, { says, strong: true })];
}

/**
 * Past tolerance: take some out, leave it, or carry the rest up to match.
 * @param {Bench} bench @param {WeighedLine} line @param {WeighedState} told
 * @returns {Asking}
 */
function over(bench, line, told) {
  const mg = told.in_mg - told.target_mg;
  const division = divisionNow(bench, line);
  const [num, den] = carryUp(bench.sheet, bench.state, line.component, line.round);
  const toTake = Math.max(toDivision(mg, division), division);
  const shown = grams(toTake, division);
  // After a choice to make less, what was in already is over by that choice: it stays.
  const madeLess = carried(bench, line) < 0;
  const once = told.twice === null;
  return {
    kind: "over",
    title: `${line.name}: ${shown} too much`,
    says: joined(limitSays(bench, line, told), filling(bench, line), wentIn(told, division)),
    number: { mg, text: `+${shown}`, caption: "too much" },
    weigh: weighing(bench, line, { how: "over", add: -mg, amount: shown, reads: null, before: 0 }),
    answers: [
      ...toldTwice(told),
      answer(
        "take_out",
        `Take ${shown} out`,
        "taken_out",
        { line: line.id, mg: toTake },
        { strong: !madeLess && once },
      ),
      { ...leave(bench, line, told), strong: madeLess && once },
      ...carry(bench, line, "Scale up the rest", [num, den]),
    ],
  };
}

/**
 * Short of the target: add the rest, leave it, or make less to match.
 * @param {Bench} bench @param {WeighedLine} line @param {WeighedState} told
 * @returns {Asking}
 */
function short(bench, line, told) {
  const adding = addLine(bench, line, told, true);
  const division = divisionNow(bench, line);
  return {
    ...adding,
    kind: "short",
    first: "",
    title: `${line.name}: ${grams(told.target_mg - told.in_mg, division)} too little`,
    says: wentIn(told, division),
    answers: adding.answers.filter(({ id }) => id !== "zeroed"),
  };
}

/**
 * What else there is to do about too little: leave it, or make less to match. Where more of the others is in
 * already than that would ask for, only what is still to come can be less.
 * @param {Bench} bench @param {WeighedLine} line @param {WeighedState} told
 */
function letBe(bench, line, told) {
  const less = carry(bench, line, "None left: scale down", carryFactor([[told.in_mg, line.mg]]));
  return [leave(bench, line, told), ...(less.length ? less : carryRest(bench, line))];
}

/**
 * Make less of what is still to come, so that it keeps its share of what is in.
 * @param {Bench} bench @param {SheetLine} line
 */
function carryRest(bench, line) {
  const lines = weighedLines(bench.sheet, line);
  const kept = lines
    .map(({ id }) => id)
    .filter((id) => bench.state.lines[id].in_mg)
    .sort();
  const num = sum(kept.map((id) => bench.state.lines[id].in_mg));
  const den = sum(kept.map((id) => bench.lines.get(id).mg ?? 0));
  const isToCome = lines.some(({ id }) => bench.state.lines[id].status === "open");
  return isToCome && num < den ? carry(bench, line, "Make less of the rest", [num, den], kept) : [];
}

/**
 * What leaving it does: the line's share of its component, as it becomes and as it was meant.
 * @param {Bench} bench @param {SheetLine} line @param {WeighedState} told
 */
function newShare(bench, line, told) {
  const meant = sum(weighedLines(bench.sheet, line).map((each) => bench.state.lines[each.id].target_mg ?? 0));
  const becomes = meant - told.target_mg + told.in_mg;
  const part = bench.components.get(line.component).name;
  const [now, was] = apart([told.in_mg, becomes], [told.target_mg, meant]);
  const said =
    now === was
      ? `${line.name} stays ${now} of ${part}.`
      : `${line.name} becomes ${now} of ${part} instead of ${was}.`;
  return joined(said, limitSays(bench, line, told));
}

/**
 * That what went in passes the limit of the ingredient's own papers, in the part and in the piece.
 * @param {Bench} bench @param {SheetLine} line @param {WeighedState} told
 */
function limitSays({ sheet, state, components }, { id, ingredient, component: part }, told) {
  const limit = sheet.ingredients.find((each) => each.id === ingredient)?.limit_ppm ?? null;
  if (limit === null) return "";
  const shares = (/** @type {number} */ mg) => sharesOf(sheet, state, new Map([[id, mg]]), ingredient, part);
  const [ofPart, ofPiece] = shares(told.in_mg);
  const [askedPart, askedPiece] = shares(told.target_mg);
  if (
    Math.max(ofPart, ofPiece) <= limit ||
    ofPart < askedPart ||
    (ofPart === askedPart && ofPiece <= askedPiece)
  )
    return "";
  const [partSays, limitSaid] = apart([ofPart, PPM], [limit, PPM]);
  const [pieceSays] = apart([ofPiece, PPM], [limit, PPM]);
  return `${partSays} of ${components.get(part).name}, ${pieceSays} of the piece: its papers allow ${limitSaid}.`;
}

/**
 * What carrying to match does: the yield, the top-ups, what it makes of the shares, and where it fits.
 * @param {Bench} bench @param {SheetLine} line @param {Ratio} given @param {Full<string, number>} ends
 * @param {string} full
 */
function carriedSays(bench, line, [num, den], ends, full) {
  const component = bench.components.get(line.component);
  const total = sum([...ends.values()]);
  const pieces = piecesFrom(component, total);
  const enough = component.piece_mg && pieces ? `, enough for ${pieces}` : "";
  const tops = weighedLines(bench.sheet, line).flatMap((each) => {
    const { in_mg: inMg } = bench.state.lines[each.id];
    const division = divisionNow(bench, each);
    const more = ends.get(each.id) - inMg;
    return inMg && more > allowedMg(each, division, num, den)
      ? [`${grams(more, division)} ${each.name}`]
      : [];
  });
  const said = [
    `${component.name} becomes ${grams(total, 1000)}${enough}`,
    ...(tops.length ? [`top up ${tops.join(", ")}`] : []),
    ...shifted(bench, line, ends),
    ...(num > den ? [`you need ${moreBy(num, den)} more of the rest`] : []),
  ];
  return joined(`${said.join("; ")}.`, full);
}

/**
 * The two lines whose share of the part differs most from the sheet's, once all is in.
 * @param {Bench} bench @param {SheetLine} line @param {Full<string, number>} ends
 */
function shifted({ sheet }, line, ends) {
  const lines = weighedLines(sheet, line);
  const whole = sum([...ends.values()]);
  const meant = sum(lines.map(({ mg }) => mg));
  if (!whole || !meant) return [];
  /** @param {WeighedLine} line */
  const offOf = ({ id, mg }) => {
    const off = BigInt(ends.get(id)) * BigInt(meant) - BigInt(mg) * BigInt(whole);
    return off < 0n ? -off : off;
  };
  const found = lines
    .map((each) => ({ each, off: offOf(each) }))
    .sort((one, other) => (one.off > other.off ? -1 : one.off < other.off ? 1 : 0));
  return found
    .slice(0, 2)
    .filter(({ off }) => 1000n * off > BigInt(meant) * BigInt(whole))
    .map(({ each }) => {
      const [now, was] = apart([ends.get(each.id), whole], [each.mg, meant]);
      return `${each.name} ${now} of it instead of ${was}`;
    });
}

/** @param {Bench} bench @param {MeltStep} step @returns {Asking} */
function melt(bench, step) {
  const key = step.id;
  const bursts = bench.state.bursts[key] ?? [];
  const planned = step.bursts;
  const following = planned[bursts.length] ?? step.more;
  const yes = answer("yes", "It's melted", "looked", { step: key, answer: "yes" }, { says: step.look_for });
  if (bursts.length && last(bursts).answer === null) return heating(bench, step, bursts, following, yes);
  const length = span(following.ms);
  const resting = bench.guides.get(key);
  const word = heatWord(bench.sheet, step);
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
  const ended = !resting || guidePhase(resting, bench.at) === "ready";
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
 * @param {Bench} bench @param {MeltStep} step @param {readonly Heating[]} bursts @param {Burst} following
 * @param {Draft<Answer>} yes
 * @returns {Asking}
 */
function heating(bench, step, bursts, following, yes) {
  const guide = bench.guides.get(step.id);
  const over = guide !== undefined && guidePhase(guide, bench.at) === "ready";
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
      caption: `${heatWord(bench.sheet, step)} ${bursts.length}, then stir and look`,
    },
    answers: [{ ...likelier, strong: over }, other],
  };
}

/** @param {Bench} bench @param {SplitStep} step @returns {Asking} */
function split(bench, step) {
  const targets = portionTargets(step, bench.state);
  const weighed = step.portions.slice(0, -1);
  const index = Math.max(
    0,
    weighed.findIndex(({ vessel }) => !(vessel in bench.state.portions)),
  );
  const portion = step.portions[index];
  const target = targets[index];
  const scale = scaleOf(bench, bench.state.vessels[portion.vessel].scale);
  const division = scale?.division_mg ?? 1000;
  const reads = toDivision(target, division);
  const text = grams(reads, division);
  const body = { vessel: portion.vessel };
  const there = bench.state.vessels[step.vessel].in_mg;
  return {
    first: scale ? zeroing(scale, "Empty bowl on") : "",
    says: joined(
      isFirstAsked(bench, step) ? step.says : "",
      `The rest, ${grams(last(targets), division)}, stays as ${last(step.portions).name}.`,
    ),
    number: { mg: reads, text, caption: `weigh out for ${portion.name}` },
    weigh: {
      line: null,
      name: portion.name,
      add_mg: target,
      add: text,
      reads_mg: reads,
      reads: text,
      before_mg: 0,
      how: "portion",
      scale: scale?.name ?? "",
      division_mg: division,
      tolerance_mg: ceiling(division, 2),
      vessel: portion.vessel,
    },
    answers: [
      answer(
        "reads",
        `It reads ${text}`,
        "portioned",
        { ...body, mg: reads > 0 ? Math.min(reads, there) : target },
        { strong: true },
      ),
      answer("other", "It reads something else", "portioned", body, { input: "reading", most: there }),
    ],
  };
}

/** @param {Bench} bench @param {CheckStep} step @returns {Asking} */
function check(bench, step) {
  const looked = (/** @type {Verdict} */ reply, /** @type {{way?: string}} */ way = {}) => ({
    step: step.id,
    answer: reply,
    ...way,
  });
  const answers = [answer("yes", step.yes, "looked", looked("yes"), { strong: true })];
  for (const way of step.ways) {
    answers.push(
      answer(`not_yet_${way.id}`, `Not yet: ${way.name}`, "looked", looked("not_yet", { way: way.id }), {
        says: joined(step.not_yet, way.says),
      }),
    );
  }
  if (!step.ways.length) {
    answers.push(answer("not_yet", "Not yet", "looked", looked("not_yet"), { says: step.not_yet }));
  }
  if (step.too_far !== null) {
    answers.push(answer("too_far", "Too far", "looked", looked("too_far"), { says: step.too_far }));
  }
  const left = bench.guides.get(step.id);
  const isLeft = left && guidePhase(left, bench.at) === "counting";
  const number = isLeft
    ? { mg: null, text: span(left.until - left.began_at), caption: "then judge again" }
    : null;
  return { says: checkSays(step, bench.state.looks[step.id] ?? []), number, answers };
}

/**
 * What the last answer asks to be done, then the question; what "right" is stands before the first.
 * @param {CheckStep} step @param {readonly Look[]} looks
 */
function checkSays(step, looks) {
  const tries = looks.filter((look) => look.answer !== "yes");
  if (!tries.length) return joined(step.ask, step.says || `Right: ${sentence(step.yes)}`);
  const latest = last(tries);
  const way = step.ways.find(({ id }) => id === latest.way);
  const what = latest.answer === "too_far" ? step.too_far : step.not_yet;
  const tried = tries.length === 1 ? "Tried once." : `Tried ${tries.length} times.`;
  return joined(way ? `${way.name}:` : "", what ?? "", step.ask, tried);
}

/** @param {Bench} bench @param {PiecesStep} step @returns {Asking} */
function pieces(bench, step) {
  const key = step.id;
  const count = bench.state.counts[key] ?? { good: 0, spoiled: 0, partial: 0, of: {} };
  const seen = count.good + count.spoiled + count.partial;
  const made = seen - count.spoiled;
  const wanted = bench.state.expected[key];
  const left = Math.max(0, wanted - made);
  const { part, says: partSays, whole } = partInHand(bench, step, count);
  const says = partSays || againSays(bench, step, count, wanted);
  const sprayed = (bench.state.looks[key] ?? []).length;
  const sprayedSays = sprayed ? `Sprayed again ${sprayed === 1 ? "once" : `${sprayed} times`}.` : "";
  const body = { step: key, seen, ...(part === null ? {} : { of: part }) };
  /** @type {[string, number, string]} */
  const [id, good, label] = step.one_by_one
    ? ["one", 1, `One ${step.verb}`]
    : ["all", left, `${left === 1 ? "One" : `All ${left}`} ${step.verb}`];
  const answers = step.ways.map((way, index) =>
    answer(
      `${id}_${way.id}`,
      `${label}: ${way.name}`,
      "counted",
      { ...body, good, way: way.id },
      {
        says: way.says,
        strong: whole && !index,
      },
    ),
  );
  if (!step.ways.length) answers.push(answer(id, label, "counted", { ...body, good }, { strong: whole }));
  const { inRow, ofAll } = inHand(bench, step, part, { count, left });
  const told = ofAll ? { step: key, seen } : body;
  if (step.one_by_one && !step.ways.length && whole && inRow > 1) {
    answers.push(answer("all", `All ${inRow} ${step.verb}`, "counted", { ...told, good: inRow }));
  }
  const several = step.one_by_one ? `Several ${step.verb}` : "Some other number";
  answers.push(answer("some", several, "counted", body, { input: "count", most: left }));
  if (step.again !== null) {
    answers.push(
      answer(
        "respray",
        "It has dried: spray and work in",
        "looked",
        { step: key, answer: "not_yet" },
        {
          says: step.again,
        },
      ),
    );
  }
  if (step.partial) {
    answers.push(answer("partial", "A small one", "counted", { ...body, partial: 1 }, { strong: !whole }));
  }
  answers.push(answer("spoiled", "One spoiled", "counted", { ...body, spoiled: 1 }));
  answers.push(answer("enough", "None left: stop here", "done", { step: key }));
  return {
    says: joined(step.again && made ? step.again : step.says, sprayedSays, says, beforeNext(bench, step)),
    number: { mg: null, text: `${made}`, caption: `of ${wanted} ${step.verb}` },
    answers,
  };
}

/**
 * That what is left of the mix makes good for what was spoiled.
 * @param {Bench} bench @param {PiecesStep} step @param {PieceCount} count @param {number} wanted
 */
function againSays(bench, step, count, wanted) {
  const each = step.piece_mg;
  if (step.follows.length || each <= 0 || count.good + count.spoiled + count.partial < wanted) return "";
  const left = leftOfMix(step, (vessel) => bench.state.vessels[vessel].in_mg, count, bench.sheet);
  const [more] = divided(left, each);
  return more ? `${grams(left, 1000)} left: ${more} more ${more === 1 ? "piece" : "pieces"}.` : "";
}

/**
 * How many whole pieces are told by one touch: all that are left, out of every portion (`ofAll`), where the mix
 * gives them; else those of the portion in hand.
 * @param {Bench} bench @param {PiecesStep} step @param {string | null} part
 * @param {{count: PieceCount, left: number}} counted
 */
function inHand(bench, step, part, { count, left }) {
  const each = step.piece_mg;
  if (part === null || each <= 0) return { inRow: left, ofAll: false };
  if (part === "joined") return { inRow: 1, ofAll: false };
  const held = step.of.map((vessel) =>
    Math.max(0, bench.state.vessels[vessel].in_mg - (count.of[vessel] ?? 0) * each),
  );
  const all = divided(sum(held) - (count.of.joined ?? 0) * each, each)[0];
  if (left > 1 && left <= all) return { inRow: left, ofAll: true };
  return { inRow: Math.min(left, divided(held[step.of.indexOf(part)], each)[0]), ofAll: false };
}

/**
 * {part, says, whole}: which portion the next piece comes from, what its leftover still makes, and
 * whether a whole one.
 *
 * Portions are used in turn, each as far as it gives whole pieces; what is left of them is then
 * joined into a last, perhaps partial, piece.
 * @param {Bench} bench @param {PiecesStep} step @param {PieceCount} count
 */
function partInHand(bench, step, count) {
  const each = step.piece_mg;
  if (!step.of.length || each <= 0) return { part: null, says: "", whole: true };
  /** @type {{name: string, mg: number}[]} */
  const leftovers = [];
  for (const vessel of step.of) {
    const { name } = bench.vessels.get(vessel);
    const left = bench.state.vessels[vessel].in_mg - (count.of[vessel] ?? 0) * each;
    if (left >= each) {
      const [whole] = divided(left, each);
      const says = `From ${name}: ${whole} more ${whole === 1 ? "piece" : "pieces"} in it.`;
      return { part: vessel, says, whole: true };
    }
    leftovers.push({ name, mg: Math.max(0, left) });
  }
  const left = Math.max(0, sum(leftovers.map(({ mg }) => mg)) - (count.of.joined ?? 0) * each);
  if (left < each) {
    return {
      part: "joined",
      says: `${grams(left, 1000)} left: too little for a ${grams(each, 1000)} piece.`,
      whole: !step.partial,
    };
  }
  const parts = leftovers.filter(({ mg }) => mg).map(({ name, mg }) => `${grams(mg, 1000)} of ${name}`);
  const says = `Join what is left: ${parts.join(" and ")} make ${divided(left, each)[0]} more.`;
  return { part: "joined", says, whole: true };
}

/** @param {Bench} bench @param {WaitStep} step @returns {Asking} */
function wait(bench, step) {
  const key = step.id;
  const running = bench.waits.get(key);
  const phase = running ? waitPhase(running, bench.at) : "counting";
  const again = Math.max(LEAST_AGAIN_MS, halfEven(step.usual_ms, LOOK_AGAIN_SHARE * 60_000) * 60_000);
  const isEarly = phase === "counting";
  const label = isEarly ? `It's ${step.word} already` : `It's ${step.word}`;
  const ask = isEarly ? tooEarly(bench, running, step.word) : "";
  const answers = [answer("done", label, "done", { step: key }, { strong: !isEarly, ask })];
  if (!isEarly) {
    answers.push(
      answer("again", `Not yet: look again in ${span(again)}`, "extended", { step: key, ms: again }),
    );
  }
  if (isEarly) return { says: step.says, answers };
  const [first, ...rest] = step.word;
  return { says: joined(`${first.toUpperCase()}${rest.join("")} yet?`, step.test), answers };
}

/**
 * What is asked before a wait is ended that still counts: there is no going back from what follows.
 * @param {Bench} bench @param {RunningWait | undefined} running @param {string} word
 */
function tooEarly(bench, running, word) {
  const left = running ? `${span(running.earliest_at - bench.at)} before the earliest. ` : "";
  return `${left}Is it really ${word}?`;
}

/** @param {Bench} bench @returns {Asked} */
function finish(bench) {
  const skipped = bench.sheet.steps
    .filter((step) => status(bench, step.id) === "skipped")
    .map((step) => step.title);
  return {
    step: null,
    component: null,
    letter: "",
    round: 1,
    of_rounds: 1,
    kind: "finish",
    title: "Finish the batch",
    says: skipped.length
      ? `Skipped: ${skipped.join(", ")}. Was that meant?`
      : "Everything on the sheet is done.",
    why: "",
    more: "",
    cautions: [],
    number: null,
    weigh: null,
    answers: [answer("finish", "Finish", "finished", {}, { strong: true })],
  };
}

// The strip of waits

/** @param {Bench} bench @param {string} key */
function placed(bench, key) {
  const step = bench.steps.get(key);
  return {
    step: key,
    component: step.component,
    letter: bench.components.get(step.component).letter,
    title: step.title,
  };
}

/** @param {Bench} bench @param {RunningWait} wait */
function waitSaid(bench, wait) {
  const step = bench.steps.get(wait.step);
  const { word, stake } = step.kind === "wait" ? step : { word: "", stake: "" };
  const phase = waitPhase(wait, bench.at);
  /** @type {{[P in WaitPhase]: string}} */
  const asks = {
    counting: "",
    look: `may be ${word}: look`,
    ready: `should be ${word}`,
    soon_late: stake || "do not leave it much longer",
    late: stake || "past its latest time",
  };
  return { ...placed(bench, wait.step), ...wait, word, phase, asks: asks[phase] };
}

/** @param {Bench} bench @param {OpenWindow} window */
function windowSaid(bench, window) {
  const { stake = "" } = overOf(bench, bench.steps.get(window.step)) ?? {};
  return { ...placed(bench, window.step), ...window, phase: windowPhase(window, bench.at), stake };
}

/** @param {Bench} bench @param {RunningGuide} guide */
function guideSaid(bench, guide) {
  return { ...placed(bench, guide.step), ...guide, phase: guidePhase(guide, bench.at) };
}

// Words

/**
 * One answer. `input` is what it still wants (reading, count, note) and `most` its upper bound; `ask` is
 * what to ask the maker before it is posted; `also`, where there is one, are entries that it tells besides.
 * @param {string} id @param {string} label @param {RunKind} kind @param {Answer["body"]} body
 * @param {Partial<Draft<Pick<Answer, "says" | "input" | "most" | "strong" | "ask" | "also">>>} [how]
 * @returns {Draft<Answer>}
 */
function answer(
  id,
  label,
  kind,
  body,
  { says = "", input = null, most = null, strong = false, ask = "", also = undefined } = {},
) {
  return { id, label, says, kind, body, input, most, strong, ask, ...(also ? { also } : {}) };
}

/** Which scale, what stands on it, and that it is zeroed then. @param {Scale} scale @param {string} stands */
const zeroing = ({ name }, stands) => `${name}. ${stands}, then zero.`;

/** @param {SheetLine} given */
function counted({ count, unit }) {
  return `${count} ${count === 1 ? unit.slice(0, -1) : unit}`;
}
