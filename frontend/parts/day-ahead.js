// The day from now on, made on the phone alone: out of the runs, the bench hours and the last plan there is.
// Without a plan the plain rule orders the day. What is next is judged by looking ahead (bench/foresight.js).
//
//   dayAhead({ runs: [{ run, measured }], hours, plan, at })
// ->
// { problem, batches: [{ id, name }], order, tasks: [{ …task, starts_at, ends_at, maker }], hours, finish, … }
// dayOfRun(studio, run, measuredOf) // the same over all the runs that share this run's plan, or without one the
// bench
// newBatch({ recipe, sheet, others, hours, at, measuredOf }) // when a batch not begun yet would be done, by the
// plain rule
//   timeWords(time, { at, others, by })                          // the same in words
// nextOf(ahead, plan) // what is next on the whole bench, and why: { run, step, title, advice, reason }, or null.
// // advice changes what to do, or tells of what is lost; the reason is for who asks
// leadOf(ahead, run, plan) // the same at one run's bench: { step, advice, reason }; step null when it is not of this
// run
//   dueWords(ahead, plan)             // for each batch that is to be ready by some time: its latest start, or why not
//   brokenWords(ahead)                // what is missed in the day as it stands, each a sentence
//   stopLines(ahead, untils)          // what happens when nothing is begun before then, each a line
//   planAge(plan, at, isOnline)       // how old the plan is, in words

import { ifYouStop, nextStep, withWhoStayed } from "../bench/foresight.js";
import { Day, Layout } from "../bench/layout.js";
import { full, those } from "../bench/lists.js";
import { compare } from "../bench/price.js";
import { openSheet } from "../bench/sheet/former.js";
import { makeProblem, tasksOf } from "../bench/tasks.js";
import { clock, dated, day as dayOf, duration } from "./words.js";
import { breathe } from "../platform.js";
import { say } from "../words.js";
/** @import { Advice, GapOver, HoursAdvice, MakerWritten, MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { Plan, Problem, RunDue } from "../../bench/shapes/page" */
/** @import { Sheet, State, Task, WhyNext, WindowAdvice } from "../../bench/shapes/page" */
/** @import { HoursDoc, HoursDocument, PlanDoc } from "../../types/server" */
/** @import { HandsMs } from "../bench/tasks.js" */
/** @import { Run } from "../keep/run.js" */
/** @import { Studio } from "../keep/studio.js" */

const DAY_MS = 86_400_000;
const AHEAD_MS = 14 * DAY_MS; // of bench hours beyond all the waits there are
/** Of more steps than this only the plan's order is followed: looking ahead would make the hand wait. */
const MOST_LED = 160;
const OLD_MS = 10 * 60_000; // a plan is called old after this
const MINUTE_MS = 60_000;

/**
 * @typedef {{id: string, sheet: Sheet, state: State | null, created_at: number, name: string}} DayRun
 * @typedef {{run: DayRun, measured: MeasuredRecipe | null}} DayPart
 * @typedef {(run: Run) => MeasuredRecipe | null | undefined} MeasuredOf
 * @typedef {{id: string, name: string, isBegun: boolean | undefined}} DayBatch
 * @typedef {Task & {starts_at: number, ends_at: number, maker: number | null}} DayTask
 * @typedef {{kind: "in_hand"} | {kind: "later", run: string} | WhyNext} WhyStep
 * @typedef {{step: string | null, until: number | null, why: WhyStep, broken: readonly GapOver[],
 *   risk?: Advice["risk"]}} NextStep
 * @typedef {{problem: Problem, batches: DayBatch[], order: string[], tasks: DayTask[], at: number,
 *   hours: Problem["makers"][number]["hours"][], finish: number | null, broken: Layout["broken"],
 *   next: NextStep | null}} Ahead
 * @typedef {PlanDoc | null | undefined} PlanThere
 * @typedef {{finish: number | null, hands_ms: number}} BatchTime
 */

/** @type {{key: unknown[], ahead: Ahead | null}} */
let made = { key: [], ahead: null };

/** @type {{offset: number | null, name: string}} */
let zone = { offset: null, name: "" };

/**
 * Whose clock this phone shows. To ask takes milliseconds on a slow phone: it is asked again when the clock is
 * another's.
 */
function zoneHere() {
  const offset = new Date().getTimezoneOffset();
  if (zone.offset !== offset) zone = { offset, name: Intl.DateTimeFormat().resolvedOptions().timeZone };
  return zone.name;
}

