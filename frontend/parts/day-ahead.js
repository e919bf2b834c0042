// The day from now on, made on the phone alone: out of the runs, the bench hours and the last plan there is.
// Without a plan the plain rule orders the day. What is next is judged by looking ahead (bench/foresight.js).
//
//   dayAhead({ runs: [{ run, measured }], hours, plan, at })
// ->
// { problem, batches: [{ id, name }], order, tasks: [{ …task, starts_at, ends_at, maker }], hours, finish, broken, …}
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
//   stopWords(ahead, until)           // what happens when nothing is begun before then
//   planAge(plan, at, isOnline)       // how old the plan is, in words

import { ifYouStop, nextStep } from "../bench/foresight.js";
import { Day, Layout } from "../bench/layout.js";
import { full } from "../bench/lists.js";
import { compare } from "../bench/price.js";
import { openSheet } from "../bench/sheet/former.js";
import { makeProblem, tasksOf } from "../bench/tasks.js";
import { clock, dated, day as dayOf, duration } from "./words.js";
/** @import { Advice, GapOver, MakerWritten, MeasuredRecipe, Plan, Problem, RunDue } from "../../bench/shapes/page" */
/** @import { Sheet, State, Task, WhyNext } from "../../bench/shapes/page" */
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
    : { makers: [{ name: "Maker", hours: { zone: zoneHere(), daily: [["0:00", "24:00"]] } }] };

/** @param {{runs: DayPart[], hours: HoursDoc | null, plan: PlanThere, at: number}} given @returns {Ahead} */
export function dayAhead({ runs, hours, plan, at }) {
  // Asked at every turn of the page; the answer changes with what happens, and once a minute by itself.
  const key = [
    Math.floor(at / MINUTE_MS),
    hours,
    plan,
    ...runs.flatMap(({ run, measured }) => [run.state, measured]),
  ];
  const isSame = key.length === made.key.length && key.every((each, place) => each === made.key[place]);
  const ahead = (isSame && made.ahead) || lookAhead(runs, hoursOf(hours).makers, plan, at);
  made = { key, ahead };
  return ahead;
}

/** @param {Studio} studio @param {Run} run @param {MeasuredOf} measuredOf */
export function dayOfRun(studio, run, measuredOf) {
  const { plan, hours } = studio.planOf(run.id);
  const along = studio.together(run.id).filter((other) => other !== run);
  return dayAhead({
    runs: [run, ...along].map((each) => ({ run: each, measured: measuredOf(each) ?? null })),
    hours,
    plan,
    at: studio.at(),
  });
}

/**
 * When a batch that is not begun yet would be done, by the plain rule, beside these runs: { finish, hands_ms };
 * finish null where hours do not reach.
 * @param {{recipe: {measured: MeasuredRecipe}, sheet: Sheet, others: Run[], hours: HoursDoc | null, at: number,
 * measuredOf: MeasuredOf}} given @returns {BatchTime}
 */
export function newBatch({ recipe, sheet, others, hours, at, measuredOf }) {
  const fresh = {
    run: { id: "new", sheet, state: null, created_at: at, name: "" },
    measured: recipe.measured,
  };
  const { tasks, finish } = lookAhead(
    [...others.map((run) => ({ run, measured: measuredOf(run) ?? null })), fresh],
    hoursOf(hours).makers,
    null,
    at,
    false,
  );
  const own = tasks.filter(({ run }) => run === "new");
  const hands = own.filter(({ kind }) => kind === "hands").reduce((sum, task) => sum + task.left_ms, 0);
  return { finish: finish === null ? null : Math.max(...own.map((task) => task.ends_at)), hands_ms: hands };
}

/** @param {BatchTime} time @param {{at: number, others: number, by: "server" | "phone"}} told */
export function timeWords({ finish, hands_ms: hands }, { at, others, by }) {
  const source = by === "server" ? "Planned by the server" : "By this phone\u2019s plain rule";
  const beside = others ? `, beside the ${others === 1 ? "batch" : `${others} batches`} on the bench` : "";
  if (finish === null) return `${duration(hands)} of hands. The bench hours do not reach to its end.`;
  return `${duration(finish - at)} until done, ${when(finish, at)}. ${duration(hands)} of hands. ${source}${beside}.`;
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
    reason: task && why && why.kind !== "next" ? why.says : "",
  };
}

