// The day from now on, made on the phone alone: out of the runs, the bench hours and the last plan there is.
// Without a plan the plain rule orders the day. What is next is judged by looking ahead (bench/foresight.js).
//
//   dayAhead({ runs: [{ run, measured }], hours, plan, at })
//     -> { problem, batches: [{ id, name }], order, tasks: [{ …task, starts_at, ends_at, maker }], hours, finish, broken, next }
//   dayOfRun(studio, run, measuredOf) // the same over all the runs that share this run's plan, or without one the bench
//   leadOf(ahead, run, plan)          // what the plan says is next in a run, and why: { step, says }, or null
//   whyWords(ahead, plan)             // why this now, or why wait, in one line; "" when there is nothing to say
//   stopWords(ahead, until)           // what happens when nothing is begun before then
//   planAge(plan, at, isOnline)       // how old the plan is, in words

import { ifYouStop, nextStep } from "../bench/foresight.js";
import { Day, Layout } from "../bench/layout.js";
import { compare } from "../bench/price.js";
import { makeProblem, tasksOf } from "../bench/tasks.js";
import { clock, day as dayOf, duration } from "./words.js";

const DAY_MS = 86_400_000;
const AHEAD_MS = 14 * DAY_MS; // of bench hours beyond all the waits there are
const MOST_LED = 160; // of more steps than this only the plan's order is followed: looking ahead would make the hand wait
const OLD_MS = 10 * 60_000; // a plan is called old after this
const MINUTE_MS = 60_000;

let made = { key: [], ahead: null };

/** Whose clock this phone shows. */
export const zoneHere = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The hours that hold on this phone: a bench that is always open, by its own clock, until the studio has said. */
export const hoursOf = (hours) => (hours?.version ? hours.document : { makers: [{ name: "Maker", hours: { zone: zoneHere(), daily: [["0:00", "24:00"]] } }] });

export function dayAhead({ runs, hours, plan, at }) {
  // Asked at every turn of the page; the answer changes with what happens, and once a minute by itself.
  const key = [Math.floor(at / MINUTE_MS), hours, plan, ...runs.flatMap(({ run, measured }) => [run.state, measured])];
  if (key.length !== made.key.length || key.some((each, place) => each !== made.key[place])) made = { key, ahead: lookAhead(runs, hoursOf(hours).makers, plan, at) };
  return made.ahead;
}

export function dayOfRun(studio, run, measuredOf) {
  const { plan, hours } = studio.planOf(run.id);
  const others = plan ? plan.parts.map((part) => studio.run(part.run)).filter((other) => other?.open) : studio.beside(run.id);
  const along = others.filter((other) => other !== run);
  return dayAhead({ runs: [run, ...along].map((each) => ({ run: each, measured: measuredOf(each) ?? null })), hours, plan, at: studio.at() });
}

export function leadOf(ahead, run, plan) {
  if (!ahead.next) return null;
  const task = ahead.problem.tasks.find(({ id }) => id === ahead.next.step);
  if (task && task.run !== run) return { step: null, says: `First \u201c${task.title}\u201d of ${ahead.batches.find(({ id }) => id === task.run).name}.` };
  return { step: task ? task.id.slice(run.length + 1) : null, says: whyWords(ahead, plan) };
}

function lookAhead(runs, makers, plan, at) {
  const parts = runs.map(({ run, measured }) => tasksOf(run.sheet, { state: run.state, run: run.id, recipe: measured, hands: handsOf(run, plan) }));
  const waits = parts.flatMap(({ tasks }) => tasks).reduce((total, task) => total + (task.kind === "wait" ? task.left_ms : 0), 0);
  const problem = makeProblem(parts, makers, at, Math.min(Math.max(at + AHEAD_MS + waits, (plan?.ready_by ?? 0) + DAY_MS), at + 399 * DAY_MS));
  const day = new Day(problem, at);
  const planned = plan?.plan?.steps.filter(({ kind }) => kind !== "wait") ?? [];
  const layout = planned.length ? asPlanned(day, planned) : byRule(day);
  const order = layout.order.filter((index) => day.hands[index]).map((index) => problem.tasks[index].id);
  const tasks = problem.tasks.map((task, index) => ({ ...task, starts_at: layout.start[index], ends_at: layout.end[index], maker: layout.maker[index] })).filter((task) => task.ends_at !== null);
  const inHand = tasks.find(({ kind, status }) => kind === "hands" && status === "begun");
  const isLed = day.open.length <= MOST_LED;
  const begins = plan?.plan?.aim === "ready_by" && !inHand ? plan.plan.begins_at : null;
  const next = begins > at ? { step: null, until: begins, why: { kind: "later", ready_by: plan.ready_by }, broken: [] } : inHand ? { step: inHand.id, until: null, why: { kind: "in_hand" }, broken: [] } : isLed ? nextStep(problem, order, at) : null;
  // As they were begun, whichever run's page this is: they are numbered by it.
  const batches = runs.map(({ run }) => run).sort((one, other) => one.created_at - other.created_at).map(({ id, name }) => ({ id, name }));
  return { problem, batches, order, tasks, hours: problem.makers.map((maker) => maker.hours), at, finish: layout.placed ? layout.finish : null, broken: layout.broken, next };
}