/**
 * Whether a place's clock goes as this phone's does, the year round: one clock has many names.
 * @param {string} zone @param {number} at
 */
export function isClockHere(zone, at) {
  if (zone === zoneHere()) return true;
  /** @param {string | undefined} timeZone @param {number} instant */
  const shown = (timeZone, instant) => new Date(instant).toLocaleString("en-GB", { timeZone });
  return Array.from({ length: 13 }, (_, month) => at + month * 28 * DAY_MS).every(
    (instant) => shown(zone, instant) === shown(undefined, instant),
  );
}

/**
 * The hours that hold on this phone: a bench that is always open, by its own clock, until the studio has said.
 * @param {HoursDoc | null} hours @returns {HoursDocument}
 */
export const hoursOf = (hours) =>
  hours?.version
    ? hours.document
    : { makers: [{ name: say("page-day-maker"), hours: { zone: zoneHere(), daily: [["0:00", "24:00"]] } }] };

/**
 * What a day is made of. Asked at every turn of the page; the answer changes with what happens, and once a minute by
 * itself.
 * @typedef {{runs: DayPart[], hours: HoursDoc | null, plan: PlanThere, at: number}} DayGiven
 * @param {DayGiven} given
 */
const keyOf = ({ runs, hours, plan, at }) => [
  Math.floor(at / MINUTE_MS),
  hours,
  plan,
  ...runs.flatMap(({ run, measured }) => [run.state, measured]),
];

/** @param {unknown[]} key */
const isMade = (key) =>
  key.length === made.key.length && key.every((each, place) => each === made.key[place]);

/** @param {DayGiven} given @returns {Ahead} */
export function dayAhead(given) {
  const key = keyOf(given);
  const ahead = (isMade(key) && made.ahead) || toItsEnd(aheadOf(given));
  made = { key, ahead };
  return ahead;
}

/** @param {DayGiven} given */
const aheadOf = ({ runs, hours, plan, at }) => lookAhead(runs, hoursOf(hours).makers, plan, at);

/** @param {Studio} studio @param {Run} run @param {MeasuredOf} measuredOf @returns {DayGiven} */
function givenOf(studio, run, measuredOf) {
  const { plan, hours } = studio.planOf(run.id);
  const along = studio.together(run.id).filter((other) => other !== run);
  return {
    runs: [run, ...along].map((each) => ({ run: each, measured: measuredOf(each) ?? null })),
    hours,
    plan,
    at: studio.at(),
  };
}

/** @param {Studio} studio @param {Run} run @param {MeasuredOf} measuredOf */
export const dayOfRun = (studio, run, measuredOf) => dayAhead(givenOf(studio, run, measuredOf));

/**
 * The same made ahead, for `dayOfRun` to find: piece by piece, so that a touch meanwhile is answered. Given up where
 * `isWanted` says so.
 * @param {Studio} studio @param {Run} run @param {MeasuredOf} measuredOf @param {() => boolean} isWanted
 */
export async function readyDayOfRun(studio, run, measuredOf, isWanted) {
  const given = givenOf(studio, run, measuredOf);
  const key = keyOf(given);
  if (made.ahead && isMade(key)) return;
  const looking = aheadOf(given);
  for (;;) {
    await breathe();
    if (!isWanted()) return;
    const { done, value } = looking.next();
    if (!done) continue;
    made = { key, ahead: value };
    return;
  }
}

/** @template T @param {Generator<undefined, T>} pieces @returns {T} */
function toItsEnd(pieces) {
  for (;;) {
    const { done, value } = pieces.next();
    if (done) return value;
  }
}

/**
 * When a batch that is not begun yet would be done, by the plain rule, beside these runs: { finish, hands_ms };
 * finish null where hours do not reach, or no order keeps the recipe's own windows.
 * @param {{recipe: {measured: MeasuredRecipe}, sheet: Sheet, others: Run[], hours: HoursDoc | null, at: number,
 * measuredOf: MeasuredOf}} given @returns {BatchTime}
 */