/** @param {Ahead} ahead @param {string} run @param {PlanThere} plan */
export function leadOf(ahead, run, plan) {
  const next = nextOf(ahead, plan);
  if (!next) return null;
  if (next.step !== null && next.run !== null && next.run !== run)
    return { step: null, advice: `First ${named(ahead, next.step)}.`, reason: "" };
  return { step: next.step?.slice(run.length + 1), advice: next.advice, reason: next.reason };
}

/** A step by its title, and its batch by name where there are several. @param {Ahead} ahead @param {string} id */
function named({ problem, batches }, id) {
  const { title, run } = full(problem.tasks.map((task) => [task.id, task])).get(id);
  return `\u201c${title}\u201d${batches.length > 1 ? ` of ${nameOf(batches, run)}` : ""}`;
}

/** @param {DayBatch[]} batches @param {string | undefined} run */
const nameOf = (batches, run) => batches.find(({ id }) => id === run)?.name ?? "this batch";

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
      const name = batches.length > 1 ? nameOf(batches, run) : "It";
      if (begins === null) return `${name} cannot be ready by ${when(by, at)}. ${why}`.trim();
      if (begins <= at || begun(run)) return `${name} can still be ready by ${when(by, at)}.`;
      return (
        `To be ready by ${when(by, at)}, it is enough to begin ` +
        `${batches.length > 1 ? `${name} ` : ""}${when(begins, at)}.`
      );
    });
}

/**
 * @param {DayPart[]} runs @param {readonly MakerWritten[]} makers @param {PlanThere} plan @param {number} at
 * @param {boolean} [isAsked] whether what is next is asked @returns {Ahead}
 */