/** The plan's order, its times kept where that is no worse than as early as can be. */
function asPlanned(day, planned) {
  const numbers = day.byNeed(planned.map(({ id }) => id));
  const open = planned.map(({ id, starts_at }) => [day.number.get(id), starts_at]).filter(([index]) => day.open.includes(index));
  const [asWas, asEarly] = [new Layout(day, numbers, { notBefore: new Map(open) }), new Layout(day, numbers)];
  return isWorse(asWas, asEarly) ? asEarly : asWas;
}

/** As the recipes are written, unless the plain rule breaks less or ends sooner. */
function byRule(day) {
  const [asWritten, byTails] = [[], day.latestFinishFirst()].map((order) => new Layout(day, day.byNeed(order)));
  const isBetter = isWorse(asWritten, byTails) || (!isWorse(byTails, asWritten) && byTails.finish < asWritten.finish);
  return isBetter ? byTails : asWritten;
}

const isWorse = (one, other) => (one.placed !== other.placed ? !one.placed : compare(one.price, other.price) > 0);

/** The maker's own times for a run's steps, as the plan brought them. */
function handsOf({ id }, plan) {
  const own = Object.entries(plan?.hands_ms ?? {}).filter(([key]) => key.startsWith(`${id}/`));
  return Object.fromEntries(own.map(([key, ms]) => [key.slice(id.length + 1), ms]));
}

/** A clock time, with its day when that is not today. */
export function when(instant, at) {
  const name = new Date(instant).toLocaleDateString("en-GB", { weekday: "long" });
  if (new Date(instant).toDateString() === new Date(at).toDateString()) return clock(instant);
  return Math.abs(instant - at) < 6 * DAY_MS ? `${name} ${clock(instant)}` : dayOf(instant);
}

export function whyWords({ problem, next, at, finish }, plan) {
  if (!next) return "";
  const title = (id) => `\u201c${problem.tasks.find((task) => task.id === id).title}\u201d`;
  const over = (ms) => duration(Math.max(MINUTE_MS, ms));
  if (next.broken.length) {
    const [worst] = [...next.broken].sort((a, b) => b.over_ms - a.over_ms);
    return `Whatever is done, ${title(worst.gap.to)} begins ${over(worst.over_ms)} past its latest. This is the least bad.`;
  }
  if (next.step) {
    if (next.why.kind === "in_hand") return "";
    if (next.risk) return `With slow hands ${title(next.risk.gap.to)} begins ${over(next.risk.over_ms)} past its latest. Make fewer pieces, or ask for a second pair of hands.`;
    if (next.why.kind === "sooner") return "What the plan had first would break a window now, or end the day later.";
    const why = plan?.plan?.steps.find(({ id }) => id === next.step)?.why;
    if (why && why.kind !== "next") return why.says;
    return finish === null ? "" : `Next in order; all is done ${when(finish, at)}.`;
  }
  const { why, until } = next;
  const start = until === null ? "" : `: next start ${when(until, at)}`;
  const says = {
    finished: () => "",
    no_hours: () => "No bench hours are left. Give some under \u201cBench hours\u201d.",
    later: () => `To be ready by ${when(why.ready_by, at)} it is enough to begin ${when(until, at)}.`,
    closed: () => `The bench opens ${when(until, at)}.`,
    wait: () => (until === null ? "" : `Nothing needs hands before ${when(until, at)}.`),
    ends_sooner: () => `To wait with ${title(why.step)} ends the day sooner${start}.`,
    hours: () => `${title(why.step)} would run past ${when(why.closes_at, at)}${start}.`,
    window: () => (why.gap ? `${title(why.step)} now, and ${title(why.gap.to)} could begin ${over(why.over_ms)} too late${start}.` : `${title(why.step)} now leaves no room for the rest${start}.`),
  }[why.kind];
  return says();
}

export function stopWords({ problem, order, at, finish }, until) {
  const told = ifYouStop(problem, order, at, until);
  const stops = `If you stop here until ${when(until, at)}: `;
  if (told.finish_at === null) return `${stops}the bench hours do not reach to the end any more.`;
  const missed = told.broken.map(({ gap, over_ms }) => `\u201c${problem.tasks.find(({ id }) => id === gap.to).title}\u201d begins ${duration(Math.max(MINUTE_MS, over_ms))} past its latest${gap.stake ? ` (${gap.stake.replace(/\.$/, "").toLowerCase()})` : ""}`);
  // Against the end that stands on the screen, which a plan may have put later than could be.
  const later = told.finish_at - (finish ?? told.finish_at - told.later_ms);
  const ends = later > 0 ? `it ends ${when(told.finish_at, at)}, ${duration(later)} later` : `it still ends ${when(told.finish_at - later, at)}`;
  return `${stops}${[...missed, ends].join("; ")}.`;
}

export function planAge(plan, at, isOnline) {
  if (!plan?.plan) return "Ordered on this phone by the plain rule: there is no plan of the server\u2019s yet.";
  const age = Math.max(0, at - plan.made_at);
  const old = age < MINUTE_MS ? "just now" : `${duration(age)} ago`;
  if (isOnline && !plan.behind) return `Planned ${old}.`;
  return isOnline || age < OLD_MS ? `Planned ${old}; what happened since is put in by this phone.` : `Offline. The plan is ${duration(age)} old; what happened since is put in by this phone.`;
}