export function newBatch({ recipe, sheet, others, hours, at, measuredOf }) {
  const fresh = {
    run: { id: "new", sheet, state: null, created_at: at, name: "" },
    measured: recipe.measured,
  };
  const { tasks, finish, broken } = toItsEnd(
    lookAhead(
      [...others.map((run) => ({ run, measured: measuredOf(run) ?? null })), fresh],
      hoursOf(hours).makers,
      null,
      at,
      false,
    ),
  );
  const own = tasks.filter(({ run }) => run === "new");
  const ids = new Set(own.map(({ id }) => id));
  const isKept = broken.every(({ gap }) => gap.why === "keeps" || !ids.has(gap.to));
  const hands = own.filter(({ kind }) => kind === "hands").reduce((sum, task) => sum + task.left_ms, 0);
  const ends = finish === null || !isKept ? null : Math.max(...own.map((task) => task.ends_at));
  return { finish: ends, hands_ms: hands };
}

/** @param {BatchTime} time @param {{at: number, others: number, by: "server" | "phone"}} told */
export function timeWords({ finish, hands_ms: hands }, { at, others, by }) {
  if (finish === null) return say("page-day-time-no-hours", { length: duration(hands) });
  return [
    say("page-day-time-done", { length: duration(finish - at), when: when(finish, at) }),
    say("page-day-time-hands", { length: duration(hands) }),
    say(by === "server" ? "page-day-time-by-server" : "page-day-time-by-phone", { count: others }),
  ].join(" ");
}

/** @param {Ahead} ahead @param {PlanThere} plan */
export function nextOf(ahead, plan) {
  const { next, problem } = ahead;
  if (!next) return null;
  const task = problem.tasks.find(({ id }) => id === next.step);
  const why = plan?.plan?.steps.find(({ id }) => id === next.step)?.why;
  return {
    run: task?.run ?? null,
    step: next.step,
    title: task?.title ?? "",
    advice: adviceWords({ ...ahead, next }),
    reason: task && why && why.kind !== "next" ? (why.says ?? "") : "",
  };
}

/** @param {Ahead} ahead @param {string} run @param {PlanThere} plan */
export function leadOf(ahead, run, plan) {
  const next = nextOf(ahead, plan);
  if (!next) return null;
  if (next.step !== null && next.run !== null && next.run !== run)
    return { step: null, advice: say("page-day-first", { step: named(ahead, next.step) }), reason: "" };
  return { step: next.step?.slice(run.length + 1), advice: next.advice, reason: next.reason };
}

/** A step by its title, and its batch by name where there are several. @param {Ahead} ahead @param {string} id */
function named({ problem, batches }, id) {
  const { title, run } = full(problem.tasks.map((task) => [task.id, task])).get(id);
  return batches.length > 1
    ? say("planning-step-of", { title, name: nameOf(batches, run) })
    : say("planning-step", { title });
}

/** @param {DayBatch[]} batches @param {string | undefined} run */
const nameOf = (batches, run) => batches.find(({ id }) => id === run)?.name ?? say("page-day-this-batch");

/**
 * When each run of a plan is to be ready: [{ run, ready_by, begins_at, why }].
 * @param {PlanThere} plan @returns {readonly RunDue[]}
 */
const dueOf = (plan) =>
  plan?.due ??
  (plan?.aim === "ready_by"
    ? plan.parts.map(({ run }) => ({
        run,
        ready_by: plan.ready_by ?? 0,
        begins_at: plan.plan?.begins_at ?? null,
        why: "",
      }))
    : []);

/** @param {Ahead} ahead @param {PlanThere} plan */
export function dueWords({ batches, at }, plan) {
  /** @param {string} run */
  const begun = (run) => batches.find(({ id }) => id === run)?.isBegun;
  return dueOf(plan)
    .filter(({ run, ready_by: by }) => by > at && batches.some(({ id }) => id === run))
    .map(({ run, ready_by: by, begins_at: begins, why }) => {
      const due = { when: when(by, at) };
      const of = { ...due, name: nameOf(batches, run) };
      const isOne = batches.length === 1;
      if (begins === null)
        return those([isOne ? say("page-day-due-not", due) : say("page-day-due-not-of", of), why]).join(" ");
      if (begins <= at || begun(run))
        return isOne ? say("page-day-due-still", due) : say("page-day-due-still-of", of);
      const start = { begins: when(begins, at) };
      return isOne
        ? say("page-day-due-begin", { ...due, ...start })
        : say("page-day-due-begin-of", { ...of, ...start });
    });
}

/**
 * Whether why a batch cannot be ready in time is why there is no plan, and so is said with it.
 * @param {PlanThere} plan @param {number} at
 */
export const isDueSaid = (plan, at) =>
  Boolean(plan?.plan?.reasons.length) &&
  !plan?.plan?.due &&
  dueOf(plan).some(({ begins_at: begins, ready_by: by }) => begins === null && by > at);