function lookAhead(runs, makers, plan, at, isAsked = true) {
  const parts = runs.map(({ run, measured }) =>
    tasksOf(openSheet(run.sheet, measured), { state: run.state, run: run.id, hands: handsOf(run, plan) }),
  );
  const waits = parts
    .flatMap(({ tasks }) => tasks)
    .reduce((total, task) => total + (task.kind === "wait" ? task.left_ms : 0), 0);
  const problem = makeProblem(
    parts,
    makers,
    at,
    Math.min(Math.max(at + AHEAD_MS + waits, (plan?.ready_by ?? 0) + DAY_MS), at + 399 * DAY_MS),
  );
  const day = new Day(problem, at);
  const planned = plan?.plan?.steps.filter(({ kind }) => kind !== "wait") ?? [];
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
  const layout = planned.length ? asPlanned(day, planned, later) : byRule(day);
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
      ? nextAmong(problem, order, at, later)
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
  `${when(from, at)} to ` +
  `${new Date(from).toDateString() === new Date(until).toDateString() ? clock(until) : when(until, at)}`;

/**
 * What changes what to do, or what is lost whatever is done, in one line; "" where the next step is simply next.
 * @param {Ahead & {next: NextStep}} ahead
 */
function adviceWords(ahead) {
  const { next } = ahead;
  /** @param {string} id */
  const title = (id) => named(ahead, id);
  /** @param {number} ms */
  const over = (ms) => duration(Math.max(MINUTE_MS, ms));
  if (next.broken.length) {
    const [worst] = worstFirst(next.broken);
    return (
      `${title(worst.gap.to)} begins ${over(worst.over_ms)} past its latest, whatever is done. This is ` +
      "the least bad."
    );
  }
  if (next.step) {
    if (next.risk)
      return (
        `With slow hands ${title(next.risk.gap.to)} begins ${over(next.risk.over_ms)} past its latest. ` +
        "Make fewer pieces, or ask for a second pair of hands."
      );
    if (next.why.kind === "stay")
      return `Stay ${over(next.why.by_ms)} past ${clock(next.why.closes_at)}: this does not keep.`;
    return next.why.kind === "sooner"
      ? "What the plan had first would break a window now, or end the day later."
      : "";
  }
  return waitWords(ahead);
}

/** What is waited for, where nothing is to be begun. @param {Ahead & {next: NextStep}} ahead */
function waitWords(ahead) {
  const { at, batches } = ahead;
  const { why, until } = ahead.next;
  /** @param {string} id */
  const title = (id) => named(ahead, id);
  const then = until === null ? "" : when(until, at);
  const start = then && `: next start ${then}`;
  switch (why.kind) {
    case "no_hours":
      return "No bench hours are left. Give some under \u201cBench hours\u201d.";
    case "later":
      return `Begin ${batches.length > 1 ? nameOf(batches, why.run) : "it"} ${then}.`;
    case "closed":
      return `The bench opens ${then}.`;
    case "wait":
      return then && `Nothing needs hands before ${then}.`;
    case "ends_sooner":
      return `To wait with ${title(why.step)} ends the day sooner${start}.`;
    case "hours":
      return `${title(why.step)} would run past ${when(why.closes_at, at)}${start}.`;
    case "window": {
      if (!why.gap) return `${title(why.step)} now leaves no room for the rest${start}.`;
      const over = duration(Math.max(MINUTE_MS, why.over_ms ?? 0));
      return `${title(why.step)} now, and ${title(why.gap.to)} could begin ${over} too late${start}.`;
    }
    default:
      return "";
  }
}

/**
 * What is missed in the day as it stands: each step once, by its worst, and each stake once. Of a step that the advice
 * tells of already only the stake is left to say.
 * @param {Ahead} ahead
 */
export function brokenWords(ahead) {
  const [told = ""] = worstFirst(ahead.next?.broken ?? []).map(({ gap }) => named(ahead, gap.to));
  const said = new Set([told]);
  return worstFirst(ahead.broken.map(({ over, gap }) => ({ over_ms: over, gap }))).flatMap(
    ({ over_ms, gap }) => {
      const name = named(ahead, gap.to);
      const late = said.has(name)
        ? ""
        : `${name} begins ${duration(Math.max(MINUTE_MS, over_ms))} past its latest.`;
      const stake = said.has(gap.stake) || (!late && name !== told) ? "" : gap.stake;
      said.add(name).add(stake);
      const line = `${late} ${stake}`.trim();
      return line ? [line] : [];
    },
  );
}

/** @template {{over_ms: number}} G @param {readonly G[]} gaps */
const worstFirst = (gaps) => [...gaps].sort((one, other) => other.over_ms - one.over_ms);

/**
 * What stopping until each of these would do; what a longer stop does as well is said of that alone.
 * @param {Ahead} ahead @param {number[]} untils the soonest first
 */
export function stopLines(ahead, untils) {
  const lines = untils.map((until) => stopWords(ahead, until));
  const does = lines.map((line) => line.slice(line.indexOf(": ")));
  return lines.filter((_, place) => !does.includes(does[place], place + 1));
}

/** @param {Ahead} ahead @param {number} until */
export function stopWords(ahead, until) {
  const { problem, order, at, finish } = ahead;
  const told = ifYouStop(problem, order, at, until);
  const stops = `If you stop here until ${when(until, at)}: `;
  if (told.finish_at === null) return `${stops}the bench hours do not reach to the end any more.`;
  const worst = new Map(
    worstFirst(told.broken)
      .reverse()
      .map((each) => [named(ahead, each.gap.to), each]),
  );
  const missed = [...worst].map(
    ([name, { gap, over_ms }]) =>
      `${name} begins ${duration(Math.max(MINUTE_MS, over_ms))} past its ` +
      `latest${gap.stake ? ` (${gap.stake.replace(/\.$/, "").toLowerCase()})` : ""}`,
  );
  // Against the end that stands on the screen, which a plan may have put later than could be.
  const later = finish === null ? (told.later_ms ?? 0) : told.finish_at - finish;
  const ends =
    later > 0
      ? `it ends ${when(told.finish_at, at)}, ${duration(later)} later`
      : `it still ends ${when(told.finish_at - later, at)}`;
  return `${stops}${[...missed, ends].join("; ")}.`;
}

/** @param {PlanThere} plan @param {number} at @param {boolean} isOnline */
export function planAge(plan, at, isOnline) {
  if (!plan?.plan)
    return "Ordered on this phone by the plain rule: there is no plan of the server\u2019s yet.";
  const age = Math.max(0, at - (plan.made_at ?? 0));
  const old = age < MINUTE_MS ? "just now" : `${duration(age)} ago`;
  if (isOnline && !plan.behind) return `Planned ${old}.`;
  return isOnline || age < OLD_MS
    ? `Planned ${old}; what happened since is put in by this phone.`
    : `Offline. The plan is ${duration(age)} old; what happened since is put in by this phone.`;
}