/**
 * @param {DayPart[]} runs @param {readonly MakerWritten[]} makers @param {PlanThere} plan @param {number} at
 * @param {boolean} [isAsked] whether what is next is asked
 * @returns {Generator<undefined, Ahead>} in pieces, between which the page may do something else
 */
function* lookAhead(runs, makers, plan, at, isAsked = true) {
  const parts = [];
  for (const { run, measured } of runs) {
    const { state, id } = run;
    parts.push(tasksOf(openSheet(run.sheet, measured), { state, run: id, hands: handsOf(run, plan) }));
    yield;
  }
  const waits = parts
    .flatMap(({ tasks }) => tasks)
    .reduce((total, task) => total + (task.kind === "wait" ? task.left_ms : 0), 0);
  const asWritten = makeProblem(
    parts,
    makers,
    at,
    Math.min(Math.max(at + AHEAD_MS + waits, (plan?.ready_by ?? 0) + DAY_MS), at + 399 * DAY_MS),
  );
  yield;
  const planned = plan?.plan?.steps.filter(({ kind }) => kind !== "wait") ?? [];
  const day = withWhoStayed(
    new Day(asWritten, at),
    planned.map(({ id }) => id),
  );
  const { problem } = day;
  const isBegun = new Map(
    runs.map(({ run }) => [
      run.id,
      problem.tasks.some((task) => task.run === run.id && task.status !== "open"),
    ]),
  );
  // What is to be ready by some time and need not be begun yet: its steps wait for the latest start.
  /** @type {Map<string, number>} */
  const later = new Map();
  for (const { run, begins_at: begins } of dueOf(plan))
    if (begins !== null && begins > at && isBegun.get(run) === false) later.set(run, begins);
  yield;
  const layout = planned.length ? asPlanned(day, planned, later) : byRule(day);
  yield;
  const order = layout.order.filter((index) => day.hands[index]).map((index) => problem.tasks[index].id);
  const tasks = problem.tasks.flatMap((task, index) => {
    const [starts, ends] = [layout.start[index], layout.end[index]];
    if (starts === null || ends === null) return [];
    return { ...task, starts_at: starts, ends_at: ends, maker: layout.maker[index] };
  });
  const inHand = tasks.find(({ kind, status }) => kind === "hands" && status === "begun");
  const isLed = day.open.length <= MOST_LED;
  /** @type {NextStep | null} */
  const next = inHand
    ? { step: inHand.id, until: null, why: { kind: "in_hand" }, broken: [] }
    : isLed && isAsked
      ? nextAmong(asWritten, order, at, later) // which says itself by how much they stay
      : null;
  // As they were begun, whichever run's page this is: they are numbered by it.
  const batches = runs
    .map(({ run }) => run)
    .sort((one, other) => one.created_at - other.created_at)
    .map(({ id, name }) => ({ id, name, isBegun: isBegun.get(id) }));
  return {
    problem,
    batches,
    order,
    tasks,
    hours: problem.makers.map((maker) => maker.hours),
    at,
    finish: layout.placed ? layout.finish : null,
    broken: layout.broken,
    next,
  };
}

/**
 * What is next among the runs that may be begun; when only the others are left, the first of these, at its time.
 * @param {Problem} problem @param {string[]} order @param {number} at @param {Map<string, number>} later
 * @returns {NextStep}
 */
function nextAmong(problem, order, at, later) {
  if (!later.size) return nextStep(problem, order, at);
  const soonest = [...later].reduce((first, each) => (each[1] < first[1] ? each : first));
  /** @type {NextStep} */
  const wait = { step: null, until: soonest[1], why: { kind: "later", run: soonest[0] }, broken: [] };
  const tasks = problem.tasks.filter(({ run }) => !later.has(run));
  const ids = new Set(tasks.map(({ id }) => id));
  if (!tasks.some(({ kind, status }) => kind === "hands" && status !== "done")) return wait;
  const rest = {
    ...problem,
    tasks,
    gaps: problem.gaps.filter(({ to }) => ids.has(to)),
    holds: problem.holds.filter(({ from }) => ids.has(from)),
  };
  const next = nextStep(
    rest,
    order.filter((id) => ids.has(id)),
    at,
  );
  return next.step === null && next.until !== null && next.until > soonest[1]
    ? { ...next, until: soonest[1] }
    : next;
}

/**
 * The plan's order, its times kept where that is no worse than as early as can be. later: run -> not before.
 * @param {Day} day @param {Plan["steps"]} planned @param {Map<string, number>} later
 */
function asPlanned(day, planned, later) {
  const numbers = day.byNeed(planned.map(({ id }) => id));
  const open = planned
    .map(({ id, starts_at }) => /** @type {const} */ ([day.number.get(id), starts_at]))
    .filter(([index]) => day.open.includes(index));
  const held = open.filter(([index]) => later.has(day.tasks[index].run));
  const [asWas, asEarly] = [open, held].map(
    (notBefore) => new Layout(day, numbers, { notBefore: new Map(notBefore) }),
  );
  return isWorse(asWas, asEarly) ? asEarly : asWas;
}

/** As the recipes are written, unless the plain rule breaks less or ends sooner. @param {Day} day */
function byRule(day) {
  const [asWritten, byTails] = [[], day.latestFinishFirst()].map(
    (order) => new Layout(day, day.byNeed(order)),
  );
  const isBetter =
    isWorse(asWritten, byTails) || (!isWorse(byTails, asWritten) && byTails.finish < asWritten.finish);
  return isBetter ? byTails : asWritten;
}

/** @param {Layout} one @param {Layout} other */
const isWorse = (one, other) =>
  one.placed !== other.placed ? !one.placed : compare(one.price, other.price) > 0;

/**
 * The maker's own times for a run's steps, as the plan brought them.
 * @param {{id: string}} run @param {PlanThere} plan @returns {HandsMs}
 */
function handsOf({ id }, plan) {
  const own = Object.entries(plan?.hands_ms ?? {}).filter(([key]) => key.startsWith(`${id}/`));
  return Object.fromEntries(own.map(([key, ms]) => [key.slice(id.length + 1), ms]));
}

/** A clock time, with its day when that is not today. @param {number} instant @param {number} at */
export function when(instant, at) {
  const name = dated("weekday", instant);
  if (new Date(instant).toDateString() === new Date(at).toDateString()) return clock(instant);
  return Math.abs(instant - at) < 6 * DAY_MS ? `${name} ${clock(instant)}` : dayOf(instant);
}

/**
 * From when to when, the day of the end too where it is another.
 * @param {number} from @param {number} until @param {number} at
 */
export const stretch = (from, until, at) =>
  say("page-day-stretch", {
    from: when(from, at),
    until: new Date(from).toDateString() === new Date(until).toDateString() ? clock(until) : when(until, at),
  });

/** How late at the least, in words. @param {number} ms */
const overWords = (ms) => duration(Math.max(MINUTE_MS, ms));

/**
 * What changes what to do, or what is lost whatever is done; "" where the next step is simply next.
 * @param {Ahead & {next: NextStep}} ahead
 */
function adviceWords(ahead) {
  const { next } = ahead;
  if (next.broken.length) {
    const [worst] = worstFirst(next.broken);
    return say("page-day-least-bad", {
      step: named(ahead, worst.gap.to),
      length: overWords(worst.over_ms),
    });
  }
  if (next.step) {
    if (next.risk)
      return say("page-day-slow-hands", {
        step: named(ahead, next.risk.gap.to),
        length: overWords(next.risk.over_ms),
      });
    if (next.why.kind === "stay")
      return say("page-day-stay", { length: overWords(next.why.by_ms), at: clock(next.why.closes_at) });
    return next.why.kind === "sooner" ? say("page-day-order-changed") : "";
  }
  return waitWords(ahead);
}

/** What is waited for, where nothing is to be begun. @param {Ahead & {next: NextStep}} ahead */
function waitWords(ahead) {
  const { at, batches } = ahead;
  const { why, until } = ahead.next;
  const then = until === null ? "" : when(until, at);
  switch (why.kind) {
    case "no_hours":
      return say("page-day-no-hours");
    case "later":
      return batches.length > 1
        ? say("page-day-begin-later-of", { name: nameOf(batches, why.run), when: then })
        : say("page-day-begin-later", { when: then });
    case "closed":
      return say("page-day-bench-opens", { when: then });
    case "wait":
      return then && say("page-day-hands-free", { when: then });
    case "rest":
      return then && say("page-day-rest", { step: named(ahead, why.step), when: then });
    case "ends_sooner":
    case "hours":
    case "window":
      return those([notNowWords(ahead, why), then && say("page-day-next-start", { when: then })]).join(" ");
    default:
      return "";
  }
}

/** Why a step is left for now. @param {Ahead} ahead @param {HoursAdvice | WindowAdvice} why */
function notNowWords(ahead, why) {
  const step = named(ahead, why.step);
  if (why.kind === "ends_sooner") return say("page-day-leave", { step });
  if (why.kind !== "window") return say("page-day-past-hours", { step, when: when(why.closes_at, ahead.at) });
  if (!why.gap) return say("page-day-no-room", { step });
  return say("page-day-too-late", {
    step,
    next: named(ahead, why.gap.to),
    length: overWords(why.over_ms ?? 0),
  });
}

/**
 * What is missed in the day as it stands: each step once, by its worst, and each stake once. Of a step that the advice
 * tells of already only the stake is left to say.
 * @param {Ahead} ahead
 */
export function brokenWords(ahead) {
  const [told = ""] = worstFirst(ahead.next?.broken ?? []).map(({ gap }) => gap.to);
  const said = new Set([told]);
  return worstFirst(ahead.broken.map(({ over, gap }) => ({ over_ms: over, gap }))).flatMap(
    ({ over_ms, gap }) => {
      const late = said.has(gap.to) ? "" : lateWords(ahead, gap, over_ms);
      const stake = said.has(gap.stake) || (!late && gap.to !== told) ? "" : gap.stake;
      said.add(gap.to).add(stake);
      const line = `${late} ${stake}`.trim();
      return line ? [line] : [];
    },
  );
}

/** @param {Ahead} ahead @param {{to: string}} gap @param {number} over */
const lateWords = (ahead, { to }, over) =>
  say("page-day-late", { step: named(ahead, to), length: overWords(over) });

/** @template {{over_ms: number}} G @param {readonly G[]} gaps */
const worstFirst = (gaps) => [...gaps].sort((one, other) => other.over_ms - one.over_ms);

/**
 * What stopping until each of these would do; what a longer stop does as well is said of that alone.
 * @param {Ahead} ahead @param {number[]} untils the soonest first
 */
export function stopLines(ahead, untils) {
  const told = untils.map((until) => ifStopped(ahead, until));
  const does = told.map((each) => JSON.stringify(each));
  return untils.flatMap((until, place) =>
    does.includes(does[place], place + 1) ? [] : [stopWords(ahead, until, told[place])],
  );
}

/** @typedef {{finish: number | null, later: number, missed: GapOver[]}} Stopped */

/**
 * What happens when nothing is begun before then. later: than the end that stands on the screen, which a plan may
 * have put later than could be.
 * @param {Ahead} ahead @param {number} until @returns {Stopped}
 */
function ifStopped({ problem, order, at, finish }, until) {
  const { finish_at: ends, later_ms: later, broken } = ifYouStop(problem, order, at, until);
  const worst = new Map(
    worstFirst(broken)
      .reverse()
      .map((each) => [each.gap.to, each]),
  );
  if (ends === null) return { finish: null, later: 0, missed: [] };
  const behind = finish === null ? (later ?? 0) : ends - finish;
  return behind > 0
    ? { finish: ends, later: behind, missed: [...worst.values()] }
    : { finish: ends - behind, later: 0, missed: [...worst.values()] };
}

/** @param {Ahead} ahead @param {number} until @param {Stopped} told */
function stopWords(ahead, until, { finish, later, missed }) {
  const stop = { when: when(until, ahead.at) };
  if (finish === null) return say("page-day-stop-no-hours", stop);
  const done = { ...stop, finish: when(finish, ahead.at) };
  return [
    later
      ? say("page-day-stop-later", { ...done, length: duration(later) })
      : say("page-day-stop-same", done),
    ...missed.flatMap(({ gap, over_ms }) => those([lateWords(ahead, gap, over_ms), gap.stake])),
  ].join(" ");
}

/** @param {PlanThere} plan @param {number} at @param {boolean} isOnline */
export function planAge(plan, at, isOnline) {
  if (!plan?.plan) return say("page-day-age-none");
  const age = Math.max(0, at - (plan.made_at ?? 0));
  const length = duration(age);
  const old = age < MINUTE_MS ? say("page-day-age-now") : say("page-day-age", { length });
  if (isOnline && !plan.behind) return old;
  return [
    isOnline || age < OLD_MS ? old : say("page-day-age-offline", { length }),
    say("page-day-age-behind"),
  ].join(" ");
}
